package charts

import (
	"slices"
	"strings"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/scene"
	"example.org/driploop/screens/trace"
)

// drawn is a chart with the words of its read-out.
type drawn struct {
	chart.Spec
	says func(chart.Reading) string
}

// leftRoom is the room for the numbers of every chart, so that their time axes
// lie under one another. Judgement: five figures and a mark.
const leftRoom = 58

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

// crowd is how near two events must be, as a share of the span, to share a sign on a
// chart in a narrow window; in a wide one they must be nearer. Judgement.
const crowd = 0.03

// crowded reports whether events in view may share a sign.
func crowded(events []chart.Event, x0, x1 float64) bool {
	var in []float64
	for _, e := range events {
		if e.X >= x0 && e.X < x1 {
			in = append(in, e.X)
		}
	}
	slices.Sort(in)
	for i := 1; i < len(in); i++ {
		if in[i]-in[i-1] < crowd*(x1-x0) {
			return true
		}
	}
	return false
}

// specs makes one chart for each thing that was measured in one of the tanks, and
// the legend of all.
func (p *Page) specs() ([]drawn, []parts.LegendItem) {
	pr := p.deps.Present
	x0, x1 := p.bounds()
	ticks := trace.Ticks(pr, x0, x1)
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
		var kinds []quantity.Kind // a chart has one axis: doses in grams get one of their own
		of := map[quantity.Kind][]measured{}
		for i, s := range p.seen {
			for _, t := range s.Traces.Traces {
				if t.Name != name {
					continue
				}
				if of[t.Kind] == nil {
					kinds = append(kinds, t.Kind)
				}
				of[t.Kind] = append(of[t.Kind], measured{t, s.tank, i})
			}
		}
		for _, k := range kinds {
			out = append(out, p.one(of[k], x0, x1, ticks, events, side))
		}
	}
	var legend []parts.LegendItem
	for _, g := range signs {
		if used[g.word] {
			legend = append(legend, parts.LegendItem{Shape: g.shape, Colour: g.colour, Word: pr.W.T(g.word, nil)})
		}
	}
	if crowded(events, x0, x1) {
		legend = append(legend, parts.LegendItem{Count: "2", Colour: look.SoftInk, Word: pr.W.T("page.chart.several", nil)})
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

func (p *Page) one(of []measured, x0, x1 float64, ticks []chart.Tick, events []chart.Event, side map[int]bool) drawn {
	c, in := trace.Axes(p.deps.Present, of[0].Trace, x0, x1, ticks)
	c.Left, c.Ground, c.Events = leftRoom, look.Paper, events
	points := map[float64][]said{}
	for _, t := range of {
		s := trace.Series(t.Trace, in, shapes[t.place%len(shapes)], look.Series[t.place%len(look.Series)])
		if len(p.seen) > 1 {
			s.Name = t.tank.Name
		}
		for _, x := range t.Points {
			n := trace.Sides[x.Qualifier]
			side[n] = side[n] || x.X >= x0 && x.X < x1
			points[x.X] = append(points[x.X], said{t, x})
		}
		c.Series = append(c.Series, s)
	}
	return drawn{c, func(r chart.Reading) string { return p.says(r, points[r.X]) }}
}

// said is a point with where it comes from.
type said struct {
	of    measured
	point keeper.TracePoint
}

// says are the words of a read-out: when, each value there, and what happened
// that day.
func (p *Page) says(r chart.Reading, points []said) string {
	pr := p.deps.Present
	lines := []string{pr.MomentOf(r.X)}
	for _, s := range points {
		value := pr.TraceValue(s.of.Trace, s.point)
		if len(p.seen) > 1 {
			value = pr.W.Colon(s.of.tank.Name, value)
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
