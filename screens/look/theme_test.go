package look

import (
	"errors"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

func TestTextScale(t *testing.T) {
	for _, c := range []struct {
		scale int
		name  fyne.ThemeSizeName
		want  float32
	}{{0, SizeBody, 15}, {100, SizeNumber, 40}, {150, SizeNote, 19.5}, {150, SizeHeading, 42}, {120, SizeField, 20.4}, {110, SizeSection, 20.9}} {
		th, err := New(Options{TextScale: c.scale})
		if err != nil {
			t.Fatal(err)
		}
		if got := th.Size(c.name); math.Abs(float64(got-c.want)) > 1e-4 {
			t.Errorf("%s at %d %%: expected %v, got %v", c.name, c.scale, c.want, got)
		}
	}
	for _, bad := range []int{-1, 1, 99, 151} {
		var oe *OptionError
		if _, err := New(Options{TextScale: bad}); !errors.As(err, &oe) || oe.Field != "TextScale" || oe.Min != 100 || oe.Max != 150 {
			t.Errorf("scale %d: expected a refusal naming TextScale, got %v", bad, err)
		}
	}
	if _, err := New(Options{Variant: 7}); err == nil {
		t.Error("variant 7 was taken")
	}
}

func TestVariantFollowsUnlessPinned(t *testing.T) {
	for _, c := range []struct {
		pin          Variant
		system, want fyne.ThemeVariant
	}{
		{FollowSystem, theme.VariantLight, theme.VariantLight}, {FollowSystem, theme.VariantDark, theme.VariantDark},
		{Light, theme.VariantDark, theme.VariantLight}, {Dark, theme.VariantLight, theme.VariantDark},
	} {
		th, err := New(Options{Variant: c.pin})
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range []Name{Paper, Ink, SignWarning} {
			if got, want := th.Color(n, c.system), Color(n, c.want); got != want {
				t.Errorf("pin %d, system %d, %s: expected %v, got %v", c.pin, c.system, n, want, got)
			}
		}
		if got, want := th.Color(theme.ColorNameBackground, c.system), Color(Paper, c.want); got != want {
			t.Errorf("background: expected %v, got %v", want, got)
		}
	}
}

// A widget's palette is that of its theme, and under a foreign theme that of
// the system's variant.
func TestPaletteForWidget(t *testing.T) {
	app := test.NewTempApp(t)
	w := widget.NewLabel("")
	if got := PaletteFor(w)(Ink); got.A != 0xFF {
		t.Errorf("foreign theme: Ink is %v", got)
	}
	th, err := New(Options{Variant: Dark, TextScale: 150})
	if err != nil {
		t.Fatal(err)
	}
	app.Settings().SetTheme(th)
	if got, want := PaletteFor(w)(Ink), Color(Ink, theme.VariantDark); got != want {
		t.Errorf("expected %v, got %v", want, got)
	}
	if got := ScaleFor(w); got != 1.5 {
		t.Errorf("scale: expected 1.5, got %v", got)
	}
	if got := PaletteFor(w)("no such role"); got.A != 0 {
		t.Errorf("unknown role: %v", got)
	}
	if got := theme.Size(SizeNumber); got != 60 {
		t.Errorf("number size through Fyne: expected 60, got %v", got)
	}
}

func TestFontsDifferAndScriptWins(t *testing.T) {
	test.NewTempApp(t)
	th, err := New(Options{})
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	width := map[string]float32{}
	for _, s := range []fyne.TextStyle{{}, {Bold: true}, {Italic: true}, {Bold: true, Italic: true}} {
		f := th.Font(s)
		seen[f.Name()] = true
		c := canvas.NewText("Ammonia and nitrite", nil)
		c.FontSource = f
		width[f.Name()] = c.MinSize().Width
	}
	if len(seen) != 4 {
		t.Errorf("expected four cuts, got %v", seen)
	}
	if !(width[SemiBoldFont.Name()] > width[RegularFont.Name()]) {
		t.Errorf("semi-bold is not wider than regular: %v", width)
	}
	script := fyne.NewStaticResource("script.ttf", []byte{0})
	th, err = New(Options{Script: script})
	if err != nil {
		t.Fatal(err)
	}
	if th.Font(fyne.TextStyle{Bold: true}) != fyne.Resource(script) {
		t.Error("the script font is not used for bold text")
	}
	if th.Font(fyne.TextStyle{Monospace: true}) == fyne.Resource(script) {
		t.Error("the script font is used for monospaced text")
	}
}
