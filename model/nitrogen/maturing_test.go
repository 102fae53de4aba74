package nitrogen

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"pgregory.net/rapid"
)

func readTable(t *testing.T, name string, rows int) []map[string]string {
	t.Helper()
	f, err := os.Open("../../testdata/water/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, rec := range all[1:] {
		m := map[string]string{}
		for i, h := range all[0] {
			m[h] = rec[i]
		}
		out = append(out, m)
	}
	if len(out) != rows {
		t.Fatalf("%s: %d rows read, want %d", name, len(out), rows)
	}
	return out
}

func num(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestLoad against worked examples by Timmons & Ebeling's rule. The table gives
// no tolerance: half a unit in its last figure.
func TestLoad(t *testing.T) {
	for _, r := range readTable(t, "tan_production.csv", 4) {
		feed := num(t, r["n"]) * num(t, r["mass_g"]) * num(t, r["ration_per_d"])
		l, tr, err := LoadOf(quantity.MassRate(feed), quantity.Ratio(num(t, r["protein"])), quantity.Litres(num(t, r["V_L"])))
		if err != nil || !tr.Finite() || tr.Spread == nil {
			t.Fatalf("%s: %v", r["case"], err)
		}
		for _, c := range []struct {
			column   string
			got, tol float64
		}{
			{"feed_g_d", feed, 5e-5}, {"TAN_mgN_d", float64(l.TAN) * 1000, 6e-4}, {"TAN_mgN_L_d", float64(l.Rate), 6e-5},
			{"NO3_mg_L_per_week", float64(l.NitrateWeek), 6e-4}, {"O2_mg_d", float64(l.Oxygen) * 1000, 6e-3}, {"alk_mgCaCO3_d_gross", float64(l.Alkalinity) * 1000, 6e-3},
		} {
			if want := num(t, r[c.column]); math.Abs(c.got-want) > c.tol {
				t.Errorf("tan_production.csv (Timmons & Ebeling), %s, %s: want %g, got %g", r["case"], c.column, want, c.got)
			}
		}
	}
}

// TestDefaultSheet holds the figures against the table of parameters, and each
// within its own range.
func TestDefaultSheet(t *testing.T) {
	names := map[string]string{"mu_A20": "growth_a", "mu_N20": "growth_n", "b_A20": "decay_a", "b_N20": "decay_n", "Y_A": "yield_a", "Y_N": "yield_n",
		"K_A": "half_a", "K_N": "half_n", "K_OA": "oxygen_a", "K_ON": "oxygen_n", "KI_FA_N": "inhibit", "Ea_A": "energy_a", "Ea_N": "energy_n",
		"theta_b": "theta", "K_ALK": "half_alk", "XA0": "seed_a", "XN0": "seed_n"}
	sheet := map[string]Sheet{}
	for _, s := range DefaultSheet() {
		sheet[s.Name] = s
		if !(s.Low <= s.Value && s.Value <= s.High) {
			t.Errorf("%s: default %g outside %g to %g", s.Name, s.Value, s.Low, s.High)
		}
		if _, ok := working.LookUp(s.Source); !ok {
			t.Errorf("%s: no source %q", s.Name, s.Source)
		}
	}
	checked := 0
	for _, r := range readTable(t, "nitrification_params.csv", 18) {
		name, ok := names[r["parameter"]]
		if !ok { // the pH function is no single figure; checked below
			continue
		}
		checked++
		if want := num(t, r["default"]); sheet[name].Value != want {
			t.Errorf("nitrification_params.csv, %s: want %g, got %g", r["parameter"], want, sheet[name].Value)
		}
		if low, high, ok := strings.Cut(r["Sin2008_range"], "-"); ok {
			if s := sheet[name]; s.Low > num(t, low) || s.High < num(t, high) {
				t.Errorf("%s: range %g to %g leaves out part of Sin 2008 %s", name, s.Low, s.High, r["Sin2008_range"])
			}
		}
	}
	if checked != len(names) || len(sheet) != len(names) {
		t.Errorf("%d of %d figures checked, sheet has %d", checked, len(names), len(sheet))
	}
	if g := speedOfPH(7.2); math.Abs(g-1) > 0.005 {
		t.Errorf("pH function at 7.2: %g, want 1.00 (nitrification_params.csv)", g)
	}
	if speedOfPH(9.5) != 0 || speedOfPH(12) != 0 || speedOfPH(6) >= speedOfPH(7) {
		t.Error("pH function: nothing from 9.5, and less at 6 than at 7")
	}
}

// TestMaturingAgainstStartUps: the ranges meet what was published: 1 to 6 weeks
// (FAO glossary), 6 to 7 weeks (Mnyoro et al. 2022), over 4 weeks with fish in a
// classroom tank. Durations are a rule of thumb: overlap is what is asked.
func TestMaturingAgainstStartUps(t *testing.T) {
	readTable(t, "startup_data.csv", 4) // the sources of the lines below
	for _, c := range []struct {
		way        Way
		w          quantity.Temperature
		from, upTo float64 // weeks
	}{
		{Fishless, 25, 1, 7}, {Seeded, 25, 1, 6}, {WithFish, 25, 4, 16},
	} {
		d, tr, err := Maturing(Plan{c.way, c.w, 0.09315, tapOfReference})
		if err != nil {
			t.Fatal(err)
		}
		likely := float64(d.Likely/days) / 7
		if likely < c.from || likely > c.upTo || d.Open {
			t.Errorf("%s: likely %.1f weeks, want %g to %g", c.way, likely, c.from, c.upTo)
		}
		if tr.Strength != working.RuleOfThumb || tr.Spread == nil || !tr.Finite() {
			t.Errorf("%s: days are a rule of thumb with a range, got %v", c.way, tr.Strength)
		}
		if ratio := float64(d.High / d.Low); ratio < 1.5 || ratio > 5 {
			t.Errorf("%s: range %g to %g days, want a factor of about two to three", c.way, float64(d.Low/days), float64(d.High/days))
		}
	}
}

func TestCompare(t *testing.T) {
	ds, err := Compare(Plan{Temperature: 25, Load: 0.09315, Tap: tapOfReference})
	if err != nil || len(ds) != 3 {
		t.Fatal(ds, err)
	}
	for i, d := range ds {
		if d.Way != Ways()[i] || !(0 < d.Low && d.Low <= d.Likely && d.Likely <= d.High) {
			t.Errorf("%+v", d)
		}
	}
	if !(ds[2].Likely < ds[0].Likely && ds[0].Likely < ds[1].Likely) {
		t.Errorf("seeded %g, fishless %g, with fish %g days: want this order", ds[2].Likely/days, ds[0].Likely/days, ds[1].Likely/days)
	}
	if ds[1].Extra == 0 || ds[2].Extra > ds[1].Extra {
		t.Errorf("extra changes with fish %d, seeded %d", ds[1].Extra, ds[2].Extra)
	}
	if _, err := Compare(Plan{Temperature: 40, Load: 0.1}); err == nil {
		t.Error("40 °C accepted")
	}
	if _, _, err := Maturing(Plan{Way: "hurried", Temperature: 25, Load: 0.1}); err == nil {
		t.Error("an unknown way accepted")
	}
}

func TestMaturingTakesAnyPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Plan{rapid.SampledFrom(Ways()).Draw(t, "way"), quantity.Temperature(rapid.Float64Range(15, 30).Draw(t, "t")),
			quantity.Rate(rapid.Float64Range(0.005, 2).Draw(t, "load")), Tap{0, 0, 5, meq(rapid.Float64Range(0, 6).Draw(t, "alk"))}}
		d, tr, err := Maturing(p)
		if err != nil {
			t.Fatal(err)
		}
		if !tr.Finite() || !(d.Low <= d.Likely && d.Likely <= d.High) || d.High > horizon*days {
			t.Fatalf("%+v", d)
		}
	})
}

func TestAmmoniaDose(t *testing.T) {
	// By hand: 2 mg N/L in 50 L is 100 mg N; NH4Cl is 26.19 % N: 0.3819 g.
	v, tr, err := AmmoniaDose{Target: 2, Tank: quantity.Litres(50), Kind: Chloride}.Amount()
	if err != nil || !tr.Finite() || math.Abs(v.In(quantity.MustUnit("g"))-0.3819) > 0.0001 {
		t.Errorf("ammonium chloride: %v %v, want 0.3819 g", v, err)
	}
	// By hand: 121.6 mg NH3 in a solution of 10 %, 0.962 kg/L: 1.264 mL.
	v, _, err = AmmoniaDose{Target: 2, Tank: quantity.Litres(50), Kind: Solution, Share: 0.10}.Amount()
	if err != nil || math.Abs(v.In(quantity.MustUnit("ml"))-1.264) > 0.002 {
		t.Errorf("ammonia solution: %v %v, want 1.264 mL", v, err)
	}
	for _, bad := range []AmmoniaDose{
		{Target: 9, Tank: 0.05, Kind: Chloride}, {Target: 2, Tank: 0, Kind: Chloride}, {Target: 2, Tank: 0.05, Kind: Solution},
		{Target: 2, Tank: 0.05}, {Target: quantity.Concentration(math.NaN()), Tank: 0.05, Kind: Chloride},
	} {
		_, tr, err := bad.Amount()
		var r *working.Refusal
		if !errors.As(err, &r) || tr != nil {
			t.Errorf("%+v accepted", bad)
		}
	}
	rapid.Check(t, func(t *rapid.T) { // in proportion to target and tank
		d := AmmoniaDose{Target: quantity.Concentration(rapid.Float64Range(0, 2).Draw(t, "n")), Tank: quantity.Litres(rapid.Float64Range(1, 500).Draw(t, "v")),
			Kind: rapid.SampledFrom([]Feedstock{Solution, Chloride}).Draw(t, "k"), Share: 0.09}
		one, _, err1 := d.Amount()
		d.Target *= 2
		two, _, err2 := d.Amount()
		if err1 != nil || err2 != nil || math.Abs(two.X-2*one.X) > 1e-12 {
			t.Fatal(one, two, err1, err2)
		}
	})
}

func TestLoadRefuses(t *testing.T) {
	for _, c := range []struct {
		f quantity.MassRate
		p quantity.Ratio
		v quantity.Volume
	}{{-1, 0.4, 0.05}, {1, 0.9, 0.05}, {1, 0.4, 0}, {quantity.MassRate(math.Inf(1)), 0.4, 0.05}} {
		if _, tr, err := LoadOf(c.f, c.p, c.v); err == nil || tr != nil {
			t.Errorf("%+v accepted", c)
		}
	}
}
