package elevation

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

var rooms = [][2]float64{{530, 740}, {330, 620}, {400, 460}, {900, 600}, {240, 408}, {220, 400}}

// everyRoom runs f over the samples in rooms of several sizes.
func everyRoom(t *testing.T, f func(t *testing.T, name string, s Spec)) {
	for name, s := range samples() {
		for _, r := range rooms {
			s.Room.W, s.Room.H = r[0], r[1]
			f(t, name, s)
		}
	}
	everySpec(t, f)
}

func TestFitsAsReckoned(t *testing.T) {
	everyRoom(t, func(t *testing.T, name string, s Spec) {
		sc, l := Build(s), arrange(s)
		got := scene.Fit(sc, Frame(s))
		if math.Abs(got.Scale-l.place.Scale) > 0.012*l.place.Scale {
			t.Errorf("%s in %v: reckoned with %.5f points per mm, fitted with %.5f", name, s.Room, l.place.Scale, got.Scale)
		}
		e, f := sc.Extent(got), l.frame
		if e.Min.X < f.Left-1 || e.Min.Y < f.Top-1 || e.Max.X > f.W-f.Right+1 || e.Max.Y > f.H-f.Bottom+1 {
			t.Errorf("%s in %v: drawing %v leaves its frame", name, s.Room, e)
		}
	})
}

// Beside and above the drawing are strips for the dimensions alone.
func TestNothingCoversTheDimensions(t *testing.T) {
	everyRoom(t, func(t *testing.T, name string, s Spec) {
		sc, l := Build(s), arrange(s)
		ours := map[scene.ID]bool{PartLength: true, PartHeight: true, PartStandHeight: true, PartFloor: true, PartNotes: true}
		x, off := l.dimensionsAt()
		line := l.place.Device(scene.Pt(x, l.area.Max.Y))
		size := scene.TextSize("0", scene.Regular, look.Note)
		for _, id := range sc.IDs() {
			if ours[id] {
				continue
			}
			e := sc.ExtentOf(id, l.place)
			if s.Labels.Length != "" && e.Min.Y < line.Y-8 {
				t.Errorf("%s in %v: %s reaches into the length at %.1f, its line is at %.1f", name, s.Room, id, e.Min.Y, line.Y-8)
			}
			if s.Labels.Height == "" || id == PartFigure || id == PartReactions || id == PartHighlight {
				continue
			}
			if edge := line.X + off - 5 - (size.Ascent + size.Descent); off > 0 && e.Max.X > edge+1 {
				t.Errorf("%s in %v: %s reaches into the heights at %.1f, expected at most %.1f", name, s.Room, id, e.Max.X, edge)
			}
			if edge := line.X + off; off < 0 && e.Min.X < edge {
				t.Errorf("%s in %v: %s reaches into the heights at %.1f, expected at least %.1f", name, s.Room, id, e.Min.X, edge)
			}
		}
		if r, n := sc.ExtentOf(PartReactions, l.place), sc.ExtentOf(PartNotes, l.place); !r.Empty() && !n.Empty() && r.Overlaps(n) {
			t.Errorf("%s in %v: reactions %v and notes %v overlap", name, s.Room, r, n)
		}
		if r, n := sc.ExtentOf(PartStandHeight, l.place), sc.ExtentOf(PartNotes, l.place); !r.Empty() && !n.Empty() && r.Overlaps(n) {
			t.Errorf("%s in %v: stand height %v and notes %v overlap", name, s.Room, r, n)
		}
	})
}

// In the least room, as beside large text in a small window, no two numbers are set over
// one another.
func TestNumbersKeepApart(t *testing.T) {
	s := loaded()
	s.Tank.Length, s.Tank.Height, s.Stand.Length = 0.508, 0.305, 0.52
	s.Socket = Socket{Present: true, Height: 0.9}
	s.Loads.Reactions = [2]Reaction{{23.6, "23,6 kg"}, {23.6, "23,6 kg"}}
	s.Labels.Length, s.Labels.Height, s.Labels.StandHeight = "50,8 cm", "30,5 cm", "71,1 cm"
	for _, w := range []float64{149, 170, 200, 330} {
		s.Room.W, s.Room.H = w, 430
		l := arrange(s)
		var all []scene.Written
		for _, x := range Build(s).Texts(l.place) {
			switch x.S {
			case s.Labels.Length, s.Labels.Height, s.Labels.StandHeight, s.Loads.Reactions[0].Label:
				all = append(all, x)
			}
		}
		for i, a := range all {
			for _, b := range all[:i] {
				if a.Box.Overlaps(b.Box) {
					t.Errorf("in a room of %v: %q %v and %q %v overlap", w, a.S, a.Box, b.S, b.Box)
				}
			}
		}
		if want := 4; len(all) < want {
			t.Errorf("in a room of %v: %d numbers, want at least %d", w, len(all), want)
		}
	}
}

func TestScaleStaysFromStepToStep(t *testing.T) {
	want := arrange(bare()).place
	with := placed()
	with.Loads = Loads{Arrows: true, Reactions: [2]Reaction{{20, "20 kg"}, {20, "20 kg"}}}
	with.Labels.Weight = "40 kg"
	with.Lid = Lid{State: Running, Lamp: true, Cord: Cord{Present: true, Plugged: true}}
	for name, s := range map[string]Spec{"placed": placed(), "loads": with, "running": running(), "bag": bagged()} {
		if got := arrange(s).place; got != want {
			t.Errorf("%s: expected %v as for the bare tank, got %v", name, want, got)
		}
	}
}

func TestScaleNoteIsTrue(t *testing.T) {
	s := bare()
	var n float64
	s.Labels.Scale = func(v float64) string { n = v; return "note" }
	sc := Build(s)
	if want := scene.Fit(sc, Frame(s)).Ratio(1 / scene.PointMM); math.Abs(n-want) > 0.01*want {
		t.Errorf("expected 1 : %.3f, got 1 : %.3f", want, n)
	}
	if !has(sc, PartNotes) {
		t.Error("the scale note is not drawn")
	}
}

func TestHighlightRingsThePart(t *testing.T) {
	for _, id := range []scene.ID{PartTank, PartHeater, PartFilter, PartSocket, PartHeaterCord, "danio", "plant-1", "rock-1"} {
		s := running()
		s.Highlight = id
		sc, l := Build(s), arrange(s)
		part, ring := sc.ExtentOf(id, l.place), sc.ExtentOf(PartHighlight, l.place)
		if ring.Empty() || !ring.Contains(part.Min) || !ring.Contains(part.Max) {
			t.Errorf("%s: ring %v does not hold %v", id, ring, part)
		}
	}
	s := running()
	s.Highlight = "nothing"
	if has(Build(s), PartHighlight) {
		t.Error("a ring is drawn about a part that is not there")
	}
}

func TestCompactShowsLess(t *testing.T) {
	s := loaded()
	c := s
	c.Compact = true
	full, small := Build(s), Build(c)
	if small.Len() >= full.Len() {
		t.Errorf("compact has %d items, the full drawing %d", small.Len(), full.Len())
	}
	for _, id := range []scene.ID{PartReactions, PartSag, PartFigure} {
		if !has(full, id) || has(small, id) {
			t.Errorf("%s: expected in the full drawing alone", id)
		}
	}
}

func TestUnknownStandsIn(t *testing.T) {
	nan := math.NaN()
	for name, s := range map[string]Spec{
		"zero": {}, "no stand height": {Tank: bare().Tank, Stand: Stand{Kind: Cabinet}},
		"NaN": {Tank: Tank{Length: nan, Height: nan, Water: nan}, Stand: Stand{Kind: PostFrame, Height: nan}, Labels: bare().Labels},
	} {
		sc := Build(s)
		if err := sc.Err(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if !has(sc, PartTank) || !has(sc, PartStand) || !has(sc, PartFloor) {
			t.Errorf("%s: expected stand-ins for tank and stand, got %v", name, sc.IDs())
		}
		for _, id := range []scene.ID{PartStandHeight, PartFeet, PartReactions} {
			if has(sc, id) {
				t.Errorf("%s: %s is drawn though the stand is not known", name, id)
			}
		}
	}
}

// odd draws a length as it may come from a damaged record.
func odd(t *rapid.T, label string) float64 {
	return rapid.OneOf(rapid.Float64Range(0, 3), rapid.SampledFrom([]float64{0, -1, 1e-9, 9.99, 1e6, 1e308, math.NaN(), math.Inf(1), math.Inf(-1)})).Draw(t, label)
}

func TestOddNumbersNeverPanic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(label string) float64 { return odd(t, label) }
		k := func(label string, most int) int { return rapid.IntRange(-1, most).Draw(t, label) }
		flag := func(label string) bool { return rapid.Bool().Draw(t, label) }
		cord := Cord{Present: true, Plugged: flag("plugged"), Length: n("cord")}
		s := Spec{
			Tank: Tank{Shape: Shape(k("shape", 6)), Material: Material(k("material", 2)), Rimless: flag("rimless"), Length: n("length"), Width: n("width"), Height: n("height"), Wall: n("wall"), Water: n("water")},
			Stand: Stand{Kind: StandKind(k("kind", 4)), Height: n("stand"), Length: n("stand length"), Top: n("top"), Span: n("span"), Leg: n("leg"), Rail: n("rail"), LowerRail: n("lower"),
				Shelf: flag("shelf"), BackPanel: flag("back"), Diagonal: flag("diagonal"), Sag: n("sag"), Mat: n("mat")},
			Filter:      Filter{State: State(k("fs", 3)), Kind: FilterKind(k("fk", 3)), W: n("fw"), H: n("fh"), Intake: n("intake"), At: n("fat"), Cord: cord},
			Heater:      Heater{State: State(k("hs", 3)), Length: n("hl"), Diameter: n("hd"), MinLevel: n("min"), At: n("hat"), Cord: cord},
			Thermometer: Thermometer{State: State(k("ts", 3)), Length: n("tl"), At: n("tat")},
			Lid:         Lid{State: State(k("ls", 3)), Height: n("lid"), Lamp: flag("lamp"), Cord: cord},
			Socket:      Socket{Present: flag("socket"), Height: n("socket height"), Side: Side(k("side", 1)), Strip: flag("strip")},
			Gravel:      Gravel{n("front"), n("back"), n("left"), n("right")},
			Ornaments:   []Ornament{{"o", OrnamentKind(k("ok", 2)), n("oat"), n("ow"), n("oh")}},
			Plants:      []Plant{{"p", PlantKind(k("pk", 5)), n("pat"), n("ph"), n("ps")}},
			Fish:        []Fish{{ID: "f", Length: n("len"), Code: anyKind(t).Code, Count: k("count", 60), Adult: n("adult"), Planned: flag("planned")}},
			Bag:         Bag{Afloat: flag("bag"), Water: n("bag water"), Fish: []Fish{{ID: "g", Length: n("glen"), Count: k("gcount", 9)}}},
			Loads:       Loads{Arrows: true, Reactions: [2]Reaction{{n("r0"), "1"}, {n("r1"), "2"}}},
			Figure:      Figure(k("figure", 4)),
			Labels:      Labels{"a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k", []string{"", "l"}, scaleNote},
			Highlight:   PartTank, Compact: flag("compact"), Paper: flag("paper"),
		}
		s.Room.W, s.Room.H = n("room w")*400, n("room h")*400
		sc := Build(s)
		if err := sc.Err(); err != nil {
			t.Fatalf("an item was left out: %v", err)
		}
		if b := sc.Bounds(); b.Empty() || b.W() > 60e3 || b.H() > 60e3 {
			t.Fatalf("bounds %v", b)
		}
	})
}
