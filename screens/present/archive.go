package present

import (
	"slices"

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
	Name, Begun         string
	Table, TableName    string // the file with the daybook as a table, and what it is called
	Tests               string // heading of the table of water tests
	Columns             []string
	Rows                [][]string // each begins with its day and time
	DaysName            string     // heading of the days
	Days                []ArchiveDay
	OthersName, NoPhoto string
	Others              []ArchivePhoto // pictures without an entry
}

// ArchiveDay is a day on it.
type ArchiveDay struct {
	Title   string
	Entries []ArchiveEntry
}

// ArchiveEntry is an entry with its pictures.
type ArchiveEntry struct {
	Time, Kind, Text, Note string
	Photos                 []ArchivePhoto
}

// ArchivePhoto is a picture: where it lies in the archive, "" when it is lost, and
// what stands below it.
type ArchivePhoto struct{ Part, Caption string }

// Archive presents what an archive holds.
func (p Presenter) Archive(c keeper.Contents) ArchivePage {
	out := ArchivePage{Lang: p.W.Language(), Title: p.W.T("page.archive.title", nil), Intro: p.W.T("page.archive.intro", nil), Privacy: p.W.T("page.archive.privacy", nil)}
	for _, t := range c.Tanks {
		out.Tanks = append(out.Tanks, p.archiveTank(t))
	}
	return out
}

func (p Presenter) archiveTank(t keeper.TankContents) ArchiveTank {
	out := ArchiveTank{Name: t.Tank.Name, Table: t.Table, TableName: p.W.T("page.archive.table", nil), Tests: p.W.T("page.archive.tests", nil),
		DaysName: p.W.T("nav.daybook", nil), OthersName: p.W.T("page.archive.others", nil), NoPhoto: p.W.T("page.archive.lost", nil)}
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
		if f.Entry == "" {
			out.Others = append(out.Others, shown)
		} else {
			with[f.Entry] = append(with[f.Entry], shown)
		}
	}
	for _, d := range t.Days {
		day := ArchiveDay{Title: d.Date}
		if at, err := dayOf(d.Date); err == nil {
			day.Title = p.W.DayHeading(at) + " " + p.W.Date(at)
		}
		for _, e := range d.Entries {
			bare := e
			bare.Note = ""
			row := p.Entry(bare)
			day.Entries = append(day.Entries, ArchiveEntry{Time: row.Time, Kind: row.Kind, Text: row.Text, Note: e.Note, Photos: with[e.ID]})
		}
		out.Days = append(out.Days, day)
	}
	out.Columns, out.Rows = p.tests(t.Days)
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
			for _, r := range e.Readings {
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
	s := p.W.Typed(r.Measure)
	if r.Measure.Basis != quantity.BasisNone {
		s += " " + p.W.T(working.Key("word.basis."+string(r.Measure.Basis)), nil)
	}
	return s
}
