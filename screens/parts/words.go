package parts

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/screens/scene"
)

// Words gives what stands in o and all that it holds as plain text, in the order in
// which it is drawn, scrolled out of view or not: a page to be copied or read out.
// A tick is [x] or [ ], a box its text. What was never placed has no words.
func Words(o fyne.CanvasObject) string {
	r := &reader{}
	r.read(o)
	r.end()
	return strings.TrimSpace(r.b.String())
}

// reader puts lines together: texts of one height are one line, and a text that
// was wrapped is one paragraph.
type reader struct {
	b    strings.Builder
	line string
	mark string // before the next line
	x, y float32
	size float32
	open bool // line goes on
}

func (r *reader) end() {
	if r.line != "" {
		r.b.WriteString(r.line + "\n")
	}
	r.line, r.open = "", false
}

// sentenceEnds close a paragraph, whatever stands below.
const sentenceEnds = ".:;?。：？"

func (r *reader) text(t *canvas.Text) {
	s := strings.TrimSpace(t.Text)
	if s == "" {
		return
	}
	at := t.Position()
	switch {
	case !r.open:
	case at.Y == r.y:
		r.line += "  " + s
		r.x = -1
		return
	case at.X == r.x && t.TextSize == r.size && at.Y > r.y && !strings.ContainsRune(sentenceEnds, lastRune(r.line)):
		if !scene.Spaceless(lastRune(r.line)) {
			r.line += " "
		}
		r.line += s
		r.y = at.Y
		return
	default:
		r.end()
	}
	r.line, r.mark = r.mark+s, ""
	r.x, r.y, r.size, r.open = at.X, at.Y, t.TextSize, true
}

func lastRune(s string) rune {
	rs := []rune(s)
	if len(rs) == 0 {
		return 0
	}
	return rs[len(rs)-1]
}

func (r *reader) read(o fyne.CanvasObject) {
	if o == nil || !o.Visible() {
		return
	}
	switch x := o.(type) {
	case *canvas.Text:
		r.text(x)
		return
	case *boxed:
		r.end()
		r.line = x.Entry.Text
		r.end()
		return
	case *widget.Entry:
		r.end()
		r.line = x.Text
		r.end()
		return
	case *Tick:
		r.end()
		r.mark = "[ ] "
		if x.spec.Done {
			r.mark = "[x] "
		}
	}
	for _, inner := range shownIn(o) {
		r.read(inner)
	}
	if _, whole := o.(interface{ based() *part }); whole {
		r.end()
	}
}
