package parts

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// MonthDay is what a day of a Month holds.
type MonthDay struct {
	Count  int  // of entries
	Round  bool // carries the round sign
	Square bool // carries the square sign
	Today  bool
	Off    bool // cannot be gone to
	Says   string
}

// MonthSpec is what a Month shows.
type MonthSpec struct {
	ID    string
	Title string // the month in words
	Days  []MonthDay
	// The words of what is drawn in a day, and of the day that the keys are at
	// before there is one.
	Many, Round, Square string
	Hint                string
}

// Month is the days of one month side by side, in as many lines as they need,
// each with how many entries it holds and two signs. It takes the focus as one:
// the arrows go from day to day, Page Up and Page Down from month to month, Enter
// goes to the day.
type Month struct {
	actor
	OnDay   func(day int) // from 1
	OnMonth func(by int)

	spec MonthSpec
	at   int // from 1; 0 before the first key
	over int // the day under the pointer
}

// NewMonth gives a strip.
func NewMonth(s MonthSpec) *Month {
	m := &Month{spec: s}
	m.begin(m)
	return m
}

// Set shows another spec.
func (m *Month) Set(s MonthSpec) {
	if !same(s, m.spec) {
		if s.Title != m.spec.Title {
			m.over = 0
		}
		m.spec = s
		m.at = min(m.at, len(s.Days))
		m.update()
	}
}

// Spec gives what is shown.
func (m *Month) Spec() MonthSpec { return m.spec }

// At gives the day that the keys are at, from 1; 0 for none.
func (m *Month) At() int { return m.at }

func (m *Month) ident() string { return m.spec.ID }

func (m *Month) leastWidth() float32 { return 220 }

const (
	dayWide = 25 // judgement: two digits with air about them
	dayTall = 42
	dayMark = 7
)

// head gives the height of the month's name.
func (m *Month) head(p *pen) float32 { return p.line(bodyBold) + 3*p.k }

// cells gives how many days stand in a line, how wide each is and where the
// first line begins.
func (m *Month) cells(p *pen, width float32) (across int, w, h float32) {
	n := max(1, len(m.spec.Days))
	least := max(dayWide*p.k, p.widthOf("00", bodyInk)+6*p.k)
	lines := 1
	for lines < n && (n+lines-1)/lines > max(1, int(width/least)) {
		lines++
	}
	across = (n + lines - 1) / lines
	return across, min(width/float32(across), 1.6*least), dayTall * p.k
}

func (m *Month) draw(p *pen, width float32) float32 {
	across, w, h := m.cells(p, width)
	head := m.head(p)
	p.text(m.spec.Title, 0, 0, bodyBold)
	for i, d := range m.spec.Days {
		x, y := float32(i%across)*w, head+float32(i/across)*(h+2*p.k)
		c := bodyInk
		switch {
		case d.Off:
			c = bodySoft
		case d.Count > 0:
			c = bodyBold
		}
		back := box{fill: look.Sheet, stroke: look.Rule, width: 1, radius: 4}
		if d.Count == 0 {
			back.fill = ""
		}
		if d.Today {
			back.stroke, back.width = look.Ink, 1.6
		}
		p.rect(x+1, y, w-2, h, back)
		if m.hovered && m.over == i+1 && !d.Off {
			p.rect(x+1, y, w-2, h, box{fill: look.Ink, alpha: hoverAlpha, radius: 4})
		}
		s := strconv.Itoa(i + 1)
		p.text(s, x+(w-p.widthOf(s, c))/2, y+1*p.k, c)
		line := y + 1*p.k + p.line(c)
		if d.Count > 0 { // a bar for how many, full at eight
			bw := (w - 8*p.k) * min(1, float32(d.Count)/dayFull)
			p.rect(x+4*p.k, line+1*p.k, max(bw, 2*p.k), 3*p.k, box{fill: look.SoftInk})
		}
		m.signs(p, d, x, line+7*p.k, w)
		if m.focused && m.ringed() == i+1 {
			p.ring(x+1+ringGap, y+ringGap, w-2-2*ringGap, h-2*ringGap)
		}
	}
	lines := (len(m.spec.Days) + across - 1) / max(1, across)
	y := head + float32(lines)*(h+2*p.k) + 2*p.k
	return m.legend(p, y, width)
}

// dayFull is how many entries fill the bar of a day. Judgement: feeding twice, a
// test, a change and some notes.
const dayFull = 8

func (m *Month) signs(p *pen, d MonthDay, x, y, w float32) {
	s := float32(dayMark)
	total := float32(0)
	for _, on := range []bool{d.Round, d.Square} {
		if on {
			total += s*p.k + 2*p.k
		}
	}
	at := x + (w-total)/2
	for i, on := range []bool{d.Round, d.Square} {
		if on {
			m.sign(p, i, at, y)
			at += s*p.k + 2*p.k
		}
	}
}

func (m *Month) sign(p *pen, which int, x, y float32) {
	sc := scene.New()
	d := float64(dayMark)
	mark := scene.Marker{At: scene.Pt(d/2, d/2), Shape: scene.Round, Size: d - 1, Style: scene.Style{Stroke: look.Teal, Width: 1.5}}
	if which == 1 {
		mark.Shape, mark.Style = scene.Square, scene.Style{Fill: look.Rust}
	}
	sc.Add(mark)
	p.sketch(sc, x, y, dayMark*p.k, dayMark*p.k)
}

// ringed is the day about which the focus is shown: the one that was moved to, else
// today, else the first.
func (m *Month) ringed() int {
	if m.at > 0 {
		return m.at
	}
	for i, d := range m.spec.Days {
		if d.Today {
			return i + 1
		}
	}
	return 1
}

// legend says what the signs are, or what the day holds that one looks at.
func (m *Month) legend(p *pen, y, width float32) float32 {
	says, i := m.spec.Hint, m.at
	if m.hovered && m.over > 0 {
		i = m.over
	}
	if (m.focused || m.hovered) && i > 0 && i <= len(m.spec.Days) {
		says = m.spec.Days[i-1].Says
	}
	x := float32(0)
	line := p.line(noteSoft)
	put := func(word string, draw func(x, y float32)) {
		need := dayMark*p.k + 4*p.k + p.widthOf(word, noteSoft)
		if x > 0 && x+need > width {
			x, y = 0, y+line
		}
		draw(x, y+(line-dayMark*p.k)/2)
		p.text(word, x+dayMark*p.k+4*p.k, y, noteSoft)
		x += need + 14*p.k
	}
	put(m.spec.Round, func(x, y float32) { m.sign(p, 0, x, y) })
	put(m.spec.Square, func(x, y float32) { m.sign(p, 1, x, y) })
	put(m.spec.Many, func(x, y float32) {
		p.rect(x, y+2*p.k, dayMark*p.k, 3*p.k, box{fill: look.SoftInk})
	})
	if says != "" {
		if x > 0 && x+p.widthOf(says, noteSoft) > width {
			x, y = 0, y+line
		}
		return p.wrapped(says, x, y, width-x, noteSoft)
	}
	return y + line
}

func (m *Month) dayAt(pos fyne.Position) int {
	p := newPen(m.dressed(), nil)
	across, w, h := m.cells(p, m.Size().Width)
	y := pos.Y - m.head(p)
	row, col := int(y/(h+2*p.k)), int(pos.X/w)
	if i := row*across + col; col < across && i < len(m.spec.Days) && y >= 0 && pos.X >= 0 {
		return i + 1
	}
	return 0
}

func (m *Month) open(day int) {
	if m.OnDay != nil && day > 0 && day <= len(m.spec.Days) && !m.spec.Days[day-1].Off {
		m.OnDay(day)
	}
}

// Tapped implements fyne.Tappable.
func (m *Month) Tapped(ev *fyne.PointEvent) {
	m.take()
	if d := m.dayAt(ev.Position); d > 0 {
		m.at = d
		m.open(d)
		m.Refresh()
	}
}

// MouseMoved implements desktop.Hoverable.
func (m *Month) MouseMoved(ev *desktop.MouseEvent) {
	if d := m.dayAt(ev.Position); d != m.over {
		m.over = d
		m.update()
	}
}

// TypedKey implements fyne.Focusable.
func (m *Month) TypedKey(ev *fyne.KeyEvent) {
	across, _, _ := m.cells(newPen(m.dressed(), nil), m.Size().Width)
	at := m.ringed()
	switch ev.Name {
	case fyne.KeyRight:
		m.move(at + 1)
	case fyne.KeyLeft:
		m.move(at - 1)
	case fyne.KeyDown:
		m.move(at + across)
	case fyne.KeyUp:
		m.move(at - across)
	case fyne.KeyHome:
		m.move(1)
	case fyne.KeyEnd:
		m.move(len(m.spec.Days))
	case fyne.KeyPageDown:
		m.turn(1)
	case fyne.KeyPageUp:
		m.turn(-1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		m.open(at)
	default:
		m.spareKey(ev)
	}
}

func (m *Month) move(to int) {
	switch n := len(m.spec.Days); {
	case to < 1:
		m.turn(-1)
		m.at = len(m.spec.Days)
	case to > n:
		m.turn(1)
		m.at = 1
	default:
		m.at = max(1, to)
	}
	m.update()
}

func (m *Month) turn(by int) {
	if m.OnMonth != nil {
		m.OnMonth(by)
	}
}
