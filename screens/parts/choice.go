package parts

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Option is one of the things to choose from.
type Option struct {
	Code  string // reported when chosen; not shown
	Label string
}

// ChoiceSpec is what a Choice shows.
type ChoiceSpec struct {
	ID          string // for finding it again; not shown
	Label       string
	Chosen      string // code of the option chosen; "" for none
	Options     []Option
	Placeholder string // shown while nothing is chosen
	Error       string
	Hint        string
	Mark        string // where the value comes from
	Proposed    bool   // the choice is the program's own and not given yet: soft ink
	Search      string // shown in the empty search box of a long list
	Empty       string // shown when a search finds nothing
}

// Choice is a labelled box that opens a list of options. Space, Enter and the
// down arrow open it; letters go to the option that begins with them.
type Choice struct {
	actor
	OnChosen func(code string)

	spec ChoiceSpec
	lead float32
	open *listPopUp
	typed
}

// NewChoice gives a choice.
func NewChoice(s ChoiceSpec, chosen func(code string)) *Choice {
	c := &Choice{spec: s, OnChosen: chosen}
	c.begin(c)
	return c
}

// Set shows another spec.
func (c *Choice) Set(s ChoiceSpec) {
	if !same(s, c.spec) {
		c.spec = s
		c.update()
	}
}

// Spec gives what is shown.
func (c *Choice) Spec() ChoiceSpec { return c.spec }

// Tapped implements fyne.Tappable.
func (c *Choice) Tapped(*fyne.PointEvent) {
	c.take()
	c.show()
}

// TypedKey implements fyne.Focusable.
func (c *Choice) TypedKey(ev *fyne.KeyEvent) {
	if isEnter(ev.Name) || ev.Name == fyne.KeySpace || ev.Name == fyne.KeyDown {
		c.show()
		return
	}
	c.spareKey(ev)
}

// TypedRune implements fyne.Focusable: letters choose without opening the list.
func (c *Choice) TypedRune(r rune) {
	if r == ' ' {
		return
	}
	if i := c.seek(r, c.spec.Options, c.at()); i >= 0 {
		c.choose(c.spec.Options[i].Code)
	}
}

func (c *Choice) at() int {
	for i, o := range c.spec.Options {
		if o.Code == c.spec.Chosen {
			return i
		}
	}
	return -1
}

func (c *Choice) choose(code string) {
	if code == c.spec.Chosen && !c.spec.Proposed {
		return
	}
	c.spec.Chosen, c.spec.Proposed = code, false
	c.update()
	if c.OnChosen != nil {
		c.OnChosen(code)
	}
}

// show opens the list below the box, as wide as the box or wider.
func (c *Choice) show() {
	cv := fyne.CurrentApp().Driver().CanvasForObject(c)
	if cv == nil || len(c.spec.Options) == 0 {
		return
	}
	l := listSpec{options: c.spec.Options, chosen: c.spec.Chosen, search: c.spec.Search, empty: c.spec.Empty}
	top, h := c.box()
	pos := fyne.CurrentApp().Driver().AbsolutePositionForObject(c).AddXY(0, top)
	c.open = openList(l, cv, pos, fyne.NewSize(c.Size().Width, h), func(code string, chosen bool) {
		c.open = nil
		cv.Focus(c)
		if chosen {
			c.choose(code)
		}
	})
}

func (c *Choice) leastWidth() float32 { return 72 }

func (c *Choice) labelHeight(width float32) float32 {
	return newPen(c, nil).end(c.spec.Label, 0, width, bodySoft)
}

func (c *Choice) setLead(extra float32) float32 {
	before := c.lead
	c.lead = extra
	return before
}

// box gives where the box stands in the part.
func (c *Choice) box() (top, height float32) {
	p := newPen(c, nil)
	top = p.end(c.spec.Label, c.lead, c.Size().Width, bodySoft) + labelGap*p.k
	return top, c.boxHeight(p, c.Size().Width)
}

// choiceLines is how many lines the chosen option may take before it is shortened.
// Judgement: an option is a few words.
const choiceLines = 3

// shown gives what stands in the box at a width, in lines, and how it is set.
func (c *Choice) shown(p *pen, width float32) ([]string, cut) {
	text, cut := c.words()
	room := width - choiceEdges*p.k
	if room <= 0 {
		return []string{text}, cut
	}
	return shortened(text, choiceLines, room, p.measurer(cut)), cut
}

// choiceEdges is what the box takes beside its words.
const choiceEdges = 2*boxPad + chevronSize + 4

// words gives what the box says.
func (c *Choice) words() (string, cut) {
	i := c.at()
	if i < 0 {
		return c.spec.Placeholder, fieldSoft
	}
	if c.spec.Proposed {
		return c.spec.Options[i].Label, fieldBold.in(look.SoftInk)
	}
	return c.spec.Options[i].Label, fieldBold
}

func (c *Choice) wholeWords(p *pen) float32 {
	text, cut := c.words()
	widest := float32(0)
	for _, piece := range scene.Pieces(text) {
		widest = max(widest, p.widthOf(strings.TrimRight(piece, " "), cut))
	}
	return widest + choiceEdges*p.k
}

func (c *Choice) boxHeight(p *pen, width float32) float32 {
	lines, _ := c.shown(p, width)
	return float32(len(lines))*p.line(fieldBold) + 2*boxPad*p.k
}

const chevronSize = 12

func (c *Choice) draw(p *pen, width float32) float32 {
	y := p.wrapped(c.spec.Label, 0, c.lead, width, bodySoft) + labelGap*p.k
	h := c.boxHeight(p, width)
	edge := look.Edge
	if c.spec.Error != "" {
		edge = look.Rust
	}
	radius := sizeOf(c, theme.SizeNameInputRadius)
	p.rect(0, y, width, h, box{fill: look.Sheet, stroke: edge, width: 1.3, radius: radius})
	if c.hovered {
		p.rect(0, y, width, h, box{fill: look.Ink, alpha: hoverAlpha, radius: radius})
	}
	pad := boxPad * p.k
	lines, cut := c.shown(p, width)
	for i, l := range lines {
		p.text(l, pad, y+pad+float32(i)*p.line(cut), cut)
	}
	p.chevron(width-pad-(chevronSize-2)*p.k, y+(h-chevronSize*p.k)/2, chevronSize, look.SoftInk)
	if c.focused {
		p.ring(0, y, width, h)
	}
	return p.below(c.spec.Error, joined(c.spec.Mark, c.spec.Hint), 0, y+h+belowGap*p.k, width)
}
