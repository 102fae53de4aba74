package keeper

import (
	"context"
	"time"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

// GrowthPoint is a length at a time.
type GrowthPoint struct {
	At        time.Time // civil
	Length    quantity.Length
	Low, High quantity.Length // of an estimate; both are Length where it was measured
}

// GrowthCurve is how a fish or a group grew by what was measured, and how it may
// grow on: a rule of thumb.
type GrowthCurve struct {
	Measured  []GrowthPoint   // the earliest first
	Estimated []GrowthPoint   // from the latest measured on; empty where its kind is not known
	Adult     quantity.Length // 0 where its kind is not known
	Grown     time.Time       // about when it has nine tenths of that; zero where it is there
}

// How far ahead the curve goes: past the day when they are grown up, and at most so
// far. // judgement
const (
	growthPast = 60 * 24 * time.Hour
	growthMost = 3 * 365 * 24 * time.Hour
	growthStep = 24 // points of the curve
)

// GrowthOf tells how a fish or a group grows. Refusal: no such fish.
func (k *Keeper) GrowthOf(ctx context.Context, tank, id string) (GrowthCurve, error) {
	row, err := k.fishRow(ctx, tank, id)
	if err != nil {
		return GrowthCurve{}, err
	}
	f := fishOf(row)
	past, err := k.FishPast(ctx, tank, id)
	if err != nil {
		return GrowthCurve{}, err
	}
	var c GrowthCurve
	for _, p := range past {
		m, ok := lengthIn(p.Entry)
		at, err := p.Entry.At.Parse()
		v, err2 := m.Value()
		if ok && err == nil && err2 == nil {
			x := quantity.Length(v.X)
			c.Measured = append(c.Measured, GrowthPoint{at, x, x, x})
		}
	}
	from, err := f.LengthAt.Parse()
	v, err2 := f.Length.Value()
	a, err3 := fish.Get(fish.Code(f.Species))
	if err != nil || err2 != nil || err3 != nil {
		return c, nil
	}
	x := quantity.Length(v.X)
	if len(c.Measured) == 0 {
		c.Measured = []GrowthPoint{{from, x, x, x}}
	}
	c.Adult = a.Length
	now, err := journal.CivilOf(k.now()).Parse()
	if err != nil {
		return c, nil
	}
	g, _, err := fish.GrowthOf(a.Code, x, 0)
	if err != nil { // longer than any of its kind: no estimate
		return c, nil
	}
	end := now.Add(growthPast)
	if g.Adult > 0 {
		c.Grown = from.Add(time.Duration(float64(g.Adult) * float64(time.Second)))
		end = c.Grown.Add(growthPast)
	}
	if most := now.Add(growthMost); end.After(most) {
		end = most
	}
	for i := range growthStep + 1 {
		at := from.Add(end.Sub(from) / growthStep * time.Duration(i))
		g, _, err := fish.GrowthOf(a.Code, x, min(quantity.Time(at.Sub(from).Seconds()), longestGrowth))
		if err != nil {
			return c, nil
		}
		c.Estimated = append(c.Estimated, GrowthPoint{at, g.Length, g.Low, g.High})
	}
	if !c.Grown.After(now) {
		c.Grown = time.Time{}
	}
	return c, nil
}
