package slip

import (
	"archive/zip"
	"bytes"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/driploop/model/care"
	"example.org/driploop/model/drill"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
)

// someText draws text of up to n runes that a slip carries, whatever script.
func someText(t *rapid.T, n int, lines bool, label string) string {
	s := rapid.StringOfN(rapid.OneOf(rapid.Rune(), rapid.RuneFrom([]rune("aé ñ\n<&>\"\\=😀\u200d\u2028"))), 0, n, -1).Draw(t, label)
	if lines {
		return Tidy(s)
	}
	return OneLine(s)
}

// someAnswer draws an answer that the field takes.
func someAnswer(t *rapid.T, f *care.Field) care.Answer {
	a := care.Answer{Origin: care.FromProfile}
	switch f.Type {
	case care.TypeChoice:
		a.Choice = rapid.SampledFrom(f.Options).Draw(t, string(f.ID))
	case care.TypeWords:
		a.Words = someText(t, care.MaxWords, false, string(f.ID))
	case care.TypeMeasure:
		units := quantity.UnitsOf(f.Kind)
		if f.Kind == quantity.KindMoney {
			units = []quantity.Unit{{Code: "USD", Factor: 1}, {Code: "EUR", Factor: 1}}
		}
		u := rapid.SampledFrom(units).Draw(t, "unit of "+string(f.ID))
		x := u.FromBase(rapid.Float64Range(f.Low, f.High).Draw(t, string(f.ID)))
		decimals := rapid.IntRange(0, 12).Draw(t, "decimals")
		if f.Whole {
			decimals = 0
		}
		a.Measure = quantity.Measure{Number: unsigned(strconv.FormatFloat(x, 'f', decimals, 64)), Unit: u.Code}
		if f.Kind == quantity.KindConcentration {
			a.Measure.Basis = rapid.SampledFrom([]quantity.Basis{"", quantity.AsN, quantity.AsIon}).Draw(t, "basis")
		}
	}
	return a
}

func someProfile(t *rapid.T) Profile {
	p := Profile{Version: Version, MadeBy: Maker{someText(t, MaxProgram, false, "program"), someText(t, MaxProgram, false, "version")},
		Shop: Shop{someText(t, MaxShopName, false, "shop"), someText(t, MaxAddress, true, "address"), someText(t, MaxHours, true, "hours")},
		Tank: someText(t, MaxTankName, false, "tank"), Units: rapid.SampledFrom(quantity.Systems()).Draw(t, "units"),
		Region:  rapid.SampledFrom([]string{"", "US", "ES", "GB"}).Draw(t, "region"),
		Answers: map[care.FieldID]care.Answer{}, Notes: map[string]string{}}
	for _, f := range care.Fields() {
		if !Settable(f.ID) || !rapid.Bool().Draw(t, "has "+string(f.ID)) {
			continue
		}
		if a := someAnswer(t, f); checkAnswer(partProfile, "answers", f.ID, a) == nil { // rounding can leave the range
			p.Answers[f.ID] = a
		}
	}
	for _, lang := range []string{"en", "es", "zh-Hant-TW"} {
		if rapid.Bool().Draw(t, "note "+lang) {
			p.Notes[lang] = someText(t, 400, true, lang)
		}
	}
	p.Edition = rapid.IntRange(0, MaxEdition).Draw(t, "edition")
	p.Plan = somePlan(t)
	for _, d := range Weekdays() {
		if len(p.Feeding.Fasting) < maxFasting && rapid.Bool().Draw(t, "fasting") {
			p.Feeding.Fasting = append(p.Feeding.Fasting, d)
		}
	}
	if rapid.Bool().Draw(t, "share") {
		p.Feeding.Share = quantity.Measure{Number: strconv.Itoa(rapid.IntRange(1, 10).Draw(t, "share")) + ".0", Unit: "percent"}
	}
	if rapid.Bool().Draw(t, "protein") {
		p.Feeding.Protein = quantity.Measure{Number: strconv.Itoa(rapid.IntRange(10, 69).Draw(t, "protein")), Unit: "percent"}
	}
	for _, s := range care.Steps() {
		if Marked(s) && rapid.Bool().Draw(t, "mark") {
			p.Marks = append(p.Marks, s)
		}
	}
	return p
}

// somePlan draws a care plan: usual rounds, each once, and own ones.
func somePlan(t *rapid.T) []Round {
	var out []Round
	for _, c := range append(rounds.Usual(), rounds.Own, rounds.Own) {
		if !rapid.Bool().Draw(t, "plan "+string(c)) {
			continue
		}
		r := Round{Code: c, At: rapid.SampledFrom([]string{"00:00", "08:30", "23:59"}).Draw(t, "at"), Note: someText(t, 100, false, "note"),
			Rule: rapid.SampledFrom([]string{"FREQ=DAILY", "FREQ=WEEKLY;BYDAY=SA", "FREQ=WEEKLY;INTERVAL=2;BYDAY=MO,TH", "FREQ=MONTHLY;BYMONTHDAY=-1", "FREQ=DAILY;COUNT=1"}).Draw(t, "rule")}
		if c == rounds.Own {
			r.Title = "x" + someText(t, 40, false, "title")
		}
		out = append(out, r)
	}
	return out
}

func write(t interface{ Fatal(...any) }, p Profile) []byte {
	var b bytes.Buffer
	if err := WriteProfile(&b, p, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// What is written is read back the same, and written again byte for byte the same;
// a plain ZIP reader sees the same parts, and the parts follow their schemas.
func TestRoundTrip(t *testing.T) {
	profiles, answers := 0, map[care.FieldID]bool{}
	check := func(t *rapid.T) {
		p := someProfile(t)
		first := write(t, p)
		q, found, err := read(first)
		if err != nil || len(found) > 0 {
			t.Fatalf("reading what was written: %v %v", err, found)
		}
		if !reflect.DeepEqual(p, q) {
			t.Fatalf("wrote %+v\nread  %+v", p, q)
		}
		if second := write(t, q); !bytes.Equal(first, second) {
			t.Fatalf("the second writing differs: %d bytes, then %d", len(first), len(second))
		}
		parts := unzip(t, first)
		validate(t, "manifest", parts[partManifest])
		validate(t, "profile", parts[partProfile])
		profiles++
		for id := range p.Answers {
			answers[id] = true
		}
	}
	for profiles < 500 { // rapid makes 100 a time unless it is told otherwise
		rapid.Check(t, check)
	}
	drill.Tally(t, "D2-50", "profiles, written and read again", profiles, 0)
	for _, f := range care.Fields() {
		if Settable(f.ID) && !answers[f.ID] {
			t.Errorf("%s was in none of %d profiles", f.ID, profiles)
		}
	}
}

func unzip(t interface{ Fatal(...any) }, b []byte) map[string][]byte {
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(f.Name, err)
		}
		data, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(f.Name, err)
		}
		out[f.Name] = data
	}
	return out
}

// The bytes depend on nothing but the profile: not on the time, nor on the version
// of a packer. The hash is this program's own first result, kept.
func TestBytesAreReproducible(t *testing.T) {
	p := Profile{MadeBy: Maker{"Driploop", "1"}, Units: quantity.US, Tank: "Starter 10", Notes: map[string]string{"es": "b", "en": "a"},
		Answers: map[care.FieldID]care.Answer{"tank.shape": {Choice: "box", Origin: care.FromProfile},
			"dose.amount": {Measure: quantity.Measure{Number: "5.0", Unit: "ml"}, Origin: care.FromProfile}}}
	const want = "f25c77a672c4886f9c3bf0c171ef3c5daf33d186ebf769fff80af1673f129901"
	if got := hashOf(write(t, p)); got != want {
		t.Errorf("the file's SHA-256 is %s, want %s", got, want)
	}
}

// A profile that could not be read back is not written.
func TestWritingRefuses(t *testing.T) {
	many := map[string]string{}
	for i := range 200 {
		many["aa-"+strconv.Itoa(10000+i)] = strings.Repeat("a", MaxString)
	}
	for name, c := range map[string]struct {
		p    Profile
		want string
	}{
		"no units":      {Profile{}, "refuse.slip.units"},
		"long name":     {Profile{Units: "us", Tank: strings.Repeat("a", MaxTankName+1)}, "refuse.slip.long"},
		"hidden text":   {Profile{Units: "us", Shop: Shop{Name: "a\u202eb"}}, "refuse.slip.text"},
		"many notes":    {Profile{Units: "us", Notes: many}, "refuse.slip.json_size"},
		"empty answer":  {Profile{Units: "us", Answers: map[care.FieldID]care.Answer{"fish.kind": {Origin: care.FromProfile}}}, "refuse.slip.answer"},
		"person's word": {Profile{Units: "us", Answers: map[care.FieldID]care.Answer{"fish.kind": {Words: "x", Origin: care.FromPerson}}}, "refuse.slip.answer"},
		"two answers":   {Profile{Units: "us", Answers: map[care.FieldID]care.Answer{"fish.kind": {Words: "x", Choice: "y", Origin: care.FromProfile}}}, "refuse.slip.answer"},
		"edition":       {Profile{Units: "us", Edition: -1}, "refuse.slip.number"},
		"follow-up":     {Profile{Units: "us", Plan: []Round{{Code: rounds.Retest, Rule: "FREQ=DAILY", At: "08:00"}}}, "refuse.slip.plan"},
		"time of day":   {Profile{Units: "us", Plan: []Round{{Code: rounds.Look, Rule: "FREQ=DAILY", At: "24:00"}}}, "refuse.slip.plan"},
		"rule":          {Profile{Units: "us", Plan: []Round{{Code: rounds.Look, Rule: "FREQ=HOURLY", At: "08:00"}}}, "refuse.slip.plan"},
		"small rule":    {Profile{Units: "us", Plan: []Round{{Code: rounds.Look, Rule: "freq=daily", At: "08:00"}}}, "refuse.slip.plan"},
		"untitled":      {Profile{Units: "us", Plan: []Round{{Code: rounds.Own, Rule: "FREQ=DAILY", At: "08:00"}}}, "refuse.slip.plan"},
		"round twice":   {Profile{Units: "us", Plan: []Round{{Code: rounds.Look, Rule: "FREQ=DAILY", At: "08:00"}, {Code: rounds.Look, Rule: "FREQ=DAILY", At: "09:00"}}}, "refuse.slip.twice"},
		"much food":     {Profile{Units: "us", Feeding: Feeding{Share: quantity.Measure{Number: "11", Unit: "percent"}}}, "refuse.slip.feeding"},
		"days":          {Profile{Units: "us", Feeding: Feeding{Fasting: []time.Weekday{time.Sunday, time.Monday}}}, "refuse.slip.feeding"},
		"no food":       {Profile{Units: "us", Feeding: Feeding{Fasting: Weekdays()}}, "refuse.slip.feeding"},
		"mark":          {Profile{Units: "us", Marks: []care.Step{care.PowerOn}}, "refuse.slip.mark"},
		"minus zero": {Profile{Units: "us", Answers: map[care.FieldID]care.Answer{
			"wood.mass": {Measure: quantity.Measure{Number: "-0", Unit: "kg"}, Origin: care.FromProfile}}}, "refuse.slip.answer"},
	} {
		var b bytes.Buffer
		if got := codeOf(t, WriteProfile(&b, c.p, nil)); string(got) != c.want || b.Len() > 0 {
			t.Errorf("%s: %q and %d bytes, want %q and none", name, got, b.Len(), c.want)
		}
	}
}

func TestFieldsAreInTheOrderAsked(t *testing.T) {
	p := Profile{Answers: map[care.FieldID]care.Answer{"fish.kind": {}, "tank.length": {}, "lid.kind": {}, "tank.nominal": {}}}
	if got, want := p.Fields(), []care.FieldID{"tank.nominal", "tank.length", "lid.kind", "fish.kind"}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestTidy(t *testing.T) {
	for in, want := range map[string]string{"a\r\nb\rc\td": "a\nb\nc d", "a\u202eb\x00c\xff": "abc", "علي\u200f": "علي\u200f"} {
		if got := Tidy(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
	if got := OneLine(" a \n b "); got != "a b" {
		t.Errorf("got %q", got)
	}
}
