package water

import (
	"errors"
	"regexp"
	"slices"
	"testing"

	"github.com/BurntSushi/toml"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"pgregory.net/rapid"
)

// messages reads the words of a language for an area.
func messages(t testing.TB, lang, area string) map[string]string {
	t.Helper()
	m := map[string]string{}
	if _, err := toml.DecodeFile("../../i18n/messages/"+area+"."+lang+".toml", &m); err != nil {
		t.Fatal(err)
	}
	return m
}

var hole = regexp.MustCompile(`\{\{\.([A-Za-z0-9]+)\}\}`)

func holes(text string) []string {
	var out []string
	for _, m := range hole.FindAllStringSubmatch(text, -1) {
		out = append(out, m[1])
	}
	slices.Sort(out)
	return out
}

// filled holds a finding against its message: there is one, and the finding
// brings what it asks for and nothing more, all of it finite.
func filled(t rapid.TB, say map[string]string, f working.Finding) {
	t.Helper()
	var brings []string
	for n, v := range f.Values {
		brings = append(brings, n)
		if !v.Known() || !quantity.Finite(v.X) {
			t.Fatalf("%s: %s is %v", f.Code, n, v)
		}
	}
	for n, k := range f.Words {
		brings = append(brings, n)
		if say[string(k)] == "" && k != "reading.is_not_detected" { // a word of readings, not of the water
			t.Fatalf("%s: no message for %q", f.Code, k)
		}
	}
	slices.Sort(brings)
	if text, ok := say[string(f.Code)]; !ok || !slices.Equal(brings, holes(text)) {
		t.Fatalf("%s brings %v, its message is %q", f.Code, brings, text)
	}
}

// TestFindingsAreFilled: the findings outside Interpret.
func TestFindingsAreFilled(t *testing.T) {
	say := messages(t, "en", "water")
	var fs []working.Finding
	for _, n := range []int{0, 15, 20, 30, 200} {
		l, _, err := PowerCutOxygen(cut(54, 0.18, 25, 2, n, 0.5))
		if err != nil {
			t.Fatal(err)
		}
		fs = append(fs, l.Findings...)
	}
	for _, k := range []working.Key{"find.water.power_never", "find.water.power_perhaps", "find.water.power_from", "find.water.power_hours"} {
		if !has(fs, k) {
			t.Errorf("no power cut says %s", k)
		}
	}
	for _, w := range []Homecoming{FloatAndMix, MoveSoon} {
		fs = append(fs, wayHomeSteps(w)...)
	}
	n, _, _ := NitriteChloride(NitriteWater{3, quantity.AsIon, quantity.Concentration(20).Value(), 0.06, 0})
	fs = append(fs, n.Findings...)
	a, b := quantity.Concentration(100), quantity.Concentration(500)
	cs, _ := GentleChange(WaterPair{Fraction: 0.5, Tank: 26, New: 14, TankPH: &Buffered{6.4, dkh(1)}, NewPH: &Buffered{8.0, dkh(12)}, TankTDS: &a, NewTDS: &b})
	for _, residual := range []quantity.Concentration{1, 3} {
		c, _ := StoichiometricCheck(StatedStrength{LiquidLabel(ml(5), quantity.Litres(38)), 0.1, Pentahydrate, residual})
		cs = append(cs, c)
	}
	for _, c := range cs {
		fs = append(fs, *c.Finding)
	}
	for _, f := range fs {
		filled(t, say, f)
	}
	if len(fs) < 40 {
		t.Errorf("only %d findings", len(fs))
	}
	_, _, err := Dose(LiquidLabel(quantity.Litres(5), quantity.Litres(38)), 0.01)
	var r *working.Refusal
	if !errors.As(err, &r) || !slices.Equal(holes(say[string(r.Code)]), []string{"Amount", "Per"}) || !r.Values["Amount"].Known() || !r.Values["Per"].Known() {
		t.Errorf("a strong label: %+v", r)
	}
}
