package drill

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
)

// Shot is how a camera sees a sheet of paper. The zero value is the sheet itself.
type Shot struct {
	Turn  float64 // degrees
	Scale float64 // 0 is 1
	// Slant is how much further away the upper edge is than the lower one, as a share:
	// what lies at t of the way up is seen at x/d and y/d with d = 1 + Slant·t.
	Slant float64
	Blur  int     // radius of a box blur, pixels
	Dark  float64 // how much of the light is missing at the lower right corner; 0 at the upper left
	Noise float64 // standard deviation of a sensor's noise, of 255
	Seed  uint64
}

// AnyShot is a picture that a person takes of a sheet: at any turn, from a little aside,
// near or further away, in focus or not quite, in uneven light, with noise.
func AnyShot(r *rand.Rand) Shot {
	return Shot{Turn: r.Float64()*360 - 180, Scale: 0.9 + r.Float64()*0.7, Slant: r.Float64() * 0.1, Blur: r.IntN(2), Dark: r.Float64() * 0.5, Noise: r.Float64() * 5, Seed: r.Uint64()}
}

// table is the grey of what lies about the sheet.
const table = 150

// Of gives the picture that the camera takes.
func (s Shot) Of(img image.Image) *image.Gray {
	b := img.Bounds()
	from := image.NewGray(image.Rect(0, 0, b.Dx(), b.Dy()))
	for y := range b.Dy() {
		for x := range b.Dx() {
			from.Set(x, y, img.At(b.Min.X+x, b.Min.Y+y))
		}
	}
	out := s.seen(from)
	out = blurred(out, s.Blur)
	r := rand.New(rand.NewPCG(s.Seed, 1))
	w, h := float64(out.Rect.Dx()), float64(out.Rect.Dy())
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			i := y*out.Stride + x
			light := 1 - s.Dark*(float64(x)/w+float64(y)/h)/2
			out.Pix[i] = uint8(max(0, min(255, float64(out.Pix[i])*light+r.NormFloat64()*s.Noise)))
		}
	}
	return out
}

// seen places the sheet in the picture.
func (s Shot) seen(g *image.Gray) *image.Gray {
	scale := s.Scale
	if scale == 0 {
		scale = 1
	}
	if s.Turn == 0 && s.Slant == 0 && scale == 1 {
		return g
	}
	w, h := float64(g.Rect.Dx()), float64(g.Rect.Dy())
	sin, cos := math.Sincos(s.Turn * math.Pi / 180)
	pw, ph := scale*(w*math.Abs(cos)+h*math.Abs(sin)), scale*(w*math.Abs(sin)+h*math.Abs(cos))
	out := image.NewGray(image.Rect(0, 0, int(pw)+1, int(ph)+1))
	for y := range out.Rect.Dy() {
		up := 1 - (float64(y)+0.5)/ph
		t := up / (1 - s.Slant*up)
		d := 1 + s.Slant*t
		for x := range out.Rect.Dx() {
			// From the picture back to the sheet before it was slanted, then turned.
			u, v := ((float64(x)+0.5)/pw-0.5)*d*pw/scale, (0.5-t)*ph/scale
			out.Pix[y*out.Stride+x] = between(g, u*cos+v*sin+w/2-0.5, -u*sin+v*cos+h/2-0.5)
		}
	}
	return out
}

// between is the grey at a place between pixels.
func between(g *image.Gray, x, y float64) uint8 {
	if x < -0.5 || y < -0.5 || x > float64(g.Rect.Dx())-0.5 || y > float64(g.Rect.Dy())-0.5 {
		return table
	}
	x0, y0 := math.Floor(x), math.Floor(y)
	at := func(i, j float64) float64 {
		i, j = max(0, min(i, float64(g.Rect.Dx()-1))), max(0, min(j, float64(g.Rect.Dy()-1)))
		return float64(g.Pix[int(j)*g.Stride+int(i)])
	}
	fx, fy := x-x0, y-y0
	top := at(x0, y0)*(1-fx) + at(x0+1, y0)*fx
	low := at(x0, y0+1)*(1-fx) + at(x0+1, y0+1)*fx
	return color.Gray{Y: uint8(top*(1-fy) + low*fy)}.Y
}

func blurred(g *image.Gray, radius int) *image.Gray {
	if radius <= 0 {
		return g
	}
	w, h := g.Rect.Dx(), g.Rect.Dy()
	pass := func(in []uint8, n, m, step, stride int) []uint8 { // along one axis
		out := make([]uint8, len(in))
		for j := range m {
			for i := range n {
				sum, count := 0, 0
				for k := max(0, i-radius); k <= min(n-1, i+radius); k++ {
					sum += int(in[j*stride+k*step])
					count++
				}
				out[j*stride+i*step] = uint8(sum / count)
			}
		}
		return out
	}
	return &image.Gray{Pix: pass(pass(g.Pix, w, h, 1, g.Stride), h, w, g.Stride, 1), Stride: g.Stride, Rect: g.Rect}
}
