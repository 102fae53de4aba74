package parts

import (
	"fyne.io/fyne/v2"
)

// LongRows is what a Long shows. Row is asked for rows in view only.
type LongRows interface {
	Len() int
	Row(i int) LongRowSpec
	// Place finds a row by its ID.
	Place(id string) (int, bool)
}

// Long is a page whose head is followed by as many rows as there may be: only
// those in view exist, each as high as it needs. The rows take the focus as one:
// up and down go from row to row, Page Up and Page Down by a view's height, Home
// and End to the first and the last, Enter and Space open. Keys without a use
// here go to Keys.
type Long struct {
	part
	Keys   Keys
	OnOpen func(i int)
	// OnSeen is told which rows came into view: first to last.
	OnSeen func(first, last int)

	id     string
	head   *Column
	rows   LongRows
	h      *heights
	width  float32 // that h holds for
	textK  float32
	tall   float64 // of the head; below 0 it has to be measured
	tallAt float32 // width that tall holds for, and text scale
	tallK  float32
	headed float64 // how high the head was
	off    float64 // of the view below the top of the head
	at     int     // the row that the keys are at; -1 before the first
	seen   [2]int
	pin    int     // a row in view: those above it grow upwards, those below it downwards
	anchor string  // its ID
	above  float64 // how far above the view it begins
	body   *longBody
	grip   *longGrip
}

// NewLong gives a page with gap points between the parts of its head.
func NewLong(id string, gap float32) *Long {
	l := &Long{id: id, head: NewColumn(gap), at: -1, seen: [2]int{-1, -1}, tall: -1}
	l.body = &longBody{list: l, shown: map[int]*longRow{}}
	l.body.begin(l.body)
	l.body.heldBy(l)
	l.grip = &longGrip{list: l}
	l.grip.begin(l.grip)
	l.begin(l)
	l.head.heldBy(l)
	return l
}

// Head gives the column above the rows; it scrolls with them.
func (l *Long) Head() *Column { return l.head }

// Set shows other rows. What was in view, and the row that the keys are at, stay
// where they are as far as they are still there.
func (l *Long) Set(rows LongRows) {
	at := ""
	if l.rows != nil && l.at >= 0 && l.at < l.rows.Len() {
		at = l.rows.Row(l.at).ID
	}
	l.rows, l.h = rows, nil
	l.at = -1
	if i, ok := rows.Place(at); at != "" && ok {
		l.at = i
	}
	l.body.recycle()
	l.seen = [2]int{-1, -1}
	l.Refresh()
}

// Changed shows anew what is in view.
func (l *Long) Changed() {
	l.body.stale = true
	if l.h != nil {
		clear(l.h.know)
	}
	l.Refresh()
}

// At gives the row that the keys are at, -1 for none.
func (l *Long) At() int { return l.at }

// Focusable gives what takes the focus for the rows.
func (l *Long) Focusable() fyne.Focusable { return l.body }

// Seen gives the first and the last row in view, -1 when there is none.
func (l *Long) Seen() (first, last int) { return l.seen[0], l.seen[1] }

// Top scrolls to the beginning.
func (l *Long) Top() { l.scroll(-l.off) }

// Select puts the keys at a row.
func (l *Long) Select(i int) {
	if i == l.at || l.rows == nil || l.rows.Len() == 0 {
		return
	}
	l.at = max(0, min(i, l.rows.Len()-1))
	l.body.Refresh()
}

// GoTo puts the keys at a row and it at the top of the view.
func (l *Long) GoTo(i int) {
	if l.rows == nil || l.rows.Len() == 0 {
		return
	}
	l.at = max(0, min(i, l.rows.Len()-1))
	l.ready()
	l.off, l.pin = l.headHeight()+l.h.top(l.at), l.at
	l.Refresh()
}

// See puts the keys at a row and scrolls no further than it takes to see it.
func (l *Long) See(i int) {
	if l.rows == nil || l.rows.Len() == 0 {
		return
	}
	l.at = max(0, min(i, l.rows.Len()-1))
	l.ready()
	l.measure(l.at)
	top := l.headHeight() + l.h.top(l.at)
	foot := top + float64(l.h.each[l.at]) + revealMargin
	view := float64(l.Size().Height)
	switch {
	case top < l.off:
		l.off, l.pin = top, l.at
	case foot > l.off+view:
		l.off, l.pin = foot-view, l.at
	}
	l.Refresh()
}

func (l *Long) open(i int) {
	if l.OnOpen != nil && i >= 0 {
		l.OnOpen(i)
	}
}

func (l *Long) leastWidth() float32 { return 240 }

// HeightAt gives the least height, for a list shows what room it has.
func (l *Long) HeightAt(float32) float32 { return 120 }

func (l *Long) ident() string { return l.id }

func (l *Long) inner() float32 { return max(1, l.Size().Width-scrollInset-scrollRight) }

// headHeight is how high the head is; it is measured anew when it says that it
// has grown, and for another width.
func (l *Long) headHeight() float64 {
	if len(l.head.children) == 0 {
		return 0
	}
	if w, k := l.inner(), l.scale(); l.tall < 0 || l.tallAt != w || l.tallK != k {
		l.tall, l.tallAt, l.tallK = float64(l.head.HeightAt(w))+scrollInset, w, k
	}
	return l.tall
}

// ready makes the heights for the present width; what was in view stays there.
func (l *Long) ready() {
	if k := l.scale(); l.h == nil || l.width != l.inner() || l.textK != k {
		l.width, l.textK = l.inner(), k
		n := 0
		if l.rows != nil {
			n = l.rows.Len()
		}
		l.h = newHeights(n, longGuess*k)
		if i, ok := l.find(l.anchor); ok && l.off > l.headHeight() {
			l.off, l.pin = l.headHeight()+l.h.top(i)+l.above, i
		}
		l.pin = max(0, min(l.pin, n-1))
	}
}

// longGuess is about the height of a row until it is measured. Judgement: one
// line, and a heading for every third.
const longGuess = 44

func (l *Long) find(id string) (int, bool) {
	if id == "" || l.rows == nil {
		return 0, false
	}
	return l.rows.Place(id)
}

// measure gives row i its height and tells by how much it differs from before.
func (l *Long) measure(i int) float32 {
	if l.h.know[i] {
		return 0
	}
	probe := l.body.probe()
	probe.i, probe.spec, probe.on = i, l.rows.Row(i), false
	return l.h.set(i, probe.HeightAt(l.inner()))
}

// scroll moves the view down by so many points.
func (l *Long) scroll(by float64) {
	l.off += by
	l.Refresh()
}

// Scrolled implements fyne.Scrollable.
func (l *Long) Scrolled(ev *fyne.ScrollEvent) { l.scroll(-float64(ev.Scrolled.DY)) }

func (l *Long) draw(p *pen, width float32) float32 {
	if p.pool == nil {
		return 0
	}
	l.ready()
	view, head := float64(p.height), l.headHeight()
	if l.off > l.headed && l.headed > 0 { // out of view, the head grows upwards
		l.off += head - l.headed
	}
	l.headed = head
	first, last := l.settle(head, view)
	y := float32(-l.off) + scrollInset
	if len(l.head.children) > 0 {
		p.put(l.head, scrollInset, y, l.inner(), float32(head)-scrollInset)
	}
	top := max(0, float32(head-l.off))
	l.body.first, l.body.last, l.body.from = first, last, l.off-head+float64(top)
	p.put(l.body, scrollInset, top, l.inner(), max(0, p.height-top))
	l.body.Refresh()
	if head+l.h.all() > view {
		p.put(l.grip, width-scrollRight+2, 0, scrollRight-4, p.height)
		l.grip.Refresh()
	}
	if now := [2]int{first, last}; now != l.seen {
		l.seen = now
		if l.OnSeen != nil {
			l.OnSeen(first, last)
		}
	}
	return p.height
}

// settle measures the rows that come into view and gives the first and the last
// of them, -1 when there is none.
func (l *Long) settle(head, view float64) (first, last int) {
	clamp := func() { l.off = max(0, min(l.off, head+l.h.all()+scrollFoot-view)) }
	clamp()
	n := len(l.h.each)
	if n == 0 {
		return -1, -1
	}
	if y := head + l.h.top(l.pin) - l.off; y < -4*view || y > 4*view { // a leap
		l.pin = l.h.at(l.off - head)
	}
	y := head + l.h.top(l.pin) - l.off
	l.measure(l.pin)
	for i, top := l.pin-1, y; i >= 0 && top > 0; i-- {
		l.measure(i)
		top -= float64(l.h.each[i])
	}
	l.off = head + l.h.top(l.pin) - y
	for {
		clamp()
		first, last = l.h.at(l.off-head), l.h.at(l.off-head+view)
		y, known := head+l.h.top(last+1)-l.off, true
		for i := first; i <= last; i++ {
			known = known && l.h.know[i]
			l.measure(i)
		}
		if known {
			break
		}
		if l.pin > last || l.off >= head+l.h.all()+scrollFoot-view { // held at the end of the list
			l.off = head + l.h.top(last+1) - y
		}
	}
	l.pin = first
	l.anchor, l.above = l.rows.Row(first).ID, l.off-head-l.h.top(first)
	return first, last
}

func (l *Long) grew() {
	l.tall = -1
	l.Refresh()
}

// Reveal scrolls so that o, which stands in the head, is in view.
func (l *Long) Reveal(o fyne.CanvasObject) { l.reveal(o) }

func (l *Long) reveal(o fyne.CanvasObject) {
	if o == fyne.CanvasObject(l.body) {
		if l.at < 0 {
			l.at = max(0, l.seen[0])
		}
		if len(l.h.each) > 0 {
			l.See(l.at)
		}
		return
	}
	d := fyne.CurrentApp().Driver()
	top := float64(d.AbsolutePositionForObject(o).Y-d.AbsolutePositionForObject(l.self).Y) - revealMargin
	foot, view := top+float64(o.Size().Height)+2*revealMargin, float64(l.Size().Height)
	switch {
	case top < 0:
		l.scroll(top)
	case foot > view:
		l.scroll(min(top, foot-view))
	}
}

func (l *Long) spare(ev *fyne.KeyEvent) bool { return l.Key(ev) }

// Key acts on a key as the page does when no part has used it, and tells whether
// it did.
func (l *Long) Key(ev *fyne.KeyEvent) bool {
	switch page := 0.9 * float64(l.Size().Height); ev.Name {
	case fyne.KeyPageDown:
		l.scroll(page)
	case fyne.KeyPageUp:
		l.scroll(-page)
	default:
		return l.Keys.take(ev.Name) || l.holder != nil && l.holder.spare(ev)
	}
	return true
}

// longBody is the rows in view. It takes the focus for them.
type longBody struct {
	part
	list        *Long
	first, last int
	from        float64 // how far its top lies below the top of the first of all rows
	shown       map[int]*longRow
	free        []*longRow
	measuring   *longRow
	stale       bool // rows in view may say something else
}

func (b *longBody) probe() *longRow {
	if b.measuring == nil {
		b.measuring = newLongRow(b.list)
		b.measuring.dress = b.list.self
	}
	return b.measuring
}

func (b *longBody) recycle() {
	for i, r := range b.shown {
		b.free = append(b.free, r)
		delete(b.shown, i)
	}
}

func (b *longBody) leastWidth() float32 { return 0 }
func (b *longBody) ident() string       { return b.list.id }

func (b *longBody) draw(p *pen, width float32) float32 {
	l := b.list
	if p.pool == nil || l.h == nil {
		return 0
	}
	for i, r := range b.shown {
		if i < b.first || i > b.last {
			b.free = append(b.free, r)
			delete(b.shown, i)
		}
	}
	for i := b.first; i <= b.last && i >= 0 && i < len(l.h.each); i++ {
		r, ok := b.shown[i]
		if !ok {
			if n := len(b.free); n > 0 {
				r, b.free = b.free[n-1], b.free[:n-1]
			} else {
				r = newLongRow(l)
			}
			r.hovered = false
			b.shown[i] = r
		}
		was, wasOn := r.spec, r.on
		if !ok || b.stale {
			r.spec = l.rows.Row(i)
		}
		r.i, r.on = i, i == l.at && b.focused
		size := fyne.NewSize(width, l.h.each[i])
		redraw := r.Size() == size && (wasOn != r.on || !was.same(r.spec))
		p.put(r, 0, float32(l.h.top(i)-b.from), size.Width, size.Height)
		if redraw {
			r.Refresh()
		}
	}
	b.stale = false
	return p.height
}

// FocusGained implements fyne.Focusable.
func (b *longBody) FocusGained() { b.focus(true) }

// FocusLost implements fyne.Focusable.
func (b *longBody) FocusLost() { b.focus(false) }

// TypedRune implements fyne.Focusable.
func (b *longBody) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (b *longBody) TypedKey(ev *fyne.KeyEvent) {
	l := b.list
	n := 0
	if l.rows != nil {
		n = l.rows.Len()
	}
	if n == 0 {
		b.spareKey(ev)
		return
	}
	switch ev.Name {
	case fyne.KeyDown:
		l.See(l.at + 1)
	case fyne.KeyUp:
		if l.at <= 0 {
			l.Top()
			return
		}
		l.See(l.at - 1)
	case fyne.KeyHome:
		l.See(0)
		l.Top()
	case fyne.KeyEnd:
		l.See(n - 1)
	case fyne.KeyPageDown, fyne.KeyPageUp:
		l.page(ev.Name == fyne.KeyPageDown)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		l.open(l.at)
	default:
		b.spareKey(ev)
	}
}

// page goes on by a view's height.
func (l *Long) page(down bool) {
	l.ready()
	by := 0.9 * float64(l.Size().Height)
	if !down {
		by = -by
	}
	to := l.h.at(l.h.top(max(0, l.at)) + by)
	if down && to == l.at {
		to++
	}
	l.off += by
	l.See(to)
}

var (
	_ fyne.Scrollable = (*Long)(nil)
	_ fyne.Focusable  = (*longBody)(nil)
)
