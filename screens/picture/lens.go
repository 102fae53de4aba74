package picture

import "math"

// Size is a size in points or in pixels of a picture.
type Size struct{ W, H float64 }

// long gives the longer side, at least 1.
func (s Size) long() float64 { return math.Max(1, math.Max(s.W, s.H)) }

// XY is a position in points from a view's upper left corner, or in pixels from
// a picture's.
type XY struct{ X, Y float64 }

// Point is a place on a picture in thousandths of its width from the left and of
// its height from the top, each 0 to 1000.
type Point struct{ X, Y float64 }

// In gives the place in pixels of a picture.
func (p Point) In(picture Size) XY { return XY{p.X / 1000 * picture.W, p.Y / 1000 * picture.H} }

// PointAt gives the point of a place in pixels of a picture, kept on it.
func PointAt(at XY, picture Size) Point {
	return Point{clamp(at.X/math.Max(picture.W, 1)*1000, 0, 1000), clamp(at.Y/math.Max(picture.H, 1)*1000, 0, 1000)}
}

// Lens places a picture in a view.
type Lens struct {
	Scale  float64 // points per pixel of the picture, > 0
	Centre XY      // the pixel in the middle of the view
}

// Fit gives the lens that shows the whole picture as large as the view allows.
func Fit(picture, view Size) Lens {
	return Lens{Scale: fitScale(picture, view), Centre: XY{picture.W / 2, picture.H / 2}}
}

func fitScale(picture, view Size) float64 {
	if picture.W <= 0 || picture.H <= 0 || view.W <= 0 || view.H <= 0 {
		return 1
	}
	return math.Min(view.W/picture.W, view.H/picture.H)
}

// ToView gives where in the view a pixel lies.
func (l Lens) ToView(p XY, view Size) XY {
	return XY{view.W/2 + (p.X-l.Centre.X)*l.Scale, view.H/2 + (p.Y-l.Centre.Y)*l.Scale}
}

// ToPicture gives which pixel lies at a position of the view; the inverse of
// ToView.
func (l Lens) ToPicture(at XY, view Size) XY {
	return XY{l.Centre.X + (at.X-view.W/2)/l.Scale, l.Centre.Y + (at.Y-view.H/2)/l.Scale}
}

// ScaledTo gives the lens with another scale under which the pixel at a position
// of the view stays where it is.
func (l Lens) ScaledTo(scale float64, at XY, view Size) Lens {
	p := l.ToPicture(at, view)
	l.Scale = scale
	return Lens{scale, XY{p.X - (at.X-view.W/2)/scale, p.Y - (at.Y-view.H/2)/scale}}
}

// Moved gives the lens under which the picture lies further right and down by
// that many points.
func (l Lens) Moved(by XY) Lens {
	l.Centre.X -= by.X / l.Scale
	l.Centre.Y -= by.Y / l.Scale
	return l
}

// held keeps the middle of the view on the picture, so that it is never lost.
func (l Lens) held(picture Size) Lens {
	l.Centre.X = clamp(l.Centre.X, 0, picture.W)
	l.Centre.Y = clamp(l.Centre.Y, 0, picture.H)
	return l
}

func clamp(v, low, high float64) float64 { return math.Max(low, math.Min(high, v)) }
