package parts

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// StockRowSpec is what a StockRow shows.
type StockRowSpec struct {
	ID     string       // for finding it again; not shown
	Sketch *scene.Scene // at the left, its millimetres as points at 100 %, its middle at StockSketch's; nil leaves the place
	Name   string
	Latin  string // below the name, in italics
	Count  string
	Lines  []string // soft lines beside the count
	State  State
	Word   string // of the state
}

// StockRow is a sheet with a fish or a group. Tap, Enter or Space open it.
type StockRow struct {
	actor
	OnOpen func()

	spec StockRowSpec
}

// NewStockRow gives a row.
func NewStockRow(s StockRowSpec, open func()) *StockRow {
	r := &StockRow{spec: s, OnOpen: open}
	r.begin(r)
	return r
}

// Tapped implements fyne.Tappable.
func (r *StockRow) Tapped(*fyne.PointEvent) {
	r.take()
	r.open()
}

// TypedKey implements fyne.Focusable.
func (r *StockRow) TypedKey(ev *fyne.KeyEvent) {
	if isEnter(ev.Name) || ev.Name == fyne.KeySpace {
		r.open()
		return
	}
	r.spareKey(ev)
}

func (r *StockRow) open() {
	if r.OnOpen != nil {
		r.OnOpen()
	}
}

func (r *StockRow) leastWidth() float32 { return 240 }

func (r *StockRow) ident() string { return r.spec.ID }

const (
	stockPadX  = 14
	stockPadY  = 9
	stockName  = 176 // judgement: a common name in one line, a long one in two
	stockCount = 46
	stockLines = 150 // judgement: least width of the lines beside the count
)

// StockSketch is the room for the sketch of a row, in points at 100 %.
const (
	StockSketchWide = 76
	StockSketchHigh = 44
)

func (r *StockRow) draw(p *pen, width float32) float32 {
	probe := newPen(p.w, nil)
	h := max(r.words(probe, width), StockSketchHigh*p.k) + 2*stockPadY*p.k
	edge, wide := look.Rule, float32(1)
	if r.spec.State == Act {
		edge, wide = r.spec.State.colour(), 1.4
	}
	p.rect(0, 0, width, h, box{fill: look.Sheet, stroke: edge, width: wide, radius: sheetRadius})
	if r.hovered {
		p.rect(0, 0, width, h, box{fill: look.Ink, alpha: hoverAlpha, radius: sheetRadius})
	}
	if s := r.spec.Sketch; s != nil {
		p.sketch(s, stockPadX*p.k, (h-StockSketchHigh*p.k)/2, StockSketchWide*p.k, StockSketchHigh*p.k)
	}
	r.words(p, width)
	if r.focused {
		p.ring(0, 0, width, h)
	}
	return h
}

// words draws the columns and gives how high they are.
func (r *StockRow) words(p *pen, width float32) float32 {
	s, top := r.spec, stockPadY*p.k
	x := (stockPadX + StockSketchWide + 12) * p.k
	right := width - stockPadX*p.k
	state := float32(0)
	if s.Word != "" {
		state = p.statedWidth(s.State, s.Word, bodyBold) + 10*p.k
	}
	nw := min(stockName*p.k, right-x-stockCount*p.k)
	foot := p.wrapped(s.Name, x, top, nw-8*p.k, fieldBold)
	foot = p.wrapped(s.Latin, x, foot, nw-8*p.k, cut{look.SizeBody, italic, look.SoftInk})
	cx := x + nw
	p.text(s.Count, cx, top, sectionBold)
	lx := cx + max(stockCount*p.k, p.widthOf(s.Count, sectionBold)+10*p.k)
	y := top
	if right-lx-state < stockLines*p.k { // below the name, and the state above them at the right
		if s.Word != "" && right-lx >= state-10*p.k {
			p.stated(s.State, s.Word, right-state+10*p.k, top, bodyBold)
		} else if s.Word != "" {
			foot = p.statedWrap(s.State, s.Word, x, foot, right-x, bodyBold)
		}
		lx, y, state = x, foot, 0
	} else if s.Word != "" {
		p.stated(s.State, s.Word, right-state+10*p.k, top, bodyBold)
	}
	for _, l := range s.Lines {
		y = p.wrapped(l, lx, y, right-lx-state, bodySoft)
	}
	return max(foot, y) - top
}
