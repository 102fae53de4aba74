package keeper

import (
	"bytes"
	"context"
	"slices"
	"time"

	"example.org/driploop/model/durable"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// HandOutWay says how a profile was handed out.
type HandOutWay string

// The ways.
const (
	ByFile  HandOutWay = "file"
	BySheet HandOutWay = "sheet"
)

const (
	// MaxLabel is the longest name of a family on a sheet, in runes. Judgement.
	MaxLabel = 60
	// MaxSheets is how many sheets are made at a time. Judgement: a busy Saturday.
	MaxSheets = 50
)

// HandOut is one time that a profile was handed out.
type HandOut struct {
	ID      string
	At      time.Time
	Edition int
	Way     HandOutWay
	Label   string // of the family, where one was written down
	print   string
}

// HandOuts lists when a profile was handed out, the latest first.
func (k *Keeper) HandOuts(ctx context.Context, profile string) ([]HandOut, error) {
	rows, err := k.st.Load(ctx, "handout", map[string]any{"tank": profile, "deleted": nil}, "at, id")
	if err != nil {
		return nil, err
	}
	out := make([]HandOut, 0, len(rows))
	for _, r := range slices.Backward(rows) {
		n, _ := r["edition"].(int64)
		out = append(out, HandOut{ID: text(r["id"]), At: unstamp(r["at"]), Edition: int(n), Way: HandOutWay(text(r["way"])), Label: text(r["label"]), print: text(r["print"])})
	}
	return out, nil
}

// Ready is a profile made ready to be handed out.
type Ready struct {
	Profile slip.Profile // with its edition and the marks of what failed
	File    []byte       // the signed .dlprofile
	print   string
}

// PrepareHandOut makes a profile of the catalogue ready: in the edition of the last
// hand-out where it says the same, else in the next one. Nothing is noted yet.
// Refusal: no such profile. Errors: as ProfileOf's.
func (k *Keeper) PrepareHandOut(ctx context.Context, id string) (Ready, error) {
	var r Ready
	if _, err := k.needDraft(ctx, id); err != nil {
		return r, err
	}
	p, err := k.ProfileOf(ctx, id)
	if err != nil {
		return r, err
	}
	if r.print, err = p.Print(); err != nil {
		return r, err
	}
	outs, err := k.HandOuts(ctx, id)
	if err != nil {
		return r, err
	}
	p.Edition = 1
	if len(outs) > 0 {
		if p.Edition = outs[0].Edition; outs[0].print != r.print {
			p.Edition++
		}
	}
	key, err := k.signer(ctx)
	if err != nil {
		return r, err
	}
	var b bytes.Buffer
	if err := slip.WriteProfile(&b, p, key); err != nil {
		return r, err
	}
	if key != nil { // as whoever reads it will find it
		p.Signature = slip.SignatureOf(key)
	}
	r.Profile, r.File = p, b.Bytes()
	return r, nil
}

// NoteHandOuts keeps that a profile was handed out, once for each label; an empty
// one is a family whose name nobody wrote down. What left the shop is no step that
// can be taken back. Refusals: no such profile; "label" too long; more than
// MaxSheets.
func (k *Keeper) NoteHandOuts(ctx context.Context, id string, r Ready, way HandOutWay, labels ...string) error {
	labels, err := checkLabels(labels)
	if err != nil {
		return err
	}
	now := k.now()
	c := store.Change{Tank: id, Label: "undo.hand_out", At: stamp(now), Silent: true}
	for _, l := range labels {
		c.Ops = append(c.Ops, store.Op{Table: "handout", After: store.Row{"id": k.newID(), "tank": id, "at": stamp(now), "edition": int64(r.Profile.Edition),
			"print": r.print, "way": string(way), "label": orNil(l)}})
	}
	if len(c.Ops) == 0 {
		return nil
	}
	return k.apply(ctx, c)
}

func checkLabels(labels []string) ([]string, error) {
	if len(labels) > MaxSheets {
		return nil, working.Refuse("sheets", "refuse.keeper.sheets")
	}
	out := make([]string, len(labels))
	for i, l := range labels {
		if out[i] = slip.OneLine(l); len([]rune(out[i])) > MaxLabel {
			return nil, working.Refuse("label", "refuse.care.words_long")
		}
	}
	return out, nil
}

// HandOutFile writes a profile of the catalogue to path, whole or not at all, and
// keeps that it was handed out. Refusal: no such profile. Errors: as ProfileOf's;
// *durable.WriteError.
func (k *Keeper) HandOutFile(ctx context.Context, id, path, label string) (Ready, error) {
	r, err := k.PrepareHandOut(ctx, id)
	if err != nil {
		return r, err
	}
	if _, err := checkLabels([]string{label}); err != nil {
		return r, err
	}
	if err := durable.WriteFile(path, r.File, profileMode); err != nil {
		return r, err
	}
	return r, k.NoteHandOuts(ctx, id, r, ByFile, label)
}

// ForgetHandOut takes the family's name out of a hand-out; that it happened stays. It
// cannot be undone. Copies of the daybook that were made before have the name until they
// go, and the log of the open database may until it is closed.
func (k *Keeper) ForgetHandOut(ctx context.Context, profile, handOut string) error {
	rows, err := k.st.Load(ctx, "handout", map[string]any{"tank": profile, "id": handOut}, "")
	if err != nil || len(rows) == 0 || rows[0]["label"] == nil {
		return err
	}
	return k.apply(ctx, store.Change{Tank: profile, Label: "undo.hand_out", At: stamp(k.now()), Silent: true,
		Ops: []store.Op{{Table: "handout", Before: store.Row{"id": handOut, "label": rows[0]["label"]}, After: store.Row{"id": handOut, "label": nil}}}})
}
