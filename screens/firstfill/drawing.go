package firstfill

import (
	"example.org/driploop/screens/elevation"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/scene"
)

// draw shows the tank as it now is.
func (p *Page) draw() {
	spec := elevation.From(p.view.Picture, elevation.Words(p.deps.Present.DrawingLabels(p.view.Picture)), p.deps.Present.Mass)
	if size := p.drawing.Size(); size.Width > 0 {
		spec.Room.W, spec.Room.H = float64(size.Width), float64(size.Height)
	}
	spec.Labels.Scale = p.deps.Present.Scale
	f := elevation.Frame(spec)
	p.drawing.Margins, p.drawing.AlignX, p.drawing.AlignY = f.Margins, f.AlignX, f.AlignY
	p.drawing.Set(elevation.Build(spec))
}

// tapped opens the step that a part of the drawing is about.
func (p *Page) tapped(id scene.ID) {
	if step, ok := elevation.Parts(id); ok {
		p.deps.Go(nav.Route{Place: nav.FirstFill, Tank: p.tank, Step: step})
	}
}
