package elevation

import (
	"fmt"
)

func scaleNote(n float64) string { return fmt.Sprintf("Drawn to scale 1 : %.0f", n) }

// bare is 10 US gal (508 x 254 x 305 mm), dry, on an open frame 700 mm high.
func bare() Spec {
	s := Spec{
		Tank:  Tank{Length: 0.508, Width: 0.254, Height: 0.305, Wall: 0.005},
		Stand: Stand{Kind: PostFrame, Height: 0.7, Top: 0.025, Leg: 0.045, LowerRail: 0.16, Rail: 0.045},
		Labels: Labels{Length: "508 mm", Height: "305 mm", StandHeight: "700 mm", Scale: scaleNote,
			Figure: "hand, 190 mm"},
		Figure: Hand,
	}
	s.Socket = Socket{Present: true, Height: 0.35}
	return s
}

// placed has its kit in place, nothing plugged in.
func placed() Spec {
	s := bare()
	s.Gravel = Gravel{Front: 0.035, Back: 0.06}
	s.Filter = Filter{State: Placed, Cord: Cord{Present: true}}
	s.Heater = Heater{State: Placed, Length: 0.19, MinLevel: 0.15, Cord: Cord{Present: true}}
	s.Thermometer = Thermometer{State: Placed}
	s.Plants = []Plant{
		{ID: "plant-1", Kind: Ribbon, At: 0.38, Height: 0.2, Spread: 0.1},
		{ID: "plant-2", Kind: Rosette, At: 0.72, Height: 0.1},
		{ID: "plant-3", Kind: Stem, At: 0.93, Height: 0.16},
	}
	s.Ornaments = []Ornament{{ID: "rock-1", Kind: Rock, At: 0.55, W: 0.09, H: 0.06}}
	s.Labels.MinLevel = "min"
	return s
}

// running is filled, plugged in and stocked.
func running() Spec {
	s := placed()
	s.Tank.Water = 0.26
	s.Filter.State, s.Filter.Cord.Plugged = Running, true
	s.Heater.State, s.Heater.Cord.Plugged = Running, true
	s.Thermometer.State = Running
	s.Labels.Temperature = "25.1 °C"
	s.Labels.Notes = []string{"Changed 24 Nov", "Dashed: full-grown"}
	s.Fish = []Fish{
		{ID: "danio", Code: "danio-rerio", Length: 0.035, Count: 6},
		{ID: "cory", Code: "corydoras-panda", Length: 0.04, Count: 4},
		{ID: "angel", Code: "pterophyllum-scalare", Length: 0.05, Count: 1, Adult: 0.15},
	}
	return s
}

func loaded() Spec {
	s := placed()
	s.Tank = Tank{Length: 0.61, Width: 0.305, Height: 0.41, Wall: 0.006, Water: 0.36}
	s.Stand = Stand{Kind: Furniture, Height: 0.7, Top: 0.018, Span: 0.6, Length: 0.66, Sag: 0.0026, BackPanel: true, Shelf: true}
	s.Loads = Loads{Arrows: true, Reactions: [2]Reaction{{34, "34 kg"}, {34, "34 kg"}}}
	s.Labels.Weight, s.Labels.Sag = "68 kg", "2.6 mm"
	s.Labels.Length, s.Labels.Height = "610 mm", "410 mm"
	return s
}

func bagged() Spec {
	s := running()
	s.Fish = nil
	s.Lid = Lid{}
	s.Bag = Bag{Afloat: true, Water: 0.001, Fish: []Fish{{ID: "new", Length: 0.03, Count: 3}}}
	return s
}

func shaped(sh Shape) Spec {
	s := running()
	s.Tank.Shape = sh
	s.Lid = Lid{State: Running, Lamp: true, Cord: Cord{Present: true, Plugged: true}}
	switch sh {
	case BowFront:
		s.Tank = Tank{Shape: sh, Length: 0.76, Width: 0.38, Height: 0.46, Wall: 0.008, Water: 0.4}
		s.Stand = Stand{Kind: Cabinet, Height: 0.72, Top: 0.03}
		s.Labels.Length, s.Labels.Height, s.Labels.StandHeight = "760 mm", "460 mm", "720 mm"
		s.Ornaments = append(s.Ornaments, Ornament{ID: "wood", Kind: Wood, At: 0.5, W: 0.28, H: 0.17})
	case Cylinder:
		s.Tank = Tank{Shape: sh, Length: 0.4, Height: 0.5, Wall: 0.006, Water: 0.44, Rimless: true, Material: Acrylic}
		s.Filter.Kind = Sponge
		s.Lid = Lid{}
		s.Labels.Length, s.Labels.Height = "400 mm", "500 mm"
	case Hexagon:
		s.Tank = Tank{Shape: sh, Length: 0.46, Width: 0.4, Height: 0.5, Wall: 0.006, Water: 0.44}
		s.Filter.Kind = Internal
		s.Socket.Side = Right
		s.Labels.Length, s.Labels.Height = "460 mm", "500 mm"
	}
	return s
}

func long() Spec {
	s := running()
	s.Tank = Tank{Length: 1.219, Width: 0.457, Height: 0.53, Wall: 0.01, Water: 0.48}
	s.Stand = Stand{Kind: Cabinet, Height: 0.75, Top: 0.03}
	s.Lid = Lid{State: Running, Lamp: true, Cord: Cord{Present: true, Plugged: true}}
	s.Labels.Length, s.Labels.Height, s.Labels.StandHeight = "1219 mm", "530 mm", "750 mm"
	s.Labels.AirGap = "50 mm"
	s.Plants = append(s.Plants, Plant{ID: "p4", Kind: Ribbon, At: 0.12, Height: 0.38, Spread: 0.16}, Plant{ID: "p5", Kind: Carpet, At: 0.62, Spread: 0.3}, Plant{ID: "p6", Kind: Floating, At: 0.6, Spread: 0.16},
		Plant{ID: "p7", Kind: Stem, At: 0.82, Height: 0.3, Spread: 0.12})
	s.Ornaments = []Ornament{{ID: "wood", Kind: Wood, At: 0.42, W: 0.45, H: 0.24}, {ID: "rock", Kind: Rock, At: 0.68, W: 0.16, H: 0.1}}
	s.Fish = append(s.Fish, Fish{ID: "tetra", Code: "paracheirodon-innesi", Length: 0.035, Count: 14}, Fish{ID: "loach", Code: "pangio-kuhlii", Length: 0.09, Count: 3},
		Fish{ID: "pencil", Code: "nannostomus-beckfordi", Length: 0.05, Count: 5}, Fish{ID: "pleco", Code: "ancistrus-cirrhosus", Length: 0.12, Count: 1},
		Fish{ID: "shrimp", Code: "neocaridina-davidi", Length: 0.03, Count: 8}, Fish{ID: "snail", Code: "vittina-natalensis", Length: 0.025, Count: 2}, Fish{ID: "more", Code: "trichogaster-chuna", Length: 0.04, Adult: 0.055, Count: 3, Planned: true})
	return s
}

// samples are the states and shapes that the drawing is looked at in.
func samples() map[string]Spec {
	m := map[string]Spec{
		"empty": {}, "dry": bare(), "placed": placed(), "running": running(), "bowfront": shaped(BowFront), "cylinder": shaped(Cylinder),
		"hexagon": shaped(Hexagon), "long": long(), "bag": bagged(), "loads": loaded(),
	}
	p := loaded()
	p.Paper = true
	m["paper"] = p
	c := running()
	c.Compact = true
	m["compact"] = c
	ch := running()
	ch.Figure, ch.Labels.Figure, ch.Highlight = Child, "child, 1.2 m", PartHeater
	m["child"] = ch
	low := running()
	low.Socket.Height, low.Stand.Diagonal, low.Stand.BackPanel, low.Stand.Shelf = 0.09, true, true, true
	low.Labels.NoLoop = "No room for a drip loop"
	m["noloop"] = low
	flag := running()
	flag.Labels.BelowWater = "below the water"
	m["below"] = flag
	plan := bare()
	plan.Filter, plan.Heater, plan.Thermometer, plan.Lid = Filter{State: Planned}, Heater{State: Planned}, Thermometer{State: Planned}, Lid{State: Planned}
	m["planned"] = plan
	return m
}
