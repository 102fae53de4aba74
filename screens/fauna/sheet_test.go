package fauna

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
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

// Small or large, every animal shows as a shape on the water in both themes; the
// sheets are kept with go test -artifacts, to be looked at.
func TestEveryAnimalShowsAsAShape(t *testing.T) {
	all := fish.All()
	for name, v := range map[string]fyne.ThemeVariant{"light": theme.VariantLight, "dark": theme.VariantDark} {
		water, shows := look.Color(look.Water, v), map[color.RGBA]bool{}
		for _, size := range []int{12, 170} {
			cols := 5
			if size < 100 {
				cols = 14
			}
			img := sheet(all, size, cols, v, size > 100)
			save(t, fmt.Sprintf("%s-%d.png", name, size), img)
			wide, high := img.Rect.Dx()/cols, img.Rect.Dy()/((len(all)+cols-1)/cols)
			for i, a := range all {
				n := 0
				for y := i/cols*high + 4; y < i/cols*high+high-22; y++ {
					for x := i%cols*wide + 4; x < i%cols*wide+wide-4; x++ {
						c := img.RGBAAt(x, y)
						far, known := shows[c]
						if !known {
							far = look.Contrast(color.NRGBA{c.R, c.G, c.B, 255}, water) >= 3
							shows[c] = far
						}
						if far {
							n++
						}
					}
				}
				// judgement: an outline has at least as many pixels as half its length.
				if n < size/2 {
					t.Errorf("%s, %d points, %s: %d pixels reach 3:1 on water", a.Code, size, name, n)
				}
			}
		}
	}
}

func save(t *testing.T, name string, img image.Image) {
	f, err := os.Create(filepath.Join(t.ArtifactDir(), name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}
