package load

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/model/working"
)

const (
	braceFactor  = 1.1  // on case 4, for a top held by a brace in places. Source: plate solve
	lowestRatio  = 0.5  // L/H of the front
	highestHeld  = 5.0  // framed
	highestBare  = 3.0  // rimless or braced
	factoryShare = 0.95 // of the usual thickness, judgement
)

// CheckGlass screens the panels of a tank against long-term stress.
// Refusals: length over height of the front below 0.5, above 5 (framed) or 3
// (rimless); panels that are no tank. Curved tanks and acrylic are "not
// calculated": state wait. A defect overrules every figure.
func CheckGlass(in GlassInput) (Assessment, error) {
	t := in.Tank
	if rs := t.Check(); len(rs) > 0 {
		return Assessment{}, rs[0]
	}
	_, _, h := t.Outer()
	if err := firstRefusal(side("air_gap", "q.tank.air_gap", in.AirGap, 0, h-t.Bottom)); err != nil {
		return Assessment{}, err
	}
	r := &report{}
	r.glassConditions(in)
	if t.Material != tank.Glass || t.Shape != tank.Box && t.Shape != tank.Cube {
		r.find(working.Find(working.Wait, "find.load.glass_not_calculated"))
	} else if err := r.panels(in); err != nil {
		return Assessment{}, err
	}
	r.caution("find.load.caution_wet_test", "find.load.caution_glass", "find.load.caution_stop", "find.load.caution_move")
	return r.done(), nil
}

var glassFindings = map[GlassCondition]working.Key{
	Crack: "find.load.glass_crack", EdgeChip: "find.load.glass_chip", Scratch: "find.load.glass_scratch",
	RimCracked: "find.load.glass_rim", SeamBubble: "find.load.glass_seam", Old: "find.load.glass_old",
}

// glassConditions adds what overrules the figures.
func (r *report) glassConditions(in GlassInput) {
	for _, c := range in.Conditions {
		code, ok := glassFindings[c]
		if !ok {
			code = "find.load.glass_other"
		}
		r.find(working.Find(working.Act, code))
	}
	if in.Inspected != Yes {
		r.find(working.Find(working.Wait, "find.load.glass_not_inspected"))
	}
	if in.Caliper != Yes {
		r.find(working.Find(working.Wait, "find.load.glass_thickness"))
		r.offer(r.cure("find.load.cure_caliper"))
	}
}

// pane is one panel: its sizes and the true thickness counted on.
type pane struct {
	length, height, thickness float64
	fill                      float64
	edge                      edge
	factor                    float64
}

// panels checks front, sides and bottom.
func (r *report) panels(in GlassInput) error {
	t := in.Tank
	l, w, h := t.Outer()
	height := h - t.Bottom
	fill := float64((height - in.AirGap) / height)
	true1 := func(nominal quantity.Length) float64 {
		if in.Caliper == Yes {
			return float64(nominal - quantity.Millimetres(0.2))
		}
		return float64(nominal - glassTolerance(nominal))
	}
	e, factor, most := topHeld, 1.0, highestHeld
	switch {
	case t.Braced:
		factor, most = braceFactor, highestBare
	case t.Rim == tank.Rimless:
		e, most = topFree, highestBare
	}
	ratio := quantity.Ratio(l / height)
	if err := working.InRange("length", "q.load.panel_ratio", ratio.Value(), quantity.Ratio(lowestRatio).Value(), quantity.Ratio(most).Value()); err != nil {
		return err
	}
	front := pane{float64(l), float64(height), true1(t.Wall), fill, e, factor}
	if err := firstRefusal(side("wall", "q.tank.wall", quantity.Length(front.thickness), quantity.Millimetres(1), 1)); err != nil {
		return err
	}
	ends := front
	ends.length = float64(w)
	before := len(r.Checks)
	r.pane(in, front, "q.load.check_glass_front", "q.load.check_glass_front_edge")
	r.pane(in, ends, "q.load.check_glass_side", "q.load.check_glass_side_edge")
	r.bottom(in, float64(l), float64(w), float64(height-in.AirGap), true1(t.Bottom))
	r.factory(in, before)
	return nil
}

// pane adds the checks of a wall panel.
func (r *report) pane(in GlassInput, p pane, name, edgeName working.Key) {
	c := filled(p.length/p.height, p.fill, p.edge)
	c.beta, c.alpha = c.beta*p.factor, c.alpha*p.factor
	stress, bow := c.panelStress(p.height, p.thickness)
	tr := p.trail(c.beta)
	tr.Step("σ", "q.load.stress", "σ = β·ρ·g·H³/t²", stress.Value(), srcPlate).
		Step("w", "q.load.panel_bow", "w = α·ρ·g·H⁵/(E·t³)", bow.Value(), srcPlate)
	tr.Strength = working.Ranged
	if p.edge == topHeld { // a plastic rim gives a little: a free top edge is the bound
		bare, _ := filled(p.length/p.height, p.fill, topFree).panelStress(p.height, p.thickness)
		tr.Between(quantity.Ratio(stress/glassMost).Value(), quantity.Ratio(max(stress, bare)/glassMost).Value(), "word.load.rim_gives") // of the use
	}
	for _, a := range Allowables() {
		tr.Constant("f", a.Name, a.Stress.Value(), a.Source)
	}
	if k := r.addGraded(name, stress.Value(), glassMost.Value(), float64(glassSteady/glassMost), tr); k.State != working.Steady {
		r.thickerGlass(in, p)
	}
	if bow > quantity.Length(p.thickness/2) {
		r.find(working.Find(working.Wait, "find.load.glass_bows").With("Bow", bow.Value()))
	}
	if p.edge == topFree {
		b := freeEdge(p.length / p.height)
		top, _ := plate{beta: b}.panelStress(p.height, p.thickness)
		tr := p.trail(b)
		tr.Step("σ_e", "q.load.edge_stress", "σ_e = β_e·ρ·g·H³/t²", top.Value(), srcPlate).Assume("assume.load.edge_full")
		r.addGraded(edgeName, top.Value(), edgeMost.Value(), float64(edgeSteady/edgeMost), tr)
	}
}

// trail opens the working of a panel.
func (p pane) trail(beta float64) *working.Trail {
	return working.New("ask.load.glass").
		Given("L", "q.load.panel_length", quantity.Length(p.length).Value()).
		Given("H", "q.load.panel_height", quantity.Length(p.height).Value()).
		Given("t", "q.load.true_thickness", quantity.Length(p.thickness).Value()).
		Constant("E", "q.load.modulus", glassModulus.Value(), srcFloat).
		Constant("β", "q.load.plate_coefficient", quantity.Ratio(beta).Value(), srcPlate).
		Within("q.load.panel_ratio", quantity.Ratio(lowestRatio).Value(), quantity.Ratio(highestHeld).Value()).
		Assume("assume.load.hinged_edges", "assume.load.annealed")
}

// bottom checks a bottom that spans between its edges. A flat, continuous
// support takes the bending away.
func (r *report) bottom(in GlassInput, long, short, depth, t float64) {
	if in.FlatBase == Yes {
		return
	}
	if t <= 0 || depth <= 0 {
		return
	}
	q, beta, stress, sag := bottomStress(long, short, depth, t)
	tr := working.New("ask.load.bottom").
		Given("a", "q.load.panel_length", quantity.Length(long).Value()).Given("b", "q.load.panel_width", quantity.Length(short).Value()).
		Given("t", "q.load.true_thickness", quantity.Length(t).Value()).
		Constant("β", "q.load.plate_coefficient", quantity.Ratio(beta).Value(), srcRoark).
		Step("q", "q.load.pressure", "q = ρ·g·h + ρ_g·g·t", q.Value(), working.Algebra).
		Step("w", "q.load.panel_bow", "w = α·q·b⁴/(E·t³)", sag.Value(), srcRoark).
		Step("σ", "q.load.stress", "σ = β·q·b²/t²", stress.Value(), srcRoark).
		Assume("assume.load.hinged_edges")
	c := working.Check{Name: "q.load.check_glass_bottom", Use: float64(stress / glassMost), Demand: stress.Value(), Capacity: glassMost.Value(), Trail: tr}
	// Many bottoms are tempered, which cannot be seen: beyond the limit it is a
	// question to the maker, not a verdict.
	if stress > glassSteady {
		c.State = working.Wait
		r.find(working.Find(working.Wait, "find.load.bottom_spans"))
		r.offer(r.cure("find.load.cure_flat_base"))
	}
	r.Checks = append(r.Checks, c)
}

// factory softens the figures of a factory tank of standard size: beyond the
// limits it is within what such tanks use, when its glass is not thinner than
// usual.
func (r *report) factory(in GlassInput, from int) {
	n, standard := tank.Nearest(in.Tank)
	if in.Maker != Factory || !standard {
		return
	}
	if in.Tank.Rim != n.Rim && !in.Tank.Braced || in.Tank.Wall < n.Wall*factoryShare {
		return
	}
	softened := false
	for i := range r.Checks[from:] {
		c := &r.Checks[from+i]
		if c.State == working.Act {
			c.State, softened = working.Wait, true
			f := working.Find(working.Wait, "find.load.glass_factory").With("Thickness", n.Wall.Value())
			c.Finding = &f
		}
	}
	if softened {
		r.find(working.Find(working.Wait, "find.load.glass_factory").With("Thickness", n.Wall.Value()))
	}
}
