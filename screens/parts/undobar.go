package parts

import (
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// UndoBar is the line at the foot of the window that says what was done and
// offers to take it back. It goes after a while, or when another takes its
// place. Safety notes are never shown in it.
type UndoBar struct {
	part
	// After runs f on the user interface's goroutine once the time is over, and
	// gives what cancels that. It is the clock, which may be replaced.
	After func(d time.Duration, f func()) (cancel func())
	// OnTurned is called when the bar has come or gone, for a window that lays
	// itself out. A column needs no telling.
	OnTurned func()

	text   string
	button *Button
	cancel func()
}

// undoStays is how long the bar stays.
const undoStays = 8 * time.Second // judgement: twice the time that two short lines take to read

// undoBarButton names the button of the bar to who looks for it.
const undoBarButton = "bar-act"

// NewUndoBar gives a bar that is not shown yet.
func NewUndoBar() *UndoBar {
	u := &UndoBar{After: func(d time.Duration, f func()) func() {
		t := time.AfterFunc(d, func() { fyne.Do(f) })
		return func() { t.Stop() }
	}}
	u.button = NewButton(ButtonSpec{ID: undoBarButton, Kind: Quiet}, nil)
	u.begin(u)
	u.button.heldBy(u)
	u.Hide()
	return u
}

// Say shows a text with a button; pressing it runs act and closes the bar.
// Without a label or act there is no button.
func (u *UndoBar) Say(text, label string, act func()) {
	u.stop()
	u.text = text
	u.button.Set(ButtonSpec{ID: undoBarButton, Label: label, Kind: Quiet})
	u.button.OnPressed = func() {
		u.Close()
		act()
	}
	if label == "" || act == nil {
		u.button.Hide()
	} else {
		u.button.Show()
	}
	u.Show()
	u.update()
	call(u.OnTurned)
	u.cancel = u.After(undoStays, u.Close)
}

// Close takes the bar away, as the person's next act does.
func (u *UndoBar) Close() {
	u.stop()
	if u.Visible() {
		u.Hide()
		if u.holder != nil {
			u.holder.grew()
		}
		call(u.OnTurned)
	}
}

func (u *UndoBar) stop() {
	if u.cancel != nil {
		u.cancel()
		u.cancel = nil
	}
}

func (u *UndoBar) grew()                        { u.update() }
func (u *UndoBar) reveal(fyne.CanvasObject)     {}
func (u *UndoBar) spare(ev *fyne.KeyEvent) bool { return u.holder != nil && u.holder.spare(ev) }

func (u *UndoBar) leastWidth() float32 { return 160 }

const (
	undoPadX = 20
	undoPadY = 8
)

func (u *UndoBar) draw(p *pen, width float32) float32 {
	x := undoPadX * p.k
	room := width - 2*x
	bw, bh := float32(0), float32(0)
	if u.button.Visible() {
		bw = min(u.button.naturalWidth(), room/2)
		bh = u.button.HeightAt(bw)
		room -= bw + 16*p.k
	}
	th := p.end(u.text, 0, room, bodyInk)
	h := max(th, bh) + 2*undoPadY*p.k
	p.rect(0, 0, width, h, box{fill: look.Tint})
	p.rect(0, 0, width, 1, box{fill: look.Edge})
	p.wrapped(u.text, x, (h-th)/2, room, bodyInk)
	if bw > 0 {
		p.put(u.button, width-x-bw, (h-bh)/2, bw, bh)
	}
	return h
}
