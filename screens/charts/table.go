package charts

import (
	"bytes"
	"context"
	"image"
	"image/draw"
	"image/png"
	"io"

	"fyne.io/fyne/v2/theme"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/scene"
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

// The size of one chart in a saved picture, in points, and its pixels a point.
// Judgement: sharp on paper, and a dozen charts in one picture.
const (
	savedWide = 900
	savedTall = 230
	savedHead = 64
	savedDots = 2
)

// savePicture writes the charts as they are shown as one picture.
func (p *Page) savePicture() {
	specs, _ := p.specs()
	if len(specs) == 0 {
		return
	}
	x0, x1 := p.bounds()
	title := p.deps.Present.W.T("page.chart.saved_title", i18n.Args{"Name": p.seen[0].tank.Name, "From": p.deps.Present.DayOf(x0), "To": p.deps.Present.DayOf(x1 - 1)})
	p.deps.Save("driploop-charts.png", func(_ context.Context, w io.Writer) error {
		data, err := pictureOf(title, specs)
		if err == nil {
			_, err = w.Write(data)
		}
		return err
	})
}

func pictureOf(title string, specs []drawn) ([]byte, error) {
	const w, h, top = savedWide * savedDots, savedTall * savedDots, savedHead * savedDots
	img := image.NewRGBA(image.Rect(0, 0, w, top+h*len(specs)))
	put := func(s *scene.Scene, y, tall int) error {
		m, err := scene.Picture(s, w, tall, savedDots, theme.VariantLight)
		if err == nil {
			draw.Draw(img, image.Rect(0, y, w, y+tall), m, image.Point{}, draw.Src)
		}
		return err
	}
	head := scene.New()
	head.Area(scene.Box{Max: scene.Pt(savedWide, savedHead)})
	head.Add(scene.Text{At: scene.Pt(16, 20), S: title, Size: look.Section, Weight: scene.SemiBold, Colour: look.Ink})
	if err := put(head, 0, top); err != nil {
		return nil, err
	}
	for i, c := range specs {
		if err := put(chart.Build(c.Spec, savedWide-16, savedTall-16), top+i*h, h); err != nil {
			return nil, err
		}
	}
	var b bytes.Buffer
	err := png.Encode(&b, img)
	return b.Bytes(), err
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
