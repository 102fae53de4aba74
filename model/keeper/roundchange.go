package keeper

import (
	"context"
	"strings"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// MaxRoundWords is the longest title, reason or note of a round, in runes. Judgement.
const MaxRoundWords = 300

// roundWords tidies what a person wrote of a round. Refusals: too long.
func roundWords(field, s string) (string, error) {
	s = strings.Join(strings.Fields(s), " ")
	if len([]rune(s)) > MaxRoundWords {
		return "", working.Refuse(field, "refuse.rounds.words_long")
	}
	return s, nil
}

func (k *Keeper) checkRound(r rounds.Round) (rounds.Round, error) {
	var err error
	if !r.Code.Known() {
		return r, working.Refuse("code", "refuse.rounds.code")
	}
	if r.Title, err = roundWords("title", r.Title); err != nil {
		return r, err
	}
	if r.Note, err = roundWords("note", r.Note); err != nil {
		return r, err
	}
	if r.Code == rounds.Own && r.Title == "" {
		return r, working.Refuse("title", "refuse.missing")
	}
	if r.Rule.IsZero() {
		return r, working.Refuse("rule", "refuse.rounds.rule")
	}
	if _, err := r.Start.Parse(); err != nil {
		return r, working.Refuse("start", "refuse.journal.time")
	}
	return r, nil
}

func (k *Keeper) roundRow(tank string, r rounds.Round) store.Row {
	row := store.Row{"id": r.ID, "tank": tank, "code": string(r.Code), "title": orNil(r.Title), "rule": r.Rule.String(), "start": string(r.Start), "note": orNil(r.Note)}
	if r.FromShop {
		row["origin"] = string(FromProfile)
	}
	return row
}

// undoRound are the words of the undo label: the code, or "=" and the title of an
// own round.
func undoRound(r rounds.Round) map[string]string {
	if r.Code == rounds.Own {
		return map[string]string{"Round": "=" + r.Title}
	}
	return map[string]string{"Round": string(r.Code)}
}

func (k *Keeper) roundChange(tank string, label string, values map[string]string, ops ...store.Op) store.Change {
	return store.Change{Tank: tank, Label: label, Values: values, At: stamp(k.now()), Ops: ops}
}

// AddRound adds a round; its ID is set here. Its Start is where it begins, and is
// brought to the first day that its rule has from there. Refusals: an own round
// without "title"; "rule"; "start"; "code".
func (k *Keeper) AddRound(ctx context.Context, tank string, r rounds.Round) (string, error) {
	r, err := k.checkRound(r)
	if err != nil {
		return "", err
	}
	if _, err := k.tankRow(ctx, tank); err != nil {
		return "", err
	}
	if at, err := r.Start.Parse(); err == nil && !r.Rule.Single() {
		r.Start = rounds.Align(r.Rule, r.Start, at)
	}
	r.ID = k.newID()
	return r.ID, k.apply(ctx, k.roundChange(tank, "undo.round_add", undoRound(r), store.Op{Table: "round", After: k.roundRow(tank, r)}))
}

// AddFollowUp adds what is to be done once, at a civil time. Refusals: as AddRound.
func (k *Keeper) AddFollowUp(ctx context.Context, tank string, code rounds.Code, when journal.Civil, note string) (string, error) {
	return k.AddRound(ctx, tank, rounds.Round{Code: code, Rule: rounds.Once(), Start: when, Note: note})
}

// followUpOp is AddFollowUp as part of another change.
func (k *Keeper) followUpOp(tank string, code rounds.Code, when journal.Civil, note string) (store.Op, error) {
	r, err := k.checkRound(rounds.Round{ID: k.newID(), Code: code, Rule: rounds.Once(), Start: when, Note: note})
	return store.Op{Table: "round", After: k.roundRow(tank, r)}, err
}

// ChangeRound gives a round another title, rule, time of day or note. Where the
// rule or the time changed it begins anew, at the first day of the rule from
// today, or from tomorrow when today's is done: nothing becomes late by it.
func (k *Keeper) ChangeRound(ctx context.Context, tank string, r rounds.Round) error {
	all, err := k.allRounds(ctx, tank)
	if err != nil {
		return err
	}
	old, err := all.find(r.ID)
	if err != nil {
		return err
	}
	r.Code = old.Code
	if r, err = k.checkRound(r); err != nil {
		return err
	}
	if r.Rule.String() != old.Rule.String() || r.Start != old.Start {
		from := rounds.Wall(k.now())
		if at, err := r.Start.Parse(); err == nil && at.After(from) {
			from = at
		}
		for _, o := range rounds.Ahead(old, all.history(r.ID), k.now(), 1) {
			if o.State == rounds.Done || o.State == rounds.Skipped {
				from = from.AddDate(0, 0, 1)
				break
			}
		}
		if !r.Rule.Single() {
			r.Start = rounds.Align(r.Rule, r.Start, from)
		}
	}
	was := all.rows[r.ID]
	before := store.Row{"id": r.ID, "title": was["title"], "rule": was["rule"], "start": was["start"], "note": was["note"], "origin": was["origin"]}
	after := store.Row{"id": r.ID, "title": orNil(r.Title), "rule": r.Rule.String(), "start": string(r.Start), "note": orNil(r.Note), "origin": was["origin"]}
	if r.Title != old.Title || r.Rule.String() != old.Rule.String() || r.Note != old.Note {
		after["origin"] = nil // it is the person's own now
	}
	return k.apply(ctx, k.roundChange(tank, "undo.round_change", undoRound(r), store.Op{Table: "round", Before: before, After: after}))
}

// PauseRound lets a round rest, or goes on with it: what fell into the rest is
// not late, and the days of the rule stay in step.
func (k *Keeper) PauseRound(ctx context.Context, tank, id string, rest bool) error {
	all, err := k.allRounds(ctx, tank)
	if err != nil {
		return err
	}
	r, err := all.find(id)
	if err != nil {
		return err
	}
	if rest == (r.Paused != "") {
		return nil
	}
	now, at := k.civil()
	was := all.rows[id]
	op := store.Op{Table: "round", Before: store.Row{"id": id, "paused": was["paused"]}, After: store.Row{"id": id, "paused": string(now)}}
	label := "undo.round_pause"
	if !rest {
		label = "undo.round_resume"
		op.Before["start"], op.After["start"], op.After["paused"] = was["start"], was["start"], nil
		if next, ok := r.Rule.After(r.Start, rounds.Wall(at)); ok && !r.Rule.Single() {
			op.After["start"] = string(next)
		}
	}
	return k.apply(ctx, k.roundChange(tank, label, undoRound(r), op))
}

// DeleteRound puts a round into the bin. It can be undone.
func (k *Keeper) DeleteRound(ctx context.Context, tank, id string) error {
	all, err := k.allRounds(ctx, tank)
	if err != nil {
		return err
	}
	r, err := all.find(id)
	if err != nil {
		return err
	}
	return k.apply(ctx, k.roundChange(tank, "undo.round_delete", undoRound(r),
		store.Op{Table: "round", Before: store.Row{"id": id, "deleted": nil}, After: store.Row{"id": id, "deleted": stamp(k.now())}}))
}

// Doing is one occurrence being done.
type Doing struct {
	Round string
	Due   journal.Civil
	// Entry is what it writes in the daybook; nil writes what RoundEntry gives. Its
	// kind must be the round's. An empty At is now.
	Entry *journal.Entry
	// FromToday counts the coming ones from today instead of where they stood.
	FromToday bool
	// Retest is when to test again once, in the same change; empty where not.
	Retest journal.Civil
}

// DoRound notes an occurrence as done, with its entry, in one change. Refusals:
// a round or an occurrence that there is not; one done or skipped already
// ("due"); a test without readings; what AddEntry refuses.
func (k *Keeper) DoRound(ctx context.Context, tank string, d Doing) error {
	_, err := k.DoRoundWith(ctx, tank, d)
	return err
}

// DoRoundWith is DoRound that gives the id of the entry written, empty where the
// round writes none.
func (k *Keeper) DoRoundWith(ctx context.Context, tank string, d Doing) (string, error) {
	all, r, err := k.open(ctx, tank, d.Round, d.Due)
	if err != nil {
		return "", err
	}
	now := k.now()
	e := journal.Entry{}
	if d.Entry != nil {
		e = *d.Entry
	} else if e, err = k.RoundEntry(ctx, tank, r.ID); err != nil {
		return "", err
	}
	if e.Kind != r.Code.Writes() {
		return "", working.Refuse("kind", "refuse.journal.kind")
	}
	c := k.roundChange(tank, "undo.round_done", undoRound(r))
	if e.Kind != "" {
		if e.At == "" {
			e.At, e.Zone = journal.CivilOf(now), journal.ZoneOf(now)
		}
		if e.Zone == "" {
			e.Zone = journal.ZoneOf(now)
		}
		if e.Kind == journal.Kit && e.Note == "" && len(e.Readings) == 0 {
			return "", working.Refuse("note", "refuse.missing")
		}
		if err := checkEntry(e, now); err != nil {
			return "", err
		}
		e.ID = k.newID()
		c.Ops = entryOps(tank, e)
	}
	ops, err := k.handleOps(ctx, all, r, d.Due, rounds.Done, "", e.ID, d.FromToday, now)
	if err != nil {
		return "", err
	}
	c.Ops = append(c.Ops, ops...)
	if d.Retest != "" {
		op, err := k.followUpOp(tank, rounds.Retest, d.Retest, "")
		if err != nil {
			return "", err
		}
		c.Ops = append(c.Ops, op)
	}
	return e.ID, k.apply(ctx, c)
}

// SkipRound lets an occurrence go, for a reason that may stay empty. Refusals: as
// DoRound.
func (k *Keeper) SkipRound(ctx context.Context, tank, round string, due journal.Civil, reason string, fromToday bool) error {
	all, r, err := k.open(ctx, tank, round, due)
	if err != nil {
		return err
	}
	if reason, err = roundWords("reason", reason); err != nil {
		return err
	}
	ops, err := k.handleOps(ctx, all, r, due, rounds.Skipped, reason, "", fromToday, k.now())
	if err != nil {
		return err
	}
	return k.apply(ctx, k.roundChange(tank, "undo.round_skip", undoRound(r), ops...))
}

// open finds an occurrence that is neither done nor skipped.
func (k *Keeper) open(ctx context.Context, tank, round string, due journal.Civil) (roundsOf, rounds.Round, error) {
	all, err := k.allRounds(ctx, tank)
	if err != nil {
		return all, rounds.Round{}, err
	}
	r, err := all.find(round)
	if err != nil {
		return all, r, err
	}
	o, ok := rounds.Find(r, all.history(round), due, k.now())
	if !ok {
		return all, r, working.Refuse("due", "refuse.rounds.no_occurrence")
	}
	if o.State == rounds.Done || o.State == rounds.Skipped {
		return all, r, working.Refuse("due", "refuse.rounds.done")
	}
	return all, r, nil
}

// handleOps note an occurrence as done or skipped and, where asked, count the
// round from today: it is today's occurrence then that was done.
func (k *Keeper) handleOps(ctx context.Context, all roundsOf, r rounds.Round, due journal.Civil, state rounds.State, reason, entry string, fromToday bool, now time.Time) ([]store.Op, error) {
	var ops []store.Op
	if fromToday && !r.Rule.Single() {
		rule, start := rounds.FromToday(r.Rule, r.Start, now)
		was := all.rows[r.ID]
		ops = append(ops, store.Op{Table: "round", Before: store.Row{"id": r.ID, "rule": was["rule"], "start": was["start"]},
			After: store.Row{"id": r.ID, "rule": rule.String(), "start": string(start)}})
		if first, ok := rule.After(start, rounds.Wall(now).AddDate(0, 0, -1)); ok {
			due = first
		}
	}
	rows, err := k.st.Load(ctx, "round_done", map[string]any{"round": r.ID, "due": string(due)}, "")
	if err != nil {
		return nil, err
	}
	row := store.Row{"round": r.ID, "due": string(due), "state": string(state), "reason": orNil(reason), "entry": orNil(entry), "at": stamp(now)}
	op := store.Op{Table: "round_done", After: row}
	if len(rows) > 0 { // of an entry deleted since
		op.Before = rows[0]
	}
	return append(ops, op), nil
}
