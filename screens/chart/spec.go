package chart

import (
	"math"
	"sort"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Sample is one value of a series.
type Sample struct {
	X, Y float64
	Gap  bool // the value is missing: the line is broken here. A Y that is not finite means the same
	// Side tells a point that is no number: below 0 the value lies under Y, which
	// is the least that could have been seen, above 0 it lies over Y.
	Side int
}

func (s Sample) missing() bool { return s.Gap || !finite(s.Y) }

// Spread is the range of likely values at X.
type Spread struct{ X, Low, High float64 }

// Series is one quantity in the course of time. Samples may come in any order;
// those with an X that is not finite are left out.
type Series struct {
	Name   string      // written beside the line; "" writes nothing
	Colour look.Name   // "" takes the next of look.Series
	Shape  scene.Shape // of its markers; give each series its own
	Line   []Sample    // computed or many values: a line without markers
	Points []Sample    // measured values: markers, joined by straight lines when there is no Line
	Band   []Spread    // drawn behind the line, translucent
	// Filled fills the markers of plain points; those with a Side stay open, with
	// a stem to that side.
	Filled bool
	// Bars draws each point as a bar from zero instead of a marker and a line.
	Bars bool
}

// Zone is a span of the y axis that has a word: a translucent band behind the
// rest. Low and High may be infinite.
type Zone struct {
	Low, High float64
	Label     string
	Colour    look.Name // "" tints nothing
}

// Event is something that happened at X: a sign in a lane above the plot and a
// faint line below it. What the signs mean is for the caller to say.
type Event struct {
	X      float64
	Shape  scene.Shape
	Colour look.Name // "" means look.Ink
}

// Mark is an upright line at one X with its label below the plot.
type Mark struct {
	X      float64
	Label  string
	Colour look.Name // "" means look.Ink
	Solid  bool      // a full line instead of a dotted one
}

// Limit is a level dashed line over the whole width with its label upon it.
type Limit struct {
	Y     float64
	Label string
}

// Note is a short text near a place in the plot.
type Note struct {
	X, Y   float64
	Text   string
	Colour look.Name // "" means look.Ink
}

// Tick is a labelled place on an axis.
type Tick struct {
	At    float64
	Label string
}

// Axis says what an axis spans and how it is labelled.
type Axis struct {
	Min, Max float64 // the span, where Fixed is set; Min < Max
	Fixed    bool    // otherwise the span is that of the data
	FromZero bool    // the span is widened to hold zero
	Least    float64 // the least that the span is, so that a hair's breadth is no mountain

	// Label writes a tick; step is the distance between ticks, so that the
	// decimals can be chosen. nil writes no labels.
	Label func(v, step float64) string
	// Ticks are used instead of computed ones when not nil.
	Ticks []Tick
	// Time says that values are seconds: ticks are then taken from whole
	// minutes, hours and days of the clock that is Zone seconds ahead.
	Time bool
	Zone float64
}

// Spec is a chart.
type Spec struct {
	Series []Series
	Marks  []Mark
	Limits []Limit
	Zones  []Zone
	Events []Event
	Notes  []Note
	X, Y   Axis
	// Left is the least room left of the plot, so that charts under one another
	// have one time axis.
	Left   float64
	Unit   string    // written above the y axis
	Empty  string    // shown instead of a plot when there is no value at all
	Ground look.Name // what the chart lies on: look.Sheet ("") or look.Paper
}

func finite(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// inOrder gives the samples by X, without those whose X is not finite.
func inOrder(in []Sample) []Sample {
	out := make([]Sample, 0, len(in))
	for _, s := range in {
		if finite(s.X) {
			out = append(out, s)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].X < out[j].X })
	return out
}

// ready gives a copy of the spec with its data in order and its colours chosen.
func (s Spec) ready() Spec {
	series := make([]Series, len(s.Series))
	for i, a := range s.Series {
		a.Line, a.Points = inOrder(a.Line), inOrder(a.Points)
		if len(a.Line) == 0 && !a.Bars {
			a.Line = a.Points
		}
		var band []Spread
		for _, b := range a.Band {
			if finite(b.X, b.Low, b.High) {
				band = append(band, Spread{b.X, math.Min(b.Low, b.High), math.Max(b.Low, b.High)})
			}
		}
		sort.SliceStable(band, func(i, j int) bool { return band[i].X < band[j].X })
		a.Band = band
		if a.Colour == "" {
			a.Colour = look.Series[i%len(look.Series)]
		}
		series[i] = a
	}
	s.Series = series
	if s.Ground == "" {
		s.Ground = look.Sheet
	}
	return s
}

// span gives the least box that holds all values; ok is false when there is none.
func (s Spec) span() (x0, x1, y0, y1 float64, ok bool) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	add := func(x, y float64) {
		x0, x1, y0, y1 = math.Min(x0, x), math.Max(x1, x), math.Min(y0, y), math.Max(y1, y)
		ok = true
	}
	within := func(x float64) bool { return !s.X.Fixed || x >= s.X.Min && x <= s.X.Max }
	for _, a := range s.Series {
		for _, v := range append(append([]Sample(nil), a.Line...), a.Points...) {
			if !v.missing() && within(v.X) {
				add(v.X, v.Y)
			}
		}
		for _, b := range a.Band {
			if within(b.X) {
				add(b.X, b.Low)
				add(b.X, b.High)
			}
		}
	}
	return
}
