package parts

// Stated is a line of text led by the shape and the word of a state.
type Stated struct {
	part
	state      State
	word, text string
}

// NewStated gives a line.
func NewStated(st State, word, text string) *Stated {
	s := &Stated{state: st, word: word, text: text}
	s.begin(s)
	return s
}

func (s *Stated) leastWidth() float32 { return 120 }

func (s *Stated) draw(p *pen, width float32) float32 {
	w := p.stated(s.state, s.word, 0, 0, bodyBold)
	if s.text == "" {
		return p.line(bodyBold)
	}
	x := w + 10*p.k
	if width-x < entryText*p.k { // the text goes below
		return p.wrapped(s.text, 0, p.line(bodyBold), width, bodyInk)
	}
	return max(p.line(bodyBold), p.wrapped(s.text, x, 0, width-x, bodyInk))
}
