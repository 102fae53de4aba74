package keeper

import (
	"context"
	"slices"
	"strings"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

// Prefill is what a new entry of a kind begins with: what was given the last time,
// of feeding the ration where there is one, and where that says nothing, what First fill has on record. Tests, temperatures
// and what a person noticed are never filled in beforehand.
func (k *Keeper) Prefill(ctx context.Context, tank string, kind journal.Kind) ([]journal.Reading, error) {
	var out []journal.Reading
	var whole, change Doses
	doses, err := k.Doses(ctx, tank)
	if err == nil {
		whole, change = doses, doses
	}
	var ration journal.Reading
	rationed := false
	if kind == journal.Fed {
		if f, err := k.Feeding(ctx, tank); err == nil {
			ration, rationed = f.meal()
		}
	}
	err = k.look(ctx, tank, func(r *care.Record, f *care.Facts) {
		for i := len(r.Entries) - 1; i >= 0; i-- {
			if r.Entries[i].Kind == kind {
				out = again(kind, r.Entries[i].Readings)
				break
			}
		}
		add := func(name string, m quantity.Measure) {
			if _, have := (journal.Entry{Readings: out}).Get(name); !have && !m.IsZero() {
				out = append(out, journal.Reading{Name: name, Measure: m})
			}
		}
		take := func(id care.FieldID) quantity.Measure { a, _ := f.Answer(id); return a.Measure }
		if rationed { // the ration of today, whatever was given the last time
			out = slices.DeleteFunc(out, func(r journal.Reading) bool { return r.Name == journal.NameFeed })
			out = append([]journal.Reading{ration}, out...)
		}
		switch kind {
		case journal.Changed:
			if len(out) == 0 && change.Change.Water > 0 {
				add(journal.NameVolume, inUnit(change.Change.Water.Value(), r.System))
			}
			if change.Change.Amount.Known() && len(out) <= 1 {
				add(journal.NameDose, inUnit(change.Change.Amount, r.System))
			}
			add(journal.NameTemperature, take("settle.target"))
		case journal.Dosed:
			if len(out) == 0 && whole.Whole.Amount.Known() {
				add(journal.NameDose, inUnit(whole.Whole.Amount, r.System))
			}
		case journal.HomeComing:
			if len(out) == 0 {
				add(journal.NameTemperature, take("bag.temp"))
				add(journal.NameVolume, take("bag.volume"))
			}
		}
	})
	return out, err
}

// again is what of an entry stands for the next one too.
func again(kind journal.Kind, rs []journal.Reading) []journal.Reading {
	keep := map[journal.Kind][]string{
		journal.Fed: {journal.NameFeed, journal.NameWhat}, journal.Changed: {journal.NameVolume, journal.NameDose, journal.NameTemperature},
		journal.Dosed: {journal.NameDose, journal.NameWhat}, journal.Cleaned: {journal.NamePart}, journal.ToppedUp: {journal.NameVolume},
	}[kind]
	var out []journal.Reading
	for _, r := range rs {
		for _, name := range keep {
			if r.Name == name && r.Qualifier == journal.Plain {
				out = append(out, r)
			}
		}
	}
	return out
}

// inUnit writes a proposed volume or mass in a round figure of the system's unit.
func inUnit(v quantity.Value, s quantity.System) quantity.Measure {
	unit := quantity.UnitCode("l")
	switch {
	case v.Kind == quantity.KindMass:
		unit = "g"
	case v.X < 0.0005:
		unit = "ml"
	case s == quantity.US:
		unit = "gal_us"
	case s == quantity.Imperial:
		unit = "gal_imp"
	}
	return quantity.Of(v.In(quantity.MustUnit(unit)), unit, 2)
}

// Asked is one thing that the form of a water test offers.
type Asked struct {
	Name string
	Used bool             // the person has measured it before
	Kit  *journal.TestKit // the kit that showed it last; nil where none is known
	Kits []journal.TestKit
	Last journal.Reading // what it was the last time, of the tank; the zero Reading where never
	At   journal.Civil
}

// usualTests are asked of who has never tested: what a new tank is judged by.
// Common practice, no source.
var usualTests = map[string]bool{journal.NameAmmonia: true, journal.NameNitrite: true, journal.NameNitrate: true, journal.NamePH: true, journal.NameTemperature: true}

// TestForm lists what a water test may measure: what the person measures comes
// first, the latest measured leading, then what else can be measured; what was
// measured together, and what never was, in the order of journal.Tests. Each comes
// with the kit that was used the last time.
func (k *Keeper) TestForm(ctx context.Context, tank string) ([]Asked, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return nil, err
	}
	kits, err := k.Kits(ctx)
	if err != nil {
		return nil, err
	}
	byID := map[string]int{}
	for i, t := range kits {
		byID[t.ID] = i
	}
	var used, rest []Asked
	tested := false
	for _, e := range r.Entries {
		tested = tested || e.Kind == journal.Tested
	}
	for _, name := range journal.Tests() {
		a := Asked{Name: name}
		looked := 0
		for i := len(r.Entries) - 1; i >= 0 && looked < usedWithin; i-- {
			e := r.Entries[i]
			if e.Kind != journal.Tested && e.Kind != journal.TapTested {
				continue
			}
			looked++
			x, ok := e.Get(name)
			if !ok {
				continue
			}
			if e.Kind == journal.Tested && a.At == "" {
				a.Last, a.At, a.Used = x, e.At, true
			}
			if n, ok := byID[x.Kit]; ok && a.Kit == nil {
				a.Kit = &kits[n]
			}
			if a.At != "" && a.Kit != nil {
				break
			}
		}
		for i := range kits {
			if kits[i].Reading == name {
				a.Kits = append(a.Kits, kits[i])
			}
		}
		if a.Kit == nil && len(a.Kits) > 0 {
			a.Kit = &a.Kits[0]
		}
		a.Used = a.Used || len(a.Kits) > 0 || !tested && usualTests[name]
		if a.Used {
			used = append(used, a)
		} else {
			rest = append(rest, a)
		}
	}
	slices.SortStableFunc(used, func(a, b Asked) int { return strings.Compare(string(b.At), string(a.At)) })
	return append(used, rest...), nil
}

// usedWithin is over how many tests a thing counts as one that the person
// measures. Judgement.
const usedWithin = 30
