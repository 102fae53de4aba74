package slip

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/driploop/model/care"
	"example.org/driploop/model/drill"
	"example.org/driploop/model/working"
)

// answer is a body with one answer.
func answer(field, kind, value, unit string) string {
	return fmt.Sprintf(`{"units":"us","answers":[{"field":%q,"kind":%q,"value":"%s","unit":%q}]}`, field, kind, value, unit)
}

// Values made to mislead are refused, or taken as the harmless text they are.
func TestHostileValues(t *testing.T) {
	measure := func(value string) string { return answer("tank.length", "measure", value, "cm") }
	rows := []struct {
		name, body string
		want       working.Key
	}{
		{"NaN", measure("NaN"), CodeAnswer},
		{"infinity", measure("Inf"), CodeAnswer},
		{"minus infinity", measure("-Infinity"), CodeAnswer},
		{"1e308", measure("1e308"), CodeAnswer},
		{"32 nines", measure(strings.Repeat("9", 32)), CodeAnswer},
		{"hexadecimal", measure("0x1F"), CodeAnswer},
		{"underscores", measure("1_0"), CodeAnswer},
		{"comma", measure("60,5"), CodeAnswer},
		{"no digit before the point", measure(".5"), CodeAnswer},
		{"no digit after the point", measure("60."), CodeAnswer},
		{"two points", measure("6.0.5"), CodeAnswer},
		{"plus", measure("+60"), CodeAnswer},
		{"Arabic digits", measure("٦٠"), CodeAnswer},
		{"space", measure(" 60"), CodeAnswer},
		{"nothing", measure(""), CodeAnswer},
		{"minus alone", measure("-"), CodeAnswer},
		{"negative length", measure("-60"), CodeAnswer},
		{"nought length", measure("-0"), CodeAnswer},
		{"negative volume", answer("dose.amount", "measure", "-5", "ml"), CodeAnswer},
		{"400 °C", answer("settle.target", "measure", "400", "degc"), CodeAnswer},
		{"below nought absolute", answer("room.low", "measure", "-500", "degc"), CodeAnswer},
		{"2.5 fish", answer("fish.count", "measure", "2.5", "piece"), CodeAnswer},
		{"unit of another kind", answer("tank.length", "measure", "60", "kg"), CodeAnswer},
		{"unit that is none", answer("tank.length", "measure", "60", "cubit"), CodeAnswer},
		{"no unit", answer("tank.length", "measure", "60", ""), CodeAnswer},
		{"basis where none is", `{"units":"us","answers":[{"field":"tank.length","kind":"measure","value":"60","unit":"cm","basis":"n"}]}`, CodeAnswer},
		{"basis that is none", `{"units":"us","answers":[{"field":"water.residual","kind":"measure","value":"1","unit":"mg/l","basis":"x"}]}`, CodeAnswer},
		{"choice for a measure", answer("tank.length", "choice", "60", ""), CodeAnswer},
		{"measure for a choice", answer("tank.shape", "measure", "1", "piece"), CodeAnswer},
		{"option that is none", answer("tank.shape", "choice", "klein_bottle", ""), CodeAnswer},
		{"option with a unit", answer("tank.shape", "choice", "box", "cm"), CodeShape},
		{"words for a choice", answer("tank.shape", "words", "box", ""), CodeAnswer},
		{"kind that is none", answer("tank.shape", "picture", "box", ""), CodeShape},
		{"a value that is a number", `{"units":"us","answers":[{"field":"tank.length","kind":"measure","value":60,"unit":"cm"}]}`, CodeShape},
		{"a field twice", `{"units":"us","answers":[{"field":"tank.shape","kind":"choice","value":"box"},{"field":"tank.shape","kind":"choice","value":"cube"}]}`, CodeTwice},
		{"an unknown field twice", `{"units":"us","answers":[{"field":"x","kind":"choice","value":"box"},{"field":"x","kind":"choice","value":"cube"}]}`, CodeTwice},
		{"turned direction in a name", `{"units":"us","tank":"\u202Ekcehc\u202C"}`, CodeText},
		{"isolated direction in a note", `{"units":"us","notes":{"en":"a\u2066b"}}`, CodeText},
		{"turned direction in a shop's name", `{"units":"us","shop":{"name":"\u202Epohs"}}`, CodeText},
		{"overridden direction in an address", `{"units":"us","shop":{"address":"a\u202db"}}`, CodeText},
		{"isolated direction in the hours", `{"units":"us","shop":{"hours":"\u2067a\u2069"}}`, CodeText},
		{"Arabic mark in a shop's name", `{"units":"us","shop":{"name":"a\u061cb"}}`, CodeText},
		{"a shop's name that is drawn as nothing", `{"units":"us","shop":{"name":"\u3164\uffa0"}}`, CodeText},
		{"invisible letters in a name", `{"units":"us","tank":"a\u115f\u1160b"}`, CodeText},
		{"tags in a name", `{"units":"us","tank":"a\udb40\udc41b"}`, CodeText},
		{"zero byte in a name", `{"units":"us","tank":"a\u0000b"}`, CodeText},
		{"escape in a note", `{"units":"us","notes":{"en":"\u001b]0;x\u0007"}}`, CodeText},
		{"lines in a name", `{"units":"us","tank":"a\nb"}`, CodeText},
		{"turned direction in words", answer("fish.kind", "words", `a\u202eb`, ""), CodeText},
		{"name of 1 MB", `{"units":"us","tank":"` + strings.Repeat("a", 900_000) + `"}`, CodeString},
		{"no units", `{}`, CodeUnits},
		{"units that are none", `{"units":"cgs"}`, CodeUnits},
		{"region that is none", `{"units":"us","region":"usa"}`, CodeRegion},
		{"language that is none", `{"units":"us","notes":{"../en":"x"}}`, CodeLanguage},
		{"language of one letter", `{"units":"us","notes":{"e":"x"}}`, CodeLanguage},
		{"1e999", `{"units":"us","x":1e999}`, CodeNumber},
		{"NaN in JSON", `{"units":"us","x":NaN}`, CodeJSON},
		{"a key twice", `{"units":"us","units":"metric"}`, CodeTwice},
		{"a key twice, once escaped", `{"units":"us","\u0075nits":"metric"}`, CodeTwice},
		{"a key twice deep inside", `{"units":"us","x":[{"a":{"b":1,"b":1}}]}`, CodeTwice},
		{"not UTF-8", "{\"units\":\"us\",\"tank\":\"a\xff\"}", CodeJSON},
		{"byte order mark", "\ufeff{\"units\":\"us\"}", CodeJSON},
		{"cut short", `{"units":"us"`, CodeJSON},
		{"two values", `{"units":"us"}{"units":"metric"}`, CodeJSON},
		{"comma too many", `{"units":"us",}`, CodeJSON},
		{"comma missing", `{"units":"us" "tank":"x"}`, CodeJSON},
		{"key that is no text", `{1:2}`, CodeJSON},
		{"comment", `{"units":"us"/*x*/}`, CodeJSON},
		{"single quotes", `{'units':'us'}`, CodeJSON},
		{"list", `[]`, CodeShape},
		{"nothing in JSON", `null`, CodeShape},
		{"empty", ``, CodeJSON},
		{"shop that is a text", `{"units":"us","shop":"x"}`, CodeShape},
		{"notes that are a list", `{"units":"us","notes":[]}`, CodeShape},
		{"a note that is an object", `{"units":"us","notes":{"en":{}}}`, CodeShape},
		{"answers that are an object", `{"units":"us","answers":{}}`, CodeShape},
		{"an answer without a field", `{"units":"us","answers":[{}]}`, CodeShape},
		{"a name that is nothing", `{"units":"us","tank":null}`, CodeShape},
	}
	for _, r := range rows {
		_, _, err := read(saying(r.body))
		if got := codeOf(t, err); got != r.want {
			t.Errorf("%s: got %q (%v), want %q", r.name, got, err, r.want)
		}
	}
	if len(rows) < 60 {
		t.Fatalf("%d hostile values, want at least 60", len(rows))
	}
	drill.Tally(t, "D2-22", "hostile values of a profile, refused or taken as text", len(rows), 0)
}

// Text that another program might run is text here, kept letter by letter.
func TestTextStaysText(t *testing.T) {
	for _, s := range []string{"<script>alert(1)</script>", "# *bold* [x](http://x)", "=cmd|' /C calc'!A0", "+1", "-1", "@x", "{{.Name}}", "%s%n", "'; DROP TABLE tank;--",
		"9999-12-31", "0000-00-00", "علي", "ℌello", "e\u0301", "👩\u200d🔬", "a\u00a0b"} {
		p, found, err := read(saying(fmt.Sprintf(`{"units":"us","tank":%q,"notes":{"en":%q}}`, s, s)))
		if err != nil || len(found) > 0 {
			t.Errorf("%q: %v %v", s, err, found)
			continue
		}
		if p.Tank != s || p.Notes["en"] != s {
			t.Errorf("%q came back as %q and %q", s, p.Tank, p.Notes["en"])
		}
	}
}

// A zero loses its minus sign.
func TestMinusZero(t *testing.T) {
	for in, want := range map[string]string{"-0": "0", "-0.00": "0.00", "0.0": "0.0"} {
		p, _, err := read(saying(answer("wood.mass", "measure", in, "kg")))
		if err != nil {
			t.Errorf("%s: %v", in, err)
			continue
		}
		if got := p.Answers["wood.mass"].Measure.Number; got != want {
			t.Errorf("%s: got %s, want %s", in, got, want)
		}
	}
}

// A refused answer names its field and what the field accepts.
func TestRefusedAnswerNamesItsField(t *testing.T) {
	_, _, err := read(saying(answer("tank.length", "measure", "99", "m")))
	var e *Error
	var r *working.Refusal
	if !errors.As(err, &e) || !errors.As(err, &r) {
		t.Fatalf("got %v", err)
	}
	if e.Field != "tank.length" || r.Field != "tank.length" || r.Code != "refuse.outside" || r.Accept.High.X != 3 {
		t.Errorf("got %+v and %+v", e, r)
	}
	if f := e.Finding(); f.Code != "find.slip.answer" || f.Words["Field"] != "field.tank.length" {
		t.Errorf("finding %+v", f)
	}
	_, _, err = read(with(fill(600, func(i int) string { return fmt.Sprint(i) })...).bytes())
	if !errors.As(err, &e) || !errors.As(err, &r) {
		t.Fatalf("got %v", err)
	}
	if r.Code != CodeParts || r.Accept.High.X != MaxParts || e.Finding().Values["High"].X != MaxParts {
		t.Errorf("got %+v and %+v", e, r)
	}
}

// What a shop cannot answer is left out and named, whatever it says.
func TestFieldsThatAreNotTheShops(t *testing.T) {
	n := 0
	for _, f := range care.Fields() {
		if Settable(f.ID) {
			continue
		}
		n++
		option := care.Ticked
		if len(f.Options) > 0 {
			option = f.Options[len(f.Options)-1]
		}
		p, found, err := read(saying(answer(string(f.ID), "choice", option, "")))
		if err != nil || len(p.Answers) != 0 || len(found) != 1 || found[0].Code != FoundNotSettable || found[0].Words["Field"] != f.Label() {
			t.Errorf("%s: %v %v %v", f.ID, p.Answers, found, err)
		}
		p = Profile{Units: "us", Answers: map[care.FieldID]care.Answer{f.ID: {Choice: option, Origin: care.FromProfile}}}
		if got := codeOf(t, p.Check()); got != CodeAnswer {
			t.Errorf("%s in a profile to be written: %q", f.ID, got)
		}
	}
	if n < 40 {
		t.Fatalf("only %d fields are not the shop's, want at least 40", n)
	}
	for _, id := range []care.FieldID{"plug.heater", "plug.filter", "plug.light", "stand.confirmed", "stand.anchored", "glass.wet_test", "tank.system", "power.hands", "fill.dose",
		"rinse.tank", "kit.tank.have", "bag.temp", "home.float", "mature.way", "fish.quarantine", "fill.hot", "none.such"} {
		if Settable(id) {
			t.Errorf("%s is settable", id)
		}
	}
}

// A file of a later version gives what is understood and names the rest.
func TestLaterVersion(t *testing.T) {
	body := `{"units":"metric","tank":"T","mood":1,"shop":{"name":"S","moon":"full"},"answers":[
		{"field":"tank.shape","kind":"choice","value":"box","why":"x"},{"field":"tank.edge","kind":"choice","value":"floating"},
		{"field":"tank.material","kind":"hologram","value":"x"},{"field":"tank.colour","kind":"colour","value":"red"}]}`
	extra := file("picture.jpg", "x")
	main := file(partProfile, body)
	p, found, err := read(archive{pieces: []piece{file(partManifest, profiles.listing(3, main, extra)), extra, main}}.bytes())
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range found {
		s := string(f.Code)
		for _, x := range []string{f.Text["Name"], string(f.Words["Field"])} {
			if x != "" {
				s += " " + x
			}
		}
		got = append(got, s)
	}
	want := []string{"find.slip.newer", "find.slip.part picture.jpg", "find.slip.member mood", "find.slip.member shop.moon", "find.slip.member answers.why",
		"find.slip.not_understood field.tank.edge", "find.slip.not_understood field.tank.material", "find.slip.field tank.colour"}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("named:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if p.Version != 3 || p.Shop.Name != "S" || len(p.Answers) != 1 || p.Answers["tank.shape"].Choice != "box" {
		t.Errorf("read %+v", p)
	}
	if v := found[0].Values["Version"]; v.X != 3 {
		t.Errorf("version %v", v)
	}
	// Handed on, it loses nothing that was not known; what was not understood of a field
	// that is known is the reader's own to answer.
	var b bytes.Buffer
	if err := WriteProfile(&b, p, nil); err != nil {
		t.Fatal(err)
	}
	again, named, err := ReadProfile(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil || len(named) != 2 || !reflect.DeepEqual(again.Later, p.Later) {
		t.Errorf("handed on: %+v, %v, %v", again.Later, named, err)
	}
	if p.Later.Members["mood"] != "1" || len(p.Later.Members) != 1 || !slices.Equal(p.Later.Answers, []string{`{"field":"tank.colour","kind":"colour","value":"red"}`}) {
		t.Errorf("kept %+v", p.Later)
	}
}

// What a later version added is kept up to a bound; what this program has come to know
// since is not written twice.
func TestLaterHasItsBounds(t *testing.T) {
	for _, n := range []int{-1, 0, 1} {
		body := `{"units":"us","a":"` + strings.Repeat("x", MaxLater-len("a")-2+n) + `"}`
		p, found, err := read(saying(body))
		if err != nil || len(found) != 1 || (len(p.Later.Members) == 1) != (n <= 0) {
			t.Errorf("%+d: %d members, %v, %v", n, len(p.Later.Members), found, err)
		}
	}
	p := Profile{Units: "us", Answers: map[care.FieldID]care.Answer{"tank.shape": {Choice: "box", Origin: care.FromProfile}},
		Later: Later{Members: map[string]string{"tank": `"T"`, "bad": "{"}, Answers: []string{`{"field":"tank.shape","kind":"choice","value":"bow"}`, `[]`}}}
	var b bytes.Buffer
	if err := WriteProfile(&b, p, nil); err != nil {
		t.Fatal(err)
	}
	q, found, err := ReadProfile(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil || len(found) != 0 || q.Tank != "" || q.Answers["tank.shape"].Choice != "box" || !q.Later.IsZero() {
		t.Errorf("read %+v, %v, %v", q, found, err)
	}
}

// Names of what is left out are shown short and plain, and not without end.
func TestNamesOfWhatIsLeftOut(t *testing.T) {
	var b strings.Builder
	for i := range 100 {
		fmt.Fprintf(&b, `,"k%d":0`, i)
	}
	_, found, err := read(saying(`{"units":"us","\u202e` + strings.Repeat("x", 9000) + `":1` + b.String() + `}`))
	if err != nil {
		t.Fatal(err)
	}
	if len(found) != maxNamed+1 || found[maxNamed].Code != FoundMore || found[maxNamed].Values["Left"].X != 101-maxNamed {
		t.Fatalf("%d findings, the last %+v", len(found), found[len(found)-1])
	}
	if name := found[0].Text["Name"]; len([]rune(name)) != shownName+1 || strings.ContainsRune(name, '\u202e') {
		t.Errorf("shown as %q", name)
	}
}
