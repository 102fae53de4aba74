package charts

import (
	"testing"

	"example.org/driploop/screens/chart"
)

// The legend tells of signs that stand for several events where there may be some.
func TestCrowdedEvents(t *testing.T) {
	at := func(xs ...float64) (out []chart.Event) {
		for _, x := range xs {
			out = append(out, chart.Event{X: x})
		}
		return out
	}
	for _, c := range []struct {
		events []chart.Event
		want   bool
	}{{nil, false}, {at(50), false}, {at(10, 50, 90), false}, {at(50, 10, 52), true}, {at(-1, -2), false}, {at(99, 100), false}, {at(50, 50), true}} {
		if got := crowded(c.events, 0, 100); got != c.want {
			t.Errorf("%v: %v, want %v", c.events, got, c.want)
		}
	}
}
