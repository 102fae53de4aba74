package charts

import (
	"bytes"
	"image/png"
	"testing"

	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/scene"
)

// A saved picture says what its signs mean: each word of the legend takes ink above the
// charts, in the colour of its sign, and the charts themselves stay as they are.
func TestASavedPictureHasItsLegend(t *testing.T) {
	specs := []drawn{{Spec: chart.Spec{Empty: "nothing"}}}
	item := func(n int) (out []parts.LegendItem) {
		for range n {
			out = append(out, parts.LegendItem{Shape: scene.Square, Colour: look.Rust, Filled: true, Word: "Water change, by buckets"})
		}
		return out
	}
	tall := map[int]int{}
	for _, n := range []int{0, 1, 3, 9} {
		raw, err := pictureOf("Kitchen corner", item(n), specs)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(raw))
		if err != nil {
			t.Fatal(err)
		}
		tall[n] = img.Bounds().Dy()
		coloured := 0
		for y := range tall[n] - savedTall*savedDots {
			for x := range img.Bounds().Dx() {
				if r, g, b, _ := img.At(x, y).RGBA(); r > g+0x2000 && r > b+0x2000 {
					coloured++
				}
			}
		}
		if (n > 0) != (coloured > 0) {
			t.Errorf("%d signs: %d points of their colour", n, coloured)
		}
	}
	if tall[1] != tall[0]+savedLine*savedDots || tall[3] != tall[1] || tall[9] <= tall[3] {
		t.Errorf("heights with 0, 1, 3 and 9 signs: %v", tall)
	}
}
