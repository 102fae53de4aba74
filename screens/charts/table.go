package charts

import (
	"context"
	"io"

	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/parts"
)

// table gives the list its rows: the readings behind the charts, the newest first.
type table struct{ p *Page }

func (t table) Len() int { return len(t.p.rows) }

func (t table) Place(id string) (int, bool) {
	for i := range t.p.rows {
		if t.p.rows[i].ID == id {
			return i, true
		}
	}
	return 0, false
}

func (t table) Row(i int) parts.LongRowSpec {
	e := t.p.rows[i]
	e.Note = ""
	row := t.p.deps.Present.Entry(e)
	s := parts.LongRowSpec{ID: e.ID, Time: row.Time, Kind: row.Kind, Text: row.Text}
	if day := e.At.Day(); i == 0 || t.p.rows[i-1].At.Day() != day {
		s.Heading = t.p.deps.Present.LedgerHeading(day, t.p.deps.Now())
	}
	return s
}

// saveTable writes the readings behind the charts as a table.
func (p *Page) saveTable() {
	names := keeper.TraceNames()
	if p.what != "" {
		names = []string{p.what}
	}
	at := p.now
	p.deps.Save("driploop-measured.csv", func(ctx context.Context, w io.Writer) error {
		return p.deps.Keeper.WriteTraces(ctx, p.tank, names, at.first, at.last, w)
	})
}
