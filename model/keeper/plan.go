package keeper

import (
	"context"
	"slices"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
)

// FishPlan is what is wished for a tank, laid out over weeks.
type FishPlan struct {
	Home       Home
	Stock      []Living
	Lots       []fish.Lot // of the stock
	Wishes     []Wished   // in the order in which they were made
	Plan       fish.Plan  // no steps where nothing is wished for that can come
	Gate       GateSeen   // of the next step, by the tests as they are
	Quarantine fish.Quarantine
	// Ready is how the filter stands; see care.Ripening.
	Ready care.Ripening
	At    time.Time

	order fish.Order // what it was laid out from, its wish to be filled in
}

// Wished is a wish with how it fits: judged beside the stock and the wishes before
// it that can come.
type Wished struct {
	Wish
	Animal   *fish.Animal
	Verdict  fish.Verdict // No keeps it out of the plan
	Clashes  []fish.Clash // of this kind, the gravest first
	Capacity fish.Capacity
	Room     fish.Room // how many of it there is room for
}

// GateSeen is the gate with the very tests that open it or keep it shut.
type GateSeen struct {
	fish.Gate
	Tests []journal.Entry // of the daybook, the earlier first
}

// quarantineField is where the choice of a quarantine is kept.
const quarantineField care.FieldID = "fish.quarantine"

// SetQuarantine chooses where new animals of a tank are watched. Refusal: the way.
func (k *Keeper) SetQuarantine(ctx context.Context, tank string, q fish.Quarantine) error {
	return k.Set(ctx, tank, Edit{Field: quarantineField, Option: string(q)})
}

// FishPlan lays out what is wished for a tank. Errors: *working.Refusal, also of a
// tank in which no animal could live.
func (k *Keeper) FishPlan(ctx context.Context, tank string) (FishPlan, error) {
	p := FishPlan{At: k.now()}
	var err error
	if p.Home, err = k.Home(ctx, tank); err != nil {
		return p, err
	}
	if p.Stock, err = k.Stock(ctx, tank); err != nil {
		return p, err
	}
	p.Lots = Lots(p.Stock)
	wishes, err := k.Wishes(ctx, tank)
	if err != nil {
		return p, err
	}
	var visits []water.Tests
	if err := k.look(ctx, tank, func(r *care.Record, f *care.Facts) {
		a, _ := f.Answer(quarantineField)
		p.Quarantine = fish.Quarantine(a.Choice)
		p.Ready = f.Ripening()
		var at []int
		visits, at = f.Visits()
		p.Gate.Gate, _ = f.Gate()
		for _, i := range p.Gate.Rests {
			p.Gate.Tests = append(p.Gate.Tests, r.Entries[at[i]])
		}
	}); err != nil {
		return p, err
	}
	if p.Wishes, err = wished(p.Home.Grown(), p.Lots, wishes); err != nil {
		return p, err
	}
	o := fish.Order{Home: p.Home.Home, Now: p.Lots, Tests: visits, At: p.At, Quarantine: p.Quarantine, Last: lastIn(p.Stock, p.At)}
	for _, w := range p.Wishes {
		if w.Verdict != fish.No {
			o.Wish = append(o.Wish, w.Lot())
		}
	}
	if p.Ready.Way == care.MatureFishless {
		o.Home.Fishless = !p.Ready.Shown && len(p.Stock) == 0
		if o.Home.Fishless && !p.Ready.Likely.IsZero() {
			o.Ready = &p.Ready.Likely
		}
	} else if !p.Ready.Shown && p.Ready.Takes > 0 {
		o.Matures = &p.Ready.Takes
		if len(p.Stock) > 0 && !p.Ready.Likely.IsZero() {
			o.Ready = &p.Ready.Likely
		}
	}
	if p.order = o; len(o.Wish) == 0 {
		return p, nil
	}
	p.Plan, err = fish.PlanOf(o)
	return p, err
}

// Grown is the tank once it has settled: what holds animals back for now is no
// reason to leave them out.
func (h Home) Grown() fish.Home {
	g, year := h.Home, quantity.Time(365*86400)
	g.Fishless, g.Age = false, &year
	return g
}

// wished judges wishes one after the other, each beside the stock and those before
// it that can come.
func wished(h fish.Home, stock []fish.Lot, wishes []Wish) ([]Wished, error) {
	var out []Wished
	beside := slices.Clone(stock)
	for _, w := range wishes {
		x, err := wishFits(h, beside, w)
		if err != nil {
			return nil, err
		}
		if x.Verdict != fish.No {
			beside = append(beside, w.Lot())
		}
		out = append(out, x)
	}
	return out, nil
}

func wishFits(h fish.Home, beside []fish.Lot, w Wish) (Wished, error) {
	x := Wished{Wish: w}
	var err error
	if x.Animal, err = fish.Get(w.Species); err != nil {
		return x, err
	}
	all := append(slices.Clone(beside), w.Lot())
	t, err := fish.Judge(h, all)
	if err != nil {
		return x, err
	}
	for _, c := range t.Clashes {
		if c.A == w.Species || c.B == w.Species {
			x.Clashes = append(x.Clashes, c)
			x.Verdict = max(x.Verdict, c.Verdict)
		}
	}
	if x.Capacity, err = fish.CapacityOf(h, all); err != nil {
		return x, err
	}
	x.Verdict = max(x.Verdict, x.Capacity.Verdict)
	x.Room, err = fish.RoomFor(h, beside, w.Species)
	return x, err
}

// WishFits tells how a wish would fit that is not made, or not changed, yet: the
// one with its ID, or of its kind, stands back for it. Nothing is kept. Refusals:
// as AddWish.
func (k *Keeper) WishFits(ctx context.Context, tank string, w Wish) (Wished, error) {
	if err := w.check(); err != nil {
		return Wished{}, err
	}
	p, err := k.FishPlan(ctx, tank)
	if err != nil {
		return Wished{}, err
	}
	beside := slices.Clone(p.Lots)
	for _, x := range p.Wishes {
		if x.ID != w.ID && x.Species != w.Species && x.Verdict != fish.No {
			beside = append(beside, x.Lot())
		}
	}
	return wishFits(p.Home.Grown(), beside, w)
}

// lastIn is when the last animals came in; nil for an empty tank.
func lastIn(stock []Living, now time.Time) *time.Time {
	var last *time.Time
	for _, l := range stock {
		t, err := l.Since.Parse()
		if err != nil {
			continue
		}
		t = time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), 0, 0, now.Location())
		if last == nil || t.After(*last) {
			last = &t
		}
	}
	return last
}
