package i18n

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/quantity"
)

func nan() float64 { return math.NaN() }
func inf() float64 { return math.Inf(1) }

func readers() []*Words {
	return []*Words{
		Speak("en", "US", quantity.US), Speak("en", "GB", quantity.Metric), Speak("en", "GB", quantity.Imperial), Speak("en", "", quantity.Metric),
		speak("es", "ES", quantity.Metric), speak("es", "MX", quantity.Metric), speak("es", "US", quantity.US),
	}
}

const nb = "\u00a0"

// The values are exact conversions (see the tests of quantity), rounded to three
// figures; the units are those the trade uses for the size.
func TestQuantities(t *testing.T) {
	us, metric, imperial, es := Speak("en", "US", quantity.US), Speak("en", "DE", quantity.Metric), Speak("en", "GB", quantity.Imperial), speak("es", "ES", quantity.Metric)
	en := Speak("en", "GB", quantity.Metric)
	for _, c := range []struct {
		w    *Words
		v    quantity.Value
		want string
	}{
		{us, quantity.Litres(56.78).Value(), "15 gal"}, {en, quantity.Litres(56.78).Value(), "56.8 L"}, {imperial, quantity.Litres(56.78).Value(), "12.5 imp gal"},
		{es, quantity.Litres(56.78).Value(), "56,8 L"}, {us, quantity.Litres(0.02).Value(), "20 mL"}, {us, quantity.Litres(1).Value(), "33.8 fl oz"}, {en, quantity.Litres(0.9999).Value(), "1 L"},
		{us, quantity.Length(0.6096).Value(), "24 in"}, {en, quantity.Length(0.61).Value(), "61 cm"}, {es, quantity.Length(3.2).Value(), "3,2 m"}, {us, quantity.Length(3.2).Value(), "10.5 ft"},
		{us, quantity.Length(0.006).Value(), "6 mm"}, {en, quantity.Length(0.0095).Value(), "9.5 mm"},
		{us, quantity.Mass(68.04).Value(), "150 lb"}, {en, quantity.Mass(68.04).Value(), "68 kg"}, {us, quantity.Mass(0.012).Value(), "12 g"}, {en, quantity.Mass(0.0004).Value(), "400 mg"},
		{us, quantity.Temperature(25).Value(), "77 °F"}, {en, quantity.Temperature(24.44).Value(), "24.4 °C"}, {imperial, quantity.Temperature(25).Value(), "25 °C"}, {es, quantity.Temperature(-2.5).Value(), "−2,5 °C"},
		{us, quantity.TemperatureDifference(2).Value(), "3.6 °F"}, {en, quantity.TemperatureDifference(2).Value(), "2 °C"},
		{en, quantity.Pressure(8e6).Value(), "8 MPa"}, {us, quantity.Pressure(8e6).Value(), "1160 psi"}, {us, quantity.Pressure(1915.2).Value(), "40 psf"}, {en, quantity.Pressure(1e10).Value(), "10 GPa"},
		{en, quantity.Time(30).Value(), "30 s"}, {en, quantity.Time(1800).Value(), "30 min"}, {en, quantity.Time(5 * 3600).Value(), "5 h"}, {es, quantity.Time(3 * 86400).Value(), "3 días"}, {en, quantity.Time(10 * 365.2425 * 86400).Value(), "10 years"},
		{us, quantity.Flow(400 / 3.6e6).Value(), "106 gal/h"}, {en, quantity.Flow(400 / 3.6e6).Value(), "400 L/h"}, {imperial, quantity.Flow(400 / 3.6e6).Value(), "400 L/h"},
		{en, quantity.PH(7.253).Value(), "pH 7.25"}, {es, quantity.Ratio(0.25).Value(), "25 %"}, {en, quantity.Hardness(71.4).Value(), "4 °dH"},
		{us, quantity.Concentration(0.02).Value(), "0.02 mg/L"}, {us, quantity.Concentration(0.0004).Value(), "0.4 µg/L"},
		{en, quantity.Count(6).Value(), "6"}, {en, quantity.Count(2.5).Value(), "2.5"}, {en, quantity.Power(100).Value(), "100 W"}, {metric, quantity.Energy(3.6e6).Value(), "1 kWh"},
		{us, quantity.Litres(0).Value(), "0 gal"}, {en, quantity.Value{}, "–"}, {en, quantity.Litres(nan()).Value(), "–"}, {en, quantity.Litres(inf()).Value(), "–"},
	} {
		want := strings.ReplaceAll(c.want, " ", nb)
		if got := c.w.Quantity(c.v); got != want {
			t.Errorf("%s-%s (%s) %v: want %q, got %q", c.w.lang, c.w.region, c.w.system, c.v, want, got)
		}
	}
}

func TestBothRangeForAndMeasure(t *testing.T) {
	us, en, es := Speak("en", "US", quantity.US), Speak("en", "GB", quantity.Metric), speak("es", "ES", quantity.Metric)
	for _, c := range []struct{ got, want string }{
		{us.Both(quantity.Mass(68.04).Value()), "150 lb (68 kg)"}, {en.Both(quantity.Mass(68.04).Value()), "68 kg (150 lb)"},
		{en.Both(quantity.Litres(45.4609).Value()), "45.5 L (10 imp gal)"}, {es.Both(quantity.Litres(37.854).Value()), "37,9 L (10 US gal)"},
		{us.Both(quantity.Power(50).Value()), "50 W"},
		{us.Range(quantity.Temperature(24.444).Value(), quantity.Temperature(25.556).Value()), "76 to 78 °F"},
		{es.Range(quantity.Litres(0.5).Value(), quantity.Litres(2).Value()), "0,5 a 2 L"},
		{en.Range(quantity.PH(6.5).Value(), quantity.PH(7.5).Value()), "pH 6.5 to pH 7.5"},
		{en.Range(quantity.PH(7).Value(), quantity.PH(7).Value()), "pH 7"},
		{en.Range(quantity.PH(7).Value(), quantity.Litres(7).Value()), "–"},
		{us.For(quantity.Length(0.01905).Value(), Board), "0.75 in"}, {us.For(quantity.Length(0.01).Value(), Thickness), "10 mm"},
		{en.For(quantity.Hardness(71.4).Value(), Carbonate), "4 °dKH"}, {en.For(quantity.Hardness(71.4).Value(), Mineral), "4 °dGH"},
		{en.QuantityIn(quantity.Litres(1).Value(), "gal_us", 3), "0.264 US gal"}, {us.QuantityIn(quantity.Litres(1).Value(), "gal_us", 6), "0.264172 gal"},
		{en.QuantityIn(quantity.Litres(1).Value(), "kg", 3), "–"}, {en.QuantityIn(quantity.Litres(1).Value(), "furlong", 3), "–"},
		{es.Measure(quantity.Measure{Number: "0.50", Unit: "ml"}), "0,50 mL"}, {en.Measure(quantity.Measure{Number: "1", Unit: "d"}), "1 day"}, {en.Measure(quantity.Measure{}), "–"},
		{es.Typed(quantity.Measure{Number: "77.1", Unit: "degf"}), "77,1 °F (25,1 °C)"}, {us.Typed(quantity.Measure{Number: "77.1", Unit: "degf"}), "77.1 °F"},
		{us.Typed(quantity.Measure{Number: "5", Unit: "ml"}), "5 mL"}, {en.Typed(quantity.Measure{Number: "x", Unit: "degf"}), "x °F"},
		{us.Unit("gal_us"), "gal"}, {en.Unit("gal_us"), "US gal"}, {es.Unit("in"), "pulg"}, {en.Unit("d"), "days"}, {en.Unit("EUR"), "EUR"}, {en.Unit("piece"), ""}, {en.Unit("furlong"), ""},
		{en.Duration(5400), "1 h 30 min"}, {es.Duration(76 * 3600), "3 días 4 h"}, {en.Duration(3600), "1 h"}, {en.Duration(-1), "–"}, {en.Duration(quantity.Time(nan())), "–"}, {en.Duration(59), "59 s"},
	} {
		if got := strings.ReplaceAll(c.got, nb, " "); got != c.want {
			t.Errorf("want %q, got %q", c.want, got)
		}
	}
}

// Every unit has a symbol in every language, and nothing falls through to a key.
func TestEveryUnitHasASymbol(t *testing.T) {
	n := 0
	for _, k := range quantity.Kinds() {
		for _, u := range quantity.UnitsOf(k) {
			n++
			for _, w := range readers() {
				s := w.Unit(u.Code)
				if (s == "" && u.Code != "piece" && u.Code != "one") || strings.Contains(s, "«") || !w.hasUnit(u.Code) {
					t.Errorf("%s: unit %s shows as %q", w.lang, u.Code, s)
				}
			}
		}
	}
	if n < 90 {
		t.Fatalf("only %d units were looked at, want at least 90", n)
	}
}

func (w *Words) hasUnit(c quantity.UnitCode) bool {
	return c == "piece" || c == "one" || w.Has(UnitKey(c))
}

// The default unit of every kind is a unit of that kind, whatever the purpose.
func TestDefaultUnitsAreOfTheirKind(t *testing.T) {
	purposes := []Purpose{General, Tank, Dose, Label, Thickness, Board, Room, Fish, Food, Carbonate, Mineral, Stress, Long, Short}
	for _, w := range readers() {
		for _, k := range quantity.Kinds() {
			for _, p := range purposes {
				c := w.DefaultUnit(k, p)
				u, ok := quantity.UnitOf(c)
				if k == quantity.KindMoney {
					continue
				}
				if !ok || u.Kind != k {
					t.Errorf("%s %s for %q: unit %q", w.system, k, p, c)
				}
				if r := w.Reading(k, p); r.Unit != c || r.Decimal != w.decimal || r.System != w.system {
					t.Errorf("%s %s: reading %+v", w.system, k, r)
				}
			}
		}
	}
}

// The name of every unit in every language is understood again.
func TestUnitsShownAreReadAgain(t *testing.T) {
	for _, lang := range complete() {
		for _, system := range quantity.Systems() {
			w := speak(lang, "", system)
			for _, k := range quantity.Kinds() {
				if k == quantity.KindMoney || k == quantity.KindRatio {
					continue
				}
				for _, u := range quantity.UnitsOf(k) {
					for _, number := range []string{"1", "2", "5", "1.5"} {
						text := w.Measure(quantity.Measure{Number: number, Unit: u.Code})
						if m, err := quantity.Parse(text, k, w.Reading(k, General)); err != nil || m.Number != number {
							t.Errorf("%s (%s): %q, which is %s of %s, is read as %v, %v", lang, system, text, number, u.Code, m, err)
						}
					}
				}
			}
		}
	}
}

// What is shown can be typed back, and comes back as the same value within the
// rounding to three figures (a step of temperature or pH as shown).
func TestWhatIsShownCanBeTypedBack(t *testing.T) {
	ws := readers()
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.SampledFrom(ws).Draw(t, "reader")
		k := rapid.SampledFrom(quantity.Kinds()).Draw(t, "kind")
		if k == quantity.KindMoney {
			return
		}
		x := math.Pow(10, rapid.Float64Range(-3, 5).Draw(t, "power"))
		if rapid.Bool().Draw(t, "negative") {
			x = -x
		}
		c := w.DefaultUnit(k, General)
		v := quantity.Value{Kind: k, X: quantity.MustUnit(c).ToBase(x)}
		text := w.Quantity(v)
		if strings.ContainsRune(text, '×') {
			return // powers of ten are for the working, not for fields
		}
		m, err := quantity.Parse(text, k, w.Reading(k, General))
		if err != nil {
			t.Fatalf("%s (%s): %q is not read back: %v", w.lang, w.system, text, err)
		}
		back, err := m.Value()
		if err != nil {
			t.Fatal(err)
		}
		slack := 0.0051 * math.Abs(v.X)
		switch k {
		case quantity.KindTemperature:
			slack = 0.0051*math.Abs(x) + 0.06
		case quantity.KindTempDiff:
			slack = 0.0051*math.Abs(v.X) + 0.06
		case quantity.KindPH:
			slack = 0.0051*math.Abs(v.X) + 0.006
		case quantity.KindRatio:
			slack += 0.00006
		}
		if math.Abs(back.X-v.X) > slack {
			t.Fatalf("%s (%s): %g shows as %q and comes back as %g", w.lang, w.system, v.X, text, back.X)
		}
	})
}
