package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Sizes of the socket in millimetres. judgement: within the usual range of
// plates and strips; which plug fits it is left open.
const (
	plateWidth  = 146.0
	plateHeight = 84.0
	stripHeight = 56.0
	outletPitch = 44.0
	cordPitch   = 12.0
	socketGap   = 88.0 // between stand and socket, where the cords come down
	outletSize  = 34.0
)

// A wallSocket is the socket in millimetres, as if on the left.
type wallSocket struct {
	box     scene.Box
	outlets []float64 // x of the outlets, farthest from the tank first
}

func (l *layout) wallSocket() (wallSocket, bool) {
	s := l.spec.Socket
	y := mm(s.Height)
	if !s.Present || y == 0 {
		return wallSocket{}, false
	}
	h, n := plateHeight, 2
	if s.Strip || len(l.cords()) > 2 {
		h, n = stripHeight, 3
	}
	right := math.Min(0, l.standOuter()) - socketGap
	w := wallSocket{box: scene.Box{Min: scene.Pt(right-plateWidth, math.Max(0, y-h/2)), Max: scene.Pt(right, y+h/2)}}
	pitch := outletPitch
	if n == 2 {
		pitch = 66
	}
	for i := range n {
		w.outlets = append(w.outlets, right-plateWidth/2+(float64(i)-float64(n-1)/2)*pitch)
	}
	return w, true
}

// standOuter gives the stand's edge towards the socket, as if on the left.
func (l *layout) standOuter() float64 {
	if l.spec.Socket.Side == Right {
		return l.length - l.standRight
	}
	return l.standLeft
}

// drawPower draws the socket, the cords and their plugs.
func (d *sheet) drawPower() {
	w, there := d.wallSocket()
	if there {
		d.drawSocket(w)
	}
	leads := d.cords()
	if len(leads) == 0 {
		return
	}
	edge := math.Min(0, d.standOuter())
	missing := false
	loose := 0
	for i, c := range leads {
		from := scene.Pt(d.beside(c.from.X), c.from.Y)
		down := edge - 32 - cordPitch*float64(i)
		var way course
		plugged := c.cord.Plugged && there
		if plugged {
			out := w.outlets[len(w.outlets)-len(leads)+i:][0]
			way = d.toSocket(from, len(leads)-1-i, down, scene.Pt(out, (w.box.Min.Y+w.box.Max.Y)/2-26), w.box.Min.Y, mm(c.cord.Length))
			if !way.loop { // these come from above, and then this order does not cross
				down = edge - 32 - cordPitch*float64(len(leads)-1-i)
				way = d.straight(from, i, down, way.end)
				missing = true
			}
		} else {
			way = d.toFloor(from, len(leads)-1-i, down, edge-58-66*float64(loose))
			loose++
		}
		way = d.mirror(way)
		d.s.Group(c.part, func() {
			d.drawCourse(way)
			d.drawPlug(way.end, plugged, way.loop)
		})
	}
	if there {
		d.drawFlag(w, missing)
	}
}

func (d *sheet) drawSocket(w wallSocket) {
	x0, x1 := d.beside(w.box.Min.X), d.beside(w.box.Max.X)
	y0, y1 := w.box.Min.Y, w.box.Max.Y
	mid := (y0 + y1) / 2
	d.take(math.Min(x0, x1), y0, math.Max(x0, x1), y1)
	d.s.Group(PartSocket, func() {
		d.rect(x0, y0, x1, y1, 8, d.solid(look.Case, outline))
		d.rect(x0+math.Copysign(4, x1-x0), y0+4, x1-math.Copysign(4, x1-x0), y1-4, 5, d.faint(look.Ink, hair, 0.4))
		for _, o := range w.outlets {
			x := d.beside(o)
			d.rect(x-outletSize/2, mid-outletSize/2, x+outletSize/2, mid+outletSize/2, 9, d.solid(look.Sheet, fine))
			for _, s := range []float64{-1, 1} {
				d.rect(x+s*6-1.7, mid-6, x+s*6+1.7, mid+6, 1.5, scene.Style{Fill: look.Ink})
			}
		}
	})
}

// drawPlug draws a plug with its cord entering at the point: in the socket the
// cord comes from below, or from above where it forms no loop; away from it the
// plug lies on the floor.
func (d *sheet) drawPlug(at scene.Point, in, loop bool) {
	st := scene.Style{Stroke: look.Ink, Width: outline, Fill: d.fillColour(look.SoftInk)}
	if d.spec.Paper {
		st.Fill = look.Sheet
	}
	if in {
		up := 1.0
		if !loop {
			up = -1
		}
		d.rect(at.X-6, at.Y-2*up, at.X+6, at.Y+12*up, 3, st)
		d.rect(at.X-14, at.Y+8*up, at.X+14, at.Y+42*up, 7, st)
		return
	}
	way := -1.0
	if d.spec.Socket.Side == Right {
		way = 1
	}
	d.rect(at.X-2*way, at.Y-6, at.X+10*way, at.Y+6, 3, st)
	d.rect(at.X+8*way, at.Y-13, at.X+36*way, at.Y+13, 5, st)
	for _, s := range []float64{-6, 6} {
		d.line(at.X+36*way, at.Y+s, at.X+49*way, at.Y+s, d.pen(look.Ink, strong))
	}
}

// drawFlag marks a socket whose cord forms no drip loop, and one that lies lower
// than the water, with the level that the water could run down from.
func (d *sheet) drawFlag(w wallSocket, missing bool) {
	below := d.water > w.box.Max.Y
	lab := d.spec.Labels
	if !missing && !(below && lab.BelowWater != "") {
		return
	}
	x, words, shape, c := d.beside((w.box.Min.X+w.box.Max.X)/2), lab.BelowWater, scene.Diamond, look.Ink
	if missing {
		words, shape, c = lab.NoLoop, scene.Triangle, look.Rust
	}
	d.s.Group(PartFlag, func() {
		top := scene.Pt(x, w.box.Max.Y)
		if below && !missing {
			st := scene.Style{Stroke: d.lineColour(look.Teal), Width: fine, Dash: []float64{2, 3}}
			side := d.beside(w.box.Max.X)
			d.line(d.beside(-d.px(4)), d.water, side, d.water, st)
			d.s.Add(scene.Arrow{From: scene.Pt(side, d.water), To: scene.Pt(side, w.box.Max.Y+d.px(38)), Head: 5, Style: st})
		}
		d.s.Add(scene.Marker{At: top, Shape: shape, Size: 13, Shift: scene.Pt(0, 12), Style: scene.Style{Fill: d.lineColour(c), Stroke: look.Paper, Width: fine}})
		if d.spec.Compact {
			return
		}
		t := scene.Text{S: words, Colour: c, Weight: scene.SemiBold, V: scene.Bottom, Size: captionPt, Back: look.Paper}
		t, over := d.held(t, scene.Pt(x, w.box.Max.Y+d.px(21)))
		d.word(t, over, scene.Pt(over.X, w.box.Min.Y-d.px(38)-usualLoop))
	})
}
