package tank

import (
	"strings"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// netTrail writes down how the net volume came about.
func netTrail(t Tank, c Contents, f Full) *working.Trail {
	tr := working.New("ask.tank.net_volume")
	l, w, h := t.Outer()
	tr.Given("L", "q.tank.length", l.Value()).
		Given("W", "q.tank.width", w.Value()).
		Given("H", "q.tank.height", h.Value()).
		Given("t", "q.tank.wall", t.Wall.Value()).
		Given("t_b", "q.tank.bottom", t.Bottom.Value()).
		Given("g", "q.tank.air_gap", c.AirGap.Value())
	tr.Step("A", "q.tank.surface", areaFormula(t.Shape), f.Surface.Value(), working.Algebra)
	tr.Step("V_i", "q.tank.interior", "V_i = A·(H − t_b)", f.Interior.Value(), working.Algebra)
	tr.Step("V_g", "q.tank.gap_volume", "V_g = A·g", f.Gap.Value(), working.Algebra)
	if grain, pores, ok := c.Substrate.Grain(); ok && f.Substrate > 0 {
		tr.Given("d_f", "q.tank.bed_front", c.SubstrateFront.Value()).
			Given("d_b", "q.tank.bed_back", c.SubstrateBack.Value()).
			Constant("ρ_s", "q.tank.grain_density", grain.Value(), srcStone).
			Constant("n", "q.tank.porosity", pores.Value(), srcPores)
		tr.Step("V_s", "q.tank.grain_volume", "V_s = A·d·(1 − n)", quantity.Volume(float64(f.Substrate)/float64(grain)).Value(), working.Algebra)
		tr.Assume("assume.tank.porosity")
	}
	tr.Step("V_d", "q.tank.solids", "V_d = V_s + Σ m/ρ", f.Solids.Value(), working.Algebra)
	tr.Step("V", "q.tank.net_volume", "V = V_i − V_g − V_d", f.Net.Value(), working.Algebra)
	spread := quantity.Volume(t.margin())
	tr.Between((f.Net * (1 - spread)).Value(), (f.Net * (1 + spread)).Value(), t.why())
	return tr.Within("q.tank.length", minOuter.Value(), maxOuter.Value()).
		Assume("assume.tank.upright", "assume.tank.equipment_dry").Cites(working.Ours)
}

// areaFormula is the inner area of a plan in symbols.
func areaFormula(s Shape) string {
	switch s {
	case Cylinder:
		return "A = π/4·(L − 2t)²"
	case Hexagon:
		return "A = 3√3/8·(L − 4t/√3)²"
	case BowFront:
		return "A = L_i·W_i + R²/2·(θ − sin θ)"
	case Cube:
		return "A = (L − 2t)²"
	}
	return "A = (L − 2t)·(W − 2t)"
}

// massTrail writes down how the full mass came about.
func massTrail(t Tank, f Full, rho quantity.Density) *working.Trail {
	tr := working.New("ask.tank.full_mass")
	tr.Given("V", "q.tank.net_volume", f.Net.Value()).
		Constant("ρ_w", "q.tank.water_density", rho.Value(), srcWater).
		Constant("ρ_g", "q.tank.vessel_density", t.Material.Density().Value(), srcGlass)
	formula := map[working.Key]string{
		"q.tank.mass_glass":     "m_g = ρ_g·[(A_o − A)·H + A·t_b]",
		"q.tank.mass_acrylic":   "m_g = ρ_g·[(A_o − A)·H + A·t_b]",
		"q.tank.mass_water":     "m_w = V·ρ_w",
		"q.tank.mass_substrate": "m_s = V_s·ρ_s",
	}
	for _, p := range f.Parts {
		if s, ok := formula[p.Name]; ok {
			tr.Step(s[:len("m_g")], p.Name, s, p.Mass.Value(), working.Algebra)
		} else {
			name := string(p.Name)
			tr.Given("m_"+name[strings.LastIndexByte(name, '_')+1:], p.Name, p.Mass.Value())
		}
	}
	margin := quantity.Mass(t.margin())
	tr.Constant("k", "q.tank.margin", quantity.Ratio(t.margin()).Value(), working.Ours)
	tr.Step("m_up", "q.tank.upper_mass", "m_up = (1 + k)·m_brim", f.Upper.Value(), working.Ours)
	tr.Step("m", "q.tank.full_mass", "m = Σ m_i", f.Total.Value(), working.Algebra)
	tr.Between((f.Total * (1 - margin)).Value(), (f.Total * (1 + margin)).Value(), t.why())
	return tr.Assume("assume.tank.upright", "assume.tank.no_stand")
}

// why names the reason for the spread.
func (t Tank) why() working.Key {
	if t.Sizes == Measured {
		return "word.tank.sizes_measured"
	}
	return "word.tank.sizes_nominal"
}
