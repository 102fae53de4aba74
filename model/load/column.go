package load

import (
	"math"

	"example.org/driploop/model/quantity"
)

// euler returns the load at which a slender column buckles, π²·E·I/(K·L)².
// Source: exact for an ideal column.
func euler(e, inertia, length float64) quantity.Force {
	return quantity.Force(math.Pi * math.Pi * e * inertia / (length * length))
}

// ndsStability returns the column stability factor C_p for sawn lumber, from
// F_cE = kE·E/(l/d)² and the compression strength without C_p. Source: NDS 2018
// 3.7.1, c = 0.8.
func ndsStability(fcE, fcStar float64) float64 {
	const c = 0.8
	a := fcE / fcStar
	h := (1 + a) / (2 * c)
	return h - math.Sqrt(h*h-a/c)
}

// ndsEuler is F_cE of NDS 2018 3.7.1.5.
func ndsEuler(eMin, slenderness float64) float64 { return 0.822 * eMin / (slenderness * slenderness) }

// timberStability returns k_c and the relative slenderness of a solid timber
// column. Source: EN 1995-1-1 equations 6.21 to 6.29, β_c = 0.2.
func timberStability(slenderness, fc0k, e05 float64) (kc, relative float64) {
	relative = slenderness / math.Pi * math.Sqrt(fc0k/e05)
	if relative <= 0.3 {
		return 1, relative
	}
	k := 0.5 * (1 + 0.2*(relative-0.3) + relative*relative)
	return 1 / (k + math.Sqrt(k*k-relative*relative)), relative
}

// Imperfection factors of EN 1993-1-1 table 6.1.
const (
	curveA = 0.21
	curveC = 0.49 // cold-formed hollow sections
)

// steelReduction returns χ for the relative slenderness and imperfection
// factor. Source: EN 1993-1-1 6.3.1.2.
func steelReduction(relative, alpha float64) float64 {
	if relative <= 0.2 {
		return 1
	}
	phi := 0.5 * (1 + alpha*(relative-0.2) + relative*relative)
	return min(1, 1/(phi+math.Sqrt(phi*phi-relative*relative)))
}

// steelSlenderness is λ̄ = √(A·f_y/N_cr).
func steelSlenderness(area, yield float64, critical quantity.Force) float64 {
	return math.Sqrt(area * yield / float64(critical))
}

// aiscStress returns F_cr for the slenderness K·L/r. Source: AISC 360-16 E3.
func aiscStress(slenderness, yield, e float64) float64 {
	fe := math.Pi * math.Pi * e / (slenderness * slenderness)
	if slenderness <= 4.71*math.Sqrt(e/yield) {
		return math.Pow(0.658, yield/fe) * yield
	}
	return 0.877 * fe
}

// column is a leg as a column: what it may carry, and how far slenderness cuts it.
type column struct {
	capacity    quantity.Force
	reduction   float64 // of the strength in crushing
	slenderness float64 // effective length over radius of gyration, or over d by the NDS
}

// column returns the force that may be compared with the factored load on a
// leg of effective length le.
func (g grade) column(s Section, le float64) column {
	area := s.area()
	inertia, radius := s.weak()
	c := column{slenderness: le / radius, reduction: 1}
	switch g.method {
	case byEC5:
		c.reduction, _ = timberStability(c.slenderness, float64(g.fcK), float64(g.eLow))
	case byNDS:
		c.slenderness = le / float64(min(s.Width, s.Depth))
		c.reduction = ndsStability(ndsEuler(float64(g.eLow), c.slenderness), float64(g.fc))
	case byEC3:
		c.reduction = steelReduction(steelSlenderness(area, float64(g.fcK), euler(float64(g.e), inertia, le)), curveC)
	case byAISC:
		c.reduction = aiscStress(c.slenderness, float64(g.fcK), float64(g.e)) / float64(g.fcK)
	}
	c.capacity = quantity.Force(area * c.reduction * float64(g.fc))
	return c
}
