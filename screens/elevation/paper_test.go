package elevation

import (
	"image"
	"image/color"
	"image/draw"
	"testing"

	"fyne.io/fyne/v2/theme"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

func paint(s Spec, p look.Palette) *image.RGBA {
	f := Frame(s)
	img := image.NewRGBA(image.Rect(0, 0, int(f.W), int(f.H)))
	draw.Draw(img, img.Rect, image.NewUniform(p(look.Paper)), image.Point{}, draw.Src)
	sc := Build(s)
	new(scene.Raster).Draw(img, sc, scene.Fit(sc, f), p)
	return img
}

// On paper nothing is drawn in a colour that carries meaning.
func TestPaperUsesInkAlone(t *testing.T) {
	neutral := map[look.Name]bool{look.Ink: true, look.Paper: true, look.Sheet: true, look.Water: true, look.Gravel: true, look.Rule: true, look.Track: true}
	p := func(n look.Name) color.NRGBA {
		if neutral[n] || n == "" {
			c := look.Color(n, theme.VariantLight)
			return color.NRGBA{c.R, c.R, c.R, c.A} // grey, so that any hue is seen
		}
		return color.NRGBA{0xFF, 0, 0xFF, 0xFF}
	}
	for name, s := range samples() {
		s.Paper = true
		img := paint(s, p)
		hued := 0
		for i := 0; i < len(img.Pix); i += 4 {
			if img.Pix[i] != img.Pix[i+1] {
				hued++
			}
		}
		if hued > 0 {
			t.Errorf("%s: %d pixels of a colour that print may lose", name, hued)
		}
	}
}

// Words keep to the combinations that are checked for contrast in both variants.
func TestWordsAreLegible(t *testing.T) {
	for _, c := range []struct{ fore, back look.Name }{
		{look.Ink, look.Paper}, {look.SoftInk, look.Paper}, {look.Rust, look.Paper}, // notes, dimensions, reactions, flags
		{look.Ink, look.Water}, {look.Ink, look.Sheet}, {look.Rust, look.Sheet}, // temperature, marks, weight
	} {
		if !look.Permits(c.fore, c.back, look.Text) {
			t.Errorf("%s on %s is not permitted for text", c.fore, c.back)
		}
	}
}

// Both variants show the drawing: a fair part of the picture differs clearly from the ground.
func TestShownInBothVariants(t *testing.T) {
	for name, s := range map[string]Spec{"running": running(), "loads": loaded(), "long": long()} {
		for v, p := range map[string]look.Palette{"light": look.PaletteOf(theme.VariantLight), "dark": look.PaletteOf(theme.VariantDark)} {
			img, ground := paint(s, p), p(look.Paper)
			seen := 0
			for i := 0; i < len(img.Pix); i += 4 {
				if d := int(img.Pix[i]) - int(ground.R); d > 90 || d < -90 {
					seen++
				}
			}
			if total := len(img.Pix) / 4; seen < total/60 {
				t.Errorf("%s, %s: %d of %d pixels stand out", name, v, seen, total)
			}
		}
	}
}
