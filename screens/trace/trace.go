// Package trace draws what was measured over time: a course of package keeper as the
// spec of a chart, for pages and for papers alike.
package trace

import (
	"math"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// Silence is how long a line goes on without a value, in seconds: over more there is a
// gap. Judgement: a test a month is the rarest habit.
const Silence = 45 * 86400

// LeastSpan is the least that an axis shows, in base units. Judgement: what moves
// by less is steady to the eye as well.
var LeastSpan = map[quantity.Kind]float64{quantity.KindTemperature: 4, quantity.KindPH: 1.2, quantity.KindHardness: 17.848 * 4}

// Sides tells a value that is none: under what a kit shows, or over it.
var Sides = map[journal.Qualifier]int{journal.NotDetected: -1, journal.OverRange: 1}

// Axes are the axes of the course of a thing: the span of its values, and its unit
// above. in turns a value into that unit.
func Axes(p present.Presenter, t keeper.Trace, x0, x1 float64, ticks []chart.Tick) (spec chart.Spec, in func(float64) float64) {
	u := p.TraceUnit(t)
	in = func(y float64) float64 {
		if math.IsInf(y, 0) {
			return y
		}
		return u.FromBase(y)
	}
	spec = chart.Spec{Unit: p.TraceTitle(t), X: chart.Axis{Min: x0, Max: x1, Fixed: true, Ticks: ticks}}
	spec.Y = chart.Axis{Label: func(v, _ float64) string { return p.W.Number(v, 4) }, FromZero: t.Kind == quantity.KindConcentration || t.Sums}
	if n, ok := LeastSpan[t.Kind]; ok {
		spec.Y.Least = math.Abs(u.FromBase(n) - u.FromBase(0))
	}
	if !t.Sums {
		for _, z := range t.Zones {
			spec.Zones = append(spec.Zones, zone(z, in, p.W.State(z.State)))
		}
	}
	return spec, in
}

func zone(z water.Zone, in func(float64) float64, word string) chart.Zone {
	out := chart.Zone{Low: in(z.From), High: in(z.To), Label: word}
	switch z.State {
	case working.Wait:
		out.Colour = look.Wait
	case working.Act:
		out.Colour = look.Act
	}
	return out
}

// Series is a course as a series of a chart whose values in turns.
func Series(t keeper.Trace, in func(float64) float64, shape scene.Shape, colour look.Name) chart.Series {
	s := chart.Series{Shape: shape, Colour: colour, Filled: true, Bars: t.Sums}
	last := math.Inf(-1)
	for _, x := range t.Points {
		v := chart.Sample{X: x.X, Y: in(x.Y), Side: Sides[x.Qualifier]}
		if !t.Sums && x.X-last > Silence && !math.IsInf(last, -1) {
			s.Line = append(s.Line, chart.Sample{X: (x.X + last) / 2, Gap: true})
		}
		last = x.X
		s.Points = append(s.Points, v)
		if !t.Sums {
			s.Line = append(s.Line, v)
		}
	}
	return s
}

// Ticks are the places of a time axis with their words; never nil, so that no others
// are made.
func Ticks(p present.Presenter, x0, x1 float64) []chart.Tick {
	ticks := []chart.Tick{}
	for _, t := range p.TimeTicks(x0, x1) {
		ticks = append(ticks, chart.Tick{At: t.X, Label: t.Label})
	}
	return ticks
}

// One is the chart of one course from the first to the last day of a span, on a ground.
func One(p present.Presenter, t keeper.Trace, first, last string, ground look.Name) chart.Spec {
	x0, x1 := keeper.DayStart(first), keeper.DayStart(last)+86400
	spec, in := Axes(p, t, x0, x1, Ticks(p, x0, x1))
	spec.Ground = ground
	spec.Series = []chart.Series{Series(t, in, scene.Round, look.Series[0])}
	return spec
}

// Drawn are the courses that are worth a chart of their own in a summary: two values
// and more, of what endangers or tells most, in the order of a test.
func Drawn(all keeper.Traces, most int) []keeper.Trace {
	var out []keeper.Trace
	for _, name := range []string{journal.NameAmmonia, journal.NameNitrite, journal.NameNitrate, journal.NamePH, journal.NameTemperature, journal.NameKH} {
		for _, t := range all.Traces {
			if t.Name == name && len(t.Points) > 1 && len(out) < most {
				out = append(out, t)
			}
		}
	}
	return out
}
