package keeper_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
)

// clock is a clock that a test moves.
type clock struct{ t time.Time }

func (c *clock) now() time.Time { return c.t }

func open(t *testing.T, dir string, c *clock) *keeper.Keeper {
	t.Helper()
	k, err := keeper.Open(context.Background(), dir, keeper.Options{Now: c.now, Region: care.Region{Code: "US"}})
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func noon() *clock {
	return &clock{time.Date(2026, 11, 25, 12, 0, 0, 0, time.FixedZone("", 3600))}
}

func words() keeper.Words {
	return keeper.Words{Name: "Kitchen corner", Fish: "Zebra danio", Notice: "The water was cloudy and cleared by itself.", Shown: func(n care.NoteID) (string, string, string) { return "text of " + string(n), "en", "hash" }}
}

// The example's keeper types in the units that the person who looks at it reads.
func TestExampleIsTypedInThePersonsUnits(t *testing.T) {
	ctx := context.Background()
	for system, foreign := range map[quantity.System][]quantity.UnitCode{quantity.Metric: {"in", "ft", "gal_us", "floz_us", "lb", "degf"}, quantity.US: {"cm", "degc"}} {
		k := open(t, t.TempDir(), noon())
		defer k.Close()
		w := words()
		w.System = system
		id, err := k.MakeExample(ctx, w)
		if err != nil {
			t.Fatal(err)
		}
		wrong := func(where string, u quantity.UnitCode) {
			if slices.Contains(foreign, u) {
				t.Errorf("%s: %s is typed in %s", system, where, u)
			}
		}
		typed := 0
		for _, step := range care.Steps() {
			v, _, err := k.FirstFill(ctx, id, step)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range v.Page.Fields {
				if f.Answer.Origin == care.FromPerson && f.Answer.Measure.Unit != "" {
					typed++
					wrong(string(f.Field.ID), f.Answer.Measure.Unit)
				}
			}
		}
		days, err := k.Days(ctx, id)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range days {
			for _, e := range d.Entries {
				if e.Kind != journal.Temperature {
					continue
				}
				for _, r := range e.Readings {
					typed++
					wrong(string(e.Kind)+" "+r.Measure.Number, r.Measure.Unit)
				}
			}
		}
		if typed < 10 {
			t.Errorf("%s: only %d measures were looked at", system, typed)
		}
	}
}

// The example goes through every gate of First fill with the methods a person's
// own tank uses, and ends with the bag floating.
func TestExampleWalksEveryGate(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	id, err := k.MakeExample(ctx, words())
	if err != nil {
		t.Fatal(err)
	}
	v, _, err := k.FirstFill(ctx, id, care.HomeComing)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range v.Steps {
		want := care.Finished
		if s.Step == care.HomeComing {
			want = care.Open
		}
		if s.State != want {
			t.Errorf("step %s is %s, want %s; changed %v", s.Step, s.State, want, s.Changed)
		}
	}
	if v.Page.Curve == nil || v.Page.Curve.Timer == nil {
		t.Fatal("no running timer on the home-coming page")
	}
	if got := v.Page.Curve.Timer.Passed(c.now()); got != 11*time.Minute {
		t.Errorf("timer has run %v, want 11m", got)
	}
	again, err := k.MakeExample(ctx, words())
	if err != nil || again != id {
		t.Errorf("a second example: %q, %v; want the first one", again, err)
	}
}
