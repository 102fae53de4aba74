package water

import (
	"math"
	"testing"

	"example.org/driploop/model/quantity"
	"pgregory.net/rapid"
)

func TestCarbonateConstants(t *testing.T) {
	for _, r := range table(t, "carbonate_constants.csv", 11) {
		c, tr, err := CarbonateConstants(quantity.Temperature(r.num("t_C")))
		fine(t, tr, err)
		for column, got := range map[string]float64{"logKH": c.LogKH, "pK1": c.PK1, "pK2": c.PK2, "pKw": c.PKw} {
			r.near(column, "Plummer & Busenberg 1982; Neal et al. 1998", got, 6e-5)
		}
	}
	c := carbonateAt(25) // published at 25 °C: −1.468, −6.352, −10.329
	if !near(c.LogKH, -1.468, 6e-4) || !near(c.PK1, 6.352, 6e-4) || !near(c.PK2, 10.329, 6e-4) {
		t.Errorf("Plummer & Busenberg 1982 at 25 °C: %+v", c)
	}
}

func TestCarbonDioxide(t *testing.T) {
	left := 0
	for _, r := range table(t, "co2_factor.csv", 51) {
		w, ph := quantity.Temperature(r.num("t_C")), r.num("pH")
		x, tr, err := CO2(quantity.PH(ph), 100, w)
		fine(t, tr, err)
		factor := co2Molar / perMeqCaCO3 * math.Pow(10, carbonateAt(w).PK1-ph)
		r.near("PB1982_full_alk100", "Plummer & Busenberg 1982", float64(x)/100, 6e-5+2e-5*factor)
		r.near("PB1982_factor", "Plummer & Busenberg 1982", factor, 6e-5+2e-5*factor)
		// At pH 7.8 the published column prints the 30 °C figure again for 35 °C, 5 % off: not a check.
		if ph == 7.8 && w == 35 {
			left++
			continue
		}
		p := r.num("published_factor")
		r.near("published_factor", "Tucker 1984", factor, 0.025*p)
	}
	if left != 1 {
		t.Errorf("%d published cells left out, want 1", left)
	}
	// Published example (Tucker 1984): alkalinity 50 mg/L, pH 6.8, 25 °C, 15.65 mg/L, within 2.5 %; the sheet: 1 dKH, pH 7, 25 °C, 3.526.
	a, _, _ := CO2(6.8, 50, 25)
	b, _, _ := CO2(7, dkh(1), 25)
	if !near(float64(a), 15.65, 0.4) || !near(float64(b), 3.526, 0.006) {
		t.Errorf("CO2: %g and %g, want 15.65 and 3.526", a, b)
	}
	// Balance with air at 25 °C: 420 ppm 0.61, 800 ppm 1.16 mg/L (reference sheet, computed).
	for _, c := range []struct{ share, want float64 }{{420e-6, 0.61}, {800e-6, 1.16}} {
		x, tr, err := AirCO2(quantity.Ratio(c.share), 25)
		fine(t, tr, err)
		if !near(float64(x), c.want, 0.006) {
			t.Errorf("air with %g CO2: want %g, got %g", c.share, c.want, x)
		}
	}
}

const perMeqCaCO3 = 50.04345 // mg a meq; the reference tables' value

func TestCO2AndPHAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ph := quantity.PH(rapid.Float64Range(5.5, 8.8).Draw(t, "ph"))
		kh := dkh(rapid.Float64Range(0.5, 20).Draw(t, "kh"))
		w := quantity.Temperature(rapid.Float64Range(0, 50).Draw(t, "t"))
		x, tr, err := CO2(ph, kh, w)
		fine(t, tr, err)
		if x < 0.001 || x > 1000 {
			return
		}
		back, tr, err := PHOfCO2(x, kh, w)
		fine(t, tr, err)
		if !near(float64(back), float64(ph), 1e-9) {
			t.Fatalf("pH %g came back as %g", ph, back)
		}
		if more, _, _ := PHOfCO2(x*1.1, kh, w); !(more < back) {
			t.Fatal("more CO2, lower pH")
		}
	})
	_, tr, err := CO2(4, dkh(4), 25)
	refused(t, "ph", tr, err)
	_, tr, err = CO2(7, 0, 25)
	refused(t, "kh", tr, err)
	_, tr, err = CO2(10, dkh(0.05), 25) // more hydroxide than alkalinity
	refused(t, "ph", tr, err)
	_, tr, err = PHOfCO2(quantity.Concentration(nan), dkh(4), 25)
	refused(t, "co2", tr, err)
}

func TestOpenBag(t *testing.T) {
	const source = "Plummer & Busenberg 1982, Emerson et al. 1975"
	for _, r := range table(t, "bag_degassing.csv", 4) {
		b := ShippedBag{quantity.PH(r.num("pH_bag")), dkh(r.num("KH_dKH")), quantity.Temperature(r.num("t_C")),
			quantity.Concentration(r.num("TAN_mgN_L")), quantity.Concentration(r.num("CO2_end_mg_L"))}
		o, tr, err := OpenBag(b)
		fine(t, tr, err)
		r.near("CO2_bag_mg_L", source, float64(o.CO2), 0.006)
		r.near("pH_after", source, float64(o.PHAfter), 6e-4)
		r.near("NH3N_before", source, float64(o.Before.AsN), 6e-5)
		r.near("NH3N_after", source, float64(o.After.AsN), 6e-5)
		r.near("NH3_ratio", source, float64(o.AmmoniaRise), 0.06)
		r.near("pH_after_closed_form", "closed form pH + lg(CO2_0/CO2_e)", float64(b.PH)+math.Log10(float64(o.CO2/b.CO2End)), 6e-4)
	}
	_, tr, err := OpenBag(ShippedBag{8.5, dkh(4), 25, 1, 2})
	refused(t, "co2_end", tr, err)
}

func TestWayHome(t *testing.T) {
	sour := &ShippedBag{6.5, dkh(4), 25, 5, 2}
	clean := &ShippedBag{7.0, dkh(4), 25, 0.02, 2}
	aired := &ShippedBag{8.4, dkh(4), 25, 0.02, 3}
	for _, c := range []struct {
		trip Trip
		want Homecoming
	}{
		{Trip{Closed: hour}, FloatAndMix}, {Trip{Closed: 20 * hour}, MoveSoon}, {Trip{hour, sour}, MoveSoon}, {Trip{hour, clean}, FloatAndMix},
		{Trip{hour, aired}, FloatAndMix},
	} {
		way, steps, tr, err := WayHome(c.trip)
		if err != nil || tr == nil || way != c.want || len(steps) < 3 || steps[len(steps)-1].Code != "find.water.bag_discard" {
			t.Errorf("%+v: %s %v %v, want %s", c.trip, way, steps, err, c.want)
		}
	}
	_, _, tr, err := WayHome(Trip{Closed: -1})
	refused(t, "closed", tr, err)
	_, _, tr, err = WayHome(Trip{hour, &ShippedBag{}})
	refused(t, "ph", tr, err)
}

func TestMixPH(t *testing.T) {
	for _, r := range table(t, "ph_mixing.csv", 4) {
		m, tr, err := MixPH(Buffered{quantity.PH(r.num("pH1")), dkh(r.num("KH1_dKH"))}, Buffered{quantity.PH(r.num("pH2")), dkh(r.num("KH2_dKH"))},
			quantity.Ratio(r.num("x_water2")), quantity.Temperature(r.num("t_C")))
		fine(t, tr, err)
		r.near("pH_mix", "Plummer & Busenberg 1982, brentq", float64(m.PH), 6e-5)
		r.near("naive_average", "plain average", float64(m.Naive), 1e-9)
	}
	// Reference sheet, section 4: 6.2/KH 1 and 8.0/KH 12 half and half, 7.2495.
	if m, _, _ := MixPH(Buffered{6.2, dkh(1)}, Buffered{8.0, dkh(12)}, 0.5, 25); !near(float64(m.PH), 7.2495, 6e-5) {
		t.Errorf("6.2 and 8.0: want 7.2495, got %g", m.PH)
	}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(n string) Buffered {
			return Buffered{quantity.PH(rapid.Float64Range(5.5, 8.8).Draw(t, n)), dkh(rapid.Float64Range(0.5, 20).Draw(t, n))}
		}
		a, b, x := draw("a"), draw("b"), quantity.Ratio(rapid.Float64Range(0, 1).Draw(t, "x"))
		m, tr, err := MixPH(a, b, x, 25)
		fine(t, tr, err)
		n, _, _ := MixPH(b, a, 1-x, 25)
		if !near(float64(m.PH), float64(n.PH), 1e-9) {
			t.Fatalf("mixing is the same both ways: %g, %g", m.PH, n.PH)
		}
		same, _, _ := MixPH(a, a, x, 25)
		none, _, _ := MixPH(a, b, 0, 25)
		all, _, _ := MixPH(a, b, 1, 25)
		if !near(float64(same.PH), float64(a.PH), 1e-9) || !near(float64(none.PH), float64(a.PH), 1e-9) || !near(float64(all.PH), float64(b.PH), 1e-9) {
			t.Fatalf("%g with itself %g, with none %g, replaced %g for %g", a.PH, same.PH, none.PH, all.PH, b.PH)
		}
	})
	_, tr, err := MixPH(Buffered{7, dkh(4)}, Buffered{7, dkh(4)}, 1.1, 25)
	refused(t, "share", tr, err)
}
