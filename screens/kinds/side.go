package kinds

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// side is what stands beside a page of a tank: the tank as it is, and below it how
// much of what it carries is used.
type side struct {
	deps    nav.Deps
	tank    string
	drawing *nav.Drawing
	panel   *parts.Panel
	root    *fyne.Container
}

func newSide(d nav.Deps, tank string) *side {
	s := &side{deps: d, tank: tank, drawing: nav.NewDrawing(d, tank)}
	s.panel = parts.NewPanel(d.Present.W.T("page.together.carries", nil))
	s.root = container.New(&below{}, s.drawing.FocusView, s.panel)
	return s
}

// show draws the tank as it now is.
func (s *side) show(bars []present.Bar) {
	_ = s.drawing.ShowTank() // the page beside it has read the same record
	var out []fyne.CanvasObject
	for _, b := range bars {
		out = append(out, bar(b))
	}
	s.panel.Column().Set(out...)
	s.root.Refresh()
}

func bar(b present.Bar) fyne.CanvasObject {
	return parts.NewBar(parts.BarSpec{Name: b.Name, Text: b.Percent, Share: b.Use, State: nav.State(b.State), Word: b.Word})
}

// below sets a panel at the foot of a drawing, where the drawing keeps enough room.
type below struct{}

// leastDrawing is the height that a drawing needs to say something, with text at its
// usual size: its words grow and the drawing does not. Judgement.
const leastDrawing = 260

func (*below) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(200, 200) }

func (*below) Layout(o []fyne.CanvasObject, s fyne.Size) {
	drawing, panel := o[0], o[1]
	const in = 16
	h, least := float32(0), float32(leastDrawing)
	if t, ok := panel.(parts.Tall); ok {
		h = t.HeightAt(s.Width-2*in) + in
	}
	if w, ok := panel.(fyne.Widget); ok {
		least *= float32(look.ScaleFor(w))
	}
	if s.Height-h < least {
		h = 0
	}
	if h == 0 {
		panel.Hide()
	} else {
		panel.Show()
		panel.Move(fyne.NewPos(in, s.Height-h))
		panel.Resize(fyne.NewSize(s.Width-2*in, h-in))
	}
	drawing.Move(fyne.NewPos(0, 0))
	drawing.Resize(fyne.NewSize(s.Width, s.Height-h))
}
