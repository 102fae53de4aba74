package parts

import "example.org/driploop/screens/look"

// VerdictSpec is what a Verdict shows.
type VerdictSpec struct {
	Kicker string // a soft line above, such as what the verdict is on
	State  State
	Title  string
	Lines  []string // each a short sentence or two
}

// Verdict is a sheet that says how something stands and what to do about it.
type Verdict struct {
	part
	spec VerdictSpec
}

// NewVerdict gives a verdict.
func NewVerdict(s VerdictSpec) *Verdict {
	v := &Verdict{spec: s}
	v.begin(v)
	return v
}

// Set shows another spec.
func (v *Verdict) Set(s VerdictSpec) {
	if !same(s, v.spec) {
		v.spec = s
		v.update()
	}
}

func (v *Verdict) leastWidth() float32 { return 100 }

const (
	verdictPadY = 11
	lineGap     = 4
)

func (v *Verdict) draw(p *pen, width float32) float32 {
	s := v.spec
	x, inner := sheetPad*p.k, width-2*sheetPad*p.k
	title := cut{look.SizeField, semiBold, look.Ink}
	y := verdictPadY * p.k
	foot := p.end(s.Kicker, y, inner, bodySoft)
	foot = p.statedEnd(s.State, s.Title, foot, inner, title)
	for _, l := range s.Lines {
		foot = p.end(l, foot+lineGap*p.k, inner, bodyInk)
	}
	h := foot + verdictPadY*p.k
	edge, wide := look.Rule, float32(1)
	if s.State != NoState {
		edge, wide = s.State.colour(), 1.4
	}
	p.rect(0, 0, width, h, box{fill: look.Sheet, stroke: edge, width: wide, radius: sheetRadius})
	y = p.wrapped(s.Kicker, x, y, inner, bodySoft)
	y = p.statedWrap(s.State, s.Title, x, y, inner, title)
	for _, l := range s.Lines {
		y = p.wrapped(l, x, y+lineGap*p.k, inner, bodyInk)
	}
	return h
}
