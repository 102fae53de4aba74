package scene

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// MaxPixels is the most pixels that Picture and PNG make at once.
const MaxPixels = 64 << 20 // judgement: 256 MB of memory

// Picture paints the scene, fitted into w by h pixels with a margin of 8 points,
// on Paper, in the colours of the variant. point is the number of pixels per
// point, > 0: 1 for a plain screen, 2 for a dense one or for print.
func Picture(s *Scene, w, h int, point float64, v fyne.ThemeVariant) (*image.RGBA, error) {
	if w <= 0 || h <= 0 || w > MaxPixels/h {
		return nil, &SizeError{w, h}
	}
	if point <= 0 || !finite(point) {
		point = 1
	}
	p := look.PaletteOf(v)
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.NewUniform(p(look.Paper)), image.Point{}, draw.Src)
	t := Fit(s, Frame{W: float64(w), H: float64(h), Margins: Even(8), Point: point})
	new(Raster).Draw(img, s, t, p)
	return img, nil
}

// PNG gives Picture at one pixel per point as a PNG file.
func PNG(s *Scene, w, h int, v fyne.ThemeVariant) ([]byte, error) {
	img, err := Picture(s, w, h, 1, v)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// SizeError tells that a picture of W by H pixels cannot be made: both must be
// at least 1 and their product at most MaxPixels.
type SizeError struct{ W, H int }

func (e *SizeError) Error() string {
	return fmt.Sprintf("scene: a picture of %d x %d pixels: accepted is 1 to %d pixels in all", e.W, e.H, MaxPixels)
}
