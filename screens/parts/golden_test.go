package parts

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
)

// TestMarkup holds the make-up of the parts whose drawing is least likely to
// change: what stands where, in which size and colour.
func TestMarkup(t *testing.T) {
	themed(t, look.Light, 100)
	for name, o := range map[string]interface {
		fyne.CanvasObject
		Tall
	}{
		"dipstick": NewDipstick(steps(), nil),
		"safety": NewSafety(SafetySpec{Severity: Warning, Word: "WARNING", Hazard: "A full tank cannot be moved.",
			Consequence: "Lifting it filled breaks seams and backs.", Avoidance: []string{"Empty it before you move it."}, Confirm: "I have read this"}, nil),
		"bar":  NewBar(BarSpec{Name: "Top, long-term sag", Text: "86 %", Share: 0.86, State: Act, Word: "near the limit"}),
		"tick": NewTick(TickSpec{Text: "Bag closed and floating", Done: true}, nil),
	} {
		w := test.NewTempWindow(t, o)
		w.SetPadded(false)
		w.Resize(fyne.NewSize(400, o.HeightAt(400)))
		test.AssertRendersToMarkup(t, name+".xml", w.Canvas())
	}
}
