package elevation

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

func BenchmarkBuild(b *testing.B) {
	for name, s := range map[string]Spec{"running": running(), "long": long()} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Build(s)
			}
		})
	}
}

// BenchmarkUpdate is what a change costs on the screen: build, fit and paint.
func BenchmarkUpdate(b *testing.B) {
	for name, s := range map[string]Spec{"running": running(), "long": long()} {
		b.Run(name, func(b *testing.B) {
			img := image.NewRGBA(image.Rect(0, 0, 530, 740))
			colours := look.PaletteOf(theme.VariantLight)
			var pen scene.Raster
			for b.Loop() {
				sc := Build(s)
				pen.Draw(img, sc, scene.Fit(sc, Frame(s)), colours)
			}
		})
	}
}

// BenchmarkMove is what a step of the fish costs on the window's thread, beside
// drawing the same tank anew (Update/long): the one moves pictures, the other
// paints.
func BenchmarkMove(b *testing.B) {
	app := test.NewApp()
	defer app.Quit()
	s, fish := Stage(long())
	v := scene.NewView(s)
	w := test.NewWindow(v)
	defer w.Close()
	w.Resize(fyne.NewSize(530, 740))
	v.SetActors(fish)
	w.Canvas().Capture()
	seconds := 0.0
	for b.Loop() {
		seconds += 0.3
		v.Step(seconds)
	}
}
