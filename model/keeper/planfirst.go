package keeper

import (
	"context"
	"errors"

	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/working"
)

// first is what the plan brings home first, for the page of the first fish: of the
// kind that its answers name, else of what is wished for. It is nil where nothing
// that fits is planned, or the tank cannot be judged.
func (k *Keeper) first(ctx context.Context, tank string, r *care.Record) (*care.First, error) {
	if _, done := r.Done[care.FirstFish]; done {
		return nil, nil
	}
	p, err := k.FishPlan(ctx, tank)
	var refused *working.Refusal
	if errors.As(err, &refused) {
		return nil, nil // the page says itself what is impossible about the tank
	}
	if err != nil {
		return nil, err
	}
	plan := p.Plan
	said := r.Answers["fish.kind"]
	if code, told := k.KindTold(said.Words); told {
		if plan, err = p.alone(code); err != nil {
			return nil, err
		}
	} else if said.Words != "" {
		return nil, nil // a kind that the catalogue does not have
	}
	if len(plan.Steps) == 0 {
		return nil, nil
	}
	lot := plan.Steps[0].Lots[0]
	a, err := fish.Get(lot.Code)
	if err != nil {
		return nil, err
	}
	return &care.First{Kind: k.nameOf(a), Adult: a.Length, Count: lot.Count, Splits: len(plan.Steps[0].Split) > 0, Trail: plan.Trail}, nil
}

// alone is the plan where a kind comes first: as it is wished for, or else one
// group of it beside what is.
func (p FishPlan) alone(code fish.Code) (fish.Plan, error) {
	a, err := fish.Get(code)
	if err != nil {
		return fish.Plan{}, err
	}
	o := p.order
	o.Wish = nil
	for _, w := range p.Wishes {
		if w.Species == code {
			o.Wish = []fish.Lot{w.Lot()}
		}
	}
	if o.Wish == nil {
		o.Wish = []fish.Lot{{Code: code, Count: a.MinGroup, Planned: true}}
	}
	return fish.PlanOf(o)
}

// nameOf is what a person calls a kind.
func (k *Keeper) nameOf(a *fish.Animal) string {
	k.mu.Lock()
	names := k.names
	k.mu.Unlock()
	if names != nil {
		if all := names(a.Code); len(all) > 0 {
			return all[0]
		}
	}
	return a.Common
}
