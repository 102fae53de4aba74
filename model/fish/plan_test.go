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
		rests []int
	}{
		{"none", nil, false, "find.fish.gate_untested", nil},
		{"one", []water.Tests{visit(2, 0, 0)}, false, "find.fish.gate_once", []int{0}},
		{"two on a day", []water.Tests{visit(12, 0, 0), visit(2, 0, 0)}, false, "find.fish.gate_once", []int{1}},
		{"two a day apart", []water.Tests{visit(2, 0, 0), visit(26, 0, 0)}, true, "find.fish.gate_open", []int{1, 0}},
		{"below what the kit shows", []water.Tests{visit(2, 0.05, 0), visit(26, 0, 0.05)}, true, "find.fish.gate_open", []int{1, 0}},
		{"nitrite between", []water.Tests{visit(26, 0, 0), visit(14, 0, 0.5), visit(2, 0, 0)}, false, "find.fish.gate_once", []int{2}},
		{"ammonia now", []water.Tests{visit(26, 0, 0), visit(2, 0.25, 0)}, false, "find.fish.gate_not_zero", []int{1}},
		{"old", []water.Tests{visit(200, 0, 0), visit(100, 0, 0)}, false, "find.fish.gate_old", []int{1}},
		{"of tomorrow", []water.Tests{visit(-26, 0, 0), visit(2, 0, 0)}, false, "find.fish.gate_once", []int{1}},
		{"no time", []water.Tests{undated}, false, "find.fish.gate_untested", nil},
		{"beyond the card", []water.Tests{visit(26, 0, 0), beyond}, false, "find.fish.gate_not_zero", []int{1}},
		{"no nitrite", []water.Tests{half}, false, "find.fish.gate_untested", nil},
	} {
		g := GateOf(c.tests, today)
		if g.Open != c.open || g.Says != c.says || g.Finding.Code != c.says || g.From.Before(today) || !slices.Equal(g.Rests, c.rests) {
			t.Errorf("%s: %+v", c.name, g)
		}
		filled(t, say, g.Finding)
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
	if !first.Open || !first.In.Equal(today) || first.Lots[0].Code != "danio-rerio" || first.Lots[0].Count < 6 || first.Share > groupShare+1e-9 {
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

// A group comes whole where the load allows it. Where it does not, it is parted in
// twos and threes, and the step says so.
func TestGroupsComeWhole(t *testing.T) {
	say := messages(t, "en")
	for _, c := range []struct {
		name  string
		home  Home
		wish  []Lot
		now   []Lot
		sizes []int // animals of each step
		split int   // steps that part a group
	}{
		{"a large tank", homeOf(112, 80, 35, 24), []Lot{{Code: "danio-rerio", Count: 8}}, nil, []int{6, 2}, 0},
		{"a group and company", homeOf(112, 80, 35, 24), []Lot{{Code: "danio-rerio", Count: 6}, {Code: "corydoras-panda", Count: 6}}, nil, []int{6, 6}, 0},
		{"38 L", homeOf(38, 50, 25, 24), []Lot{{Code: "danio-rerio", Count: 6}}, nil, []int{2, 2, 2}, 2},
		{"two of them", homeOf(38, 50, 25, 24), []Lot{{Code: "danio-rerio", Count: 2}}, nil, []int{2}, 0},
		{"the rest of a group", homeOf(112, 80, 35, 24), []Lot{{Code: "danio-rerio", Count: 4}}, []Lot{{Code: "danio-rerio", Count: 2}}, []int{4}, 0},
		{"one alone", homeOf(112, 80, 35, 24), []Lot{{Code: "ancistrus-cirrhosus", Count: 1}}, nil, []int{1}, 0},
	} {
		p := planned(t, Order{Home: c.home, Now: c.now, Wish: c.wish, At: today, Quarantine: InTheTank})
		var sizes []int
		split := 0
		for _, s := range p.Steps {
			n := 0
			for _, l := range s.Lots {
				n += l.Count
			}
			sizes, split = append(sizes, n), split+min(1, len(s.Split))
			for _, f := range slices.Concat(s.Split, s.Waits) {
				filled(t, say, f)
			}
		}
		if !slices.Equal(sizes, c.sizes) || split != c.split {
			t.Errorf("%s: %v with %d parted, want %v with %d", c.name, sizes, split, c.sizes, c.split)
		}
	}
}

// Where the filter matures with the first animals, the second purchase waits for it.
func TestTheSecondWaitsForTheFilter(t *testing.T) {
	matures := quantity.Time(40 * day)
	o := Order{Home: homeOf(38, 50, 25, 24), Wish: []Lot{{Code: "danio-rerio", Count: 6}}, At: today, Quarantine: InTheTank, Matures: &matures,
		Tests: []water.Tests{visit(26, 0, 0), visit(2, 0, 0)}}
	p := planned(t, o)
	if !p.Steps[0].Open || p.Steps[1].In.Sub(p.Steps[0].In) != 40*24*time.Hour || p.Steps[2].In.Sub(p.Steps[1].In) != paceInTank {
		t.Errorf("%+v", p.Steps)
	}
}

// All that is wished comes, no more; steps keep to the share unless a few animals
// are more; nobody of a group comes alone; dates never run back; only the first
// step is open.
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
		final, whole, err := o.loads()
		if err != nil {
			t.Fatal(err)
		}
		want, got, have := map[Code]int{}, map[Code]int{}, map[Code]int{}
		for _, l := range o.Now {
			have[l.Code] += l.Count
		}
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
			if float64(s.Share)*final > groupShare*whole*(1+1e-9) && n > 3 && i < mostSteps-1 {
				t.Fatalf("step %d is %v of the load: %+v", i, s.Share, s.Lots)
			}
			for _, l := range s.Lots {
				if have[l.Code] += l.Count; have[l.Code] == 1 && want[l.Code] > 1 && load().by[l.Code].MinGroup > 1 {
					t.Fatalf("step %d brings one %s alone", i, l.Code)
				}
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
