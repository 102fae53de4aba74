package parts

import (
	"math"

	"example.org/driploop/screens/look"
)

// BarSpec is what a Bar shows.
type BarSpec struct {
	Name  string
	Text  string  // the share in words for people, such as "86 %"
	Share float64 // of the limit: 0 empty, 1 at the limit; above 1 is full with a mark; NaN shows an empty track
	State State   // Wait and Act show their shape
	Word  string  // of the state
}

// Bar shows a value against its limit.
type Bar struct {
	part
	spec BarSpec
}

// NewBar gives a bar.
func NewBar(s BarSpec) *Bar {
	b := &Bar{spec: s}
	b.begin(b)
	return b
}

// Set shows another spec.
func (b *Bar) Set(s BarSpec) {
	if !same(s, b.spec) {
		b.spec = s
		b.update()
	}
}

func (b *Bar) leastWidth() float32 { return 80 }

const (
	trackHeight = 9
	trackGap    = 3
	barGap      = 12 // least between the name and what stands at the right
)

func (b *Bar) draw(p *pen, width float32) float32 {
	s := b.spec
	right := p.widthOf(s.Text, bodyBold)
	shown := s.State == Wait || s.State == Act
	word := float32(0)
	if shown {
		word = p.statedWidth(s.State, s.Word, bodyBold) + barGap*p.k
	}
	room := width - right - word - barGap*p.k
	y := float32(0)
	if fits := p.widthOf(s.Name, bodyInk) <= room; fits || !shown && room >= width*0.6 {
		p.right(s.Text, width, 0, bodyBold)
		if shown {
			p.stated(s.State, s.Word, width-right-word, 0, bodyBold)
		}
		y = p.wrapped(s.Name, 0, 0, room, bodyInk)
		y = max(y, p.line(bodyBold))
	} else {
		y = p.wrapped(s.Name, 0, 0, width, bodyInk)
		if shown {
			y = p.statedWrap(s.State, s.Word, 0, y, width-right-barGap*p.k, bodyBold)
			p.right(s.Text, width, y-p.line(bodyBold), bodyBold)
		} else {
			p.right(s.Text, width, y, bodyBold)
			y += p.line(bodyBold)
		}
	}
	y += trackGap * p.k
	h := trackHeight * p.k
	p.rect(0, y, width, h, box{fill: look.Track, radius: h / 2})
	b.fill(p, y, width, h)
	return y + h
}

func (b *Bar) fill(p *pen, y, width, h float32) {
	v := b.spec.Share
	if math.IsNaN(v) || v <= 0 {
		return
	}
	c := look.Teal
	switch b.spec.State {
	case Wait:
		c = look.Ink
	case Act:
		c = look.Rust
	}
	w := max(h, width*float32(min(v, 1)))
	p.rect(0, y, w, h, box{fill: c, radius: h / 2})
	if v > 1 { // beyond the limit: a notch near the end
		p.rect(width-2.2*h, y, 2.5*p.k, h, box{fill: look.Paper})
	}
}
