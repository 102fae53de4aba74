package parts

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// WallGroup is pictures that stand under one heading.
type WallGroup struct {
	Title string
	Count int
}

// WallCell is what stands on and below one picture of a wall.
type WallCell struct {
	Label  string // below the picture
	Broken string // in the place of a picture that cannot be shown
	Picked int    // its number among those picked, from 1; 0 when it is not
	Marked bool   // it has marks
}

// Wall shows pictures by groups, as many as there may be: only those in view are
// asked for. It takes the focus as one: the arrows go from picture to picture,
// Enter opens, Space picks. A tap opens, one on the corner of a picture picks.
type Wall struct {
	part
	Keys Keys
	// Image gives picture i in a box of w by h device pixels, nil while it is being
	// made; Changed is called once it is there.
	Image func(i, w, h int) image.Image
	// Cell gives what stands on and below picture i.
	Cell    func(i int) WallCell
	OnOpen  func(i int)
	OnPick  func(i int)
	OnPaste func()

	id     string
	groups []WallGroup
	count  int
	at     int // the picture that the keys are at
	sheet  *wallSheet
	scroll *container.Scroll
}

// NewWall gives an empty wall.
func NewWall(id string) *Wall {
	w := &Wall{id: id}
	w.sheet = &wallSheet{wall: w, images: map[int]*canvas.Image{}}
	w.sheet.begin(w.sheet)
	w.scroll = container.NewVScroll(w.sheet)
	w.scroll.OnScrolled = func(fyne.Position) { w.sheet.Refresh() }
	w.begin(w)
	return w
}

// Set shows other groups of pictures; the place in them is kept where it is.
func (w *Wall) Set(groups []WallGroup) {
	w.groups, w.count = groups, 0
	for _, g := range groups {
		w.count += g.Count
	}
	w.at = max(0, min(w.at, w.count-1))
	for _, img := range w.sheet.images {
		w.sheet.spare = append(w.sheet.spare, img)
	}
	clear(w.sheet.images)
	w.sheet.Refresh()
	w.scroll.Refresh()
}

// Changed shows anew what is in view.
func (w *Wall) Changed() { w.sheet.Refresh() }

// At gives the picture that the keys are at.
func (w *Wall) At() int { return w.at }

// GoTo puts the keys at a picture and brings it into view.
func (w *Wall) GoTo(i int) {
	if w.count == 0 {
		return
	}
	w.at = max(0, min(i, w.count-1))
	p := w.sheet.plan(w.sheet.Size().Width)
	if p.cols == 0 {
		return
	}
	top := p.top(w.at) - p.head
	foot := p.top(w.at) + p.rowHeight() + revealMargin
	off, view := w.scroll.Offset, w.scroll.Size().Height
	switch {
	case top < off.Y:
		off.Y = max(0, top)
	case foot > off.Y+view:
		off.Y = foot - view
	}
	if off != w.scroll.Offset {
		w.scroll.ScrollToOffset(off)
	}
	w.sheet.Refresh()
}

// Scroll moves the wall by so many points down.
func (w *Wall) Scroll(by float32) {
	off := w.scroll.Offset
	off.Y = max(0, min(off.Y+by, w.sheet.MinSize().Height-w.scroll.Size().Height))
	w.scroll.ScrollToOffset(off)
	w.sheet.Refresh()
}

func (w *Wall) leastWidth() float32 { return 160 }

// HeightAt gives the least height, for a wall shows what room it has.
func (w *Wall) HeightAt(float32) float32 { return 120 }

func (w *Wall) draw(p *pen, width float32) float32 {
	w.sheet.assumed = width
	p.put(w.scroll, 0, 0, width, p.height)
	return p.height
}

func (w *Wall) ident() string { return w.id }

// FocusGained implements fyne.Focusable.
func (w *Wall) FocusGained() {
	w.focus(true)
	w.GoTo(w.at)
}

// FocusLost implements fyne.Focusable.
func (w *Wall) FocusLost() {
	w.focus(false)
	w.sheet.Refresh()
}

// TypedRune implements fyne.Focusable.
func (w *Wall) TypedRune(rune) {}

// TypedShortcut implements fyne.Shortcutable: what was copied can be pasted.
func (w *Wall) TypedShortcut(s fyne.Shortcut) {
	if _, ok := s.(*fyne.ShortcutPaste); ok {
		call(w.OnPaste)
	}
}

// TypedKey implements fyne.Focusable.
func (w *Wall) TypedKey(ev *fyne.KeyEvent) {
	p := w.sheet.plan(w.sheet.Size().Width)
	switch {
	case w.count == 0 || p.cols == 0:
		w.leave(ev)
	case ev.Name == fyne.KeyLeft:
		w.GoTo(w.at - 1)
	case ev.Name == fyne.KeyRight:
		w.GoTo(w.at + 1)
	case ev.Name == fyne.KeyUp:
		w.GoTo(p.step(w.at, -1))
	case ev.Name == fyne.KeyDown:
		w.GoTo(p.step(w.at, 1))
	case ev.Name == fyne.KeyPageUp || ev.Name == fyne.KeyPageDown:
		way := 1
		if ev.Name == fyne.KeyPageUp {
			way = -1
		}
		i := w.at
		for range max(1, int(w.scroll.Size().Height/p.rowHeight())-1) {
			i = p.step(i, way)
		}
		w.GoTo(i)
	case ev.Name == fyne.KeyHome:
		w.GoTo(0)
	case ev.Name == fyne.KeyEnd:
		w.GoTo(w.count - 1)
	case ev.Name == fyne.KeySpace:
		w.pick(w.at)
	case isEnter(ev.Name):
		w.open(w.at)
	default:
		w.leave(ev)
	}
}

func (w *Wall) leave(ev *fyne.KeyEvent) {
	if !w.Keys.take(ev.Name) {
		w.spareKey(ev)
	}
}

func (w *Wall) open(i int) {
	if w.OnOpen != nil {
		w.OnOpen(i)
	}
}

func (w *Wall) pick(i int) {
	if w.OnPick != nil {
		w.OnPick(i)
	}
	w.sheet.Refresh()
}
