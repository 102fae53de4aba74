package elevation

import (
	"math"

	"example.org/driploop/model/care"
	"example.org/driploop/model/load"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

var shapes = map[tank.Shape]Shape{tank.Box: Box, tank.Cube: Cube, tank.BowFront: BowFront, tank.Cylinder: Cylinder, tank.Hexagon: Hexagon}

// From turns the record's picture into a drawing. Labels are the caller's, for
// they are words; the weight and the reactions are labelled by mass.
func From(p care.Picture, labels Labels, mass func(quantity.Mass) string) Spec {
	s := Spec{Labels: labels}
	if p.Known {
		s.Tank = tankOf(p)
		s.Gravel, s.Ornaments, s.Plants = insideOf(p)
	}
	s.Stand = standOf(p)
	kitOf(p, &s)
	s.Socket = Socket{Present: p.SocketHeight > 0, Height: float64(p.SocketHeight), Side: Left}
	if p.ShowLoads && p.Known {
		s.Loads = loadsOf(p, mass)
		s.Labels.Weight = mass(p.Weight)
	} else {
		s.Labels.Weight = ""
	}
	s.Fish, _ = Stock(p)
	if p.Bag {
		s.Bag = Bag{Afloat: true, Water: float64(p.BagVolume), Fish: []Fish{{ID: "fish", Length: float64(p.FishLength), Count: min(max(p.FishCount, 2), 3)}}}
	}
	s.Figure = Hand
	return s
}

// Stock is the animals as the record has them, with which of them each part of
// the drawing is; where it has none in the tank, the first fish of First fill.
func Stock(p care.Picture) ([]Fish, map[scene.ID]care.Swimmer) {
	var out []Fish
	of := map[scene.ID]care.Swimmer{}
	there := false
	nth := map[scene.ID]int{}
	for _, w := range p.Stock {
		base := FishPart(w.Code, w.Planned, 0)
		id := FishPart(w.Code, w.Planned, nth[base])
		nth[base]++
		there = there || !w.Planned
		of[id] = w
		out = append(out, Fish{ID: id, Code: w.Code, Count: w.Count, Length: float64(w.Length), Adult: float64(w.Adult), Planned: w.Planned})
	}
	if !there && !p.Bag && p.FishCount > 0 && p.FishLength > 0 {
		w := care.Swimmer{Count: p.FishCount, Length: p.FishLength}
		id := FishPart("", false, 0)
		of[id] = w
		out = append(out, Fish{ID: id, Length: float64(w.Length), Count: w.Count})
	}
	return out, of
}

func tankOf(p care.Picture) Tank {
	l, w, h := p.Tank.Outer()
	t := Tank{Shape: shapes[p.Tank.Shape], Rimless: p.Tank.Rim == tank.Rimless, Length: float64(l), Width: float64(w), Height: float64(h), Wall: float64(p.Tank.Wall)}
	if p.Tank.Material == tank.Acrylic {
		t.Material = Acrylic
	}
	// The record counts from the tank's underside, the drawing from the inside of its bottom.
	t.Water = math.Max(0, float64(p.WaterLine-p.Tank.Bottom))
	return t
}

// insideOf places what the record has by mass: stones and wood as bodies of that
// volume, plants where there is ground to root in.
func insideOf(p care.Picture) (g Gravel, ornaments []Ornament, plants []Plant) {
	if p.GravelIn {
		g = Gravel{Front: float64(p.Contents.SubstrateFront), Back: float64(p.Contents.SubstrateBack)}
	}
	if !p.Planted {
		return g, nil, nil
	}
	for _, r := range p.Contents.Rocks {
		side := math.Cbrt(float64(r.Mass) / 2650) // Source: granite and its like, 2650 kg/m³
		ornaments = append(ornaments, Ornament{ID: "rock", Kind: Rock, At: 0.6, W: side * 1.5, H: side * 1.1})
	}
	if p.Contents.Wood > 0 {
		side := math.Cbrt(float64(p.Contents.Wood) / 1100)
		ornaments = append(ornaments, Ornament{ID: "wood", Kind: Wood, At: 0.42, W: side * 2.6, H: side * 1.6})
	}
	if g.Front+g.Back > 0 {
		_, _, h := p.Tank.Outer()
		plants = []Plant{{ID: "plant-1", Kind: Ribbon, At: 0.47, Height: float64(h) * 0.55}, {ID: "plant-2", Kind: Rosette, At: 0.3, Height: float64(h) * 0.25},
			{ID: "plant-3", Kind: Stem, At: 0.74, Height: float64(h) * 0.38}}
	}
	return g, ornaments, plants
}

func standOf(p care.Picture) Stand {
	st := Stand{Height: float64(p.StandHeight), Mat: 0.006, BackPanel: p.Back}
	switch p.Stand {
	case load.Bought:
		st.Kind, st.Top = Cabinet, 0.02
	case load.Furniture:
		st.Kind, st.Top = Furniture, float64(p.TopBoard)
		if p.Sag.Known() && p.ShowLoads {
			st.Sag = p.Sag.X
		}
	case load.SelfBuilt:
		st.Kind, st.Top, st.Leg, st.Rail = PostFrame, 0.018, float64(p.Leg.Width), float64(p.Rail.Depth)
		if p.Rails {
			st.LowerRail = math.Max(0.08, float64(p.StandHeight)*0.3)
			st.Shelf = true
		}
	}
	return st
}

// stateOf says how far a piece of kit has come.
func stateOf(placed, plugged bool) State {
	switch {
	case placed && plugged:
		return Running
	case placed:
		return Placed
	}
	return Absent
}

func kitOf(p care.Picture, s *Spec) {
	kinds := map[string]FilterKind{"hang_on": HangOn, "internal": Internal, "sponge": Sponge, "canister": Internal}
	cord := func(plugged bool) Cord { return Cord{Present: p.CordsHung, Plugged: plugged} }
	s.Filter = Filter{State: stateOf(p.Filter, p.Powered), Kind: kinds[p.FilterKind], Cord: cord(p.FilterIn)}
	s.Heater = Heater{State: stateOf(p.Heater, p.Powered), Cord: cord(p.HeaterIn)}
	s.Thermometer = Thermometer{State: stateOf(p.Thermometer, false)}
	if !p.LidOpen {
		s.Lid = Lid{State: stateOf(p.Lid, p.Powered), Lamp: true, Cord: cord(p.LightIn)}
		s.Lid.Cord.Present = p.Lid && p.CordsHung
	}
}

// loadsOf shows what each side's feet press on the floor with.
func loadsOf(p care.Picture, mass func(quantity.Mass) string) Loads {
	out := Loads{Arrows: true}
	l, _, _ := p.Tank.Outer()
	var left, right quantity.Force
	for _, f := range p.Feet {
		if f.X < l/2 {
			left += f.Force
		} else {
			right += f.Force
		}
	}
	// The feet were checked with the upper mass; the drawing shares out the weight
	// that stands beside it.
	for i, f := range []quantity.Force{left, right} {
		m := quantity.Mass(0)
		if left+right > 0 {
			m = p.Weight * quantity.Mass(f/(left+right))
		}
		if m > 0 {
			out.Reactions[i] = Reaction{Mass: float64(m), Label: mass(m)}
		}
	}
	return out
}

// Words turns the presented words into the drawing's labels.
func Words(d present.DrawingLabels) Labels {
	return Labels{Length: d.Length, Height: d.Height, StandHeight: d.StandHeight, Sag: d.Sag, Temperature: d.Temperature, Figure: d.Hand, NoLoop: d.NoLoop}
}

// Parts maps a part of the drawing to the step of First fill that it is about.
func Parts(id scene.ID) (care.Step, bool) {
	switch id {
	case PartTank, PartRim, PartGravel, PartLength, PartHeight, PartSocket:
		return care.TankPlace, true
	case PartFilter, PartHeater, PartLight:
		return care.KitList, true
	case PartStand, PartFeet, PartFloor, PartLoads, PartReactions, PartWeight, PartStandHeight, PartSag:
		return care.StandFloor, true
	case PartWater:
		return care.FillTreat, true
	case PartFilterCord, PartHeaterCord, PartLightCord, PartFlag:
		return care.PowerOn, true
	case PartThermometer:
		return care.Settle, true
	case PartBag:
		return care.HomeComing, true
	}
	return "", false
}
