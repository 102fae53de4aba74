package parts

import (
	"image"
	"math"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"example.org/driploop/screens/look"
)

// wallSheet is what moves in the view of a wall. It draws only what is seen.
type wallSheet struct {
	part
	wall   *Wall
	images map[int]*canvas.Image // by picture, while in view
	spare  []*canvas.Image
}

// wallPlan is where everything lies at one width.
type wallPlan struct {
	cols       int
	cell, tall float32 // of a picture
	label      float32 // height below it
	head       float32 // height of a heading
	starts     []int   // the first picture of each group
	tops       []float32
	total      float32
}

const (
	wallCell = 150 // judgement: a fish is known at this size; five in a row at 1280 points
	wallGap  = 10
	wallFoot = 20
	pickSize = 30 // more than leastTarget, for it lies on a picture
)

func (s *wallSheet) plan(width float32) wallPlan {
	p := newPen(s, nil)
	width -= scrollInset + scrollRight
	out := wallPlan{label: float32(captionLines(p))*p.line(noteSoft) + 4*p.k, head: p.line(sectionBold) + 10*p.k}
	if width <= 0 {
		return out
	}
	out.cols = max(1, int((width+wallGap)/(wallCell+wallGap)))
	out.cell = float32(math.Floor(float64(width-float32(out.cols-1)*wallGap) / float64(out.cols)))
	out.tall = float32(math.Floor(float64(out.cell) * 3 / 4))
	y, first := float32(scrollInset), 0
	for _, g := range s.wall.groups {
		out.starts = append(out.starts, first)
		out.tops = append(out.tops, y)
		first += g.Count
		y += out.head + float32((g.Count+out.cols-1)/out.cols)*out.rowHeight()
	}
	out.starts = append(out.starts, first)
	out.tops = append(out.tops, y)
	out.total = y + wallFoot
	return out
}

// captionLines is how many lines a caption may take: large letters need more.
// Judgement.
func captionLines(p *pen) int {
	if p.k > 1.2 {
		return 2
	}
	return 1
}

func (p wallPlan) rowHeight() float32 { return p.tall + p.label + wallGap }

// group gives the group of a picture.
func (p wallPlan) group(i int) int {
	g, found := slices.BinarySearch(p.starts[:len(p.starts)-1], i)
	if !found {
		g--
	}
	for g+1 < len(p.starts)-1 && p.starts[g+1] <= i { // past groups without pictures
		g++
	}
	return max(0, g)
}

// top gives where the row of a picture begins.
func (p wallPlan) top(i int) float32 {
	g := p.group(i)
	return p.tops[g] + p.head + float32((i-p.starts[g])/p.cols)*p.rowHeight()
}

func (p wallPlan) left(i int) float32 {
	return scrollInset + float32((i-p.starts[p.group(i)])%p.cols)*(p.cell+wallGap)
}

// step gives the picture in the row below or above, in the same column or the
// last of a shorter row.
func (p wallPlan) step(i, way int) int {
	g := p.group(i)
	col, row := (i-p.starts[g])%p.cols, (i-p.starts[g])/p.cols+way
	for row < 0 || row*p.cols >= p.starts[g+1]-p.starts[g] {
		g += way
		if g < 0 || g >= len(p.starts)-1 {
			return i
		}
		row = 0
		if way < 0 {
			row = (p.starts[g+1] - p.starts[g] - 1) / p.cols
		}
	}
	return min(p.starts[g]+row*p.cols+col, p.starts[g+1]-1)
}

// at gives the picture at a position, -1 for none, and whether it is the corner
// by which it is picked.
func (p wallPlan) at(pos fyne.Position) (int, bool) {
	for g := range len(p.starts) - 1 {
		if pos.Y < p.tops[g] || pos.Y >= p.tops[g+1] {
			continue
		}
		row := int((pos.Y - p.tops[g] - p.head) / p.rowHeight())
		col := int((pos.X - scrollInset) / (p.cell + wallGap))
		i := p.starts[g] + row*p.cols + col
		if pos.Y < p.tops[g]+p.head || col < 0 || col >= p.cols || i >= p.starts[g+1] {
			return -1, false
		}
		return i, pos.X >= p.left(i)+p.cell-pickSize && pos.Y < p.top(i)+pickSize
	}
	return -1, false
}

// Tapped implements fyne.Tappable.
func (s *wallSheet) Tapped(e *fyne.PointEvent) {
	s.wall.take()
	i, corner := s.plan(s.Size().Width).at(e.Position)
	if i < 0 {
		return
	}
	s.wall.at = i
	if corner {
		s.wall.pick(i)
		return
	}
	s.wall.open(i)
}

// Cursor implements desktop.Cursorable.
func (s *wallSheet) Cursor() desktop.Cursor { return desktop.PointerCursor }

func (s *wallSheet) leastWidth() float32 { return 0 }

func (s *wallSheet) draw(p *pen, width float32) float32 {
	plan := s.plan(width)
	if p.pool == nil || plan.cols == 0 {
		return plan.total
	}
	from := s.wall.scroll.Offset.Y
	to := from + s.wall.scroll.Size().Height
	seen := map[int]bool{}
	type at struct {
		i    int
		x, y float32
	}
	var cells []at
	for g, group := range s.wall.groups {
		if plan.tops[g+1] < from || plan.tops[g] > to {
			continue
		}
		p.text(group.Title, scrollInset, plan.tops[g]+2*p.k, sectionBold)
		y := plan.tops[g] + plan.head
		row := max(0, int((from-y)/plan.rowHeight()))
		for i := plan.starts[g] + row*plan.cols; i < plan.starts[g+1]; i++ {
			top := y + float32((i-plan.starts[g])/plan.cols)*plan.rowHeight()
			if top > to {
				break
			}
			seen[i] = true
			cells = append(cells, at{i, scrollInset + float32((i-plan.starts[g])%plan.cols)*(plan.cell+wallGap), top})
		}
	}
	for i, img := range s.images {
		if !seen[i] {
			s.spare = append(s.spare, img)
			delete(s.images, i)
		}
	}
	for _, c := range cells {
		s.cell(p, plan, c.i, c.x, c.y)
	}
	return plan.total
}

// cell draws one picture with what belongs to it.
func (s *wallSheet) cell(p *pen, plan wallPlan, i int, x, y float32) {
	var c WallCell
	if s.wall.Cell != nil {
		c = s.wall.Cell(i)
	}
	p.rect(x, y, plan.cell, plan.tall, box{fill: look.Track})
	k := float32(1)
	if cv := fyne.CurrentApp().Driver().CanvasForObject(s); cv != nil {
		k = cv.Scale()
	}
	var m image.Image
	if s.wall.Image != nil && c.Broken == "" {
		m = s.wall.Image(i, int(plan.cell*k+0.5), int(plan.tall*k+0.5))
	}
	switch {
	case m != nil:
		img := s.image(i)
		if img.Image != m {
			img.Image = m
			img.Refresh()
		}
		p.put(img, x, y, plan.cell, plan.tall)
	case c.Broken != "":
		p.wrapped(c.Broken, x+8, y+8, plan.cell-16, noteSoft.in(look.Ink))
	}
	label := bodyInk
	label.size = look.SizeNote
	room := plan.cell
	if c.Marked {
		size := p.size(label) * 0.7
		p.ringMark(x+plan.cell-size, y+plan.tall+4*p.k, size)
		room -= size + markGap
	}
	for n, l := range shortened(c.Label, captionLines(p), room, p.measurer(label)) {
		p.text(l, x, y+plan.tall+2*p.k+float32(n)*p.line(label), label)
	}
	if c.Picked > 0 {
		p.rect(x, y, plan.cell, plan.tall, box{stroke: look.Teal, width: 4})
	}
	s.picker(p, x+plan.cell-pickSize, y, c.Picked)
	if s.wall.focused && i == s.wall.at {
		p.rect(x, y, plan.cell, plan.tall, box{stroke: look.Paper, width: 5})
		p.ring(x, y, plan.cell, plan.tall)
	}
}

// picker draws the box in the corner by which a picture is picked.
func (s *wallSheet) picker(p *pen, x, y float32, number int) {
	const size = 20
	in := float32(pickSize-size) / 2
	b := box{fill: look.Sheet, stroke: look.Ink, width: 1.3, radius: 3}
	if number > 0 {
		b.fill, b.stroke = look.Teal, look.OnTeal
	}
	p.rect(x+in, y+in, size, size, b)
	if number > 0 {
		c := bodyBold.in(look.OnTeal)
		c.size = look.SizeNote
		text := strconv.Itoa(number)
		p.text(text, x+(pickSize-p.widthOf(text, c))/2, y+(pickSize-p.line(c))/2, c)
	}
}

// ringMark draws the sign of a picture that has marks: a small ring.
func (p *pen) ringMark(x, y, s float32) {
	p.rect(x, y, s, s, box{stroke: look.SoftInk, width: 1.6, radius: s / 2})
}

// image gives the object that shows a picture while it is in view.
func (s *wallSheet) image(i int) *canvas.Image {
	if img, ok := s.images[i]; ok {
		return img
	}
	var img *canvas.Image
	if n := len(s.spare); n > 0 {
		img, s.spare = s.spare[n-1], s.spare[:n-1]
	} else {
		img = &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest}
	}
	s.images[i] = img
	return img
}
