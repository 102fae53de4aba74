package rounds_test

import (
	"testing"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
)

// Never on two days running, never on the first; none for a short time; always
// somebody who looks in.
func TestPlanVisit(t *testing.T) {
	for days, want := range map[string]int{"2026-12-20": 0, "2026-12-21": 0, "2026-12-22": 0, "2026-12-23": 2, "2026-12-26": 3, "2027-01-02": 7} {
		v, err := rounds.PlanVisit(rounds.Span{First: "2026-12-20", Last: days}, 0.12, 0)
		if err != nil {
			t.Fatal(err)
		}
		fed, looked, before := 0, 0, false
		for i, d := range v.Days {
			if d.Feed && (before || i == 0) {
				t.Errorf("to %s: food on %s, the day before too", days, d.Date)
			}
			if d.Feed && !d.Look {
				t.Errorf("to %s: food on %s without a look", days, d.Date)
			}
			before = d.Feed
			if d.Feed {
				fed++
			}
			if d.Look {
				looked++
			}
		}
		if fed != want || looked == 0 || v.Pinches != 3 || float64(v.Portion-quantity.Mass(0.00012)) > 1e-12 {
			t.Errorf("to %s: %d feedings, want %d; %d looks; %+v", days, fed, want, looked, v)
		}
	}
	if v, err := rounds.PlanVisit(rounds.Span{First: "2026-12-20", Last: "2026-12-27"}, 0.001, 0); err != nil || v.Pinches != 1 {
		t.Errorf("%+v %v", v, err)
	}
	if v, err := rounds.PlanVisit(rounds.Span{First: "2026-12-20", Last: "2026-12-27"}, 0, quantity.Mass(0.05e-3)); err != nil || v.Pinches != 1 || v.Portion != quantity.Mass(0.05e-3) {
		t.Errorf("where the feed is not known: %+v %v", v, err)
	}
	for _, s := range []rounds.Span{{}, {First: "2026-12-20", Last: "2026-12-19"}, {First: "soon", Last: "2026-12-19"}} {
		if _, err := rounds.PlanVisit(s, 0.1, 0); err == nil {
			t.Errorf("%+v was planned", s)
		}
	}
	if _, err := rounds.PlanVisit(rounds.Span{First: "2026-12-20", Last: "2026-12-27"}, -1, 0); err == nil {
		t.Error("negative feed was taken")
	}
}

// A pinch that was weighed counts instead of the usual one.
func TestPlanVisitInWeighedPinches(t *testing.T) {
	s := rounds.Span{First: "2026-12-20", Last: "2026-12-27"}
	for one, want := range map[float64]int{0: 3, 0.02e-3: 6, 0.06e-3: 2} {
		if v, err := rounds.PlanVisit(s, 0.12, quantity.Mass(one)); err != nil || v.Pinches != want {
			t.Errorf("pinches of %g kg: %d, want %d (%v)", one, v.Pinches, want, err)
		}
	}
}
