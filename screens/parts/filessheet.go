package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"example.org/driploop/screens/look"
)

// filesSheet is what moves in the view of a list of files. It draws only what is
// seen; all rows are equally high.
type filesSheet struct {
	part
	list   *Files
	shift  bool                  // the button went down with Shift
	images map[int]*canvas.Image // by row, while in view
	spare  []*canvas.Image
}

// Sizes of a row at a text scale of 100 %. Judgement.
const (
	fileThumbWide = 52
	fileThumbTall = 39
	fileGap       = 8
	fileBox       = 20
)

// row is how high a row is.
func (s *filesSheet) row(p *pen) float32 { return max(fileThumbTall, p.line(bodyInk)) + 6 }

func (s *filesSheet) leastWidth() float32 { return 0 }

func (s *filesSheet) draw(p *pen, width float32) float32 {
	row := s.row(p)
	total := 2*scrollInset + float32(s.list.count)*row
	if p.pool == nil || s.list.Row == nil {
		return total
	}
	from := s.list.scroll.Offset.Y
	to := from + s.list.scroll.Size().Height
	first := max(0, int((from-scrollInset)/row))
	last := min(s.list.count-1, int((to-scrollInset)/row))
	for i, img := range s.images {
		if i < first || i > last {
			s.spare = append(s.spare, img)
			delete(s.images, i)
		}
	}
	for i := first; i <= last; i++ {
		s.one(p, i, scrollInset+float32(i)*row, row, width)
	}
	return total
}

// one draws a row.
func (s *filesSheet) one(p *pen, i int, y, row, width float32) {
	r := s.list.Row(i)
	right := width - scrollRight
	if r.Picked {
		p.rect(scrollInset, y, right-scrollInset, row-2, box{fill: look.Water, alpha: hoverAlpha * 3, radius: 3})
	}
	x := float32(scrollInset + fileGap/2)
	if !r.Folder {
		s.tick(p, x, y+(row-2-fileBox)/2, r.Picked)
	}
	x += fileBox + fileGap
	top := y + (row-2-fileThumbTall)/2
	if r.Folder {
		s.folder(p, x, top)
	} else {
		p.rect(x, top, fileThumbWide, fileThumbTall, box{fill: look.Track})
		if img := s.image(i); img != nil {
			p.put(img, x, top, fileThumbWide, fileThumbTall)
		}
	}
	x += fileThumbWide + fileGap
	c := bodyInk
	if r.Folder {
		c = bodyBold
	}
	beside := p.widthOf(r.Beside, noteSoft)
	if beside > (right-x)/2 {
		beside = 0
	} else if r.Beside != "" {
		p.right(r.Beside, right-fileGap, y+(row-2-p.line(noteSoft))/2, noteSoft)
		beside += 2 * fileGap
	}
	p.text(ellipsis(r.Name, right-x-beside, p.measurer(c)), x, y+(row-2-p.line(c))/2, c)
	if s.list.focused && i == s.list.at {
		p.ring(scrollInset+ringGap, y+ringGap-1, right-scrollInset-2*ringGap, row-2*ringGap)
	}
}

// tick draws the box by which a file is chosen.
func (s *filesSheet) tick(p *pen, x, y float32, on bool) {
	b := box{fill: look.Sheet, stroke: look.Ink, width: 1.3, radius: 3}
	if on {
		b.fill, b.stroke = look.Teal, look.OnTeal
	}
	p.rect(x, y, fileBox, fileBox, b)
	if on {
		p.rect(x+fileBox/2-4, y+fileBox/2-4, 8, 8, box{fill: look.OnTeal, radius: 1})
	}
}

// folder draws the sign of a folder.
func (s *filesSheet) folder(p *pen, x, y float32) {
	const inset, tab = 8, 5
	p.rect(x+inset, y+2, fileThumbWide/3, tab+4, box{fill: look.Gravel, radius: 2})
	p.rect(x+inset, y+2+tab, fileThumbWide-2*inset, fileThumbTall-4-tab, box{fill: look.Gravel, radius: 2})
}

// image gives the object with the small picture of a row, nil where there is none.
func (s *filesSheet) image(i int) *canvas.Image {
	if s.list.Image == nil {
		return nil
	}
	k := float32(1)
	if cv := fyne.CurrentApp().Driver().CanvasForObject(s); cv != nil {
		k = cv.Scale()
	}
	m := s.list.Image(i, int(fileThumbWide*k+0.5), int(fileThumbTall*k+0.5))
	if m == nil {
		return nil
	}
	img, ok := s.images[i]
	if !ok {
		if n := len(s.spare); n > 0 {
			img, s.spare = s.spare[n-1], s.spare[:n-1]
		} else {
			img = &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest}
		}
		s.images[i] = img
	}
	if img.Image != m {
		img.Image = m
		img.Refresh()
	}
	return img
}

// MouseDown implements desktop.Mouseable: whether Shift is held.
func (s *filesSheet) MouseDown(e *desktop.MouseEvent) {
	s.shift = e.Modifier&fyne.KeyModifierShift != 0
}

// MouseUp implements desktop.Mouseable.
func (s *filesSheet) MouseUp(*desktop.MouseEvent) {}

// Tapped implements fyne.Tappable.
func (s *filesSheet) Tapped(e *fyne.PointEvent) {
	l := s.list
	l.take()
	i := int((e.Position.Y - scrollInset) / s.row(newPen(s, nil)))
	if i < 0 || i >= l.count || e.Position.Y < scrollInset || l.Row == nil {
		return
	}
	l.at = i
	switch {
	case s.shift:
		l.run()
	case l.Row(i).Folder:
		l.open(i)
	default:
		l.from = i
		l.pick(i)
	}
}

// Cursor implements desktop.Cursorable.
func (s *filesSheet) Cursor() desktop.Cursor { return desktop.PointerCursor }
