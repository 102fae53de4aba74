package reckon

import (
	"reflect"
	"slices"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Figure is the one figure that a calculation is asked for.
type Figure struct {
	Value  quantity.Value
	Of     working.Key // what it is
	Spread *working.Spread
}

// Answer is what came of a calculation.
type Answer struct {
	Name string
	// Figure is the result of the main working, or else the use of the governing
	// check; nil where there is neither.
	Figure   *Figure
	Trails   []*working.Trail // the main one first
	Findings []working.Finding
	Checks   []working.Check
	Refused  *Refused // then there is nothing else

	values   any    // ready for encoding/json
	currency string // of money, as it was given
}

// fill takes the result of a calculation apart.
func (a *Answer) fill(s *shape, out reflect.Value) {
	var g gatherer
	g.gather(out)
	a.Trails, a.Findings, a.Checks = once(g.trails), once(g.findings), once(g.checks)
	for _, c := range a.Checks {
		if c.Trail != nil && !slices.Contains(a.Trails, c.Trail) {
			a.Trails = append(a.Trails, c.Trail)
		}
	}
	e := encoder{currency: a.currency}
	if unwrapped(out.Type()) == out.Type() {
		a.values = e.value(s, out)
	} else {
		a.values = e.value(s, out.Field(0))
	}
	a.Figure = g.figure(out)
	if e.broken || !a.finite() {
		*a = Answer{Name: a.Name, currency: a.currency, Refused: refuse(whole, "refuse.reckon.no_number")}
	}
}

// once leaves out what a result holds in two places.
func once[T any](list []T) []T {
	var out []T
	for _, x := range list {
		if !slices.ContainsFunc(out, func(y T) bool { return reflect.DeepEqual(x, y) }) {
			out = append(out, x)
		}
	}
	return out
}

// finite reports whether every number outside the values is one.
func (a *Answer) finite() bool {
	for _, t := range a.Trails {
		if !t.Finite() {
			return false
		}
	}
	for _, f := range a.Findings {
		for _, v := range f.Values {
			if !quantity.Finite(v.X) {
				return false
			}
		}
	}
	for _, c := range a.Checks {
		if !quantity.Finite(c.Use) || !quantity.Finite(c.Demand.X) || !quantity.Finite(c.Capacity.X) {
			return false
		}
	}
	return true
}

// gatherer collects what leaves the values for lists of their own.
type gatherer struct {
	main     *working.Trail
	trails   []*working.Trail
	findings []working.Finding
	checks   []working.Check
}

// gather visits a result. A trail of the result itself comes before those of its
// parts.
func (g *gatherer) gather(v reflect.Value) {
	switch {
	case v.Kind() == reflect.Pointer && !v.IsNil():
		g.gather(v.Elem())
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			g.item(v.Index(i))
		}
	case v.Kind() == reflect.Struct && v.Type() != typeValue && v.Type() != reflect.TypeFor[time.Time]():
		for i := range v.NumField() {
			if t, ok := public(v, i).(*working.Trail); ok && t != nil {
				if g.main == nil {
					g.main = t
				}
				g.trails = append(g.trails, t)
			}
		}
		for i := range v.NumField() {
			if public(v, i) != nil && v.Field(i).Type() != typeTrail {
				g.item(v.Field(i))
			}
		}
	}
}

func public(v reflect.Value, i int) any {
	if !v.Type().Field(i).IsExported() {
		return nil
	}
	return v.Field(i).Interface()
}

func (g *gatherer) item(v reflect.Value) {
	switch x := v.Interface().(type) {
	case working.Check:
		g.checks = append(g.checks, x)
	case working.Finding:
		g.findings = append(g.findings, x)
	case *working.Finding:
		if x != nil {
			g.findings = append(g.findings, *x)
		}
	default:
		g.gather(v)
	}
}

// figure is the result of the main working, the value itself where a result is
// nothing else, or the use of the governing check.
func (g *gatherer) figure(out reflect.Value) *Figure {
	if g.main != nil {
		return &Figure{g.main.Result.Value, g.main.Result.Name, g.main.Spread}
	}
	if isOf(out.Type()) {
		if v, ok := out.Field(0).Interface().(valuer); ok {
			return &Figure{Value: v.Value()}
		}
	}
	if cs := working.Governing(g.checks); len(cs) > 0 {
		return &Figure{Value: quantity.Ratio(cs[0].Use).Value(), Of: cs[0].Name}
	}
	return nil
}

// Currency is the ISO 4217 code of the prices in the input, XXX where there were
// none.
func (a *Answer) Currency() string { return a.currency }
