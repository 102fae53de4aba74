package scene_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"codeberg.org/go-pdf/fpdf"
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"golang.org/x/image/font/sfnt"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// letters are the characters of all messages of each language, as the files have
// them.
func letters(t *testing.T) map[string]map[rune]string {
	t.Helper()
	files, err := filepath.Glob("../../i18n/messages/*.toml")
	if err != nil || len(files) < 60 {
		t.Fatalf("%d files of messages, %v", len(files), err)
	}
	out := map[string]map[rune]string{}
	for _, f := range files {
		lang := strings.Split(filepath.Base(f), ".")[1]
		raw, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if out[lang] == nil {
			out[lang] = map[rune]string{}
		}
		text := strings.NewReplacer(`\u00a0`, "\u00a0", `\u202f`, "\u202f").Replace(string(raw))
		for _, r := range text {
			if !unicode.IsControl(r) {
				out[lang][r] = filepath.Base(f)
			}
		}
	}
	return out
}

// No message of any language has a character that would show as a box: in the
// window, in drawings, in papers; in each of the weights.
func TestEveryLetterOfEveryLanguageHasAGlyph(t *testing.T) {
	app := test.NewTempApp(t)
	for lang, set := range letters(t) {
		o := look.Options{}
		o.Script, o.ScriptBold = look.ScriptOf(lang)
		th, err := look.New(o)
		if err != nil {
			t.Fatal(err)
		}
		app.Settings().SetTheme(th)
		scene.Prefer(lang)
		for r, file := range set {
			for name, style := range map[string]fyne.TextStyle{"plain": {}, "bold": {Bold: true}, "heavy": {Bold: true, Italic: true}} {
				if look.SourceFor(style, string(r)) == nil && !toolkitHas(th, style, r) {
					t.Errorf("%s: the window has no %q %U in %s type", file, r, r, name)
				}
			}
			for _, w := range []scene.Weight{scene.Regular, scene.SemiBold, scene.Bold} {
				if !scene.Covers(string(r), w) {
					t.Errorf("%s: drawings and papers have no %q %U in weight %d", file, r, r, w)
				}
			}
		}
	}
	scene.Prefer("")
}

// toolkitHas looks into what the toolkit puts a text together from where no font is
// named for it: the theme's font, then its own for the style.
func toolkitHas(th fyne.Theme, style fyne.TextStyle, r rune) bool {
	fonts := append([]fyne.Resource{th.Font(style)}, look.Spares("", style.Bold)[:look.Western]...)
	return slices.ContainsFunc(fonts, func(f fyne.Resource) bool {
		p, err := sfnt.Parse(f.Content())
		if err != nil {
			return false
		}
		i, err := p.GlyphIndex(nil, r)
		return err == nil && i != 0
	})
}

// A name in another script prints in a paper of any language, in an embedded font
// of its own, and can be copied out of it.
func TestNamesInOtherScriptsPrint(t *testing.T) {
	for _, name := range []string{"水槽 ゼブラ", "鱼缸", "Акваріум", "Akwarium ąęłńśźż", "İğışçöü"} {
		d := fpdf.New("P", "mm", "A4", "")
		d.SetCompression(false)
		d.AddPage()
		s := scene.New()
		s.Add(scene.Text{At: scene.Pt(0, 0), S: name, Size: 5, Weight: scene.Bold}, scene.Text{At: scene.Pt(0, 10), S: name, Size: 5})
		scene.NewPDF(d).Draw(s, 10, 10, 100, 50, look.PaletteOf(0))
		var b strings.Builder
		if err := d.Output(&b); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if n := b.Len(); n < 5000 || n > 400_000 { // of a font of megabytes, only what is used goes in
			t.Errorf("%s: the document has %d bytes", name, n)
		}
		if !scene.Covers(name, scene.Regular) || !scene.Covers(name, scene.Bold) {
			t.Errorf("%s has a box", name)
		}
	}
}

// Nothing of the large fonts is read for Latin, whatever signs it has.
func TestLatinReadsNoLargeFont(t *testing.T) {
	scene.Shut()
	for _, text := range []string{"Net volume 36.2 L → 40 ◆ NH₃ µ ⌈x⌉ № Ω ☃"} {
		scene.Covers(text, scene.Regular)
		scene.TextSize(text, scene.Bold, 10)
	}
	if len(scene.Opened()) == 0 {
		t.Error("the signs were found in no spare font")
	}
	for _, f := range scene.Opened() {
		if len(f.Content()) > 1_000_000 {
			t.Errorf("%s was read", f.Name())
		}
	}
}
