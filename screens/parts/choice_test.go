package parts

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
)

func options(labels ...string) []Option {
	var o []Option
	for _, l := range labels {
		o = append(o, Option{strings.ToLower(l), l})
	}
	return o
}

func TestChoiceByKeyboard(t *testing.T) {
	themed(t, look.Light, 100)
	var got []string
	c := NewChoice(ChoiceSpec{Label: "Stand", Chosen: "beech", Options: options("Ash", "Beech", "Birch", "Oak", "Pine")}, func(s string) { got = append(got, s) })
	page, w := shown(t, fyne.NewSize(300, 500), c)
	page.Keys.Back = func() { t.Error("Escape in the list went to the page") }
	list := func() *listRows {
		r, _ := w.Canvas().Focused().(*listRows)
		return r
	}
	w.Canvas().Focus(c)
	for _, n := range []fyne.KeyName{fyne.KeySpace, fyne.KeyReturn, fyne.KeyDown} {
		key(c, n)
		if list() == nil || list().list.at != 1 {
			t.Fatalf("%s does not open the list at the chosen option", n)
		}
		key(list(), fyne.KeyEscape)
		if w.Canvas().Focused() != fyne.Focusable(c) || w.Canvas().Overlays().Top() != nil || len(got) != 0 {
			t.Fatalf("Escape: focus %T, chosen %q", w.Canvas().Focused(), got)
		}
	}
	key(c, fyne.KeySpace)
	key(list(), fyne.KeyDown)
	key(list(), fyne.KeyDown)
	key(list(), fyne.KeyReturn)
	if len(got) != 1 || got[0] != "oak" || !has(drawnTexts(t, c), "Oak") {
		t.Fatalf("arrows and Enter chose %q", got)
	}
	key(c, fyne.KeySpace)
	list().TypedRune('b')
	if list().list.at != 1 {
		t.Errorf("b goes to row %d", list().list.at)
	}
	list().TypedRune('i')
	if list().list.at != 2 {
		t.Errorf("bi goes to row %d", list().list.at)
	}
	key(list(), fyne.KeySpace)
	if got[len(got)-1] != "birch" {
		t.Errorf("letters and Space chose %q", got)
	}
	c.last = c.last.Add(-2 * typePause)
	c.TypedRune('p')
	if got[len(got)-1] != "pine" {
		t.Errorf("a letter without opening chose %q", got)
	}
	n := len(got)
	test.Tap(c)
	test.TapCanvas(w.Canvas(), fyne.NewPos(290, 490)) // beside the list
	if w.Canvas().Overlays().Top() != nil || len(got) != n {
		t.Errorf("a tap beside the list: chosen %q", got)
	}
	test.Tap(c)
	p := fyne.CurrentApp().Driver().AbsolutePositionForObject(list())
	test.TapCanvas(w.Canvas(), p.AddXY(10, 10))
	if got[len(got)-1] != "ash" {
		t.Errorf("a tap on the first row chose %q", got)
	}
}

func TestLongListSearchesAndScrolls(t *testing.T) {
	themed(t, look.Light, 150)
	var o []Option
	for i := range 40 {
		o = append(o, Option{fmt.Sprint(i), fmt.Sprintf("Plank number %d of a long list with a label that no narrow box holds in one line", i)})
	}
	var got string
	c := NewChoice(ChoiceSpec{Label: "Stand", Options: o, Placeholder: "choose", Search: "find", Empty: "nothing has that name"}, func(s string) { got = s })
	_, w := shown(t, fyne.NewSize(300, 400), c)
	w.Canvas().Focus(c)
	key(c, fyne.KeyDown)
	in, ok := w.Canvas().Focused().(*boxed)
	if !ok {
		t.Fatalf("the search box has not the focus: %T", w.Canvas().Focused())
	}
	l, ok := w.Canvas().Overlays().Top().(*listPopUp)
	if !ok {
		t.Fatal("no list")
	}
	if s := l.sheet; s.x < 0 || s.y < 0 || s.x+s.w > 300 || s.y+s.h > 400 {
		t.Errorf("the list leaves the window: %+v", s)
	}
	for range 60 {
		key(in, fyne.KeyDown)
		top, foot := l.rows.span(l.at)
		if off, view := l.scroll.Offset.Y, l.scroll.Size().Height; top < off-0.1 || foot > off+view+0.1 {
			t.Fatalf("row %d from %.0f to %.0f is out of view: %.0f and %.0f more", l.at, top, foot, off, view)
		}
	}
	if l.at != 39 {
		t.Errorf("the bar ends at %d", l.at)
	}
	var texts []spot
	survey(t, l.rows, 0, 0, &texts)
	if len(texts) < 80 {
		t.Errorf("the labels are not shown in full: %d lines", len(texts))
	}
	test.Type(in, "number 27")
	if len(l.found) != 1 {
		t.Fatalf("found %d", len(l.found))
	}
	key(in, fyne.KeyReturn)
	if got != "27" || w.Canvas().Overlays().Top() != nil {
		t.Errorf("chose %q", got)
	}
	shortened := false
	for _, s := range drawnTexts(t, c) {
		shortened = shortened || strings.HasSuffix(s, "…")
	}
	if !shortened {
		t.Error("the box shows the label without shortening it")
	}
	key(c, fyne.KeySpace)
	in = w.Canvas().Focused().(*boxed)
	test.Type(in, "qqq")
	l = w.Canvas().Overlays().Top().(*listPopUp)
	if !has(drawnTexts(t, l.rows), "nothing has that name") {
		t.Errorf("an empty search shows %q", drawnTexts(t, l.rows))
	}
	key(in, fyne.KeyReturn)
	if got != "27" || w.Canvas().Focused() != fyne.Focusable(c) {
		t.Errorf("Enter on nothing chose %q", got)
	}
	key(c, fyne.KeySpace)
	w.Resize(fyne.NewSize(500, 400))
	if w.Canvas().Overlays().Top() != nil {
		t.Error("the list stays when the window changes")
	}
}
