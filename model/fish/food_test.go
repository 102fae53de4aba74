package fish

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func TestMassAgainstOthers(t *testing.T) {
	rows := drill.Named(t, "fish/mass_published.csv")
	if len(rows) != 23 {
		t.Errorf("%d rows, want 23", len(rows))
	}
	for _, r := range rows {
		a, err := Get(Code(r["code"]))
		if err != nil {
			t.Fatal(err)
		}
		want, factor := drill.Number(t, r["mass_g"]), drill.Number(t, r["factor"])
		if got := a.atLength(drill.Number(t, r["length_cm"])); got > want*factor || got < want/factor {
			t.Errorf("%s at %s cm: %.3g g, want %g within a factor of %g", a.Code, r["length_cm"], got, want, factor)
		}
	}
}

func TestRationAgainstMaintenance(t *testing.T) {
	rows := drill.Named(t, "fish/maintenance.csv")
	if len(rows) != 3 {
		t.Errorf("%d rows, want 3", len(rows))
	}
	for _, r := range rows {
		g, want := drill.Number(t, r["mass_g"]), drill.Number(t, r["food_mg_day"])
		// A grown omnivore of that mass.
		a := Animal{cm: math.Cbrt(g / 0.01), MassFactor: 0.01, MassPower: 3, Diet: Omnivore, Group: Tetra}
		share, _ := shareOf(&a, a.cm, drill.Number(t, r["temperature_c"]))
		if got := share * g * 1000; got < want*drill.Number(t, r["least"]) || got > want*drill.Number(t, r["most"]) {
			t.Errorf("%s of %g g: %.3g mg a day, maintenance is %g", r["fish"], g, got, want)
		}
	}
}

func TestWeightAndGrowth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.SampledFrom(load().list).Draw(t, "kind")
		l := a.Length * quantity.Length(rapid.Float64Range(0.2, 1.4).Draw(t, "of adult"))
		m, tr, err := WeightOf(a.Code, l)
		m2, _, err2 := WeightOf(a.Code, l*1.01)
		if err != nil || err2 != nil || !(m > 0 && m2 > m) || !tr.Finite() || tr.Spread.Low.X > float64(m) || tr.Spread.High.X < float64(m) {
			t.Fatalf("%s at %v: %v, %v (%v)", a.Code, l, m, m2, err)
		}
		after := quantity.Time(rapid.Float64Range(0, 5*365*day).Draw(t, "after"))
		g, tr, err := GrowthOf(a.Code, l, after)
		if err != nil || !tr.Finite() || g.Low > g.Length || g.Length > g.High || g.Length < l-1e-12 || g.High > max(l, a.Length)+1e-12 || g.Adult < 0 {
			t.Fatalf("%s: %+v %v", a.Code, g, err)
		}
	})
	if _, _, err := WeightOf(neonCode, 0.2); err == nil {
		t.Error("a neon of 20 cm is taken")
	}
	if _, _, err := GrowthOf(neonCode, 0.02, -1); err == nil {
		t.Error("time before now is taken")
	}
}

func feeding(lots ...Lot) Feeding {
	return Feeding{Lots: lots, Temperature: 25, Net: quantity.Litres(50)}
}

// Leftovers lower the next ration, a clean floor raises it, both within limits.
func TestRationFollowsTheFloor(t *testing.T) {
	in := feeding(Lot{Code: neonCode, Count: 10})
	base, tr, err := RationOf(in)
	if err != nil || base.Meals != 2 || base.Fasting != 1 || base.Pinches != nil || !tr.Finite() {
		t.Fatalf("%+v %v", base, err)
	}
	day := func(last ...Plate) float64 {
		in.Last = last
		r, _, err := RationOf(in)
		if err != nil {
			t.Fatal(err)
		}
		return float64(r.Day / base.Day)
	}
	if x := day(Leftovers); math.Abs(x-0.8) > 1e-12 {
		t.Errorf("after leftovers %v", x)
	}
	if x := day(CleanFloor); math.Abs(x-1.1) > 1e-12 {
		t.Errorf("after a clean floor %v", x)
	}
	if x := day(Leftovers, CleanFloor); math.Abs(x-0.88) > 1e-12 {
		t.Errorf("after one each %v", x)
	}
	for plate, want := range map[Plate]float64{Leftovers: 0.5, CleanFloor: 1.3} {
		var many []Plate
		for range 40 {
			many = append(many, plate)
		}
		if x := day(many...); math.Abs(x-want) > 1e-12 {
			t.Errorf("after forty times %s %v, want %v", plate, x, want)
		}
	}
	twenty := quantity.Mass(0.8e-3)
	in.Last, in.Twenty = nil, &twenty
	r, _, err := RationOf(in)
	if err != nil || r.Pinches == nil || math.Abs(float64(*r.Pinches)*0.04e-3-float64(r.Meal)) > 1e-15 {
		t.Errorf("%+v %v", r, err)
	}
	if math.Abs(float64(r.Week)-6*float64(r.Day)/1000) > 1e-12 || math.Abs(float64(r.Load.TAN)-float64(r.Day)*0.42*0.092) > 1e-12 {
		t.Errorf("a week %v, ammonia %v of %v", r.Week, r.Load.TAN, r.Day)
	}
}

// The warmer and the younger, the more for its mass; fry eat oftener and never fast.
func TestRationByWarmthAndAge(t *testing.T) {
	share := func(cm, celsius float64) float64 {
		l := quantity.Length(cm / 100)
		in := feeding(Lot{Code: "pterophyllum-scalare", Count: 1, Length: &l})
		in.Temperature = quantity.Temperature(celsius)
		r, _, err := RationOf(in)
		if err != nil {
			t.Fatal(err)
		}
		if cm == 2 && (r.Meals != 4 || r.Fasting != 0 || r.Kinds[0].Growth != Fry) {
			t.Errorf("fry: %+v", r)
		}
		return float64(r.Day) / 1000 / float64(r.Kinds[0].Mass)
	}
	if !(share(15, 20) < share(15, 25) && share(15, 25) < share(8, 25) && share(8, 25) < share(2, 25) && share(2, 30) <= mostOfFry) {
		t.Error("the share of body mass does not follow warmth and age")
	}
	if _, _, err := RationOf(feeding()); err == nil {
		t.Error("no animals are fed")
	}
	if r, _, err := RationOf(feeding(Lot{Code: "neocaridina-davidi", Count: 10})); err != nil || r.Day != 0 {
		t.Errorf("shrimp are fed %v (%v)", r.Day, err)
	}
	if _, _, err := RationOf(feeding(Lot{Code: "piaractus-brachypomus", Count: 100})); err == nil {
		t.Error("more than 100 g a day is taken")
	}
	if _, _, err := PinchOf(1); err == nil {
		t.Error("twenty pinches of a kilogram are taken")
	}
	var r *working.Refusal
	in := feeding(Lot{Code: neonCode, Count: 1})
	in.Last = []Plate{"licked"}
	if _, _, err := RationOf(in); err == nil {
		t.Error(r)
	}
}
