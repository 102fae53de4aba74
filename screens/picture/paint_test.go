package picture

import (
	"image"
	"image/color"
	"math/rand/v2"
	"testing"

	"golang.org/x/image/draw"
)

func noise(w, h int, seed uint64) *image.RGBA {
	r := rand.New(rand.NewPCG(seed, 1))
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range m.Pix {
		m.Pix[i] = uint8(r.Uint32())
		if i%4 == 3 {
			m.Pix[i] = 255
		}
	}
	return m
}

// smooth is a picture without edges, on which samplers must agree.
func smooth(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			m.SetRGBA(x, y, color.RGBA{uint8(255 * x / w), uint8(255 * y / h), uint8(255 * (x + y) / (w + h)), 255})
		}
	}
	return m
}

func worst(a, b *image.RGBA) int {
	w := 0
	for i := range a.Pix {
		if d := int(a.Pix[i]) - int(b.Pix[i]); d > w {
			w = d
		} else if -d > w {
			w = -d
		}
	}
	return w
}

func TestOneToOneIsThePictureItself(t *testing.T) {
	m := noise(97, 61, 1)
	out := image.NewRGBA(m.Rect)
	paint(out, NewLevels(m), Size{97, 61}, Lens{1, XY{48.5, 30.5}}, 1, nil, color.RGBA{})
	if d := worst(m, out); d != 0 {
		t.Errorf("pixel for pixel differs by up to %d", d)
	}
}

// The reference is the bilinear scaler of golang.org/x/image/draw.
func TestPaintAgreesWithTheReferenceScaler(t *testing.T) {
	m := smooth(1200, 900)
	for _, k := range []float64{0.25, 0.5, 1.5, 3} {
		w, h := int(1200*k), int(900*k)
		out, want := image.NewRGBA(image.Rect(0, 0, w, h)), image.NewRGBA(image.Rect(0, 0, w, h))
		paint(out, NewLevels(m), Size{1200, 900}, Lens{k, XY{600, 450}}, 1, nil, color.RGBA{})
		draw.BiLinear.Scale(want, want.Rect, m, m.Rect, draw.Src, nil)
		if d := worst(want, out); d > 3 {
			t.Errorf("at %v the picture differs by up to %d of 255", k, d)
		}
	}
}

func TestLessLoadedShowsTheSamePlace(t *testing.T) {
	m := smooth(1200, 900)
	small := image.NewRGBA(image.Rect(0, 0, 400, 300))
	draw.BiLinear.Scale(small, small.Rect, m, m.Rect, draw.Src, nil)
	l := Lens{0.8, XY{400, 500}}
	a, b := image.NewRGBA(image.Rect(0, 0, 500, 300)), image.NewRGBA(image.Rect(0, 0, 500, 300))
	paint(a, NewLevels(m), Size{1200, 900}, l, 1, nil, color.RGBA{})
	paint(b, NewLevels(small), Size{1200, 900}, l, 1, nil, color.RGBA{})
	if d := worst(a, b); d > 4 {
		t.Errorf("the picture jumps by up to %d of 255 when more is loaded", d)
	}
}

func TestBesideThePictureIsGround(t *testing.T) {
	m, ground := noise(40, 40, 2), color.RGBA{9, 8, 7, 255}
	out := image.NewRGBA(image.Rect(0, 0, 100, 50))
	paint(out, NewLevels(m), Size{40, 40}, Lens{1, XY{20, 20}}, 1, nil, ground)
	for _, at := range []image.Point{{0, 0}, {29, 25}, {70, 25}, {50, 4}, {50, 45}} {
		if got := out.RGBAAt(at.X, at.Y); got != ground {
			t.Errorf("at %v is %v, not the ground", at, got)
		}
	}
	if got := out.RGBAAt(30, 5); got != m.RGBAAt(0, 0) {
		t.Errorf("the first pixel is %v", got)
	}
}

func TestFourQuarterTurnsAreNone(t *testing.T) {
	m := noise(31, 17, 3)
	if got := Turned(m, 1).At(16, 0); got != m.At(0, 0) {
		t.Errorf("after a quarter turn the upper left corner is %v in the upper right", got)
	}
	out := Turned(Turned(Turned(Turned(m, 1), 1), 1), 1).(*image.RGBA)
	if worst(m, out) != 0 {
		t.Error("four quarter turns changed the picture")
	}
	if worst(Turned(m, 3).(*image.RGBA), Turned(m, -1).(*image.RGBA)) != 0 {
		t.Error("three quarter turns are not one back")
	}
}

func TestBurnLeavesThePictureAlone(t *testing.T) {
	m := smooth(300, 200)
	before := append([]uint8(nil), m.Pix...)
	out := Burn(m, []Mark{{Shape: Ring, Points: []Point{{500, 500}, {700, 500}}}}, nil)
	if string(before) != string(m.Pix) {
		t.Error("drawing marks into a copy changed the picture")
	}
	if d := worst(m, out); d < 60 {
		t.Errorf("the copy shows no mark: it differs by %d", d)
	}
}

// What one frame of panning a picture of 12 million pixels costs, beside the
// scaler of golang.org/x/image/draw on the same part.
func BenchmarkPan(b *testing.B) {
	m := smooth(4000, 3000)
	levels := NewLevels(m)
	out := image.NewRGBA(image.Rect(0, 0, 960, 700))
	for _, k := range []float64{0.24, 1, 4} {
		name := map[float64]string{0.24: "fit", 1: "whole", 4: "near"}[k]
		b.Run(name+"/ours", func(b *testing.B) {
			l := Lens{k, XY{2000, 1500}}
			for b.Loop() {
				l = l.Moved(XY{0.7, 0.3})
				paint(out, levels, Size{4000, 3000}, l, 1, nil, color.RGBA{})
			}
		})
		b.Run(name+"/reference", func(b *testing.B) {
			w, h := 480/k, 350/k
			part := image.Rect(2000-int(w), 1500-int(h), 2000+int(w), 1500+int(h)).Intersect(m.Rect)
			for b.Loop() {
				draw.ApproxBiLinear.Scale(out, out.Rect, m, part, draw.Src, nil)
			}
		})
	}
}
