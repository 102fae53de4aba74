package scene

import (
	"fmt"

	"example.org/driploop/screens/look"
)

// sample is a tank on a stand of about 150 items, as the program draws them.
func sample() *Scene {
	s := New()
	ink := Style{Stroke: look.Ink}
	s.Add(Line{From: Pt(-250, 0), To: Pt(800, 0), Style: Style{Stroke: look.Ink, Width: 2}})
	s.Add(Hatch{From: Pt(-250, 0), To: Pt(800, 0), Style: Style{Stroke: look.Ink, Width: 1}})
	s.Group("stand", func() {
		wood := Style{Stroke: look.Ink, Width: 1.25, Fill: look.Wood}
		for _, x := range []float64{0, 565} {
			s.Add(Rect{Min: Pt(x, 0), Max: Pt(x+45, 675), Style: wood})
		}
		s.Add(Rect{Min: Pt(0, 180), Max: Pt(610, 198), Style: wood})
		s.Add(Rect{Min: Pt(-18, 675), Max: Pt(628, 700), Style: wood})
	})
	s.Group("tank", func() {
		s.Area(Box{Pt(0, 700), Pt(610, 1110)})
		s.Add(Rect{Min: Pt(6, 706), Max: Pt(604, 1060), Style: Style{Fill: look.Water}})
		s.Add(Line{From: Pt(6, 1060), To: Pt(604, 1060), Style: Style{Stroke: look.Teal, Width: 2}})
		s.Add(Polyline{Points: []Point{{6, 706}, {604, 706}, {604, 770}, {300, 752}, {6, 756}}, Closed: true, Style: Style{Stroke: look.Ink, Width: 1, Fill: look.Gravel}})
		s.Add(Rect{Min: Pt(0, 700), Max: Pt(610, 1110), Style: Style{Stroke: look.Glass, Width: 3}})
	})
	for i := range 12 {
		x := 190 + 25*float64(i)
		s.Add(NewPath(Style{Stroke: look.Leaf, Width: 2}).MoveTo(Pt(x, 752)).CubicTo(Pt(x-20, 800), Pt(x+25, 850), Pt(x+8, 900+8*float64(i%4))))
	}
	s.Group("heater", func() {
		s.Add(Rect{Min: Pt(525, 800), Max: Pt(542, 1000), Radius: 8, Style: Style{Stroke: look.Ink, Fill: look.Sheet}})
		s.Add(Line{From: Pt(533, 830), To: Pt(533, 980), Style: Style{Stroke: look.Rust, Width: 2}})
		s.Add(NewPath(ink).MoveTo(Pt(533, 1000)).CubicTo(Pt(520, 1130), Pt(320, 1150), Pt(140, 1080)).
			CubicTo(Pt(-80, 980), Pt(-70, 860), Pt(-76, 740)).CubicTo(Pt(-80, 560), Pt(-140, 560), Pt(-124, 720)))
	})
	s.Group("socket", func() {
		s.Add(Rect{Min: Pt(-152, 728), Max: Pt(-96, 800), RadiusPt: 4, Style: Style{Stroke: look.Ink, Fill: look.Case}})
	})
	for i := range 10 {
		c := Pt(60+45*float64(i), 850+17*float64(i%5))
		s.Group(ID(fmt.Sprintf("fish%d", i)), func() {
			s.Add(NewPath(Style{Stroke: look.Ink, Width: 1, Fill: look.FishWarm}).MoveTo(c).QuadTo(c.Add(Pt(22, 16)), c.Add(Pt(44, 0))).QuadTo(c.Add(Pt(22, -16)), c).LineTo(c.Add(Pt(-14, 10))).LineTo(c.Add(Pt(-14, -10))).Close())
			s.Add(Circle(c.Add(Pt(34, 2)), 2, Style{Fill: look.Ink}))
		})
	}
	for i := range 24 {
		x := 20 + 24*float64(i)
		s.Add(Arrow{From: Pt(x, 750), To: Pt(x, 708), Head: 5, Style: Style{Stroke: look.Rust}})
	}
	for i := range 40 {
		s.Add(Line{From: Pt(640, 700+10*float64(i)), To: Pt(648+4*float64(i%5), 700+10*float64(i)), Style: Style{Stroke: look.SoftInk, Width: 1}})
	}
	for i := range 20 {
		s.Add(Text{At: Pt(680, 320-16*float64(i)), S: "12.5", Size: 10, Colour: look.SoftInk})
	}
	s.Add(
		Dimension{From: Pt(0, 1110), To: Pt(610, 1110), Offset: 34, Text: "610 mm"},
		Dimension{From: Pt(700, 1110), To: Pt(700, 700), Offset: 34, Text: "410"},
		Dimension{From: Pt(700, 700), To: Pt(700, 0), Offset: 34, Text: "700"},
		Dimension{From: Pt(542, 800), To: Pt(525, 800), Offset: 10, Text: "17"},
		Text{At: Pt(305, 1085), S: "68 kg", Size: look.Section + 4, Weight: Bold, Colour: look.Rust, H: Middle, V: Centre, Back: look.Paper},
		Text{At: Pt(305, 400), S: "Danio rerio", Weight: Italic, H: Middle},
		Rect{Min: Pt(200, 450), Max: Pt(420, 560), Style: Style{Stroke: look.Limit, Dash: []float64{6, 4}}},
		Ellipse{Centre: Pt(310, 505), RX: 90, RY: 30, Style: Style{Stroke: look.Violet, Dash: []float64{5, 3}, Fill: look.Violet, Alpha: 0.4}},
	)
	for i, sh := range []Shape{Round, Square, Diamond, Triangle, Cross, Tick} {
		s.Add(Marker{At: Pt(130+70*float64(i), 300), Shape: sh, Size: 14, Style: Style{Stroke: look.Teal, Fill: look.Sheet}})
	}
	return s
}
