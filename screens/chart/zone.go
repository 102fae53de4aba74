package chart

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// drawZones tints the spans that have a word and writes it at their right end.
func (p *plan) drawZones(s *scene.Scene) {
	for _, z := range p.spec.Zones {
		lo, hi := math.Max(z.Low, p.y0), math.Min(z.High, p.y1)
		if !(lo < hi) {
			continue
		}
		a, b := p.y(lo), p.y(hi)
		c := z.Colour
		if c != "" {
			s.Add(scene.Polyline{Points: []scene.Point{scene.Pt(p.plot.Min.X, a), scene.Pt(p.plot.Max.X, a), scene.Pt(p.plot.Max.X, b), scene.Pt(p.plot.Min.X, b)},
				Closed: true, Style: scene.Style{Fill: c, Alpha: zoneAlpha}})
		} else {
			c = look.SoftInk
		}
		if m := scene.TextSize(z.Label, scene.Regular, note-1); z.Label != "" && b-a > m.CapHeight+4 {
			s.Add(scene.Text{At: scene.Pt(p.plot.Max.X-4, b-3-m.CapHeight), S: z.Label, Size: note - 1, H: scene.End, Colour: c})
		}
	}
}

// zoneAlpha is the opacity of a zone. // judgement: seen, and text upon it stays readable
const zoneAlpha = 0.10

// drawEvents puts the signs into the lane above the plot. Where signs of one
// shape would cover one another one stands for all.
func (p *plan) drawEvents(s *scene.Scene) {
	const size, apart = 7.0, 8.0
	last := map[scene.Shape]float64{}
	for _, e := range p.spec.Events {
		if !finite(e.X) || e.X < p.x0 || e.X > p.x1 {
			continue
		}
		x := p.x(e.X)
		if at, ok := last[e.Shape]; ok && x-at < apart {
			continue
		}
		last[e.Shape] = x
		c := e.Colour
		if c == "" {
			c = look.Ink
		}
		s.Add(scene.Line{From: scene.Pt(x, p.plot.Min.Y), To: scene.Pt(x, p.plot.Max.Y), Style: scene.Style{Stroke: c, Width: 1, Alpha: 0.22}})
		s.Add(scene.Marker{At: scene.Pt(x, p.plot.Max.Y+lane/2), Shape: e.Shape, Size: size, Style: scene.Style{Stroke: c, Width: 1.4, Fill: p.spec.Ground}})
	}
}
