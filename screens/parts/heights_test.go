package parts

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The tree says what adding up by hand says.
func TestHeightsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 70).Draw(t, "n")
		h := newHeights(n, 30)
		for range rapid.IntRange(0, 40).Draw(t, "sets") {
			h.set(rapid.IntRange(0, n-1).Draw(t, "row"), float32(rapid.IntRange(1, 200).Draw(t, "height")))
		}
		sum := 0.0
		for i := range n {
			if math.Abs(h.top(i)-sum) > 1e-6 {
				t.Fatalf("row %d begins at %v, not at %v", i, sum, h.top(i))
			}
			for _, in := range []float64{0, 0.5, float64(h.each[i]) - 0.01} {
				if got := h.at(sum + in); got != i {
					t.Fatalf("%v within row %d: row %d", in, i, got)
				}
			}
			sum += float64(h.each[i])
		}
		if math.Abs(h.all()-sum) > 1e-6 || h.at(-5) != 0 || h.at(sum+5) != n-1 {
			t.Fatal("the ends")
		}
	})
}
