package parts

// FigureSpec is what a Figure shows.
type FigureSpec struct {
	Name  string
	Value string // with its unit
	Note  string // a soft line below both
}

// Figure is a name with its value beside it, in two columns that all figures of
// a page share.
type Figure struct {
	part
	spec FigureSpec
}

// NewFigure gives a figure.
func NewFigure(s FigureSpec) *Figure {
	f := &Figure{spec: s}
	f.begin(f)
	return f
}

// Set shows another spec.
func (f *Figure) Set(s FigureSpec) {
	if s == f.spec {
		return
	}
	f.spec = s
	f.update()
}

// nameShare is the part of the width that names have. Judgement.
const nameShare = 0.58

func (f *Figure) leastWidth() float32 { return 160 }

func (f *Figure) draw(p *pen, width float32) float32 {
	left := width*nameShare - 8*p.k
	y := p.wrapped(f.spec.Name, 0, 0, left, bodyInk)
	y = max(y, p.wrapped(f.spec.Value, width*nameShare, 0, width*(1-nameShare), bodyBold))
	if f.spec.Note != "" {
		y = p.wrapped(f.spec.Note, 0, y+2*p.k, width, noteSoft)
	}
	return y
}
