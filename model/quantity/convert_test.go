package quantity

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func near(got, want, relative float64) bool {
	return math.Abs(got-want) <= relative*math.Max(math.Abs(want), math.SmallestNonzeroFloat64)
}

// conversions gives this program's figure for each row of units.csv.
var conversions = map[string]func() float64{
	"1 US gal -> L":                          ratio("gal_us", "l"),
	"1 US fl oz -> mL":                       ratio("floz_us", "ml"),
	"1 US teaspoon -> mL":                    ratio("tsp_us", "ml"),
	"1 lb -> kg":                             ratio("lb", "kg"),
	"1 ft3 -> L":                             func() float64 { return foot * foot * foot * 1000 },
	"1 grain/US gal -> mg/L":                 ratio("gpg", "mg/l_caco3"),
	"1 Clark degree (grain/imp gal) -> mg/L": ratio("clark", "mg/l_caco3"),
	"1 dGH -> mmol/L (Ca+Mg)":                ratio("dgh", "mmol/l"),
	"1 dGH -> meq/L":                         ratio("dgh", "meq/l"),
	"1 meq/L -> mg/L CaCO3":                  ratio("meq/l", "mg/l_caco3"),
	"1 French degree -> mg/L CaCO3":          ratio("degf_fr", "mg/l_caco3"),
	"1 dGH -> French degree":                 ratio("dgh", "degf_fr"),
	"1 mg/L NH4-N -> mg/L NH4+":              ion(Ammonium),
	"1 mg/L NO2-N -> mg/L NO2-":              ion(Nitrite),
	"1 mg/L NO2- -> NO2-N":                   nitrogen(Nitrite),
	"1 mg/L NO3- -> NO3-N":                   nitrogen(Nitrate),
	"1 mg/L NH4+ -> NH4-N":                   nitrogen(Ammonium),
	"77 F -> C":                              func() float64 { return MustUnit("degf").ToBase(77) },
	"1 mmHg -> kPa":                          ratio("mmhg", "kpa"),
}

func ratio(from, to UnitCode) func() float64 {
	return func() float64 { return MustUnit(to).FromBase(MustUnit(from).ToBase(1)) }
}

func ion(s Species) func() float64 {
	return func() float64 { c, _ := ToIon(1, s, AsN); return float64(c) }
}

func nitrogen(s Species) func() float64 {
	return func() float64 { c, _ := ToN(1, s, AsIon); return float64(c) }
}

// The tolerances of the table, as relative ones; "exact" is what eight printed
// figures can tell.
func tolerance(t *testing.T, s string) float64 {
	if s == "exact" {
		return 5e-8
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatalf("units.csv: tolerance %q", s)
	}
	return x
}

func TestConversionsOfTheWaterTable(t *testing.T) {
	read := 0
	for _, line := range rows(t, "units.csv")[1:] {
		c := strings.Split(line, ",")
		mine, ok := conversions[c[0]]
		if !ok {
			continue
		}
		read++
		want, err := strconv.ParseFloat(c[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		if got := mine(); !near(got, want, tolerance(t, c[3])) {
			t.Errorf("units.csv (definitions, IUPAC masses), %s: want %g within %s, got %.9g", c[0], want, c[3], got)
		}
		if c[2] == "" {
			continue
		}
		if want, err = strconv.ParseFloat(c[2], 64); err != nil {
			t.Fatal(err)
		}
		if got := mine(); !near(got, want, 5e-8) {
			t.Errorf("units.csv (GNU units 2.22), %s: want %g, got %.9g", c[0], want, got)
		}
	}
	if read != len(conversions) {
		t.Fatalf("%d of the %d conversions stand in units.csv", read, len(conversions))
	}
}

func TestFactorsAgainstGNUUnits(t *testing.T) {
	read := 0
	for _, line := range rows(t, "gnu_units.csv")[1:] {
		c := strings.Split(line, ",")
		want, err := strconv.ParseFloat(c[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		read++
		if got := ratio(UnitCode(c[0]), UnitCode(c[1]))(); !near(got, want, 1e-11) {
			t.Errorf("gnu_units.csv, 1 %s in %s: want %.12g, got %.12g", c[0], c[1], want, got)
		}
	}
	if read < 31 {
		t.Fatalf("only %d rows of gnu_units.csv were read, want 31", read)
	}
}

// Source: fixed points of the scales; 98.6 °F is 37 °C, -40 is common to both.
func TestTemperaturePointsAndDifferences(t *testing.T) {
	f, d := MustUnit("degf"), MustUnit("f_diff")
	for _, c := range [][2]float64{{32, 0}, {212, 100}, {98.6, 37}, {-40, -40}, {77, 25}} {
		if got := f.ToBase(c[0]); math.Abs(got-c[1]) > 1e-12 {
			t.Errorf("%g °F: want %g °C, got %.15g", c[0], c[1], got)
		}
	}
	if got := d.ToBase(9); math.Abs(got-5) > 1e-12 {
		t.Errorf("a difference of 9 °F: want 5 K, got %.15g", got)
	}
	if got := Temperature(25).Minus(20); got != 5 {
		t.Errorf("25 °C − 20 °C: want 5 K, got %g", float64(got))
	}
	if got := Temperature(20).Plus(5).Kelvin(); got != 298.15 {
		t.Errorf("25 °C: want 298.15 K, got %g", got)
	}
}

// Source: definitions: 1 kg weighs 9.80665 N under standard gravity.
func TestWeight(t *testing.T) {
	if got := Mass(10).Weight(); !near(float64(got), 98.0665, 1e-12) {
		t.Errorf("weight of 10 kg: want 98.0665 N, got %g", float64(got))
	}
}

func TestUnitsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom(units).Draw(t, "unit")
		x := rapid.Float64Range(-1e6, 1e6).Draw(t, "x")
		back := u.FromBase(u.ToBase(x))
		if math.Abs(back-x) > 1e-12*math.Max(1, math.Max(math.Abs(x), math.Abs(u.Offset/u.Factor))) {
			t.Fatalf("%g %s came back as %.17g", x, u.Code, back)
		}
		if y := u.ToBase(x); u.Offset == 0 && !near(u.FromBase(y), x, 1e-12) {
			t.Fatalf("%g %s came back as %.17g", x, u.Code, u.FromBase(y))
		}
	})
}

func TestBasisRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom([]Species{Ammonia, Ammonium, Nitrite, Nitrate}).Draw(t, "species")
		c := Concentration(rapid.Float64Range(0, 1000).Draw(t, "mg/L"))
		n, ok1 := ToN(c, s, AsIon)
		back, ok2 := ToIon(n, s, AsN)
		if !ok1 || !ok2 || !near(float64(back), float64(c), 1e-12) || n > c {
			t.Fatalf("%g mg/L of %s: as N %g, back %g", float64(c), s, float64(n), float64(back))
		}
	})
}

func TestBasisIsNeverGuessed(t *testing.T) {
	if c, ok := ToN(1, Nitrate, BasisNone); ok || c != 0 {
		t.Errorf("nitrate without a basis: got %g, %v", float64(c), ok)
	}
	if c, ok := ToIon(1, "po4", AsN); ok || c != 0 {
		t.Errorf("a species that is not ours: got %g, %v", float64(c), ok)
	}
}

// What Parse reads of a number written out is that number.
func TestParseReadsWhatIsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e9, 1e9).Draw(t, "x")
		places := rapid.IntRange(0, 2).Draw(t, "places") // three would be ambiguous
		mark := rapid.SampledFrom([]string{".", ","}).Draw(t, "mark")
		text := strings.Replace(strconv.FormatFloat(x, 'f', places, 64), ".", mark, 1)
		m, err := Parse(text+" cm", KindLength, Reading{Unit: "in", System: US, Decimal: '.'})
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		want, _ := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
		v, err := m.Value()
		if err != nil || !near(v.X, want*0.01, 1e-12) {
			t.Fatalf("%q: want %g m, got %g, %v", text, want*0.01, v.X, err)
		}
	})
}

func TestStoredMeasuresAreHeldToTheCanonicalForm(t *testing.T) {
	for _, number := range []string{"", "NaN", "Inf", "-inf", "1e3", "0x10", "1_000", "1,5", "+1", "1.2.3", "--1", "1-", " 1", "1 ", "１", ".", "-"} {
		if v, err := (Measure{Number: number, Unit: "l"}).Value(); err == nil || v.Known() {
			t.Errorf("Measure %q: got %+v, want a refusal", number, v)
		}
	}
	if v, err := (Measure{Number: "1", Unit: "furlong"}).Value(); err == nil || v.Known() {
		t.Errorf("a unit that is not ours: got %+v", v)
	}
	if v, err := (Measure{Number: strings.Repeat("9", 400), Unit: "l"}).Value(); err == nil || v.Known() {
		t.Errorf("a number too large for a float64: got %+v", v)
	}
}

func TestOf(t *testing.T) {
	for _, c := range []struct {
		x      float64
		digits int
		want   string
	}{{56.78, 3, "56.8"}, {1234, 2, "1200"}, {25, 3, "25"}, {0.00001234, 2, "0.000012"}, {0, 3, "0"}} {
		m := Of(c.x, "l", c.digits)
		if m.Number != c.want {
			t.Errorf("Of(%g, %d): want %s, got %s", c.x, c.digits, c.want, m.Number)
		}
		if _, err := m.Value(); err != nil {
			t.Errorf("Of(%g) is not canonical: %v", c.x, err)
		}
	}
}

func TestKindsAreNamedAndHaveABase(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range Kinds() {
		name := k.String()
		if name == "unknown" || seen[name] {
			t.Errorf("kind %d: name %q", k, name)
		}
		seen[name] = true
		if back, ok := KindOf(name); !ok || back != k {
			t.Errorf("kind %q comes back as %v", name, back)
		}
		if _, ok := k.Base(); !ok && k != KindMoney {
			t.Errorf("kind %q has no base unit", name)
		}
		raw, err := json.Marshal(Value{k, 1.5})
		if err != nil {
			t.Fatal(err)
		}
		var v Value
		if err := json.Unmarshal(raw, &v); err != nil || v != (Value{k, 1.5}) {
			t.Errorf("%s came back as %+v, %v", raw, v, err)
		}
	}
	if len(seen) < 32 {
		t.Fatalf("%d kinds, want at least 32", len(seen))
	}
	var k Kind
	if err := k.UnmarshalText([]byte("furlong")); err == nil {
		t.Error("a kind that is not ours was read")
	}
}

func TestValuesOfOtherKindsDoNotConvert(t *testing.T) {
	if x := (Value{KindMass, 1}).In(MustUnit("l")); Finite(x) {
		t.Errorf("1 kg in litres: got %g", x)
	}
	if (Value{}).Known() {
		t.Error("the missing value counts as known")
	}
}
