package main

import (
	"fmt"
	"image"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/parts"
)

// leastTarget is how wide and high what is pressed is at least, px.
// Source: WCAG 2.2, success criterion 2.5.8.
const leastTarget = 24

// Every page and panel at 100 %: what can be pressed is large enough, Tab comes by
// everything that can have the focus, and the focus can be seen on each kind of it.
func TestEveryPageIsWithinReach(t *testing.T) {
	ringed := map[string]bool{}
	pages, things := 0, 0
	tr := &tour{out: t.TempDir(), size: fyne.NewSize(1280, 800), text: 100, app: test.NewTempApp(t)}
	tr.look = func(w fyne.Window, name string) {
		pages++
		c := w.Canvas()
		root := w.Content()
		if top := c.Overlays().Top(); top != nil {
			root = top
		}
		had := c.Focused()
		var all []fyne.Focusable
		walkShown(root, func(o fyne.CanvasObject) {
			f, can := o.(fyne.Focusable)
			if d, ok := o.(fyne.Disableable); !can || ok && d.Disabled() {
				return
			}
			all = append(all, f)
			if s := o.Size(); s.Height > 0 && (s.Width < leastTarget || s.Height < leastTarget) { // a list without room is nothing to press
				t.Errorf("%s: %T %q is %.0f by %.0f", name, o, parts.IDOf(f), s.Width, s.Height)
			}
		})
		things += len(all)
		reached := map[fyne.Focusable]bool{}
		c.Unfocus()
		for range len(all) + 2 {
			c.FocusNext()
			if f := c.Focused(); !reached[f] {
				reached[f] = true
				if fault := hidden(root, f); fault != "" {
					t.Errorf("%s: Tab comes to %T %q, which is %s", name, f, parts.IDOf(f), fault)
				}
			}
		}
		for _, f := range all {
			if !reached[f] {
				t.Errorf("%s: Tab does not come by %T %q", name, f, parts.IDOf(f))
			}
		}
		for _, f := range all { // one of each kind is looked at
			kind := fmt.Sprintf("%T", f)
			if ringed[kind] {
				continue
			}
			c.Focus(f)
			with := c.Capture()
			c.Unfocus()
			if without := c.Capture(); !differs(with, without) {
				t.Errorf("%s: the focus on %T %q cannot be seen", name, f, parts.IDOf(f))
			}
			ringed[kind] = true
		}
		c.Unfocus()
		if had != nil {
			c.Focus(had)
		}
		if !opensNotes(c, all) && !strings.HasSuffix(name, "-safety") {
			t.Errorf("%s: F1 does not open the safety notes over it", name)
		}
	}
	if err := tr.pages("en", look.Light); err != nil {
		t.Fatal(err)
	}
	if pages < 40 || things < 500 || len(ringed) < 8 {
		t.Errorf("%d pages with %d things of %d kinds, want at least 40, 500 and 8", pages, things, len(ringed))
	}
}

func differs(a, b image.Image) bool {
	n := 0
	r := a.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if a.At(x, y) != b.At(x, y) {
				n++
			}
		}
	}
	return n > 40 // more than a cursor that blinks
}

// hidden tells how what has the focus is out of sight: beyond the window or scrolled
// away, by its middle; "" where it is in view.
func hidden(root fyne.CanvasObject, f fyne.Focusable) string {
	fault := ""
	var walk func(o fyne.CanvasObject, x, y, top, foot float32)
	walk = func(o fyne.CanvasObject, x, y, top, foot float32) {
		if o == nil || !o.Visible() {
			return
		}
		if o == fyne.CanvasObject(f.(fyne.CanvasObject)) {
			h := o.Size().Height
			if y+min(h, leastTarget) < top+1 || y+max(h-leastTarget, 0) > foot-1 {
				fault = fmt.Sprintf("at %.0f to %.0f of %.0f to %.0f", y, y+h, top, foot)
			}
			return
		}
		if s, ok := o.(*container.Scroll); ok {
			top, foot = max(top, y), min(foot, y+s.Size().Height)
		}
		for _, i := range innerOf(o) {
			walk(i, x+i.Position().X, y+i.Position().Y, top, foot)
		}
	}
	walk(root, root.Position().X, root.Position().Y, 0, root.Size().Height)
	return fault
}

// opensNotes presses F1 where the focus is, and where nothing has it, and reports whether
// a panel came over what was there each time, which then is closed again.
func opensNotes(c fyne.Canvas, all []fyne.Focusable) bool {
	before := len(c.Overlays().List())
	press := func() bool {
		if f := c.Focused(); f != nil {
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF1})
		} else if c.OnTypedKey() != nil {
			c.OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyF1})
		}
		if len(c.Overlays().List()) != before+1 {
			return false
		}
		c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		return len(c.Overlays().List()) == before
	}
	had := c.Focused()
	ok := press()
	kinds := map[string]bool{}
	for _, f := range all {
		if kind := fmt.Sprintf("%T", f); !kinds[kind] {
			kinds[kind] = true
			c.Focus(f)
			ok = press() && ok
		}
	}
	c.Unfocus()
	ok = press() && ok
	if had != nil {
		c.Focus(had)
	}
	return ok
}
