package chart

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/screens/scene"
)

func TestAt(t *testing.T) {
	s := Spec{Series: []Series{
		{Points: []Sample{{X: 4, Y: 8}, {X: 0, Y: 2}, {X: 6, Gap: true}, {X: 8, Y: math.NaN()}, {X: 10, Y: 1}}}, // in any order
		{Line: []Sample{{X: 0, Y: 10}, {X: 5, Y: 20}, {X: math.Inf(1), Y: 3}}, Band: []Spread{{X: 0, Low: 12, High: 8}, {X: 5, Low: 18, High: 26}}},
	}}
	for _, c := range []struct {
		x, wantX float64
		want     []Value
	}{
		{-3, 0, []Value{{OK: true, Y: 2, Measured: true}, {OK: true, Y: 10, Banded: true, Low: 8, High: 12}}},
		{3.9, 4, []Value{{OK: true, Y: 8, Measured: true}, {OK: true, Y: 18, Banded: true, Low: 16, High: 23.2}}},
		{4.9, 5, []Value{{}, {OK: true, Y: 20, Banded: true, Low: 18, High: 26}}}, // before a gap: not read across it
		{7.4, 5, []Value{{}, {OK: true, Y: 20, Banded: true, Low: 18, High: 26}}}, // gaps are no samples
		{7.6, 10, []Value{{OK: true, Y: 1, Measured: true}, {}}},
	} {
		r, ok := s.At(c.x)
		if !ok || r.X != c.wantX || len(r.Values) != 2 {
			t.Errorf("At(%v): expected a reading at %v, got %+v, %v", c.x, c.wantX, r, ok)
			continue
		}
		for i, w := range c.want {
			g := r.Values[i]
			if g.OK != w.OK || g.Measured != w.Measured || g.Banded != w.Banded || math.Abs(g.Y-w.Y) > 1e-9 || math.Abs(g.Low-w.Low) > 1e-9 || math.Abs(g.High-w.High) > 1e-9 {
				t.Errorf("At(%v), series %d: expected %+v, got %+v", c.x, i, w, g)
			}
		}
	}
	if _, ok := s.At(math.NaN()); ok {
		t.Error("a reading at NaN")
	}
	if _, ok := (Spec{}).At(1); ok {
		t.Error("a reading without data")
	}
}

// The reading is at the nearest sample there is, whatever the data.
func TestAtIsNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 40).Draw(t, "n")
		var a Series
		for range n {
			a.Points = append(a.Points, Sample{X: rapid.Float64Range(-50, 50).Draw(t, "x"), Y: 1, Gap: rapid.IntRange(0, 3).Draw(t, "gap") == 0})
		}
		x := rapid.Float64Range(-60, 60).Draw(t, "at")
		want := math.Inf(1)
		for _, p := range a.Points {
			if !p.Gap {
				want = math.Min(want, math.Abs(p.X-x))
			}
		}
		r, ok := Spec{Series: []Series{a}}.At(x)
		if ok != !math.IsInf(want, 1) || ok && math.Abs(math.Abs(r.X-x)-want) > 1e-12 {
			t.Fatalf("expected a sample %v away, got %+v, %v", want, r, ok)
		}
	})
}

func TestThinKeepsExtremesAndCount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 600).Draw(t, "n")
		line := make([]scene.Point, n)
		x := 0.0
		for i := range line {
			x += rapid.Float64Range(0, 0.6).Draw(t, "dx")
			line[i] = scene.Pt(x, rapid.Float64Range(-9, 9).Draw(t, "y"))
		}
		out := thin(line)
		perColumn := map[float64]int{}
		span := func(ps []scene.Point) (lo, hi float64) {
			lo, hi = math.Inf(1), math.Inf(-1)
			for _, p := range ps {
				lo, hi = math.Min(lo, p.Y), math.Max(hi, p.Y)
			}
			return
		}
		for i, p := range out {
			perColumn[math.Floor(p.X)]++
			if i > 0 && p.X < out[i-1].X {
				t.Fatal("the line runs back")
			}
		}
		if n > 2 {
			for c, k := range perColumn {
				if k > 2 {
					t.Fatalf("%d points in column %v", k, c)
				}
			}
		}
		lo, hi := span(line)
		if l, h := span(out); l != lo || h != hi {
			t.Fatalf("extremes %v to %v became %v to %v", lo, hi, l, h)
		}
	})
}
