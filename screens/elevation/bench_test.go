package elevation

import (
	"image"
	"testing"

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
