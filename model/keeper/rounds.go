package keeper

import (
	"context"
	"slices"
	"sort"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Rounds is what recurs at a tank, as it stands now.
type Rounds struct {
	All  []rounds.Standing // what is late first, then due, coming by date, resting, over
	Days []RoundDay        // the coming days, today first
	Away []Away            // times away that are not over, the nearest first
	// Weekly is a daily test that the record says may now be weekly; nil otherwise.
	Weekly *rounds.Standing
}

// RoundDay is one civil day with what is due on it.
type RoundDay struct {
	Date string // 2026-11-25
	Due  []RoundDue
	Away bool
}

// RoundDue is one occurrence with its round.
type RoundDue struct {
	Round rounds.Round
	rounds.Occurrence
}

// RoundDays is how many days lie ahead in Rounds.Days.
const RoundDays = 14

// Late lists the rounds whose newest occurrence is of an earlier day.
func (r Rounds) Late() []rounds.Standing { return r.in(rounds.Late) }

// Due lists the rounds whose time has come today.
func (r Rounds) Due() []rounds.Standing { return r.in(rounds.Due) }

func (r Rounds) in(s rounds.State) []rounds.Standing {
	var out []rounds.Standing
	for _, x := range r.All {
		if x.State == s {
			out = append(out, x)
		}
	}
	return out
}

// LaterToday lists what is still to come today.
func (r Rounds) LaterToday() []RoundDue {
	var out []RoundDue
	if len(r.Days) > 0 {
		for _, d := range r.Days[0].Due {
			if d.State == rounds.Coming {
				out = append(out, d)
			}
		}
	}
	return out
}

// Rounds looks at what recurs at a tank.
func (k *Keeper) Rounds(ctx context.Context, tank string) (Rounds, error) {
	all, err := k.allRounds(ctx, tank)
	if err != nil {
		return Rounds{}, err
	}
	now := k.now()
	out := Rounds{Days: all.days(now, RoundDays)}
	for _, r := range all.list {
		out.All = append(out.All, rounds.Stand(r, all.history(r.ID), now))
	}
	byUrgency(out.All)
	for i, s := range out.All {
		p, ok := s.Rule.Plain()
		if s.Code == rounds.Test && ok && p.Unit == rounds.Days && p.Every == 1 && s.Paused == "" && !rounds.Young(all.entries, journal.CivilOf(now)) {
			out.Weekly = &out.All[i]
		}
	}
	for _, a := range all.away {
		if a.Last >= out.Days[0].Date {
			out.Away = append(out.Away, a)
		}
	}
	return out, nil
}

// days lists the coming civil days, today first, with what is due on each.
func (a roundsOf) days(now time.Time, n int) []RoundDay {
	today := rounds.Wall(now)
	out := make([]RoundDay, n)
	at := map[string]int{}
	for i := range out {
		out[i].Date = today.AddDate(0, 0, i).Format("2006-01-02")
		at[out[i].Date] = i
		for _, s := range a.spans {
			out[i].Away = out[i].Away || s.Holds(journal.Civil(out[i].Date))
		}
	}
	for _, r := range a.list {
		for _, o := range rounds.Ahead(r, a.history(r.ID), now, n) {
			if i, ok := at[o.Due.Day()]; ok {
				out[i].Due = append(out[i].Due, RoundDue{r, o})
			}
		}
	}
	for i := range out {
		d := out[i].Due
		sort.SliceStable(d, func(a, b int) bool { return d[a].Due < d[b].Due })
	}
	return out
}

// urgency is the order of states in a list.
var urgency = map[rounds.State]int{rounds.Late: 0, rounds.Due: 1, rounds.Coming: 2, rounds.Paused: 3, rounds.Over: 4}

func byUrgency(all []rounds.Standing) {
	when := func(s rounds.Standing) journal.Civil {
		if s.State == rounds.Late || s.State == rounds.Due {
			return s.Newest.Due
		}
		return s.Next
	}
	sort.SliceStable(all, func(i, j int) bool {
		a, b := all[i], all[j]
		if urgency[a.State] != urgency[b.State] {
			return urgency[a.State] < urgency[b.State]
		}
		return when(a) < when(b)
	})
}

// roundsOf is what the store holds of a tank's rounds.
type roundsOf struct {
	list    []rounds.Round
	rows    map[string]store.Row
	handled map[string][]rounds.Handled
	entries []journal.Entry
	away    []Away
	spans   []rounds.Span
}

func (a roundsOf) history(id string) rounds.History {
	return rounds.History{Handled: a.handled[id], Entries: a.entries, Away: a.spans}
}

func (a roundsOf) find(id string) (rounds.Round, error) {
	for _, r := range a.list {
		if r.ID == id {
			return r, nil
		}
	}
	return rounds.Round{}, working.Refuse("round", "refuse.rounds.no_round")
}

func (k *Keeper) allRounds(ctx context.Context, tank string) (roundsOf, error) {
	out := roundsOf{rows: map[string]store.Row{}, handled: map[string][]rounds.Handled{}}
	r, err := k.record(ctx, tank)
	if err != nil {
		return out, err
	}
	out.entries = r.Entries
	wrote := map[string]bool{} // entries that rounds wrote: still there
	row, err := k.tankRow(ctx, tank)
	if err != nil {
		return out, err
	}
	resting := journal.Civil("") // of a tank that is retired: since then
	if at := tankOf(row).Retired; !at.IsZero() {
		resting = journal.CivilOf(at.In(k.now().Location()))
	}
	rows, err := k.st.Load(ctx, "round", map[string]any{"tank": tank, "deleted": nil}, "start, id")
	if err != nil {
		return out, err
	}
	for _, row := range rows {
		id := text(row["id"])
		rule, err := rounds.ParseRule(text(row["rule"]))
		if err != nil {
			rule = rounds.Rule{} // shown as over, with its title, so that it can be set anew
		}
		paused := journal.Civil(text(row["paused"]))
		if paused == "" {
			paused = resting
		}
		out.rows[id] = row
		out.list = append(out.list, rounds.Round{ID: id, Code: rounds.Code(text(row["code"])), Title: text(row["title"]), Rule: rule,
			Start: journal.Civil(text(row["start"])), Paused: paused, Note: text(row["note"]),
			FromShop: text(row["origin"]) == string(FromProfile)})
		done, err := k.st.Load(ctx, "round_done", map[string]any{"round": id}, "due")
		if err != nil {
			return out, err
		}
		for _, d := range done {
			h := rounds.Handled{Due: journal.Civil(text(d["due"])), State: rounds.State(text(d["state"])), Reason: text(d["reason"]), Entry: text(d["entry"])}
			if h.Entry != "" {
				wrote[h.Entry] = false
			}
			out.handled[id] = append(out.handled[id], h)
		}
	}
	for i := range r.Entries {
		if _, ok := wrote[r.Entries[i].ID]; ok {
			wrote[r.Entries[i].ID] = true
		}
	}
	for id, hs := range out.handled { // an entry that was deleted did nothing
		hs = slices.DeleteFunc(hs, func(h rounds.Handled) bool { return h.Entry != "" && !wrote[h.Entry] })
		if out.handled[id] = hs; len(hs) == 0 {
			delete(out.handled, id)
		}
	}
	if out.away, err = k.Aways(ctx, tank); err != nil {
		return out, err
	}
	for _, a := range out.away {
		out.spans = append(out.spans, rounds.Span{First: a.First, Last: a.Last})
	}
	return out, nil
}

// RoundPast is what was done and skipped of a round, the newest first, with the
// reasons given. Refusal: no such round.
func (k *Keeper) RoundPast(ctx context.Context, tank, round string) ([]rounds.Handled, error) {
	all, err := k.allRounds(ctx, tank)
	if err != nil {
		return nil, err
	}
	if _, err := all.find(round); err != nil {
		return nil, err
	}
	out := slices.Clone(all.handled[round])
	slices.Reverse(out)
	return out, nil
}

// RoundEntry is the entry that doing a round writes, filled in as it was the last
// time; its Kind is empty for a round that writes none. A test is never filled
// in: doing one needs its readings.
func (k *Keeper) RoundEntry(ctx context.Context, tank, round string) (journal.Entry, error) {
	all, err := k.allRounds(ctx, tank)
	if err != nil {
		return journal.Entry{}, err
	}
	r, err := all.find(round)
	if err != nil {
		return journal.Entry{}, err
	}
	e := journal.Entry{Kind: r.Code.Writes()}
	if e.Kind == journal.Note || e.Kind == journal.Kit {
		e.Note = r.Title
	}
	if e.Kind == journal.Fed { // with the ration, and without how the last meal ended
		e.Readings, err = k.Prefill(ctx, tank, journal.Fed)
		return e, err
	}
	if e.Kind == journal.Changed {
		for i := len(all.entries) - 1; i >= 0; i-- {
			if all.entries[i].Kind == e.Kind {
				e.Readings = append(e.Readings, all.entries[i].Readings...)
				break
			}
		}
	}
	if e.Kind == journal.Changed && len(e.Readings) == 0 {
		b, err := k.RoundBasisOf(ctx, tank)
		if err != nil {
			return e, err
		}
		o, err := k.ProposeRounds(ctx, tank, b)
		if err != nil {
			return e, err
		}
		for _, p := range o.Proposals {
			if p.Plan != nil {
				e.Readings = append(e.Readings, volumeReading(p.Plan.Volume, o.System))
			}
		}
	}
	return e, nil
}

// civil is the present by the clock on the wall, and the moment itself.
func (k *Keeper) civil() (journal.Civil, time.Time) {
	now := k.now()
	return journal.CivilOf(now), now
}
