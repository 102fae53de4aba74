package picture

import (
	"image"
	"image/draw"
)

// Levels hold what is loaded of a picture: first the largest, each further one
// half as wide and high. They are made off the user interface's goroutine and
// never changed.
type Levels []*image.RGBA

// NewLevels makes the levels of a picture, down to a side of smallest pixels. An
// opaque *image.RGBA is kept as it is and must not be written to any more.
func NewLevels(m image.Image) Levels {
	if m == nil || m.Bounds().Empty() {
		return nil
	}
	top, ok := m.(*image.RGBA)
	if !ok || top.Rect.Min != (image.Point{}) {
		b := m.Bounds()
		top = image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
		draw.Draw(top, top.Rect, m, b.Min, draw.Src)
	}
	out := Levels{top}
	for top.Rect.Dx() > 2*smallest && top.Rect.Dy() > 2*smallest {
		top = halved(top)
		out = append(out, top)
	}
	return out
}

// smallest is the least side of a level. Judgement: smaller ones are never seen.
const smallest = 64

// Long gives the longer side of what is loaded, in pixels; 0 for nothing.
func (l Levels) Long() int {
	if len(l) == 0 {
		return 0
	}
	return max(l[0].Rect.Dx(), l[0].Rect.Dy())
}

// pick gives the smallest level that is still fine enough for step pixels of the
// largest one per pixel shown.
func (l Levels) pick(step float64) *image.RGBA {
	i := 0
	for i+1 < len(l) && step >= coarse {
		step /= 2
		i++
	}
	return l[i]
}

// coarse is the most pixels of a level per pixel shown, above which the next one
// is taken. Judgement: between crispness and shimmer.
const coarse = 1.5

// halved averages two by two pixels.
func halved(m *image.RGBA) *image.RGBA {
	w, h := m.Rect.Dx()/2, m.Rect.Dy()/2
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		a := m.Pix[2*y*m.Stride:]
		b := m.Pix[(2*y+1)*m.Stride:]
		o := out.Pix[y*out.Stride : y*out.Stride+4*w]
		a, b = a[:8*w], b[:8*w]
		for i, j := 0, 0; i < len(o); i, j = i+4, j+8 {
			for c := range 4 {
				o[i+c] = uint8((uint(a[j+c]) + uint(a[j+c+4]) + uint(b[j+c]) + uint(b[j+c+4]) + 2) / 4)
			}
		}
	}
	return out
}

// Turned gives a picture after quarter turns clockwise.
func Turned(m image.Image, quarters int) image.Image {
	quarters = ((quarters % 4) + 4) % 4
	if m == nil || quarters == 0 {
		return m
	}
	src := NewLevels(m)[0]
	w, h := src.Rect.Dx(), src.Rect.Dy()
	ow, oh := w, h
	if quarters%2 == 1 {
		ow, oh = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, ow, oh))
	for y := range h {
		for x := range w {
			var to int
			switch quarters {
			case 1:
				to = x*out.Stride + 4*(h-1-y)
			case 2:
				to = (h-1-y)*out.Stride + 4*(w-1-x)
			case 3:
				to = (w-1-x)*out.Stride + 4*y
			}
			copy(out.Pix[to:to+4], src.Pix[y*src.Stride+4*x:])
		}
	}
	return out
}
