package shell_test

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	model "example.org/driploop/model/sick"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/sick"
)

// drawn writes a picture of a fish-coloured patch and gives its path.
func drawn(t *testing.T, name string) string {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 64, 48))
	for i := range img.Pix {
		img.Pix[i] = byte(i * len(name))
	}
	img.Set(1, 1, color.RGBA{200, uint8(len(name)), 9, 255})
	path := filepath.Join(t.TempDir(), name)
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

func (s stage) shown(t *testing.T) *sick.Page {
	t.Helper()
	p, ok := s.Page().(*sick.Page)
	if !ok {
		t.Fatalf("not a case but %s", s.Route().Place)
	}
	return p
}

// A fish looks wrong: from Today by keyboard alone to an open case, signs, water
// test, note, pictures, closing; and back by undo.
func TestCaseByKeyboard(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	id, err := s.k.StartTank(ctx, "Hall", quantity.US)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.k.AddEntry(ctx, id, journal.Entry{Kind: journal.FishIn, Note: "Zebra danios"}); err != nil {
		t.Fatal(err)
	}
	s.Settled()
	s.Go(nav.Route{Place: nav.Today, Tank: id})
	s.hit(t, "sick", fyne.KeyReturn)
	s.fillIn(t, "case-about", "the grey danio")
	s.hit(t, "open-case", fyne.KeyReturn)
	if got := s.shown(t).Shown(); got.Heading != "the grey danio" || !got.Open {
		t.Fatalf("the case is %q", got.Heading)
	}
	if at := parts.IDOf(s.w.Canvas().Focused()); at != "sign-search" {
		t.Errorf("a case without signs begins at %q", at)
	}
	s.fillIn(t, "sign-search", "FOLDED")
	s.hit(t, "sign-clamped_fins", fyne.KeySpace)
	if got := parts.IDOf(s.w.Canvas().Focused()); got != "sign-clamped_fins" {
		t.Errorf("a tick sends the focus to %q", got)
	}
	s.hit(t, "what-to-do", fyne.KeyReturn)
	if got := s.shown(t).Shown(); len(got.Seen) != 1 || got.Tests[0].Name != journal.NameTemperature || len(got.Changes) != 1 || len(got.Acts) == 0 || len(got.Notes) == 0 {
		t.Errorf("the case is %+v", got)
	}
	// One press to the form of the first test, which then belongs to the case.
	s.hit(t, "test-now", fyne.KeyReturn)
	if at := parts.IDOf(s.w.Canvas().Focused()); at != journal.NameTemperature {
		t.Errorf("the form of the test begins at %q", at)
	}
	s.fillIn(t, journal.NameTemperature, "75")
	s.hit(t, "keep", fyne.KeyReturn)
	if got := s.shown(t).Shown(); len(got.Days) != 1 || got.Tests[0].Last == "" || got.Water == nil {
		t.Errorf("after the test the case is %+v", got)
	}
	s.fillIn(t, "case-note", "hides behind the filter")
	s.hit(t, "write-note", fyne.KeyReturn)
	s.Dropped([]string{drawn(t, "a.png"), drawn(t, "bb.png")})
	s.hit(t, "as_file", fyne.KeyReturn) // pictures without a time: as their files say
	photos, err := s.k.Photos(ctx, id, keeper.PhotoFilter{Sick: s.Route().Case})
	if err != nil || len(photos) != 2 {
		t.Errorf("%d pictures in the case, %v", len(photos), err)
	}
	s.hit(t, "print-case", fyne.KeyReturn)
	if pdf, err := os.ReadFile(filepath.Join(s.papers, "driploop-case.pdf")); err != nil || !bytes.HasPrefix(pdf, []byte("%PDF")) {
		t.Errorf("the paper of the case: %v", err)
	}
	s.hit(t, "close-case", fyne.KeyReturn)
	s.hit(t, "outcome-well", fyne.KeyReturn)
	if s.shown(t).Shown().Open || parts.IDOf(s.w.Canvas().Focused()) != "reopen" {
		t.Errorf("the case is open, or the focus at %q", parts.IDOf(s.w.Canvas().Focused()))
	}
	if s.shown(t).Dropped([]string{drawn(t, "ccc.png")}) {
		t.Error("a closed case took what was dropped")
	}
	for range 6 { // closing, times of pictures, pictures, note, test, tick
		s.Undo()
	}
	if got := s.shown(t).Shown(); !got.Open || len(got.Days) != 0 || len(got.Seen) != 0 {
		t.Errorf("after undo the case is %+v", got)
	}
	s.Undo() // the opening: the page is the list again
	if cs, err := s.k.Cases(ctx, id); err != nil || len(cs) != 0 || s.shown(t).Shown().ID == "" {
		t.Errorf("%d cases after undo, %v", len(cs), err)
	}
	s.hit(t, "open-case", fyne.KeyReturn)
	if cs, err := s.k.Cases(ctx, id); err != nil || len(cs) != 1 {
		t.Errorf("%d cases, %v", len(cs), err)
	}
}

// No page of the cases holds a word of the other language, and all signs can be
// ticked in the one and searched without accents in the other.
func TestCaseInSpanish(t *testing.T) {
	p := english()
	p.Lang, p.Region, p.Units = "es", "ES", quantity.Metric
	s := open(t, p)
	ctx := context.Background()
	tank, err := s.k.StartTank(ctx, "Sala", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	var all []model.SignID
	for _, x := range model.Signs() {
		all = append(all, x.Code)
	}
	id, err := s.k.OpenCase(ctx, tank, keeper.Who{}, model.Most, all...)
	if err != nil {
		t.Fatal(err)
	}
	s.Settled()
	s.Go(nav.Route{Place: nav.Sick, Tank: tank, Case: id})
	got := s.shown(t).Shown()
	words := append([]string{got.Heading, got.Beside, got.Urgency.Title, got.Vet.Title}, got.Acts...)
	words = append(append(words, got.Vet.Lines...), got.Urgency.Lines...)
	for _, w := range words {
		for _, english := range []string{" the ", " fish", "water", " vet "} {
			if strings.Contains(strings.ToLower(w), english) {
				t.Errorf("English on a Spanish page: %q", w)
			}
		}
	}
	if len(got.Seen) != 35 || len(got.Signs) != len(model.Groups()) {
		t.Errorf("%d signs are seen", len(got.Seen))
	}
	s.hit(t, "more-signs", fyne.KeyReturn)
	s.fillIn(t, "sign-search", "algodon")
	s.hit(t, "sign-cotton_tufts", fyne.KeySpace)
	if got := s.shown(t).Shown(); len(got.Seen) != 34 {
		t.Errorf("%d signs after one was taken off", len(got.Seen))
	}
}
