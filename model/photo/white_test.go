package photo

import (
	"errors"
	"image"
	"image/color"
	"math"
	"testing"

	"example.org/driploop/model/working"
)

// Values of IEC 61966-2-1's own transfer function, worked by hand: 8-bit 188 is
// 0.5029 of the light, 128 is 0.2159, 10 lies on the straight part: 10/255/12.92.
func TestTransferFunctionOfSRGB(t *testing.T) {
	for v, want := range map[float64]float64{0: 0, 10: 0.0030353, 128: 0.2158605, 188: 0.5028865, 255: 1} {
		if got := Linear(v / 255); math.Abs(got-want) > 1e-6 {
			t.Errorf("light of %g: %.7f, want %.7f", v, got, want)
		}
	}
	for i := range 256 {
		v := float64(i) / 255
		if back := Encoded(Linear(v)); math.Abs(back-v) > 1e-6 {
			t.Errorf("%d there and back is %g", i, back*255)
		}
	}
}

func flat(c color.RGBA) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, 100, 60))
	for y := range 60 {
		for x := range 100 {
			m.SetRGBA(x, y, c)
		}
	}
	return m
}

var middle = Patch{Centre: Point{500, 500}, Radius: 100}

// By hand: a patch of 200, 160, 120 has light 0.577580, 0.351533, 0.187821, together
// 0.2126·0.577580 + 0.7152·0.351533 + 0.0722·0.187821 = 0.387771, so the gains are
// 0.671372, 1.103085, 2.064577 and the patch becomes 167.26 in all three.
func TestBalanceByHand(t *testing.T) {
	m := flat(color.RGBA{200, 160, 120, 255})
	g, err := Balance(m, middle)
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range [][2]float64{{g.R, 0.671372}, {g.G, 1.103085}, {g.B, 2.064577}} {
		if math.Abs(c[0]-c[1]) > 1e-5*c[1] {
			t.Errorf("gain %d is %.5f, want %.5f", i, c[0], c[1])
		}
	}
	g.Apply(m)
	if got := m.RGBAAt(50, 30); got != (color.RGBA{167, 167, 167, 255}) {
		t.Errorf("the patch became %v, want 167 in all", got)
	}
}

// What is white already stays; the patch alone decides, not what lies about it.
func TestBalanceOfWhiteChangesNothing(t *testing.T) {
	m := flat(color.RGBA{30, 60, 90, 255})
	for y := 10; y < 50; y++ {
		for x := 30; x < 70; x++ {
			m.SetRGBA(x, y, color.RGBA{180, 180, 180, 255})
		}
	}
	g, err := Balance(m, middle)
	if err != nil || math.Abs(g.R-1) > 1e-9 || math.Abs(g.G-1) > 1e-9 || math.Abs(g.B-1) > 1e-9 {
		t.Errorf("%v %v", g, err)
	}
}

// A patch that can tell nothing is refused with its reason.
func TestPatchesThatAreRefused(t *testing.T) {
	for want, m := range map[working.Key]*image.RGBA{
		"refuse.photo.white_dark":     flat(color.RGBA{20, 20, 20, 255}),
		"refuse.photo.white_clipped":  flat(color.RGBA{255, 240, 200, 255}),
		"refuse.photo.white_coloured": flat(color.RGBA{220, 120, 60, 255}),
	} {
		_, err := Balance(m, middle)
		var r *working.Refusal
		if !errors.As(err, &r) || r.Code != want {
			t.Errorf("%v: %v, want %s", m.RGBAAt(0, 0), err, want)
		}
	}
	for _, p := range []Patch{{Centre: Point{-1, 5}, Radius: 15}, {Centre: Point{5, 5}}, {Centre: Point{5, 5}, Radius: 251}, {Centre: Point{5, math.NaN()}, Radius: 15}} {
		if _, err := Balance(flat(color.RGBA{180, 180, 180, 255}), p); err == nil {
			t.Errorf("%v was taken", p)
		}
	}
	// A patch at the corner is the part of it that lies on the picture.
	if _, err := Balance(flat(color.RGBA{180, 170, 160, 255}), Patch{Centre: Point{0, 0}, Radius: 15}); err != nil {
		t.Errorf("at the corner: %v", err)
	}
}
