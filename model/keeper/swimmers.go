package keeper

import (
	"context"
	"errors"

	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/working"
)

// swimmers is what lives in a tank and what is wished for it and can come, as it is
// drawn. One
// that was never measured is taken as adult; one of an unknown kind that was not
// measured cannot be drawn and is left out.
func (k *Keeper) swimmers(ctx context.Context, tank string) ([]care.Swimmer, error) {
	stock, err := k.Stock(ctx, tank)
	if err != nil {
		return nil, err
	}
	var out []care.Swimmer
	for _, l := range stock {
		w := care.Swimmer{ID: l.ID, Code: l.Code(), Name: l.Name, Count: l.Count}
		if l.Animal != nil {
			w.Adult, w.Length = l.Animal.Length, l.Animal.Length
		}
		if l.Today != nil {
			w.Length = *l.Today
		}
		if w.Length > 0 {
			out = append(out, w)
		}
	}
	wishes, err := k.Wishes(ctx, tank)
	if err != nil {
		return nil, err
	}
	refused, err := k.cannotCome(ctx, tank, stock, wishes)
	if err != nil {
		return nil, err
	}
	for _, x := range wishes {
		if a, err := fish.Get(x.Species); err == nil && !refused[x.ID] {
			out = append(out, care.Swimmer{ID: x.ID, Code: x.Species, Count: x.Count, Length: a.Length, Adult: a.Length, Planned: true})
		}
	}
	return out, nil
}

// cannotCome tells which wishes the plan leaves out, by their ID; none where the tank
// cannot be judged.
func (k *Keeper) cannotCome(ctx context.Context, tank string, stock []Living, wishes []Wish) (map[string]bool, error) {
	if len(wishes) == 0 {
		return nil, nil
	}
	var refused *working.Refusal
	h, err := k.Home(ctx, tank)
	if errors.As(err, &refused) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	all, err := wished(h.Grown(), Lots(stock), wishes)
	if errors.As(err, &refused) {
		return nil, nil
	}
	out := map[string]bool{}
	for _, w := range all {
		out[w.ID] = w.Verdict == fish.No
	}
	return out, err
}
