package look

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// TestSourceFor: our own font is named for words that it covers, and only for
// those; the toolkit's way is kept for what it lacks and for other themes.
func TestSourceFor(t *testing.T) {
	app := test.NewTempApp(t)
	if got := SourceFor(fyne.TextStyle{}, "abc"); got != nil {
		t.Errorf("another theme: %v", got.Name())
	}
	th, err := New(Options{})
	if err != nil {
		t.Fatal(err)
	}
	app.Settings().SetTheme(th)
	for _, c := range []struct {
		style fyne.TextStyle
		words string
		want  fyne.Resource
	}{
		{fyne.TextStyle{}, "", RegularFont},
		{fyne.TextStyle{}, "Net volume 36.2 l, 25 °C ±0.5", RegularFont},
		{fyne.TextStyle{Bold: true}, "Día de prueba: ¿qué más?", SemiBoldFont},
		{fyne.TextStyle{Italic: true}, "Füllstand", ItalicFont},
		{fyne.TextStyle{}, "水槽", ChineseFont},
		{fyne.TextStyle{}, "ゼブラ 水槽 2", JapaneseFont},
		{fyne.TextStyle{Bold: true}, "鱼缸 Kitchen", ChineseBold},
		{fyne.TextStyle{}, "Акваріум 54 л", notoText()},
		{fyne.TextStyle{}, "水槽 دفتر", nil},
		{fyne.TextStyle{}, "fish 🐟", nil},
		{fyne.TextStyle{}, "دفتر", nil},
		{fyne.TextStyle{}, "tab\there", nil},
		{fyne.TextStyle{Monospace: true}, "abc", nil},
	} {
		if got := SourceFor(c.style, c.words); got != c.want {
			t.Errorf("%q %+v: %v, want %v", c.words, c.style, got, c.want)
			continue
		}
		if c.want != nil && c.want != th.Font(c.style) {
			continue
		}
		// What is measured is the same either way, or a line would be cut.
		d := fyne.CurrentApp().Driver()
		own, ownBase := d.RenderedTextSize(c.words, 15, c.style, c.want)
		plain, base := d.RenderedTextSize(c.words, 15, c.style, nil)
		if own != plain || ownBase != base {
			t.Errorf("%q: %v %v with the source, %v %v without", c.words, own, ownBase, plain, base)
		}
	}
}
