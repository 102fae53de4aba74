package look

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"
)

// inkBands counts the bands of rows with ink, from top to bottom, of words as the
// toolkit draws them.
func inkBands(font fyne.Resource, words string) int {
	t := canvas.NewText(words, color.Black)
	t.FontSource, t.TextSize = font, 60
	c := software.NewTransparentCanvas()
	c.SetPadded(false)
	c.SetContent(t)
	img := c.Capture()
	bands, ink := 0, false
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
		was := ink
		ink = false
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
			if _, _, _, a := img.At(x, y).RGBA(); a > 0x8000 {
				ink = true
			}
		}
		if ink && !was {
			bands++
		}
	}
	return bands
}

// A letter with a dot keeps it, in each font that Ukrainian and Turkish are set in, in
// the window. Source: the Unicode charts, U+0069, U+0131, U+0456 and U+0457.
func TestLettersKeepTheirDots(t *testing.T) {
	test.NewTempApp(t)
	for _, f := range []fyne.Resource{notoText(), notoBold(), notoItalic(), RegularFont, SemiBoldFont, ItalicFont} {
		letters := map[string]int{"i": 2, "ı": 1}
		if coverage(f).has("і") {
			letters["і"], letters["ї"] = 2, 2
		}
		for letter, want := range letters {
			if got := inkBands(f, letter); got != want {
				t.Errorf("%s: %s is drawn in %d parts, want %d", f.Name(), letter, got, want)
			}
		}
	}
}
