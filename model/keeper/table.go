package keeper

import (
	"context"
	"os"
	"slices"
	"strconv"
	"strings"

	"example.org/driploop/model/intake"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// RowState is what becomes of a row of a table.
type RowState string

// The states.
const (
	RowTaken   RowState = "taken"
	RowHere    RowState = "here" // an entry that says the same is in the daybook
	RowRefused RowState = "refused"
)

// RowReport is what becomes of one row.
type RowReport struct {
	Line  int // of the file, from 1
	State RowState
	Err   error  // why it is refused
	Text  string // the row, cut short
}

// TablePreview is a table before anything of it is taken, or after.
type TablePreview struct {
	Path    string
	Sheet   *intake.Sheet
	Plan    intake.Plan
	Rows    []RowReport
	Taken   int // rows
	Here    int
	Refused int
	Entries int // entries that are, or would be, added
	First   journal.Civil
	Last    journal.Civil
	// Undoable reports whether taking is one step that can be undone; Snapshot is
	// the copy that was made before where it is not.
	Undoable bool
	Snapshot string

	entries []journal.Entry
}

// OpenCSV reads the table at path. Errors: *working.Refusal.
func (k *Keeper) OpenCSV(path string) (*intake.Sheet, error) {
	unread := func(err error) error {
		r := working.Refuse("table", "refuse.intake.unreadable")
		if err != nil {
			r.Field = path
		}
		return r
	}
	if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() { // a pipe would wait for ever
		return nil, unread(err)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, unread(err)
	}
	defer f.Close()
	s, err := intake.Read(f)
	if err != nil {
		if _, ok := err.(*working.Refusal); ok {
			return nil, err
		}
		return nil, unread(err)
	}
	return s, nil
}

// ReadCSV says what would become of every row of a table in the daybook of a tank,
// read by a plan; nothing is taken. Errors: *working.Refusal for a tank that is not
// there; *store.OpError.
func (k *Keeper) ReadCSV(ctx context.Context, tank string, s *intake.Sheet, p intake.Plan, h intake.Hints) (TablePreview, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return TablePreview{}, err
	}
	now := k.now()
	h.Now = now
	made := s.Entries(p, h, func(e journal.Entry) error { return checkEntry(e, now) })
	out := TablePreview{Sheet: s, Plan: p}
	here := map[string]bool{}
	for _, e := range r.Entries {
		here[sameness(e)] = true
	}
	add := make([]bool, len(made.Entries))
	for i, e := range made.Entries {
		key := sameness(e)
		if add[i] = !here[key]; !add[i] {
			continue
		}
		here[key] = true // twice in the table is once in the daybook
		out.entries = append(out.entries, e)
		if out.First == "" || e.At < out.First {
			out.First = e.At
		}
		out.Last = max(out.Last, e.At)
	}
	for _, l := range made.Lines {
		row := RowReport{Line: l.Line, Err: l.Err, Text: l.Text}
		switch {
		case l.Entry < 0:
			row.State = RowRefused
			out.Refused++
		case add[l.Entry]:
			row.State = RowTaken
			out.Taken++
		default:
			row.State = RowHere
			out.Here++
		}
		out.Rows = append(out.Rows, row)
	}
	out.Entries = len(out.entries)
	n := 0
	for _, e := range out.entries {
		n += 1 + len(e.Readings)
	}
	out.Undoable = n <= MostUndone
	return out, nil
}

// sameness is a text that two entries share when they say the same.
func sameness(e journal.Entry) string {
	var b strings.Builder
	b.WriteString(string(e.At) + "\n" + string(e.Kind) + "\n" + e.Step + "\n")
	rs := slices.Clone(e.Readings)
	slices.SortFunc(rs, func(a, b journal.Reading) int { return strings.Compare(a.Name, b.Name) })
	for _, r := range rs {
		number := r.Measure.Number
		if r.Qualifier != journal.Plain {
			number = "" // it is not one
		}
		b.WriteString(strings.Join([]string{r.Name, number, string(r.Measure.Unit), string(r.Measure.Basis), string(r.Qualifier)}, " ") + "\n")
	}
	b.WriteString(strings.Join(strings.Fields(e.Note), " "))
	return b.String()
}

// TakeCSV adds the entries of a table to the daybook of a tank: those that are not
// there already, as one step that can be undone, or after a copy of the daybook
// where they are more than MostUndone rows. The report says what became of each row.
// Errors: as ReadCSV's; *working.Refusal when there is nothing to take.
func (k *Keeper) TakeCSV(ctx context.Context, tank string, s *intake.Sheet, p intake.Plan, h intake.Hints) (TablePreview, error) {
	out, err := k.ReadCSV(ctx, tank, s, p, h)
	if err != nil {
		return out, err
	}
	if len(out.entries) == 0 {
		return out, working.Refuse("table", "refuse.intake.nothing")
	}
	if err := ctx.Err(); err != nil {
		return out, err
	}
	c := store.Change{Tank: tank, Label: "undo.csv_take", Values: map[string]string{"Count": strconv.Itoa(out.Entries)}, At: stamp(k.now()), Silent: !out.Undoable}
	for _, e := range out.entries {
		e.ID = k.newID()
		c.Ops = append(c.Ops, entryOps(tank, e)...)
	}
	if c.Silent {
		if out.Snapshot, err = k.Snapshot(ctx); err != nil {
			return out, err
		}
	}
	return out, k.apply(ctx, c)
}
