package keeper_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// everything is the content of all tables that a person's record stands in, and of
// the settings named.
func everything(t *testing.T, dir string) string {
	t.Helper()
	ctx := context.Background()
	st, err := store.Open(ctx, dir, store.Options{Now: noon().now})
	must(t, err)
	defer st.Close()
	var b strings.Builder
	for _, table := range []struct{ name, order string }{{"tank", "id"}, {"answer", "tank, field"}, {"done", "tank, step"}, {"ack", "id"},
		{"entry", "id"}, {"entry_value", "entry, name"}, {"timer", "id"}} {
		rows, err := st.Load(ctx, table.name, nil, table.order)
		must(t, err)
		for _, r := range rows {
			fmt.Fprintln(&b, table.name, r)
		}
	}
	for _, name := range []string{"shop", "language", "units", "theme"} {
		v, ok, err := st.Setting(ctx, name)
		must(t, err)
		fmt.Fprintln(&b, "setting", name, v, ok)
	}
	return b.String()
}

func measure(number string, unit quantity.UnitCode) care.Answer {
	return care.Answer{Measure: quantity.Measure{Number: number, Unit: unit}, Origin: care.FromProfile}
}

func choice(option string) care.Answer { return care.Answer{Choice: option, Origin: care.FromProfile} }

func starter() slip.Profile {
	return slip.Profile{Version: 1, Tank: "Starter 10", Units: quantity.US, Region: "US", Shop: slip.Shop{Name: "Corner shop"},
		Answers: map[care.FieldID]care.Answer{"tank.nominal": choice("us_20_long"), "heater.watts": measure("100", "w"), "dose.amount": measure("5.0", "ml"),
			"dose.per": measure("10", "gal_us"), "settle.target": measure("77", "degf"), "stand.rated": measure("300", "lb"),
			"fish.kind": {Words: "Zebra danio", Origin: care.FromProfile}},
		Notes: map[string]string{"en": "Come back with a water test."}}
}

// A profile becomes a new tank in one step: nothing that was there before changes,
// one undo takes all of it away and one redo brings it back.
func TestTakeProfileIsOneStepAndTouchesNothingElse(t *testing.T) {
	ctx, dir := context.Background(), t.TempDir()
	k := open(t, dir, noon())
	own, err := k.MakeExample(ctx, words())
	must(t, err)
	must(t, k.SetSetting(ctx, "units", "metric"))
	must(t, k.SetShop(ctx, slip.Shop{Name: "Ours"}, nil))
	must(t, k.Close())
	before := everything(t, dir)

	k = open(t, dir, noon())
	id, err := k.TakeProfile(ctx, starter())
	must(t, err)
	label, values, ok := k.UndoLabel(ctx, "")
	if !ok || label != "undo.profile_take" || values["Name"] != "Starter 10" {
		t.Errorf("the step is %s %v", label, values)
	}
	if _, _, ok := k.UndoLabel(ctx, id); ok {
		t.Error("the new tank has a history of its own already")
	}
	tanks, err := k.Tanks(ctx)
	must(t, err)
	if last := tanks[len(tanks)-1]; len(tanks) != 2 || last.ID != id && tanks[0].ID != id {
		t.Errorf("tanks %+v", tanks)
	}
	v, _, err := k.FirstFill(ctx, id, care.TankPlace)
	must(t, err)
	if v.Tank.Origin != keeper.FromProfile || v.Tank.Name != "Starter 10" {
		t.Errorf("tank %+v", v.Tank)
	}
	must(t, k.Close())
	taken := everything(t, dir)
	lines := map[string]bool{}
	for _, l := range strings.Split(taken, "\n") {
		lines[l] = true
	}
	added := len(strings.Split(taken, "\n"))
	for _, l := range strings.Split(before, "\n") {
		if !lines[l] {
			t.Errorf("taking a profile changed %q", l)
		}
		added--
	}
	if want := 1 + 1 + len(starter().Answers); added != want { // the tank, its system, its answers
		t.Errorf("%d rows were added, want %d", added, want)
	}
	for _, l := range strings.Split(taken, "\n") {
		if strings.Contains(l, id) && !strings.HasPrefix(l, "tank ") && !strings.HasPrefix(l, "answer ") {
			t.Errorf("taking a profile wrote %q", l)
		}
	}

	k = open(t, dir, noon())
	_, _, err = k.Undo(ctx, "")
	must(t, err)
	must(t, k.Close())
	if got := everything(t, dir); got != before {
		t.Errorf("after undo:\n%s\nbefore:\n%s", got, before)
	}
	k = open(t, dir, noon())
	_, _, err = k.Redo(ctx, "")
	must(t, err)
	v, _, err = k.FirstFill(ctx, own, care.TankPlace)
	must(t, err)
	if v.Tank.Origin != keeper.Example {
		t.Errorf("the example is now %+v", v.Tank)
	}
	must(t, k.Close())
	if got := everything(t, dir); got != taken {
		t.Errorf("after redo:\n%s\nafter taking:\n%s", got, taken)
	}
}

// Answers stand as given, marked as the shop's; nothing is finished or confirmed.
func TestTakenAnswersAreTheShops(t *testing.T) {
	ctx, k := context.Background(), open(t, t.TempDir(), noon())
	defer k.Close()
	id, err := k.TakeProfile(ctx, starter())
	must(t, err)
	n := 0
	for _, step := range care.Steps() {
		v, _, err := k.FirstFill(ctx, id, step)
		must(t, err)
		if v.Page.State == care.Finished {
			t.Errorf("%s is finished", step)
		}
		for _, f := range v.Page.Fields {
			want, ok := starter().Answers[f.Field.ID]
			if !ok || !f.Given {
				continue
			}
			n++
			if f.Answer != want {
				t.Errorf("%s is %+v, want %+v", f.Field.ID, f.Answer, want)
			}
		}
		for _, x := range v.Page.Ticks {
			if x.Set {
				t.Errorf("%s is ticked", x.ID)
			}
		}
	}
	if n != len(starter().Answers) {
		t.Errorf("%d answers of the shop were seen, want %d", n, len(starter().Answers))
	}
}

// A size that is not the listed one leaves the list, as it does when typed.
func TestTakenSizesAgree(t *testing.T) {
	ctx, k := context.Background(), open(t, t.TempDir(), noon())
	defer k.Close()
	for _, c := range []struct {
		nominal, length string
		want            string
	}{{"us_10", "20.0", "us_10"}, {"us_10", "25", care.Custom}, {"", "25", care.Custom}, {care.Custom, "20", care.Custom}} {
		p := starter()
		p.Answers = map[care.FieldID]care.Answer{"tank.length": measure(c.length, "in")}
		if c.nominal != "" {
			p.Answers["tank.nominal"] = choice(c.nominal)
		}
		id, err := k.TakeProfile(ctx, p)
		must(t, err)
		back, err := k.ProfileOf(ctx, id)
		must(t, err)
		if got := back.Answers["tank.nominal"].Choice; got != c.want {
			t.Errorf("%s with %s in: listed as %q, want %q", c.nominal, c.length, got, c.want)
		}
		if got := back.Answers["tank.length"].Measure.Number; got != c.length {
			t.Errorf("%s with %s in: length %s", c.nominal, c.length, got)
		}
		if c.want == care.Custom && back.Answers["tank.width"].IsZero() {
			t.Errorf("%s with %s in: no width was kept", c.nominal, c.length)
		}
	}
}

// What cannot be taken changes nothing and says which field it is.
func TestTakeProfileRefuses(t *testing.T) {
	ctx, dir := context.Background(), t.TempDir()
	k := open(t, dir, noon())
	set := func(id care.FieldID, a care.Answer) func(*slip.Profile) {
		return func(p *slip.Profile) { p.Answers[id] = a }
	}
	for _, c := range []struct {
		name   string
		change func(*slip.Profile)
		field  string
		code   working.Key
	}{
		{"too long a tank", set("tank.length", measure("99", "m")), "tank.length", "refuse.outside"},
		{"400 °C", set("settle.target", measure("400", "degc")), "settle.target", "refuse.outside"},
		{"no number", set("dose.amount", measure("NaN", "ml")), "dose.amount", slip.CodeAnswer},
		{"half a heater", set("heater.count", measure("1.5", "piece")), "heater.count", "refuse.whole_number"},
		{"no option", set("tank.shape", choice("klein_bottle")), "tank.shape", "refuse.care.choice"},
		{"plug", set("plug.heater", choice("in")), "plug.heater", slip.CodeAnswer},
		{"tick", set("power.hands", choice(care.Ticked)), "power.hands", slip.CodeAnswer},
		{"confirmation", set("stand.confirmed", choice("yes")), "stand.confirmed", slip.CodeAnswer},
		{"no field", set("setting.units", choice("us")), "setting.units", slip.CodeAnswer},
		{"no name", func(p *slip.Profile) { p.Tank = " " }, "tank.name", "refuse.missing"},
		{"long name", func(p *slip.Profile) { p.Tank = strings.Repeat("a", 61) }, "tank.name", "refuse.care.words_long"},
		{"no units", func(p *slip.Profile) { p.Units = "" }, "units", slip.CodeUnits},
	} {
		p := starter()
		c.change(&p)
		id, err := k.TakeProfile(ctx, p)
		var r *working.Refusal
		if !errors.As(err, &r) || r.Field != c.field || r.Code != c.code || id != "" {
			t.Errorf("%s: %q %v, want %s of %s", c.name, id, err, c.code, c.field)
		}
	}
	tanks, err := k.Tanks(ctx)
	must(t, err)
	if _, _, ok := k.UndoLabel(ctx, ""); len(tanks) != 0 || ok {
		t.Errorf("a refused profile left %v", tanks)
	}
	must(t, k.Close())
	if got := everything(t, dir); strings.Contains(got, "answer ") {
		t.Errorf("a refused profile left %s", got)
	}
}

// A tank's profile, saved, opened, taken elsewhere and made again is the same; what
// is the keeper's own is not in it.
func TestProfileThroughAFile(t *testing.T) {
	ctx, dir := context.Background(), t.TempDir()
	shop := open(t, filepath.Join(dir, "shop"), noon())
	defer shop.Close()
	must(t, shop.SetShop(ctx, slip.Shop{Name: " Corner\tshop ", Address: "1 High Street\r\nTown"}, map[string]string{"en": "Feed sparingly.", "es": ""}))
	id, err := shop.MakeExample(ctx, words())
	must(t, err)
	_, err = shop.AddEntry(ctx, id, journal.Entry{Kind: journal.Note, Note: "a secret", At: "2026-11-25T08:10", Zone: "+01:00"})
	must(t, err)
	path := filepath.Join(dir, "starter.dlprofile")
	must(t, handOut(shop, id, path))
	first, err := os.ReadFile(path)
	must(t, err)
	for _, own := range []string{"secret", "plug.", `"power.`, "rinse.", ".have", "stand.confirmed", "cloudy", "hash"} {
		if bytes.Contains(first, []byte(own)) {
			t.Errorf("the profile holds %q", own)
		}
	}

	home := open(t, filepath.Join(dir, "home"), noon())
	defer home.Close()
	p, found, err := home.OpenProfile(context.Background(), path)
	if err != nil || len(found) != 1 || found[0].Code != "find.slip.signed_first" {
		t.Fatalf("%v %v", err, found)
	}
	if p.Shop != (slip.Shop{Name: "Corner shop", Address: "1 High Street\nTown"}) || !reflect.DeepEqual(p.Notes, map[string]string{"en": "Feed sparingly."}) {
		t.Errorf("shop %+v, notes %v", p.Shop, p.Notes)
	}
	if len(p.Answers) < 30 || p.Answers["frame.leg_width"].Measure != (quantity.Measure{Number: "45", Unit: "mm"}) {
		t.Errorf("%d answers: %v", len(p.Answers), p.Answers)
	}
	taken, err := home.TakeProfile(ctx, p)
	must(t, err)
	must(t, home.SetShop(ctx, p.Shop, p.Notes))
	again, err := home.ProfileOf(ctx, taken)
	must(t, err)
	again.Signature, again.Edition = p.Signature, p.Edition // the key and the count are the shop's
	if !reflect.DeepEqual(again, p) {
		t.Errorf("made again:\n%+v\nwant\n%+v", again, p)
	}
	must(t, handOut(home, taken, path))
	second, err := os.ReadFile(path)
	must(t, err)
	if unsigned(t, first) != unsigned(t, second) {
		t.Error("the second file differs from the first in more than who signed it")
	}
}

// unsigned is the file of a profile without its signature.
func unsigned(t *testing.T, data []byte) string {
	t.Helper()
	p, _, err := slip.ReadProfile(bytes.NewReader(data), int64(len(data)))
	must(t, err)
	var b bytes.Buffer
	must(t, slip.WriteProfile(&b, p, nil))
	return b.String()
}

// The shop's card refuses what a profile could not carry, and keeps the old one.
func TestSetShopRefuses(t *testing.T) {
	ctx, k := context.Background(), open(t, t.TempDir(), noon())
	defer k.Close()
	must(t, k.SetShop(ctx, slip.Shop{Name: "Ours"}, nil))
	for _, notes := range []map[string]string{{"../en": "x"}, {"en": strings.Repeat("a", slip.MaxString+1)}} {
		var e *slip.Error
		if err := k.SetShop(ctx, slip.Shop{Name: "Theirs"}, notes); !errors.As(err, &e) {
			t.Errorf("%d bytes: %v", len(fmt.Sprint(notes)), err)
		}
	}
	if s, _, err := k.Shop(ctx); err != nil || s.Name != "Ours" {
		t.Errorf("shop %v %v", s, err)
	}
}

// Only a plain file of a fair size is opened; a profile for another country says so.
func TestOpenProfile(t *testing.T) {
	ctx, dir := context.Background(), t.TempDir()
	k := open(t, filepath.Join(dir, "data"), noon())
	defer k.Close()
	id, err := k.MakeExample(ctx, words())
	must(t, err)
	good := filepath.Join(dir, "good.dlprofile")
	must(t, handOut(k, id, good))
	big := filepath.Join(dir, "big.dlprofile")
	must(t, os.WriteFile(big, nil, 0o600))
	must(t, os.Truncate(big, 1<<40)) // takes no room on the disk
	text := filepath.Join(dir, "text.dlprofile")
	must(t, os.WriteFile(text, []byte(strings.Repeat("words ", 100)), 0o600))
	for path, want := range map[string]working.Key{
		good: "", big: slip.CodeTooBig, text: slip.CodeNotSlip, dir: slip.CodeNotFile, filepath.Join(dir, "none"): slip.CodeUnreadable,
	} {
		p, _, err := k.OpenProfile(context.Background(), path)
		var e *slip.Error
		got := working.Key("")
		if errors.As(err, &e) {
			got = e.Code
		} else if err != nil {
			t.Errorf("%s: %v", path, err)
		}
		if got != want || (err != nil) != (p.Answers == nil) {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
	k.SetRegion(care.Region{Code: "ES"})
	_, found, err := k.OpenProfile(context.Background(), good)
	must(t, err)
	if len(found) != 2 || found[1].Code != "find.slip.region" || found[1].Text["There"] != "US" || found[1].Text["Here"] != "ES" {
		t.Errorf("found %+v", found)
	}
	if err := handOut(k, id, filepath.Join(dir, "none", "x.dlprofile")); err == nil {
		t.Error("saved into a folder that is not there")
	}
}
