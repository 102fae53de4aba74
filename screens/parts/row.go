package parts

import "fyne.io/fyne/v2"

// Row sets its children side by side in equal widths, up to three in a line,
// and falls to fewer when the width does not suffice, or a choice would break the
// word that it shows. Boxes of fields and choices stand on one height, however many
// lines their labels take.
type Row struct {
	part
	most     int
	least    float32
	children []fyne.CanvasObject
}

const (
	rowGap     = 16
	rowLeast   = 132 // judgement: a field with a short number and a unit
	rowMost    = 3
	rowLineGap = 8
)

// NewRow gives a row of the children.
func NewRow(children ...fyne.CanvasObject) *Row {
	r := &Row{most: rowMost, least: rowLeast}
	r.begin(r)
	r.Set(children...)
	return r
}

// NewRowOf gives a row of up to most children in a line.
func NewRowOf(most int, children ...fyne.CanvasObject) *Row {
	r := NewRow(children...)
	r.most = most
	return r
}

// Set shows other children.
func (r *Row) Set(children ...fyne.CanvasObject) {
	if same(r.children, children) {
		return
	}
	r.children = append([]fyne.CanvasObject(nil), children...)
	for _, o := range children {
		adopt(o, r)
	}
	r.update()
}

func (r *Row) grew() { r.update() }

func (r *Row) reveal(o fyne.CanvasObject) {
	if r.holder != nil {
		r.holder.reveal(o)
	}
}

func (r *Row) spare(ev *fyne.KeyEvent) bool { return r.holder != nil && r.holder.spare(ev) }

func (r *Row) leastWidth() float32 { return 40 }

// labelled is a child whose label is of varying height above its box.
type labelled interface {
	labelHeight(width float32) float32
	setLead(extra float32) (before float32)
}

// spoken is a child that says how wide it must be to break none of its words.
type spoken interface{ wholeWords(p *pen) float32 }

func (r *Row) draw(p *pen, width float32) float32 {
	var seen []fyne.CanvasObject
	for _, o := range r.children {
		if o.Visible() {
			seen = append(seen, o)
		}
	}
	if len(seen) == 0 {
		return 0
	}
	n, least := min(len(seen), r.most), r.least*p.k
	for _, o := range seen {
		if s, ok := o.(spoken); ok {
			least = max(least, s.wholeWords(p))
		}
	}
	for n > 1 && (width-rowGap*float32(n-1))/float32(n) < least {
		n--
	}
	w := (width - rowGap*float32(n-1)) / float32(n)
	y := float32(0)
	for i := 0; i < len(seen); i += n {
		if i > 0 {
			y += rowLineGap
		}
		y += r.line(p, seen[i:min(i+n, len(seen))], y, w)
	}
	return y
}

func (r *Row) line(p *pen, objects []fyne.CanvasObject, y, w float32) float32 {
	label := float32(0)
	for _, o := range objects {
		if l, ok := o.(labelled); ok {
			label = max(label, l.labelHeight(w))
		}
	}
	tall := float32(0)
	before := make([]float32, len(objects))
	for i, o := range objects {
		if l, ok := o.(labelled); ok {
			before[i] = l.setLead(label - l.labelHeight(w))
		}
		tall = max(tall, heightOf(o, w))
	}
	if p.pool == nil { // only measured: the children stay as they are drawn
		for i, o := range objects {
			if l, ok := o.(labelled); ok {
				l.setLead(before[i])
			}
		}
		return tall
	}
	for i, o := range objects {
		p.put(o, float32(i)*(w+rowGap), y, w, heightOf(o, w))
	}
	return tall
}
