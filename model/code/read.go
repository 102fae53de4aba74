package code

import (
	"context"
	"image"
	"image/draw"
	"slices"

	"github.com/makiuchi-d/gozxing"
	multi "github.com/makiuchi-d/gozxing/multi/qrcode"
	"github.com/makiuchi-d/gozxing/qrcode"
	xdraw "golang.org/x/image/draw"
)

// view is one way of looking at a picture.
type view struct {
	side      int     // pixels of the longer side
	up, right float64 // the slant that is taken out: see straightened
	parts     bool    // its halves and quarters too
}

// views are tried one after the other, what is quick and often enough first. A
// blurred or noisy code is often read best when the picture is smaller, one that
// fills little of it only when it is large; a view from the side is straightened,
// because the reader expects the fourth corner of a code about where three others put
// it. // judgement, by the pictures of the tests
var views = []view{{side: 1400}, {side: 2400}, {side: 1400, up: 0.12}, {side: 1400, up: -0.12}, {side: 1400, right: 0.12}, {side: 1400, right: -0.12},
	{side: 1400, parts: true}, {side: 900}, {side: 2400, parts: true}, {side: 1400, up: 0.24}, {side: 1400, up: -0.24}, {side: 1400, right: 0.24}, {side: 1400, right: -0.24},
	{side: 2400, up: 0.12}, {side: 2400, up: -0.12}, {side: 3600, parts: true}}

// most is how many texts are read from a picture. // judgement
const most = 32

// Read gives the texts of the codes in a picture, each once, in no order. It stops
// looking as soon as enough says so, which may be nil. Errors: ctx's own.
func Read(ctx context.Context, img image.Image, enough func(texts []string) bool) ([]string, error) {
	var texts []string
	done := func(more []string) bool {
		for _, t := range more {
			if t != "" && len(texts) < most && !slices.Contains(texts, t) {
				texts = append(texts, t)
			}
		}
		return len(texts) > 0 && (enough == nil || enough(texts)) || len(texts) == most
	}
	longer := max(img.Bounds().Dx(), img.Bounds().Dy())
	if img.Bounds().Empty() {
		return nil, ctx.Err()
	}
	seen := map[view]bool{}
	for _, v := range views {
		if v.side > longer {
			v.side = min(v.side, enlarged*longer)
		}
		if seen[v] {
			continue
		}
		seen[v] = true
		g := grey(img, v.side)
		if v.up != 0 || v.right != 0 {
			g = straightened(g, v.up, v.right)
		}
		looks := []*image.Gray{g}
		if v.parts {
			looks = parts(g)
		}
		for _, part := range looks {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			if done(look(part)) {
				return texts, nil
			}
		}
	}
	return texts, nil
}

// enlarged is how many times a small picture is enlarged: a reader that takes the
// middle of each module finds it more surely among more pixels. // judgement
const enlarged = 2

// straightened takes a slant out of a picture: what is at x, y from the middle, in
// shares of the sides, was seen at x/d and y/d with d = 1 + up·y + right·x.
func straightened(g *image.Gray, up, right float64) *image.Gray {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	out := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		v := 0.5 - (float64(y)+0.5)/float64(h)
		for x := range w {
			u := (float64(x)+0.5)/float64(w) - 0.5
			d := 1 + up*v + right*u
			i, j := int((u/d+0.5)*float64(w)), int((0.5-v/d)*float64(h))
			out.Pix[y*out.Stride+x] = 255
			if i >= 0 && j >= 0 && i < w && j < h {
				out.Pix[y*out.Stride+x] = g.Pix[j*g.Stride+i]
			}
		}
	}
	return out
}

// Found looks once whether there is a code in a picture that is right, at the size
// that the picture has. It can miss one that Read finds.
func Found(img image.Image, right func(text string) bool) bool {
	return slices.ContainsFunc(look(grey(img, max(img.Bounds().Dx(), img.Bounds().Dy()))), right)
}

// grey shrinks or enlarges a picture so that its longer side is side pixels.
func grey(img image.Image, side int) *image.Gray {
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	longer := max(w, h)
	if side > longer && longer > 0 {
		out := image.NewGray(image.Rect(0, 0, w*side/longer, h*side/longer))
		xdraw.CatmullRom.Scale(out, out.Rect, img, b, draw.Src, nil)
		return out
	}
	if longer > side && longer > 0 {
		w, h = max(1, w*side/longer), max(1, h*side/longer)
		out := image.NewGray(image.Rect(0, 0, w, h))
		xdraw.ApproxBiLinear.Scale(out, out.Rect, smooth(img, longer/side), b, draw.Src, nil)
		return out
	}
	out := image.NewGray(image.Rect(0, 0, w, h))
	draw.Draw(out, out.Rect, img, b.Min, draw.Src)
	return out
}

// smooth averages blocks of n by n pixels, so that shrinking passes nothing over;
// n of 1 or less leaves the picture as it is.
func smooth(img image.Image, n int) image.Image {
	if n <= 1 {
		return img
	}
	b := img.Bounds()
	g := image.NewGray(b)
	draw.Draw(g, b, img, b.Min, draw.Src)
	out := image.NewGray(image.Rect(b.Min.X, b.Min.Y, b.Min.X+b.Dx(), b.Min.Y+b.Dy()))
	for y := 0; y < b.Dy(); y += n {
		for x := 0; x < b.Dx(); x += n {
			sum, count := 0, 0
			for j := y; j < min(y+n, b.Dy()); j++ {
				for i := x; i < min(x+n, b.Dx()); i++ {
					sum += int(g.Pix[j*g.Stride+i])
					count++
				}
			}
			for j := y; j < min(y+n, b.Dy()); j++ {
				for i := x; i < min(x+n, b.Dx()); i++ {
					out.Pix[j*out.Stride+i] = uint8(sum / count)
				}
			}
		}
	}
	return out
}

// parts are the halves and quarters of a picture, which lap over each other: several codes side by side can hide each other from a reader that looks
// for three corners anywhere.
func parts(g *image.Gray) []*image.Gray {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	sub := func(x0, y0, x1, y1 int) *image.Gray {
		return g.SubImage(image.Rect(x0, y0, x1, y1).Add(g.Rect.Min)).(*image.Gray)
	}
	return []*image.Gray{sub(0, 0, w*6/10, h), sub(w*4/10, 0, w, h), sub(0, 0, w, h*6/10), sub(0, h*4/10, w, h),
		sub(0, 0, w*6/10, h*6/10), sub(w*4/10, 0, w, h*6/10), sub(0, h*4/10, w*6/10, h), sub(w*4/10, h*4/10, w, h)}
}

var tryHarder = map[gozxing.DecodeHintType]interface{}{gozxing.DecodeHintType_TRY_HARDER: true}

// look reads the codes of a picture as it is, by a threshold that follows the light
// and then by one for the whole picture.
func look(g *image.Gray) (texts []string) {
	defer func() { // a picture is a stranger's: what a reader trips over is no code
		if recover() != nil {
			texts = nil
		}
	}()
	source := gozxing.NewLuminanceSourceFromImage(g)
	for _, b := range []gozxing.Binarizer{gozxing.NewHybridBinarizer(source), gozxing.NewGlobalHistgramBinarizer(source)} {
		bitmap, err := gozxing.NewBinaryBitmap(b)
		if err != nil {
			continue
		}
		if all, err := multi.NewQRCodeMultiReader().DecodeMultiple(bitmap, tryHarder); err == nil {
			for _, r := range all {
				texts = append(texts, r.GetText())
			}
		}
		if len(texts) > 0 {
			return texts
		}
		if r, err := qrcode.NewQRCodeReader().Decode(bitmap, tryHarder); err == nil {
			return []string{r.GetText()}
		}
	}
	return texts
}
