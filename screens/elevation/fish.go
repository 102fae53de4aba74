package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// mostFish is the most of one species that are drawn.
const mostFish = 40 // judgement: more cannot be told apart

// swimBand gives the lowest and highest y of a zone's fish.
func (l *layout) swimBand(z Zone) (lo, hi float64) {
	bottom := l.inBottom() + math.Max(l.bed().at(0, 0.5), l.bed().at(1, 0.5))
	deep := l.water - bottom
	switch z {
	case TopZone:
		return l.water - deep*0.32, l.water - deep*0.07
	case BottomZone:
		return bottom, bottom + deep*0.10
	}
	return bottom + deep*0.3, bottom + deep*0.7
}

func (d *sheet) drawFish() {
	if d.water <= d.inBottom() {
		return
	}
	for i, f := range d.spec.Fish {
		if i >= 20 {
			return
		}
		first, drawn := figurine{}, false
		d.s.Group(f.ID, func() {
			for n := range max(0, min(f.Count, mostFish)) {
				g, ok := d.placeFish(f, i, n)
				if !ok {
					break
				}
				if !drawn {
					first, drawn = g, true
					d.drawAdult(f, g)
				}
				d.drawFigurine(g, colour(f.Colour, look.FishWarm), f.Stripe)
			}
		})
		if drawn {
			b := first.box()
			d.take(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)
		}
	}
}

// figurineOf gives a fish of the Spec's size, or not ok when the size is not known.
func (l *layout) figurineOf(f Fish) (figurine, bool) {
	g := figurine{length: mm(f.Length), depth: f.Depth, body: f.Body, way: 1}
	if !(g.depth > 0.02 && g.depth <= 1.2) {
		g.depth = usualDepth(f.Body)
	}
	return g, g.length > 0
}

// placeFish finds where the n-th of a species swims: spread over its zone,
// clear of words, of kit and of its fellows where there is room. The place does
// not depend on the phase, which only carries it to and fro about there.
func (d *sheet) placeFish(f Fish, species, n int) (figurine, bool) {
	g, ok := d.figurineOf(f)
	if !ok {
		return g, false
	}
	h := g.box().H() / 2
	lo, hi := d.swimBand(f.Zone)
	swing := math.Min(g.length*0.4, d.inner()*0.05)
	x0, x1 := d.inLeft()+g.length/2+swing+2, d.inRight()-g.length/2-swing-2
	if f.Zone == BottomZone {
		lo, hi = lo+h*0.75, math.Max(hi, lo+h*0.8)
	}
	hi = math.Min(hi, d.water-h-2)
	best, least := scene.Point{}, math.Inf(1)
	for try := range 48 {
		i := n*48 + try
		c := scene.Pt(within(x0+(x1-x0)*scatter(i, species*7+141), math.Min(x0, x1), math.Max(x0, x1)), within(lo+(hi-lo)*scatter(i, species*7+143), lo, hi))
		g.at = c
		b := g.box()
		b.Min.X, b.Max.X = b.Min.X-swing*0.5, b.Max.X+swing*0.5
		bad := 0.0
		for _, o := range d.taken {
			if b.Overlaps(o) {
				bad += (math.Min(b.Max.X, o.Max.X) - math.Max(b.Min.X, o.Min.X)) * (math.Min(b.Max.Y, o.Max.Y) - math.Max(b.Min.Y, o.Min.Y))
			}
		}
		for _, o := range d.swimmers {
			if b.Overlaps(o) {
				bad += (math.Min(b.Max.X, o.Max.X) - math.Max(b.Min.X, o.Min.X)) * (math.Min(b.Max.Y, o.Max.Y) - math.Max(b.Min.Y, o.Min.Y))
			}
		}
		if bad < least {
			best, least = c, bad
		}
		if bad == 0 {
			break
		}
	}
	g.at = best
	d.swimmers = append(d.swimmers, g.box())
	phase := f.Phase
	if math.IsNaN(phase) || math.IsInf(phase, 0) {
		phase = 0
	}
	turn := 2 * math.Pi * (math.Mod(phase, 1) + scatter(n, species*7+147))
	g.at.X += swing * math.Sin(turn)
	if math.Cos(turn) < 0 {
		g.way = -1
	}
	return g, true
}

// drawAdult draws the full-grown size about a fish, dashed, held within the tank
// where it fits in there.
func (d *sheet) drawAdult(f Fish, g figurine) {
	a := mm(f.Adult)
	if a <= g.length*1.05 {
		return
	}
	g.length = a
	h := g.box().H() / 2
	g.at.X = within(g.at.X, d.inLeft()+a/2, d.inRight()-a/2)
	g.at.Y = within(g.at.Y, math.Min(d.ground(g.at.X)+h*0.7, d.water), d.water-h)
	st := scene.Style{Stroke: d.lineColour(look.SoftInk), Width: 1.1, Dash: []float64{4, 3}}
	d.s.Add(g.fins(scene.NewPath(st)), g.outline(scene.NewPath(st)))
}
