package keeper

import (
	"context"
	"time"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Living is a fish or a group that lives in a tank, with what is estimated of it.
type Living struct {
	Fish
	Animal *fish.Animal // its kind; nil where the catalogue does not have it
	// Today is the length of one of them now, estimated from the measured one,
	// between Low and High; all three are nil where it was never measured or the
	// kind is not known.
	Today, Low, High *quantity.Length
	// Grown is about when it will be nine tenths of its adult length; zero where
	// that is not known or it is there.
	Grown time.Time
	Trail *working.Trail // of Today; nil without it
}

// Code is the kind in the catalogue, empty where it is not known.
func (l Living) Code() fish.Code {
	if l.Animal == nil {
		return ""
	}
	return l.Animal.Code
}

// Lot is l as the calculations take it; false for a kind that they do not know.
func (l Living) Lot() (fish.Lot, bool) {
	if l.Animal == nil || l.Count < 1 {
		return fish.Lot{}, false
	}
	return fish.Lot{Code: l.Animal.Code, Count: l.Count, Males: l.Males, Length: l.Today}, true
}

// Lots is a stock, and what is planned beside it, as the calculations take them:
// animals that the catalogue does not have are left out.
func Lots(stock []Living, planned ...fish.Lot) []fish.Lot {
	var out []fish.Lot
	for _, l := range stock {
		if lot, ok := l.Lot(); ok {
			out = append(out, lot)
		}
	}
	for _, p := range planned {
		p.Planned = true
		out = append(out, p)
	}
	return out
}

// Stock lists the animals that live in a tank, those that came first leading,
// with today's lengths. Refusal: the tank is gone.
func (k *Keeper) Stock(ctx context.Context, tank string) ([]Living, error) {
	all, err := k.allFish(ctx, tank)
	if err != nil {
		return nil, err
	}
	var out []Living
	for _, f := range all {
		if f.lives() {
			out = append(out, k.living(f))
		}
	}
	return out, nil
}

// lives reports whether some of f live in its tank.
func (f Fish) lives() bool { return f.Count > 0 && f.Gone == "" }

// allFish lists the fish of a tank that are not removed, gone ones too, those that
// came first leading.
func (k *Keeper) allFish(ctx context.Context, tank string) ([]Fish, error) {
	if _, err := k.tankRow(ctx, tank); err != nil {
		return nil, err
	}
	rows, err := k.st.Load(ctx, "fish", map[string]any{"tank": tank, "deleted": nil}, "since, id")
	if err != nil {
		return nil, err
	}
	out := make([]Fish, 0, len(rows))
	for _, r := range rows {
		out = append(out, fishOf(r))
	}
	return out, nil
}

// longestGrowth is how far ahead growth is estimated: see fish.GrowthOf.
const longestGrowth = quantity.Time(10 * 365.25 * 86400) // s

// living works out what is estimated of a fish as of now.
func (k *Keeper) living(f Fish) Living {
	l := Living{Fish: f}
	a, err := fish.Get(fish.Code(f.Species))
	if err != nil {
		return l
	}
	l.Animal = a
	if g, t, err := growth(f, k.now()); err == nil {
		l.Today, l.Low, l.High, l.Trail = &g.Length, &g.Low, &g.High, t
		if g.Adult > 0 {
			l.Grown = k.now().Add(time.Duration(float64(g.Adult) * float64(time.Second)))
		}
	}
	return l
}

// growth estimates the length of one of f at a time from the measured one.
func growth(f Fish, at time.Time) (fish.Growth, *working.Trail, error) {
	v, err := f.Length.Value()
	if err != nil || v.Kind != quantity.KindLength {
		return fish.Growth{}, nil, working.Refuse("length", "refuse.missing")
	}
	days, err := journal.DaysBetween(f.LengthAt, journal.CivilOf(at))
	if err != nil {
		return fish.Growth{}, nil, err
	}
	after := min(quantity.Time(max(0, days))*86400, longestGrowth)
	return fish.GrowthOf(fish.Code(f.Species), quantity.Length(v.X), after)
}
