package parts

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// Panel is a sheet laid on the page, with a title and parts in it.
type Panel struct {
	part
	title  string
	column *Column
}

// NewPanel gives a panel; title may be empty.
func NewPanel(title string, children ...fyne.CanvasObject) *Panel {
	p := &Panel{title: title, column: NewColumn(10, children...)}
	p.begin(p)
	p.column.heldBy(p)
	return p
}

// Set shows another title.
func (b *Panel) Set(title string) {
	if b.title != title {
		b.title = title
		b.update()
	}
}

// Column gives the column that holds the panel's parts.
func (b *Panel) Column() *Column { return b.column }

func (b *Panel) grew() { b.update() }

func (b *Panel) reveal(o fyne.CanvasObject) {
	if b.holder != nil {
		b.holder.reveal(o)
	}
}

func (b *Panel) spare(ev *fyne.KeyEvent) bool { return b.holder != nil && b.holder.spare(ev) }

func (b *Panel) leastWidth() float32 { return 80 }

const (
	sheetPad    = 16
	sheetRadius = 4
)

func (b *Panel) draw(p *pen, width float32) float32 {
	inner := width - 2*sheetPad
	h := float32(sheetPad)
	head := h
	if b.title != "" {
		h = p.end(b.title, h, inner, sectionBold) + 8
	}
	total := h + b.column.HeightAt(inner) + sheetPad
	p.rect(0, 0, width, total, box{fill: look.Sheet, stroke: look.Rule, width: 1, radius: sheetRadius})
	p.wrapped(b.title, sheetPad, head, inner, sectionBold)
	p.put(b.column, sheetPad, h, inner, b.column.HeightAt(inner))
	return total
}
