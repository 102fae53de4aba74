package parts

import (
	"fmt"
	"runtime"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
)

// inside gives what is in an object, itself and what is hidden included.
func inside(o fyne.CanvasObject) []fyne.CanvasObject {
	out := []fyne.CanvasObject{o}
	var inner []fyne.CanvasObject
	switch x := o.(type) {
	case *fyne.Container:
		inner = x.Objects
	case fyne.Widget:
		inner = test.WidgetRenderer(x).Objects()
	}
	for _, i := range inner {
		out = append(out, inside(i)...)
	}
	return out
}

// TestBoxIsDressed: what is typed into a box has the size and the colour of its state,
// also after the toolkit has forgotten how a box out of sight is drawn.
func TestBoxIsDressed(t *testing.T) {
	themed(t, look.Light, 150)
	for name, c := range map[string]struct {
		spec   FieldSpec
		shows  string
		colour look.Name
	}{
		"given":    {FieldSpec{Label: "Length", Text: "24", Unit: "in"}, "24", look.Ink},
		"proposed": {FieldSpec{Label: "Length", Text: "24", Unit: "in", Proposed: true}, "24", look.SoftInk},
		"empty":    {FieldSpec{Label: "Length", Placeholder: "a length", Unit: "in"}, "a length", look.SoftInk},
	} {
		f := NewField(c.spec)
		w := test.NewTempWindow(t, f)
		w.SetPadded(false)
		w.Resize(fyne.NewSize(300, f.HeightAt(300)))
		check := func(when string) {
			t.Helper()
			w.Canvas().Capture()
			found := false
			for _, o := range inside(f.input) {
				x, ok := o.(*canvas.Text)
				if !ok || x.Text != c.shows {
					continue
				}
				found = true
				if want := float32(look.Field * 1.5); x.TextSize != want || !x.TextStyle.Bold {
					t.Errorf("%s, %s: of size %v, bold %v, want %v and bold", name, when, x.TextSize, x.TextStyle.Bold, want)
				}
				if want := look.PaletteFor(f)(c.colour); fmt.Sprint(want) != fmt.Sprint(x.Color) {
					t.Errorf("%s, %s: in %v, want %v", name, when, x.Color, want)
				}
			}
			if !found {
				t.Errorf("%s, %s: the box does not show %q", name, when, c.shows)
			}
		}
		check("at first")
		t.Run("forgotten", func(t *testing.T) { // as each renderer is at the end of its test
			for _, o := range inside(f.input) {
				if x, ok := o.(fyne.Widget); ok {
					test.TempWidgetRenderer(t, x)
				}
			}
		})
		f.input.Refresh()
		check("after it was forgotten")
	}
}

// TestBoxesReadNoFonts: each box drawn costs what is in it, not the fonts of the
// program over again, of which the least are some megabytes.
func TestBoxesReadNoFonts(t *testing.T) {
	themed(t, look.Light, 100)
	const boxes, each = 12, 1 << 20
	show := func(n int) {
		f := NewField(FieldSpec{Label: "Length", Text: fmt.Sprint(n), Unit: "in"})
		w := test.NewWindow(f)
		defer w.Close()
		w.Resize(fyne.NewSize(300, 100))
		w.Canvas().Capture()
	}
	used := func() uint64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	show(0) // reads them once
	before := used()
	for n := range boxes {
		show(n + 1)
	}
	if after := used(); after > before+boxes*each {
		t.Errorf("%d boxes keep %d kB", boxes, (after-before)>>10)
	}
}
