package scene

import (
	"bytes"
	"flag"
	"image"
	"image/png"
	"os"
	"testing"

	"example.org/driploop/assets"
	"example.org/driploop/screens/look"
)

var writeIcon = flag.Bool("icon", false, "write the application's icon to the assets")

// icon draws the application's icon, side by side pixels: a drop falls off the lowest
// place of a cord's loop, and so never reaches the socket beside it.
func icon(side int) *image.RGBA {
	s := New()
	s.Add(Rect{Min: Pt(16, 16), Max: Pt(496, 496), Radius: 104, Style: Style{Fill: look.Paper, Stroke: look.Ink, Width: 14}})
	// The socket.
	s.Add(Rect{Min: Pt(84, 316), Max: Pt(188, 430), Radius: 22, Style: Style{Fill: look.Sheet, Stroke: look.Ink, Width: 14}})
	for _, x := range []float64{118, 154} {
		s.Add(Line{From: Pt(x, 366), To: Pt(x, 392), Style: Style{Stroke: look.Ink, Width: 12}})
	}
	// The cord: out of the socket, down into its loop, up and away to the tank.
	s.Add(NewPath(Style{Stroke: look.Ink, Width: 24}).MoveTo(Pt(136, 316)).
		CubicTo(Pt(136, 210), Pt(176, 196), Pt(246, 196)).
		CubicTo(Pt(350, 196), Pt(330, 396), Pt(424, 402)))
	// The drop.
	s.Add(NewPath(Style{Fill: look.Teal, Stroke: look.Ink, Width: 10}).MoveTo(Pt(246, 162)).
		CubicTo(Pt(262, 130), Pt(282, 116), Pt(282, 90)).
		CubicTo(Pt(282, 44), Pt(210, 44), Pt(210, 90)).
		CubicTo(Pt(210, 116), Pt(230, 130), Pt(246, 162)).Close())
	s.Add(NewPath(Style{Stroke: look.Sheet, Width: 7}).MoveTo(Pt(228, 94)).CubicTo(Pt(228, 80), Pt(234, 74), Pt(242, 72)))
	img := image.NewRGBA(image.Rect(0, 0, side, side))
	k := float64(side) / 512
	new(Raster).Draw(img, s, Transform{Scale: k, Point: k, Y: float64(side)}, plain)
	return img
}

func TestIconIsTheDrawing(t *testing.T) {
	for _, c := range []struct {
		side int
		file string
		data []byte
	}{{512, "icon.png", assets.Icon}, {128, "icon-window.png", assets.WindowIcon}} {
		want := icon(c.side)
		if *writeIcon {
			var b bytes.Buffer
			if err := png.Encode(&b, want); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile("../../assets/"+c.file, b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		got, err := png.Decode(bytes.NewReader(c.data))
		if err != nil {
			t.Fatal(err)
		}
		if got.Bounds() != want.Bounds() {
			t.Fatalf("%s is %v", c.file, got.Bounds())
		}
		for y := range c.side {
			for x := range c.side {
				r, g, b, a := got.At(x, y).RGBA()
				r2, g2, b2, a2 := want.At(x, y).RGBA()
				// A PNG holds colours without their opacity multiplied in: rounding differs.
				for _, d := range []int{int(r>>8) - int(r2>>8), int(g>>8) - int(g2>>8), int(b>>8) - int(b2>>8), int(a>>8) - int(a2>>8)} {
					if d < -1 || d > 1 {
						t.Fatalf("%s: pixel (%d, %d): the file has %v, the drawing %v", c.file, x, y, got.At(x, y), want.At(x, y))
					}
				}
			}
		}
	}
}
