package parts

import (
	"image"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// LongRowSpec is what a row of a Long shows.
type LongRowSpec struct {
	ID      string // for finding it again; not shown
	Heading string // above the row, with a rule: the day that begins with it
	Time    string
	Kind    string
	Text    string
	Note    string // at the right
	State   State  // of the note
	Mark    string // a word beside the kind: what the row belongs to
	// Pictures are shown below the text, as many as fit; nil is one still being
	// made. More says how many there are beside, given how many are not shown.
	Pictures []image.Image
	More     func(n int) string
	// Card is shown in place of all the others but the heading; nil for none.
	Card *CardSpec
}

func (s LongRowSpec) same(o LongRowSpec) bool {
	if (s.Card == nil) != (o.Card == nil) || s.Card != nil && !s.Card.same(*o.Card) {
		return false
	}
	if s.ID != o.ID || s.Heading != o.Heading || s.Time != o.Time || s.Kind != o.Kind || s.Text != o.Text || s.Note != o.Note || s.State != o.State || s.Mark != o.Mark || len(s.Pictures) != len(o.Pictures) {
		return false
	}
	for i := range s.Pictures {
		if s.Pictures[i] != o.Pictures[i] {
			return false
		}
	}
	return true
}

// longRow is one row of a Long in view. It is used again for another.
type longRow struct {
	part
	list   *Long
	i      int
	spec   LongRowSpec
	images []*canvas.Image
	body   float32 // where the row begins below its heading
	on     bool    // the keys are at it
}

func newLongRow(l *Long) *longRow {
	r := &longRow{list: l}
	r.begin(r)
	return r
}

func (r *longRow) leastWidth() float32 { return 200 }
func (r *longRow) ident() string       { return r.spec.ID }

// Tapped implements fyne.Tappable.
func (r *longRow) Tapped(ev *fyne.PointEvent) {
	r.list.Select(r.i)
	r.list.body.take()
	if ev == nil || ev.Position.Y >= r.body {
		r.list.open(r.i)
	}
}

// MouseIn implements desktop.Hoverable.
func (r *longRow) MouseIn(*desktop.MouseEvent) { r.hover(true) }

// MouseMoved implements desktop.Hoverable.
func (r *longRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (r *longRow) MouseOut() { r.hover(false) }

// Cursor implements desktop.Cursorable.
func (r *longRow) Cursor() desktop.Cursor { return desktop.PointerCursor }

const (
	longLines   = 6   // judgement: of text in a row; all of it stands in the entry
	longRunes   = 700 // judgement: more than so many lines ever hold
	longPicture = 72  // height of pictures in a row
	longAcross  = 96  // their width
	longGap     = 8
	longHead    = 14 // above a heading
	longPadY    = 3
)

func (r *longRow) draw(p *pen, width float32) float32 {
	s := r.spec
	top := float32(0)
	if s.Heading != "" {
		top = p.wrapped(s.Heading, 0, longHead*p.k, width, bodyBold) + 3*p.k
		p.rect(0, top, width, 1.2, box{fill: look.Rule})
		top += 1.2 + 2*p.k
	}
	r.body = top
	if s.Card != nil {
		return r.card(p, *s.Card, top, width)
	}
	y := top + longPadY*p.k
	tw := max(entryTime*p.k, p.clockWidth(s.Time, bodySoft)+10*p.k)
	kw := max(entryKind*p.k, min(p.widthOf(s.Kind, bodyBold)+12*p.k, 170*p.k))
	nw := float32(0)
	if s.Note != "" {
		nw = p.statedWidth(s.State, s.Note, bodyBold) + barGap*p.k
	}
	note := nw > 0 && nw <= width/3
	p.text(s.Time, 0, y, bodySoft)
	foot := p.wrapped(s.Kind, tw, y, kw-12*p.k, bodyBold)
	if s.Mark != "" {
		foot = r.marked(p, tw, foot, kw-12*p.k)
	}
	x, from := tw+kw, y
	if !note {
		nw = 0
	}
	if width-x-nw < entryText*p.k { // the text goes below the kind
		x, from = tw, foot
	}
	if note {
		p.stated(s.State, s.Note, width-nw+barGap*p.k, y, bodyBold)
	}
	end := p.lines(s.Text, x, from, width-x-nw, longLines, bodyInk)
	if s.Note != "" && !note {
		end = p.statedWrap(s.State, s.Note, x, end, width-x, bodyBold)
	}
	if len(s.Pictures) > 0 {
		end = r.pictures(p, x, max(end, from)+4*p.k, width-x)
	}
	h := max(max(end, foot)+longPadY*p.k, top+leastTarget)
	if r.hovered {
		p.rect(0, top, width, h-top, box{fill: look.Ink, alpha: hoverAlpha, radius: sheetRadius})
	}
	if r.on && r.list.body.focused {
		p.ring(ringGap, top+1, width-2*ringGap, h-top-2)
	}
	return h
}

// card draws a row that is a card.
func (r *longRow) card(p *pen, s CardSpec, top, width float32) float32 {
	if r.spec.Heading != "" {
		top += 4 * p.k
	}
	h := p.card(s, 0, top, width, look.Rule, 1)
	if r.hovered {
		p.rect(0, top, width, h-top, box{fill: look.Ink, alpha: hoverAlpha, radius: sheetRadius})
	}
	if r.on && r.list.body.focused {
		p.ring(ringGap, top+ringGap, width-2*ringGap, h-top-2*ringGap)
	}
	return h + cardBelow*p.k
}

// cardBelow is the gap between the cards of a list.
const cardBelow = 6

// marked draws the word of what the row belongs to, with a small flag before it.
func (r *longRow) marked(p *pen, x, y, width float32) float32 {
	size := p.size(noteSoft)
	sc := scene.New()
	d := float64(size / p.k)
	sc.Add(scene.Polyline{Points: []scene.Point{scene.Pt(0.2*d, 0), scene.Pt(0.2*d, 0.95*d), scene.Pt(0.9*d, 0.7*d), scene.Pt(0.2*d, 0.45*d)}, Style: scene.Style{Stroke: look.Act, Width: 1.4}})
	p.sketch(sc, x, y+p.base(noteSoft)-size*0.85, size, size)
	return p.wrapped(r.spec.Mark, x+size+3*p.k, y, width-size-3*p.k, noteSoft)
}

func (r *longRow) pictures(p *pen, x, y, width float32) float32 {
	w, h := longAcross*p.k, longPicture*p.k
	n := min(len(r.spec.Pictures), max(1, int((width+longGap)/(w+longGap))))
	if n < len(r.spec.Pictures) && n > 1 && r.spec.More != nil {
		n-- // room for the word of the others
	}
	for i := range n {
		at := x + float32(i)*(w+longGap)
		p.rect(at, y, w, h, box{fill: look.Sheet, stroke: look.Rule, width: 1})
		img := r.spec.Pictures[i]
		if img == nil || p.pool == nil {
			continue
		}
		for len(r.images) <= i {
			r.images = append(r.images, &canvas.Image{FillMode: canvas.ImageFillContain, ScaleMode: canvas.ImageScaleFastest})
		}
		if c := r.images[i]; c.Image != img {
			c.Image = img
			c.Refresh()
		}
		p.put(r.images[i], at+1, y+1, w-2, h-2)
	}
	if left := len(r.spec.Pictures) - n; left > 0 && r.spec.More != nil {
		p.wrapped(r.spec.More(left), x+float32(n)*(w+longGap), y+h/2-p.line(noteSoft)/2, max(40*p.k, width-float32(n)*(w+longGap)), noteSoft)
	}
	return y + h + 4*p.k
}

// lines draws text in at most so many lines; what does not fit is left out with
// an ellipsis.
func (p *pen) lines(s string, x, y, width float32, most int, c cut) float32 {
	if s == "" {
		return y
	}
	cut := false
	if n := len(s); n > longRunes {
		if rs := []rune(s); len(rs) > longRunes {
			s, cut = string(rs[:longRunes]), true
		}
	}
	ls := wrap(s, width, p.measurer(c))
	if len(ls) > most {
		ls, cut = ls[:most], true
	}
	for i, l := range ls {
		if cut && i == len(ls)-1 {
			for rs := []rune(strings.TrimSpace(l)); ; rs = rs[:len(rs)-1] {
				if l = string(rs) + "…"; len(rs) == 0 || p.widthOf(l, c) <= width {
					break
				}
			}
		}
		p.text(l, x, y, c)
		y += p.line(c)
	}
	return y
}

// LongPicture gives the size of a picture in a row of l, in points.
func LongPicture(l *Long) (w, h float32) {
	k := l.scale()
	return longAcross * k, longPicture * k
}
