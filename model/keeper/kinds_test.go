package keeper

import (
	"context"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/drill"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

var lotForm = regexp.MustCompile(`^([a-z-]+)\*(\d+)(?:\(m(\d+)\))?$`)

// settled gives a keeper with a tank of so many litres by its label, filled so many
// weeks ago, its water not measured.
func settled(t testing.TB, litres, weeks float64) (*Keeper, string) {
	t.Helper()
	k := openAt(t, t.TempDir())
	return k, settledIn(t, k, litres, weeks)
}

func settledIn(t testing.TB, k *Keeper, litres, weeks float64) string {
	t.Helper()
	ctx := context.Background()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	side := math.Cbrt(litres*1000/2) + 0.01 // cm: twice as long as wide and high
	for field, cm := range map[string]float64{"tank.length": 2 * side, "tank.width": side, "tank.height": side} {
		if err := k.Set(ctx, id, edit(field, strconv.FormatFloat(cm, 'f', 3, 64), "cm")); err != nil {
			t.Fatal(err)
		}
	}
	at := k.now().Add(-time.Duration(weeks * float64(7*24*time.Hour)))
	if _, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Filled, At: journal.CivilOf(at)}); err != nil {
		t.Fatal(err)
	}
	return id
}

// stocked puts animals into a tank; the last kind is wished for.
func stocked(t testing.TB, k *Keeper, id, stock string) {
	t.Helper()
	ctx := context.Background()
	parts := strings.Split(stock, ";")
	for i, p := range parts {
		m := lotForm.FindStringSubmatch(p)
		if m == nil {
			t.Fatalf("%q is no lot", p)
		}
		n := int(drill.Number(t, m[2]))
		var males *int
		if m[3] != "" {
			x := int(drill.Number(t, m[3]))
			males = &x
		}
		var err error
		if i == len(parts)-1 && i > 0 {
			_, err = k.AddWish(ctx, id, Wish{Species: fish.Code(m[1]), Count: n, Males: males})
		} else {
			var f string
			if f, err = k.AddFish(ctx, id, Fish{Name: m[1], Species: m[1], Count: n}); err == nil {
				err = k.SetFish(ctx, id, Fish{ID: f, Name: m[1], Species: m[1], Males: males})
			}
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

var (
	verdicts     = map[string]fish.Verdict{"compatible": fish.Steady, "caution": fish.Wait, "not compatible": fish.No}
	ruleInReason = regexp.MustCompile(`R(\d+)`)
	byNumber     = map[string]fish.Rule{"1": fish.Temperature, "2": fish.Acidity, "3": fish.Hardness, "4": fish.Salt, "5": fish.ColdAndWarm, "6": fish.Eaten, "7": fish.Fins,
		"8": fish.GroupSize, "9": fish.Rivals, "10": fish.Aggression, "11": fish.Alike, "12": fish.TankSize, "13": fish.Levels, "14": fish.Sexes, "15": fish.Pace,
		"16": fish.OwnKindOnly, "17": fish.Invertebrates, "18": fish.TankAge, "19": fish.Law}
)

// Combinations of the reference sheet and of textbooks, as a person would enter
// them: what lives in the tank, and one more kind that is wished for.
func TestCombinations(t *testing.T) {
	k := openAt(t, t.TempDir())
	for file, least := range map[string]int{"compat_cases.csv": 20, "textbook_cases.csv": 15} {
		rows := drill.Named(t, "fish/"+file)
		if len(rows) < least {
			t.Errorf("%s: %d cases, want at least %d", file, len(rows), least)
		}
		for _, r := range rows {
			id := settledIn(t, k, drill.Number(t, r["tank_l"]), drill.Number(t, r["tank_age_weeks"]))
			cooled(t, k, id, r["stock"])
			stocked(t, k, id, r["stock"])
			g, err := k.GetOn(context.Background(), id)
			if err != nil {
				t.Fatalf("%s: %v", r["case_id"], err)
			}
			want, ok := verdicts[r["expected"]]
			if !ok || g.Together.Verdict != want {
				t.Errorf("case %s, %s: %v, want %s: %s", r["case_id"], r["stock"], g.Together.Verdict, r["expected"], told(g.Together))
			}
			said := r["reason"]
			if n := r["rule"]; n != "" {
				said = "R" + n
			}
			for _, m := range ruleInReason.FindAllStringSubmatch(said, -1) {
				found := false
				for _, c := range g.Together.Clashes {
					found = found || c.Rule == byNumber[m[1]] && c.Verdict != fish.Steady
				}
				if !found {
					t.Errorf("case %s: no clash by R%s: %s", r["case_id"], m[1], told(g.Together))
				}
			}
		}
	}
}

// cooled sets the water to the middle of what the first kind wants, as somebody who
// keeps it does.
func cooled(t testing.TB, k *Keeper, id, stock string) {
	t.Helper()
	low, high := math.Inf(-1), math.Inf(1)
	for i, p := range strings.Split(stock, ";") {
		a, err := fish.Get(fish.Code(lotForm.FindStringSubmatch(p)[1]))
		if err != nil {
			t.Fatal(err)
		}
		l, h := float64(a.TempLow), float64(a.TempHigh)
		if i == 0 || math.Max(low, l) <= math.Min(high, h) {
			low, high = math.Max(low, l), math.Min(high, h)
		}
	}
	if err := k.Set(context.Background(), id, edit("settle.target", strconv.FormatFloat((low+high)/2, 'f', 1, 64), "degc")); err != nil {
		t.Fatal(err)
	}
}

func told(t fish.Together) string {
	var b strings.Builder
	for _, c := range t.Clashes {
		b.WriteString(string(c.Rule) + " " + c.Verdict.String() + " " + string(c.A) + " " + string(c.B) + "; ")
	}
	return b.String()
}

func edit(field, text, unit string) Edit {
	return Edit{Field: care.FieldID(field), Text: text, Reading: quantity.Reading{Unit: quantity.UnitCode(unit), Decimal: '.'}}
}

// The catalogue of a tank: what fits comes first, and what does not is left out on
// asking; without a tank all is there and nothing is said of fitting.
func TestCatalogue(t *testing.T) {
	ctx := context.Background()
	k, id := settled(t, 38, 20)
	stocked(t, k, id, "danio-rerio*2;neocaridina-davidi*1")
	c, err := k.Catalogue(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	all := c.Find(fish.Filter{}, false, nil)
	if len(all) != len(fish.All()) {
		t.Errorf("%d kinds, want %d", len(all), len(fish.All()))
	}
	for i := 1; i < len(all); i++ {
		if all[i-1].Verdict() > all[i].Verdict() {
			t.Errorf("%s (%v) stands before %s (%v)", all[i-1].Animal.Code, all[i-1].Verdict(), all[i].Animal.Code, all[i].Verdict())
		}
	}
	fits := c.Find(fish.Filter{}, true, nil)
	no, n := c.Count(fish.No)
	if len(fits) == 0 || len(fits)+no != n {
		t.Errorf("%d fit and %d do not, of %d", len(fits), no, n)
	}
	pleco := c.Find(fish.Filter{Text: "common pleco"}, false, nil)
	if len(pleco) == 0 || pleco[0].Animal.Code != "hypostomus-plecostomus" || pleco[0].Verdict() != fish.No || pleco[0].Fit.Clash.Rule != fish.TankSize {
		t.Errorf("common pleco: %+v", pleco)
	}
	danio := c.Find(fish.Filter{Text: "zebra danio"}, false, nil)
	if len(danio) == 0 || danio[0].Here != 2 || danio[0].Planned != 0 {
		t.Errorf("zebra danio: %+v", danio)
	}
	alone, err := k.Catalogue(ctx, "")
	if err != nil || alone.Home != nil {
		t.Fatalf("%+v, %v", alone, err)
	}
	if got := alone.Find(fish.Filter{}, true, nil); len(got) != len(fish.All()) || got[0].Fit != nil || got[0].Animal.Group != fish.Groups()[0] {
		t.Errorf("without a tank: %d kinds, the first %+v", len(got), got[0])
	}
	if _, err := k.Catalogue(ctx, "gone"); err == nil {
		t.Error("a tank that is gone has a catalogue")
	}
}

// One kind: how many fit agrees with what adding that many would do.
func TestRoomIsWhatTryingSays(t *testing.T) {
	ctx := context.Background()
	k, id := settled(t, 200, 20)
	stocked(t, k, id, "paracheirodon-innesi*10;corydoras-panda*6")
	for _, code := range []fish.Code{"trichogaster-chuna", "hyphessobrycon-amandae", "xiphophorus-maculatus"} {
		v, err := k.Kind(ctx, id, code)
		if err != nil {
			t.Fatal(err)
		}
		if v.Room.Most < 2 || v.Fit == nil || v.Home == nil {
			t.Fatalf("%s: %+v", code, v)
		}
		for n, full := range map[int]bool{v.Room.Most: false, v.Room.Most + 1: true} {
			g, err := k.GetOn(ctx, id, fish.Lot{Code: code, Count: n})
			if err != nil {
				t.Fatal(err)
			}
			if got := g.Capacity.Verdict == fish.No; got != full {
				t.Errorf("%d of %s: full is %v (%g)", n, code, got, float64(g.Capacity.Use))
			}
		}
	}
	if _, err := k.Kind(ctx, id, "no-such-animal"); err == nil {
		t.Error("an unknown kind has a page")
	}
	some := 0
	for _, a := range fish.All() {
		v, err := k.Kind(ctx, "", a.Code)
		if err != nil || v.Fit != nil || v.Room != nil {
			t.Errorf("%s by itself: %+v, %v", a.Code, v, err)
		}
		if len(v.Company) > 0 {
			some++
		}
	}
	if some < len(fish.All())/2 {
		t.Errorf("%d kinds have company", some)
	}
}

// What would fit instead: none of it is a no, and the kind itself is not among it.
func TestInstead(t *testing.T) {
	ctx := context.Background()
	k, id := settled(t, 1000, 20)
	stocked(t, k, id, "pterophyllum-scalare*2(m1);puntigrus-tetrazona*8")
	g, err := k.GetOn(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	if len(g.Instead) != 1 || g.Instead[0].Of != "puntigrus-tetrazona" || len(g.Instead[0].Kinds) == 0 {
		t.Fatalf("instead: %+v", g.Instead)
	}
	for _, s := range g.Instead[0].Kinds {
		if s.Verdict == fish.No || s.Code == "puntigrus-tetrazona" {
			t.Errorf("%+v is offered", s)
		}
	}
}

func BenchmarkKinds(b *testing.B) {
	ctx := context.Background()
	k, id := settled(b, 200, 20)
	stocked(b, k, id, "paracheirodon-innesi*10;corydoras-panda*6;trichogaster-chuna*2")
	c, err := k.Catalogue(ctx, id)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("catalogue", func(b *testing.B) {
		for b.Loop() {
			if _, err := k.Catalogue(ctx, id); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("find", func(b *testing.B) {
		for b.Loop() {
			c.Find(fish.Filter{Text: "tet"}, true, nil)
		}
	})
	b.Run("reference", func(b *testing.B) { // reading the stock alone
		for b.Loop() {
			if _, err := k.Stock(ctx, id); err != nil {
				b.Fatal(err)
			}
		}
	})
}
