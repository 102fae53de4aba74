package keeper

import (
	"context"
	"slices"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// View is one step of First fill with everything its page shows.
type View struct {
	Tank    Tank
	Page    care.Page
	Steps   []care.Status
	Picture care.Picture
	// Confirmed are the notes of this step that were acknowledged.
	Confirmed map[care.NoteID]bool
	// Current is the first step that is not finished.
	Current care.Step
}

// FirstFill looks at a step. Edits are answers typed but not kept yet: the view
// is as if they were. An edit that cannot be read leaves its field as it was and
// comes back in Refused, so that the page can say so while the person types.
func (k *Keeper) FirstFill(ctx context.Context, tank string, step care.Step, edits ...Edit) (View, map[care.FieldID]error, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return View{}, nil, err
	}
	refused := map[care.FieldID]error{}
	for _, e := range edits {
		a, err := e.parse()
		if err != nil {
			refused[e.Field] = err
			continue
		}
		for id, na := range withEffects(r, e.Field, a) {
			r.Answers[id] = na
		}
	}
	if step == care.FirstFish {
		if r.First, err = k.first(ctx, tank, r); err != nil {
			return View{}, nil, err
		}
	}
	v, err := k.view(ctx, tank, step, r)
	return v, refused, err
}

func (k *Keeper) view(ctx context.Context, tank string, step care.Step, r *care.Record) (View, error) {
	row, err := k.tankRow(ctx, tank)
	if err != nil {
		return View{}, err
	}
	f := care.NewFacts(r)
	v := View{Tank: tankOf(row),
		Steps: f.Statuses(), Page: f.Page(step), Picture: f.Picture(step)}
	if v.Picture.Stock, err = k.swimmers(ctx, tank); err != nil {
		return View{}, err
	}
	v.Confirmed = map[care.NoteID]bool{}
	for _, n := range v.Page.Notes {
		_, v.Confirmed[n.ID] = r.Acknowledged(step, n.ID)
	}
	v.Current = current(v.Steps)
	if v.Tank.Origin == Counter {
		v = narrowed(v)
	}
	return v, nil
}

// TankPicture is the tank as it is drawn beside what is no step of First fill: with all
// that the last step knows, and the bag only while that step is the one to do.
func (k *Keeper) TankPicture(ctx context.Context, tank string) (care.Picture, error) {
	var c care.Picture
	err := k.look(ctx, tank, func(_ *care.Record, f *care.Facts) {
		c = f.Picture(care.HomeComing)
		c.Feet = slices.Clone(c.Feet)
		c.Bag = c.Bag && current(f.Statuses()) == care.HomeComing
	})
	if err != nil {
		return care.Picture{}, err
	}
	c.Stock, err = k.swimmers(ctx, tank)
	return c, err
}

func current(steps []care.Status) care.Step {
	for _, s := range steps {
		if s.State != care.Finished {
			return s.Step
		}
	}
	return steps[len(steps)-1].Step
}

// Acknowledge keeps that a person confirmed a safety note or an electrical
// check, with the text that stood on the screen, its language and the hash of
// its source. Refusals: a check that must still wait.
func (k *Keeper) Acknowledge(ctx context.Context, tank string, step care.Step, note care.NoteID, lang, shown, hash string) error {
	return k.acknowledgeAt(ctx, tank, step, note, lang, shown, hash, k.now())
}

func (k *Keeper) acknowledgeAt(ctx context.Context, tank string, step care.Step, note care.NoteID, lang, shown, hash string, now time.Time) error {
	r, err := k.record(ctx, tank)
	if err != nil {
		return err
	}
	r.Now = now
	page := care.NewFacts(r).Page(step)
	if page.State == care.Shut {
		return &Blocked{step, page.Waits}
	}
	if !offered(page, note) {
		return working.Refuse(string(note), "refuse.keeper.no_note")
	}
	for _, t := range page.Ticks {
		if care.NoteID(t.ID) == note && !t.Ready {
			return &Blocked{step, []working.Finding{*t.Until}}
		}
	}
	if _, ok := r.Acknowledged(step, note); ok {
		return nil
	}
	at := stamp(now)
	return k.apply(ctx, store.Change{Tank: tank, Label: "undo.acknowledge", Values: map[string]string{"Step": string(step)}, At: at,
		Ops: []store.Op{{Table: "ack", After: store.Row{"id": k.newID(), "tank": tank, "step": string(step), "note": string(note), "lang": lang,
			"shown": shown, "source_hash": hash, "at": at}}}})
}

func offered(p care.Page, note care.NoteID) bool {
	for _, n := range p.Notes {
		if n.ID == note {
			return true
		}
	}
	for _, t := range p.Ticks {
		if t.Confirm && care.NoteID(t.ID) == note {
			return true
		}
	}
	return false
}

// Withdraw takes back the confirmation of a note or check.
func (k *Keeper) Withdraw(ctx context.Context, tank string, step care.Step, note care.NoteID) error {
	rows, err := k.st.Load(ctx, "ack", map[string]any{"tank": tank, "step": string(step), "note": string(note)}, "at, id")
	if err != nil || len(rows) == 0 {
		return err
	}
	c := store.Change{Tank: tank, Label: "undo.withdraw", Values: map[string]string{"Step": string(step)}, At: stamp(k.now())}
	for _, row := range rows {
		c.Ops = append(c.Ops, store.Op{Table: "ack", Before: row})
	}
	return k.apply(ctx, c)
}
