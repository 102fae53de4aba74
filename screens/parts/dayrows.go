package parts

import (
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// DayHeading is the date above the entries of a day, with a rule below it.
type DayHeading struct {
	part
	text string
}

// NewDayHeading gives a heading.
func NewDayHeading(text string) *DayHeading {
	d := &DayHeading{text: text}
	d.begin(d)
	return d
}

// Set shows another text.
func (d *DayHeading) Set(text string) {
	if text != d.text {
		d.text = text
		d.update()
	}
}

func (d *DayHeading) leastWidth() float32 { return 100 }

func (d *DayHeading) draw(p *pen, width float32) float32 {
	y := p.wrapped(d.text, 0, 0, width, bodyBold) + 3*p.k
	p.rect(0, y, width, 1.2, box{fill: look.Rule})
	return y + 1.2
}

// EntryRowSpec is what an EntryRow shows.
type EntryRowSpec struct {
	ID    string // for finding it again; not shown
	Time  string // "" keeps no room for one
	Kind  string // what was done
	Text  string
	Note  string // at the right
	State State  // of the note
	Even  bool   // the columns stand alike in every row, whatever their words
	Two   bool   // of even rows: none has a time, so that there is no column for it
}

// EntryRow is one entry of the daybook. Tap, Enter or Space open it.
type EntryRow struct {
	actor
	OnOpen func()

	spec EntryRowSpec
}

// NewEntryRow gives a row. open may be nil.
func NewEntryRow(s EntryRowSpec, open func()) *EntryRow {
	r := &EntryRow{spec: s, OnOpen: open}
	r.begin(r)
	return r
}

// Set shows another spec.
func (r *EntryRow) Set(s EntryRowSpec) {
	if s != r.spec {
		r.spec = s
		r.update()
	}
}

// Tapped implements fyne.Tappable.
func (r *EntryRow) Tapped(*fyne.PointEvent) {
	r.take()
	r.open()
}

// TypedKey implements fyne.Focusable.
func (r *EntryRow) TypedKey(ev *fyne.KeyEvent) {
	if isEnter(ev.Name) || ev.Name == fyne.KeySpace {
		r.open()
		return
	}
	r.spareKey(ev)
}

func (r *EntryRow) open() {
	if r.OnOpen != nil {
		r.OnOpen()
	}
}

func (r *EntryRow) leastWidth() float32 { return 200 }

const (
	entryTime = 78
	entryKind = 130
	entryPadY = 3
	// The columns of even rows: a date with its year, and two words. Judgement.
	entryEvenTime = 104
	entryEvenKind = 182
	entryText     = 200 // judgement: least width of the text beside time and kind
)

// clockWidth gives the room of a time of day such that every time written in
// the same way takes the same: two digits of hours, and the wider half of the day.
func (p *pen) clockWidth(s string, c cut) float32 {
	digits := strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return '0'
		}
		return r
	}, s)
	if len(digits) > 1 && digits[0] == '0' && digits[1] != '0' {
		digits = "0" + digits
	}
	w := p.widthOf(digits, c)
	for _, half := range []*strings.Replacer{strings.NewReplacer("a", "p", "A", "P"), strings.NewReplacer("p", "a", "P", "A")} {
		w = max(w, p.widthOf(half.Replace(digits), c))
	}
	return w
}

func (r *EntryRow) draw(p *pen, width float32) float32 {
	s := r.spec
	y := entryPadY * p.k
	tw := float32(0)
	if s.Time != "" {
		tw = max(entryTime*p.k, p.clockWidth(s.Time, bodySoft)+10*p.k)
	}
	kw := max(entryKind*p.k, min(p.widthOf(s.Kind, bodyBold)+12*p.k, 170*p.k))
	if s.Even {
		tw, kw = max(tw, entryEvenTime*p.k), entryEvenKind*p.k
	}
	if s.Two {
		tw = 0
	}
	nw := float32(0)
	if s.Note != "" {
		nw = p.statedWidth(s.State, s.Note, bodyBold) + barGap*p.k
	}
	note := nw > 0 && nw <= width/3
	p.text(s.Time, 0, y, bodySoft)
	foot := p.wrapped(s.Kind, tw, y, kw-12*p.k, bodyBold)
	x := tw + kw
	if !note {
		nw = 0
	}
	if width-x-nw < entryText*p.k { // the text goes below the kind
		x, y = tw, foot
		foot = y
	}
	if note {
		p.stated(s.State, s.Note, width-nw+barGap*p.k, entryPadY*p.k, bodyBold)
	}
	end := p.wrapped(s.Text, x, y, width-x-nw, bodyInk)
	if s.Note != "" && !note {
		end = p.statedWrap(s.State, s.Note, x, end, width-x, bodyBold)
	}
	h := max(max(end, foot)+entryPadY*p.k, leastTarget)
	if r.hovered {
		p.rect(0, 0, width, h, box{fill: look.Ink, alpha: hoverAlpha, radius: sheetRadius})
	}
	if r.focused {
		p.ring(0, 0, width, h)
	}
	return h
}
