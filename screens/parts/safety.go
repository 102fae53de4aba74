package parts

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// Severity is the rank of a safety note.
// Source: the ladder of signal words of ANSI Z535.4 and ISO 3864-2.
type Severity uint8

// The severities. Notice is for damage to things and for the animals' welfare;
// it has no triangle, which stands for danger to people alone.
const (
	Notice  Severity = iota
	Caution          // could injure lightly
	Warning          // could injure gravely
	Danger           // will injure gravely
)

func (s Severity) colours() (ground, text look.Name) {
	switch s {
	case Danger:
		return look.SignDanger, look.SignDangerText
	case Warning:
		return look.SignWarning, look.SignWarningText
	case Caution:
		return look.SignCaution, look.SignCautionText
	}
	return look.SignNotice, look.SignNoticeText
}

// SafetySpec is what a Safety panel says: hazard, consequence, avoidance.
type SafetySpec struct {
	Severity    Severity
	Word        string // the signal word in the reader's language
	Hazard      string
	Consequence string
	Avoidance   []string // one sentence each
	Aside       string   // said below them in small, such as that they are in another language; "" for nothing
	Confirm     string   // text of the tick by which the reader says it was read; "" for none
	Confirmed   bool
}

// Safety is the panel of a safety note. It stays until its page goes.
type Safety struct {
	part
	OnConfirm func(read bool)

	spec SafetySpec
	tick *Tick
}

// NewSafety gives a safety panel. confirm may be nil.
func NewSafety(s SafetySpec, confirm func(read bool)) *Safety {
	b := &Safety{spec: s, OnConfirm: confirm}
	b.tick = NewTick(TickSpec{ID: confirmID, Text: s.Confirm, Done: s.Confirmed}, func(done bool) {
		b.spec.Confirmed = done
		if b.OnConfirm != nil {
			b.OnConfirm(done)
		}
	})
	b.tick.may = func() bool { was, fits := b.whole(); return was || !fits }
	b.begin(b)
	b.tick.heldBy(b)
	return b
}

// Set shows another spec.
func (b *Safety) Set(s SafetySpec) {
	if same(s, b.spec) {
		return
	}
	b.spec = s
	b.tick.Set(TickSpec{ID: confirmID, Text: s.Confirm, Done: s.Confirmed})
	b.update()
}

// Focusable gives what takes the focus: the tick by which the note is confirmed.
func (b *Safety) Focusable() fyne.Focusable { return b.tick }

func (b *Safety) grew() { b.update() }

// reveal brings the whole note into view: who confirms it has it before the eyes.
func (b *Safety) reveal(o fyne.CanvasObject) {
	if _, fits := b.whole(); !fits && b.holder != nil {
		b.holder.reveal(o)
	}
}

// whole brings the note into view, and tells whether all of it was there before and
// whether it can be. A note that is not all in view is not confirmed by a tap: the
// page scrolls to it first.
func (b *Safety) whole() (was, fits bool) { return wholeIn(b.holder, b) }

func (b *Safety) spare(ev *fyne.KeyEvent) bool { return b.holder != nil && b.holder.spare(ev) }

func (b *Safety) leastWidth() float32 { return 120 }

const (
	signLeast    = 150 // width of the signal field
	signTriangle = 34
	signGap      = 7
	safetyPadX   = 16
	safetyPadY   = 12
	safetyBeside = 190 // judgement: least width of the sentences beside the field
	safetyLeast  = 66
	safetyHead   = 44 // the signal field above the sentences
)

func (b *Safety) draw(p *pen, width float32) float32 {
	word := cut{look.SizeBody, bold, look.Ink}
	sign := p.widthOf(b.spec.Word, word) + 2*10*p.k
	if b.spec.Severity != Notice {
		sign += (signTriangle + signGap) * p.k
	}
	sign = max(sign, signLeast*p.k)
	head := safetyHead * p.k
	below := head + b.words(p, false, 0, head, width)
	beside := width-sign >= safetyBeside*p.k
	tall := float32(0)
	if beside {
		tall = b.words(p, false, 0, 0, width-sign)
		beside = tall <= max(below, safetyLeast*p.k)
	}
	if beside {
		h := max(tall, safetyLeast*p.k)
		p.rect(0, 0, width, h, box{fill: look.Sheet, stroke: look.Ink, width: 1.3, radius: 2})
		b.sign(p, sign, h, word)
		b.words(p, true, sign, (h-tall)/2, width-sign)
		return h
	}
	p.rect(0, 0, width, below, box{fill: look.Sheet, stroke: look.Ink, width: 1.3, radius: 2})
	b.sign(p, width, head, word)
	b.words(p, true, 0, head, width)
	return below
}

// sign draws the signal field with its triangle and word.
func (b *Safety) sign(p *pen, w, h float32, word cut) {
	ground, text := b.spec.Severity.colours()
	p.rect(0, 0, w, h, box{fill: ground, stroke: look.Ink, width: 1.3, radius: 2})
	wide := p.widthOf(b.spec.Word, word)
	x := (w - wide) / 2
	if b.spec.Severity != Notice {
		tall := float32(signTriangle * 0.88)
		x = (w - wide - (signTriangle+signGap)*p.k) / 2
		p.alert(x, (h-tall*p.k)/2-1, signTriangle)
		x += (signTriangle + signGap) * p.k
	}
	p.text(b.spec.Word, x, (h-p.line(word))/2, word.in(text))
}

// words lays the sentences out in a box of a width and gives its height.
func (b *Safety) words(p *pen, drawn bool, x, y, width float32) float32 {
	q := p
	if !drawn {
		q = &pen{w: p.w, k: p.k}
	}
	s := b.spec
	top := y
	x += safetyPadX * p.k
	inner := width - 2*safetyPadX*p.k
	y += safetyPadY * p.k
	y = q.wrapped(s.Hazard, x, y, inner, bodyBold)
	if s.Consequence != "" {
		y = q.wrapped(s.Consequence, x, y+2*p.k, inner, bodyInk)
	}
	for _, a := range s.Avoidance {
		y = q.wrapped(a, x, y+2*p.k, inner, bodyInk)
	}
	if s.Aside != "" {
		y = q.wrapped(s.Aside, x, y+2*p.k, inner, noteSoft)
	}
	if s.Confirm != "" {
		h := b.tick.HeightAt(inner)
		q.put(b.tick, x, y+6*p.k, inner, h)
		y += 6*p.k + h
	}
	return y + safetyPadY*p.k - top
}
