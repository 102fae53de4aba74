package main

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/sick"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/shell"
)

// desk is the daybook of the example tank with a hand on the keyboard.
type desk struct {
	*walker
	t    *testing.T
	s    *stage
	tank string
}

func newDesk(t *testing.T, prefs shell.Prefs, size fyne.Size) *desk {
	t.Helper()
	s, err := newStage(test.NewTempApp(t), prefs, size)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.strike(); err != nil {
			t.Error(err)
		}
	})
	id, err := s.shell.Example(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	s.shell.Go(nav.Route{Place: nav.Daybook, Tank: id})
	return &desk{&walker{shell: s.shell, canvas: s.window.Canvas(), clock: s.clock}, t, s, id}
}

func (d *desk) do(err error) {
	d.t.Helper()
	if err != nil {
		d.t.Fatal(err)
	}
}

// write opens the form of a kind by its button, or by the list of the others.
func (d *desk) write(kind journal.Kind) {
	d.t.Helper()
	id, ok := map[journal.Kind]string{journal.Fed: "feed", journal.Tested: "test", journal.Changed: "change", journal.Temperature: "temperature", journal.Note: "note"}[kind]
	if ok {
		d.do(d.press(id, fyne.KeyReturn))
		return
	}
	d.s.shell.Page().(interface {
		Write(kind journal.Kind, ask, sick string)
	}).Write(kind, "", "")
}

func (d *desk) enter(id, text string) {
	d.t.Helper()
	d.do(d.give(answer{field: care.FieldID(id), text: text}))
}

func (d *desk) choose(id, option string) {
	d.t.Helper()
	d.do(d.give(answer{field: care.FieldID(id), option: option}))
}

func (d *desk) hit(id string) { d.t.Helper(); d.do(d.press(id, fyne.KeyReturn)) }

// texts is what the topmost panel says.
func (d *desk) texts() string {
	return strings.Join(seeWindow(fyne.CurrentApp().Driver(), d.s.window).Texts, " ")
}

func (d *desk) open() bool { return d.canvas.Overlays().Top() != nil }

// entries are those of the daybook, the newest first.
func (d *desk) entries() []journal.Entry {
	d.t.Helper()
	days, err := d.s.keeper.Days(context.Background(), d.tank)
	d.do(err)
	var out []journal.Entry
	for _, x := range days {
		out = append(out, x.Entries...)
	}
	return out
}

// latest is the entry written last.
func (d *desk) latest() journal.Entry {
	d.t.Helper()
	return slices.MaxFunc(d.entries(), func(a, b journal.Entry) int { return int(a.Seq - b.Seq) })
}

// inBoth runs a walk as somebody in the US and as somebody in Spain.
func inBoth(t *testing.T, walk func(t *testing.T, d *desk)) {
	for _, lang := range []string{"en", "es"} {
		t.Run(lang, func(t *testing.T) {
			walk(t, newDesk(t, tourPrefs(lang, look.Light), fyne.NewSize(1280, 800)))
		})
	}
}

// A feed takes one number and Enter, and the next one comes filled in.
func TestFeedingByKeyboard(t *testing.T) {
	inBoth(t, func(t *testing.T, d *desk) {
		number := map[string]string{"en": "0.12", "es": "0,12"}[d.shell.Prefs().Lang]
		d.write(journal.Fed)
		if said := d.texts(); strings.Contains(said, "0\u00a0mg") { // only snails live here, and they graze
			t.Errorf("a ration of nothing is shown: %s", said)
		}
		d.enter(journal.NameFeed, number)
		d.enter(journal.NameWhat, "🐟 חָטִיף")
		d.choose(journal.NameLeft, "some")
		d.do(d.to("when"))
		d.key(fyne.KeyReturn)
		if d.open() {
			t.Fatalf("the form is still open: %s", d.texts())
		}
		e := d.latest()
		feed, _ := e.Get(journal.NameFeed)
		what, _ := e.Get(journal.NameWhat)
		left, _ := e.Get(journal.NameLeft)
		if e.Kind != journal.Fed || feed.Measure.Number != "0.12" || feed.Measure.Unit != "g" || what.Measure.Number != "🐟 חָטִיף" || left.Measure.Number != "some" {
			t.Errorf("kept %+v", e)
		}
		d.write(journal.Fed)
		d.key(fyne.KeyReturn) // the same again
		again := d.latest()
		if x, _ := again.Get(journal.NameFeed); again.ID == e.ID || x != feed {
			t.Errorf("the second feed is %+v", again)
		}
		if _, has := again.Get(journal.NameLeft); has {
			t.Error("what was left over was taken for the next time")
		}
	})
}

// A date in the person's words, and steps of a day by the arrow keys; what is no
// date is told below the box and nothing is written.
func TestBackDatingByKeyboard(t *testing.T) {
	inBoth(t, func(t *testing.T, d *desk) {
		yesterday := map[string]string{"en": "yesterday 7:05", "es": "ayer 7:05"}[d.shell.Prefs().Lang]
		many := len(d.entries())
		d.write(journal.Temperature)
		d.enter(journal.NameTemperature, "25 °C")
		d.enter("when", "31/31")
		d.hit("keep")
		if !d.open() || len(d.entries()) != many {
			t.Fatal("31/31 was taken for a date")
		}
		d.enter("when", yesterday)
		d.do(d.to("when"))
		for range 3 {
			d.key(fyne.KeyDown)
		}
		d.key(fyne.KeyUp)
		d.hit("keep")
		if e := d.latest(); e.At != "2026-11-22T07:05" || len(d.entries()) != many+1 {
			t.Errorf("kept at %s", e.At)
		}
	})
}

// Not detected and beyond the card are choices and never zero; what a test means
// is said before it is kept; the plan of a change follows from it.
func TestTestingByKeyboard(t *testing.T) {
	inBoth(t, func(t *testing.T, d *desk) {
		ctx := context.Background()
		kit := journal.TestKit{Name: "blue box", Reading: journal.NameNitrite, Unit: "mg/l", Basis: quantity.AsIon, Resolution: "0.25", Steps: strings.Fields("0 0.25 0.5 1 2 5")}
		id, err := d.s.keeper.AddKit(ctx, kit)
		d.do(err)
		d.write(journal.Tested)
		units := func() (n int) { // boxes with this unit at their end
			for _, x := range seeWindow(fyne.CurrentApp().Driver(), d.s.window).Texts {
				if x == "mg/L" {
					n++
				}
			}
			return n
		}
		many := units()
		d.choose("card-"+journal.NameAmmonia, string(journal.NotDetected))
		d.choose("card-"+journal.NameNitrate, string(journal.OverRange))
		if got := units(); got != many-2 {
			t.Errorf("of %d boxes %d show a unit, though two hold words and no number", many, got)
		}
		d.choose("card-"+journal.NameNitrite, "2")
		said := d.texts()
		if want := "2\u00a0mg/L"; !strings.Contains(said, want) {
			t.Errorf("nothing is said of %q: %s", want, said)
		}
		if len(d.entries()) == 0 || d.latest().Kind == journal.Tested {
			t.Fatal("it was kept before it was written down")
		}
		d.hit("plan-change")
		var tested journal.Entry
		for _, e := range d.entries() {
			if e.Kind == journal.Tested && e.Seq > tested.Seq {
				tested = e
			}
		}
		a, _ := tested.Get(journal.NameAmmonia)
		n, _ := tested.Get(journal.NameNitrite)
		o, _ := tested.Get(journal.NameNitrate)
		if a.Qualifier != journal.NotDetected || o.Qualifier != journal.OverRange || n.Measure.Number != "2" || n.Kit != id || n.Measure.Basis != quantity.AsIon {
			t.Errorf("kept %+v", tested)
		}
		if _, ok := tested.Get(journal.NamePH); ok {
			t.Error("a box left empty was kept")
		}
		due, err := d.s.keeper.Rounds(ctx, d.tank)
		d.do(err)
		if !slices.ContainsFunc(due.All, func(r rounds.Standing) bool { return r.Round.Code == rounds.Retest }) {
			t.Errorf("nothing reminds of the next test: %+v", due.All)
		}
		// The form of the change is open now, and over it the helper that fills it in.
		d.choose("change-way", string(keeper.ByDrop))
		d.enter("change-drop", "50 mm")
		d.hit("take-over")
		d.hit("keep")
		e := d.latest()
		v, ok := e.Get(journal.NameVolume)
		x, _ := v.Value()
		if e.Kind != journal.Changed || !ok || x.X < 0.004 || x.X > 0.009 { // 50 mm of 20 by 10 inches, less the glass, are 6 L
			t.Errorf("kept %+v", e)
		}
	})
}

// An edit shows how it was; that comes back; the bin gives back; undo does too.
func TestEditingByKeyboard(t *testing.T) {
	inBoth(t, func(t *testing.T, d *desk) {
		ctx := context.Background()
		id, err := d.s.keeper.AddEntry(ctx, d.tank, journal.Entry{Kind: journal.Note, Note: "first words"})
		d.do(err)
		reopen := func() { d.s.shell.Go(nav.Route{Place: nav.Daybook, Tank: d.tank, Entry: id}) }
		note := func() string { e, _ := d.s.keeper.Entry(ctx, d.tank, id); return e.Note }
		d.s.shell.Go(nav.Route{Place: nav.Today, Tank: d.tank})
		reopen()
		d.enter("note", "second words")
		d.hit("keep")
		if note() != "second words" {
			t.Fatalf("note is %q", note())
		}
		d.s.shell.Go(nav.Route{Place: nav.Today, Tank: d.tank})
		reopen()
		if !strings.Contains(d.texts(), "first words") {
			t.Errorf("how it was before is not shown: %s", d.texts())
		}
		d.hit("restore-1")
		if note() != "first words" {
			t.Errorf("restored to %q", note())
		}
		d.s.shell.Go(nav.Route{Place: nav.Today, Tank: d.tank})
		reopen()
		d.hit("delete")
		if note() != "" {
			t.Error("it is not deleted")
		}
		d.hit("bin")
		d.hit("restore")
		d.hit("close")
		if note() != "first words" {
			t.Error("the bin did not give it back")
		}
	})
}

// A kit is written down by keyboard; what cannot be is told at its box.
func TestKitsByKeyboard(t *testing.T) {
	inBoth(t, func(t *testing.T, d *desk) {
		steps := map[string]string{"en": "0; 0.25; 0.5; 1", "es": "0; 0,25; 0,5; 1"}[d.shell.Prefs().Lang]
		d.hit("kits")
		d.hit("add-kit")
		d.enter("kit-name", "strips")
		d.choose("kit-reading", journal.NameNitrite)
		d.choose("kit-basis", string(quantity.AsIon))
		d.enter("kit-resolution", "abc")
		d.enter("kit-steps", steps)
		d.hit("keep")
		if kits, _ := d.s.keeper.Kits(context.Background()); len(kits) != 0 {
			t.Fatal("a step of abc was taken")
		}
		d.enter("kit-resolution", strings.Split(steps, "; ")[1])
		d.hit("keep")
		kits, err := d.s.keeper.Kits(context.Background())
		d.do(err)
		if len(kits) != 1 || kits[0].Resolution != "0.25" || !slices.Equal(kits[0].Steps, []string{"0", "0.25", "0.5", "1"}) || kits[0].Reading != journal.NameNitrite || kits[0].Basis != quantity.AsIon {
			t.Errorf("kept %+v", kits)
		}
		d.hit("undo-kit")
		if kits, _ = d.s.keeper.Kits(context.Background()); len(kits) != 0 {
			t.Errorf("undone: %+v", kits)
		}
		d.hit("redo-kit")
		if kits, _ = d.s.keeper.Kits(context.Background()); len(kits) != 1 {
			t.Errorf("done again: %+v", kits)
		}
		d.hit("close")
	})
}

// Every kind that a person writes has a form that opens, takes a note and is kept,
// in the smallest window with the largest text.
func TestEveryFormIsKept(t *testing.T) {
	prefs := tourPrefs("es", look.Dark)
	prefs.Text = 150
	d := newDesk(t, prefs, fyne.NewSize(1024, 700))
	for _, kind := range journal.Written() {
		d.clock.t = d.clock.t.Add(time.Minute)
		d.write(kind)
		if d.to("note") != nil {
			d.hit("more-fields")
		}
		d.enter("note", "visto")
		d.hit("keep")
		if e := d.latest(); d.open() || e.Kind != kind || e.Note != "visto" {
			t.Fatalf("%s: kept %+v; %s", kind, e, d.texts())
		}
	}
}

// The buttons of a form are in view from the start, at the largest text in the
// smallest window: they stand in a foot that does not scroll.
func TestButtonsOfFormsAreInView(t *testing.T) {
	for _, lang := range []string{"en", "es"} {
		prefs := tourPrefs(lang, look.Light)
		prefs.Text = 150
		d := newDesk(t, prefs, fyne.NewSize(1024, 700))
		look := func(what string, ids ...string) {
			t.Helper()
			w := seeWindow(fyne.CurrentApp().Driver(), d.s.window)
			for _, id := range ids {
				i := slices.IndexFunc(w.Parts, func(p shownPart) bool { return p.ID == id })
				if i < 0 {
					t.Errorf("%s, %s: no %s", lang, what, id)
					continue
				}
				if p := w.Parts[i]; p.Y < 0 || p.Y+p.H > 700-40 || p.H < 24 || p.X+p.W > 1024-40 {
					t.Errorf("%s, %s: %s stands at %d,%d, %d high, %d wide", lang, what, id, p.X, p.Y, p.H, p.W)
				}
			}
		}
		for _, kind := range journal.Written() {
			d.write(kind)
			if !d.open() {
				continue
			}
			look(string(kind), "keep", "cancel")
			d.hit("cancel")
		}
		d.write(journal.Changed)
		d.hit("work-out")
		look("the change worked out", "take-over", "cancel")
		d.hit("cancel")
		d.hit("cancel")
		d.hit("kits")
		d.hit("add-kit")
		look("a kit", "keep", "cancel")
		d.hit("cancel")
		d.hit("close")
		d.shell.ShowSettings()
		look("the settings", "close")
		d.hit("close")
		d.shell.ShowSafety()
		look("every caution", "close")
	}
}

// What is refused below the fold of a long form gets the focus, and so comes into view.
func TestRefusedBoxComesIntoView(t *testing.T) {
	prefs := tourPrefs("en", look.Light)
	prefs.Text = 150
	d := newDesk(t, prefs, fyne.NewSize(1024, 700))
	d.write(journal.Tested)
	d.enter(journal.NameNitrite, "0.5")
	d.enter("when", "some day")
	d.do(d.to(journal.NameNitrite))
	d.hit("keep")
	if got := parts.IDOf(d.canvas.Focused()); got != "when" {
		t.Errorf("the focus is on %q", got)
	}
	d.enter("when", "2026-11-25 08:00")
	d.hit("more-fields")
	d.enter(journal.NamePhosphate, "many")
	d.hit("more-fields")
	d.hit("keep")
	if got := parts.IDOf(d.canvas.Focused()); got != journal.NamePhosphate {
		t.Errorf("the focus is on %q, not on the box under More", got)
	}
}

// A test that was opened from a case goes back there when it is left, by its button
// and by Escape.
func TestLeavingATestOfACaseGoesBackThere(t *testing.T) {
	d := newDesk(t, tourPrefs("en", look.Light), fyne.NewSize(1280, 800))
	id, err := d.s.keeper.OpenCase(context.Background(), d.tank, keeper.Who{About: "the pale one"}, sick.One)
	d.do(err)
	for _, leave := range []func(){func() { d.hit("cancel") }, func() { d.key(fyne.KeyEscape) }} {
		d.shell.Go(nav.Route{Place: nav.Daybook, Tank: d.tank, Write: journal.Tested, Case: id})
		if !d.open() {
			t.Fatal("no form")
		}
		leave()
		if r := d.shell.Route(); d.open() || r.Place != nav.Sick || r.Case != id {
			t.Errorf("one is at %+v", r)
		}
	}
}

// A late test counted from today opens its form; written, it does the round, and the
// coming ones are counted from today. On today's page a skipped round is asked why.
func TestLateTestIsCountedFromToday(t *testing.T) {
	ctx := context.Background()
	d := newDesk(t, tourPrefs("en", look.Light), fyne.NewSize(1280, 800))
	id, err := d.s.keeper.AddRound(ctx, d.tank, rounds.Round{Code: rounds.Test, Rule: rounds.MustRule("FREQ=DAILY;INTERVAL=5"), Start: "2026-11-26T10:00"})
	d.do(err)
	d.clock.t = d.clock.t.AddDate(0, 0, 3) // two days late
	late := func() rounds.Standing {
		v, err := d.s.keeper.Rounds(ctx, d.tank)
		d.do(err)
		for _, s := range v.All {
			if s.ID == id {
				return s
			}
		}
		t.Fatal("the round is gone")
		return rounds.Standing{}
	}
	if s := late(); s.State != rounds.Late {
		t.Fatalf("it is %v", s.State)
	}
	d.shell.Go(nav.Route{Place: nav.Rounds, Tank: d.tank})
	d.hit("anew-" + id)
	d.hit("anew-done")
	d.hit("cancel") // and nothing is noted
	if s := late(); s.State != rounds.Late || d.shell.Route().Place != nav.Rounds {
		t.Fatalf("left, it is %v at %v", s.State, d.shell.Route().Place)
	}
	d.hit("anew-" + id)
	d.hit("anew-done")
	d.enter(journal.NameNitrite, "0")
	d.hit("keep")
	s := late()
	if s.State != rounds.Coming || s.Next.Day() != "2026-12-03" { // five days from the 28th, not from the 26th
		t.Errorf("counted from today it is %v, next %s", s.State, s.Next)
	}
	if e := d.latest(); e.Kind != journal.Tested || d.shell.Route().Place != nav.Rounds {
		t.Errorf("%+v at %v", e, d.shell.Route().Place)
	}
	d.shell.Undo()
	if s := late(); s.State != rounds.Late || d.latest().Kind == journal.Tested && d.latest().At.Day() == "2026-11-28" {
		t.Errorf("undone it is %v, with %+v", s.State, d.latest())
	}
	d.shell.Go(nav.Route{Place: nav.Today, Tank: d.tank})
	d.hit("skip-" + id)
	d.enter("reason", "the kit was used up")
	d.hit("keep")
	h, err := d.s.keeper.RoundPast(ctx, d.tank, id)
	d.do(err)
	if len(h) != 1 || h[0].State != rounds.Skipped || h[0].Reason != "the kit was used up" {
		t.Errorf("skipped: %+v", h)
	}
}
