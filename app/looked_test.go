//go:build e2e && linux

package main

import (
	"image"
	"image/draw"
	"testing"
)

// looked is what a picture of a window is like.
type looked struct {
	colours int     // how many there are
	most    float64 // share of the most frequent one
	bright  float64 // mean, 0 to 1
}

// lookAt counts the colours of a picture.
func lookAt(img image.Image) looked {
	b := img.Bounds()
	all := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(all, all.Rect, img, b.Min, draw.Src)
	count := map[[3]uint8]int{}
	sum := 0
	for i := 0; i < len(all.Pix); i += 4 {
		c := [3]uint8(all.Pix[i : i+3])
		count[c]++
		sum += int(c[0]) + int(c[1]) + int(c[2])
	}
	n := float64(len(all.Pix) / 4)
	out := looked{colours: len(count), bright: float64(sum) / (3 * 0xFF * n)}
	for _, c := range count {
		out.most = max(out.most, float64(c)/n)
	}
	return out
}

// written wants a picture that shows text: it has shades of more than two
// colours and is not one plain ground.
func (l looked) written(t testing.TB) {
	t.Helper()
	if l.colours < 20 || l.most > 0.985 {
		t.Errorf("the window is blank: %d colours, one of them over %.1f %%", l.colours, 100*l.most)
	}
}
