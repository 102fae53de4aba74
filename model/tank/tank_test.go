package tank

import (
	"math"
	"strconv"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func TestWorkedFullMass(t *testing.T) {
	const source = "full_mass_worked.csv, worked examples, 0.1 %"
	for _, r := range table(t, "full_mass_worked.csv", 5) {
		x := make([]float64, len(r))
		for i := 1; i < len(r); i++ {
			x[i] = drill.Number(t, r[i])
		}
		box := Tank{Shape: Box, Material: Glass, Rim: Framed, Length: quantity.Length(x[1]), Width: quantity.Length(x[2]),
			Height: quantity.Length(x[3]), Wall: quantity.Length(x[4]), Bottom: quantity.Length(x[5]), Sizes: Measured}
		c := Contents{Substrate: Gravel, SubstrateFront: quantity.Length(x[7]), SubstrateBack: quantity.Length(x[7]),
			Rocks: []Rock{{MixedStone, quantity.Mass(x[10])}}, Wood: quantity.Mass(x[12]), Equipment: quantity.Mass(x[14]),
			AirGap: quantity.Length(x[6])}
		grain, pores, _ := Gravel.Grain()
		stone, _, _ := MixedStone.Solid()
		if float64(grain) != x[9] || float64(pores) != x[8] || float64(stone) != x[11] || float64(woodDensity) != x[13] {
			t.Fatalf("%s, %s: the row has other densities than ours", source, r[0])
		}
		f, err := Measure(box, c, 25)
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, source, r[0]+" glass", float64(f.Empty), x[15], 1e-3)
		closeTo(t, source, r[0]+" gross water", (f.Interior - f.Gap).Litres(), x[16], 1e-3)
		closeTo(t, source, r[0]+" net water", f.Net.Litres(), x[17], 1e-3)
		closeTo(t, source, r[0]+" water", float64(f.Water), x[18], 1e-3)
		closeTo(t, source, r[0]+" gravel", float64(f.Substrate), x[19], 1e-3)
		closeTo(t, source, r[0]+" total", float64(f.Total), x[20], 1e-3)
		closeTo(t, source, r[0]+" total in pounds", f.Total.Value().In(quantity.MustUnit("lb")), x[21], 1e-3)
		if f.Upper < f.Total*1.1 {
			t.Errorf("%s, %s: upper mass %g is below 1.1 times %g", source, r[0], f.Upper, f.Total)
		}
	}
}

func TestGeometry(t *testing.T) {
	const source = "geometry_volumes.csv, exact geometry, 0.01 %"
	bow := Plan{Shape: BowFront, Length: 0.9, Width: 0.3, Bow: 0.1}
	litres := func(p Plan, h float64) float64 { return float64(p.Area()) * h * 1000 }
	got := []float64{
		litres(Plan{Shape: Box, Length: 0.5, Width: 0.25}, 0.3),
		litres(Plan{Shape: Cylinder, Length: 0.4}, 0.5),
		litres(Plan{Shape: Hexagon, Length: 0.5}, 0.5),
		litres(bow, 0.45),
		float64(bow.Radius()),
		float64(bow.Arc()),
	}
	rows := table(t, "geometry_volumes.csv", 7)
	for i, g := range got {
		closeTo(t, source, rows[i][0], g, drill.Number(t, rows[i][2]), 1e-4)
	}
	// The last row is the parabola through the same points: within 1 % of the arc.
	closeTo(t, source, rows[6][0], got[3], drill.Number(t, rows[6][2]), 1e-2)
}

func TestDensities(t *testing.T) {
	const source = "densities.csv, handbook values (partly from memory), 0.1 %"
	water, err := WaterDensity(20)
	if err != nil {
		t.Fatal(err)
	}
	rows := table(t, "densities.csv", 15)
	got := map[string][2]float64{
		"soda-lime glass":  {float64(Glass.Density()), 0},
		"acrylic PMMA":     {float64(Acrylic.Density()), 0},
		"waterlogged wood": {float64(woodDensity), 0},
	}
	for name, s := range map[string]Substrate{"quartz gravel 2-5 mm": Gravel, "quartz sand 0.5-1 mm": Sand, "planted-tank baked clay substrate": BakedClay} {
		grain, pores, _ := s.Grain()
		got[name] = [2]float64{float64(grain), float64(pores)}
	}
	for name, s := range map[string]Stone{"granite": Granite, "basalt": Basalt, "limestone": Limestone, "slate": Slate, "lava rock": Lava, "sandstone": Sandstone} {
		solid, pores, _ := s.Solid()
		got[name] = [2]float64{float64(solid), float64(pores)}
	}
	checked := 0
	for _, r := range rows {
		g, ok := got[r[0]]
		if !ok {
			continue // boards and steel belong to the stand
		}
		checked++
		closeTo(t, source, r[0], g[0], drill.Number(t, r[1]), 1e-3)
		closeTo(t, source, r[0]+" porosity", g[1], drill.Number(t, r[2]), 1e-3)
		closeTo(t, source, r[0]+" bulk", g[0]*(1-g[1]), drill.Number(t, r[3]), 1e-3)
		closeTo(t, source, r[0]+" in water", g[0]*(1-g[1])+g[1]*float64(water), drill.Number(t, r[4]), 1e-3)
	}
	if checked != 12 {
		t.Errorf("%s: %d rows checked, expected 12", source, checked)
	}
}

func TestWaterDensity(t *testing.T) {
	const source = "water_density.csv, Tanaka 2001, 0.01 kg/m³"
	for _, r := range table(t, "water_density.csv", 7) {
		got, err := WaterDensity(quantity.Temperature(drill.Number(t, r[0])))
		if err != nil {
			t.Fatal(err)
		}
		if want := drill.Number(t, r[1]); math.Abs(float64(got)-want) > 0.01 {
			t.Errorf("%s, %s °C: expected %g, got %g", source, r[0], want, got)
		}
		perGallon := float64(got) * quantity.MustUnit("gal_us").Factor / quantity.MustUnit("lb").Factor
		closeTo(t, source, r[0]+" pounds a gallon", perGallon, drill.Number(t, r[2]), 1e-4)
	}
	for _, bad := range []quantity.Temperature{-0.1, 40.1, quantity.Temperature(math.NaN()), quantity.Temperature(math.Inf(1))} {
		if d, err := WaterDensity(bad); err == nil || d != 0 {
			t.Errorf("%g °C: expected a refusal, got %g", float64(bad), float64(d))
		}
	}
}

func TestNominalSizes(t *testing.T) {
	const source = "tank_nominal_weights.csv, trade tables"
	rows := table(t, "tank_nominal_weights.csv", 18)
	inch, lb, gal := quantity.MustUnit("in"), quantity.MustUnit("lb"), quantity.MustUnit("gal_us")
	var us []Nominal
	for _, n := range Nominals() {
		if n.System == quantity.US {
			us = append(us, n)
		} else if n.Source != working.Trade {
			t.Errorf("%s: a metric size must be marked as common practice", n.Code)
		}
	}
	if len(us) != len(rows) {
		t.Fatalf("%s: %d sizes, expected %d", source, len(us), len(rows))
	}
	for i, r := range rows {
		n := us[i]
		x := make([]float64, len(r))
		for j := range r {
			if j != 0 && j != 6 {
				x[j] = drill.Number(t, r[j])
			}
		}
		name := r[0]
		closeTo(t, source, name+" length", inch.FromBase(float64(n.Length)), x[1], 1e-9)
		closeTo(t, source, name+" width", inch.FromBase(float64(n.Width)), x[2], 1e-9)
		closeTo(t, source, name+" height", inch.FromBase(float64(n.Height)), x[3], 1e-9)
		closeTo(t, source, name+" empty", lb.FromBase(float64(n.Empty)), x[4], 1e-9)
		closeTo(t, source, name+" filled", lb.FromBase(float64(n.Filled)), x[5], 1e-9)
		if n.Name.Number != strconv.FormatFloat(x[7], 'g', -1, 64) {
			t.Errorf("%s, %s: expected the name %g, got %s", source, name, x[7], n.Name.Number)
		}
		f, err := Measure(n.Tank(), Contents{Substrate: Gravel, SubstrateFront: quantity.Length(inch.ToBase(1)),
			SubstrateBack: quantity.Length(inch.ToBase(1))}, 25)
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, source, name+" gross gallons", gal.FromBase(float64(f.Outer)), x[8], 1e-4)
		l, w, h := float64(n.Length), float64(n.Width), float64(n.Height)
		closeTo(t, source, name+" glass area", l*w+2*l*h+2*w*h, x[9], 1e-4)
		// Thickness is 0.92 of the implied mean, to the nearest step of EN 572-2.
		best := paneSteps[0]
		for _, p := range paneSteps {
			if math.Abs(p-0.92*x[10]) < math.Abs(best-0.92*x[10]) {
				best = p
			}
		}
		if got := n.Wall.Millimetres(); math.Abs(got-best) > 1e-9 {
			t.Errorf("%s, %s: expected %g mm of glass, got %g", source, name, best, got)
		}
		if name == "125" {
			continue // the table names its filled mass a known inconsistent entry
		}
		// The table's own 15 % holds for an estimate by outer volume. Ours knows
		// the glass and what the gravel displaces, and is up to 19 % below what
		// the trade prints (10 lb a nominal gallon); the upper mass covers that.
		gravel := lb.FromBase(float64(f.Substrate))
		closeTo(t, source+", 15 %", name+" filled, by outer volume", x[4]+8.34*x[8]+gravel, x[5], 0.15)
		ours := lb.FromBase(float64(f.Total-f.Empty)) + x[4]
		if ours < 0.8*x[5] || ours > 1.15*x[5] {
			t.Errorf("%s, %s: expected 0.80 to 1.15 of %g lb, got %g", source, name, x[5], ours)
		}
		if upper := lb.FromBase(float64(f.Upper)); upper < 0.95*x[5] {
			t.Errorf("%s, %s: upper mass %g lb is well below the printed %g", source, name, upper, x[5])
		}
		// Bounds of the trade's shortcut: 10.5 lb and 0.9 of 8.3 lb a nominal gallon.
		if filled := lb.FromBase(float64(n.Filled)); filled < x[4]+0.9*8.3*x[7] || (filled > x[4]+10.5*x[7] && x[7] > 5) {
			t.Errorf("%s, %s: %g lb filled is outside the shortcut's bounds", source, name, filled)
		}
	}
}

func TestTenGallonWeighsMoreThanSeventyPounds(t *testing.T) {
	n, ok := NominalOf("us_10")
	if !ok {
		t.Fatal("no ten gallon size")
	}
	f, err := Measure(n.Tank(), Contents{}, 25)
	if err != nil {
		t.Fatal(err)
	}
	if got := quantity.MustUnit("lb").FromBase(float64(f.Total)); got <= 70 {
		t.Errorf("trade's lower bound: expected more than 70 lb, got %g", got)
	}
}

func TestRefusals(t *testing.T) {
	good := Tank{Shape: Box, Material: Glass, Rim: Framed, Length: 0.6, Width: 0.3, Height: 0.36, Wall: 0.005, Bottom: 0.005}
	if rs := good.Check(); len(rs) != 0 {
		t.Fatal(rs)
	}
	nan, inf := quantity.Length(math.NaN()), quantity.Length(math.Inf(1))
	cases := []struct {
		name, field string
		code        working.Key
		change      func(*Tank, *Contents)
	}{
		{"no shape", "shape", "refuse.missing", func(t *Tank, _ *Contents) { t.Shape = "" }},
		{"other shape", "shape", "refuse.tank.shape", func(t *Tank, _ *Contents) { t.Shape = "ball" }},
		{"no material", "material", "refuse.missing", func(t *Tank, _ *Contents) { t.Material = "" }},
		{"other material", "material", "refuse.tank.material", func(t *Tank, _ *Contents) { t.Material = "tin" }},
		{"no rim", "rim", "refuse.missing", func(t *Tank, _ *Contents) { t.Rim = "" }},
		{"other rim", "rim", "refuse.tank.rim", func(t *Tank, _ *Contents) { t.Rim = "gold" }},
		{"no length", "length", "refuse.missing", func(t *Tank, _ *Contents) { t.Length = 0 }},
		{"negative length", "length", "refuse.outside", func(t *Tank, _ *Contents) { t.Length = -1 }},
		{"sixty metres", "length", "refuse.outside", func(t *Tank, _ *Contents) { t.Length = 60 }},
		{"NaN width", "width", "refuse.not_a_number", func(t *Tank, _ *Contents) { t.Width = nan }},
		{"infinite height", "height", "refuse.not_a_number", func(t *Tank, _ *Contents) { t.Height = inf }},
		{"thick glass", "wall", "refuse.tank.too_thick", func(t *Tank, _ *Contents) { t.Width, t.Wall = 0.08, 0.04 }},
		{"thick bottom", "bottom", "refuse.tank.too_thick", func(t *Tank, _ *Contents) { t.Height, t.Bottom = 0.05, 0.05 }},
		{"deep bow", "bow", "refuse.tank.bow_too_deep", func(t *Tank, _ *Contents) { t.Shape, t.Bow = BowFront, 0.31 }},
		{"gravel over the rim", "substrate_back", "refuse.tank.gravel_above_rim", func(_ *Tank, c *Contents) { c.SubstrateBack = 0.36 }},
		{"gravel over the water", "substrate_front", "refuse.tank.gravel_above_water", func(_ *Tank, c *Contents) { c.SubstrateFront, c.AirGap = 0.34, 0.02 }},
		{"depth without a kind", "substrate", "refuse.missing", func(_ *Tank, c *Contents) { c.Substrate, c.SubstrateFront = Bare, 0.05 }},
		{"other substrate", "substrate", "refuse.tank.substrate", func(_ *Tank, c *Contents) { c.Substrate = "moss" }},
		{"fill over the rim", "air_gap", "refuse.outside", func(_ *Tank, c *Contents) { c.AirGap = -0.01 }},
		{"other stone", "rocks", "refuse.tank.stone", func(_ *Tank, c *Contents) { c.Rocks = []Rock{{"cheese", 1}} }},
		{"negative rock", "rocks", "refuse.outside", func(_ *Tank, c *Contents) { c.Rocks = []Rock{{Slate, -1}} }},
		{"more rock than room", "rocks", "refuse.tank.overfull", func(_ *Tank, c *Contents) { c.Rocks = []Rock{{Slate, 400}} }},
		{"NaN equipment", "equipment", "refuse.not_a_number", func(_ *Tank, c *Contents) { c.Equipment = quantity.Mass(nan) }},
	}
	for _, x := range cases {
		tk, c := good, Contents{Substrate: Gravel}
		x.change(&tk, &c)
		f, err := Measure(tk, c, 25)
		r, ok := err.(*working.Refusal)
		if !ok || r.Field != x.field || r.Code != x.code {
			t.Errorf("%s: expected %s of %s, got %v", x.name, x.code, x.field, err)
		}
		if f.Total != 0 || f.Net != 0 {
			t.Errorf("%s: a number came with the refusal", x.name)
		}
	}
}

func TestBags(t *testing.T) {
	f := Full{Substrate: 10}
	for _, x := range []struct {
		bag  quantity.Mass
		n    int
		left quantity.Mass
	}{{5, 2, 0}, {4, 3, 2}, {25, 1, 15}, {9.999, 1, 0}} {
		n, left, err := f.Bags(x.bag)
		if err != nil || n != x.n || math.Abs(float64(left-x.left)) > 1e-9 {
			t.Errorf("10 kg in bags of %g kg: expected %d and %g left, got %d and %g (%v)", x.bag, x.n, x.left, n, left, err)
		}
	}
	if _, _, err := f.Bags(0); err == nil {
		t.Error("a bag of nothing: expected a refusal")
	}
}

func TestUsualThickness(t *testing.T) {
	last := quantity.Length(0)
	for l := quantity.Length(0.2); l < 3; l += 0.05 {
		framed := Tank{Shape: Box, Material: Glass, Rim: Framed, Length: l, Width: 0.371, Height: 0.437}
		got, ok := UsualThickness(framed)
		framed.Rim = Rimless
		bare, _ := UsualThickness(framed)
		if !ok || got < last || (bare <= got && got < 0.019) {
			t.Errorf("length %g: framed %g after %g, rimless %g", float64(l), float64(got), float64(last), float64(bare))
		}
		last = got
	}
	for _, n := range Nominals() {
		if got, ok := UsualThickness(n.Tank()); !ok || got != n.Wall {
			t.Errorf("%s: expected %g, got %g", n.Code, float64(n.Wall), float64(got))
		}
	}
	if _, ok := UsualThickness(Tank{Shape: Box}); ok {
		t.Error("no size: expected no thickness")
	}
}
