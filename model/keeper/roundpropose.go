package keeper

import (
	"context"
	"encoding/json"
	"math"
	"slices"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// RoundBasis is what the water change is reckoned from, as a person typed it; a
// zero Measure is what the record or common practice gives.
type RoundBasis struct {
	Feed quantity.Measure `json:"feed,omitzero"` // dry feed a day
	Tap  quantity.Measure `json:"tap,omitzero"`  // nitrate of the tap water, as the ion
}

// RoundOffer is the usual rounds for a tank.
type RoundOffer struct {
	Proposals []rounds.Proposal
	Basis     RoundBasis // as used
	Weighed   bool       // the feed was typed or weighed, not guessed from the fish
	System    quantity.System
	Refused   error // why there is no water change among them
}

const (
	// Nitrate of tap water where none was given, mg/L as the ion, as typed.
	// Judgement: the legal limit is 50, most supplies lie well below.
	usualTap = "10"
	// Share of protein in dry feed. Source: the worked example of the reference run.
	usualProtein = quantity.Ratio(0.45)
	// Mass of a fish of length L cm, g: goldfish row of the length-weight table,
	// which slender fish stay below. Source: FishBase figures in Add-my-Pet, a = 0.01349, b = 3.00.
	massPerCube = 0.01349
	// Dry feed a day over the mass of the fish. Common practice, no source: 1 to 3 %.
	usualRation = 0.015
)

// ProposeRounds lists the usual rounds for a tank, with reasons and working. What
// the shop proposed whose profile the tank began with takes the place of the usual
// ones, but for what the tank is not ready for, and for a test that has to be daily
// while the filter is young. Nothing is changed.
func (k *Keeper) ProposeRounds(ctx context.Context, tank string, b RoundBasis) (RoundOffer, error) {
	out := RoundOffer{}
	var refused error
	_, draft, err := k.draft(ctx, tank)
	if err != nil {
		return out, err
	}
	h, _, err := k.HandedBy(ctx, tank)
	if err != nil {
		return out, err
	}
	ration := quantity.MassRate(0)
	if f, err := k.Feeding(ctx, tank); err == nil && f.Refused == nil {
		ration = f.Ration.Day
	}
	err = k.look(ctx, tank, func(r *care.Record, f *care.Facts) {
		out.System = r.System
		t := rounds.Tank{Switch: r.Region.Protection(), Gravel: true}
		var fish float64
		for _, e := range r.Entries {
			n := 0.0
			if c, ok := e.Get(journal.NameCount); ok {
				if v, ok := c.Value(); ok {
					n = v.X
				}
			}
			switch e.Kind {
			case journal.Powered:
				t.Powered = true
			case journal.FishIn, journal.HomeComing:
				_, here := e.Get(journal.NameCame) // born here, or counted again
				t.Stocked = t.Stocked || !here
				fish += n
			case journal.FishOut:
				fish -= n
			case journal.Fed:
				t.Stocked = true
			}
		}
		today := journal.CivilOf(r.Now)
		t.Young = rounds.Young(r.Entries, today)
		if draft { // for a tank that runs, with a filter that keeps up
			t.Powered, t.Stocked, t.Young = true, true, false
		}
		defer func() { out.Proposals = withShop(out.Proposals, h.Plan, t, r.Now) }()
		choice := func(id care.FieldID) string { a, _ := f.Answer(id); return a.Choice }
		t.Gravel = choice("gravel.kind") != "none"
		t.Internal = choice("filter.kind") != "canister"
		t.Light, t.Heater = f.Known("light.watts"), f.Known("heater.watts")
		full, err := f.Full()
		if err != nil {
			out.Proposals, refused = rounds.Propose(t, r.Now)
			return
		}
		t.Known, t.Net, t.Protein = true, full.Net, usualProtein
		out.Basis, out.Weighed = usualBasis(b, r, f, fish, ration, today)
		if t.Feed, t.Tap, refused = basisOf(out.Basis); refused != nil {
			t.Known = false
		}
		var short error
		if out.Proposals, short = rounds.Propose(t, r.Now); refused == nil {
			refused = short
		}
		for _, p := range out.Proposals {
			if p.Trail != nil && !out.Weighed {
				p.Trail.Assume("assume.rounds.feed_guess")
			}
		}
	})
	out.Refused = refused
	return out, err
}

// Why a round is proposed as it is, of what a shop proposed.
const (
	whyShop      working.Key = "why.rounds.shop"       // so the shop has it
	whyShopLater working.Key = "why.rounds.shop_later" // the shop has it less often, which is too seldom yet
)

// withShop puts what a shop proposed in the place of the usual rounds.
func withShop(usual []rounds.Proposal, plan []slip.Round, t rounds.Tank, now time.Time) []rounds.Proposal {
	for _, x := range plan {
		rule, err := rounds.ParseRule(x.Rule)
		if err != nil {
			continue // it was checked when it was taken
		}
		p := rounds.Proposal{Code: x.Code, Rule: rule, Start: startOf(rule, x.At, now), Title: x.Title, Note: x.Note, FromShop: true,
			Why: []working.Finding{working.Find(working.Steady, whyShop)}}
		at := slices.IndexFunc(usual, func(u rounds.Proposal) bool { return x.Code != rounds.Own && u.Code == x.Code })
		switch {
		case at < 0 && (x.Code == rounds.Feed && !t.Stocked || x.Code == rounds.Look && !t.Powered && !t.Stocked):
		case at < 0:
			usual = append(usual, p)
		case x.Code == rounds.Test && t.Young && rule.String() != usual[at].Rule.String():
			usual[at].Why = append(usual[at].Why, working.Find(working.Steady, whyShopLater))
		default:
			p.Why = append(p.Why, usual[at].Why...)
			p.Trail, p.Plan = usual[at].Trail, usual[at].Plan
			usual[at] = p
		}
	}
	return usual
}

// usualBasis fills in what was not typed.
func usualBasis(b RoundBasis, r *care.Record, f *care.Facts, fish float64, ration quantity.MassRate, today journal.Civil) (RoundBasis, bool) {
	weighed := !b.Feed.IsZero()
	if !weighed {
		if feed, ok := rounds.FeedOf(r.Entries, today); ok {
			b.Feed, weighed = quantity.Of(float64(feed), "g/d", 2), true
		} else if ration > 0 {
			b.Feed = quantity.Of(float64(ration), "g/d", 2)
		} else {
			if fish <= 0 {
				fish = 1
				if a, _ := f.Answer("fish.count"); !a.Measure.IsZero() {
					if v, err := a.Measure.Value(); err == nil {
						fish = v.X
					}
				}
			}
			long := 0.04 // m, where no adult length is known. Judgement
			if a, _ := f.Answer("fish.adult"); !a.Measure.IsZero() {
				if v, err := a.Measure.Value(); err == nil && v.X > 0 {
					long = v.X
				}
			}
			b.Feed = quantity.Of(fish*massPerCube*math.Pow(long*100, 3)*usualRation, "g/d", 2)
		}
	}
	if b.Tap.IsZero() {
		b.Tap = quantity.Measure{Number: usualTap, Unit: "mg/l", Basis: quantity.AsIon}
	}
	return b, weighed
}

// basisOf reads a basis. Refusals: "feed" or "tap" of another kind.
func basisOf(b RoundBasis) (quantity.MassRate, quantity.Concentration, error) {
	feed, err := b.Feed.Value()
	if err != nil || feed.Kind != quantity.KindMassRate {
		return 0, 0, working.Refuse("feed", "refuse.not_a_number")
	}
	tap, err := b.Tap.Value()
	if err != nil || tap.Kind != quantity.KindConcentration {
		return 0, 0, working.Refuse("tap", "refuse.not_a_number")
	}
	ion := quantity.Concentration(tap.X)
	if b.Tap.Basis == quantity.AsN {
		per, _ := quantity.Nitrate.IonPerN()
		ion = quantity.Concentration(tap.X * per)
	}
	return quantity.MassRate(feed.X), ion, nil
}

// Taking is one proposal that a person takes up.
type Taking struct {
	Proposal rounds.Proposal
	Note     string // in the person's words, such as how much water
}

// TakeRounds adds proposals in one change, which one undo takes back, and
// remembers the basis. A usual round that the tank has already is left as it is.
// Refusals: nothing to take.
func (k *Keeper) TakeRounds(ctx context.Context, tank string, b RoundBasis, take []Taking) error {
	all, err := k.allRounds(ctx, tank)
	if err != nil {
		return err
	}
	type same struct {
		code  rounds.Code
		title string // of an own round
	}
	has := map[same]bool{}
	for _, r := range all.list {
		has[same{r.Code, r.Title}] = true
	}
	c := k.roundChange(tank, "undo.rounds_take", nil)
	for _, t := range take {
		p := t.Proposal
		if has[same{p.Code, p.Title}] {
			continue
		}
		has[same{p.Code, p.Title}] = true
		r, err := k.checkRound(rounds.Round{ID: k.newID(), Code: p.Code, Title: p.Title, Rule: p.Rule, Start: p.Start, Note: t.Note, FromShop: p.FromShop})
		if err != nil {
			return err
		}
		c.Ops = append(c.Ops, store.Op{Table: "round", After: k.roundRow(tank, r)})
	}
	if len(c.Ops) == 0 {
		return working.Refuse("rounds", "refuse.rounds.none")
	}
	if err := k.apply(ctx, c); err != nil {
		return err
	}
	typed, err := json.Marshal(b)
	if err != nil {
		return err
	}
	return k.SetSetting(ctx, settingBasis+tank, string(typed))
}

// settingBasis and a tank's id name what its water change was reckoned from.
const settingBasis = "rounds_basis."

// RoundBasisOf is what was typed when the rounds of a tank were taken up.
func (k *Keeper) RoundBasisOf(ctx context.Context, tank string) (RoundBasis, error) {
	var b RoundBasis
	s, ok, err := k.Setting(ctx, settingBasis+tank)
	if err == nil && ok && s != "" {
		err = json.Unmarshal([]byte(s), &b)
	}
	return b, err
}

// volumeReading is a volume to pour, in the unit that the tank's figures go by.
func volumeReading(v quantity.Volume, s quantity.System) journal.Reading {
	unit := quantity.UnitCode("l")
	if s == quantity.US {
		unit = "gal_us"
	}
	u := quantity.MustUnit(unit)
	return journal.Reading{Name: journal.NameVolume, Measure: quantity.Of(v.Value().In(u), unit, 2)}
}
