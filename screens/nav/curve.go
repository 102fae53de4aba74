package nav

import (
	"fmt"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
)

// CurveSpec is a computed course with its likely range, the common advice beside
// it, and how far the timer that waits for it has come.
func CurveSpec(d Deps, c *care.Curve) chart.Spec {
	w, unit := d.Present.W, curveUnit(d, c)
	series := chart.Series{Colour: look.Teal}
	for i, t := range c.Time {
		x := t.Minutes()
		series.Line = append(series.Line, chart.Sample{X: x, Y: c.Middle[i].In(unit)})
		if i < len(c.Low) && i < len(c.High) {
			series.Band = append(series.Band, chart.Spread{X: x, Low: c.Low[i].In(unit), High: c.High[i].In(unit)})
		}
	}
	number := func(v, step float64) string { return w.Number(v, 3) }
	spec := chart.Spec{Series: []chart.Series{series}, Unit: w.Comma(w.T(c.Name, nil), w.Unit(unit.Code)),
		X: chart.Axis{FromZero: true, Label: func(v, step float64) string { return w.For(quantity.Time(v*60).Value(), i18n.Short) }}, Y: chart.Axis{Label: number}}
	if c.Usual[1] > 0 {
		spec.Marks = append(spec.Marks, chart.Mark{X: c.Usual[0].Minutes(), Label: w.T("page.fill.usual", nil), Colour: look.SoftInk}, chart.Mark{X: c.Usual[1].Minutes(), Colour: look.SoftInk})
	}
	for _, m := range c.Marks {
		spec.Marks = append(spec.Marks, chart.Mark{X: m.At.Minutes(), Label: d.Present.Say(m.Text), Colour: look.Rust, Solid: true})
	}
	if c.Timer != nil {
		spec.Marks = append(spec.Marks, chart.Mark{X: c.Timer.Passed(d.Now()).Minutes(), Label: w.T("page.fill.now", nil)})
	}
	return spec
}

// CurveReading writes what a course reads where it is pointed at.
func CurveReading(d Deps, c *care.Curve) func(chart.Reading) string {
	unit := curveUnit(d, c)
	return func(r chart.Reading) string {
		s := d.Present.W.Duration(quantity.Time(r.X * 60))
		if len(r.Values) > 0 && r.Values[0].OK {
			val := r.Values[0]
			s += "\n" + d.Present.W.QuantityIn(quantity.Value{Kind: unit.Kind, X: unit.ToBase(val.Y)}, unit.Code, 3)
			if val.Banded {
				s += "\n" + d.Present.W.Range(quantity.Value{Kind: unit.Kind, X: unit.ToBase(val.Low)}, quantity.Value{Kind: unit.Kind, X: unit.ToBase(val.High)})
			}
		}
		return s
	}
}

// curveUnit is what a curve is read in.
func curveUnit(d Deps, c *care.Curve) quantity.Unit {
	kind := c.Middle[0].Kind
	if kind == quantity.KindRatio {
		return quantity.MustUnit("percent")
	}
	return quantity.MustUnit(d.Present.W.DefaultUnit(kind, i18n.General))
}

// Clock writes a wait as minutes and seconds, or hours, minutes and seconds.
func Clock(d time.Duration) string {
	s := int(d.Seconds())
	if s >= 3600 {
		return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
	}
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}
