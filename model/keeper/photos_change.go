package keeper

import (
	"context"
	"encoding/json"
	"strconv"
	"strings"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// changePhoto makes a change of one picture's row. was and is name the columns.
func (k *Keeper) changePhoto(ctx context.Context, p Photo, label string, was, is store.Row) error {
	was["id"], is["id"] = p.ID, p.ID
	return k.apply(ctx, store.Change{Tank: p.Tank, Label: label, Values: map[string]string{"Name": p.Name}, At: stamp(k.now()),
		Ops: []store.Op{{Table: "photo", Before: was, After: is}}})
}

// TurnPhoto turns a picture by quarters clockwise, negative ones back, on top of
// what it is turned already. Its marks turn with it.
func (k *Keeper) TurnPhoto(ctx context.Context, tank, id string, quarters int) error {
	p, err := k.Photo(ctx, tank, id)
	to := ((p.Turned+quarters)%4 + 4) % 4
	if err != nil || to == p.Turned {
		return err
	}
	return k.changePhoto(ctx, p, "undo.photo_turn", store.Row{"turned": int64(p.Turned)}, store.Row{"turned": int64(to)})
}

// CaptionPhoto gives a picture its words; empty takes them away. Refusals: more
// than photo.MostWords runes.
func (k *Keeper) CaptionPhoto(ctx context.Context, tank, id, caption string) error {
	caption = strings.TrimSpace(caption)
	if len([]rune(caption)) > photo.MostWords {
		return working.Refuse("caption", "refuse.photo.words_long")
	}
	p, err := k.Photo(ctx, tank, id)
	if err != nil || caption == p.Caption {
		return err
	}
	return k.changePhoto(ctx, p, "undo.photo_caption", store.Row{"caption": orNil(p.Caption)}, store.Row{"caption": orNil(caption)})
}

// MovePhoto puts a picture with another entry of its tank; "" takes it out of
// any. Refusals: an entry that is not there.
func (k *Keeper) MovePhoto(ctx context.Context, tank, id, entry string) error {
	p, err := k.Photo(ctx, tank, id)
	if err != nil || entry == p.Entry {
		return err
	}
	if entry != "" {
		if _, err := k.Entry(ctx, tank, entry); err != nil {
			return err
		}
	}
	return k.changePhoto(ctx, p, "undo.photo_move", store.Row{"entry": orNil(p.Entry)}, store.Row{"entry": orNil(entry)})
}

// PhotoFish says which fish of the tank a picture shows; "" says none. Refusals:
// a fish that is not there.
func (k *Keeper) PhotoFish(ctx context.Context, tank, id, fish string) error {
	p, err := k.Photo(ctx, tank, id)
	if err != nil || fish == p.Fish {
		return err
	}
	if err := k.fishHere(ctx, tank, fish); err != nil {
		return err
	}
	return k.changePhoto(ctx, p, "undo.photo_fish", store.Row{"fish": orNil(p.Fish)}, store.Row{"fish": orNil(fish)})
}

// fishHere refuses a fish that the tank does not have; "" is none.
func (k *Keeper) fishHere(ctx context.Context, tank, fish string) error {
	if fish == "" {
		return nil
	}
	rows, err := k.st.Load(ctx, "fish", map[string]any{"tank": tank, "id": fish, "deleted": nil}, "")
	if err == nil && len(rows) == 0 {
		return working.Refuse("fish", "refuse.photo.no_fish")
	}
	return err
}

// SetWhite names the patch of a picture, as it is shown, that is white in truth;
// nil takes it away. Refusals: a patch off the picture; whether its colour can
// be balanced is asked with photo.Balance before.
func (k *Keeper) SetWhite(ctx context.Context, tank, id string, white *photo.Patch) error {
	rows, err := k.st.Load(ctx, "photo", map[string]any{"tank": tank, "id": id, "deleted": nil}, "")
	if err != nil {
		return err
	}
	if len(rows) == 0 {
		return working.Refuse("photo", "refuse.photo.none")
	}
	p, err := photoOf(rows[0])
	if err != nil {
		return err
	}
	var to any
	if white != nil {
		if err := white.Check(); err != nil {
			return err
		}
		b, err := json.Marshal(white.Turned(-p.Turned))
		if err != nil {
			return err
		}
		to = string(b)
	}
	if rows[0]["white"] == to {
		return nil
	}
	return k.changePhoto(ctx, p, "undo.photo_white", store.Row{"white": rows[0]["white"]}, store.Row{"white": to})
}

// DeletePhoto puts a picture into the bin; its original stays.
func (k *Keeper) DeletePhoto(ctx context.Context, tank, id string) error {
	p, err := k.Photo(ctx, tank, id)
	if err != nil {
		return err
	}
	return k.changePhoto(ctx, p, "undo.photo_delete", store.Row{"deleted": nil}, store.Row{"deleted": stamp(k.now())})
}

// Taken is the time of one picture, for SetPhotoTaken.
type Taken struct {
	ID   string
	At   journal.Civil
	Zone string    // empty is the keeper's own now
	From TakenFrom // TakenByFile or TakenByPerson
}

// SetPhotoTaken tells when pictures were taken, in one step, and puts those that
// are with no entry where they belong, as AddPhotos does. Refusals: a time that
// is none, or later than tomorrow.
func (k *Keeper) SetPhotoTaken(ctx context.Context, tank string, times ...Taken) error {
	now := k.now()
	c := store.Change{Tank: tank, Label: "undo.photo_taken", Values: map[string]string{"Number": strconv.Itoa(len(times))}, At: stamp(now)}
	var placed []*placing
	for _, t := range times {
		p, err := k.Photo(ctx, tank, t.ID)
		if err != nil {
			return err
		}
		if _, err := t.At.Parse(); err != nil {
			return working.Refuse("at", "refuse.journal.time")
		}
		if t.At > journal.CivilOf(now.AddDate(0, 0, 1)) {
			return working.Refuse("at", "refuse.journal.future")
		}
		if t.Zone == "" {
			t.Zone = journal.ZoneOf(now)
		}
		if t.From != TakenByFile {
			t.From = TakenByPerson
		}
		op := store.Op{Table: "photo",
			Before: store.Row{"id": p.ID, "taken": orNil(string(p.Taken)), "zone": orNil(p.Zone), "taken_from": string(p.TakenFrom), "entry": orNil(p.Entry)},
			After:  store.Row{"id": p.ID, "taken": string(t.At), "zone": t.Zone, "taken_from": string(t.From), "entry": orNil(p.Entry)}}
		c.Ops = append(c.Ops, op)
		if p.Entry == "" {
			placed = append(placed, &placing{at: t.At, zone: t.Zone, row: op.After})
		}
	}
	entries, _, err := k.place(ctx, tank, "", placed, now)
	if err != nil || len(c.Ops) == 0 {
		return err
	}
	c.Ops = append(entries, c.Ops...)
	return k.apply(ctx, c)
}

// AddMark draws a mark on a picture as it is shown and returns its key. Its ID is
// set here. Refusals: see photo.Mark.Check.
func (k *Keeper) AddMark(ctx context.Context, tank, id string, m photo.Mark) (string, error) {
	p, err := k.Photo(ctx, tank, id)
	if err != nil {
		return "", err
	}
	m.Words = strings.TrimSpace(m.Words)
	if err := m.Check(); err != nil {
		return "", err
	}
	m.ID = k.newID()
	return m.ID, k.markOp(ctx, p, "undo.mark_add", m.Kind, store.Op{Table: "mark", After: markRow(p, m)})
}

// ChangeMark gives the mark of m's ID other points, words or length; its kind
// stays. Refusals: as AddMark; a mark that is not there.
func (k *Keeper) ChangeMark(ctx context.Context, tank, id string, m photo.Mark) error {
	p, was, err := k.mark(ctx, tank, id, m.ID)
	if err != nil {
		return err
	}
	m.Kind, m.Words = photo.MarkKind(text(was["kind"])), strings.TrimSpace(m.Words)
	if err := m.Check(); err != nil {
		return err
	}
	return k.markOp(ctx, p, "undo.mark_change", m.Kind, store.Op{Table: "mark", Before: was, After: markRow(p, m)})
}

// RemoveMark takes a mark away.
func (k *Keeper) RemoveMark(ctx context.Context, tank, id, mark string) error {
	p, was, err := k.mark(ctx, tank, id, mark)
	if err != nil {
		return err
	}
	return k.markOp(ctx, p, "undo.mark_remove", photo.MarkKind(text(was["kind"])), store.Op{Table: "mark", Before: was})
}

func (k *Keeper) markOp(ctx context.Context, p Photo, label string, kind photo.MarkKind, op store.Op) error {
	return k.apply(ctx, store.Change{Tank: p.Tank, Label: label, Values: map[string]string{"Name": p.Name, "Mark": string(kind)}, At: stamp(k.now()), Ops: []store.Op{op}})
}

func (k *Keeper) mark(ctx context.Context, tank, id, mark string) (Photo, store.Row, error) {
	p, err := k.Photo(ctx, tank, id)
	if err != nil {
		return p, nil, err
	}
	rows, err := k.st.Load(ctx, "mark", map[string]any{"id": mark, "photo": id}, "")
	if err != nil {
		return p, nil, err
	}
	if len(rows) == 0 {
		return p, nil, working.Refuse("mark", "refuse.photo.no_mark")
	}
	return p, rows[0], nil
}

// markRow is a mark as it is kept: on the upright picture, before the person's
// turns.
func markRow(p Photo, m photo.Mark) store.Row {
	m = m.Turned(-p.Turned)
	row := store.Row{"id": m.ID, "photo": p.ID, "kind": string(m.Kind), "points": m.PointsText(), "words": orNil(m.Words), "text": nil, "unit": nil}
	if m.Kind == photo.Known {
		row["text"], row["unit"] = orNil(m.Measure.Number), orNil(string(m.Measure.Unit))
	}
	return row
}

// PhotosFish says of several pictures which fish of the tank they show, in one step;
// "" says none. Those that show it already stay. Refusals: a picture or a fish that
// is not there.
func (k *Keeper) PhotosFish(ctx context.Context, tank string, ids []string, fish string) error {
	if err := k.fishHere(ctx, tank, fish); err != nil {
		return err
	}
	var ops []store.Op
	for _, id := range ids {
		p, err := k.Photo(ctx, tank, id)
		if err != nil {
			return err
		}
		if p.Fish != fish {
			ops = append(ops, store.Op{Table: "photo", Before: store.Row{"id": id, "fish": orNil(p.Fish)}, After: store.Row{"id": id, "fish": orNil(fish)}})
		}
	}
	if len(ops) == 0 {
		return nil
	}
	return k.apply(ctx, store.Change{Tank: tank, Label: "undo.photos_fish", Values: map[string]string{"Number": strconv.Itoa(len(ops))}, At: stamp(k.now()), Ops: ops})
}
