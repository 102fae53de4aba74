package keeper

import (
	"context"

	"example.org/driploop/model/fish"
)

// Fit is whether a stock gets on and how full its tank is.
type Fit struct {
	Home     Home
	Stock    []Living
	Lots     []fish.Lot // of the stock and of what is planned
	Unknown  int        // animals of kinds that the catalogue does not have: they do not count
	Judged   bool       // what follows is known
	Together fish.Together
	Capacity fish.Capacity
}

// Verdict is the graver of the two.
func (f Fit) Verdict() fish.Verdict { return max(f.Together.Verdict, f.Capacity.Verdict) }

// Fit judges what lives in a tank, together with what is planned. Errors:
// *working.Refusal, also of a tank in which no animal could live; what lives in it
// is told all the same.
func (k *Keeper) Fit(ctx context.Context, tank string, planned ...fish.Lot) (Fit, error) {
	var f Fit
	var err error
	if f.Stock, err = k.Stock(ctx, tank); err != nil {
		return f, err
	}
	if f.Home, err = k.Home(ctx, tank); err != nil {
		return f, err
	}
	for _, l := range f.Stock {
		if l.Animal == nil {
			f.Unknown += l.Count
		}
	}
	f.Lots = Lots(f.Stock, planned...)
	if f.Together, err = fish.Judge(f.Home.Home, f.Lots); err != nil {
		return f, err
	}
	if f.Capacity, err = fish.CapacityOf(f.Home.Home, f.Lots); err != nil {
		return f, err
	}
	f.Judged = true
	return f, nil
}
