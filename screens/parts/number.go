package parts

// NumberSpec is what a Number shows.
type NumberSpec struct {
	Name   string // what it is, in soft ink above
	Number string // with its unit, set large
	Beside string // what it means in everyday terms
	State  State
	Word   string // of the state
}

// Number is the one number that matters on a page.
type Number struct {
	part
	spec NumberSpec
}

// NewNumber gives a number.
func NewNumber(s NumberSpec) *Number {
	n := &Number{spec: s}
	n.begin(n)
	return n
}

// Set shows another spec.
func (n *Number) Set(s NumberSpec) {
	if s != n.spec {
		n.spec = s
		n.update()
	}
}

func (n *Number) leastWidth() float32 { return 80 }

const (
	besideGap   = 20
	besideLeast = 140 // judgement: narrower than this the words go below the number
)

func (n *Number) draw(p *pen, width float32) float32 {
	y := p.wrapped(n.spec.Name, 0, 0, width, bodySoft)
	if n.spec.Number == "" {
		y = n.word(p, 0, y, width)
		return p.wrapped(n.spec.Beside, 0, y, width, bodySoft)
	}
	wide := p.widthOf(n.spec.Number, numberBold)
	x := wide + besideGap*p.k
	if room := width - x; wide > width || room < besideLeast*p.k {
		y = p.wrapped(n.spec.Number, 0, y, width, numberBold)
		y = n.word(p, 0, y, width)
		return p.wrapped(n.spec.Beside, 0, y, width, bodySoft)
	}
	p.text(n.spec.Number, 0, y, numberBold)
	room := width - x
	// The words stand on the number's baseline; two lines and more grow upwards
	// first, so that the block stays level with the number.
	lines := float32(0)
	if n.spec.Beside != "" {
		lines = float32(len(wrap(n.spec.Beside, room, p.measurer(bodySoft))))
	}
	if n.spec.Word != "" {
		lines++
	}
	line := p.line(bodySoft)
	top := y + p.base(numberBold) - p.base(bodySoft) - (max(lines, 1)-1)*line
	top = max(top, y+4*p.k)
	foot := n.word(p, x, top, room)
	foot = p.wrapped(n.spec.Beside, x, foot, room, bodySoft)
	return max(foot, y+p.line(numberBold))
}

// word draws the state, when there is one, and gives where it ends.
func (n *Number) word(p *pen, x, y, width float32) float32 {
	if n.spec.Word == "" {
		return y
	}
	return p.statedWrap(n.spec.State, n.spec.Word, x, y, width, bodyBold)
}
