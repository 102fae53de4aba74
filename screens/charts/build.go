package charts

import (
	"math"
	"strings"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/scene"
)

// drawn is a chart with the words of its read-out.
type drawn struct {
	chart.Spec
	says func(chart.Reading) string
}

// leftRoom is the room for the numbers of every chart, so that their time axes
// lie under one another. Judgement: five figures and a mark.
const leftRoom = 58

// silence is how long a line goes on without a value: over more there is a gap.
// Judgement: a test a month is the rarest habit.
const silence = 45 * 86400

var shapes = []scene.Shape{scene.Round, scene.Square, scene.Diamond, scene.Triangle}

// signs are how entries are marked on charts, in the order of the legend.
var signs = []struct {
	kind   journal.Kind // "" for entries of a case
	word   working.Key
	shape  scene.Shape
	colour look.Name
}{
	{journal.Changed, "entry.changed", scene.Square, look.Rust}, {journal.Dosed, "entry.dosed", scene.Diamond, look.Violet},
	{journal.FishIn, "entry.fish_in", scene.Triangle, look.Leaf}, {journal.FishOut, "entry.fish_out", scene.Cross, look.Ink},
	{journal.PowerCut, "entry.power_cut", scene.Round, look.Ink}, {"", "page.ledger.case", scene.Tick, look.Act},
}

// bounds is the time axis in seconds.
func (p *Page) bounds() (x0, x1 float64) {
	if p.now.x1 > p.now.x0 {
		return p.now.x0, p.now.x1
	}
	first, last := p.now.first, p.now.last
	for _, s := range p.seen {
		if p.now.first == "" && s.First != "" && (first == "" || s.First < first) {
			first = s.First
		}
	}
	if first == "" {
		first = last
	}
	return keeper.DayStart(first), keeper.DayStart(last) + 86400
}

// specs makes one chart for each thing that was measured in one of the tanks, and
// the legend of all.
func (p *Page) specs() ([]drawn, []parts.LegendItem) {
	pr := p.deps.Present
	x0, x1 := p.bounds()
	var ticks []chart.Tick
	for _, t := range pr.TimeTicks(x0, x1) {
		ticks = append(ticks, chart.Tick{At: t.X, Label: t.Label})
	}
	if ticks == nil {
		ticks = []chart.Tick{}
	}
	var events []chart.Event
	used := map[working.Key]bool{}
	for _, s := range p.seen[:1] { // of this tank; those of others would be taken for its own
		for _, e := range s.Events {
			for _, g := range signs {
				if g.kind == e.Kind || g.kind == "" && e.Case {
					if e.X >= x0 && e.X < x1 {
						used[g.word] = true
					}
					events = append(events, chart.Event{X: e.X, Shape: g.shape, Colour: g.colour})
				}
			}
		}
	}
	var out []drawn
	side := map[int]bool{}
	for _, name := range keeper.TraceNames() {
		var of []measured
		for i, s := range p.seen {
			for _, t := range s.Traces.Traces {
				if t.Name == name && (len(of) == 0 || of[0].Kind == t.Kind) {
					of = append(of, measured{t, s.tank, i})
				}
			}
		}
		if len(of) > 0 {
			out = append(out, p.one(of, x0, x1, ticks, events, side))
		}
	}
	var legend []parts.LegendItem
	for _, g := range signs {
		if used[g.word] {
			legend = append(legend, parts.LegendItem{Shape: g.shape, Colour: g.colour, Word: pr.W.T(g.word, nil)})
		}
	}
	if side[-1] {
		legend = append(legend, parts.LegendItem{Shape: scene.Round, Colour: look.Teal, Stem: -1, Word: pr.W.T("page.chart.is_under", nil)})
	}
	if side[1] {
		legend = append(legend, parts.LegendItem{Shape: scene.Round, Colour: look.Teal, Stem: 1, Word: pr.W.T("page.chart.is_over", nil)})
	}
	return out, legend
}

// measured is a trace with the tank it comes from.
type measured struct {
	keeper.Trace
	tank  keeper.Tank
	place int // among those shown: its colour and sign
}

var sides = map[journal.Qualifier]int{journal.NotDetected: -1, journal.OverRange: 1}

func (p *Page) one(of []measured, x0, x1 float64, ticks []chart.Tick, events []chart.Event, side map[int]bool) drawn {
	pr := p.deps.Present
	u := pr.TraceUnit(of[0].Trace)
	in := func(y float64) float64 {
		if math.IsInf(y, 0) {
			return y
		}
		return u.FromBase(y)
	}
	c := chart.Spec{Unit: pr.TraceTitle(of[0].Trace), Left: leftRoom, Ground: look.Paper, Events: events,
		X: chart.Axis{Min: x0, Max: x1, Fixed: true, Ticks: ticks}}
	c.Y = chart.Axis{Label: func(v, _ float64) string { return pr.W.Number(v, 4) }, FromZero: of[0].Kind == quantity.KindConcentration || of[0].Sums}
	if n, ok := leastSpan[of[0].Kind]; ok {
		c.Y.Least = math.Abs(u.FromBase(n) - u.FromBase(0))
	}
	points := map[float64][]said{}
	for _, t := range of {
		s := chart.Series{Shape: shapes[t.place%len(shapes)], Colour: look.Series[t.place%len(look.Series)], Filled: true, Bars: t.Sums}
		if len(p.seen) > 1 {
			s.Name = t.tank.Name
		}
		last := math.Inf(-1)
		for _, x := range t.Points {
			v := chart.Sample{X: x.X, Y: in(x.Y), Side: sides[x.Qualifier]}
			side[v.Side] = side[v.Side] || x.X >= x0 && x.X < x1
			if !t.Sums && x.X-last > silence && !math.IsInf(last, -1) {
				s.Line = append(s.Line, chart.Sample{X: (x.X + last) / 2, Gap: true})
			}
			last = x.X
			s.Points = append(s.Points, v)
			if !t.Sums {
				s.Line = append(s.Line, v)
			}
			points[x.X] = append(points[x.X], said{t, x})
		}
		c.Series = append(c.Series, s)
	}
	if !of[0].Sums {
		for _, z := range of[0].Zones {
			c.Zones = append(c.Zones, zone(z, in, pr.W.State(z.State)))
		}
	}
	return drawn{c, func(r chart.Reading) string { return p.says(r, points[r.X]) }}
}

// leastSpan is the least that an axis shows, in base units. Judgement: what moves
// by less is steady to the eye as well.
var leastSpan = map[quantity.Kind]float64{quantity.KindTemperature: 4, quantity.KindPH: 1.2, quantity.KindHardness: 17.848 * 4}

// said is a point with where it comes from.
type said struct {
	of    measured
	point keeper.TracePoint
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

// says are the words of a read-out: when, each value there, and what happened
// that day.
func (p *Page) says(r chart.Reading, points []said) string {
	pr := p.deps.Present
	lines := []string{pr.MomentOf(r.X)}
	for _, s := range points {
		value := pr.TraceValue(s.of.Trace, s.point)
		if len(p.seen) > 1 {
			value = s.of.tank.Name + ": " + value
		}
		if st, ok := stateOf(s); ok {
			value += " · " + pr.W.State(st)
		}
		lines = append(lines, value)
	}
	if len(p.seen) > 0 {
		day := pr.DayOf(r.X)
		told := map[journal.Kind]bool{}
		for _, e := range p.seen[0].Events {
			if pr.DayOf(e.X) == day && !told[e.Kind] {
				told[e.Kind] = true
				lines = append(lines, pr.W.T(working.Key("entry."+string(e.Kind)), nil))
			}
		}
	}
	return strings.Join(lines, "\n")
}

// stateOf is how a value is judged by its zones; a value that is none is not.
func stateOf(s said) (working.State, bool) {
	if s.point.Qualifier != journal.Plain || s.of.Sums {
		return working.Steady, false
	}
	for _, z := range s.of.Zones {
		if s.point.Y <= z.To {
			return z.State, true
		}
	}
	return working.Steady, false
}
