package keeper

import (
	"context"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Away is a time when somebody else looks after the tank.
type Away struct {
	ID    string
	First string // civil days, both included
	Last  string
	Who   string
	Note  string // what else the person asks of them
}

// MaxAway is the longest time away, in days. Judgement: longer, and the tank
// wants somebody who knows it.
const MaxAway = 60

// Aways lists the times away of a tank, earliest first.
func (k *Keeper) Aways(ctx context.Context, tank string) ([]Away, error) {
	rows, err := k.st.Load(ctx, "away", map[string]any{"tank": tank, "deleted": nil}, "first, id")
	if err != nil {
		return nil, err
	}
	var out []Away
	for _, r := range rows {
		out = append(out, awayOf(r))
	}
	return out, nil
}

func awayOf(r store.Row) Away {
	return Away{ID: text(r["id"]), First: text(r["first"]), Last: text(r["last"]), Who: text(r["who"]), Note: text(r["note"])}
}

func (k *Keeper) checkAway(a Away) (Away, error) {
	day := func(field, s string) error {
		if _, err := journal.Civil(s + "T00:00").Parse(); err != nil {
			return working.Refuse(field, "refuse.rounds.day")
		}
		return nil
	}
	if err := day("first", a.First); err != nil {
		return a, err
	}
	if err := day("last", a.Last); err != nil {
		return a, err
	}
	n, err := journal.DaysBetween(journal.Civil(a.First+"T00:00"), journal.Civil(a.Last+"T00:00"))
	switch {
	case err != nil || n < 0:
		return a, working.Refuse("last", "refuse.rounds.last_before")
	case n >= MaxAway:
		return a, working.Refuse("last", "refuse.rounds.away_long")
	}
	if a.Who, err = roundWords("who", a.Who); err != nil {
		return a, err
	}
	a.Note, err = roundWords("note", a.Note)
	return a, err
}

// Moved is a water change that falls into a time away.
type Moved struct {
	Round rounds.Round
	From  []journal.Civil // inside the time away
	To    journal.Civil   // proposed instead, before leaving
}

// beforeLeaving is how many days before leaving water is changed: time enough to
// see that all is well after it. Judgement.
const beforeLeaving = 2

// MovedBy lists the water changes that fall into a time away, each with a day
// before it. Nothing is changed.
func (k *Keeper) MovedBy(ctx context.Context, tank string, a Away) ([]Moved, error) {
	a, err := k.checkAway(a)
	if err != nil {
		return nil, err
	}
	all, err := k.allRounds(ctx, tank)
	if err != nil {
		return nil, err
	}
	first, _ := journal.Civil(a.First + "T00:00").Parse() // checkAway has read it
	last, _ := journal.Civil(a.Last + "T23:59").Parse()
	today := rounds.Wall(k.now())
	var out []Moved
	for _, r := range all.list {
		if r.Code != rounds.Change || r.Paused != "" {
			continue
		}
		m := Moved{Round: r}
		for _, c := range r.Rule.Between(r.Start, first, last) {
			if o, ok := rounds.Find(r, all.history(r.ID), c, k.now()); ok && o.State != rounds.Done && o.State != rounds.Skipped {
				m.From = append(m.From, c)
			}
		}
		if len(m.From) == 0 {
			continue
		}
		to := first.AddDate(0, 0, -beforeLeaving)
		if to.Before(today) {
			to = today
		}
		at, _ := m.From[0].Parse() // an occurrence
		m.To = journal.CivilOf(time.Date(to.Year(), to.Month(), to.Day(), at.Hour(), at.Minute(), 0, 0, time.UTC))
		out = append(out, m)
	}
	return out, nil
}

// AddAway notes a time away. Where move is set, the water changes inside it are
// skipped, with reason as their reason, and one is due before leaving instead:
// one change with the rest. Refusals: "first", "last", "who", "note".
func (k *Keeper) AddAway(ctx context.Context, tank string, a Away, move bool, reason string) (string, error) {
	a, err := k.checkAway(a)
	if err != nil {
		return "", err
	}
	if _, err := k.tankRow(ctx, tank); err != nil {
		return "", err
	}
	a.ID = k.newID()
	c := k.roundChange(tank, "undo.away_add", nil, store.Op{Table: "away",
		After: store.Row{"id": a.ID, "tank": tank, "first": a.First, "last": a.Last, "who": orNil(a.Who), "note": orNil(a.Note)}})
	if move {
		moved, err := k.MovedBy(ctx, tank, a)
		if err != nil {
			return "", err
		}
		for _, m := range moved {
			for _, due := range m.From {
				c.Ops = append(c.Ops, store.Op{Table: "round_done", After: store.Row{"round": m.Round.ID, "due": string(due), "state": string(rounds.Skipped),
					"reason": orNil(reason), "at": stamp(k.now())}})
			}
			op, err := k.followUpOp(tank, rounds.ChangeAgain, m.To, reason)
			if err != nil {
				return "", err
			}
			c.Ops = append(c.Ops, op)
		}
	}
	return a.ID, k.apply(ctx, c)
}

// ChangeAway gives a time away other days, name or note. Refusals: as AddAway.
func (k *Keeper) ChangeAway(ctx context.Context, tank string, a Away) error {
	a, err := k.checkAway(a)
	if err != nil {
		return err
	}
	was, err := k.awayOf(ctx, tank, a.ID)
	if err != nil {
		return err
	}
	row := func(a Away) store.Row {
		return store.Row{"id": a.ID, "first": a.First, "last": a.Last, "who": orNil(a.Who), "note": orNil(a.Note)}
	}
	return k.apply(ctx, k.roundChange(tank, "undo.away_change", nil, store.Op{Table: "away", Before: row(was), After: row(a)}))
}

// DeleteAway puts a time away into the bin. It can be undone.
func (k *Keeper) DeleteAway(ctx context.Context, tank, id string) error {
	if _, err := k.awayOf(ctx, tank, id); err != nil {
		return err
	}
	return k.apply(ctx, k.roundChange(tank, "undo.away_delete", nil,
		store.Op{Table: "away", Before: store.Row{"id": id, "deleted": nil}, After: store.Row{"id": id, "deleted": stamp(k.now())}}))
}

func (k *Keeper) awayOf(ctx context.Context, tank, id string) (Away, error) {
	all, err := k.Aways(ctx, tank)
	if err != nil {
		return Away{}, err
	}
	for _, a := range all {
		if a.ID == id {
			return a, nil
		}
	}
	return Away{}, working.Refuse("away", "refuse.rounds.no_away")
}

// Neighbour is what the sheet for whoever looks after the tank says.
type Neighbour struct {
	Away    Away
	Plan    rounds.Visit
	Weighed bool // the portion or its pinch rests on what was weighed, not on a guess
}

// Neighbour plans the nearest time away that is not over. Refusals (field
// "away"): there is none.
func (k *Keeper) Neighbour(ctx context.Context, tank string) (Neighbour, error) {
	all, err := k.Aways(ctx, tank)
	if err != nil {
		return Neighbour{}, err
	}
	if _, err := k.tankRow(ctx, tank); err != nil {
		return Neighbour{}, err
	}
	today := rounds.Wall(k.now()).Format("2006-01-02")
	for _, a := range all {
		if a.Last < today {
			continue
		}
		b, err := k.RoundBasisOf(ctx, tank)
		if err != nil {
			return Neighbour{}, err
		}
		o, err := k.ProposeRounds(ctx, tank, b)
		if err != nil {
			return Neighbour{}, err
		}
		feed, _, err := basisOf(o.Basis)
		if err != nil {
			return Neighbour{}, err
		}
		n, one := Neighbour{Away: a, Weighed: o.Weighed}, quantity.Mass(0)
		if f, err := k.Feeding(ctx, tank); err == nil && f.Refused == nil {
			if b.Feed.IsZero() { // what the stock is to have, and not what it was given
				feed = f.Ration.Day
			}
			if f.Pinch != nil {
				one, n.Weighed = f.Pinch.One, true
			}
		}
		n.Plan, err = rounds.PlanVisit(rounds.Span{First: a.First, Last: a.Last}, feed, one)
		return n, err
	}
	return Neighbour{}, working.Refuse("away", "refuse.rounds.no_time_away")
}
