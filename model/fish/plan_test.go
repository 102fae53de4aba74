package fish

import (
	"math"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

var today = time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC)

// visit is a test of both so many hours before today; x as mg/L.
func visit(hours, ammonia, nitrite float64) water.Tests {
	at := today.Add(-time.Duration(hours * float64(time.Hour)))
	r := func(x float64, b quantity.Basis) water.Reading {
		return water.Reading{Value: quantity.Concentration(x).Value(), Basis: b, Resolution: quantity.Concentration(0.1).Value(), At: at}
	}
	return water.Tests{Ammonia: r(ammonia, quantity.AsN), Nitrite: r(nitrite, quantity.AsIon)}
}

func TestGate(t *testing.T) {
	undated := visit(1, 0, 0)
	undated.Ammonia.At = time.Time{}
	beyond := visit(1, 0, 0)
	beyond.Nitrite.Beyond = true
	half := visit(1, 0, 0)
	half.Nitrite = water.Reading{}
	say := messages(t, "en")
	for _, c := range []struct {
		name  string
		tests []water.Tests
		open  bool
		says  working.Key
	}{
		{"none", nil, false, "find.fish.gate_untested"},
		{"one", []water.Tests{visit(2, 0, 0)}, false, "find.fish.gate_once"},
		{"two on a day", []water.Tests{visit(12, 0, 0), visit(2, 0, 0)}, false, "find.fish.gate_once"},
		{"two a day apart", []water.Tests{visit(2, 0, 0), visit(26, 0, 0)}, true, "find.fish.gate_open"},
		{"below what the kit shows", []water.Tests{visit(2, 0.05, 0), visit(26, 0, 0.05)}, true, "find.fish.gate_open"},
		{"nitrite between", []water.Tests{visit(26, 0, 0), visit(14, 0, 0.5), visit(2, 0, 0)}, false, "find.fish.gate_once"},
		{"ammonia now", []water.Tests{visit(26, 0, 0), visit(2, 0.25, 0)}, false, "find.fish.gate_not_zero"},
		{"old", []water.Tests{visit(200, 0, 0), visit(100, 0, 0)}, false, "find.fish.gate_old"},
		{"of tomorrow", []water.Tests{visit(-26, 0, 0), visit(2, 0, 0)}, false, "find.fish.gate_once"},
		{"no time", []water.Tests{undated}, false, "find.fish.gate_untested"},
		{"beyond the card", []water.Tests{visit(26, 0, 0), beyond}, false, "find.fish.gate_not_zero"},
		{"no nitrite", []water.Tests{half}, false, "find.fish.gate_untested"},
	} {
		open, from, f := gate(c.tests, today)
		if open != c.open || f.Code != c.says || from.Before(today) {
			t.Errorf("%s: %v at %v, %s", c.name, open, from, f.Code)
		}
		filled(t, say, f)
	}
}

func planned(t testing.TB, o Order) Plan {
	t.Helper()
	p, err := PlanOf(o)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestPlanOfACommunity(t *testing.T) {
	h := homeOf(112, 80, 35, 24)
	h.Age = weeks(5)
	o := Order{Home: h, Wish: []Lot{{Code: neonCode, Count: 10}, {Code: "corydoras-panda", Count: 6}, {Code: "danio-rerio", Count: 8}},
		Tests: []water.Tests{visit(26, 0, 0), visit(2, 0, 0)}, At: today, Quarantine: InTheTank}
	p := planned(t, o)
	first := p.Steps[0]
	if !first.Open || !first.In.Equal(today) || first.Lots[0].Code != "danio-rerio" || first.Share > stepShare+1e-9 {
		t.Errorf("the first purchase is %+v", first)
	}
	for i, s := range p.Steps[1:] {
		if s.Open || s.In.Sub(p.Steps[i].In) < paceInTank {
			t.Errorf("step %d: %+v after %v", i+1, s, p.Steps[i].In)
		}
	}
	// Neons want a tank of six weeks: not within a week from now.
	for _, s := range p.Steps {
		for _, l := range s.Lots {
			if l.Code == neonCode && s.In.Before(today.Add(7*24*time.Hour)) {
				t.Errorf("neons on %v", s.In)
			}
		}
	}
	o.Tests = nil
	if p := planned(t, o); p.Steps[0].Open || !p.Steps[0].In.After(today) {
		t.Errorf("without a test: %+v", p.Steps[0])
	}
	ready := today.Add(30 * 24 * time.Hour)
	o.Ready = &ready
	if p := planned(t, o); !p.Steps[0].In.Equal(ready) {
		t.Errorf("ready on %v: %v", ready, p.Steps[0].In)
	}
	o.Quarantine, o.Ready = Apart, nil
	p = planned(t, o)
	if p.Steps[0].Buy.Before(today) || p.Steps[0].In.Sub(p.Steps[0].Buy) != quarantineTime {
		t.Errorf("apart: %+v", p.Steps[0])
	}
	o.Quarantine = "cellar"
	if _, err := PlanOf(o); err == nil {
		t.Error("a cellar is taken")
	}
}

// All that is wished comes, no more; steps keep to the share unless one animal or a
// pair is more; dates never run back; only the first step is open.
func TestPlansAreWhole(t *testing.T) {
	say := messages(t, "en")
	rapid.Check(t, func(t *rapid.T) {
		h := drawHome(t)
		celsius := quantity.Temperature(25)
		h.Water.Temperature = &celsius
		o := Order{Home: h, Now: drawLots(t, 0, 2), Wish: drawLots(t, 1, 4), At: today, Quarantine: rapid.SampledFrom(Quarantines()).Draw(t, "quarantine")}
		if rapid.Bool().Draw(t, "tested") {
			o.Tests = []water.Tests{visit(26, 0, 0), visit(2, 0, 0)}
		}
		p, err := PlanOf(o)
		if err != nil {
			t.Fatal(err)
		}
		want, got := map[Code]int{}, map[Code]int{}
		for _, l := range o.Wish {
			want[l.Code] += l.Count
		}
		for i, s := range p.Steps {
			n := 0
			for _, l := range s.Lots {
				got[l.Code] += l.Count
				n += l.Count
				if l.Males != nil && (*l.Males < 0 || *l.Males > l.Count) {
					t.Fatalf("%d males of %d", *l.Males, l.Count)
				}
			}
			if s.Open && (i > 0 || len(o.Tests) == 0) || i > 0 && s.In.Before(p.Steps[i-1].In) || s.Buy.Before(today) && i == 0 {
				t.Fatalf("step %d: %+v", i, s)
			}
			if s.Share > stepShare+1e-9 && n > 2 && i < mostSteps-1 {
				t.Fatalf("step %d is %v of the load: %+v", i, s.Share, s.Lots)
			}
		}
		for c, n := range want {
			if got[c] != n {
				t.Fatalf("%s: %d of %d", c, got[c], n)
			}
		}
		if len(got) != len(want) || !p.Trail.Finite() {
			t.Fatalf("%v for %v", got, want)
		}
		for _, f := range p.Findings {
			filled(t, say, f)
		}
		if math.IsNaN(float64(p.Steps[0].Share)) || !slices.IsSortedFunc(p.Steps, func(x, y Purchase) int { return x.In.Compare(y.In) }) {
			t.Fatal(p.Steps)
		}
	})
}
