package keeper

import (
	"context"
	"slices"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/quantity"
)

// KindView is one kind of animal with all that its page shows.
type KindView struct {
	Kind
	Home *Home      // nil without a tank
	Room *fish.Room // how many more there is room for, with its working
	// Clashes are those of a first group that the kind has part in, the gravest first.
	Clashes []fish.Clash
	// Company are kinds that go with it: in the tank beside all that is there, else in
	// a tank that has room for both.
	Company []fish.Suggestion
}

// companions is how many kinds are named that go with one, doublings how often its
// least tank is doubled to find them. // judgement
const (
	companions = 5
	doublings  = 3
)

// largestTank is the most that a home may have; see fish.Home.
const largestTank quantity.Volume = 20

// Kind looks at one kind of the catalogue, in a tank or, where tank is empty, by
// itself. Refusals: an unknown kind, and as Catalogue.
func (k *Keeper) Kind(ctx context.Context, tank string, code fish.Code) (KindView, error) {
	a, err := fish.Get(code)
	if err != nil {
		return KindView{}, err
	}
	v := KindView{Kind: Kind{Animal: a}}
	if tank == "" {
		alone := fish.Home{Tank: a.LeastTank, Salted: a.Has(fish.NeedsSalt)}
		for i := 0; i < doublings && len(v.Company) == 0 && err == nil; i++ {
			alone.Tank = min(2*alone.Tank, largestTank) // its least tank has room for itself
			v.Company, err = fish.Suggest(alone, []fish.Lot{{Code: code, Count: a.MinGroup}}, "", companions)
		}
		return v, err
	}
	h, lots, err := k.company(ctx, tank)
	if err != nil {
		return KindView{}, err
	}
	fit, err := fish.FitOf(h.Home, lots, code)
	if err != nil {
		return KindView{}, err
	}
	room, err := fish.RoomFor(h.Home, lots, code)
	if err != nil {
		return KindView{}, err
	}
	v.Home, v.Fit, v.Room = &h, &fit, &room
	v.Here, v.Planned = counted(lots, code)
	with := append(slices.Clone(lots), fit.Lot())
	all, err := fish.Judge(h.Home, with)
	if err != nil {
		return KindView{}, err
	}
	for _, c := range all.Clashes {
		if c.A == code || c.B == code {
			v.Clashes = append(v.Clashes, c)
		}
	}
	if fit.Verdict != fish.No {
		v.Company, err = fish.Suggest(h.Home, with, "", companions)
	}
	return v, err
}

// GetOn is whether all in a tank, what is wished for and what is tried included,
// get on and have room, and what would fit in place of what does not.
type GetOn struct {
	Fit
	Instead []Instead
}

// Instead is what would fit in place of a kind that does not, the best first.
type Instead struct {
	Of    fish.Code
	Kinds []fish.Suggestion
}

// GetOn judges a tank with what lives in it, what is wished for, and what is
// tried. Refusals: a lot that cannot be, and as Catalogue.
func (k *Keeper) GetOn(ctx context.Context, tank string, tried ...fish.Lot) (GetOn, error) {
	planned, err := k.planned(ctx, tank)
	if err != nil {
		return GetOn{}, err
	}
	f, err := k.Fit(ctx, tank, append(planned, tried...)...)
	if err != nil {
		return GetOn{}, err
	}
	instead, err := insteadOf(f.Home.Home, f.Lots, f.Together)
	return GetOn{f, instead}, err
}

// insteads is how many kinds are named in place of one; most how many are replaced.
// // judgement
const (
	insteads     = 3
	mostReplaced = 3
)

// insteadOf names what would fit in place of what clashes: of the planned kinds
// each that has part in a clash that another kind would not have; with none of
// these the one with the most clashes that are a no.
func insteadOf(h fish.Home, lots []fish.Lot, t fish.Together) ([]Instead, error) {
	planned := map[fish.Code]bool{}
	for _, l := range lots {
		here, _ := counted(lots, l.Code)
		planned[l.Code] = here == 0
	}
	var out []fish.Code
	take := func(c fish.Code) {
		if c != "" && !slices.Contains(out, c) && len(out) < mostReplaced {
			out = append(out, c)
		}
	}
	hard := map[fish.Code]int{}
	for _, c := range t.Clashes {
		if c.Verdict == fish.No {
			hard[c.A]++
			hard[c.B]++
		}
		if !c.Rule.OfKind() || c.Verdict == fish.Steady {
			continue
		}
		switch { // of two that are planned the one that the cure leaves out
		case planned[c.A] && planned[c.B] && c.Cure != nil && c.Cure.Words["A"] == c.B.Name():
			take(c.B)
		case planned[c.A]:
			take(c.A)
		case planned[c.B]:
			take(c.B)
		}
	}
	if len(out) == 0 && t.Verdict == fish.No {
		worst := fish.Code("")
		for _, l := range lots {
			if hard[l.Code] > hard[worst] || worst == "" {
				worst = l.Code
			}
		}
		take(worst)
	}
	rest := slices.DeleteFunc(slices.Clone(lots), func(l fish.Lot) bool { return slices.Contains(out, l.Code) })
	var all []Instead
	for _, c := range out {
		kinds, err := fish.Suggest(h, rest, c, insteads)
		if err != nil {
			return nil, err
		}
		if len(kinds) > 0 {
			all = append(all, Instead{c, kinds})
		}
	}
	return all, nil
}
