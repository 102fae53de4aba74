package load

import (
	"math"

	"example.org/driploop/model/quantity"
)

// floatSteps are the nominal thicknesses of float glass in millimetres that a
// glazier sells for tanks. Source: EN 572-2.
var floatSteps = []float64{4, 5, 6, 8, 10, 12, 15, 19}

// needed is the true thickness that keeps a wall panel at a stress.
func (p pane) needed(stress quantity.Pressure) quantity.Length {
	c := filled(p.length/p.height, p.fill, p.edge)
	c.beta *= p.factor
	at1, _ := c.panelStress(p.height, 1) // stress goes with 1/t²
	return quantity.Length(math.Sqrt(float64(at1 / stress)))
}

// nominal returns the thinnest glass whose lower tolerance limit is still t,
// and false when none is thick enough.
func nominal(t quantity.Length) (quantity.Length, bool) {
	for _, mm := range floatSteps {
		n := quantity.Millimetres(mm)
		if n-glassTolerance(n) >= t {
			return n, true
		}
	}
	return 0, false
}

// thickerGlass offers the nominal thickness that would be steady, where the
// glass is still to be chosen.
func (r *report) thickerGlass(in GlassInput, p pane) {
	if in.Maker == Factory {
		return
	}
	if n, ok := nominal(p.needed(glassSteady)); ok {
		r.offer(r.cure("find.load.cure_glass").With("Thickness", n.Value()))
	}
}
