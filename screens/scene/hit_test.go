package scene

import (
	"testing"

	"example.org/driploop/screens/look"
)

func TestHitTest(t *testing.T) {
	s := sample()
	for _, c := range []struct {
		x, y float64
		want ID
	}{
		{305, 1000, "tank"},   // open water: the tank's area
		{305, 690, "stand"},   // the top
		{20, 300, "stand"},    // a leg
		{300, 300, ""},        // between the legs, though within the stand's box
		{533, 900, "heater"},  // in front of the tank
		{80, 850, "fish0"},    // the fish is on top of the tank
		{-124, 760, "socket"}, //
		{-76, 740, "heater"},  // its cord, beside the tank
		{-600, -600, ""},
	} {
		if got := s.HitTest(c.x, c.y); got != c.want {
			t.Errorf("(%v, %v): expected %q, got %q", c.x, c.y, c.want, got)
		}
		tr := Fit(s, Frame{W: 800, H: 700, Point: 1})
		p := tr.Device(Pt(c.x, c.y))
		if got := tr.Hit(s, p.X, p.Y, 3); got != c.want {
			t.Errorf("(%v, %v) on the device: expected %q, got %q", c.x, c.y, c.want, got)
		}
	}
}

func TestTextAndMarkersAreHitByTheirSizeOnTheDevice(t *testing.T) {
	s := New()
	s.Group("word", func() { s.Add(Text{At: Pt(0, 0), S: "thermometer", Size: 20}) })
	s.Group("mark", func() {
		s.Add(Marker{At: Pt(0, 100), Size: 30, Shape: Diamond, Style: Style{Fill: look.Teal}})
		s.Group("inner", func() { s.Add(Line{From: Pt(200, 0), To: Pt(200, 100), Style: Style{Stroke: look.Ink}}) })
	})
	tr := Transform{Scale: 0.1, Point: 1, X: 100, Y: 100}
	for _, c := range []struct {
		x, y float64
		want ID
	}{
		{150, 95, "word"}, {150, 60, ""}, // about 100 wide and 20 high
		{110, 90, "mark"}, {113, 78, ""}, // half a diamond's corner is empty
		{120, 92, "inner"}, // above the word
	} {
		if got := tr.Hit(s, c.x, c.y, 0); got != c.want {
			t.Errorf("(%v, %v): expected %q, got %q", c.x, c.y, c.want, got)
		}
	}
	if got := tr.Hit(s, 124, 76, 3); got != "" {
		t.Errorf("beyond the slack: %q", got)
	}
	if got := s.IDs(); len(got) != 3 || got[0] != "word" || got[1] != "mark" || got[2] != "inner" {
		t.Errorf("IDs: %v", got)
	}
}
