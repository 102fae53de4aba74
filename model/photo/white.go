package photo

import (
	"image"
	"math"

	"example.org/driploop/model/working"
)

// Gains multiply red, green and blue in linear light.
type Gains struct{ R, G, B float64 }

// luminance of linear sRGB. Source: IEC 61966-2-1:1999, the second row of the
// matrix from linear RGB to XYZ (ITU-R BT.709 primaries, D65).
const lumaR, lumaG, lumaB = 0.2126, 0.7152, 0.0722

// What a patch must be to be balanced by. // judgement
const (
	leastLight  = 0.03 // mean luminance; below it noise decides the colour
	mostClipped = 0.01 // share of pixels with a channel at clippedAt or more
	clippedAt   = 250
	mostRatio   = 4.0 // of the strongest channel's mean to the weakest's
)

// Linear gives the light of an sRGB value, both 0 to 1.
// Source: IEC 61966-2-1:1999, 5.2.
func Linear(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// Encoded gives the sRGB value of a light, both 0 to 1.
// Source: IEC 61966-2-1:1999, 5.2.
func Encoded(l float64) float64 {
	if l <= 0.0031308 {
		return 12.92 * l
	}
	return 1.055*math.Pow(l, 1/2.4) - 0.055
}

var linear8 = func() (t [256]float64) {
	for i := range t {
		t[i] = Linear(float64(i) / 255)
	}
	return t
}()

// Balance gives the gains that make a patch of img grey, each channel scaled by
// itself in linear light, the patch as bright as it was. Source: the coefficient
// law of J. von Kries (1902), here on the channels of the picture. Refusals:
// a patch that is not on the picture, too dark, too bright to tell its colour, or
// so coloured that it cannot be white under any lamp.
func Balance(img *image.RGBA, p Patch) (Gains, error) {
	if err := p.Check(); err != nil {
		return Gains{}, err
	}
	b := img.Bounds()
	x, y := p.Centre.On(b.Dx(), b.Dy())
	r := max(p.Radius/1000*float64(min(b.Dx(), b.Dy())), 1)
	area := image.Rect(int(math.Floor(x-r)), int(math.Floor(y-r)), int(math.Ceil(x+r)), int(math.Ceil(y+r))).Add(b.Min).Intersect(b)
	var sum [3]float64
	n, clipped := 0, 0
	for py := area.Min.Y; py < area.Max.Y; py++ {
		for px := area.Min.X; px < area.Max.X; px++ {
			if math.Hypot(float64(px-b.Min.X)+0.5-x, float64(py-b.Min.Y)+0.5-y) > r {
				continue
			}
			at := img.Pix[img.PixOffset(px, py):][:3]
			n++
			if max(at[0], at[1], at[2]) >= clippedAt {
				clipped++
			}
			for c, v := range at {
				sum[c] += linear8[v]
			}
		}
	}
	if n == 0 {
		return Gains{}, working.Refuse("white", "refuse.photo.patch")
	}
	red, green, blue := sum[0]/float64(n), sum[1]/float64(n), sum[2]/float64(n)
	light := lumaR*red + lumaG*green + lumaB*blue
	switch {
	case float64(clipped) > mostClipped*float64(n):
		return Gains{}, working.Refuse("white", "refuse.photo.white_clipped")
	case light < leastLight:
		return Gains{}, working.Refuse("white", "refuse.photo.white_dark")
	case max(red, green, blue) > mostRatio*min(red, green, blue):
		return Gains{}, working.Refuse("white", "refuse.photo.white_coloured")
	}
	return Gains{light / red, light / green, light / blue}, nil
}

// Apply changes img by the gains. What would be brighter than white is white.
func (g Gains) Apply(img *image.RGBA) {
	var tables [3][256]byte
	for c, gain := range []float64{g.R, g.G, g.B} {
		for v := range tables[c] {
			tables[c][v] = byte(math.Round(Encoded(min(linear8[v]*gain, 1)) * 255))
		}
	}
	for y := range img.Rect.Dy() {
		row := img.Pix[y*img.Stride:][:img.Rect.Dx()*4]
		for ; len(row) >= 4; row = row[4:] {
			row[0], row[1], row[2] = tables[0][row[0]], tables[1][row[1]], tables[2][row[2]]
		}
	}
}
