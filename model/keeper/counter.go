package keeper

import (
	"context"
	"encoding/json"
	"slices"
	"strings"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// The catalogue of starter profiles. A profile in work is a tank like others, so
// that First fill asks, checks and undoes it as it does a keeper's; a row of draft
// keeps it out of the lists of tanks.

// draftRow is what a profile in work has and no tank does.
type draftRow struct {
	row     store.Row
	notes   map[string]string
	feeding FeedingBasis
	later   slip.Later
}

func (k *Keeper) draft(ctx context.Context, tank string) (draftRow, bool, error) {
	rows, err := k.st.Load(ctx, "draft", map[string]any{"tank": tank}, "")
	if err != nil || len(rows) == 0 {
		return draftRow{}, false, err
	}
	d := draftRow{row: rows[0]}
	for name, to := range map[string]any{"notes": &d.notes, "feeding": &d.feeding, "later": &d.later} {
		if d.row[name] == nil {
			continue
		}
		if err := json.Unmarshal([]byte(text(d.row[name])), to); err != nil {
			return d, false, err
		}
	}
	return d, true, nil
}

// drafts are the rows of all profiles in work, by tank.
func (k *Keeper) drafts(ctx context.Context) (map[string]store.Row, error) {
	rows, err := k.st.Load(ctx, "draft", nil, "")
	out := make(map[string]store.Row, len(rows))
	for _, r := range rows {
		out[text(r["tank"])] = r
	}
	return out, err
}

// setDraft changes columns of a draft in one step.
func (k *Keeper) setDraft(ctx context.Context, tank string, d draftRow, to store.Row, label string) error {
	before, after := store.Row{"tank": tank}, store.Row{"tank": tank}
	same := true
	for name, v := range to {
		before[name], after[name] = d.row[name], v
		same = same && d.row[name] == v
	}
	if same {
		return nil
	}
	return k.apply(ctx, store.Change{Tank: tank, Label: label, At: stamp(k.now()), Ops: []store.Op{{Table: "draft", Before: before, After: after}}})
}

// needDraft is draft for what only a profile in work can do. Refusal: none of that
// id.
func (k *Keeper) needDraft(ctx context.Context, id string) (draftRow, error) {
	if _, err := k.tankRow(ctx, id); err != nil {
		return draftRow{}, err
	}
	d, ok, err := k.draft(ctx, id)
	if err == nil && !ok {
		err = working.Refuse("profile", "refuse.keeper.no_profile")
	}
	return d, err
}

// profileSteps are the steps of First fill that a profile answers, in order.
func profileSteps() []care.Step {
	return slices.DeleteFunc(care.Steps(), func(s care.Step) bool { return !slip.Marked(s) })
}

// StartProfile begins a starter profile from nothing. system decides which round
// figures are proposed. It is a change of the list of tanks. Refusals: as
// StartTank's.
func (k *Keeper) StartProfile(ctx context.Context, name string, system quantity.System) (string, error) {
	name, err := checkName(name)
	if err != nil {
		return "", err
	}
	at, id := k.now(), k.newID()
	ops := append(k.startOps(id, name, system, Own, at), store.Op{Table: "draft", After: store.Row{"tank": id, "notes": "{}", "feeding": "{}"}})
	return id, k.apply(ctx, store.Change{Label: "undo.draft_start", Values: map[string]string{"Name": name}, At: stamp(at), Ops: ops})
}

// DraftFrom begins a starter profile as a copy of another one, or of a tank: the
// answers that a shop may propose, what recurs, and how it is fed. It is a change
// of the list of tanks. Refusals: as StartTank's.
func (k *Keeper) DraftFrom(ctx context.Context, from, name string) (string, error) {
	name, err := checkName(name)
	if err != nil {
		return "", err
	}
	p, err := k.said(ctx, from)
	if err != nil {
		return "", err
	}
	d, _, err := k.draft(ctx, from)
	if err != nil {
		return "", err
	}
	notes, err := json.Marshal(orNone(d.notes))
	if err != nil {
		return "", err
	}
	feeding, err := json.Marshal(basisFrom(p.Feeding))
	if err != nil {
		return "", err
	}
	draft := store.Row{"notes": string(notes), "feeding": string(feeding)}
	if later, err := laterText(p.Later); err != nil {
		return "", err
	} else if later != nil {
		draft["later"] = later
	}
	at, id := k.now(), k.newID()
	draft["tank"] = id
	ops := []store.Op{{Table: "tank", After: store.Row{"id": id, "name": name, "origin": string(Own), "created": stamp(at)}}, {Table: "draft", After: draft}}
	answers := taken(p)
	for _, f := range care.Fields() {
		if a, ok := answers[f.ID]; ok {
			if a.Origin == care.FromProfile {
				a.Origin = care.FromPerson
			}
			ops = append(ops, k.answerOp(id, f.ID, nil, a, at))
		}
	}
	for _, r := range p.Plan {
		rule, err := rounds.ParseRule(r.Rule)
		if err != nil {
			return "", err
		}
		ops = append(ops, store.Op{Table: "round", After: k.roundRow(id, rounds.Round{ID: k.newID(), Code: r.Code, Title: r.Title, Rule: rule, Note: r.Note, Start: startOf(rule, r.At, at)})})
	}
	return id, k.apply(ctx, store.Change{Label: "undo.draft_copy", Values: map[string]string{"Name": name}, At: stamp(at), Ops: ops})
}

func orNone(m map[string]string) map[string]string {
	if m == nil {
		return map[string]string{}
	}
	return m
}

// startOf is the first day from today on which a round of a plan may begin.
func startOf(r rounds.Rule, at string, now time.Time) journal.Civil {
	wall := rounds.Wall(now)
	return rounds.Align(r, journal.Civil(wall.Format(time.DateOnly)+"T"+at), wall)
}

// RemoveProfile puts a profile aside with what is known of its hand-outs. It is a
// change of the list of tanks and can be undone. Refusal: no such profile.
func (k *Keeper) RemoveProfile(ctx context.Context, id string) error {
	if _, err := k.needDraft(ctx, id); err != nil {
		return err
	}
	return k.removeTank(ctx, id, "undo.draft_remove")
}

// SetProfileNotes keeps the notes of a profile by language; they go with it, before
// those of the shop. Errors: *slip.Error for a text that a profile cannot carry.
func (k *Keeper) SetProfileNotes(ctx context.Context, id string, notes map[string]string) error {
	d, err := k.needDraft(ctx, id)
	if err != nil {
		return err
	}
	notes = tidyNotes(notes)
	if err := slip.CheckNotes(notes); err != nil {
		return err
	}
	b, err := json.Marshal(notes)
	if err != nil {
		return err
	}
	return k.setDraft(ctx, id, d, store.Row{"notes": string(b)}, "undo.draft_notes")
}

func tidyNotes(notes map[string]string) map[string]string {
	out := map[string]string{}
	for lang, n := range notes {
		if n = strings.TrimSpace(slip.Tidy(n)); n != "" {
			out[lang] = n
		}
	}
	return out
}

// ProfileCard is a starter profile as the catalogue lists it.
type ProfileCard struct {
	Tank    Tank
	Picture care.Picture
	Net     quantity.Value // of water, missing while it cannot be reckoned
	Size    [3]quantity.Value
	Failed  []care.Step // whose check says act: it is handed out with that mark
	Edition int         // of the last hand-out, 0 before it
	Changed bool        // since the last hand-out: the next one is a new edition
	Handed  time.Time   // when it was handed out last
	Times   int         // how often it was handed out
}

// Profiles lists the catalogue, the profile begun last first.
func (k *Keeper) Profiles(ctx context.Context) ([]ProfileCard, error) {
	drafts, err := k.drafts(ctx)
	if err != nil || len(drafts) == 0 {
		return nil, err
	}
	rows, err := k.st.Load(ctx, "tank", map[string]any{"deleted": nil}, "created, id")
	if err != nil {
		return nil, err
	}
	var out []ProfileCard
	for _, r := range slices.Backward(rows) {
		if _, ok := drafts[text(r["id"])]; !ok {
			continue
		}
		c, err := k.profileCard(ctx, text(r["id"]))
		if err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	return out, nil
}

func (k *Keeper) profileCard(ctx context.Context, id string) (ProfileCard, error) {
	row, err := k.tankRow(ctx, id)
	if err != nil {
		return ProfileCard{}, err
	}
	c := ProfileCard{Tank: tankOf(row)}
	err = k.look(ctx, id, func(_ *care.Record, f *care.Facts) {
		if full, err := f.Full(); err == nil {
			c.Net = full.Net.Value()
		}
		l, w, h := f.Tank().Outer()
		c.Size = [3]quantity.Value{l.Value(), w.Value(), h.Value()}
		c.Picture = f.Picture(care.TankPlace)
		c.Picture.Feet, c.Picture.ShowLoads = slices.Clone(c.Picture.Feet), false
		c.Failed = f.Failed(profileSteps()...)
	})
	if err != nil {
		return c, err
	}
	outs, err := k.HandOuts(ctx, id)
	if err != nil {
		return c, err
	}
	c.Times = len(outs)
	if len(outs) > 0 {
		c.Edition, c.Handed = outs[0].Edition, outs[0].At
		p, err := k.ProfileOf(ctx, id)
		if err != nil {
			return c, err
		}
		print, err := p.Print()
		c.Changed = print != outs[0].print
		return c, err
	}
	return c, nil
}

// StepCheck is how the answers of one step stand.
type StepCheck struct {
	Step    care.Step
	Failed  bool
	Verdict *care.Verdict // nil where nothing is judged
	Checks  []working.Check
	Refused []*working.Refusal // answers that cannot be
}

// ProfileWork is a profile in work in full.
type ProfileWork struct {
	ProfileCard
	Checks  []StepCheck
	Profile slip.Profile // as it would be handed out now
	Notes   map[string]string
	Rounds  []rounds.Round
	Feeding FeedingBasis
	Outs    []HandOut
}

// ProfileInWork looks at a profile of the catalogue. Refusal: no such profile.
func (k *Keeper) ProfileInWork(ctx context.Context, id string) (ProfileWork, error) {
	var w ProfileWork
	d, err := k.needDraft(ctx, id)
	if err != nil {
		return w, err
	}
	w.Notes, w.Feeding = d.notes, d.feeding
	if w.ProfileCard, err = k.profileCard(ctx, id); err != nil {
		return w, err
	}
	if w.Outs, err = k.HandOuts(ctx, id); err != nil {
		return w, err
	}
	h, err := k.PrepareHandOut(ctx, id)
	if err != nil {
		return w, err
	}
	w.Profile = h.Profile
	all, err := k.allRounds(ctx, id)
	if err != nil {
		return w, err
	}
	w.Rounds = all.list
	err = k.look(ctx, id, func(_ *care.Record, f *care.Facts) {
		for _, s := range profileSteps() {
			p := f.Page(s)
			c := StepCheck{Step: s, Verdict: p.Verdict, Checks: p.Checks, Failed: slices.Contains(w.Failed, s)}
			for _, v := range p.Fields {
				if v.Refused != nil {
					c.Refused = append(c.Refused, v.Refused)
				}
			}
			w.Checks = append(w.Checks, c)
		}
	})
	return w, err
}

// narrowed is a step of First fill as a shop answers it for others: without what is
// done, ticked, measured or confirmed at home, and without waiting for it.
func narrowed(v View) View {
	v.Page = narrowedPage(v.Page)
	v.Current = care.TankPlace
	for i, s := range slices.Backward(v.Steps) {
		st := care.Status{Step: s.Step, State: care.Open}
		switch {
		case !slip.Marked(s.Step):
			st.State, st.Waits = care.Shut, []working.Finding{working.Find(working.Steady, "find.keeper.at_home")}
		case s.State == care.Finished:
			st.State = care.Finished
		default:
			v.Current = s.Step
		}
		v.Steps[i] = st
	}
	return v
}

// ofCount is what a verdict on the first fish says of how many and how large they are:
// whether the water is ready for them is seen at home. nil where that is nothing.
func ofCount(v *care.Verdict) *care.Verdict {
	if v == nil {
		return nil
	}
	lines := slices.DeleteFunc(slices.Clone(v.Lines), func(f working.Finding) bool { return f.State != working.Act && f.Code != "find.care.fish_many" })
	if len(lines) == 0 {
		return nil
	}
	return &care.Verdict{State: working.WorstOf(lines), Title: v.Title, Lines: lines}
}

func narrowedPage(p care.Page) care.Page {
	p.State, p.Waits, p.Changed, p.Ticks, p.Blocked, p.Curve, p.Steady = care.Open, nil, nil, nil, nil, nil, nil
	p.Carry = "label.carry_on" // nothing is rinsed, filled or fetched at a counter
	p.Fields = slices.DeleteFunc(slices.Clone(p.Fields), func(f care.FieldView) bool { return !slip.Settable(f.Field.ID) })
	p.Notes = slices.Clone(p.Notes)
	for i := range p.Notes {
		p.Notes[i].Confirm = nil
	}
	for _, f := range p.Fields {
		if f.Refused != nil {
			p.Blocked = append(p.Blocked, working.Find(working.Act, "find.care.field_refused").Word("Field", f.Field.Label()))
		}
	}
	switch p.Step { // what comes of readings that only a tank has
	case care.Settle:
		p.Headline, p.Verdict = nil, nil
	case care.FirstFish:
		p.Verdict = ofCount(p.Verdict)
	}
	return p
}
