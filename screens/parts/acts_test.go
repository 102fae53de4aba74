package parts

import (
	"image/color"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
)

func TestButton(t *testing.T) {
	themed(t, look.Light, 100)
	n := 0
	b := NewButton(ButtonSpec{Label: "Carry on", Kind: Primary}, func() { n++ })
	_, w := shown(t, fyne.NewSize(300, 200), b)
	test.Tap(b)
	if w.Canvas().Focused() != fyne.Focusable(b) {
		t.Error("a tap does not give the focus")
	}
	key(b, fyne.KeySpace)
	key(b, fyne.KeyEnter)
	if n != 3 {
		t.Errorf("expected 3 presses, got %d", n)
	}
	wide := b.Size()
	b.Set(ButtonSpec{Label: "Carry on", Kind: Primary, Busy: true})
	test.Tap(b)
	key(b, fyne.KeySpace)
	if n != 3 || b.Size() != wide || has(drawnTexts(t, b), "Carry on") {
		t.Errorf("busy: %d presses, size %v was %v", n, b.Size(), wide)
	}
	b.Set(ButtonSpec{Label: "Carry on", Off: true})
	test.Tap(b)
	if n != 3 {
		t.Error("a button that is off was pressed")
	}
	ground := func(s ButtonSpec) color.Color {
		b.Set(s)
		return b.drawn.pool.rects[0].FillColor
	}
	if on, off := ground(ButtonSpec{Label: "Carry on", Kind: Primary}), ground(ButtonSpec{Label: "Carry on", Kind: Primary, Off: true}); on == off {
		t.Error("one cannot see that a button is off")
	}
}

func TestTick(t *testing.T) {
	themed(t, look.Light, 100)
	var got []bool
	k := NewTick(TickSpec{Text: "Bag closed"}, func(d bool) { got = append(got, d) })
	_, w := shown(t, fyne.NewSize(300, 200), k)
	test.Tap(k)
	key(k, fyne.KeySpace)
	test.Tap(k)
	if len(got) != 3 || !got[0] || got[1] || !got[2] || !k.Spec().Done {
		t.Errorf("toggles: %v", got)
	}
	k.Set(TickSpec{Text: "Bag closed", Barred: "first lights off"})
	w.Canvas().Focus(k)
	key(k, fyne.KeySpace)
	test.Tap(k)
	if len(got) != 3 || !has(drawnTexts(t, k), "first lights off") || ringOf(k) == nil {
		t.Errorf("barred: toggles %v, shown %q", got, drawnTexts(t, k))
	}
}

// A part that is given what it already shows does nothing.
func TestSetWithoutChangeDoesNothing(t *testing.T) {
	themed(t, look.Light, 100)
	verdict := VerdictSpec{Title: "Holds", Lines: []string{"a", "b"}}
	field := FieldSpec{Label: "a", Text: "1"}
	choice := ChoiceSpec{Label: "a", Options: options("A", "B")}
	nav := NavSpec{Tank: "a", Places: []Place{{"1", "b"}}}
	stick := DipstickSpec{Steps: []DipStep{{Label: "a"}, {Label: "b"}}}
	v, f, c, n, d := NewVerdict(verdict), NewField(field), NewChoice(choice, nil), NewNavBar(nav), NewDipstick(stick, nil)
	shown(t, fyne.NewSize(400, 600), v, f, c, n, d)
	sets := map[held]func(){
		v: func() { v.Set(VerdictSpec{Title: "Holds", Lines: []string{"a", "b"}}) },
		f: func() { f.Set(field) }, c: func() { c.Set(choice) }, n: func() { n.Set(nav) }, d: func() { d.Set(stick) },
	}
	for p, set := range sets {
		r := test.WidgetRenderer(p).(*partRenderer)
		before := &r.pool.shown[0]
		set()
		if before != &r.pool.shown[0] {
			t.Errorf("%T was drawn again", p)
		}
		p.Refresh()
		if before == &r.pool.shown[0] {
			t.Fatalf("%T: the check does not see a drawing", p)
		}
	}
}

func steps() DipstickSpec {
	return DipstickSpec{Current: 1, Still: true, Steps: []DipStep{
		{Label: "Tank and place", State: StepDone}, {Label: "Kit list", State: StepOpen},
		{Label: "Rinse", State: StepReopened, Word: "look again"}, {Label: "Power on", State: StepShut, Waits: "waits for the heater"}}}
}

func TestDipstick(t *testing.T) {
	themed(t, look.Light, 100)
	var chosen, told []int
	d := NewDipstick(steps(), func(i int) { chosen = append(chosen, i) })
	d.OnExplain = func(i int) { told = append(told, i) }
	w := test.NewTempWindow(t, d)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(190, 400))
	w.Canvas().Focus(d)
	if ringOf(d) == nil {
		t.Error("no ring")
	}
	key(d, fyne.KeyUp)
	key(d, fyne.KeyUp)
	key(d, fyne.KeyUp) // there is none above
	if !has(drawnTexts(t, d), "waits for the heater") {
		t.Errorf("the shut step does not say what it waits for: %q", drawnTexts(t, d))
	}
	key(d, fyne.KeyReturn)
	key(d, fyne.KeyDown)
	if has(drawnTexts(t, d), "waits for the heater") || !has(drawnTexts(t, d), "look again") {
		t.Errorf("on the reopened step: %q", drawnTexts(t, d))
	}
	key(d, fyne.KeySpace)
	key(d, fyne.KeyHome)
	key(d, fyne.KeyEnd)
	if len(chosen) != 2 || chosen[0] != 3 || chosen[1] != 2 {
		t.Errorf("chosen: %v", chosen)
	}
	want := []int{1, 2, 3, 2, 0, 3}
	if len(told) != len(want) {
		t.Fatalf("told %v, expected %v", told, want)
	}
	for i := range want {
		if told[i] != want[i] {
			t.Fatalf("told %v, expected %v", told, want)
		}
	}
	w.Canvas().Unfocus()
	p := newPen(d, nil)
	step, first := d.step(p, d.Size().Height)
	if step < leastTarget {
		t.Errorf("WCAG 2.2 SC 2.5.8: steps are %.0f apart", step)
	}
	test.TapAt(d, fyne.NewPos(100, first-step))
	if chosen[len(chosen)-1] != 1 {
		t.Errorf("a tap on the second step chose %v", chosen)
	}
	w.Canvas().Unfocus()
	d.MouseIn(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(100, first-3*step)}})
	if !has(drawnTexts(t, d), "waits for the heater") {
		t.Error("the pointer does not show what the step waits for")
	}
	d.MouseOut()
	if told[len(told)-1] != -1 || d.under(2) != -1 || d.under(399) != -1 {
		t.Errorf("off the steps: told %v, %d, %d", told, d.under(2), d.under(399))
	}
}

// The water rises to the step without passing it, at once where it is to be still.
func TestDipstickWater(t *testing.T) {
	themed(t, look.Light, 100)
	s := steps()
	d := NewDipstick(s, nil)
	s.Current = 2
	d.Set(s)
	if d.level != 2 || d.moving != nil {
		t.Errorf("still: the water stands at %v", d.level)
	}
	s.Current, s.Still = 0, false
	d.Set(s)
	if d.moving == nil {
		t.Fatal("the water does not move")
	}
	d.moving.Tick(0.5)
	if d.level != 1 {
		t.Errorf("half way: expected 1, got %v", d.level)
	}
	d.moving.Tick(1)
	if d.level != 0 {
		t.Errorf("at the end: expected 0, got %v", d.level)
	}
	d.Set(DipstickSpec{})
	if got := d.HeightAt(190); got <= 0 {
		t.Errorf("no steps: height %v", got)
	}
}

func TestNavBar(t *testing.T) {
	themed(t, look.Light, 100)
	_, _, n := samplePage(german)
	var got []string
	n.OnPlace = func(c string) { got = append(got, c) }
	n.OnAction = func(c string) { got = append(got, c) }
	n.OnTank = func(string) { got = append(got, "tank") }
	w := test.NewTempWindow(t, n)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(1280, navHeight))
	test.Tap(n.tank)
	test.Tap(n.tabs[1])
	key(n.tabs[1], fyne.KeyRight)
	if w.Canvas().Focused() != fyne.Focusable(n.tabs[2]) || ringOf(n.tabs[2]) == nil {
		t.Errorf("the right arrow goes to %v", w.Canvas().Focused())
	}
	key(n.tabs[2], fyne.KeySpace)
	key(n.tabs[2], fyne.KeyLeft)
	test.Tap(n.actions[0])
	test.Tap(n.actions[1]) // off
	key(n.actions[2], fyne.KeyReturn)
	want := []string{"tank", "1", "2", "undo", "settings"}
	if len(got) != len(want) {
		t.Fatalf("expected %v, got %v", want, got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("expected %v, got %v", want, got)
		}
	}
	n.actions[0].MouseIn(nil)
	if !has(drawnTexts(t, n), german.back) {
		t.Error("an action that is pointed at does not say what it is")
	}
	n.actions[0].MouseOut()
}

// What does not fit goes into the list, with the place shown always on the bar.
func TestNavBarOverflow(t *testing.T) {
	themed(t, look.Light, 150)
	_, _, n := samplePage(german)
	s := n.Spec()
	s.Current = "5"
	n.Set(s)
	w := test.NewTempWindow(t, n)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(1024, navHeight*1.5))
	if !n.more.Visible() || !n.tabs[5].Visible() {
		t.Fatalf("more %v, current %v", n.more.Visible(), n.tabs[5].Visible())
	}
	shown := 0
	for _, tab := range n.tabs {
		if tab.Visible() {
			shown++
			if tab.Position().X+tab.Size().Width > n.more.Position().X {
				t.Errorf("%q runs into the button of the list", tab.label)
			}
		}
	}
	if shown+len(n.hidden) != 6 || n.more.Position().X+n.more.Size().Width > n.actions[0].Position().X {
		t.Errorf("%d shown, %v in the list", shown, n.hidden)
	}
	got := ""
	n.OnPlace = func(c string) { got = c }
	w.Resize(fyne.NewSize(1024, 500))
	w.Canvas().Focus(n.more)
	key(n.more, fyne.KeyReturn)
	list, ok := w.Canvas().Focused().(*listRows)
	if !ok {
		t.Fatalf("no list: %T", w.Canvas().Focused())
	}
	first := n.hidden[0].Code
	key(list, fyne.KeyReturn)
	if got != first {
		t.Errorf("chose %q, expected %q", got, first)
	}
	w.Resize(fyne.NewSize(2600, navHeight*1.5))
	if n.more.Visible() || len(n.hidden) != 0 {
		t.Errorf("wide: %v in the list", n.hidden)
	}
}

func TestUndoBar(t *testing.T) {
	themed(t, look.Light, 100)
	u := NewUndoBar()
	var waits []time.Duration
	var over func()
	cancelled := 0
	turned := 0
	u.OnTurned = func() { turned++ }
	u.After = func(d time.Duration, f func()) func() {
		waits, over = append(waits, d), f
		return func() { cancelled++ }
	}
	shown(t, fyne.NewSize(400, 300), u)
	if u.Visible() {
		t.Error("shown before anything was done")
	}
	undone := 0
	u.Say("Test of Wednesday was deleted", "Undo", func() { undone++ })
	if !u.Visible() || len(waits) != 1 || waits[0] != 8*time.Second || !has(drawnTexts(t, u), "Undo") {
		t.Fatalf("shown %v, waits %v", u.Visible(), waits)
	}
	u.Say("Another", "Undo", func() { undone += 10 })
	if cancelled != 1 {
		t.Errorf("the first wait was cancelled %d times", cancelled)
	}
	test.Tap(u.button)
	if undone != 10 || u.Visible() {
		t.Errorf("pressed: %d, shown %v", undone, u.Visible())
	}
	u.Say("Kept", "", nil)
	if !has(drawnTexts(t, u), "Kept") || u.button.Visible() {
		t.Error("without an act there is a button, or no text")
	}
	over()
	if u.Visible() {
		t.Error("shown after its time")
	}
	if turned != 5 {
		t.Errorf("came or went %d times", turned)
	}
}

func TestRowsReport(t *testing.T) {
	themed(t, look.Light, 100)
	opened, had, price, confirmed := 0, false, "", false
	e := NewEntryRow(EntryRowSpec{Time: "08:10", Kind: "Fed", Text: "0.12 g", Note: "act: change 40 %", State: Act}, func() { opened++ })
	k := NewKitRow(KitRowSpec{Name: "Heater", Size: "50 W", Why: "holds 25 °C in a room of 18", Unit: "€"})
	k.OnHave = func(h bool) { had = h }
	k.OnPrice = func(s string) { price = s }
	s := NewSafety(SafetySpec{Severity: Warning, Word: "WARNING", Hazard: "Water and mains.", Confirm: "I have read this"}, func(r bool) { confirmed = r })
	copied := ""
	g := NewWorking(WorkingSpec{Show: "Show", Hide: "Hide", Copy: "Copy", Open: true, Parts: []WorkingPart{{Heading: "Sag", Name: "long-term", Equation: "a = b", Filled: "a = 2", Value: "2 mm", Note: "valid to 3 m"}}})
	g.OnCopy = func(s string) { copied = s }
	_, w := shown(t, fyne.NewSize(600, 700), e, k, s, g)
	test.Tap(e)
	key(e, fyne.KeyReturn)
	test.Tap(k.tick)
	w.Canvas().Focus(k.price.Focusable())
	test.Type(k.price.input, "12,50")
	w.Canvas().Unfocus()
	test.Tap(s.tick)
	test.Tap(g.copyingFrom)
	if opened != 2 || !had || !k.Spec().Have || price != "12,50" || !confirmed {
		t.Errorf("opened %d, have %v, price %q, confirmed %v", opened, had, price, confirmed)
	}
	if want := "Sag\nlong-term: 2 mm\na = b\na = 2\nvalid to 3 m\n"; copied != want {
		t.Errorf("copied %q, expected %q", copied, want)
	}
}

// Source: ANSI Z535.4: the safety alert symbol is for danger to people, a
// notice has none; the sign's colours and the palette's pairs are those of look.
func TestSafetySigns(t *testing.T) {
	themed(t, look.Dark, 100)
	for _, c := range []struct {
		s            Severity
		ground, word look.Name
		triangles    int
	}{{Danger, look.SignDanger, look.SignDangerText, 1}, {Warning, look.SignWarning, look.SignWarningText, 1},
		{Caution, look.SignCaution, look.SignCautionText, 1}, {Notice, look.SignNotice, look.SignNoticeText, 0}} {
		b := NewSafety(SafetySpec{Severity: c.s, Word: "WORD", Hazard: "h"}, nil)
		b.Resize(fyne.NewSize(480, b.HeightAt(480)))
		r := test.WidgetRenderer(b).(*partRenderer)
		if got := r.pool.nSketch; got != c.triangles {
			t.Errorf("severity %d: expected %d triangles, got %d", c.s, c.triangles, got)
		}
		dark := look.PaletteFor(b)
		var ground, word bool
		for _, o := range r.Objects() {
			switch o := o.(type) {
			case *canvas.Rectangle:
				ground = ground || o.FillColor == dark(c.ground)
			case *canvas.Text:
				word = word || o.Text == "WORD" && o.Color == dark(c.word)
			}
		}
		if !ground || !word {
			t.Errorf("severity %d: field %v, word %v", c.s, ground, word)
		}
	}
}

// Of rows without a time the first column is at the edge.
func TestEntryRowOfTwo(t *testing.T) {
	themed(t, look.Light, 100)
	for _, two := range []bool{false, true} {
		r := NewEntryRow(EntryRowSpec{Kind: "Notes", Text: "None yet", Even: true, Two: two}, nil)
		shown(t, fyne.NewSize(600, 200), r)
		for _, x := range r.drawn.pool.texts {
			if x.Text == "Notes" && (x.Position().X == 0) != two {
				t.Errorf("two columns %v: the first stands at %v", two, x.Position().X)
			}
		}
		if !has(drawnTexts(t, r), "Notes") {
			t.Error("the row is not drawn")
		}
	}
}
