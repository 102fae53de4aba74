package water

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// tell puts y, in the unit in which the test is judged, into a finding as the person
// knows it: nitrite and nitrate of a kit that counts nitrogen stay nitrogen, and say so.
// c is the reading that is told of. Ammonia is told as nitrogen by its name.
func (x Test) tell(f working.Finding, name string, c canonical, y float64) working.Finding {
	if x == TestAmmonia || c.basis != quantity.AsN {
		return f.With(name, x.value(y))
	}
	n, ok := quantity.ToN(quantity.Concentration(y), natures[x].species, quantity.AsIon)
	if !ok {
		return f.With(name, x.value(y))
	}
	if y == c.x {
		n = quantity.Concentration(c.raw)
	}
	return f.With(name, x.value(float64(n))).On(name, quantity.AsN)
}

// tellMove puts a reading and the one before it into a finding, both on the basis of
// the later one. What was not detected is told so: it is no nought.
func (x Test) tellMove(f working.Finding, earlier, later canonical) working.Finding {
	if earlier.basis != later.basis {
		earlier.basis, earlier.raw = later.basis, earlier.x
		if n, ok := quantity.ToN(quantity.Concentration(earlier.x), natures[x].species, x.JudgedBasis()); ok && later.basis == quantity.AsN {
			earlier.raw = float64(n)
		}
	}
	for _, at := range []struct {
		name string
		canonical
	}{{"Earlier", earlier}, {"Later", later}} {
		if at.detected {
			f = x.tell(f, at.name, at.canonical, at.x)
		} else {
			f = f.Word(at.name, "reading.is_not_detected")
		}
	}
	return f
}
