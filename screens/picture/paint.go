package picture

import (
	"encoding/binary"
	"image"
	"image/color"
	"math"
	"runtime"
	"sync"
)

// Balance maps the red, green and blue of a picture to those shown; nil leaves
// them alone.
type Balance *[3][256]uint8

// paint draws what the lens shows of a picture into dst, which covers the view
// at so many device pixels to a point, and back beside the picture. The size of
// the picture is that of the original, whatever is loaded.
func paint(dst *image.RGBA, levels Levels, picture Size, l Lens, device float64, b Balance, back color.RGBA) {
	w, h := dst.Rect.Dx(), dst.Rect.Dy()
	ground := binary.LittleEndian.Uint32([]byte{back.R, back.G, back.B, 0xFF})
	if len(levels) == 0 || picture.W <= 0 || picture.H <= 0 || l.Scale <= 0 {
		rows(h, func(from, to int) {
			for y := from; y < to; y++ {
				fill(dst.Pix[y*dst.Stride:y*dst.Stride+4*w], ground)
			}
		})
		return
	}
	view := Size{float64(w) / device, float64(h) / device}
	perPixel := 1 / (l.Scale * device) // pixels of the original per pixel shown
	m := levels.pick(perPixel * float64(levels[0].Rect.Dx()) / picture.W)
	kx, ky := float64(m.Rect.Dx())/picture.W, float64(m.Rect.Dy())/picture.H
	origin := l.ToPicture(XY{}, view)
	cols, x0, x1 := taps(w, origin.X*kx, perPixel*kx, m.Rect.Dx())
	lines, y0, y1 := taps(h, origin.Y*ky, perPixel*ky, m.Rect.Dy())
	for i := range cols {
		cols[i].a *= 4
		cols[i].b *= 4
	}
	rows(h, func(from, to int) {
		for y := from; y < to; y++ {
			o := dst.Pix[y*dst.Stride : y*dst.Stride+4*w]
			if y < y0 || y >= y1 || x0 >= x1 {
				fill(o, ground)
				continue
			}
			fill(o[:4*x0], ground)
			fill(o[4*x1:], ground)
			t := lines[y]
			line(o[4*x0:4*x1], m.Pix[int(t.a)*m.Stride:], m.Pix[int(t.b)*m.Stride:], t.f, cols[x0:x1])
			if b != nil {
				balance(o[4*x0:4*x1], b)
			}
		}
	})
}

// tap says between which two pixels one that is shown lies: f/256 of the way.
type tap struct {
	a, b int32
	f    uint32
}

// taps gives for n pixels shown where they lie among most pixels, and which of
// them lie on the picture.
func taps(n int, origin, step float64, most int) (out []tap, from, to int) {
	out = make([]tap, n)
	from, to = n, 0
	for i := range out {
		at := origin + (float64(i)+0.5)*step
		if at < 0 || at >= float64(most) {
			continue
		}
		from, to = min(from, i), i+1
		at = math.Max(0, at-0.5)
		a := int32(at)
		out[i] = tap{a, min(a+1, int32(most-1)), uint32((at - float64(a)) * 256)}
	}
	if from > to {
		from = to
	}
	return out, from, to
}

// lanes holds two channels of a pixel with room to multiply them at once.
const lanes = 0x00FF00FF

// line mixes two lines of a picture into one that is shown.
func line(o, up, down []byte, f uint32, cols []tap) {
	g := 256 - f
	for i, t := range cols {
		a, b := binary.LittleEndian.Uint32(up[t.a:]), binary.LittleEndian.Uint32(up[t.b:])
		c, d := binary.LittleEndian.Uint32(down[t.a:]), binary.LittleEndian.Uint32(down[t.b:])
		u, v := 256-t.f, t.f
		rbUp := ((a&lanes)*u + (b&lanes)*v) >> 8 & lanes
		gUp := ((a>>8&0xFF)*u + (b>>8&0xFF)*v) >> 8
		rbDown := ((c&lanes)*u + (d&lanes)*v) >> 8 & lanes
		gDown := ((c>>8&0xFF)*u + (d>>8&0xFF)*v) >> 8
		rb := (rbUp*g + rbDown*f) >> 8 & lanes
		gr := (gUp*g + gDown*f) >> 8
		binary.LittleEndian.PutUint32(o[4*i:], rb|gr<<8|0xFF000000)
	}
}

func balance(o []byte, b Balance) {
	for i := 0; i+3 < len(o); i += 4 {
		o[i], o[i+1], o[i+2] = b[0][o[i]], b[1][o[i+1]], b[2][o[i+2]]
	}
}

func fill(o []byte, v uint32) {
	for i := 0; i+3 < len(o); i += 4 {
		binary.LittleEndian.PutUint32(o[i:], v)
	}
}

// rows shares out h lines among the processors.
func rows(h int, do func(from, to int)) {
	n := min(runtime.GOMAXPROCS(0), max(1, h/64)) // judgement: a share worth a goroutine
	if n == 1 {
		do(0, h)
		return
	}
	var all sync.WaitGroup
	for i := range n {
		all.Go(func() { do(h*i/n, h*(i+1)/n) })
	}
	all.Wait()
}
