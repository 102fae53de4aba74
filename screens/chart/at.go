package chart

import (
	"math"
	"sort"
)

// Value is what one series says at a place.
type Value struct {
	OK        bool    // false: there is no value here
	Y         float64 // measured, or read from the line
	Measured  bool    // there is a measured point exactly here
	Banded    bool    // Low and High are given
	Low, High float64
}

// Reading is what all series say at one X.
type Reading struct {
	X      float64
	Values []Value // one for each series, in order
}

// At gives the reading at the sample nearest to x; ok is false when the chart
// has no value at all or x is not finite. Between its samples a series is read
// from its straight line, and not at all across a gap.
func (s Spec) At(x float64) (r Reading, ok bool) {
	if !finite(x) {
		return r, false
	}
	return s.ready().at(x)
}

func (s Spec) at(x float64) (r Reading, ok bool) {
	best := math.Inf(1)
	try := func(v float64) {
		if d := math.Abs(v - x); d < best && s.shown(v) {
			best, r.X, ok = d, v, true
		}
	}
	for _, a := range s.Series {
		for _, list := range [][]Sample{a.Line, a.Points} {
			// The nearest that is not missing lies next to x, apart from gaps.
			k := sort.Search(len(list), func(i int) bool { return list[i].X >= x })
			for i := k; i < len(list); i++ {
				if !list[i].missing() {
					try(list[i].X)
					break
				}
			}
			for i := k - 1; i >= 0; i-- {
				if !list[i].missing() {
					try(list[i].X)
					break
				}
			}
		}
	}
	if !ok {
		return r, false
	}
	for _, a := range s.Series {
		r.Values = append(r.Values, a.at(r.X))
	}
	return r, true
}

func (s Spec) shown(x float64) bool { return !s.X.Fixed || x >= s.X.Min && x <= s.X.Max }

func (a Series) at(x float64) (v Value) {
	if k := sort.Search(len(a.Points), func(i int) bool { return a.Points[i].X >= x }); k < len(a.Points) && a.Points[k].X == x && !a.Points[k].missing() {
		v = Value{OK: true, Measured: true, Y: a.Points[k].Y}
	} else if k := sort.Search(len(a.Line), func(i int) bool { return a.Line[i].X >= x }); k < len(a.Line) {
		switch b := a.Line[k]; {
		case b.X == x && !b.missing():
			v = Value{OK: true, Y: b.Y}
		case k > 0 && !b.missing() && !a.Line[k-1].missing():
			c := a.Line[k-1]
			v = Value{OK: true, Y: c.Y + (b.Y-c.Y)*(x-c.X)/(b.X-c.X)}
		}
	}
	if k := sort.Search(len(a.Band), func(i int) bool { return a.Band[i].X >= x }); k < len(a.Band) {
		switch b := a.Band[k]; {
		case b.X == x:
			v.Banded, v.Low, v.High = true, b.Low, b.High
		case k > 0:
			c := a.Band[k-1]
			f := (x - c.X) / (b.X - c.X)
			v.Banded, v.Low, v.High = true, c.Low+(b.Low-c.Low)*f, c.High+(b.High-c.High)*f
		}
	}
	return v
}

// stops gives the places that the arrow keys visit: the measured points, or
// without any the samples of the lines, thinned to at most 120.
func (s Spec) stops() []float64 {
	collect := func(pick func(Series) []Sample) []float64 {
		seen := map[float64]bool{}
		var xs []float64
		for _, a := range s.Series {
			for _, v := range pick(a) {
				if !v.missing() && s.shown(v.X) && !seen[v.X] {
					seen[v.X] = true
					xs = append(xs, v.X)
				}
			}
		}
		sort.Float64s(xs)
		return xs
	}
	xs := collect(func(a Series) []Sample { return a.Points })
	if len(xs) == 0 {
		xs = collect(func(a Series) []Sample { return a.Line })
	}
	const most = 120 // judgement: a long press goes from end to end in seconds
	if n := len(xs); n > most {
		thin := make([]float64, most)
		for i := range thin {
			thin[i] = xs[i*(n-1)/(most-1)]
		}
		xs = thin
	}
	return xs
}
