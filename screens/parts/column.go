package parts

import "fyne.io/fyne/v2"

// Column stacks its children at its own width, each as high as it needs. Its
// children may be parts, containers, or anything else of a fixed height.
type Column struct {
	part
	gap      float32
	children []fyne.CanvasObject
}

// NewColumn gives a column with gap points between its children.
func NewColumn(gap float32, children ...fyne.CanvasObject) *Column {
	c := &Column{gap: gap}
	c.begin(c)
	c.Set(children...)
	return c
}

// Set shows other children in place of the present ones.
func (c *Column) Set(children ...fyne.CanvasObject) {
	if len(children) == len(c.children) {
		differ := false
		for i := range children {
			differ = differ || children[i] != c.children[i]
		}
		if !differ {
			return
		}
	}
	keepFocus(c, func() {
		c.children = append([]fyne.CanvasObject(nil), children...)
		for _, o := range children {
			adopt(o, c)
		}
		c.update()
	})
}

// Children gives what the column holds.
func (c *Column) Children() []fyne.CanvasObject {
	return append([]fyne.CanvasObject(nil), c.children...)
}

// Reflow places the children anew; parts call for it by themselves, so it is
// needed only after hiding a child or when one that is not a part has grown.
func (c *Column) Reflow() { c.grew() }

func (c *Column) grew() { c.update() }

func (c *Column) reveal(o fyne.CanvasObject) {
	if c.holder != nil {
		c.holder.reveal(o)
	}
}

func (c *Column) whole(o fyne.CanvasObject) (was, fits bool) { return wholeIn(c.holder, o) }

func (c *Column) spare(ev *fyne.KeyEvent) bool { return c.holder != nil && c.holder.spare(ev) }

func (c *Column) leastWidth() float32 { return 40 }

func (c *Column) draw(p *pen, width float32) float32 {
	y := float32(0)
	first := true
	for _, o := range c.children {
		if !o.Visible() {
			if p.pool != nil {
				p.pool.add(o)
			}
			continue
		}
		if !first {
			y += c.gap
		}
		first = false
		w := widthIn(o, width)
		h := heightOf(o, w)
		p.put(o, 0, y, w, h)
		y += h
	}
	return y
}

// widthIn gives the width that o takes in a column.
func widthIn(o fyne.CanvasObject, width float32) float32 {
	if n, ok := o.(natural); ok {
		return min(width, n.naturalWidth())
	}
	return width
}

// heightOf gives the height that o needs at a width.
func heightOf(o fyne.CanvasObject, width float32) float32 {
	if t, ok := o.(Tall); ok {
		return t.HeightAt(width)
	}
	return o.MinSize().Height
}

// Space is an empty height in a column.
type Space struct {
	part
	h float32
}

// NewSpace gives a space of h points at a text scale of 100 %.
func NewSpace(h float32) *Space {
	s := &Space{h: h}
	s.begin(s)
	return s
}

func (s *Space) leastWidth() float32            { return 0 }
func (s *Space) draw(p *pen, _ float32) float32 { return s.h * p.k }
