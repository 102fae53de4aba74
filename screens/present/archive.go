package present

import (
	"slices"
	"strconv"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// ArchivePage is the text of the page in an archive.
type ArchivePage struct {
	Lang, Title, Intro, Privacy string
	Tanks                       []ArchiveTank
}

// ArchiveTank is a tank on it.
type ArchiveTank struct {
	Name, Begun      string
	Table, TableName string // the file with the daybook as a table, and what it is called
	Tests            string // heading of the table of water tests
	Place            string // of the tank on the page
	TestTable        ArchiveTable
	DaysName         string // heading of the days
	Days             []ArchiveDay
	OthersName       string
	Others           []ArchivePhoto // pictures without an entry
	FishName         string         // heading of the fish
	Fish             []string
	CasesName        string // heading of the fish that looked wrong
	Cases            []ArchiveCase
	RoundsName       string // heading of what recurs
	RoundTable       ArchiveTable
	AwayName         string // heading of the times away
	Aways            []string
}

// ArchiveTable is a table on it.
type ArchiveTable struct {
	Columns []string
	Rows    [][]string
}

// ArchiveCase is a fish that looked wrong.
type ArchiveCase struct {
	Title, When string
	Signs       []string
	Note        string
	Entries     []ArchiveLink // what was written for it
}

// ArchiveLink leads to an entry on the same page.
type ArchiveLink struct{ ID, Text string }

// ArchiveDay is a day on it.
type ArchiveDay struct {
	Title   string
	Entries []ArchiveEntry
}

// ArchiveEntry is an entry with its pictures.
type ArchiveEntry struct {
	ID                     string // of its place on the page
	Time, Kind, Text, Note string
	Photos                 []ArchivePhoto
}

// ArchivePhoto is a picture: where it lies in the archive, "" when it is lost, and
// what stands below it.
type ArchivePhoto struct {
	Part, Caption string
	Lost          string // that it is lost, where it is
}

// Archive presents what an archive holds.
func (p Presenter) Archive(c keeper.Contents) ArchivePage {
	out := ArchivePage{Lang: p.W.Language(), Title: p.W.T("page.archive.title", nil), Intro: p.W.T("page.archive.intro", nil), Privacy: p.W.T("page.archive.privacy", nil)}
	for _, t := range c.Tanks {
		one := p.archiveTank(t)
		one.Place = "t-" + strconv.Itoa(len(out.Tanks)+1)
		out.Tanks = append(out.Tanks, one)
	}
	return out
}

func (p Presenter) archiveTank(t keeper.TankContents) ArchiveTank {
	out := ArchiveTank{Name: t.Tank.Name, Table: t.Table, TableName: p.W.T("page.archive.table", nil), Tests: p.W.T("page.archive.tests", nil),
		DaysName: p.W.T("nav.daybook", nil), OthersName: p.W.T("page.archive.others", nil)}
	if !t.Tank.Created.IsZero() {
		out.Begun = p.W.Date(t.Tank.Created)
	}
	with := map[string][]ArchivePhoto{}
	for _, f := range t.Photos {
		shown := ArchivePhoto{Part: f.Part, Caption: f.Caption}
		if shown.Caption == "" {
			shown.Caption = f.Name
		}
		if at, err := f.Taken.Parse(); err == nil {
			shown.Caption = p.W.DateTime(at) + " · " + shown.Caption
		}
		if f.Part == "" {
			shown.Lost = p.W.T("page.archive.lost", nil)
		}
		if f.Entry == "" {
			out.Others = append(out.Others, shown)
		} else {
			with[f.Entry] = append(with[f.Entry], shown)
		}
	}
	for _, d := range t.Days {
		day := ArchiveDay{Title: d.Date}
		if at, err := dayOf(d.Date); err == nil {
			day.Title = p.W.T("page.archive.day", i18n.Args{"Weekday": p.W.Weekday(at.Weekday()), "Date": p.W.Date(at)})
		}
		for _, e := range d.Entries {
			bare := e
			bare.Note = ""
			row := p.Entry(bare)
			day.Entries = append(day.Entries, ArchiveEntry{ID: entryAnchor(e), Time: row.Time, Kind: row.Kind, Text: row.Text, Note: e.Note, Photos: with[e.ID]})
		}
		out.Days = append(out.Days, day)
	}
	out.TestTable.Columns, out.TestTable.Rows = p.tests(t.Days)
	p.archiveAnimals(t, &out)
	p.archiveRounds(t, &out)
	return out
}

// tests are the water tests as a table: a column for each thing measured.
func (p Presenter) tests(days []keeper.Day) ([]string, [][]string) {
	var names []string
	var tests []journal.Entry
	for _, d := range days {
		for _, e := range d.Entries {
			if e.Kind != journal.Tested {
				continue
			}
			tests = append(tests, e)
			for _, r := range e.InOrder() {
				if !slices.Contains(names, r.Name) {
					names = append(names, r.Name)
				}
			}
		}
	}
	if len(tests) == 0 {
		return nil, nil
	}
	slices.Sort(names)
	columns := []string{p.W.T("page.archive.when", nil)}
	for _, n := range names {
		columns = append(columns, p.W.T(working.Key("reading."+n), nil))
	}
	var rows [][]string
	for _, e := range tests {
		row := []string{string(e.At)}
		if at, err := e.At.Parse(); err == nil {
			row[0] = p.W.DateTime(at)
		}
		for _, n := range names {
			r, ok := e.Get(n)
			row = append(row, "")
			if ok {
				row[len(row)-1] = p.value(r)
			}
		}
		rows = append(rows, row)
	}
	return columns, rows
}

// value is what was typed, with the basis where there is one.
func (p Presenter) value(r journal.Reading) string {
	if r.Qualifier != journal.Plain {
		return p.W.T(working.Key("reading.is_"+string(r.Qualifier)), nil)
	}
	s := p.measured(r.Measure)
	if r.Measure.Basis != quantity.BasisNone {
		s += " " + p.W.T(working.Key("word.basis."+string(r.Measure.Basis)), nil)
	}
	return s
}
