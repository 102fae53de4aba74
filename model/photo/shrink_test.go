package photo

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"math"
	"testing"

	xdraw "golang.org/x/image/draw"
	"pgregory.net/rapid"
)

// An even surface stays what it is at any size.
func TestEvenStaysEven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Byte().Draw(t, "v")
		w, h := rapid.IntRange(1, 300).Draw(t, "w"), rapid.IntRange(1, 300).Draw(t, "h")
		p := newPlane(w, h)
		for i := range p.pix {
			p.pix[i] = v
		}
		got := p.sized(rapid.IntRange(1, 300).Draw(t, "to w"), rapid.IntRange(1, 300).Draw(t, "to h"))
		for i, x := range got.pix {
			if x != v {
				t.Fatalf("sample %d is %d, want %d", i, x, v)
			}
		}
	})
}

// Boxes are the plain average, edges included.
func TestBoxesAreAverages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(1, 70).Draw(t, "w"), rapid.IntRange(1, 70).Draw(t, "h")
		f := 1 << rapid.IntRange(1, 4).Draw(t, "f")
		p := newPlane(w, h)
		copy(p.pix, rapid.SliceOfN(rapid.Byte(), w*h, w*h).Draw(t, "pix"))
		got := p.boxed(f)
		for y := range got.h {
			for x := range got.w {
				sum, n := 0, 0
				for yy := y * f; yy < min(y*f+f, h); yy++ {
					for xx := x * f; xx < min(x*f+f, w); xx++ {
						sum += int(p.pix[yy*w+xx])
						n++
					}
				}
				if d := float64(got.pix[y*got.w+x]) - float64(sum)/float64(n); math.Abs(d) > 0.51 {
					t.Fatalf("box %d, %d: %d, want %g", x, y, got.pix[y*got.w+x], float64(sum)/float64(n))
				}
			}
		}
	})
}

// Beside the library's finest filter over the whole picture, for every format of
// pixels, the quick way is 35 dB or better.
func TestShrinkBesideCatmullRom(t *testing.T) {
	base := scene(1203, 901)
	rgba := image.NewRGBA(base.Rect)
	draw.Draw(rgba, rgba.Rect, base, image.Point{}, draw.Src)
	gray := image.NewGray(base.Rect)
	draw.Draw(gray, gray.Rect, base, image.Point{}, draw.Src)
	deep := image.NewNRGBA64(base.Rect)
	draw.Draw(deep, deep.Rect, base, image.Point{}, draw.Src)
	for name, m := range map[string]image.Image{"YCbCr": base, "RGBA": rgba, "Gray": gray, "NRGBA64": deep,
		"part of YCbCr": base.SubImage(image.Rect(101, 51, 1103, 803)), "part of RGBA": rgba.SubImage(image.Rect(101, 51, 1103, 803))} {
		for _, side := range []int{512, 300, 64} {
			got := upright(shrink(m, side), 1)
			want := image.NewRGBA(got.Bounds())
			xdraw.CatmullRom.Scale(want, want.Rect, m, m.Bounds(), xdraw.Src, nil)
			if db := psnr(t, got, want); db < 35 {
				t.Errorf("%s at %d: %.1f dB", name, side, db)
			}
		}
	}
}

// Turning is that of EXIF's own drawing of the eight: where the first row and
// the first column lie. Source: JEITA CP-3451C, 4.6.4, table of tag 0x0112.
func TestTurnsAreThoseOfEXIF(t *testing.T) {
	// 1 2 3
	// 4 5 6
	p := plane{[]byte{1, 2, 3, 4, 5, 6}, 3, 3, 2}
	for o, want := range map[int][]byte{1: {1, 2, 3, 4, 5, 6}, 2: {3, 2, 1, 6, 5, 4}, 3: {6, 5, 4, 3, 2, 1}, 4: {4, 5, 6, 1, 2, 3},
		5: {1, 4, 2, 5, 3, 6}, 6: {4, 1, 5, 2, 6, 3}, 7: {6, 3, 5, 2, 4, 1}, 8: {3, 6, 2, 5, 1, 4}} {
		if got := p.turned(o); !bytes.Equal(got.pix, want) {
			t.Errorf("orientation %d: %v, want %v", o, got.pix, want)
		}
	}
}

// The person's quarters and a point's turns agree.
func TestPointsTurnWithTheirPicture(t *testing.T) {
	m := image.NewRGBA(image.Rect(0, 0, 40, 20))
	m.Set(30, 5, color.RGBA{255, 255, 255, 255})
	for q := -4; q <= 4; q++ {
		img := RGBA(m, q)
		x, y := Point{30.5 / 40 * 1000, 5.5 / 20 * 1000}.Turned(q).On(img.Rect.Dx(), img.Rect.Dy())
		if img.RGBAAt(int(x), int(y)).R != 255 {
			t.Errorf("after %d quarters the point is not at %g, %g", q, x, y)
		}
		if back := (Point{123, 456}).Turned(q).Turned(-q); back != (Point{123, 456}) {
			t.Errorf("turned by %d and back: %v", q, back)
		}
	}
}

// What is see-through lies on white.
func TestSeeThroughIsWhite(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 100, 100))
	if got := upright(shrink(m, 10), 1).At(5, 5); !near(got, [3]int{255, 255, 255}, 0) {
		t.Errorf("%v", got)
	}
}

// A picture of 48 megapixels keeps within its sides, and small ones are not
// enlarged.
func TestSidesOfSmallPictures(t *testing.T) {
	for _, c := range []struct{ w, h, side, tw, th int }{{8000, 6000, 512, 512, 384}, {3000, 4000, 512, 384, 512}, {100, 50, 512, 100, 50}, {5000, 1, 512, 512, 1}, {3, 2, 0, 3, 2}} {
		if w, h := fit(c.w, c.h, c.side); w != c.tw || h != c.th {
			t.Errorf("%d x %d to %d: %d x %d, want %d x %d", c.w, c.h, c.side, w, h, c.tw, c.th)
		}
	}
	small, _ := jpeg.Decode(bytes.NewReader(jpegOf(t, scene(30, 20), 90)))
	if b := upright(shrink(small, 512), 6).Bounds(); b.Dx() != 20 || b.Dy() != 30 {
		t.Errorf("%v", b)
	}
}
