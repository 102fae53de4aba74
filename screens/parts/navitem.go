package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

type navKind uint8

const (
	navTank navKind = iota
	navTab
	navMore
	navAction
)

// navItem is what can be pressed on the navigation bar.
type navItem struct {
	actor
	bar     *NavBar
	kind    navKind
	label   string
	current bool
	off     bool
	icon    Icon
	pressed func()
}

func newNavItem(bar *NavBar, k navKind) *navItem {
	i := &navItem{bar: bar, kind: k}
	i.begin(i)
	i.heldBy(bar)
	return i
}

func (i *navItem) set(label string, current, off bool, icon Icon) {
	if label == i.label && current == i.current && off == i.off && icon == i.icon {
		return
	}
	i.label, i.current, i.off, i.icon = label, current, off, icon
	i.Refresh()
}

// Tapped implements fyne.Tappable.
func (i *navItem) Tapped(*fyne.PointEvent) {
	i.take()
	i.press()
}

func (i *navItem) press() {
	if i.pressed != nil && !i.off {
		i.pressed()
	}
}

// TypedKey implements fyne.Focusable.
func (i *navItem) TypedKey(ev *fyne.KeyEvent) {
	switch {
	case isEnter(ev.Name), ev.Name == fyne.KeySpace, i.kind == navMore && ev.Name == fyne.KeyDown:
		i.press()
	case ev.Name == fyne.KeyLeft:
		i.bar.step(i, -1)
	case ev.Name == fyne.KeyRight:
		i.bar.step(i, 1)
	default:
		i.spareKey(ev)
	}
}

// FocusGained implements fyne.Focusable.
func (i *navItem) FocusGained() {
	i.actor.FocusGained()
	i.renamed()
}

// FocusLost implements fyne.Focusable.
func (i *navItem) FocusLost() {
	i.actor.FocusLost()
	i.renamed()
}

// MouseIn implements desktop.Hoverable.
func (i *navItem) MouseIn(*desktop.MouseEvent) {
	i.hover(true)
	i.renamed()
}

// MouseOut implements desktop.Hoverable.
func (i *navItem) MouseOut() {
	i.hover(false)
	i.renamed()
}

// renamed lets the bar show or take away the name of an action.
func (i *navItem) renamed() {
	if i.kind == navAction {
		i.bar.Refresh()
	}
}

func (i *navItem) leastWidth() float32 { return leastTarget }

func (i *navItem) cut() cut {
	c := bodySoft
	switch {
	case i.kind == navTank:
		c = cut{look.SizeSection, semiBold, look.Ink}
	case i.current:
		c = bodyBold
	case i.hovered:
		c = bodyInk
	}
	return c
}

// naturalWidth keeps the room of the bold label, so that nothing moves when the
// place changes.
func (i *navItem) naturalWidth() float32 {
	p := newPen(i, nil)
	switch i.kind {
	case navAction:
		return navIcon * p.k
	case navTank:
		return p.widthOf(i.label, i.cut()) + 20*p.k
	}
	return max(p.widthOf(i.label, bodyBold)+1, 28*p.k)
}

func (i *navItem) draw(p *pen, width float32) float32 {
	h := navHeight * p.k
	c := i.cut()
	y := (h - p.line(c)) / 2
	switch i.kind {
	case navAction:
		i.drawIcon(p, width, h)
	case navTank:
		arrow := float32(10)
		p.text(ellipsis(i.label, width-(arrow+8)*p.k, p.measurer(c)), 0, y, c)
		x := min(p.widthOf(i.label, c)+8*p.k, width-arrow*p.k)
		p.chevron(x, (h-arrow*p.k)/2+p.k, arrow, look.SoftInk)
	default:
		if i.kind == navMore {
			c = bodyBold
		}
		p.text(i.label, 0, y, c)
		if i.current {
			p.rect(0, y+p.line(c)+3*p.k, width, 3*p.k, box{fill: look.Teal})
		}
	}
	if i.focused {
		p.ring(0, (h-34*p.k)/2, width, 34*p.k)
	}
	return h
}

func (i *navItem) drawIcon(p *pen, width, h float32) {
	const d = 18.0
	c := look.Ink
	if i.off {
		c = look.Edge
	}
	if i.hovered && !i.off {
		p.rect(1, (h-32*p.k)/2, width-2, 32*p.k, box{fill: look.Ink, alpha: hoverAlpha, radius: 6})
	}
	p.sketch(iconScene(i.icon, c), (width-d*p.k)/2, (h-d*p.k)/2, d*p.k, d*p.k)
}

// iconScene draws an icon in a square of 18 points.
func iconScene(icon Icon, c look.Name) *scene.Scene {
	sc := scene.New()
	st := scene.Style{Stroke: c, Width: 1.7}
	switch icon {
	case IconUndo, IconRedo:
		x := func(v float64) float64 {
			if icon == IconRedo {
				return 18 - v
			}
			return v
		}
		sc.Add(scene.NewPath(st).MoveTo(scene.Pt(x(3), 11.5)).LineTo(scene.Pt(x(11), 11.5)).
			CubicTo(scene.Pt(x(17.5), 11.5), scene.Pt(x(17.5), 3), scene.Pt(x(11), 3)).LineTo(scene.Pt(x(7), 3)))
		sc.Add(scene.Polyline{Points: []scene.Point{scene.Pt(x(6.8), 15.5), scene.Pt(x(2.6), 11.5), scene.Pt(x(6.8), 7.5)}, Style: st})
	case IconSettings: // three sliders
		for i, at := range []float64{11.5, 6, 12.5} {
			y := 14.5 - 5.5*float64(i)
			sc.Add(scene.Line{From: scene.Pt(1.5, y), To: scene.Pt(16.5, y), Style: st})
			sc.Add(scene.Circle(scene.Pt(at, y), 2.1, scene.Style{Fill: look.Paper, Stroke: c, Width: 1.6}))
		}
	case IconHelp:
		sc.Add(scene.Circle(scene.Pt(9, 9), 7.4, st))
		sc.Add(scene.NewPath(st).MoveTo(scene.Pt(6.6, 11)).CubicTo(scene.Pt(6.8, 14.4), scene.Pt(11.6, 14.2), scene.Pt(11.4, 11.2)).
			CubicTo(scene.Pt(11.2, 9.2), scene.Pt(9, 9.4), scene.Pt(9, 7.2)))
		sc.Add(scene.Circle(scene.Pt(9, 4.9), 1, scene.Style{Fill: c}))
	}
	return sc
}
