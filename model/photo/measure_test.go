package photo

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func known(number string, unit quantity.UnitCode, a, b Point) Mark {
	return Mark{Kind: Known, Points: []Point{a, b}, Measure: quantity.Measure{Number: number, Unit: unit}}
}

func length(a, b Point) Mark { return Mark{Kind: Length, Points: []Point{a, b}} }

// By hand, on a picture of 4000 x 3000: the known 10 cm runs 1000 px across,
// the fish 300 px across and 400 px down, so 500 px: 5 cm. An end is off by 12 px,
// so u = √2·12·√(1/500² + 1/1000²) = 0.037947, and twice that is 7.59 %.
func TestLengthByHand(t *testing.T) {
	k := known("10", "cm", Point{100, 100}, Point{350, 100})
	l := length(Point{500, 500}, Point{575, 500 + 400.0/3})
	got, trail, err := MeasureLength(k, l, 4000, 3000)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(got)-0.05) > 1e-12 {
		t.Errorf("%g m, want 0.05", float64(got))
	}
	if math.Abs(trail.Spread.Low.X-0.05*(1-2*0.0379473)) > 1e-7 || math.Abs(trail.Spread.High.X-0.05*(1+2*0.0379473)) > 1e-7 {
		t.Errorf("spread %v", *trail.Spread)
	}
	if !trail.Finite() || trail.Strength != working.Ranged || len(trail.Assumes) != 3 || trail.Result.Value != got.Value() {
		t.Errorf("trail %+v", trail)
	}
}

// The spread is what a hand that misses by Click in both directions makes of it:
// 95 % of 20,000 trials within it, give or take 2.
func TestSpreadIsThatOfTheHand(t *testing.T) {
	const w, h = 4000, 3000
	random := rand.New(rand.NewPCG(7, 8))
	off := func(p Point) Point {
		return Point{p.X + random.NormFloat64()*Click, p.Y + random.NormFloat64()*Click*w/h}
	}
	k := known("4", "in", Point{200, 200}, Point{500, 260})
	l := length(Point{300, 600}, Point{470, 640})
	truth, trail, err := MeasureLength(k, l, w, h)
	if err != nil {
		t.Fatal(err)
	}
	in, n := 0, 20_000
	for range n {
		got, _, err := MeasureLength(known("4", "in", off(k.Points[0]), off(k.Points[1])), length(off(l.Points[0]), off(l.Points[1])), w, h)
		if err != nil {
			t.Fatal(err)
		}
		if float64(got) >= trail.Spread.Low.X && float64(got) <= trail.Spread.High.X {
			in++
		}
	}
	if share := float64(in) / float64(n); math.Abs(share-0.95) > 0.02 {
		t.Errorf("%.1f %% of trials within the spread of %v", share*100, truth)
	}
}

// Neither the size of the picture nor a quarter turn changes a length.
func TestLengthKnowsNoPixels(t *testing.T) {
	k, l := known("25", "mm", Point{10, 900}, Point{300, 850}), length(Point{500, 100}, Point{800, 330})
	want, _, err := MeasureLength(k, l, 4000, 3000)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ q, w, h int }{{0, 800, 600}, {1, 3000, 4000}, {2, 4000, 3000}, {3, 600, 800}} {
		got, _, err := MeasureLength(k.Turned(c.q), l.Turned(c.q), c.w, c.h)
		if err != nil || math.Abs(float64(got/want)-1) > 1e-4 { // points are kept to a hundredth
			t.Errorf("%+v: %v %v, want %v", c, got, err, want)
		}
	}
}

func TestMarksThatAreRefused(t *testing.T) {
	good := length(Point{0, 0}, Point{1000, 1000})
	ruler := known("10", "cm", Point{0, 0}, Point{0, 500})
	for name, c := range map[string]struct {
		k, l Mark
		want working.Key
	}{
		"exchanged":     {good, ruler, "refuse.photo.mark_kind"},
		"short":         {ruler, length(Point{0, 0}, Point{10, 0}), "refuse.photo.mark_short"},
		"short ruler":   {known("1", "cm", Point{0, 0}, Point{10, 0}), good, "refuse.photo.mark_short"},
		"no number":     {known("", "cm", Point{0, 0}, Point{0, 500}), good, "refuse.photo.known_missing"},
		"a mass":        {known("10", "kg", Point{0, 0}, Point{0, 500}), good, "refuse.photo.known_missing"},
		"too long":      {known("10", "m", Point{0, 0}, Point{0, 500}), good, "refuse.outside"},
		"zero":          {known("0", "cm", Point{0, 0}, Point{0, 500}), good, "refuse.outside"},
		"off":           {ruler, length(Point{0, 0}, Point{1000.5, 0}), "refuse.photo.mark_off"},
		"no number off": {ruler, length(Point{0, 0}, Point{math.NaN(), 0}), "refuse.photo.mark_off"},
		"one end":       {ruler, Mark{Kind: Length, Points: []Point{{1, 1}}}, "refuse.photo.mark_points"},
		"one place":     {ruler, length(Point{5, 5}, Point{5.001, 5}), "refuse.photo.mark_flat"},
	} {
		_, trail, err := MeasureLength(c.k, c.l, 4000, 3000)
		var r *working.Refusal
		if !errors.As(err, &r) || r.Code != c.want || trail != nil {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
	for want, m := range map[working.Key]Mark{
		"refuse.photo.mark_kind":  {Kind: "star", Points: []Point{{1, 1}}},
		"refuse.photo.mark_words": {Kind: Text, Points: []Point{{1, 1}}},
		"refuse.photo.words_long": {Kind: Text, Points: []Point{{1, 1}}, Words: strings.Repeat("é", MostWords+1)},
	} {
		var r *working.Refusal
		if err := m.Check(); !errors.As(err, &r) || r.Code != want {
			t.Errorf("%+v: %v, want %s", m.Kind, err, want)
		}
	}
}

// What is kept of points is read again.
func TestPointsRoundTrip(t *testing.T) {
	m := Mark{Kind: Arrow, Points: []Point{{0, 1000}, {12.345, 999.99}}}
	got, err := PointsOf(m.PointsText())
	if err != nil || len(got) != 2 || got[0] != m.Points[0] || got[1] != (Point{12.35, 999.99}) && got[1] != (Point{12.34, 999.99}) {
		t.Errorf("%v %v", got, err)
	}
}
