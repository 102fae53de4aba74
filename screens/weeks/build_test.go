package weeks

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/scene"
)

// sample draws a plan of a few steps.
func sample(t *rapid.T) Spec {
	s := Spec{Now: rapid.Float64Range(0, 1.2).Draw(t, "now"), Today: "today", Full: "100 %", Green: "70 %", Week: func(n int) string { return fmt.Sprint("week ", n) }}
	week := 0.0
	for range rapid.IntRange(0, MostDrawn).Draw(t, "steps") {
		x := Step{Week: week, Date: "16 Dec 2026", State: rapid.SampledFrom([]working.State{working.Steady, working.Wait, working.Act}).Draw(t, "state"), Word: "waits",
			Use: rapid.Float64Range(0, 3).Draw(t, "use"), Percent: "62 %"}
		for range rapid.IntRange(1, 2).Draw(t, "kinds") {
			a := rapid.SampledFrom(fish.All()).Draw(t, "kind")
			x.Animals = append(x.Animals, Animal{Code: a.Code, Length: float64(a.Length) * 1000, Text: "6 " + a.Common})
		}
		s.Steps = append(s.Steps, x)
		week += rapid.Float64Range(0, 12).Draw(t, "wait")
	}
	return s
}

// Every step has its part in the drawing, nothing is left out of it for a number
// that cannot be drawn, the labels lie side by side, none over another, and all of
// it within the height told.
func TestStepsKeepApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, w := sample(t), rapid.Float64Range(300, 1200).Draw(t, "width")
		p := lay(s, w)
		for i, a := range p.blocks {
			if a.x < 0 || a.y < axisGap || p.axis+a.y+a.h > p.h {
				t.Fatalf("block %d: %+v of %v by %v", i, a, p.w, p.h)
			}
			for _, b := range p.blocks[:i] {
				if a.x < b.x+b.w && b.x < a.x+a.w && a.y < b.y+b.h && b.y < a.y+a.h {
					t.Fatalf("%+v lies over %+v", a, b)
				}
			}
		}
		d := Build(s, w)
		if err := d.Err(); err != nil {
			t.Fatal(err)
		}
		seen := map[scene.ID]bool{}
		for _, id := range d.IDs() {
			seen[id] = true
		}
		for i := range s.Steps {
			if !seen[ID(i)] {
				t.Fatalf("step %d is not drawn", i)
			}
		}
	})
}

func TestPartsAreSteps(t *testing.T) {
	if n, ok := StepOf(ID(12)); n != 12 || !ok {
		t.Errorf("%d, %v", n, ok)
	}
	for _, id := range []scene.ID{"", "step-", "tank", "step-x"} {
		if _, ok := StepOf(id); ok {
			t.Errorf("%q is a step", id)
		}
	}
}
