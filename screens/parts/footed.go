package parts

import "fyne.io/fyne/v2"

// Footed is a page that scrolls above a foot that stays: what ends the page, such
// as its buttons, is in view however long the page is.
type Footed struct {
	part
	scroller *Scroller
	foot     *Column
}

// NewFooted gives a page with the foot below it; a foot without children takes no
// room.
func NewFooted(s *Scroller, foot ...fyne.CanvasObject) *Footed {
	f := &Footed{scroller: s, foot: NewColumn(6, foot...)}
	f.begin(f)
	f.foot.heldBy(f)
	return f
}

// Scroller is the page above the foot.
func (f *Footed) Scroller() *Scroller { return f.scroller }

func (f *Footed) leastWidth() float32 { return 120 }

// HeightAt gives the height at which nothing needs to scroll.
func (f *Footed) HeightAt(width float32) float32 {
	return f.scroller.sheet.HeightAt(width) + f.footHeight(width)
}

const (
	footGap = 10 // between the page and its foot
	footLow = 2  // below the foot, for focus rings
)

// footHeight is what the foot takes of a width, with the gap above it.
func (f *Footed) footHeight(width float32) float32 {
	if len(f.foot.Children()) == 0 {
		return 0
	}
	return f.foot.HeightAt(width-scrollInset-scrollRight) + footGap + footLow
}

func (f *Footed) draw(p *pen, width float32) float32 {
	h := f.footHeight(width)
	page := max(0, p.height-h)
	p.put(f.scroller, 0, 0, width, page)
	if h > 0 {
		p.put(f.foot, scrollInset, page+footGap, width-scrollInset-scrollRight, h-footGap-footLow)
	}
	return p.height
}

func (f *Footed) grew() {
	f.Refresh()
	if f.scroller.OnGrew != nil {
		f.scroller.OnGrew()
	}
}

func (f *Footed) reveal(fyne.CanvasObject) {}

func (f *Footed) spare(ev *fyne.KeyEvent) bool { return f.scroller.Key(ev) }
