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

// differ is the share of pixels that two pictures do not have in common.
func differ(a, b image.Image) float64 {
	if a.Bounds().Size() != b.Bounds().Size() {
		return 1
	}
	size := a.Bounds().Size()
	pix := func(img image.Image) []uint8 {
		all := image.NewRGBA(image.Rectangle{Max: size})
		draw.Draw(all, all.Rect, img, img.Bounds().Min, draw.Src)
		return all.Pix
	}
	p, q := pix(a), pix(b)
	n := 0
	for i := 0; i < len(p); i += 4 {
		if [3]uint8(p[i:i+3]) != [3]uint8(q[i:i+3]) {
			n++
		}
	}
	return float64(n) / float64(len(p)/4)
}

// The least share of pixels that another page changes, and the most that a
// blinking cursor does.
const (
	otherPage = 0.01
	blinking  = 0.001
)

// turned is the picture of the window once it shows something else than before
// and has come to rest: a page is painted a little after the program is there.
func (p *program) turned(before image.Image) image.Image {
	p.t.Helper()
	var last image.Image
	eventually(p.t, func() string {
		now := p.picture(p.window)
		rest := last != nil && differ(last, now) < blinking
		last = now
		if before != nil && differ(before, now) < otherPage {
			return "the window still shows the page before"
		}
		if !rest {
			return "the window does not come to rest"
		}
		return ""
	})
	return last
}
