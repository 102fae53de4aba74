package fauna

import (
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"os"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"example.org/driploop/model/fish"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// sheet is all the animals in rows, each so many points long, on water.
func sheet(animals []*fish.Animal, size, cols int, v fyne.ThemeVariant, words bool) *image.RGBA {
	wide, high := size*13/10+24, size*85/100+34
	rows := (len(animals) + cols - 1) / cols
	img := image.NewRGBA(image.Rect(0, 0, wide*cols, high*rows))
	p := look.PaletteOf(v)
	draw.Draw(img, img.Rect, image.NewUniform(p(look.Paper)), image.Point{}, draw.Src)
	s := scene.New()
	for i, a := range animals {
		x, y := float64(i%cols*wide), -float64(i/cols*high)
		s.Add(scene.Rect{Min: scene.Pt(x+3, y-3), Max: scene.Pt(x+float64(wide)-3, y-float64(high)+3), Style: scene.Style{Fill: look.Water, Alpha: .74}})
		b := Box(a.Code, float64(size))
		at := scene.Pt(x+float64(wide)/2-(b.Min.X+b.Max.X)/2, y-float64(high)/2+8-(b.Min.Y+b.Max.Y)/2)
		s.Add(Animal(a.Code, float64(size), Pose{At: at, Scale: 1})...)
		if words {
			s.Add(scene.Text{S: a.Common, At: scene.Pt(x+8, y-float64(high)+9), Size: 11, Colour: look.Ink})
		}
	}
	new(scene.Raster).Draw(img, s, scene.Transform{Scale: 1, Point: 1}, p)
	return img
}

func TestSheet(t *testing.T) {
	out := os.Getenv("FAUNA_SHEET")
	if out == "" {
		return
	}
	for name, v := range map[string]fyne.ThemeVariant{"light": theme.VariantLight, "dark": theme.VariantDark} {
		all := fish.All()
		for k := 0; k*45 < len(all); k++ {
			save(t, fmt.Sprintf("%s-%s-%d.png", out, name, k), sheet(all[k*45:min(len(all), k*45+45)], 170, 5, v, true))
		}
		save(t, fmt.Sprintf("%s-%s-tiny.png", out, name), sheet(all, 30, 14, v, false))
	}
}

func save(t *testing.T, name string, img image.Image) {
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}
