package shell_test

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/desk"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// A slip comes to the desk, is found, answered beside what it says, and deleted with
// nothing left: all by keyboard.
func TestVisitDeskByKeyboard(t *testing.T) {
	ctx := context.Background()
	home := open(t, english())
	tank, id := caller(t, home)
	file := filepath.Join(t.TempDir(), "ana.dlvisit")
	v, err := home.k.SaveVisit(ctx, tank, keeper.VisitAsk{Days: 30, Case: id, Label: "Ana", Questions: []string{"Is it the water?"}}, file, nil)
	if err != nil {
		t.Fatal(err)
	}

	s := open(t, english())
	says := func(want ...string) {
		t.Helper()
		shown := strings.Join(strings.Fields(s.texts()), " ")
		for _, w := range want {
			if !strings.Contains(shown, w) {
				t.Errorf("%q is not said in: %s", w, shown)
			}
		}
	}
	s.Go(nav.Route{Place: nav.Desk})
	says("Visit slips that customers bring", "Starter profiles")
	s.Dropped([]string{file, filepath.Join(t.TempDir(), "none.dlvisit")})
	says("1 slip taken in", "none.dlvisit: ", "Ana", "Old Grey", "1 slip, 1 without a reply")
	s.Dropped([]string{file})
	says("ana.dlvisit lies on the desk already")
	s.fillIn(t, "search", "nobody")
	says("No slip fits that")
	s.fillIn(t, "search", "neon WATER")
	says("Ana")
	s.hit(t, "slip-"+v.Visit.ID, fyne.KeyReturn)
	if r := s.Route(); r.Place != nav.Desk || r.Slip != v.Visit.ID {
		t.Fatalf("at %+v", r)
	}
	says("Is it the water?", "Old Grey", "0.75 mg/L", "Signed, and not changed since")
	s.hit(t, "rename", fyne.KeySpace)
	s.fillIn(t, "label", "Ana from the corner")
	s.hit(t, "keep", fyne.KeySpace)
	says("Ana from the corner")
	s.fillIn(t, "reply-advice-en", "Change a quarter today.")
	s.hit(t, "reply-write", fyne.KeySpace)
	says("Change a quarter today.", "Give this file to the customer")
	reply := s.saved(t, ".dlreply")
	if got, found, err := home.k.OpenReply(ctx, reply); err != nil || got.Tank != tank || got.Reply.Advice["en"] != "Change a quarter today." {
		t.Errorf("the reply at home: %+v, %v, %v", got, found, err)
	}
	s.Go(nav.Route{Place: nav.Desk})
	says("1 slip, 0 without a reply", "Answered")
	s.hit(t, "open", fyne.KeySpace)
	says("No slip fits that")
	s.Go(nav.Route{Place: nav.Desk, Slip: v.Visit.ID})
	s.hit(t, "forget", fyne.KeySpace)
	s.hit(t, "cancel", fyne.KeySpace)
	says("Ana from the corner")
	s.hit(t, "forget", fyne.KeySpace)
	s.hit(t, "yes", fyne.KeySpace)
	says("Nothing of it is left on the desk")
	if n, _, err := s.k.DeskCount(ctx); err != nil || n != 0 {
		t.Errorf("%d slips are left, %v", n, err)
	}
	s.Go(nav.Route{Place: nav.Desk, Slip: v.Visit.ID})
	says("not on the visit desk any more")
}

// A slip that was only looked at can be put on the desk from there.
func TestAnOpenedSlipGoesOnTheDesk(t *testing.T) {
	ctx := context.Background()
	home := open(t, english())
	tank, _ := caller(t, home)
	file := filepath.Join(t.TempDir(), "ana.dlvisit")
	if _, err := home.k.SaveVisit(ctx, tank, keeper.VisitAsk{Days: 30}, file, nil); err != nil {
		t.Fatal(err)
	}
	s := open(t, spanish())
	s.TakeFile(file)
	s.hit(t, "keep", fyne.KeySpace)
	if vs, err := s.k.DeskVisits(ctx, desk.Query{Limit: 5}); err != nil || len(vs) != 1 || s.Route().Slip != vs[0].ID {
		t.Errorf("on the desk: %+v, %v; at %+v", vs, err, s.Route())
	}
}

// A reply that was begun is found as it was left, in another language too; a proposal
// that was typed and not added is not left out in silence; and a second reply of the
// day is written beside the first.
func TestReplyIsLeftAndGoneOnWith(t *testing.T) {
	ctx := context.Background()
	home := open(t, english())
	tank, _ := caller(t, home)
	file := filepath.Join(t.TempDir(), "ana.dlvisit")
	v, err := home.k.SaveVisit(ctx, tank, keeper.VisitAsk{Days: 30}, file, nil)
	if err != nil {
		t.Fatal(err)
	}
	s := open(t, english())
	s.Go(nav.Route{Place: nav.Desk})
	s.Dropped([]string{file})
	one := nav.Route{Place: nav.Desk, Slip: v.Visit.ID}
	s.Go(one)
	if strings.Contains(s.texts(), "Title of a round") {
		t.Error("a usual round is asked for a title")
	}
	s.fillIn(t, "reply-kh", "5")
	s.hit(t, "reply-none-ammonia", fyne.KeySpace)
	s.fillIn(t, "reply-advice-en", "Change a quarter.")
	s.fillIn(t, "reply-round-why", "Until it stays away.")
	s.hit(t, "reply-add-round", fyne.KeySpace)
	s.fillIn(t, "reply-plan-why", "Too soon.")
	s.Go(nav.Route{Place: nav.Kinds})
	s.SetPrefs(spanish())
	s.Go(one)
	shown := s.Words()
	for _, want := range []string{"Dureza de carbonatos\n5\n", "[x] no detectado", "Change a quarter.", "Until it stays away.", "Too soon."} {
		if !strings.Contains(shown, want) {
			t.Errorf("after looking something up %q is gone: %s", want, shown)
		}
	}
	s.SetPrefs(english())
	s.hit(t, "reply-write", fyne.KeySpace)
	if !strings.Contains(strings.Join(strings.Fields(s.texts()), " "), "This is not in the reply yet. Press “Propose this change”, or empty the box.") || parts.IDOf(s.w.Canvas().Focused()) != "reply-plan-why" {
		t.Errorf("a change that was typed and not added is not told of; the focus is at %q", parts.IDOf(s.w.Canvas().Focused()))
	}
	s.hit(t, "reply-add-plan", fyne.KeySpace)
	s.hit(t, "reply-write", fyne.KeySpace)
	r, _, err := home.k.OpenReply(ctx, s.saved(t, ".dlreply"))
	if err != nil || len(r.Reply.Rounds) != 1 || len(r.Reply.Plan) != 1 || r.Reply.Advice["en"] != "Change a quarter." || r.Reply.Test == nil || len(r.Reply.Test.Readings) != 2 {
		t.Errorf("written: %+v, %v", r.Reply, err)
	}
	for _, x := range []string{"reply-advice-en", "reply-kh"} { // the next begins anew
		if f, ok := s.at(t, x).(interface{ SelectedText() string }); ok {
			f.(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
			if got := f.SelectedText(); got != "" {
				t.Errorf("after the reply %s says %q", x, got)
			}
		}
	}
	s.fillIn(t, "reply-advice-en", "And again.")
	s.hit(t, "reply-write", fyne.KeySpace)
	for name, want := range map[string]string{"driploop-2026-11-25.dlreply": "Change a quarter.", "driploop-2026-11-25-2.dlreply": "And again."} {
		if r, _, err := home.k.OpenReply(ctx, filepath.Join(s.papers, name)); err != nil || r.Reply.Advice["en"] != want {
			t.Errorf("%s says %+v, %v", name, r.Reply.Advice, err)
		}
	}
}
