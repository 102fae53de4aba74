package picture

import (
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/screens/scene"
)

// The words of marks in one spot stand apart, and those with room stay where they are.
func TestWordsOfMarksStandApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := &plates{scale: rapid.SampledFrom([]float64{1, 1.5}).Draw(t, "scale")}
		tr := scene.Transform{Scale: 1, Point: p.scale}
		n := rapid.IntRange(1, 6).Draw(t, "marks")
		var boxes []scene.Box
		for i := range n {
			at := scene.Pt(rapid.Float64Range(0, 60).Draw(t, "x"), rapid.Float64Range(0, 10).Draw(t, "y"))
			text := scene.Text{At: at, S: rapid.SampledFrom([]string{"5.1 cm", "fin", "20 in"}).Draw(t, "words"), Size: 15, H: scene.Middle, V: scene.Centre, Shift: scene.Pt(0, 16)}
			put := p.put(text)
			if i == 0 && put != text {
				t.Fatalf("the first was moved by %v", put.Shift)
			}
			b := put.Box(tr)
			for _, o := range boxes {
				if o.Overlaps(b) {
					t.Fatalf("%v lies upon %v", b, o)
				}
			}
			boxes = append(boxes, b)
		}
	})
}
