package parts

import (
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Sketch is a small drawing for a card. Its millimetres count as points at 100 %,
// with its origin at the foot of the left edge; one that is Fitted is shown as large
// as the box allows, whatever its size.
type Sketch struct {
	Scene  *scene.Scene
	W, H   float32
	Fitted bool
}

// CardSpec is what a card shows: a thing with its sketch.
type CardSpec struct {
	ID     string // for finding it again; not shown
	Sketch Sketch // at the left; a zero W keeps no room for one
	Title  string
	Under  string   // below the title, slanted
	Facts  []string // in a column of their own, the first set bold
	State  State
	Word   string // of the state
	// Sentence says that the words are a clash or an advice rather than a row of a
	// list: state and title stand in one line, with the lines at full width below.
	Sentence bool
	Lines    []string
	Advice   string // below the lines, in teal
}

func (s CardSpec) same(o CardSpec) bool {
	return s.ID == o.ID && s.Sketch == o.Sketch && s.Title == o.Title && s.Under == o.Under && s.State == o.State && s.Word == o.Word && s.Sentence == o.Sentence &&
		s.Advice == o.Advice && strings.Join(s.Facts, "\n") == strings.Join(o.Facts, "\n") && strings.Join(s.Lines, "\n") == strings.Join(o.Lines, "\n")
}

const (
	cardPadX  = 14
	cardPadY  = 8
	cardGap   = 14  // between the columns
	cardName  = 190 // judgement: a scientific name in one line
	cardFacts = 104 // judgement: "room for 12"
	cardWords = 150 // judgement: least width of the lines beside the others
)

// card draws a card at a width and gives where it ends.
func (p *pen) card(s CardSpec, x, y, width float32, edge look.Name, wide float32) float32 {
	foot := newPen(p.w, nil).cardWords(s, x, y, width)
	p.rect(x, y, width, foot-y, box{fill: look.Sheet, stroke: edge, width: wide, radius: sheetRadius})
	if s.Sketch.Scene != nil {
		sw, sh := s.Sketch.W*p.k, s.Sketch.H*p.k
		top := y + (foot-y-sh)/2
		if s.Sentence {
			top = y + cardPadY*p.k
		}
		if g := p.sketch(s.Sketch.Scene, x+cardPadX*p.k, top, sw, sh); g != nil {
			g.fitted = s.Sketch.Fitted
		}
	}
	p.cardWords(s, x, y, width)
	return foot
}

// cardWords draws what a card says and gives where the card ends.
func (p *pen) cardWords(s CardSpec, x, y, width float32) float32 {
	pad, gap := cardPadX*p.k, cardGap*p.k
	left, top := x+pad, y+cardPadY*p.k
	least := top
	if s.Sketch.W > 0 {
		left += s.Sketch.W*p.k + gap
		least = top + s.Sketch.H*p.k
	}
	room := x + width - pad - left
	title := cut{look.SizeField, semiBold, look.Ink}
	if s.Sentence {
		words := s.Title
		if s.Word != "" {
			words = s.Word + " · " + s.Title
		}
		foot := p.statedWrap(s.State, words, left, top, room, title)
		foot = p.wrapped(s.Under, left, foot, room, noteSoft)
		return max(p.cardLines(s, left, foot, room), least) + cardPadY*p.k
	}
	name, facts := cardName*p.k, cardFacts*p.k
	if len(s.Facts) == 0 {
		facts = -gap
	}
	if room-name-facts-2*gap < cardWords*p.k { // one below the other
		foot := p.wrapped(s.Title, left, top, room, title)
		foot = p.wrapped(s.Under, left, foot, room, cut{look.SizeBody, italic, look.SoftInk})
		foot = p.wrapped(strings.Join(s.Facts, " · "), left, foot, room, bodyInk)
		if s.Word != "" {
			foot = p.statedWrap(s.State, s.Word, left, foot, room, bodyBold)
		}
		return max(p.cardLines(s, left, foot, room), least) + cardPadY*p.k
	}
	a := p.wrapped(s.Title, left, top, name, title)
	a = p.wrapped(s.Under, left, a, name, cut{look.SizeBody, italic, look.SoftInk})
	at := left + name + gap
	b := top
	for i, f := range s.Facts {
		c := bodySoft
		if i == 0 {
			c = bodyBold
		}
		b = p.wrapped(f, at, b, facts, c)
	}
	at += facts + gap
	last := x + width - pad - at
	c := top
	if s.Word != "" {
		c = p.statedWrap(s.State, s.Word, at, top, last, bodyBold)
	}
	c = p.cardLines(s, at, c, last)
	return max(a, b, c, least) + cardPadY*p.k
}

func (p *pen) cardLines(s CardSpec, x, y, width float32) float32 {
	for _, l := range s.Lines {
		y = p.wrapped(l, x, y, width, bodyInk)
	}
	if s.Advice != "" {
		y = p.wrapped("▸ "+s.Advice, x, y+2*p.k, width, cut{look.SizeBody, semiBold, look.Teal})
	}
	return y
}

// Card is a sheet with a sketch and words.
type Card struct {
	part
	spec CardSpec
}

// NewCard gives a card.
func NewCard(s CardSpec) *Card {
	c := &Card{spec: s}
	c.begin(c)
	return c
}

// Set shows another spec.
func (c *Card) Set(s CardSpec) {
	if !s.same(c.spec) {
		c.spec = s
		c.update()
	}
}

func (c *Card) leastWidth() float32 { return 220 }

func (c *Card) draw(p *pen, width float32) float32 {
	edge, wide := look.Rule, float32(1)
	if c.spec.Sentence && c.spec.State == Act {
		edge, wide = c.spec.State.colour(), 1.4
	}
	return p.card(c.spec, 0, 0, width, edge, wide)
}

// OpenCard is a card that leads somewhere. Tap, Enter or Space open it.
type OpenCard struct {
	actor
	OnOpen func()

	spec CardSpec
}

// NewOpenCard gives a card; open may be nil.
func NewOpenCard(s CardSpec, open func()) *OpenCard {
	c := &OpenCard{spec: s, OnOpen: open}
	c.begin(c)
	return c
}

// Set shows another spec.
func (c *OpenCard) Set(s CardSpec) {
	if !s.same(c.spec) {
		c.spec = s
		c.update()
	}
}

// Spec gives what is shown.
func (c *OpenCard) Spec() CardSpec { return c.spec }

// Tapped implements fyne.Tappable.
func (c *OpenCard) Tapped(*fyne.PointEvent) {
	c.take()
	call(c.OnOpen)
}

// TypedKey implements fyne.Focusable.
func (c *OpenCard) TypedKey(ev *fyne.KeyEvent) {
	if isEnter(ev.Name) || ev.Name == fyne.KeySpace {
		call(c.OnOpen)
		return
	}
	c.spareKey(ev)
}

func (c *OpenCard) ident() string       { return c.spec.ID }
func (c *OpenCard) leastWidth() float32 { return 220 }

func (c *OpenCard) draw(p *pen, width float32) float32 {
	h := p.card(c.spec, 0, 0, width, look.Rule, 1)
	if c.hovered {
		p.rect(0, 0, width, h, box{fill: look.Ink, alpha: hoverAlpha, radius: sheetRadius})
	}
	if c.focused {
		p.ring(ringGap, ringGap, width-2*ringGap, h-2*ringGap)
	}
	return h
}
