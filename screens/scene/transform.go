package scene

import "math"

// PointMM is the size of one point on paper, in millimetres: 1/96 inch.
// Source: CSS Values and Units, absolute lengths (1 px = 1/96 in); 1 in = 25.4 mm exactly.
const PointMM = 25.4 / 96

// Transform places a drawing on a device. Both axes have the same scale, so
// proportions are always true. Device y runs downwards.
type Transform struct {
	Scale float64 // device units per millimetre, > 0
	X, Y  float64 // device position of the drawing's (0, 0)
	Point float64 // device units per point, > 0
}

// Device gives the device position of the drawing's p.
func (t Transform) Device(p Point) Point {
	return Point{t.X + p.X*t.Scale, t.Y - p.Y*t.Scale}
}

// Drawing gives the place in the drawing, in millimetres, of the device
// position d; the inverse of Device.
func (t Transform) Drawing(d Point) Point {
	return Point{(d.X - t.X) / t.Scale, (t.Y - d.Y) / t.Scale}
}

// Ratio gives n of the drawing scale "1 : n" on a device that has perMM device
// units to a millimetre. It gives 0, which means unknown, when perMM is not a
// positive finite number.
func (t Transform) Ratio(perMM float64) float64 {
	if !finite(perMM, t.Scale) || perMM <= 0 || t.Scale <= 0 {
		return 0
	}
	return perMM / t.Scale
}

// Margins are kept free around a fitted drawing, in points.
type Margins struct{ Left, Top, Right, Bottom float64 }

// Even gives the same margin on all sides, in points.
func Even(m float64) Margins { return Margins{m, m, m, m} }

// Frame is the place a drawing is fitted into.
type Frame struct {
	X, Y float64 // device position of the frame's top left corner
	W, H float64 // size in device units
	Margins
	Point    float64 // device units per point; 0 means 1
	MaxScale float64 // most device units per millimetre; 0 means no limit

	// Where the drawing goes in the room it leaves: -1 left or bottom,
	// 0 the middle, 1 right or top.
	AlignX, AlignY float64
}

// Fit gives the transform that shows the whole scene as large as the frame
// allows, with everything that is measured in points (text, dimension lines,
// arrow heads) inside the margins too. When the frame is too small even for
// these, or the scene has no extent, the transform is still usable: the scale
// is then tiny or one device unit per millimetre.
func Fit(s *Scene, f Frame) Transform {
	pt := f.Point
	if pt <= 0 || !finite(pt) {
		pt = 1
	}
	left, top := f.X+f.Left*pt, f.Y+f.Top*pt
	w, h := f.W-(f.Left+f.Right)*pt, f.H-(f.Top+f.Bottom)*pt
	solid := s.Bounds()
	if solid.Empty() || !finite(left, top, w, h) {
		return Transform{Scale: 1, Point: pt, X: left, Y: top + math.Max(0, h)}
	}
	// An upper bound: the millimetres alone fill the room.
	most := math.Inf(1)
	if solid.W() > 0 {
		most = w / solid.W()
	}
	if solid.H() > 0 {
		most = math.Min(most, h/solid.H())
	}
	if math.IsInf(most, 1) {
		most = 1
	}
	if f.MaxScale > 0 {
		most = math.Min(most, f.MaxScale)
	}
	least := 1e-9
	most = math.Max(most, least)
	extent := func(k float64) Box { return s.Extent(Transform{Scale: k, Point: pt}) }
	k, ext := most, extent(most)
	if ext.W() > w || ext.H() > h {
		// The extent grows with the scale along a curve that bends upwards, so
		// the chord between a scale that fits and one that does not meets the
		// frame at a scale that fits, and each chord comes closer.
		hi, over := most, ext
		k, ext = least, extent(least)
		// Words that are wider than the frame by themselves leave it, and the rest is
		// as large as beside them.
		w, h := math.Max(w, ext.W()), math.Max(h, ext.H())
		fits := func(e Box) bool { return e.W() <= w+1e-9 && e.H() <= h+1e-9 }
		for range 16 {
			step := math.Min(share(w, ext.W(), over.W()), share(h, ext.H(), over.H()))
			next := k + (hi-k)*step
			if e := extent(next); fits(e) {
				k, ext = next, e
			} else {
				hi, over = next, e
			}
			if step < 1e-4 {
				break
			}
		}
		// Words that all but fill the frame hold the extent level for a while, and no
		// chord gets on from there: then halving does.
		if probe := k + (hi-k)/50; probe > k*1.01 && fits(extent(probe)) {
			k = probe
			for range 24 {
				if mid := (k + hi) / 2; fits(extent(mid)) {
					k = mid
				} else {
					hi = mid
				}
			}
			ext = extent(k)
		}
	}
	ax := (clamp(f.AlignX, -1, 1) + 1) / 2
	ay := (1 - clamp(f.AlignY, -1, 1)) / 2
	return Transform{
		Scale: k, Point: pt,
		X: left + (w-ext.W())*ax - ext.Min.X,
		Y: top + (h-ext.H())*ay - ext.Min.Y,
	}
}

// share gives how far from a to b the value v lies, 0 to 1.
func share(v, a, b float64) float64 {
	if b <= v || b <= a {
		return 1
	}
	return clamp((v-a)/(b-a), 0, 1)
}

func clamp(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }
