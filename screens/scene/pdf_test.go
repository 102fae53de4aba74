package scene

import (
	"bytes"
	"crypto/sha256"
	"regexp"
	"testing"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"example.org/driploop/assets"
	"example.org/driploop/screens/look"
)

func document() *fpdf.Fpdf {
	d := fpdf.New("P", "mm", "A4", "")
	d.SetCompression(false)
	d.SetCatalogSort(true)
	at := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	d.SetCreationDate(at)
	d.SetModificationDate(at)
	d.AddPage()
	return d
}

func bytesOf(t *testing.T, d *fpdf.Fpdf) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := d.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func utf16be(s string) []byte {
	var b []byte
	for _, r := range s {
		b = append(b, byte(r>>8), byte(r))
	}
	return b
}

func TestPDFHasVectorsAndText(t *testing.T) {
	sum := sha256.Sum256(assets.Regular)
	d := document()
	p := NewPDF(d)
	tr := p.Draw(sample(), 15, 40, 100, 120, plain)
	p.Draw(sample(), 130, 40, 50, 60, plain)
	out := bytesOf(t, d)

	for what, re := range map[string]string{
		"straight lines":   `\d m\n[\d.-]+ [\d.-]+ l\n`,
		"filled outlines":  `h\nf\n`,
		"stroked lines":    `\nS\n`,
		"dashes":           `0 J \[[\d.]+ [\d.]+ \] 0 d`,
		"water's colour":   `0\.749 0\.867 0\.878 rg`,
		"opacity":          `/ca 0\.400`,
		"map to Unicode":   `/ToUnicode`,
		"embedded outline": `/FontFile2`,
		"turned text":      `0\.00000 1\.00000 -1\.00000 0\.00000 `,
	} {
		if !regexp.MustCompile(re).Match(out) {
			t.Errorf("the PDF has no %s (%s)", what, re)
		}
	}
	for _, words := range []string{"610 mm", "68 kg", "Danio rerio"} {
		if !bytes.Contains(out, utf16be(words)) {
			t.Errorf("the PDF has no text %q", words)
		}
	}
	if bytes.Contains(out, []byte("/Subtype /Image")) {
		t.Error("the PDF holds a picture where vectors were wanted")
	}
	if n := bytes.Count(out, []byte("/FontFile2")); n != 3 {
		t.Errorf("three cuts are used in two drawings: expected 3 embedded fonts, got %d", n)
	}
	// 100 mm of paper for a drawing about 1,000 mm wide.
	if r := tr.Ratio(1); r < 9 || r > 18 {
		t.Errorf("scale on paper: 1 : %.1f", r)
	}
	if sha256.Sum256(assets.Regular) != sum {
		t.Error("making a PDF changed the embedded font")
	}
}

func TestPDFIsReproducible(t *testing.T) {
	make := func() []byte {
		d := document()
		NewPDF(d).Draw(sample(), 15, 40, 100, 120, plain)
		return bytesOf(t, d)
	}
	if !bytes.Equal(make(), make()) {
		t.Error("two PDFs differ")
	}
}

func TestPDFLeavesTheDocumentAsItWas(t *testing.T) {
	d := document()
	p := NewPDF(d)
	p.Font(SemiBold, 12)
	d.SetDrawColor(10, 20, 30)
	d.SetFillColor(40, 50, 60)
	d.SetTextColor(70, 80, 90)
	d.SetLineWidth(0.7)
	d.SetAlpha(0.8, "Normal")
	family := d.GetFontFamily()
	p.Draw(sample(), 15, 40, 100, 120, plain)
	r, g, b := d.GetTextColor()
	r1, g1, b1 := d.GetDrawColor()
	r2, g2, b2 := d.GetFillColor()
	size, _ := d.GetFontSize()
	alpha, _ := d.GetAlpha()
	if [9]int{r, g, b, r1, g1, b1, r2, g2, b2} != [9]int{70, 80, 90, 10, 20, 30, 40, 50, 60} || d.GetLineWidth() != 0.7 ||
		d.GetFontFamily() != family || size != 12 || alpha != 0.8 || d.GetLineCapStyle() != "butt" {
		t.Errorf("the document's state has changed: %v %v %v, width %v, family %q/%q, size %v, alpha %v, cap %q", []int{r, g, b}, []int{r1, g1, b1}, []int{r2, g2, b2}, d.GetLineWidth(), d.GetFontFamily(), family, size, alpha, d.GetLineCapStyle())
	}
	out := bytesOf(t, d)
	if q, e := bytes.Count(out, []byte("\nq\n")), bytes.Count(out, []byte("\nQ\n")); q != e || q == 0 {
		t.Errorf("graphics states saved %d times and restored %d times", q, e)
	}
}

func TestPDFRefusesOtherUnits(t *testing.T) {
	d := fpdf.New("P", "pt", "A4", "")
	d.AddPage()
	NewPDF(d).Draw(sample(), 0, 0, 100, 100, plain)
	if d.Error() == nil {
		t.Error("a document in points was taken")
	}
	d = fpdf.New("P", "mm", "A4", "")
	NewPDF(d).Draw(sample(), 0, 0, 100, 100, plain)
	if d.Error() == nil {
		t.Error("a document without a page was taken")
	}
}

// Where a spare font shows a glyph the run is split and the pen moves on.
func TestSplitKeepsTheAdvance(t *testing.T) {
	sum := 0.0
	for _, part := range split("Nitrat 25 mg/L", Regular) {
		sum += part.advance
	}
	near(t, "advance", sum, TextSize("Nitrat 25 mg/L", Regular, 1).Width, 1e-12)
	if parts := split("", Regular); len(parts) != 0 {
		t.Errorf("empty text: %v", parts)
	}
}

func BenchmarkPDF(b *testing.B) {
	s := sample()
	for b.Loop() {
		d := document()
		NewPDF(d).Draw(s, 15, 40, 100, 120, look.PaletteOf(0))
	}
}
