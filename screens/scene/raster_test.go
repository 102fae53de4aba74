package scene

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/draw"
	"testing"

	"fyne.io/fyne/v2/theme"

	"example.org/driploop/screens/look"
)

var plain = look.PaletteOf(theme.VariantLight)

// blank gives a white picture; draws draws on it with (0, 0) at its bottom left
// and one pixel to the millimetre and to the point.
func blank(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
	return img
}

func draws(img *image.RGBA, items ...Item) {
	s := New()
	s.Add(items...)
	new(Raster).Draw(img, s, Transform{Scale: 1, Point: 1, Y: float64(img.Rect.Dy())}, plain)
}

func inked(img *image.RGBA) image.Rectangle {
	var r image.Rectangle
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if img.RGBAAt(x, y) != (color.RGBA{255, 255, 255, 255}) {
				r = r.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return r
}

// at gives the pixel with the drawing's (x, y) at its lower left corner.
func at(img *image.RGBA, x, y int) color.RGBA { return img.RGBAAt(x, img.Rect.Dy()-1-y) }

func opaque(n look.Name) color.RGBA {
	c := plain(n)
	return color.RGBA{c.R, c.G, c.B, 255}
}

var white = color.RGBA{255, 255, 255, 255}

func probe(t *testing.T, img *image.RGBA, what string, x, y int, want color.RGBA) {
	t.Helper()
	if got := at(img, x, y); got != want {
		t.Errorf("%s at (%d, %d): expected %v, got %v", what, x, y, want, got)
	}
}

func TestFillsByProbe(t *testing.T) {
	img := blank(200, 200)
	draws(img,
		Rect{Min: Pt(10, 10), Max: Pt(60, 40), Style: Style{Fill: look.Teal}},
		Rect{Min: Pt(180, 190), Max: Pt(100, 100), Radius: 20, Style: Style{Fill: look.Rust}}, // corners either way round
		Circle(Pt(50, 150), 30, Style{Fill: look.Leaf}),
		Polyline{Points: []Point{{110, 10}, {190, 10}, {110, 90}}, Closed: true, Style: Style{Fill: look.Violet}},
		// A square with a square hole.
		NewPath(Style{Fill: look.Ink}).MoveTo(Pt(10, 60)).LineTo(Pt(50, 60)).LineTo(Pt(50, 100)).LineTo(Pt(10, 100)).Close().
			MoveTo(Pt(20, 70)).LineTo(Pt(20, 90)).LineTo(Pt(40, 90)).LineTo(Pt(40, 70)).Close(),
	)
	teal, rust, leaf, violet, ink := opaque(look.Teal), opaque(look.Rust), opaque(look.Leaf), opaque(look.Violet), opaque(look.Ink)
	probe(t, img, "rect corner", 10, 10, teal)
	probe(t, img, "rect corner", 59, 39, teal)
	probe(t, img, "outside", 60, 39, white)
	probe(t, img, "outside", 59, 40, white)
	probe(t, img, "round corner", 102, 102, white)
	probe(t, img, "round side", 101, 145, rust)
	probe(t, img, "circle right", 77, 150, leaf)
	probe(t, img, "circle 45 degrees inside", 70, 170, leaf)
	probe(t, img, "circle 45 degrees outside", 73, 173, white)
	probe(t, img, "triangle", 120, 20, violet)
	probe(t, img, "beyond the long side", 160, 60, white)
	probe(t, img, "ring", 15, 80, ink)
	probe(t, img, "hole", 30, 80, white)
}

func TestDashesByProbe(t *testing.T) {
	img := blank(100, 20)
	draws(img, Line{From: Pt(10, 10), To: Pt(90, 10), Style: Style{Stroke: look.Ink, Width: 4, Dash: []float64{10, 6}}})
	ink := opaque(look.Ink)
	for k := range 5 {
		probe(t, img, "first of dash", 10+16*k, 10, ink)
		probe(t, img, "last of dash", 19+16*k, 10, ink)
		probe(t, img, "first of gap", 20+16*k, 10, white)
		probe(t, img, "last of gap", 25+16*k, 10, white)
	}
	probe(t, img, "above", 12, 12, white)
	probe(t, img, "below", 12, 7, white)
}

// A dash goes on round a corner.
func TestDashRoundACorner(t *testing.T) {
	parts := dashes([]Point{{0, 0}, {10, 0}, {10, 10}}, false, []float64{4, 2, 6})
	// 4 on, 2 off, 6 on (6 to 12: round the corner), 4 off, 2 on, …
	want := [][]Point{{{0, 0}, {4, 0}}, {{6, 0}, {10, 0}, {10, 2}}, {{10, 6}, {10, 8}}}
	if len(parts) != len(want) {
		t.Fatalf("expected %v, got %v", want, parts)
	}
	for i := range want {
		if len(parts[i]) != len(want[i]) {
			t.Fatalf("part %d: expected %v, got %v", i, want[i], parts[i])
		}
		for j := range want[i] {
			if parts[i][j].Sub(want[i][j]).Len() > 1e-9 {
				t.Errorf("part %d: expected %v, got %v", i, want[i], parts[i])
			}
		}
	}
}

// The stroke of a circle lies between its two radii all round, without gaps.
func TestStrokedArcByProbe(t *testing.T) {
	img := blank(240, 240)
	draws(img, Circle(Pt(120, 120), 90, Style{Stroke: look.Ink, Width: 8}))
	ink := opaque(look.Ink)
	c := Pt(120, 120)
	for y := range 240 {
		for x := range 240 {
			d := Pt(float64(x)+0.5, float64(y)+0.5).Sub(c).Len()
			switch got := at(img, x, y); {
			case d > 87.5 && d < 92.5 && int(got.R)-int(ink.R) > 3:
				t.Fatalf("(%d, %d), %.1f from the centre: expected ink, got %v", x, y, d, got)
			case (d < 85 || d > 95) && got != white:
				t.Fatalf("(%d, %d), %.1f from the centre: expected white, got %v", x, y, d, got)
			}
		}
	}
}

// A wide curve has no cracks at the bends of its chords.
func TestWideCurveHasNoCracks(t *testing.T) {
	img := blank(300, 300)
	draws(img, NewPath(Style{Stroke: look.Ink, Width: 40}).MoveTo(Pt(40, 250)).CubicTo(Pt(40, 60), Pt(80, 46), Pt(150, 46)).CubicTo(Pt(260, 46), Pt(220, 240), Pt(270, 250)))
	// Along every row of the picture the ink is without light pixels inside.
	for y := range 300 {
		var runs, grey int
		was := white
		for x := range 300 {
			c := img.RGBAAt(x, y)
			if c != white && was == white {
				runs++
			}
			if c != white && c != opaque(look.Ink) && x > 0 && x < 299 && img.RGBAAt(x-1, y) == opaque(look.Ink) && img.RGBAAt(x+1, y) == opaque(look.Ink) && int(c.R)-int(opaque(look.Ink).R) > 8 {
				grey++
			}
			was = c
		}
		if runs > 2 || grey > 0 {
			t.Errorf("row %d: %d runs of ink, %d light pixels within", y, runs, grey)
		}
	}
}

func TestThinUprightLinesAreCrisp(t *testing.T) {
	for _, y := range []float64{10, 10.2, 10.5, 10.77} {
		img := blank(40, 20)
		draws(img, Line{From: Pt(5, y), To: Pt(35, y), Style: Style{Stroke: look.Ink, Width: 1}})
		n := 0
		for k := range 20 {
			if got := at(img, 20, k); got == opaque(look.Ink) {
				n++
			} else if got != white {
				t.Errorf("line at %v: pixel %d is grey: %v", y, k, got)
			}
		}
		if n != 1 {
			t.Errorf("line at %v covers %d pixels", y, n)
		}
	}
}

func TestAlphaBlends(t *testing.T) {
	img := blank(20, 20)
	draws(img, Rect{Max: Pt(20, 20), Style: Style{Fill: look.SignCautionText, Alpha: 0.5}}) // black
	got := at(img, 10, 10)
	if got.R < 126 || got.R > 129 || got.A != 255 {
		t.Errorf("half black on white: expected about 127, got %v", got)
	}
}

func TestTurnedTextReadsUpwards(t *testing.T) {
	img := blank(60, 120)
	draws(img, Text{At: Pt(30, 10), S: "IIIIIIII", Size: 20, Turned: true})
	ink := inked(img)
	if ink.Dy() < 2*ink.Dx() || ink.Max.X > 31 || ink.Max.Y > 111 {
		t.Errorf("ink %v is not a column to the left of x = 30 and above y = 10", ink)
	}
}

func TestRasterIsReproducible(t *testing.T) {
	var kept Raster
	var first []byte
	for i := range 3 {
		img := blank(640, 480)
		s := sample()
		tr := Fit(s, Frame{W: 640, H: 480, Point: 1})
		r := &kept
		if i == 2 {
			r = new(Raster) // a fresh one agrees with one that has drawn before
		}
		r.Draw(img, s, tr, plain)
		if first == nil {
			first = append(first, img.Pix...)
		} else if !bytes.Equal(first, img.Pix) {
			t.Errorf("drawing %d differs from the first", i)
		}
	}
	a, err := PNG(sample(), 300, 300, theme.VariantDark)
	if err != nil {
		t.Fatal(err)
	}
	b, _ := PNG(sample(), 300, 300, theme.VariantDark)
	if !bytes.Equal(a, b) {
		t.Error("two PNGs differ")
	}
}

func TestPictureRefusesSizes(t *testing.T) {
	for _, c := range [][2]int{{0, 10}, {10, -1}, {1 << 20, 1 << 20}} {
		var se *SizeError
		if _, err := PNG(New(), c[0], c[1], theme.VariantLight); !errors.As(err, &se) || se.W != c[0] {
			t.Errorf("%v: expected a SizeError, got %v", c, err)
		}
	}
}

// Zoomed without measure, or off the picture, nothing fails and nothing is slow.
func TestFarAwayDrawings(t *testing.T) {
	s := sample()
	for _, tr := range []Transform{{Scale: 1e7, Point: 1, X: -3e9, Y: 5e9}, {Scale: 1, Point: 1, X: 5000, Y: -5000}, {Scale: 1e-9, Point: 1}} {
		new(Raster).Draw(blank(50, 50), s, tr, plain)
	}
}

// Source: the toolkit's Noto Sans has Cyrillic, the embedded family has not.
func TestSpareFont(t *testing.T) {
	if !Covers("Zebra danio 25.1 °C – ½", Regular) {
		t.Error("the embedded family lacks Latin")
	}
	const cyrillic = "\u0416\u0434"
	book.spares, book.glyphs = [2][]*spare{}, map[glyphKey]glyphInfo{}
	if Covers(cyrillic, Regular) {
		t.Fatal("the embedded family has Cyrillic: the test needs another script")
	}
	box := TextSize(cyrillic, Regular, 40).Width
	Prefer("") // puts the spare fonts back
	if !Covers(cyrillic, Regular) || TextSize(cyrillic, Regular, 40).Width == box {
		t.Error("the spare font is not measured")
	}
	img := blank(120, 60)
	draws(img, Text{At: Pt(10, 15), S: cyrillic, Size: 40})
	ink := inked(img)
	near(t, "ink width", float64(ink.Dx()), TextSize(cyrillic, Regular, 40).Width, 6)

	parts := split("pH "+cyrillic+" 7", Regular)
	if len(parts) != 3 || parts[0].font != -1 || parts[1].font < 0 || parts[1].s != cyrillic || parts[2].font != -1 {
		t.Errorf("split: %+v", parts)
	}
	d := document()
	s := New()
	s.Add(Text{At: Pt(0, 0), S: "pH " + cyrillic})
	NewPDF(d).Draw(s, 10, 10, 50, 50, plain)
	out := bytesOf(t, d)
	if !bytes.Contains(out, utf16be(cyrillic)) || bytes.Count(out, []byte("/FontFile2")) != 2 {
		t.Error("the PDF does not show the spare font's text in a font of its own")
	}
}

func BenchmarkRaster(b *testing.B) {
	s := sample()
	img := image.NewRGBA(image.Rect(0, 0, 800, 700))
	t := Fit(s, Frame{W: 800, H: 700, Margins: Even(8), Point: 1})
	var r Raster
	b.ReportAllocs()
	for b.Loop() {
		r.Draw(img, s, t, plain)
	}
	b.ReportMetric(float64(s.Len()), "items")
}

func BenchmarkFit(b *testing.B) {
	s := sample()
	for b.Loop() {
		Fit(s, Frame{W: 800, H: 700, Margins: Even(8), Point: 1})
	}
}
