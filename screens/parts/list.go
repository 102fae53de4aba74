package parts

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/screens/look"
)

// searchFrom is the number of options above which a list has a search box.
const searchFrom = 12

// listSpec is what an open list shows.
type listSpec struct {
	options       []Option
	chosen        string
	search, empty string
}

// listPopUp is an open list over the window: a search box when it is long, and
// its rows. A tap beside it closes it.
type listPopUp struct {
	part
	spec  listSpec
	found []Option
	at    int // of found; -1 for none

	canvas fyne.Canvas
	from   fyne.Position // of the box that it belongs to
	over   fyne.Size     // of that box
	first  fyne.Size     // of the window as the list was opened
	sheet  listPlace
	rows   *listRows
	scroll *container.Scroll
	input  *boxed // nil in short lists
	done   func(code string, chosen bool)
}

// listPlace is where the sheet of an open list lies in the window.
type listPlace struct{ x, y, w, h float32 }

// openList shows a list below the box at pos, or above it where there is more
// room. done is called once.
func openList(s listSpec, cv fyne.Canvas, pos fyne.Position, over fyne.Size, done func(code string, chosen bool)) *listPopUp {
	l := &listPopUp{spec: s, found: s.options, canvas: cv, from: pos, over: over, first: cv.Size(), done: done}
	for i, o := range s.options {
		if o.Code == s.chosen {
			l.at = i
		}
	}
	l.rows = &listRows{list: l}
	l.rows.begin(l.rows)
	l.rows.heldBy(l)
	l.scroll = container.NewVScroll(l.rows)
	l.begin(l)
	if len(s.options) > searchFrom {
		l.input = newBoxed(&l.part, 1)
		l.input.SetPlaceHolder(s.search)
		l.input.changed = l.find
		l.input.keys = l.key
	}
	l.Resize(cv.Size())
	cv.Overlays().Add(l)
	if l.input != nil {
		cv.Focus(l.input)
	} else {
		cv.Focus(l.rows)
	}
	l.seen()
	return l
}

const (
	listMargin = 8 // from the window's edge
	listPad    = 4 // within the sheet
)

func (l *listPopUp) leastWidth() float32 { return 0 }

// HeightAt gives nothing: the list lies over the window.
func (l *listPopUp) HeightAt(float32) float32 { return 0 }

// head gives the height that the search box takes.
func (l *listPopUp) head(p *pen) float32 {
	if l.input == nil {
		return 0
	}
	return l.input.height(p) + listPad
}

// place gives where the sheet lies: as wide as its longest option where the
// window has the room, below the box where it fits.
func (l *listPopUp) place(p *pen, size fyne.Size) listPlace {
	w := min(max(l.over.Width, l.rows.widest()+2*listPad), size.Width-2*listMargin)
	h := l.rows.fullHeight(w-2*listPad) + l.head(p) + 2*listPad
	under := size.Height - listMargin - (l.from.Y + l.over.Height + 2)
	above := l.from.Y - 2 - listMargin
	s := listPlace{x: max(listMargin, min(l.from.X, size.Width-listMargin-w)), y: l.from.Y + l.over.Height + 2, w: w, h: h}
	switch {
	case h <= under:
	case above > under:
		s.h = min(h, above)
		s.y = l.from.Y - 2 - s.h
	default:
		s.h = under
	}
	return s
}

func (l *listPopUp) draw(p *pen, width float32) float32 {
	if p.pool == nil {
		return 0
	}
	if l.Size() != l.first && l.done != nil { // the window has changed under the list
		l.close(false)
		return 0
	}
	l.sheet = l.place(p, l.Size())
	s := l.sheet
	p.rect(s.x, s.y, s.w, s.h, box{fill: look.Sheet, stroke: look.Edge, width: 1.3, radius: sheetRadius})
	y := s.y + listPad
	if l.input != nil {
		p.put(l.input, s.x+listPad, y, s.w-2*listPad, l.input.height(p))
		y += l.head(p)
	}
	l.rows.assumed = s.w - 2*listPad
	p.put(l.scroll, s.x+listPad, y, s.w-2*listPad, s.y+s.h-listPad-y)
	return 0
}

// Tapped implements fyne.Tappable: beside the sheet it closes the list.
func (l *listPopUp) Tapped(ev *fyne.PointEvent) {
	s := l.sheet
	if x, y := ev.Position.X, ev.Position.Y; x < s.x || y < s.y || x > s.x+s.w || y > s.y+s.h {
		l.close(false)
	}
}

// close ends the list, with the option at the bar chosen or not.
func (l *listPopUp) close(chosen bool) {
	if l.done == nil {
		return
	}
	done := l.done
	l.done = nil
	l.canvas.Overlays().Remove(l)
	if chosen && l.at >= 0 && l.at < len(l.found) {
		done(l.found[l.at].Code, true)
		return
	}
	done("", false)
}

// key acts on the keys of a list and tells whether it was one.
func (l *listPopUp) key(n fyne.KeyName) bool {
	page := max(1, int(l.scroll.Size().Height/(leastTarget+8))-1)
	switch n {
	case fyne.KeyDown:
		l.move(l.at + 1)
	case fyne.KeyUp:
		l.move(l.at - 1)
	case fyne.KeyPageDown:
		l.move(l.at + page)
	case fyne.KeyPageUp:
		l.move(l.at - page)
	case fyne.KeyReturn, fyne.KeyEnter:
		l.close(len(l.found) > 0)
	case fyne.KeyEscape, fyne.KeyTab:
		l.close(false)
	default:
		return false
	}
	return true
}

func (l *listPopUp) move(to int) {
	l.at = max(0, min(to, len(l.found)-1))
	l.rows.Refresh()
	l.seen()
}

// seen scrolls the list so that its bar is in view.
func (l *listPopUp) seen() {
	top, foot := l.rows.span(l.at)
	off, view := l.scroll.Offset.Y, l.scroll.Size().Height
	if top < off {
		off = top
	} else if foot > off+view {
		off = foot - view
	}
	l.scroll.ScrollToOffset(fyne.NewPos(0, max(0, off)))
}

// find keeps the options that have the text anywhere in their label.
func (l *listPopUp) find(text string) {
	l.found, l.at = nil, 0
	for _, o := range l.spec.options {
		if strings.Contains(strings.ToLower(o.Label), strings.ToLower(strings.TrimSpace(text))) {
			l.found = append(l.found, o)
		}
	}
	l.rows.Refresh()
	l.scroll.Refresh()
	l.seen()
}

func (l *listPopUp) grew()                        {}
func (l *listPopUp) reveal(fyne.CanvasObject)     {}
func (l *listPopUp) spare(ev *fyne.KeyEvent) bool { return l.key(ev.Name) }
