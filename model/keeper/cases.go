package keeper

import (
	"context"
	"slices"
	"strings"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/sick"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Outcome says how a case ended.
type Outcome string

// The outcomes.
const (
	Well      Outcome = "well" // looks well again
	Died      Outcome = "died"
	GivenAway Outcome = "given_away"
	Other     Outcome = "other"
)

// Outcomes lists the outcomes.
func Outcomes() []Outcome { return []Outcome{Well, Died, GivenAway, Other} }

// Case is a fish that looks wrong: open until it is closed with an outcome.
type Case struct {
	ID      string
	Tank    string
	Fish    string // id of the fish, or empty
	About   string // whom it concerns in words; empty where nobody said, or a group goes by its kind
	Species string // of that fish, where it is known
	Many    sick.Many
	Opened  journal.Civil
	Zone    string
	Closed  journal.Civil // empty while it is open
	Outcome Outcome
	Note    string // written at closing
	Day     int    // by the calendar, 1 on the day it was opened; counted up to the closing
	Signs   []CaseSign
	// Looked says that something was written or photographed for it today.
	Looked bool
	Latest journal.Civil // of its entries; empty without any
}

// Open reports whether the case is not closed.
func (c Case) Open() bool { return c.Closed == "" }

// CaseSign is a sign ticked in a case.
type CaseSign struct {
	Sign sick.SignID
	Seen journal.Civil
	Gone journal.Civil // empty while it is seen
	Days int           // civil days it has lasted, 0 for today
}

// Who is whom a new case concerns: a fish of the list, or words.
type Who struct {
	Fish  string
	About string
}

// OpenCase opens a case with the signs seen so far, none is fine. Refusals: an
// unknown fish, sign or number, overlong words.
func (k *Keeper) OpenCase(ctx context.Context, tank string, who Who, many sick.Many, signs ...sick.SignID) (string, error) {
	about, err := k.about(ctx, tank, who)
	if err != nil {
		return "", err
	}
	if many != "" && !slices.Contains(sick.Manies(), many) {
		return "", working.Refuse("many", "refuse.keeper.many")
	}
	if _, err := k.tankRow(ctx, tank); err != nil {
		return "", err
	}
	now, id := k.now(), k.newID()
	c := store.Change{Tank: tank, Label: "undo.case_open", At: stamp(now), Ops: []store.Op{{Table: "sick", After: store.Row{"id": id, "tank": tank, "fish": orNil(who.Fish),
		"about": about, "many": orNil(string(many)), "opened": string(journal.CivilOf(now)), "zone": journal.ZoneOf(now)}}}}
	slices.Sort(signs)
	for _, s := range slices.Compact(signs) {
		if _, ok := sick.SignOf(s); !ok {
			return "", working.Refuse("sign", "refuse.keeper.no_sign")
		}
		c.Ops = append(c.Ops, store.Op{Table: "sick_sign", After: store.Row{"sick": id, "sign": string(s), "seen": string(journal.CivilOf(now))}})
	}
	return id, k.apply(ctx, c)
}

// about is whom a case concerns in words: the fish's name, or what was typed.
func (k *Keeper) about(ctx context.Context, tank string, who Who) (string, error) {
	if who.Fish != "" {
		row, err := k.fishRow(ctx, tank, who.Fish)
		return text(row["name"]), err
	}
	about := strings.Join(strings.Fields(who.About), " ")
	if len([]rune(about)) > MaxName {
		return "", working.Refuse("about", "refuse.care.words_long")
	}
	return about, nil
}

// SetCase says anew whom a case concerns and how many show it.
func (k *Keeper) SetCase(ctx context.Context, tank, id string, who Who, many sick.Many) error {
	row, err := k.caseRow(ctx, tank, id)
	if err != nil {
		return err
	}
	about, err := k.about(ctx, tank, who)
	if err != nil {
		return err
	}
	if many != "" && !slices.Contains(sick.Manies(), many) {
		return working.Refuse("many", "refuse.keeper.many")
	}
	after := store.Row{"id": id, "fish": orNil(who.Fish), "about": about, "many": orNil(string(many))}
	if after["fish"] == row["fish"] && after["about"] == row["about"] && after["many"] == row["many"] {
		return nil
	}
	return k.changeCase(ctx, tank, "undo.case_set", nil, store.Op{Table: "sick", Before: pick(row, "id", "fish", "about", "many"), After: after})
}

// NameFishOf puts whom a case concerns in words into the list of fish, as one
// fish, and the case goes by it. Refusals: no such case, one without words, one
// that goes by a fish already.
func (k *Keeper) NameFishOf(ctx context.Context, tank, id string) error {
	row, err := k.caseRow(ctx, tank, id)
	if err != nil {
		return err
	}
	if text(row["fish"]) != "" {
		return nil
	}
	op, fish, err := k.newFish(ctx, tank, Fish{Name: text(row["about"]), Count: 1, Since: journal.Civil(text(row["opened"]))})
	if err != nil {
		return err
	}
	return k.changeCase(ctx, tank, "undo.fish_add", map[string]string{"Name": text(op.After["name"])}, op,
		store.Op{Table: "sick", Before: pick(row, "id", "fish"), After: store.Row{"id": id, "fish": fish}})
}

func (k *Keeper) caseRow(ctx context.Context, tank, id string) (store.Row, error) {
	rows, err := k.st.Load(ctx, "sick", map[string]any{"id": id, "tank": tank, "deleted": nil}, "")
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 {
		return nil, working.Refuse("case", "refuse.keeper.no_case")
	}
	return rows[0], nil
}

func (k *Keeper) changeCase(ctx context.Context, tank string, label string, values map[string]string, ops ...store.Op) error {
	return k.apply(ctx, store.Change{Tank: tank, Label: label, Values: values, At: stamp(k.now()), Ops: ops})
}

func pick(r store.Row, columns ...string) store.Row {
	out := store.Row{}
	for _, c := range columns {
		out[c] = r[c]
	}
	return out
}

// TickSign notes that a sign is seen, from now on. One that is ticked stays so.
// Refusals: an unknown case or sign, a case that is closed.
func (k *Keeper) TickSign(ctx context.Context, tank, id string, sign sick.SignID) error {
	rows, err := k.signRows(ctx, tank, id, sign)
	if err != nil {
		return err
	}
	seen := string(journal.CivilOf(k.now()))
	for _, r := range rows {
		switch {
		case text(r["gone"]) == "":
			return nil
		case text(r["seen"]) == seen: // taken off and put back within the minute
			return k.changeCase(ctx, tank, "undo.sign_tick", signLabel(sign), store.Op{Table: "sick_sign", Before: r, After: edited(r, "gone", nil)})
		}
	}
	return k.changeCase(ctx, tank, "undo.sign_tick", signLabel(sign), store.Op{Table: "sick_sign", After: store.Row{"sick": id, "sign": string(sign), "seen": seen}})
}

// UntickSign notes that a sign is no longer seen. One that was ticked today was
// a slip and leaves no trace.
func (k *Keeper) UntickSign(ctx context.Context, tank, id string, sign sick.SignID) error {
	rows, err := k.signRows(ctx, tank, id, sign)
	if err != nil {
		return err
	}
	now := journal.CivilOf(k.now())
	for _, r := range rows {
		if text(r["gone"]) != "" {
			continue
		}
		op := store.Op{Table: "sick_sign", Before: r, After: edited(r, "gone", string(now))}
		if journal.Civil(text(r["seen"])).Day() == now.Day() {
			op.After = nil
		}
		return k.changeCase(ctx, tank, "undo.sign_untick", signLabel(sign), op)
	}
	return nil
}

func signLabel(s sick.SignID) map[string]string { return map[string]string{"Sign": string(s)} }

func edited(r store.Row, column string, v any) store.Row {
	out := store.Row{}
	for c, x := range r {
		out[c] = x
	}
	out[column] = v
	return out
}

func (k *Keeper) signRows(ctx context.Context, tank, id string, sign sick.SignID) ([]store.Row, error) {
	row, err := k.caseRow(ctx, tank, id)
	if err != nil {
		return nil, err
	}
	if text(row["closed"]) != "" {
		return nil, working.Refuse("case", "refuse.keeper.case_closed")
	}
	if _, ok := sick.SignOf(sign); !ok {
		return nil, working.Refuse("sign", "refuse.keeper.no_sign")
	}
	return k.st.Load(ctx, "sick_sign", map[string]any{"sick": id, "sign": string(sign)}, "seen")
}

// NoteCase writes what was noticed today into the daybook, as part of the case.
// Refusals: an empty or overlong note, an unknown case.
func (k *Keeper) NoteCase(ctx context.Context, tank, id, note string) (string, error) {
	if _, err := k.caseRow(ctx, tank, id); err != nil {
		return "", err
	}
	return k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Noticed, Note: strings.TrimSpace(note), Sick: id})
}

// AddToCase makes an entry part of a case, or of none when id is empty.
func (k *Keeper) AddToCase(ctx context.Context, tank, id, entry string) error {
	if id != "" {
		if _, err := k.caseRow(ctx, tank, id); err != nil {
			return err
		}
	}
	e, err := k.Entry(ctx, tank, entry)
	if err != nil || e.Sick == id {
		return err
	}
	return k.changeCase(ctx, tank, "undo.case_add", map[string]string{"Kind": string(e.Kind)}, store.Op{Table: "entry",
		Before: store.Row{"id": entry, "sick": orNil(e.Sick)}, After: store.Row{"id": entry, "sick": orNil(id)}})
}

// Left is why an outcome takes an animal out of the stock; empty where it does not.
func (o Outcome) Left() Why {
	return map[Outcome]Why{Died: WhyDied, GivenAway: WhyGiven}[o]
}

// CloseCase ends a case with its outcome and a note. Where animals left with it,
// left says which, and they leave the stock and are written of in the daybook, as
// one change with the closing; its reason is the outcome's. Refusals: an unknown
// outcome, an overlong note, a case that is closed; those of Depart.
func (k *Keeper) CloseCase(ctx context.Context, tank, id string, o Outcome, note string, left *Departure) error {
	if !slices.Contains(Outcomes(), o) {
		return working.Refuse("outcome", "refuse.keeper.outcome")
	}
	note = strings.TrimSpace(note)
	if len([]rune(note)) > journal.MaxNote {
		return working.Refuse("note", "refuse.journal.note_long")
	}
	row, err := k.caseRow(ctx, tank, id)
	if err != nil {
		return err
	}
	if text(row["closed"]) != "" {
		return working.Refuse("case", "refuse.keeper.case_closed")
	}
	var ops []store.Op
	if left != nil {
		d := *left
		d.Why = o.Left()
		if _, ops, err = k.departOps(ctx, tank, d, id); err != nil {
			return err
		}
	}
	return k.changeCase(ctx, tank, "undo.case_close", nil, append(ops, store.Op{Table: "sick", Before: pick(row, "id", "closed", "outcome", "note"),
		After: store.Row{"id": id, "closed": string(journal.CivilOf(k.now())), "outcome": string(o), "note": orNil(note)}})...)
}

// ReopenCase takes a closed case up again.
func (k *Keeper) ReopenCase(ctx context.Context, tank, id string) error {
	row, err := k.caseRow(ctx, tank, id)
	if err != nil || text(row["closed"]) == "" {
		return err
	}
	return k.changeCase(ctx, tank, "undo.case_reopen", nil, store.Op{Table: "sick", Before: pick(row, "id", "closed", "outcome", "note"),
		After: store.Row{"id": id, "closed": nil, "outcome": nil, "note": nil}})
}

// DeleteCase puts a case into the bin; its entries and pictures stay in the
// daybook. It can be undone.
func (k *Keeper) DeleteCase(ctx context.Context, tank, id string) error {
	if _, err := k.caseRow(ctx, tank, id); err != nil {
		return err
	}
	return k.changeCase(ctx, tank, "undo.case_delete", nil, store.Op{Table: "sick", Before: store.Row{"id": id, "deleted": nil}, After: store.Row{"id": id, "deleted": stamp(k.now())}})
}
