package shell_test

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	_ "example.org/driploop/i18n/earlyenv" // before the toolkit reads the locale
	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/firstfill"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/shell"
)

// heading is the heading of the step shown.
func (s stage) heading(t *testing.T) string {
	t.Helper()
	p, ok := s.Page().(*firstfill.Page)
	if !ok {
		t.Fatalf("not First fill but %s", s.Route().Place)
	}
	return p.Shown().Heading
}

// Language, units and text size change at once, on the page where one is, and
// are kept.
func TestPreferencesNeedNoRestart(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	id, err := s.k.StartTank(ctx, "Hall", quantity.US)
	if err != nil {
		t.Fatal(err)
	}
	s.Go(nav.Route{Place: nav.FirstFill, Tank: id, Step: care.StandFloor})
	p := s.Prefs()
	p.Lang, p.Units, p.Region, p.Text, p.Theme, p.Still = "es", quantity.Metric, "ES", 150, look.Dark, false
	s.SetPrefs(p)
	if got, want := s.heading(t), i18n.Speak("es", "", quantity.Metric).T("step.stand_floor", nil); got != want {
		t.Errorf("heading %q, want %q", got, want)
	}
	if got := s.Page().(*firstfill.Page).Shown().Number.Value; !strings.HasSuffix(got, "kg") {
		t.Errorf("weight in %q, want kilograms", got)
	}
	kept, err := shell.LoadPrefs(ctx, s.k)
	if err != nil || kept != p {
		t.Errorf("kept %+v (%v), want %+v", kept, err, p)
	}
}

// A refused text stays in its box with a sentence in the person's language, the
// figures stay, nothing is kept, and Carry on goes to the box.
func TestRefusedTextStaysAndIsExplained(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	id, err := s.k.StartTank(ctx, "Hall", quantity.US)
	if err != nil {
		t.Fatal(err)
	}
	s.Go(nav.Route{Place: nav.FirstFill, Tank: id, Step: care.TankPlace})
	page := s.Page().(*firstfill.Page)
	before := page.Shown().Number.Value
	c := s.w.Canvas()
	for range 100 {
		if parts.IDOf(c.Focused()) == "tank.length" {
			break
		}
		c.FocusNext()
	}
	for _, bad := range []string{"abc", "-4", "1,234", "20 kg", "9999", "0"} {
		c.Focused().(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
		for _, r := range bad {
			c.Focused().TypedRune(r)
		}
		c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		said := ""
		for _, g := range page.Shown().Groups {
			for _, f := range g.Fields {
				if f.ID == "tank.length" {
					said = f.Error
				}
			}
		}
		if said == "" {
			t.Errorf("%q: nothing is said at the box", bad)
		}
		if got := page.Shown().Number.Value; got != before {
			t.Errorf("%q: the net volume went to %s", bad, got)
		}
		if s.Route().Step != care.TankPlace {
			t.Fatalf("%q: carried on", bad)
		}
		if got := parts.IDOf(c.Focused()); got != "tank.length" {
			t.Errorf("%q: the focus is at %q, want the box", bad, got)
		}
	}
	r, err := s.k.Record(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	if a, ok := r.Answers["tank.length"]; ok {
		t.Errorf("kept %+v", a)
	}
}

// A starter profile that was saved is shown in full, taken as a new tank, marked
// as from the shop, and taken back in one step.
func TestStarterProfileIsTakenAndTakenBack(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	id := s.sample(t)
	path := filepath.Join(t.TempDir(), "shop.dlprofile")
	draft, err := s.k.DraftFrom(ctx, id, "From the shelf")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.k.HandOutFile(ctx, draft, path, ""); err != nil {
		t.Fatal(err)
	}
	s.Take(path)
	c := s.w.Canvas()
	if c.Overlays().Top() == nil {
		t.Fatal("nothing is shown before taking")
	}
	if got := parts.IDOf(c.Focused()); got != "take" {
		t.Fatalf("the focus is at %q, want the button that takes", got)
	}
	c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	tanks, err := s.k.Tanks(ctx)
	if err != nil || len(tanks) != 2 || tanks[1].Origin != keeper.FromProfile {
		t.Fatalf("tanks %+v, %v", tanks, err)
	}
	marked := 0
	for _, g := range s.Page().(*firstfill.Page).Shown().Groups {
		for _, f := range g.Fields {
			if f.FromShop {
				marked++
			}
		}
	}
	if marked == 0 {
		t.Error("no field is marked as from the shop")
	}
	s.Go(nav.Route{Place: nav.Start})
	s.Undo()
	if tanks, err = s.k.Tanks(ctx); err != nil || len(tanks) != 1 {
		t.Errorf("after undoing: %+v, %v", tanks, err)
	}
	s.Take(filepath.Join(t.TempDir(), "gone.dlprofile")) // says so, and nothing else happens
	if c.Overlays().Top() != nil {
		t.Error("a file that is not there opened a panel")
	}
}

// Every page and panel of every language lays out without overlapping texts at
// 150 %, in the smaller window.
func TestPagesAtLargeText(t *testing.T) {
	for _, lang := range i18n.Languages() {
		p := english()
		p.Lang, p.Text = lang, 150
		s := open(t, p)
		s.w.Resize(fyne.NewSize(1024, 700))
		id := s.sample(t)
		for _, step := range care.Steps() {
			s.Go(nav.Route{Place: nav.FirstFill, Tank: id, Step: step})
			outside(t, lang+" "+string(step), s.w)
		}
		s.Go(nav.Route{Place: nav.Today, Tank: id})
		outside(t, lang+" today", s.w)
		s.Go(nav.Route{Place: nav.Daybook, Tank: id})
		outside(t, lang+" daybook", s.w)
		profile, err := s.k.DraftFrom(context.Background(), id, "Starter")
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range []nav.Route{{Place: nav.Counter}, {Place: nav.Counter, Profile: profile}, {Place: nav.Draft, Profile: profile}, {Place: nav.DraftRounds, Profile: profile}} {
			r.Tank = id
			s.Go(r)
			outside(t, lang+" "+string(r.Place), s.w)
		}
	}
}

// outside reports what is wider than the window: that cannot be scrolled to.
func outside(t *testing.T, where string, w fyne.Window) {
	t.Helper()
	width := w.Canvas().Size().Width
	var walk func(o fyne.CanvasObject, x float32)
	walk = func(o fyne.CanvasObject, x float32) {
		if !o.Visible() {
			return
		}
		x += o.Position().X
		if x < -1 || x+o.Size().Width > width+1 {
			t.Errorf("%s: %T spans %.0f to %.0f of %.0f", where, o, x, x+o.Size().Width, width)
			return
		}
		if c, ok := o.(*fyne.Container); ok {
			for _, child := range c.Objects {
				walk(child, x)
			}
		}
	}
	walk(w.Content(), 0)
}
