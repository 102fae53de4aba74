package water

import (
	"math"
	"testing"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"pgregory.net/rapid"
)

func TestBagFloat(t *testing.T) {
	const source = "lumped Newton model, Lim et al. 2003 for U"
	for _, r := range table(t, "bag_float.csv", 48) {
		v, u, gap := r.num("bag_L"), r.num("U_W_m2K"), r.num("dT0_C")
		r.near("area_m2", source, bagArea*math.Pow(v, 2.0/3), 6e-5)
		tau := bagTau(quantity.Litres(v), u) // the tank of the table is infinite
		r.near("tau_min", source, float64(tau/minute), 0.006)
		r.near("min_to_1C", source, float64(tau/minute)*math.Log(gap), 0.06)
		r.near("min_to_0.5C", source, float64(tau/minute)*math.Log(gap/0.5), 0.06)
		r.near("min_to_2C", source, float64(tau/minute)*math.Log(gap/2), 0.06)
		if u == bagU || u == bagULow || u == bagUHigh { // 300 is outside the range that is shown
			p, tr, err := FloatBag(BagFloat{quantity.Litres(v), quantity.Temperature(20 + gap), 100, 20})
			fine(t, tr, err)
			for i, column := range []string{"min_to_2C", "min_to_1C", "min_to_0.5C"} {
				got := map[float64]quantity.Time{bagU: p.Times[i].Likely, bagULow: p.Times[i].High, bagUHigh: p.Times[i].Low}[u]
				r.near(column, source, float64(got/minute), 0.06)
			}
		}
	}
	// Reference sheet, section 9: U 80, a gap of 4 K, to 2, 1 and 0.5 K.
	for _, c := range [][4]float64{{0.3, 9.0, 17.9, 26.9}, {0.5, 10.6, 21.2, 31.9}, {1, 13.4, 26.8, 40.2}, {2, 16.9, 33.7, 50.6}, {4, 21.2, 42.5, 63.7}} {
		p, _, err := FloatBag(BagFloat{quantity.Litres(c[0]), 21, 100, 25})
		if err != nil {
			t.Fatal(err)
		}
		for i, ft := range p.Times {
			if got := float64(ft.Likely / minute); !near(got, c[i+1], 0.06) {
				t.Errorf("reference sheet, section 9, %g L to %g K: want %g min, got %g", c[0], ft.Within, c[i+1], got)
			}
		}
	}
}

func TestBagFloatProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(low, high float64, n string) float64 { return rapid.Float64Range(low, high).Draw(t, n) }
		b := BagFloat{quantity.Litres(f(0.1, 10, "bag")), quantity.Temperature(f(5, 35, "from")), quantity.Litres(f(11, 400, "tank")), quantity.Temperature(f(18, 30, "to"))}
		p, tr, err := FloatBag(b)
		fine(t, tr, err)
		for i, x := range p.Times {
			if !(0 <= x.Low && x.Low <= x.Likely && x.Likely <= x.High) || i > 0 && x.Likely < p.Times[i-1].Likely {
				t.Fatalf("%+v", p.Times)
			}
		}
		// Heat is conserved: bag and tank meet where their mean was.
		if heat := float64(b.Bag)*float64(b.From) + float64(b.Tank)*float64(b.To); !near(float64(p.Final)*float64(b.Bag+b.Tank), heat, 1e-9) {
			t.Fatal("heat is lost")
		}
		curve, err := b.Curve(2*hour, 25)
		if err != nil || len(curve) != 25 || !near(float64(curve[0].Likely), float64(b.From), 1e-9) {
			t.Fatal(curve, err)
		}
		for i, s := range curve {
			if s.Low > s.Likely+1e-9 || s.Likely > s.High+1e-9 || i > 0 && math.Abs(float64(s.Likely-p.Final)) > math.Abs(float64(curve[i-1].Likely-p.Final))+1e-9 {
				t.Fatalf("%+v", s)
			}
		}
		// The difference to the tank after the time given is the one asked for.
		if one := p.Times[1]; one.Likely > 0 {
			left := float64(b.From-b.To) * math.Exp(-float64(one.Likely/p.TimeConstant))
			if !near(math.Abs(left), 1, 1e-9) {
				t.Fatalf("%g K left", left)
			}
		}
	})
	_, tr, err := FloatBag(BagFloat{quantity.Litres(3), 20, quantity.Litres(2), 25})
	refused(t, "tank", tr, err)
	_, tr, err = FloatBag(BagFloat{0, 20, 0.05, 25})
	refused(t, "bag", tr, err)
	_, err = BagFloat{0.001, 20, 0.05, 25}.Curve(0, 10)
	refused(t, "until", nil, err)
	_, err = BagFloat{0.001, 20, 0.05, 25}.Curve(hour, 1)
	refused(t, "samples", nil, err)
	p, tr, err := FloatBag(BagFloat{0.001, 25, 0.05, 25})
	fine(t, tr, err)
	if p.Times[2].High != 0 {
		t.Errorf("no gap takes no time: %+v", p.Times)
	}
}

func TestDrip(t *testing.T) {
	litre, q := quantity.Litres(1), quantity.Flow(20e-6/60)
	plan := func(d Drip) DripPlan {
		p, tr, err := DripIn(d)
		fine(t, tr, err)
		return p
	}
	for _, r := range table(t, "drip.csv", 6) {
		var got float64
		switch r.cell["case"] {
		case "accumulate: volume doubled once":
			got = float64(plan(Drip{Start: litre, Drops: 2, Doubling: 1}).Original)
		case "V0=1 L Q=20 mL/min t=50 min accumulate: original fraction":
			got = one(DripFilling(litre, q, 50*minute))
		case "V0=1 L Q=20 mL/min t=150 min accumulate":
			got = one(DripFilling(litre, q, 150*minute))
		case "overflow same t=115.13 min (90 pct)":
			got = one(DripConstant(litre, q, 115.13*minute))
		case "2 drips/s at 0.05 mL = 6 mL/min: minutes to double 0.5 L":
			got = float64(plan(Drip{Start: litre / 2, Drops: 2, Doubling: 1}).Time / minute)
		case "TDS: bag 150 tank 350 doubled twice":
			got = float64(plan(Drip{litre, 2, 2, &DripTDS{150, 350}}).TDS)
		default:
			t.Fatal(r.cell)
		}
		r.near("expected", "exact dilution algebra", got, 1e-4)
	}
	// Reference sheet, section 9: constant volume, 50 min .367879; 90 % at 115.129 min.
	if x := one(DripConstant(litre, q, 50*minute)); !near(x, 0.367879, 6e-7) {
		t.Errorf("constant volume: want .367879, got %g", x)
	}
	if x := one(DripConstantTime(litre, q, 0.1)); !near(x/60, 115.129, 6e-4) {
		t.Errorf("nine tenths at constant volume: want 115.129 min, got %g", x/60)
	}
	if n := DropsOf(FlowOfDrops(3)); !near(n, 3, 1e-12) {
		t.Errorf("three drops a second came back as %g", n)
	}
	if x := one(DripConstant(litre, 0, hour)); x != 1 {
		t.Errorf("no drip leaves %g of the water, want all", x)
	}
	rapid.Check(t, func(t *rapid.T) {
		v, d := quantity.Litres(rapid.Float64Range(0.05, 50).Draw(t, "v")), rapid.Float64Range(0.1, 50).Draw(t, "d")
		x := quantity.Ratio(rapid.Float64Range(0.001, 1).Draw(t, "x"))
		at, tr, err := DripConstantTime(v, FlowOfDrops(d), x)
		fine(t, tr, err)
		if at > 2*day {
			return
		}
		if back := one(DripConstant(v, FlowOfDrops(d), at)); !near(back, float64(x), 1e-9) {
			t.Fatalf("share %g came back as %g", x, back)
		}
		if fills := one(DripFilling(v, FlowOfDrops(d), at)); fills < float64(x)-1e-9 {
			t.Fatal("running over replaces more than filling up")
		}
	})
	_, tr, err := DripIn(Drip{Start: litre, Drops: 0, Doubling: 1})
	refused(t, "drops_per_second", tr, err)
	_, tr, err = DripIn(Drip{Start: litre, Drops: nan, Doubling: 1})
	refused(t, "drops_per_second", tr, err)
	_, tr, err = DripIn(Drip{litre, 2, 1, &DripTDS{-1, 0}})
	refused(t, "start_tds", tr, err)
	_, tr, err = DripConstantTime(litre, 0, 0.1)
	refused(t, "flow", tr, err)
}

// TestTransportCooling: reference sheet, section 9 (Froese 1998): surface to
// volume 3333/8000, 25 °C in air of 10, 12 h: 18.654 °C.
func TestTransportCooling(t *testing.T) {
	p := Transport{25, 10, quantity.Litres(8), quantity.Area(0.3333), 12 * hour}
	x, tr, err := TransportCooling(p)
	fine(t, tr, err)
	if !near(float64(x), 18.654, 0.002) || tr.Strength != working.RuleOfThumb || tr.Spread == nil {
		t.Errorf("Froese 1998: want 18.654, got %g", x)
	}
	p.Air, p.Time = -30, 72*hour
	_, tr, err = TransportCooling(p)
	refused(t, "air", tr, err)
	p.Water = 0
	_, tr, err = TransportCooling(p)
	refused(t, "water", tr, err)
	rapid.Check(t, func(t *rapid.T) {
		p := Transport{quantity.Temperature(rapid.Float64Range(15, 30).Draw(t, "t0")), quantity.Temperature(rapid.Float64Range(0, 40).Draw(t, "air")), quantity.Litres(rapid.Float64Range(1, 20).Draw(t, "v")), 0.2, quantity.Time(rapid.Float64Range(0, 48).Draw(t, "t")) * hour}
		x, tr, err := TransportCooling(p)
		fine(t, tr, err)
		if x < min(p.Start, p.Air)-1e-9 || x > max(p.Start, p.Air)+1e-9 || tr.Spread.Low.X > float64(x)+1e-9 || tr.Spread.High.X < float64(x)-1e-9 {
			t.Fatalf("%+v gives %g in %+v", p, x, tr.Spread)
		}
	})
}
