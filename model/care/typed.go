package care

import "example.org/driploop/model/quantity"

// typeTrails gives the inputs of a page's workings the form in which the person
// gave them, where an input is exactly what one answer says. Two answers of one
// value and different words leave it open.
func (f *Facts) typeTrails(p *Page) {
	given := map[quantity.Value]quantity.Measure{}
	twice := map[quantity.Value]bool{}
	for _, a := range f.r.Answers {
		if a.Measure.IsZero() || a.Origin == FromProposal {
			continue
		}
		v, err := a.Measure.Value()
		if err != nil {
			continue
		}
		if old, ok := given[v]; ok && old != a.Measure {
			twice[v] = true
		}
		given[v] = a.Measure
	}
	for _, t := range p.Trails {
		for i, g := range t.Givens {
			if m, ok := given[g.Value]; ok && !twice[g.Value] && g.Source == "" && g.Typed.IsZero() {
				t.Givens[i].Typed = m
			}
		}
	}
}
