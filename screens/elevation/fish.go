package elevation

import (
	"math"
	"slices"
	"strings"

	"example.org/driploop/model/fish"
	"example.org/driploop/screens/fauna"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// MostOfAKind is the most of one lot that are drawn, and mostFish of all: more
// cannot be told apart.
const (
	MostOfAKind = 24 // judgement
	mostFish    = 90 // judgement
	mostLots    = 40
)

const (
	swimPrefix = "fish/"
	planPrefix = "planned/"
)

// FishPart is the part of the drawing that a lot of a kind is; nth tells lots of
// one kind apart.
func FishPart(code fish.Code, planned bool, nth int) scene.ID {
	id := swimPrefix
	if planned {
		id = planPrefix
	}
	return scene.ID(id + string(code) + strings.Repeat("'", nth))
}

// A swimmer is one animal placed in the drawing.
type swimmer struct {
	lot    int
	code   fish.Code
	length float64 // mm
	at     scene.Point
	left   bool
	swing  float64 // how far it may drift to either side, mm
}

// box gives the room of a swimmer, fins included, drift left out.
func (w swimmer) box() scene.Box {
	b := fauna.Box(w.code, w.length)
	if w.left {
		b.Min.X, b.Max.X = -b.Max.X, -b.Min.X
	}
	return scene.Box{Min: b.Min.Add(w.at), Max: b.Max.Add(w.at)}
}

func (w swimmer) pose(scale float64, paper bool) fauna.Pose {
	return fauna.Pose{At: w.at, Left: w.left, Scale: scale, Paper: paper}
}

// habit is how the animals of a kind keep in a tank.
type habit struct {
	zone   fish.Zone
	ground bool // it stands on the ground
	school bool // it keeps close to its fellows
	drift  float64
}

// habitOf takes the habit from the catalogue.
func habitOf(code fish.Code) habit {
	a, err := fish.Get(code)
	if err != nil {
		return habit{zone: fish.Middle, school: true, drift: 0.7}
	}
	h := habit{zone: a.Zone, school: a.MinGroup >= 5, drift: 0.7} // judgement: from five on a kind is sold as a school
	switch a.Group {
	case fish.Snail:
		h = habit{zone: fish.Bottom, ground: true}
	case fish.Shrimp, fish.Crayfish:
		h = habit{zone: fish.Bottom, ground: true, drift: 0.12}
	default:
		if h.zone == fish.Bottom {
			h.ground, h.drift = true, 0.35
		}
	}
	return h
}

// swimBand gives the lowest and highest y of a zone's fish.
func (l *layout) swimBand(z fish.Zone) (lo, hi float64) {
	bottom := l.inBottom() + math.Max(l.bed().at(0, 0.5), l.bed().at(1, 0.5))
	deep := l.water - bottom
	switch z {
	case fish.Top:
		return l.water - deep*0.34, l.water - deep*0.05
	case fish.Bottom:
		return bottom, bottom + deep*0.10
	case fish.AllOf:
		return bottom + deep*0.1, bottom + deep*0.92
	}
	return bottom + deep*0.28, bottom + deep*0.72
}

// stock places all the animals, the largest lots first, each lot by itself: what
// is added later moves nothing that was there before, unless it is larger.
func (d *sheet) stock() []swimmer {
	if d.water <= d.inBottom() {
		return nil
	}
	order := make([]int, 0, len(d.spec.Fish))
	for i, f := range d.spec.Fish {
		if i < mostLots && mm(f.Length) > 0 && f.Count > 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		fa, fb := d.spec.Fish[a], d.spec.Fish[b]
		switch {
		case fa.Planned != fb.Planned: // those that are there come before those that may be
			if fb.Planned {
				return -1
			}
			return 1
		case fa.Length > fb.Length:
			return -1
		case fa.Length < fb.Length:
			return 1
		}
		return strings.Compare(string(fa.ID), string(fb.ID))
	})
	var out []swimmer
	var before []scene.Box
	for _, i := range order {
		n := min(d.spec.Fish[i].Count, MostOfAKind, mostFish-len(out))
		lot := d.placeLot(i, n, before)
		for _, w := range lot {
			before = append(before, w.box())
		}
		out = append(out, lot...)
	}
	return out
}

// series gives a lot its own numbers: the same for the same part every time.
func series(id scene.ID) int {
	h := uint32(2166136261) // FNV-1a
	for i := range len(id) {
		h = (h ^ uint32(id[i])) * 16777619
	}
	return int(h % 100003)
}

// placeLot finds where n of a lot swim: a school close together in its zone,
// others spread, on the ground what lives there; clear of kit and of the others
// where there is room, and of plants where it can be.
func (d *sheet) placeLot(lot, n int, before []scene.Box) []swimmer {
	f := d.spec.Fish[lot]
	h, seed := habitOf(f.Code), series(f.ID)
	w := swimmer{lot: lot, code: f.Code, length: mm(f.Length)}
	room := fauna.Box(f.Code, w.length)
	w.swing = math.Min(w.length*h.drift, d.inner()*0.06)
	lo, hi := d.swimBand(h.zone)
	// At rest it lies wholly in the water, with its drift to either side.
	aside := math.Max(-room.Min.X, room.Max.X) + w.swing + 2 // whichever way it faces
	x0, x1 := d.inLeft()+aside, d.inRight()-aside
	y0, y1 := math.Max(lo, d.floorUnder(room)), math.Min(hi, d.water-room.Max.Y-2)
	low := math.Max(math.Min(y0, lo-room.H()*0.9), d.floorUnder(room))
	spread, tall := (x1-x0)/2, math.Max(0, (y1-y0)/2)
	mid := scene.Pt((x0+x1)/2, (y0+y1)/2)
	if h.school {
		// judgement: a school takes about one and a half lengths of room a fish each way.
		k := math.Sqrt(float64(n))
		spread, tall = math.Min(spread, w.length*0.85*k), math.Min(tall, room.H()*0.8*k)
		mid = d.schoolPlace(x0, x1, y0, y1, spread, tall, seed, before)
	}
	var out []swimmer
	var fellows []scene.Box
	for i := range n {
		w.left = scene.Scatter(i, seed+3) < 0.5
		if h.school {
			w.left = scene.Scatter(0, seed+3) < 0.5
		}
		best, least := scene.Point{}, math.Inf(1)
		for try := range nearTries + farTries {
			k := i*(nearTries+farTries) + try
			c := scene.Pt(mid.X+spread*(2*scene.Scatter(k, seed+7)-1), mid.Y+tall*(2*scene.Scatter(k, seed+11)-1))
			if try >= nearTries { // in the way of kit there: anywhere in its zone, and a little below it
				c = scene.Pt(x0+(x1-x0)*scene.Scatter(k, seed+7), y1-(y1-low)*scene.Scatter(k, seed+11))
			}
			c.X, c.Y = within(c.X, x0, x1), within(c.Y, math.Min(low, y1), y1)
			if h.ground {
				c.Y = d.ground(c.X) - room.Min.Y - math.Min(8, d.bed().at(0.5, 0.5)*0.4)*scene.Scatter(k, seed+13)
			}
			w.at = c
			if bad := d.clash(w, room, before, fellows) + 1e-6*c.Sub(mid).Len(); bad < least {
				best, least = c, bad
			}
			if least < 1e-3 || try >= nearTries && least < 1 || try == nearTries-1 && d.covers(w, best) == 0 {
				break
			}
		}
		w.at = best
		out, fellows = append(out, d.clearOfKit(w)), append(fellows, w.box())
	}
	return out
}

// How often a place is looked for, near the fellows and anywhere in the zone.
const nearTries, farTries = 28, 90 // judgement

// covers is how much of the kit a swimmer hides at rest at a place.
func (d *sheet) covers(w swimmer, at scene.Point) float64 {
	w.at = at
	bad := 0.0
	for _, o := range d.taken {
		bad += common(w.box(), o)
	}
	return bad
}

// clearOfKit lets a swimmer that hides no kit at rest drift no farther than to it.
func (d *sheet) clearOfKit(w swimmer) swimmer {
	b := w.box()
	for _, o := range d.taken {
		if b.Max.Y <= o.Min.Y || b.Min.Y >= o.Max.Y {
			continue
		}
		switch {
		case o.Min.X >= b.Max.X:
			w.swing = math.Min(w.swing, o.Min.X-b.Max.X)
		case o.Max.X <= b.Min.X:
			w.swing = math.Min(w.swing, b.Min.X-o.Max.X)
		}
	}
	return w
}

// floorUnder gives the least y of the axis of what swims clear of the ground.
func (d *sheet) floorUnder(room scene.Box) float64 {
	top := d.inBottom() + math.Max(d.bed().at(0, 0.5), d.bed().at(1, 0.5))
	return top - room.Min.Y + 1
}

// schoolPlace finds the clearest middle for a school.
func (d *sheet) schoolPlace(x0, x1, y0, y1, spread, tall float64, seed int, before []scene.Box) scene.Point {
	best, least := scene.Pt((x0+x1)/2, (y0+y1)/2), math.Inf(1)
	for k := range 40 {
		c := scene.Pt(within(x0+(x1-x0)*scene.Scatter(k, seed+17), x0+spread, x1-spread), within(y0+(y1-y0)*scene.Scatter(k, seed+19), y0+tall, y1-tall))
		b := scene.Box{Min: c.Sub(scene.Pt(spread, tall)), Max: c.Add(scene.Pt(spread, tall))}
		bad := 0.0
		for _, o := range d.taken {
			bad += 4 * common(b, o)
		}
		for _, o := range d.greens {
			bad += 0.3 * common(b, o)
		}
		for _, o := range before {
			bad += common(b, o)
		}
		if bad < least {
			best, least = c, bad
		}
	}
	return best
}

// clash is how much a swimmer that takes so much room covers: other animals and
// kit in full, plants less, for fish do swim among them.
func (d *sheet) clash(w swimmer, room scene.Box, before, fellows []scene.Box) float64 {
	if w.left {
		room.Min.X, room.Max.X = -room.Max.X, -room.Min.X
	}
	b := scene.Box{Min: room.Min.Add(w.at), Max: room.Max.Add(w.at)}
	b.Min.X, b.Max.X = b.Min.X-w.swing*0.5, b.Max.X+w.swing*0.5
	bad := 0.0
	for _, o := range d.taken {
		bad += 12 * common(b, o) // a gauge that cannot be read is worse than fish that cover each other
	}
	for _, o := range d.greens {
		bad += 0.25 * common(b, o)
	}
	for _, o := range before {
		bad += common(b, o)
	}
	b.Min.X, b.Max.X = b.Min.X+w.swing*0.5, b.Max.X-w.swing*0.5 // a school drifts together
	for _, o := range fellows {
		bad += common(b, o)
	}
	return bad
}

// common is the area that two boxes share.
func common(a, b scene.Box) float64 {
	if !a.Overlaps(b) {
		return 0
	}
	return (math.Min(a.Max.X, b.Max.X) - math.Max(a.Min.X, b.Min.X)) * (math.Min(a.Max.Y, b.Max.Y) - math.Max(a.Min.Y, b.Min.Y))
}

// drawFish draws the stock at rest.
func (d *sheet) drawFish() {
	d.fish = d.stock()
	d.drawAdult()
	for i := 0; i < len(d.fish); {
		f := d.spec.Fish[d.fish[i].lot]
		from := i
		d.s.Group(f.ID, func() {
			for ; i < len(d.fish) && d.fish[i].lot == d.fish[from].lot; i++ {
				if !d.spec.Moving || f.Planned {
					d.s.Add(d.items(d.fish[i])...)
				}
			}
		})
	}
}

// items draws one animal, a planned one dashed.
func (d *sheet) items(w swimmer) []scene.Item {
	if d.spec.Fish[w.lot].Planned {
		st := scene.Style{Stroke: d.lineColour(look.SoftInk), Width: 1, Dash: []float64{3, 2.2}}
		return fauna.Outline(w.code, w.length, w.pose(d.scale, d.spec.Paper), st)
	}
	return fauna.Animal(w.code, w.length, w.pose(d.scale, d.spec.Paper))
}

// ghost gives the lot whose adult size is drawn about one of its fish: that
// which is highlighted, else the one that grows largest; -1 none.
func (d *sheet) ghost() int {
	best := -1
	for _, w := range d.fish {
		f := d.spec.Fish[w.lot]
		if f.Planned || mm(f.Adult) <= w.length*1.05 {
			continue
		}
		if f.ID == d.spec.Highlight {
			return w.lot
		}
		if best < 0 || f.Adult > d.spec.Fish[best].Adult {
			best = w.lot
		}
	}
	return best
}

// drawAdult draws the full-grown size about the first of a lot, dashed, held
// within the tank where it fits in there.
func (d *sheet) drawAdult() {
	lot := d.ghost()
	if lot < 0 {
		return
	}
	w := d.fish[slices.IndexFunc(d.fish, func(w swimmer) bool { return w.lot == lot })]
	w.length = mm(d.spec.Fish[lot].Adult)
	b := fauna.Box(w.code, w.length)
	w.at.X = within(w.at.X, d.inLeft()+b.W()/2, d.inRight()-b.W()/2)
	w.at.Y = within(w.at.Y, d.ground(w.at.X)-b.Min.Y, d.water-b.Max.Y)
	st := scene.Style{Stroke: d.lineColour(look.SoftInk), Width: 1.1, Dash: []float64{4, 3}}
	d.s.Group(d.spec.Fish[lot].ID, func() {
		d.s.Add(fauna.Outline(w.code, w.length, w.pose(d.scale, d.spec.Paper), st)...)
	})
}
