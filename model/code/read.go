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

// sides are the sizes, in pixels of the longer side, at which a picture is looked
// at, one after the other: a blurred or noisy one is often read best when it is
// smaller, a code that fills little of it only when it is large. // judgement, by
// the pictures of the tests
var sides = []int{1400, 2400, 900, 3600}

const (
	// quickSide is the size at which Found looks. // judgement
	quickSide = 1200
	// most is how many texts are read from a picture. // judgement
	most = 32
)

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
	seen := map[int]bool{}
	for _, side := range sides {
		side = min(side, longer)
		if seen[side] {
			continue
		}
		seen[side] = true
		g := grey(img, side)
		for _, part := range parts(g) {
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

// Found looks quickly whether there is a code in a picture that is right, for a
// picture of which nobody said that there is one. It can miss one.
func Found(img image.Image, right func(text string) bool) bool {
	return slices.ContainsFunc(look(grey(img, min(quickSide, max(img.Bounds().Dx(), img.Bounds().Dy())))), right)
}

// grey shrinks a picture so that its longer side is side pixels.
func grey(img image.Image, side int) *image.Gray {
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	if longer := max(w, h); longer > side && longer > 0 {
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

// parts are the whole picture, then its halves and quarters, which lap over each
// other: several codes side by side can hide each other from a reader that looks
// for three corners anywhere.
func parts(g *image.Gray) []*image.Gray {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	sub := func(x0, y0, x1, y1 int) *image.Gray {
		return g.SubImage(image.Rect(x0, y0, x1, y1).Add(g.Rect.Min)).(*image.Gray)
	}
	return []*image.Gray{g, sub(0, 0, w*6/10, h), sub(w*4/10, 0, w, h), sub(0, 0, w, h*6/10), sub(0, h*4/10, w, h),
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
