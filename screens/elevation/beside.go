package elevation

import (
	"math"

	"example.org/driploop/model/fish"
	"example.org/driploop/screens/fauna"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Comparison is an animal full-grown against a tank. Lengths are metres; the
// words are already translated, with their units, and an empty one is not drawn.
type Comparison struct {
	Code  fish.Code
	Adult float64 // > 0
	Today float64 // as it is now or as it is sold; 0 draws none
	Tank  Tank    // outer sizes; where Length or Height is not known no tank is drawn

	// AdultLabel stands at the animal's dimension line, LengthLabel and
	// HeightLabel at the tank's, TodayLabel under the small one.
	AdultLabel, LengthLabel, HeightLabel, TodayLabel string

	// Room is the width and height of the place it is shown in, in points. 0
	// means 420 by 260.
	Room struct{ W, H float64 }
}

// Beside draws an adult to scale before the tank that it is meant for, each with
// its dimension line: an animal that does not fit reaches over the glass. Show
// it fitted ([scene.View] does); its parts are [PartTank], [PartWater],
// [PartLength], [PartHeight] and the animal's [FishPart]. Nothing is drawn of an
// animal whose length is not known.
func Beside(c Comparison) *scene.Scene {
	s := scene.New()
	adult, today := mm(c.Adult), mm(c.Today)
	if adult == 0 {
		return s
	}
	t := arrange(Spec{Tank: c.Tank})
	room := fauna.Box(c.Code, adult)
	mid := scene.Pt(0, 0)
	area := scene.Box{Min: room.Min, Max: room.Max}
	if t.tankKnown {
		mid = scene.Pt(t.length/2, t.height*0.47)
		area = scene.Box{Min: scene.Pt(math.Min(0, mid.X+room.Min.X), math.Min(0, mid.Y+room.Min.Y)), Max: scene.Pt(math.Max(t.length, mid.X+room.Max.X), math.Max(t.height, mid.Y+room.Max.Y))}
	}
	w, h := or(c.Room.W, 420), or(c.Room.H, 260)
	scale := math.Max(leastScale, math.Min((w-70)/area.W(), (h-104)/area.H()))
	if t.tankKnown {
		drawPane(s, t.length, t.height, t.wall, c.Tank.Rimless)
		if c.LengthLabel != "" {
			s.Group(PartLength, func() {
				s.Add(scene.Dimension{From: scene.Pt(0, area.Max.Y), To: scene.Pt(t.length, area.Max.Y), Offset: 12, Text: c.LengthLabel})
			})
		}
		if c.HeightLabel != "" {
			s.Group(PartHeight, func() {
				s.Add(scene.Dimension{From: scene.Pt(area.Max.X, 0), To: scene.Pt(area.Max.X, t.height), Offset: -24, Text: c.HeightLabel})
			})
		}
	}
	s.Group(FishPart(c.Code, false, 0), func() {
		s.Add(fauna.Animal(c.Code, adult, fauna.Pose{At: mid, Scale: scale})...)
		if c.AdultLabel != "" {
			s.Add(scene.Dimension{From: scene.Pt(mid.X-adult/2, area.Min.Y), To: scene.Pt(mid.X+adult/2, area.Min.Y), Offset: -28, Text: c.AdultLabel, Colour: look.Rust, Size: look.Body})
		}
		if today > 0 && today < adult*0.95 {
			b := fauna.Box(c.Code, today)
			at := scene.Pt(area.Min.X-b.Min.X+6/scale, area.Min.Y-(58/scale)-b.Max.Y)
			s.Add(fauna.Animal(c.Code, today, fauna.Pose{At: at, Scale: scale})...)
			s.Add(scene.Text{S: c.TodayLabel, At: scene.Pt(at.X+b.Max.X, at.Y), Shift: scene.Pt(8, 0), V: scene.Centre, Size: look.Note, Colour: look.SoftInk})
		}
	})
	return s
}

// drawPane draws a tank from the front with its water, standing on y 0.
func drawPane(s *scene.Scene, length, height, wall float64, rimless bool) {
	s.Group(PartTank, func() {
		s.Add(scene.Rect{Max: scene.Pt(length, height), Style: scene.Style{Fill: look.Sheet, Alpha: 0.55}})
	})
	top := height * 0.9
	s.Group(PartWater, func() {
		s.Add(scene.Rect{Min: scene.Pt(wall, wall), Max: scene.Pt(length-wall, top), Style: scene.Style{Fill: look.Water, Alpha: 0.74}},
			scene.Line{From: scene.Pt(wall, top), To: scene.Pt(length-wall, top), Style: scene.Style{Stroke: look.Teal, Width: strong}})
	})
	s.Group(PartTank, func() {
		s.Add(scene.Rect{Max: scene.Pt(length, height), Style: scene.Style{Stroke: look.Glass, Width: 2.4}})
		if !rimless {
			s.Add(scene.Line{From: scene.Pt(0, height), To: scene.Pt(length, height), Style: scene.Style{Stroke: look.Ink, Width: 3}})
		}
	})
}
