package parts

import (
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
)

// TestCloseUps draws what only shows in use: focus, an open list, what a shut
// step waits for. It keeps the pictures when asked.
func TestCloseUps(t *testing.T) {
	for name, v := range map[string]look.Variant{"light": look.Light, "dark": look.Dark} {
		themed(t, v, 100)
		page, stick, nav := samplePage(english)
		w := test.NewTempWindow(t, &fyne.Container{Layout: sampleLayout{}, Objects: []fyne.CanvasObject{nav, stick, page}})
		w.SetPadded(false)
		w.Resize(fyne.NewSize(1280, 800))
		keep := func(what string) {
			img := w.Canvas().Capture()
			if *shots == "" {
				return
			}
			f, err := os.Create(filepath.Join(*shots, "close-"+what+"-"+name+".png"))
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			if err := png.Encode(f, img); err != nil {
				t.Fatal(err)
			}
		}
		row := page.Column().Children()[2].(*Row)
		choice, field := row.children[0].(*Choice), row.children[1].(*Field)
		w.Canvas().Focus(field.Focusable())
		keep("field")
		w.Canvas().Focus(choice)
		key(choice, fyne.KeyDown)
		if w.Canvas().Overlays().Top() == nil {
			t.Error("no list")
		}
		keep("list")
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		w.Canvas().Focus(stick)
		for range 4 {
			key(stick, fyne.KeyUp)
		}
		if ringOf(stick) == nil {
			t.Error("no ring on the dipstick")
		}
		keep("stick")
		w.Canvas().Focus(nav.actions[2])
		keep("nav")
	}
}
