package photo

import (
	"image"
	"image/color"
	"image/draw"
)

// picture is a decoded picture as planes: luma and two of colour, or three of
// colour, or one of grey.
type picture struct {
	planes []plane
	ycc    bool // the three planes are Y, Cb, Cr
}

// fit gives the sides of a picture brought down to side; never enlarged.
func fit(w, h, side int) (int, int) {
	long := max(w, h)
	if side <= 0 || long <= side {
		return w, h
	}
	scaled := func(n int) int { return max((n*side+long/2)/long, 1) }
	return scaled(w), scaled(h)
}

// shrink gives img with its longer side at most side (0: as it is), without its
// transparency, which becomes white. Nothing is enlarged.
func shrink(img image.Image, side int) picture {
	b := img.Bounds()
	w, h := fit(b.Dx(), b.Dy(), side)
	var p picture
	switch m := img.(type) {
	case *image.YCbCr:
		c := chromaSize(m)
		p = picture{[]plane{
			{m.Y[m.YOffset(b.Min.X, b.Min.Y):], m.YStride, b.Dx(), b.Dy()},
			{m.Cb[m.COffset(b.Min.X, b.Min.Y):], m.CStride, c.X, c.Y},
			{m.Cr[m.COffset(b.Min.X, b.Min.Y):], m.CStride, c.X, c.Y},
		}, true}
	case *image.Gray:
		p = picture{planes: []plane{{m.Pix[m.PixOffset(b.Min.X, b.Min.Y):], m.Stride, b.Dx(), b.Dy()}}}
	default:
		f := min(boxFor(b.Dx(), w), boxFor(b.Dy(), h))
		p = boxesOf(img, f)
		for i, one := range p.planes {
			p.planes[i] = one.fine(float64(b.Dx())/float64(f), float64(b.Dy())/float64(f), w, h)
		}
		return p
	}
	for i, one := range p.planes {
		p.planes[i] = one.sized(w, h)
	}
	return p
}

// chromaSize is the size of the planes of colour.
func chromaSize(m *image.YCbCr) image.Point {
	b := m.Rect
	w, h := b.Dx(), b.Dy()
	half := func(min, max int) int { return (max+1)/2 - min/2 }
	quarterOf := func(min, max int) int { return (max+3)/4 - min/4 }
	switch m.SubsampleRatio {
	case image.YCbCrSubsampleRatio422:
		w = half(b.Min.X, b.Max.X)
	case image.YCbCrSubsampleRatio420:
		w, h = half(b.Min.X, b.Max.X), half(b.Min.Y, b.Max.Y)
	case image.YCbCrSubsampleRatio440:
		h = half(b.Min.Y, b.Max.Y)
	case image.YCbCrSubsampleRatio411:
		w = quarterOf(b.Min.X, b.Max.X)
	case image.YCbCrSubsampleRatio410:
		w, h = quarterOf(b.Min.X, b.Max.X), half(b.Min.Y, b.Max.Y)
	}
	return image.Pt(w, h)
}

// boxesOf gives the planes of red, green and blue of any picture over white,
// averaged in boxes of f by f, a few rows at a time: the whole is never copied.
func boxesOf(img image.Image, f int) picture {
	b := img.Bounds()
	out := picture{planes: []plane{newPlane((b.Dx()+f-1)/f, (b.Dy()+f-1)/f), newPlane((b.Dx()+f-1)/f, (b.Dy()+f-1)/f), newPlane((b.Dx()+f-1)/f, (b.Dy()+f-1)/f)}}
	strip := image.NewRGBA(image.Rect(0, 0, b.Dx(), f))
	bands := [3]plane{newPlane(b.Dx(), f), newPlane(b.Dx(), f), newPlane(b.Dx(), f)}
	for y := range out.planes[0].h {
		rows := min(f, b.Dy()-y*f)
		area := image.Rect(0, 0, b.Dx(), rows)
		draw.Draw(strip, area, image.NewUniform(color.White), image.Point{}, draw.Src)
		draw.Draw(strip, area, img, image.Pt(b.Min.X, b.Min.Y+y*f), draw.Over)
		n := b.Dx() * rows
		for i := range n {
			px := strip.Pix[i*4:][:3]
			bands[0].pix[i], bands[1].pix[i], bands[2].pix[i] = px[0], px[1], px[2]
		}
		for c := range bands {
			one := bands[c]
			one.h = rows
			copy(out.planes[c].pix[y*out.planes[c].w:], one.boxed(f).pix[:out.planes[c].w])
		}
	}
	return out
}

// upright turns a picture upright and makes it an image: YCbCr without
// subsampling, Gray, or RGBA.
func upright(p picture, orientation int) image.Image {
	for i, one := range p.planes {
		p.planes[i] = one.turned(orientation)
	}
	first := p.planes[0]
	rect := image.Rect(0, 0, first.w, first.h)
	switch {
	case len(p.planes) == 1:
		return &image.Gray{Pix: first.pix, Stride: first.stride, Rect: rect}
	case p.ycc:
		return &image.YCbCr{Y: first.pix, Cb: p.planes[1].pix, Cr: p.planes[2].pix, YStride: first.stride, CStride: p.planes[1].stride,
			SubsampleRatio: image.YCbCrSubsampleRatio444, Rect: rect}
	}
	out := image.NewRGBA(rect)
	for y := range first.h {
		to := out.Pix[y*out.Stride:]
		for x := range first.w {
			to[x*4] = p.planes[0].pix[y*p.planes[0].stride+x]
			to[x*4+1] = p.planes[1].pix[y*p.planes[1].stride+x]
			to[x*4+2] = p.planes[2].pix[y*p.planes[2].stride+x]
			to[x*4+3] = 255
		}
	}
	return out
}

// RGBA gives a picture as bytes of red, green, blue and alpha, which a window
// takes fastest, turned by quarters clockwise.
func RGBA(img image.Image, quarters int) *image.RGBA {
	p := shrink(img, 0)
	orientation := [4]int{1, 6, 3, 8}[quarter(quarters)]
	img = upright(p, orientation)
	if out, ok := img.(*image.RGBA); ok {
		return out
	}
	out := image.NewRGBA(img.Bounds())
	draw.Draw(out, out.Rect, img, image.Point{}, draw.Src)
	return out
}
