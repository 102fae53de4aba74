package shell_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/model/code"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// A shop without a tank of its own comes to the Counter, begins a profile, and hands
// it out: one press for a file, one for a sheet; both are in the record, and the
// file is what was handed out.
func TestCounterHandsOut(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	s.Go(nav.Route{Place: nav.Counter})
	s.hit(t, "new", fyne.KeyReturn)
	s.hit(t, "keep", fyne.KeyReturn)
	r := s.Route()
	if r.Place != nav.Draft || r.Profile == "" || r.Step != care.TankPlace || r.Tank != "" {
		t.Fatalf("a new profile opens %+v", r)
	}
	for range 6 {
		s.w.Canvas().Unfocus() // the button of the step before is gone
		s.hit(t, "carry-on", fyne.KeyReturn)
	}
	if got := s.Route(); got.Place != nav.Counter || got.Profile != r.Profile {
		t.Fatalf("after the last step: %+v", got)
	}
	if tanks, err := s.k.Tanks(ctx); err != nil || len(tanks) != 0 {
		t.Errorf("the shop has tanks: %v %v", tanks, err)
	}
	s.Go(nav.Route{Place: nav.Counter})
	s.hit(t, "file-"+r.Profile, fyne.KeyReturn)
	s.hit(t, "sheet-"+r.Profile, fyne.KeyReturn)
	outs, err := s.k.HandOuts(ctx, r.Profile)
	if err != nil || len(outs) != 2 || outs[0].Edition != 1 || outs[1].Edition != 1 {
		t.Errorf("the record says %+v %v", outs, err)
	}
	var names []string
	files, err := filepath.Glob(filepath.Join(s.papers, "*"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		switch filepath.Ext(f) {
		case ".dlprofile":
			p, _, err := s.k.OpenProfile(ctx, f)
			if err != nil || p.Edition != 1 || !p.Signature.Signed() || len(p.Answers) < 35 {
				t.Errorf("the file: %d answers, edition %d, %v", len(p.Answers), p.Edition, err)
			}
			names = append(names, filepath.Base(f))
		case ".pdf":
			data, err := os.ReadFile(f)
			if err != nil || !strings.HasPrefix(string(data), "%PDF-") {
				t.Errorf("the sheet: %v", err)
			}
			names = append(names, filepath.Base(f))
		}
	}
	if got := strings.Join(names, " "); got != "starter.dlprofile starter.pdf" {
		t.Errorf("handed out as %s", got)
	}
	// What is changed at the profile is taken back there, and its removal in the list.
	s.Go(nav.Route{Place: nav.Counter, Profile: r.Profile})
	if err := s.k.SetProfileNotes(ctx, r.Profile, map[string]string{"en": "Feed little."}); err != nil {
		t.Fatal(err)
	}
	s.Undo()
	if w, err := s.k.ProfileInWork(ctx, r.Profile); err != nil || len(w.Notes) != 0 {
		t.Errorf("after undo: %v %v", w.Notes, err)
	}
	s.hit(t, "remove", fyne.KeyReturn)
	if cards, err := s.k.Profiles(ctx); err != nil || len(cards) != 0 || s.Route().Place != nav.Counter {
		t.Errorf("after removing: %v %v at %+v", cards, err, s.Route())
	}
	s.Undo()
	if cards, err := s.k.Profiles(ctx); err != nil || len(cards) != 1 || s.Route().Place != nav.Counter {
		t.Errorf("after undo: %v %v at %+v", cards, err, s.Route())
	}
}

// The keyboard stays where one works: on the button of the profile that was handed out,
// for the next family, and on the row that a panel was opened from.
func TestCounterKeepsTheKeyboard(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	id, err := s.k.StartProfile(ctx, "Starter", "us")
	if err != nil {
		t.Fatal(err)
	}
	c := s.w.Canvas()
	focus := func() string { return parts.IDOf(c.Focused()) }
	s.Go(nav.Route{Place: nav.Counter})
	s.hit(t, "file-"+id, fyne.KeyReturn)
	for range 2 { // from there on Enter alone
		if focus() != "file-"+id || parts.Again(s.Page().Object(), c.Focused()) != c.Focused() {
			t.Fatalf("after a file the focus is at %q", focus())
		}
		c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	if outs, err := s.k.HandOuts(ctx, id); err != nil || len(outs) != 3 {
		t.Errorf("handed out %d times: %v", len(outs), err)
	}
	s.Go(nav.Route{Place: nav.Counter, Profile: id})
	s.hit(t, "edit-notes", fyne.KeyReturn)
	if s.fillIn(t, "note", "Feed little."); !strings.Contains(s.texts(), "Notes in: English") {
		t.Errorf("while a note is typed it is said: %s", s.texts())
	}
	s.hit(t, "keep", fyne.KeyReturn)
	if focus() != "edit-notes" || parts.Again(s.Page().Object(), c.Focused()) != c.Focused() {
		t.Errorf("after the notes the focus is at %q", focus())
	}
	s.hit(t, "rename", fyne.KeyReturn)
	s.key(fyne.KeyEscape)
	if focus() != "rename" {
		t.Errorf("after Escape the focus is at %q", focus())
	}
}

// The card of the shop says below its box what cannot be kept, and keeps what can.
func TestCounterCardOfTheShop(t *testing.T) {
	s := open(t, english())
	s.Go(nav.Route{Place: nav.Counter})
	s.hit(t, "shop", fyne.KeyReturn)
	c := s.w.Canvas()
	name, ok := s.at(t, "shop-name").(interface{ SetText(string) })
	if !ok {
		t.Fatal("no box for the name")
	}
	name.SetText(strings.Repeat("a", slip.MaxShopName+1))
	s.hit(t, "keep", fyne.KeyReturn)
	if shop, _, err := s.k.Shop(context.Background()); err != nil || shop.Name != "" || c.Overlays().Top() == nil {
		t.Fatalf("a name that is too long: %q %v", shop.Name, err)
	}
	name.SetText("Corner shop")
	s.hit(t, "keep", fyne.KeyReturn)
	if shop, _, err := s.k.Shop(context.Background()); err != nil || shop.Name != "Corner shop" {
		t.Errorf("kept %q %v", shop.Name, err)
	}
}

// sheetPicture is a picture of some codes of a printed profile, side by side.
func sheetPicture(t *testing.T, codes ...string) string {
	t.Helper()
	const k = 4
	wide, high := 0, 0
	var ms []code.Matrix
	for _, text := range codes {
		m, err := code.Encode(text)
		if err != nil {
			t.Fatal(err)
		}
		ms = append(ms, m)
		wide, high = wide+(m.Side+2*code.Quiet)*k, max(high, (m.Side+2*code.Quiet)*k)
	}
	img := image.NewGray(image.Rect(0, 0, wide, high))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	x0 := 0
	for _, m := range ms {
		for y := range m.Side * k {
			for x := range m.Side * k {
				if m.Dark(x/k, y/k) {
					img.SetGray(x0+x+code.Quiet*k, y+code.Quiet*k, color.Gray{Y: 30})
				}
			}
		}
		x0 += (m.Side + 2*code.Quiet) * k
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "sheet.png")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// A picture of a printed profile, opened or dropped, offers it as its file does; a
// part of it asks for the rest; a picture of a fish goes into the daybook.
func TestPictureOfASheet(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	profile, err := s.k.StartProfile(ctx, "Starter", "us")
	if err != nil {
		t.Fatal(err)
	}
	var long strings.Builder
	for i := range 200 {
		fmt.Fprintf(&long, "%d: %x. ", i, i*i*i*7919)
	}
	if err := s.k.SetProfileNotes(ctx, profile, map[string]string{"en": long.String()}); err != nil {
		t.Fatal(err)
	}
	r, err := s.k.PrepareHandOut(ctx, profile)
	if err != nil {
		t.Fatal(err)
	}
	codes, err := slip.Codes(r.File)
	if err != nil || len(codes) < 2 {
		t.Fatalf("%d codes, %v", len(codes), err)
	}
	c := s.w.Canvas()
	focus := func() string { return parts.IDOf(c.Focused()) }
	whole := sheetPicture(t, codes...)
	s.Go(nav.Route{Place: nav.Start})
	s.Dropped([]string{whole})
	if focus() != "take" {
		t.Fatalf("dropped on the first page: the focus is at %q", focus())
	}
	s.hit(t, "cancel", fyne.KeyReturn)
	s.TakeFile(whole)
	if focus() != "take" {
		t.Fatalf("opened: the focus is at %q", focus())
	}
	s.hit(t, "take", fyne.KeyReturn)
	tanks, err := s.k.Tanks(ctx)
	if err != nil || len(tanks) != 1 || tanks[0].Origin != keeper.FromProfile {
		t.Fatalf("taken: %+v %v", tanks, err)
	}
	h, ok, err := s.k.HandedBy(ctx, tanks[0].ID)
	if err != nil || !ok || h.Thumbprint != r.Profile.Signature.Thumbprint || h.Edition != 1 {
		t.Errorf("who handed it over: %+v %v", h, err)
	}
	// With a daybook open, a sheet is told from other pictures.
	s.Go(nav.Route{Place: nav.Today, Tank: tanks[0].ID})
	s.Dropped([]string{whole})
	if focus() != "take" {
		t.Errorf("dropped on today's page: the focus is at %q", focus())
	}
	s.hit(t, "cancel", fyne.KeyReturn)
	s.Dropped([]string{drawn(t, "fish.png")})
	if ps, err := s.k.Photos(ctx, tanks[0].ID, keeper.PhotoFilter{}); err != nil || len(ps) != 1 {
		t.Errorf("a picture of a fish: %d in the daybook, %v", len(ps), err)
	}
	// A part of a sheet asks for the rest.
	s.TakeFile(sheetPicture(t, codes[1]))
	if focus() != "more-pictures" {
		t.Errorf("one code of %d: the focus is at %q", len(codes), focus())
	}
	s.hit(t, "cancel", fyne.KeyReturn)
}
