package charts

import (
	"bytes"
	"context"
	"image"
	"image/draw"
	"image/png"
	"io"
	"math"

	"fyne.io/fyne/v2/theme"

	"example.org/driploop/i18n"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/scene"
)

// The size of one chart in a saved picture, in points, and its pixels a point.
// Judgement: sharp on paper, and a dozen charts in one picture.
const (
	savedWide = 900
	savedTall = 230
	savedHead = 64
	savedLine = 22 // of the legend
	savedEdge = 8  // left free on each side by scene.Picture
	savedDots = 2
)

// savePicture writes the charts as they are shown as one picture.
func (p *Page) savePicture() {
	specs, legend := p.specs()
	if len(specs) == 0 {
		return
	}
	x0, x1 := p.bounds()
	title := p.deps.Present.W.T("page.chart.saved_title", i18n.Args{"Name": p.seen[0].tank.Name, "From": p.deps.Present.DayOf(x0), "To": p.deps.Present.DayOf(x1 - 1)})
	p.deps.Save("driploop-charts.png", func(_ context.Context, w io.Writer) error {
		data, err := pictureOf(title, legend, specs)
		if err == nil {
			_, err = w.Write(data)
		}
		return err
	})
}

// pictureOf draws charts below one another, with a title and what the signs mean above.
func pictureOf(title string, legend []parts.LegendItem, specs []drawn) ([]byte, error) {
	head := scene.New()
	tall := savedHead + addLegend(head, legend)
	head.Add(scene.Text{At: scene.Pt(savedEdge, float64(tall-52)), S: title, Size: look.Section, Weight: scene.SemiBold, Colour: look.Ink})
	head.Area(scene.Box{Max: scene.Pt(savedWide-2*savedEdge, float64(tall-2*savedEdge))})
	const w, h = savedWide * savedDots, savedTall * savedDots
	top := tall * savedDots
	img := image.NewRGBA(image.Rect(0, 0, w, top+h*len(specs)))
	put := func(s *scene.Scene, y, tall int) error {
		m, err := scene.Picture(s, w, tall, savedDots, theme.VariantLight)
		if err == nil {
			draw.Draw(img, image.Rect(0, y, w, y+tall), m, image.Point{}, draw.Src)
		}
		return err
	}
	if err := put(head, 0, top); err != nil {
		return nil, err
	}
	for i, c := range specs {
		if err := put(chart.Build(c.Spec, savedWide-2*savedEdge, savedTall-2*savedEdge), top+i*h, h); err != nil {
			return nil, err
		}
	}
	var b bytes.Buffer
	err := png.Encode(&b, img)
	return b.Bytes(), err
}

// addLegend adds what the signs mean at the foot of the head, in as many lines as it
// takes, and returns how tall that is.
func addLegend(head *scene.Scene, legend []parts.LegendItem) int {
	const room = 20.0 // of a sign
	var rows [][]parts.LegendItem
	wide := func(it parts.LegendItem) float64 {
		return room + scene.TextSize(it.Word, scene.Regular, look.Note).Width + 16
	}
	x := math.Inf(1)
	for _, it := range legend {
		if x+wide(it) > savedWide-3*savedEdge {
			x, rows = savedEdge, append(rows, nil)
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], it)
		x += wide(it)
	}
	for i, row := range rows {
		x := float64(savedEdge)
		y := float64(savedLine*(len(rows)-1-i)) + 10
		for _, it := range row {
			addSign(head, it, scene.Pt(x+room/2-2, y))
			head.Add(scene.Text{At: scene.Pt(x+room, y), S: it.Word, Size: look.Note, V: scene.Centre, Colour: look.SoftInk})
			x += wide(it)
		}
	}
	return len(rows) * savedLine
}

// addSign adds a sign of the legend.
func addSign(head *scene.Scene, it parts.LegendItem, at scene.Point) {
	style := scene.Style{Stroke: it.Colour, Width: 1.5, Fill: look.Paper}
	if it.Stem != 0 {
		head.Add(scene.Line{From: at, To: scene.Pt(at.X, at.Y+float64(it.Stem)*8), Style: scene.Style{Stroke: it.Colour, Width: 1.5}})
	}
	if it.Count == "" {
		head.Add(scene.Marker{At: at, Shape: it.Shape, Size: 8, Style: style})
		return
	}
	head.Add(scene.Circle(at, 6.5, style))
	head.Add(scene.Text{At: at, S: it.Count, Size: look.Note - 3, Weight: scene.SemiBold, H: scene.Middle, V: scene.Centre, Colour: it.Colour})
}
