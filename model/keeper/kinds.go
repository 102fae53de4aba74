package keeper

import (
	"context"
	"slices"
	"strings"

	"example.org/driploop/model/fish"
)

// Kind is an animal of the catalogue as it stands to a tank.
type Kind struct {
	Animal        *fish.Animal
	Fit           *fish.Fit // nil without a tank
	Here, Planned int       // how many live in the tank, and are wished for
}

// Verdict is whether the kind fits; steady without a tank.
func (k Kind) Verdict() fish.Verdict {
	if k.Fit == nil {
		return fish.Steady
	}
	return k.Fit.Verdict
}

// Catalogue is every kind of animal as it stands to a tank with what lives there
// and what is wished for. It holds for that moment and is searched without the
// daybook.
type Catalogue struct {
	Home  *Home // nil without a tank
	Lots  []fish.Lot
	kinds map[fish.Code]Kind
}

// Catalogue makes the catalogue of a tank, of none where tank is empty. Refusals:
// the tank is gone, or its sizes are impossible.
func (k *Keeper) Catalogue(ctx context.Context, tank string) (*Catalogue, error) {
	c := &Catalogue{kinds: map[fish.Code]Kind{}}
	if tank == "" {
		for _, a := range fish.All() {
			c.kinds[a.Code] = Kind{Animal: a}
		}
		return c, nil
	}
	h, lots, err := k.company(ctx, tank)
	if err != nil {
		return nil, err
	}
	fits, err := fish.Fits(h.Home, lots)
	if err != nil {
		return nil, err
	}
	c.Home, c.Lots = &h, lots
	for i := range fits {
		x := Kind{Animal: fits[i].Animal, Fit: &fits[i]}
		x.Here, x.Planned = counted(lots, x.Animal.Code)
		c.kinds[x.Animal.Code] = x
	}
	return c, nil
}

// company is a tank with what lives in it and what is wished for.
func (k *Keeper) company(ctx context.Context, tank string) (Home, []fish.Lot, error) {
	h, err := k.Home(ctx, tank)
	if err != nil {
		return Home{}, nil, err
	}
	stock, err := k.Stock(ctx, tank)
	if err != nil {
		return Home{}, nil, err
	}
	planned, err := k.planned(ctx, tank)
	return h, Lots(stock, planned...), err
}

// planned is what is wished for a tank.
func (k *Keeper) planned(ctx context.Context, tank string) ([]fish.Lot, error) {
	wishes, err := k.Wishes(ctx, tank)
	var out []fish.Lot
	for _, w := range wishes {
		out = append(out, w.Lot())
	}
	return out, err
}

func counted(lots []fish.Lot, code fish.Code) (here, planned int) {
	for _, l := range lots {
		switch {
		case l.Code != code:
		case l.Planned:
			planned += l.Count
		default:
			here += l.Count
		}
	}
	return here, planned
}

// Find lists the kinds that a filter keeps, those that fit first, then those that
// take care, then the others; among these by group where nothing is searched, else
// as fish.Find. With fits, those that do
// not fit are left out; without a tank that says nothing. Names gives the names of
// a kind in the person's language, or is nil.
func (c *Catalogue) Find(f fish.Filter, fits bool, names func(fish.Code) []string) []Kind {
	var out [fish.No + 1][]Kind
	found := fish.Find(f, names)
	if strings.TrimSpace(f.Text) == "" {
		groups := map[fish.Group]int{}
		for i, g := range fish.Groups() {
			groups[g] = i
		}
		slices.SortStableFunc(found, func(x, y *fish.Animal) int { return groups[x.Group] - groups[y.Group] })
	}
	for _, a := range found {
		k := c.kinds[a.Code]
		out[k.Verdict()] = append(out[k.Verdict()], k)
	}
	if fits {
		out[fish.No] = nil
	}
	return append(append(out[fish.Steady], out[fish.Wait]...), out[fish.No]...)
}

// Count is how many kinds there are, and how many of them stand so.
func (c *Catalogue) Count(v fish.Verdict) (some, all int) {
	for _, k := range c.kinds {
		if k.Verdict() == v {
			some++
		}
	}
	return some, len(c.kinds)
}
