package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Scroller is a page that scrolls up and down. What takes the focus inside is
// brought into view; Page Up and Page Down go by a view's height; keys that no
// part has used go to Keys.
type Scroller struct {
	part
	Keys   Keys
	OnGrew func() // the column has another height than it was given; may be nil

	column *Column
	sheet  *scrolled
	scroll *container.Scroll
}

// NewScroller gives a page with gap points between its children.
func NewScroller(gap float32, children ...fyne.CanvasObject) *Scroller {
	s := &Scroller{column: NewColumn(gap, children...)}
	s.sheet = &scrolled{column: s.column}
	s.sheet.begin(s.sheet)
	s.scroll = container.NewVScroll(s.sheet)
	s.scroll.OnScrolled = func(fyne.Position) { s.cull() }
	s.begin(s)
	s.column.heldBy(s)
	return s
}

// Column gives the column that holds the page's parts.
func (s *Scroller) Column() *Column { return s.column }

// Top scrolls to the beginning, as is right when a page is entered.
func (s *Scroller) Top() { s.to(fyne.Position{}) }

func (s *Scroller) leastWidth() float32 { return 120 }

// HeightAt gives the least height, for a page shows what room it has.
func (s *Scroller) HeightAt(float32) float32 { return 80 }

func (s *Scroller) draw(p *pen, width float32) float32 {
	s.sheet.assumed = width
	p.put(s.scroll, 0, 0, width, p.height)
	if p.pool != nil {
		s.cull()
	}
	return p.height
}

// to scrolls; the toolkit tells OnScrolled only of what the person does.
func (s *Scroller) to(off fyne.Position) {
	s.scroll.ScrollToOffset(off)
	s.cull()
}

// cull puts the parts out of view away, and those in view back.
func (s *Scroller) cull() {
	if view := s.scroll.Size().Height; view > 0 {
		putAway(s.sheet, 0, s.scroll.Offset.Y-focusRoom, s.scroll.Offset.Y+view+focusRoom)
	}
}

// focusRoom is what a part may draw outside of itself, the focus ring, and to spare.
const focusRoom = 8

// putAway marks what of o, whose top lies at y, is out of view from top to foot. What scrolls
// inside of it sees to its own.
func putAway(o fyne.CanvasObject, y, top, foot float32) {
	if _, own := o.(*container.Scroll); own {
		return
	}
	if p, ok := o.(interface{ based() *part }); ok {
		p.based().away = y+o.Size().Height < top || y > foot
	}
	for _, inner := range shownIn(o) {
		putAway(inner, y+inner.Position().Y, top, foot)
	}
}

func (s *Scroller) grew() {
	if s.Size().Width > 0 { // else all is measured once it is placed
		s.sheet.Refresh()
		s.scroll.Refresh()
		s.cull()
	}
	if s.OnGrew != nil {
		s.OnGrew()
	}
}

// Reveal scrolls so that o, which stands on the page, is in view. What the
// focus goes to is revealed without asking.
func (s *Scroller) Reveal(o fyne.CanvasObject) { s.reveal(o) }

func (s *Scroller) reveal(o fyne.CanvasObject) {
	top, ok := s.depth(o)
	if !ok {
		return
	}
	off, view := s.scroll.Offset, s.scroll.Size().Height
	foot := top + o.Size().Height + revealFoot*s.scale()
	top -= max(0, min(revealMargin, (view-o.Size().Height)/2)) // what just fits is not cut for the margin's sake
	switch {
	case top < off.Y || foot-top > view:
		off.Y = top
	case foot > off.Y+view:
		off.Y = foot - view
	default:
		return
	}
	s.to(fyne.NewPos(off.X, max(0, off.Y)))
}

// whole scrolls so that all of o is in view where the view is as high.
func (s *Scroller) whole(o fyne.CanvasObject) (was, fits bool) {
	top, ok := s.depth(o)
	off, view, h := s.scroll.Offset.Y, s.scroll.Size().Height, o.Size().Height
	if !ok || h > view {
		return !ok, !ok
	}
	if was = top >= off-1 && top+h <= off+view+1; !was {
		s.reveal(o)
	}
	return was, true
}

// depth is how far below the top of the page o stands; false where it does not. A page
// may hold a part within something of its own, which is the same part.
func (s *Scroller) depth(o fyne.CanvasObject) (top float32, ok bool) {
	of := partOf(o)
	ok = walk(s.sheet, func(in fyne.CanvasObject, y float32) bool {
		top = y
		return in == o || of != nil && partOf(in) == of
	})
	return top, ok
}

// partOf is the base of a part, nil for what is none.
func partOf(o fyne.CanvasObject) *part {
	if b, ok := o.(interface{ based() *part }); ok {
		return b.based()
	}
	return nil
}

// What is shown above and below of what was scrolled to: below, the line that says what
// was done and takes it back stands over the page.
const (
	revealMargin = 12
	revealFoot   = 64
)

func (s *Scroller) spare(ev *fyne.KeyEvent) bool { return s.Key(ev) }

// Key acts on a key as the page does when no part has used it, and tells
// whether it did. The window hands it the keys typed while nothing has the focus.
func (s *Scroller) Key(ev *fyne.KeyEvent) bool {
	view := s.scroll.Size().Height
	off := s.scroll.Offset
	switch ev.Name {
	case fyne.KeyPageDown:
		off.Y = min(off.Y+0.9*view, max(0, s.sheet.MinSize().Height-view))
	case fyne.KeyPageUp:
		off.Y = max(0, off.Y-0.9*view)
	default:
		return s.Keys.take(ev.Name) || s.holder != nil && s.holder.spare(ev)
	}
	s.to(off)
	return true
}

// scrolled is what moves in the view: the column with room about it for focus
// rings and the scroll bar.
type scrolled struct {
	part
	column *Column
}

const (
	scrollInset = 6
	scrollRight = 14
	scrollFoot  = 24
)

func (s *scrolled) leastWidth() float32 { return 0 }

func (s *scrolled) draw(p *pen, width float32) float32 {
	w := width - scrollInset - scrollRight
	h := s.column.HeightAt(w)
	p.put(s.column, scrollInset, scrollInset, w, h)
	return h + scrollInset + scrollFoot
}
