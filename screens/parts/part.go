package parts

import (
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Tall is something whose height depends on the width that it is given.
type Tall interface {
	// HeightAt gives the height, in points, that is needed at a width in points.
	HeightAt(width float32) float32
}

// drawer is a part as its base sees it. draw lays the part out at a width and
// gives the height used; with a measuring pen it draws nothing.
type drawer interface {
	fyne.Widget
	draw(p *pen, width float32) float32
	leastWidth() float32 // in points at 100 %
}

// natural is a part that does not stretch to the width of its column.
type natural interface {
	naturalWidth() float32
}

// part is the base of every part.
type part struct {
	widget.BaseWidget
	self    drawer
	holder  holder
	focused bool
	hovered bool
	dress   fyne.Widget // whose theme counts; nil means the part itself
	assumed float32     // width that MinSize answers for, when it is known before the part has it
	away    bool        // scrolled out of view: only what holds or may hold the focus counts
	drawn   *partRenderer
}

// begin ties the base to the part that embeds it.
func (b *part) begin(self drawer) {
	b.self = self
	b.ExtendBaseWidget(self)
}

func (b *part) based() *part { return b }

func (b *part) heldBy(h holder) { b.holder = h }

// HeightAt implements Tall.
func (b *part) HeightAt(width float32) float32 {
	return b.self.draw(newPen(b.dressed(), nil), width)
}

// scale gives the text scale where the part is shown.
func (b *part) scale() float32 { return float32(look.ScaleFor(b.dressed())) }

// dressed gives the widget whose theme the part is drawn in.
func (b *part) dressed() fyne.Widget {
	if b.dress != nil {
		return b.dress
	}
	return b.self
}

// CreateRenderer implements fyne.Widget.
func (b *part) CreateRenderer() fyne.WidgetRenderer {
	b.drawn = &partRenderer{b: b}
	b.drawn.redraw()
	return b.drawn
}

// update draws the part anew and tells its holder when its height changed.
func (b *part) update() {
	w := b.Size().Width
	if b.holder != nil && (w <= 0 || b.HeightAt(w) != b.Size().Height) {
		b.holder.grew()
	}
	b.Refresh()
}

// focus notes that the part has or has not the focus.
func (b *part) focus(on bool) {
	b.focused = on
	b.Refresh()
	if on && b.holder != nil {
		b.holder.reveal(b.self)
	}
}

// spareKey hands a key that the part has no use for to its holder.
func (b *part) spareKey(ev *fyne.KeyEvent) {
	if scene.WindowKey(b.self, ev) {
		return
	}
	if b.holder != nil {
		b.holder.spare(ev)
	}
}

// take asks the canvas for the focus.
func (b *part) take() {
	f, ok := b.self.(fyne.Focusable)
	if !ok {
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(b.self); c != nil {
		c.Focus(f)
	}
}

func (b *part) hover(on bool) {
	if b.hovered != on {
		b.hovered = on
		b.Refresh()
	}
}

// same tells whether a new spec shows what the old one did.
func same(a, b any) bool { return reflect.DeepEqual(a, b) }

// partRenderer keeps the canvas objects of a part and uses them again.
type partRenderer struct {
	b    *part
	pool pool
}

func (r *partRenderer) redraw() {
	if r.b.Size().Width <= 0 {
		return // not placed yet: it would be broken letter by letter
	}
	p := newPen(r.b.dressed(), &r.pool)
	p.height = r.b.Size().Height
	r.b.self.draw(p, r.b.Size().Width)
}

func (r *partRenderer) Layout(fyne.Size) { r.redraw() }

// MinSize gives the least width, and the height at the present width so that
// plain containers leave enough room once the width is known.
func (r *partRenderer) MinSize() fyne.Size {
	least := r.b.self.leastWidth() * r.b.scale()
	w := r.b.Size().Width
	if r.b.assumed > 0 {
		w = r.b.assumed
	}
	if n, ok := r.b.self.(natural); ok {
		least = max(least, n.naturalWidth())
		w = max(w, least)
	}
	if w <= 0 {
		w = max(least, unplacedWidth)
	}
	return fyne.NewSize(least, r.b.HeightAt(max(w, least)))
}

// unplacedWidth is the width that a part is measured at before it has one.
const unplacedWidth = 320 // judgement: a narrow column

func (r *partRenderer) Refresh() {
	r.redraw()
	canvas.Refresh(r.b.self)
}

// Objects gives what is drawn; of a part that is scrolled out of view what can
// have the focus, for the toolkit would make every word of it into a picture.
func (r *partRenderer) Objects() []fyne.CanvasObject {
	if r.b.away {
		return r.pool.live()
	}
	return r.pool.shown
}

// All gives what is drawn, in view or not, for whom a page is read out to.
func (r *partRenderer) All() []fyne.CanvasObject { return r.pool.shown }

func (r *partRenderer) Destroy() {}

// sizeOf gives a theme size where the part is shown.
func sizeOf(w fyne.Widget, n fyne.ThemeSizeName) float32 {
	if s := theme.CurrentForWidget(w).Size(n); s > 0 {
		return s
	}
	return theme.CurrentForWidget(w).Size(theme.SizeNameText)
}
