package water

import (
	"math"
	"testing"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// ofCard is a reading of the colour card 0, 0.25, 0.5, 1, 2, 4 mg/L, or of one of
// nitrate with 0, 5, 10, 20, 40, 80: with the middles of the ways beside it.
func ofCard(x Test, v float64, days int) Reading {
	r := at(x, v)
	r.At = noon.Add(time.Duration(days) * 24 * time.Hour)
	card := []float64{0, 0.25, 0.5, 1, 2, 4}
	if x == TestNitrate {
		card = []float64{0, 5, 10, 20, 40, 80}
	}
	r.Resolution = quantity.Concentration(card[1]).Value()
	for i, c := range card {
		if c != v {
			continue
		}
		var below, above float64
		if i > 0 {
			below = (c - card[i-1]) / 2
		}
		if i < len(card)-1 {
			above = (card[i+1] - c) / 2
		} else {
			above = below
		}
		r.Below, r.Above = quantity.Concentration(below).Value(), quantity.Concentration(above).Value()
		return r
	}
	panic("no colour of the card")
}

// One colour of a card to the next is no course: both may be the same water. Two are.
func TestCourseOfACard(t *testing.T) {
	for _, c := range []struct {
		vs   []float64
		want Direction
	}{
		{[]float64{0.25, 0.25, 0.5}, Flat}, {[]float64{2, 2, 4}, Flat}, {[]float64{0.25, 0.5, 0.5}, Flat}, {[]float64{4, 2, 2}, Flat},
		{[]float64{0.5, 1, 2}, Rising}, {[]float64{0.25, 0.5, 1}, Rising}, {[]float64{4, 2, 1}, Falling},
	} {
		var rs []Reading
		for i, v := range c.vs {
			rs = append(rs, ofCard(TestNitrite, v, i))
		}
		if got, err := TrendOf(TestNitrite, rs); err != nil || got.Direction != c.want {
			t.Errorf("%v: %+v, want %s, %v", c.vs, got, c.want, err)
		}
	}
	// The same figures from a kit that tells tenths are a course.
	var rs []Reading
	for i, v := range []float64{2, 3, 4} {
		r := at(TestNitrite, v)
		r.At, r.Resolution = noon.Add(time.Duration(i)*24*time.Hour), quantity.Concentration(0.1).Value()
		rs = append(rs, r)
	}
	if got, err := TrendOf(TestNitrite, rs); err != nil || got.Direction != Rising {
		t.Errorf("a kit of tenths: %+v, %v", got, err)
	}
}

// A move is doubted by what it was at the least. Nitrate from 40 to 20 may be 30 both
// times; from 40 to 10 it fell from 30 to 15 at the least. Ammonia from 1 to 2 mg/L
// of the ion may be 1.5 both times, which a load of 0.01 mg N/L a day explains; from
// 1 to 4 it rose by 1.5 at the least. Worked by hand.
func TestDoubtOfACard(t *testing.T) {
	ion := func(v float64, days int) Reading {
		r := ofCard(TestAmmonia, v, days)
		r.Basis = quantity.AsIon
		return r
	}
	for _, c := range []struct {
		what    string
		x       Test
		a, b    Reading
		between Between
		want    working.Key
	}{
		{"nitrate by one colour", TestNitrate, ofCard(TestNitrate, 40, 0), ofCard(TestNitrate, 20, 3), Between{}, ""},
		{"nitrate by two colours", TestNitrate, ofCard(TestNitrate, 40, 0), ofCard(TestNitrate, 10, 3), Between{}, "find.water.nitrate_halved"},
		{"ammonia by one colour", TestAmmonia, ion(1, 0), ion(2, 1), Between{Load: 0.01}, ""},
		{"ammonia by two colours", TestAmmonia, ion(1, 0), ion(4, 1), Between{Load: 0.01}, "find.water.ammonia_beyond_load"},
		{"nitrate to the next colour, 40 above", TestNitrate, ofCard(TestNitrate, 40, 0), ofCard(TestNitrate, 80, 1), Between{}, ""},
		{"nitrate over three colours", TestNitrate, ofCard(TestNitrate, 10, 0), ofCard(TestNitrate, 80, 1), Between{}, "find.water.jump"},
	} {
		if f, ok := Doubt(c.x, c.a, c.b, c.between); ok != (c.want != "") || f.Code != c.want {
			t.Errorf("%s: %v %v, want %q", c.what, ok, f.Code, c.want)
		}
	}
}

// The card leaves a line open where it lies between the middles beside the colour:
// 1.0 mg/L of nitrite between 0.75 and 1.5, not between 1.5 and 3.
func TestEitherSideByTheCard(t *testing.T) {
	for _, c := range []struct {
		v    float64
		open bool
	}{{0.25, true}, {0.5, false}, {1, true}, {2, false}, {4, false}} {
		v := with(map[Test]float64{})
		v.Nitrite = ofCard(TestNitrite, c.v, 0)
		if got := has(Interpret(v), "find.water.either_side"); got != c.open {
			t.Errorf("nitrite %g: open %v, want %v", c.v, got, c.open)
		}
	}
}

// The working tells the spread as it is judged: 1 mg/L of ammonia as the ion, between
// 0.75 and 1.5, as nitrogen. Source of the ratio: IUPAC standard atomic weights 2021,
// 14.007 of 18.039 g/mol.
func TestToldAsItIsJudged(t *testing.T) {
	r := ofCard(TestAmmonia, 1, 0)
	r.Basis = quantity.AsIon
	tr, ok := TestAmmonia.Told(r)
	const ratio = 14.007 / 18.039
	if !ok || math.Abs(tr.Result.Value.X-ratio) > 1e-4 {
		t.Fatalf("%+v, %v", tr, ok)
	}
	one := tr.Result.Value.X
	if low, high := tr.Spread.Low.X/one, tr.Spread.High.X/one; math.Abs(low-0.75) > 1e-9 || math.Abs(high-1.5) > 1e-9 {
		t.Errorf("from %v to %v of it, want 0.75 to 1.5", low, high)
	}
	if _, ok := TestNitrite.Told(at(TestNitrite, 1)); ok {
		t.Error("a kit that is not known tells a spread")
	}
	if _, ok := TestNitrite.Told(ofCard(TestNitrite, 0, 0)); ok {
		t.Error("what was not detected has a spread about it")
	}
}
