package keeper

import (
	"context"
	"slices"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/sick"
	"example.org/driploop/model/store"
)

// CaseView is a case with everything its page shows.
type CaseView struct {
	Case    Case
	Urgency sick.Urgency
	// Water is what the latest test says, WaterEntry that test; nil when nothing
	// was tested. Fresh says that it speaks for the water as it is now.
	Water      *Judgement
	WaterEntry journal.Entry
	Fresh      bool
	Tests      []CaseTest
	Acts       []sick.Act
	Notes      []care.Note
	Changes    []sick.Change
	// Entries are the case's own, the newest first.
	Entries []journal.Entry
	// Loose are entries of the last sick.Window days that tell of fish or water and
	// belong to no case, the newest first.
	Loose []journal.Entry
	// Known are all entries that Changes speak of, by id.
	Known map[string]journal.Entry
}

// CaseTest is a water test to make, with what was measured last.
type CaseTest struct {
	Name    string // of the reading
	Entry   journal.Entry
	Reading journal.Reading // empty name: never measured
	Fresh   bool            // measured within sick.Fresh hours
}

// tells are the kinds that may belong to a case though they were written
// without it.
var tells = []journal.Kind{journal.Noticed, journal.Photo, journal.Tested, journal.Changed, journal.Note, journal.Dosed}

// Cases lists the cases of a tank, the open ones first, and then the latest
// opened first.
func (k *Keeper) Cases(ctx context.Context, tank string) ([]Case, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return nil, err
	}
	return k.cases(ctx, tank, r)
}

func (k *Keeper) cases(ctx context.Context, tank string, r *care.Record) ([]Case, error) {
	rows, err := k.st.Load(ctx, "sick", map[string]any{"tank": tank, "deleted": nil}, "opened, id")
	if err != nil || len(rows) == 0 {
		return nil, err
	}
	out := make([]Case, 0, len(rows))
	for _, row := range slices.Backward(rows) {
		c, err := k.caseOf(ctx, row, r)
		if err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	slices.SortStableFunc(out, func(a, b Case) int {
		switch {
		case a.Open() == b.Open():
			return 0
		case a.Open():
			return -1
		}
		return 1
	})
	return out, nil
}

func (k *Keeper) caseOf(ctx context.Context, row store.Row, r *care.Record) (Case, error) {
	c := Case{ID: text(row["id"]), Tank: text(row["tank"]), Fish: text(row["fish"]), About: text(row["about"]), Many: sick.Many(text(row["many"])),
		Opened: journal.Civil(text(row["opened"])), Zone: text(row["zone"]), Closed: journal.Civil(text(row["closed"])), Outcome: Outcome(text(row["outcome"])), Note: text(row["note"])}
	if c.Fish != "" { // by the name it goes by now
		if f, err := k.fishRow(ctx, c.Tank, c.Fish); err == nil {
			c.About, c.Species = text(f["name"]), text(f["species"])
		}
	}
	today := journal.CivilOf(r.Now)
	until := today
	if !c.Open() {
		until = c.Closed
	}
	if d, err := journal.DaysBetween(c.Opened, until); err == nil && d >= 0 {
		c.Day = d + 1
	}
	for _, e := range r.Entries {
		if e.Sick == c.ID {
			c.Latest = e.At
			c.Looked = c.Looked || e.At.Day() == today.Day()
		}
	}
	c.Looked = c.Looked || c.Opened.Day() == today.Day()
	rows, err := k.st.Load(ctx, "sick_sign", map[string]any{"sick": c.ID}, "seen, sign")
	if err != nil {
		return Case{}, err
	}
	for _, s := range rows {
		x := CaseSign{Sign: sick.SignID(text(s["sign"])), Seen: journal.Civil(text(s["seen"])), Gone: journal.Civil(text(s["gone"]))}
		end := until
		if x.Gone != "" {
			end = x.Gone
		}
		if d, err := journal.DaysBetween(x.Seen, end); err == nil && d > 0 {
			x.Days = d
		}
		c.Signs = append(c.Signs, x)
	}
	return c, nil
}

// Case looks at a case as it stands. Refusals: no such case.
func (k *Keeper) Case(ctx context.Context, tank, id string) (CaseView, error) {
	row, err := k.caseRow(ctx, tank, id)
	if err != nil {
		return CaseView{}, err
	}
	r, err := k.record(ctx, tank)
	if err != nil {
		return CaseView{}, err
	}
	v := CaseView{Known: map[string]journal.Entry{}}
	if v.Case, err = k.caseOf(ctx, row, r); err != nil {
		return CaseView{}, err
	}
	fresh := func(e journal.Entry) bool {
		at, ok := e.Instant()
		return ok && r.Now.Sub(at).Hours() <= sick.Fresh
	}
	for _, e := range slices.Backward(r.Entries) {
		if e.Kind == journal.Tested && v.WaterEntry.ID == "" {
			v.WaterEntry, v.Fresh = e, fresh(e)
		}
		if e.Sick == id {
			v.Entries = append(v.Entries, e)
		}
		if d, err := journal.DaysBetween(e.At, journal.CivilOf(r.Now)); err == nil && d <= sick.Window && e.Sick == "" && slices.Contains(tells, e.Kind) {
			v.Loose = append(v.Loose, e)
		}
	}
	if v.Water, err = k.latestTest(ctx, tank); err != nil {
		return CaseView{}, err
	}
	seen := sick.Seen{Many: v.Case.Many}
	for _, s := range v.Case.Signs {
		if s.Gone == "" {
			seen.Signs = append(seen.Signs, sick.Observed{Sign: s.Sign, Days: s.Days})
		}
	}
	if v.Water != nil && v.Fresh {
		seen.Water = sick.Water{Known: true, State: v.Water.State, Emergency: slices.ContainsFunc(v.Water.Findings, isEmergency)}
	}
	v.Urgency = sick.Reckon(seen)
	for _, name := range sick.Tests(v.Urgency.Signs) {
		t := CaseTest{Name: name}
		if e, reading, ok := newest(r.Entries, name); ok {
			t.Entry, t.Reading, t.Fresh = e, reading, fresh(e)
		}
		v.Tests = append(v.Tests, t)
	}
	v.Acts = sick.Acts(v.Urgency.Signs)
	for _, note := range sick.Notes(v.Urgency.Signs) {
		if n, ok := care.NoteOf(care.NoteID(note)); ok {
			v.Notes = append(v.Notes, n)
		}
	}
	v.Changes = sick.Changes(r.Entries, journal.CivilOf(r.Now))
	for _, c := range v.Changes {
		if i := slices.IndexFunc(r.Entries, func(e journal.Entry) bool { return e.ID == c.Entry }); i >= 0 {
			v.Known[c.Entry] = r.Entries[i]
		}
	}
	return v, nil
}
