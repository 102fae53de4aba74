package parts

import "example.org/driploop/screens/look"

// Latin is a scientific name, in italics and soft ink.
type Latin struct {
	part
	text string
}

// NewLatin gives a scientific name.
func NewLatin(text string) *Latin {
	l := &Latin{text: text}
	l.begin(l)
	return l
}

func (l *Latin) leastWidth() float32 { return 100 }

func (l *Latin) draw(p *pen, width float32) float32 {
	return p.wrapped(l.text, 0, 0, width, cut{look.SizeBody, italic, look.SoftInk})
}
