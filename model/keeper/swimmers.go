package keeper

import (
	"context"

	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
)

// swimmers is what lives in a tank and what is wished for it, as it is drawn. One
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
	for _, x := range wishes {
		if a, err := fish.Get(x.Species); err == nil {
			out = append(out, care.Swimmer{ID: x.ID, Code: x.Species, Count: x.Count, Length: a.Length, Adult: a.Length, Planned: true})
		}
	}
	return out, nil
}
