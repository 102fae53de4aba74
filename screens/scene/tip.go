package scene

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/screens/look"
)

// A tip is a few words beside the pointer, on a small sheet within the view.
type tip struct {
	box   *fyne.Container
	back  *canvas.Rectangle
	words []string
}

func newTip() *tip {
	t := &tip{back: canvas.NewRectangle(nil)}
	t.back.CornerRadius, t.back.StrokeWidth = 4, 1
	t.box = container.NewWithoutLayout(t.back)
	t.box.Hide()
	return t
}

// Sizes of a tip in points, before the person's size of text.
const (
	tipPad  = 7.0
	tipAway = 14.0 // from the pointer, so that it does not cover the part
)

// Tipped gives the words that are shown beside a part now.
func (v *View) Tipped() []string {
	if v.tip == nil || v.tip.box.Hidden {
		return nil
	}
	return v.tip.words
}

// showTip shows what the view has to say of a part, the first line in bold.
func (v *View) showTip(id ID, at fyne.Position) {
	if v.tip == nil {
		return
	}
	var words []string
	if v.Tip != nil && id != "" {
		words = v.Tip(id)
	}
	if len(words) == 0 {
		if !v.tip.box.Hidden {
			v.tip.box.Hide()
		}
		v.tip.words = nil
		return
	}
	t, colours := v.tip, look.PaletteFor(v.self)
	if t.box.Hidden || !slices.Equal(t.words, words) {
		t.fill(words, colours, float32(look.Note*look.ScaleFor(v.self)))
	}
	t.box.Show()
	size, room := t.box.Size(), v.Size()
	to := fyne.NewPos(at.X+tipAway, at.Y+tipAway)
	if to.X+size.Width > room.Width {
		to.X = at.X - tipAway - size.Width
	}
	if to.Y+size.Height > room.Height {
		to.Y = at.Y - tipAway - size.Height
	}
	t.box.Move(fyne.NewPos(max(0, min(to.X, room.Width-size.Width)), max(0, to.Y)))
}

// fill sets the words and the size of the sheet.
func (t *tip) fill(words []string, colours look.Palette, size float32) {
	t.words = slices.Clone(words)
	t.back.FillColor, t.back.StrokeColor = colours(look.Sheet), colours(look.Edge)
	objects := []fyne.CanvasObject{t.back}
	y, wide := float32(tipPad), float32(0)
	for i, w := range words {
		l := canvas.NewText(w, colours(look.Ink))
		l.TextSize, l.TextStyle.Bold = size, i == 0
		l.FontSource = look.SourceFor(l.TextStyle, w)
		m := l.MinSize()
		l.Move(fyne.NewPos(tipPad, y))
		l.Resize(m)
		y, wide = y+m.Height, max(wide, m.Width)
		objects = append(objects, l)
	}
	all := fyne.NewSize(wide+2*tipPad, y+tipPad)
	t.back.Resize(all)
	t.box.Objects = objects
	t.box.Resize(all)
	t.box.Refresh()
}
