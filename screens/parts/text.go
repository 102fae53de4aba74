package parts

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// Role says how a text is set.
type Role uint8

// The roles of texts.
const (
	Body       Role = iota // running text
	SoftBody               // running text in soft ink, such as a page's purpose
	StrongBody             // running text set bold
	Heading                // of a page
	Section                // of a part of a page
	Note                   // small and soft
	Refusal                // what went wrong, in rust with the triangle before it
)

var roleCuts = [...]cut{
	Body: bodyInk, SoftBody: bodySoft, StrongBody: bodyBold, Heading: headingBold, Section: sectionBold, Note: noteSoft,
	Refusal: {look.SizeBody, regular, look.Rust},
}

// TextSpec is what a Text shows.
type TextSpec struct {
	Text string // line breaks are kept
	Role Role
}

// Text is text that wraps at the width it is given. An empty one takes no height.
type Text struct {
	part
	spec TextSpec
}

// NewText gives a text.
func NewText(s TextSpec) *Text {
	t := &Text{spec: s}
	t.begin(t)
	return t
}

// TextOf gives a text that stays as it is.
func TextOf(words string, role Role) *Text { return NewText(TextSpec{Text: words, Role: role}) }

// Set shows another text.
func (t *Text) Set(s TextSpec) {
	if s != t.spec {
		t.spec = s
		t.update()
	}
}

func (t *Text) leastWidth() float32 { return 40 }

func (t *Text) draw(p *pen, width float32) float32 {
	c := bodyInk
	if int(t.spec.Role) < len(roleCuts) {
		c = roleCuts[t.spec.Role]
	}
	if t.spec.Role == Refusal && t.spec.Text != "" {
		return p.refusal(t.spec.Text, 0, 0, width, c)
	}
	return p.wrapped(t.spec.Text, 0, 0, width, c)
}

// refusal draws an error with the triangle before it and gives where it ends.
func (p *pen) refusal(s string, x, y, width float32, c cut) float32 {
	size := p.size(c) * 0.7 / p.k
	p.stateMark(Act, x, y+p.base(c)-size*p.k, size)
	in := (size + markGap) * p.k
	return p.wrapped(s, x+in, y, width-in, c.in(look.Rust))
}

var _ fyne.Widget = (*Text)(nil)
