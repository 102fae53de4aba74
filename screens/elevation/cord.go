package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// A drip loop must hang this far below the socket, so that water that runs
// down the cord drips from it and does not reach the plug.
const (
	leastLoop = 50.0 // judgement, as the product's safety notes have it
	usualLoop = 80.0 // judgement: a loop that is easily seen
	loopStep  = 30.0 // each farther outlet hangs so much deeper, and the loops do not cross
	nearFloor = 12.0 // judgement: least height of a loop above the floor
)

// A lead is one cord to be drawn.
type lead struct {
	part scene.ID
	cord Cord
	from scene.Point
}

// cords lists the cords in the order of their outlets, the farthest from the
// tank first.
func (l *layout) cords() []lead {
	if !l.tankKnown {
		return nil
	}
	var out []lead
	if h := l.spec.Heater; h.State >= Placed && h.Cord.Present {
		b := l.heaterBox()
		out = append(out, lead{PartHeaterCord, h.Cord, scene.Pt((b.Min.X+b.Max.X)/2, b.Max.Y)})
	}
	if f := l.spec.Filter; f.State >= Placed && f.Cord.Present {
		x, y := l.filterX(), l.rim()-l.height*0.12
		switch f.Kind {
		case HangOn:
			y = l.hangOn().Max.Y
		case Internal:
			y = l.rim() - math.Max(l.height*0.14, 30)
		}
		out = append(out, lead{PartFilterCord, f.Cord, scene.Pt(x, y)})
	}
	if d := l.spec.Lid; d.State >= Placed && d.Lamp && d.Cord.Present {
		x := l.length * 0.1
		if l.spec.Socket.Side == Right {
			x = l.length * 0.9
		}
		out = append(out, lead{PartLightCord, d.Cord, scene.Pt(x, l.rim()+l.lidHeight()*0.9)})
	}
	return out
}

// A course is the way of a cord: over the rim, down beside the tank, and into
// the socket or to the floor. It is reckoned with the socket on the left.
type course struct {
	pieces []bezier
	end    scene.Point // where it enters the plug
	loop   bool        // hangs below the socket as it should
}

func (c course) length() float64 {
	sum := 0.0
	for _, p := range c.pieces {
		for i := range 16 {
			sum += p.at(float64(i+1) / 16).Sub(p.at(float64(i) / 16)).Len()
		}
	}
	return sum
}

// overRim leads from the device over the tank's edge to beside it at (down, y).
func (l *layout) overRim(from scene.Point, nth int, down, y float64) []bezier {
	crest := l.rim() + 7 + 7*float64(max(0, 2-nth))
	if l.spec.Lid.State >= Placed {
		crest += l.lidHeight() * 0.35
	}
	edge := scene.Pt(math.Min(0, l.standLeft)*0.2-3, crest)
	dx := from.X - edge.X
	hump := within(dx*0.16, 12, 46)
	if from.Y > crest {
		hump += from.Y - crest
	}
	turn := math.Min(70, (edge.X-down)*1.3)
	return []bezier{
		{from, scene.Pt(from.X, math.Max(from.Y+20, crest+hump)), scene.Pt(edge.X+dx*0.45, crest+hump), edge},
		{edge, edge.Sub(scene.Pt(turn, hump*turn/math.Max(dx*0.45, turn))), scene.Pt(down, y+(crest-y)*0.6), scene.Pt(down, y)},
	}
}

// toSocket gives the course to a plug at end in a socket whose lower edge is at
// under. With no room for a loop it runs straight down to the plug, as it must not.
func (l *layout) toSocket(from scene.Point, nth int, down float64, end scene.Point, under, have float64) course {
	dip := usualLoop + loopStep*float64(nth)
	if room := under - nearFloor; room < dip {
		dip = room
	}
	if dip >= leastLoop {
		y := math.Min(end.Y-dip*0.1, l.rim()-40)
		c := course{end: end, loop: true, pieces: l.overRim(from, nth, down, y)}
		// A cubic with both controls at one depth reaches three quarters of it.
		low := under - dip
		k := (y - low) / 0.75
		if end.Y > y {
			k = (y-low)*1.12 + (end.Y-y)*0.1
		}
		u := bezier{scene.Pt(down, y), scene.Pt(down, y-k), scene.Pt(end.X, y-k), scene.Pt(end.X, y)}
		// Bring the bottom to the depth wanted, whatever the shape.
		for range 6 {
			k += u.lowest() - low
			u[1].Y, u[2].Y = y-k, y-k
		}
		c.pieces = append(c.pieces, u)
		if y < end.Y {
			c.pieces = append(c.pieces, bezier{u[3], u[3].Add(scene.Pt(0, (end.Y-y)*0.3)), end.Sub(scene.Pt(0, (end.Y-y)*0.3)), end})
		}
		if have == 0 || c.length() <= have {
			return c
		}
	}
	end.Y += 52 // the plug is turned over, its cord comes from above
	return l.straight(from, nth, down, end)
}

// straight gives the course of a cord that comes down upon its plug.
func (l *layout) straight(from scene.Point, nth int, down float64, end scene.Point) course {
	y := end.Y + math.Max(20, (l.rim()-end.Y)*0.55)
	c := course{end: end, pieces: l.overRim(from, nth, down, y)}
	c.pieces = append(c.pieces, bezier{scene.Pt(down, y), scene.Pt(down, y-(y-end.Y)*0.5), scene.Pt(end.X, end.Y+(y-end.Y)*0.5), end})
	return c
}

// toFloor gives the course of a cord that is not plugged in: the plug lies on
// the floor.
func (l *layout) toFloor(from scene.Point, nth int, down float64, x float64) course {
	y := 60.0
	if l.rim() < 200 {
		y = l.rim() * 0.3
	}
	c := course{end: scene.Pt(x, 13), pieces: l.overRim(from, nth, down, y)}
	c.pieces = append(c.pieces, bezier{scene.Pt(down, y), scene.Pt(down, y*0.2), scene.Pt(down-20, 6), c.end})
	return c
}

// mirror turns a course to the right side.
func (l *layout) mirror(c course) course {
	flip := func(p scene.Point) scene.Point { return scene.Pt(l.beside(p.X), p.Y) }
	out := course{end: flip(c.end), loop: c.loop}
	for _, b := range c.pieces {
		out.pieces = append(out.pieces, bezier{flip(b[0]), flip(b[1]), flip(b[2]), flip(b[3])})
	}
	return out
}

func (d *sheet) drawCourse(c course) {
	if len(c.pieces) < 2 {
		return
	}
	trace := func(pieces []bezier, st scene.Style) {
		p := scene.NewPath(st).MoveTo(pieces[0][0])
		for _, b := range pieces {
			p.CubicTo(b[1], b[2], b[3])
		}
		d.s.Add(p)
	}
	// A paler edge lifts it off what it crosses.
	trace(c.pieces[:1], d.faint(look.Paper, 3.6, 0.75))
	trace(c.pieces[1:], d.pen(look.Paper, 3.6))
	trace(c.pieces, d.pen(look.Ink, 1.5))
}
