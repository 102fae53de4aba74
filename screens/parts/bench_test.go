package parts

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
)

func benchPage(b *testing.B) *Scroller {
	app := test.NewTempApp(b)
	th, err := look.New(look.Options{})
	if err != nil {
		b.Fatal(err)
	}
	app.Settings().SetTheme(th)
	page, _, _ := samplePage(german)
	w := test.NewTempWindow(b, page)
	w.Resize(fyne.NewSize(504, 800))
	return page
}

// BenchmarkPageHeight measures a page with every part on it.
func BenchmarkPageHeight(b *testing.B) {
	page := benchPage(b)
	for b.Loop() {
		page.sheet.HeightAt(504)
	}
}

// BenchmarkSetThatGrows sets a field so that the page is laid out again.
func BenchmarkSetThatGrows(b *testing.B) {
	page := benchPage(b)
	f := page.Column().Children()[2].(*Row).children[1].(*Field)
	short := f.Spec()
	long := short
	long.Error = german.purpose
	for b.Loop() {
		f.Set(long)
		f.Set(short)
	}
}

// BenchmarkSetInPlace sets a bar whose height stays.
func BenchmarkSetInPlace(b *testing.B) {
	page := benchPage(b)
	bar := page.Column().Children()[5].(*Bar)
	s := bar.spec
	other := s
	other.Share = 0.9
	for b.Loop() {
		bar.Set(other)
		bar.Set(s)
	}
}
