package keeper

import (
	"context"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/model/working"
)

// Home is a tank as the animals in it have it.
type Home struct {
	fish.Home
	// Proposed says that nobody has given the tank's size yet: it is the one that
	// First fill proposes.
	Proposed bool
	// Measured is when the temperature, the pH and the hardness were read, empty
	// where they were not; a temperature that was not is the one to be held.
	TemperatureAt, PHAt, GHAt journal.Civil
	Filled                    time.Time // zero before the fill
	Trail                     *working.Trail
}

// readWithin is how old a reading may be to stand for the water that animals live
// in: temperature follows the season, pH and hardness drift slowly. // judgement
const (
	temperatureWithin = 30 * 24 * time.Hour
	chemistryWithin   = 180 * 24 * time.Hour
)

// Home tells of the tank that a stock lives in, from First fill and the latest
// tests. What is not known is nil. Errors: what is impossible about the tank's
// sizes, as a *working.Refusal.
func (k *Keeper) Home(ctx context.Context, id string) (Home, error) {
	var h Home
	var err2 error
	err := k.look(ctx, id, func(r *care.Record, f *care.Facts) { h, err2 = homeOf(r, f) })
	if err == nil {
		err = err2
	}
	return h, err
}

func homeOf(r *care.Record, f *care.Facts) (Home, error) {
	full, err := f.Full()
	if err != nil {
		return Home{}, err
	}
	// A tank is sold by the box around it. Common practice, no source.
	label := full.Outer
	size, given := f.Answer("tank.nominal")
	for _, n := range tank.Nominals() {
		if v, err := n.Name.Value(); err == nil && n.Code == size.Choice && v.Kind == quantity.KindVolume {
			label = quantity.Volume(v.X)
		}
	}
	_, long := f.Answer("tank.length")
	h := Home{Home: fish.HomeOf(f.Tank(), label, full), Proposed: !given && !long}
	t := working.New("ask.keeper.home").Given("V", "q.fish.tank", label.Value())
	if h.Length != nil {
		t.Given("L", "q.fish.tank_length", h.Length.Value())
	}
	t.Given("A", "q.fish.surface", full.Surface.Value())
	if a, _, err := f.Media(); err == nil {
		h.Media = &a
		t.Given("A_m", "q.fish.media", a.Value())
	}
	h.water(r, f, t)
	for i := len(r.Entries) - 1; i >= 0 && h.Filled.IsZero(); i-- {
		if at, ok := r.Entries[i].Instant(); ok && r.Entries[i].Kind == journal.Filled {
			h.Filled = at
			age := quantity.Time(max(0, r.Now.Sub(at).Seconds()))
			h.Age = &age
			t.Given("a", "q.fish.age", age.Value())
		}
	}
	way, _ := f.Answer("mature.way")
	_, begun := r.Done[care.FirstFish]
	h.Fishless = way.Choice == care.MatureFishless && !begun && !r.Lived && !h.Filled.IsZero()
	h.Trail = t.Step("N", "q.fish.net", "N", full.Net.Value(), "")
	return h, nil
}

// water fills in what was measured of late, and else the temperature to be held.
func (h *Home) water(r *care.Record, f *care.Facts, t *working.Trail) {
	read := func(name string, kind quantity.Kind, within time.Duration) (float64, journal.Civil, bool) {
		e, reading, ok := newest(r.Entries, name)
		if !ok {
			return 0, "", false
		}
		v, known := reading.Value()
		at, dated := e.Instant()
		if !known || !dated || v.Kind != kind || r.Now.Sub(at) > within {
			return 0, "", false
		}
		return v.X, e.At, true
	}
	if x, at, ok := read(journal.NameTemperature, quantity.KindTemperature, temperatureWithin); ok {
		warm := quantity.Temperature(x)
		h.Water.Temperature, h.TemperatureAt = &warm, at
	} else if a, _ := f.Answer("settle.target"); !a.Measure.IsZero() {
		if v, err := a.Measure.Value(); err == nil {
			warm := quantity.Temperature(v.X)
			h.Water.Temperature = &warm
		}
	}
	if h.Water.Temperature != nil {
		t.Given("T", "q.fish.temperature", h.Water.Temperature.Value())
	}
	if x, at, ok := read(journal.NamePH, quantity.KindPH, chemistryWithin); ok {
		ph := quantity.PH(x)
		h.Water.PH, h.PHAt = &ph, at
		t.Given("pH", "q.fish.ph", ph.Value())
	}
	if x, at, ok := read(journal.NameGH, quantity.KindHardness, chemistryWithin); ok {
		gh := quantity.Hardness(x)
		h.Water.GH, h.GHAt = &gh, at
		t.Given("GH", "q.fish.gh", gh.Value())
	}
}
