package kinds

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/parts"
)

// With larger text a drawing needs more room before a panel may stand below it: in less
// its dimensions lie over one another.
func TestADrawingKeepsTheRoomOfItsWords(t *testing.T) {
	app := test.NewTempApp(t)
	for _, c := range []struct {
		percent int
		below   float32 // what the panel leaves
		shown   bool
	}{{100, 300, true}, {100, 250, false}, {150, 300, false}, {150, 400, true}} {
		th, err := look.New(look.Options{TextScale: c.percent})
		if err != nil {
			t.Fatal(err)
		}
		app.Settings().SetTheme(th)
		drawing, panel := canvas.NewRectangle(color.Black), parts.NewPanel("A panel")
		h := panel.HeightAt(300-32) + 16
		(&below{}).Layout([]fyne.CanvasObject{drawing, panel}, fyne.NewSize(300, h+c.below))
		want := h + c.below
		if c.shown {
			want = c.below
		}
		if got := drawing.Size().Height; panel.Visible() != c.shown || got < want-0.5 || got > want+0.5 {
			t.Errorf("%d %%, %.0f left: panel shown %v, drawing %.0f high, want %v and %.0f", c.percent, c.below, panel.Visible(), got, c.shown, want)
		}
	}
}
