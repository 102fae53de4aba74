package chart

import (
	"cmp"
	"math"
	"slices"
	"strconv"

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

// cluster is events that stand too close to be told apart: one sign for all.
type cluster struct {
	x      float64 // of the first, in points
	end    float64 // of the last
	events []Event
}

// mixed reports whether events of several kinds are in it.
func (c cluster) mixed() bool {
	return slices.ContainsFunc(c.events, func(e Event) bool { return e.Shape != c.events[0].Shape })
}

// at is where its sign stands: in the middle of it.
func (c cluster) at() float64 { return (c.x + c.end) / 2 }

const (
	eventSize  = 7.0
	eventApart = 22.0 // a sign with a count of two figures beside it
)

// clusters are the events within the plot, those that would touch put together.
func (p *plan) clusters() []cluster {
	var in []Event
	for _, e := range p.spec.Events {
		if finite(e.X) && e.X >= p.x0 && e.X <= p.x1 {
			in = append(in, e)
		}
	}
	slices.SortStableFunc(in, func(a, b Event) int { return cmp.Compare(a.X, b.X) })
	var out []cluster
	for _, e := range in {
		x := p.x(e.X)
		if n := len(out); n > 0 && x-out[n-1].x < eventApart {
			out[n-1].events, out[n-1].end = append(out[n-1].events, e), x
			continue
		}
		out = append(out, cluster{x, x, []Event{e}})
	}
	return out
}

// drawEvents puts the signs of events into the lane above the plot and a faint line
// below each. Those that stand too close share one: with how many they are beside
// it, or alone in a ring where they are of several kinds.
func (p *plan) drawEvents(s *scene.Scene) {
	ink := func(e Event) look.Name {
		if e.Colour == "" {
			return look.Ink
		}
		return e.Colour
	}
	y := p.plot.Max.Y + lane - 7
	for _, c := range p.clusters() {
		last := math.Inf(-1)
		for _, e := range c.events {
			x := p.x(e.X)
			if x-last < 1 {
				continue
			}
			last = x
			s.Add(scene.Line{From: scene.Pt(x, p.plot.Min.Y), To: scene.Pt(x, p.plot.Max.Y), Style: scene.Style{Stroke: ink(e), Width: 1, Alpha: 0.22}})
		}
		first := c.events[0]
		n := strconv.Itoa(len(c.events))
		x := c.at()
		if c.mixed() {
			s.Add(scene.Circle(scene.Pt(x, y), 6.5, scene.Style{Stroke: look.SoftInk, Width: 1.2, Fill: p.spec.Ground}))
			s.Add(scene.Text{At: scene.Pt(x, y), S: n, Size: note - 2, Weight: scene.SemiBold, H: scene.Middle, V: scene.Centre})
			continue
		}
		if len(c.events) > 1 {
			x -= eventSize/2 + 1
			s.Add(scene.Text{At: scene.Pt(x+eventSize/2+3, y), S: n, Size: note - 1, Weight: scene.SemiBold, V: scene.Centre, Colour: ink(first)})
		}
		s.Add(scene.Marker{At: scene.Pt(x, y), Shape: first.Shape, Size: eventSize, Style: scene.Style{Stroke: ink(first), Width: 1.4, Fill: p.spec.Ground}})
	}
}
