package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/i18n"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/look"
)

// line is a text as it stands in the window.
type line struct {
	text       string
	x, y, w, h float32
	in         view
}

// view is what scrolls a text, and from where to where it shows.
type view struct {
	of        fyne.CanvasObject // nil for what does not scroll
	top, foot float32
}

// meet reports whether two texts can be seen at one time: those of one page always,
// for it can be scrolled to them.
func (a line) meet(b line) bool {
	seen := func(l line) bool { return l.y >= l.in.top-1 && l.y+l.h <= l.in.foot+1 }
	return a.in.of == b.in.of || seen(a) && seen(b)
}

// misfits lists what of the texts in a window is cut, runs out of its part, over the
// edge of the window, or over another text, or shortened. own are texts of a person,
// such as the name of the tank in the bar, which may be shortened.
func misfits(w fyne.Window, own ...string) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	root, c := w.Content(), w.Canvas()
	if top := c.Overlays().Top(); top != nil {
		root = top
	}
	var lines []line
	var walk func(o fyne.CanvasObject, x, y, left, right float32, in view)
	walk = func(o fyne.CanvasObject, x, y, left, right float32, in view) {
		if o == nil || !o.Visible() {
			return
		}
		const slack = 1.6 // a text is placed to the point, its width is rounded
		switch t := o.(type) {
		case *widget.Entry, interface{ SelectedText() string }:
			return // what is typed scrolls in its box
		case *canvas.Text:
			if strings.TrimSpace(t.Text) == "" {
				return
			}
			need := t.MinSize()
			if need.Width > t.Size().Width+slack {
				say("%q needs %.0f and has %.0f", t.Text, need.Width, t.Size().Width)
			}
			if x < left-slack || x+need.Width > right+slack {
				say("%q spans %.0f to %.0f, outside of %.0f to %.0f", t.Text, x, x+need.Width, left, right)
			}
			if rest, short := strings.CutSuffix(t.Text, "…"); short && rest != "" && !slices.ContainsFunc(own, func(s string) bool { return strings.HasPrefix(s, rest) }) {
				say("%q is shortened", t.Text)
			}
			lines = append(lines, line{t.Text, x, y, need.Width, need.Height, in})
			return
		case *fyne.Container:
			for _, inner := range t.Objects {
				walk(inner, x+inner.Position().X, y+inner.Position().Y, left, right, in)
			}
			return
		case fyne.Widget:
			if fmt.Sprintf("%T", t) == "*parts.wallSheet" {
				return // the captions of pictures begin a person's own words
			}
			if s, ok := t.(*container.Scroll); ok {
				in = view{s, max(in.top, y), min(in.foot, y+s.Size().Height)}
			}
			l, r := left, right
			if t.Size().Width > 0 {
				l, r = max(left, x), min(right, x+t.Size().Width)
			}
			renderer := test.WidgetRenderer(t)
			inner := renderer.Objects()
			if all, ok := renderer.(interface{ All() []fyne.CanvasObject }); ok {
				inner = all.All()
			}
			for _, i := range inner {
				walk(i, x+i.Position().X, y+i.Position().Y, l, r, in)
			}
		}
	}
	walk(root, root.Position().X, root.Position().Y, 0, c.Size().Width, view{foot: c.Size().Height})
	slices.SortStableFunc(lines, func(a, b line) int { return int(a.y - b.y) })
	for i, a := range lines {
		for _, b := range lines[i+1:] {
			if b.y > a.y+a.h {
				break
			}
			// Lines may be led closer than the letters are tall.
			lap := min(a.y+a.h, b.y+b.h) - max(a.y, b.y)
			if a.meet(b) && lap > 0.45*min(a.h, b.h) && min(a.x+a.w, b.x+b.w)-max(a.x, b.x) > 2 {
				say("%q and %q overlap", a.text, b.text)
			}
		}
	}
	return out
}

// Every page and panel, in the smaller window with text at 150 %, in the language
// whose texts are two fifths longer: nothing is cut, nothing runs over anything.
func TestEveryPageFitsLongTexts(t *testing.T) {
	fits(t, i18n.Pseudo, fyne.NewSize(1024, 700), 150)
}

// And in every language that is shipped, at the size that pages are made for.
func TestEveryPageFitsEveryLanguage(t *testing.T) {
	for _, lang := range i18n.Languages() {
		if lang == "en-US" { // it differs from English in a few words
			continue
		}
		fits(t, lang, fyne.NewSize(1024, 700), 150)
	}
}

func fits(t *testing.T, lang string, size fyne.Size, percent int) {
	t.Helper()
	seen, tank := 0, i18n.Speak(lang, "", quantity.Metric).T("example.name", nil)
	tr := &tour{out: t.TempDir(), size: size, text: percent, app: test.NewTempApp(t)}
	tr.look = func(w fyne.Window, name string) {
		seen++
		for _, fault := range misfits(w, tank) {
			t.Errorf("%s: %s", name, fault)
		}
	}
	if err := tr.pages(lang, look.Light); err != nil {
		t.Fatal(err)
	}
	if seen < 40 {
		t.Errorf("%s: %d pages were looked at, want at least 40", lang, seen)
	}
}

// What the pages are looked at for is found.
func TestMisfitsAreFound(t *testing.T) {
	a := test.NewTempApp(t)
	w := a.NewWindow("")
	w.SetPadded(false)
	put := func(text string, x, y, width float32) *canvas.Text {
		o := canvas.NewText(text, nil)
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(width, 20))
		return o
	}
	for name, c := range map[string]struct {
		objects []fyne.CanvasObject
		want    string
	}{
		"whole":   {[]fyne.CanvasObject{put("one", 0, 0, 90), put("two", 0, 30, 90)}, ""},
		"cut":     {[]fyne.CanvasObject{put("a longer text", 0, 0, 20)}, "needs"},
		"outside": {[]fyne.CanvasObject{put("a longer text", 280, 0, 200)}, "outside"},
		"overlap": {[]fyne.CanvasObject{put("one", 0, 0, 90), put("two", 5, 3, 90)}, "overlap"},
	} {
		w.SetContent(&fyne.Container{Objects: c.objects})
		w.Resize(fyne.NewSize(300, 100))
		got := strings.Join(misfits(w), "; ")
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// A translator is told the pictures in which a message can be read, and none where
// it cannot.
func TestTourTellsWhereMessagesStand(t *testing.T) {
	tr := &tour{out: t.TempDir(), size: fyne.NewSize(1280, 800), text: 100, app: test.NewTempApp(t),
		where: map[string][]string{}, said: map[string]string{}, heard: i18n.Listen(), look: func(fyne.Window, string) {}}
	if err := tr.pages("en", look.Light); err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]string{"note.someone_shocked.hazard": "power_on", "menu.emergency": "safety", "stepfor.rinse": "rinse", "page.feed.purpose": "feeding", "menu.units": "settings"} {
		if got := strings.Join(tr.where[key], " "); !strings.Contains(got, want) {
			t.Errorf("%s stands in %q, want %s", key, got, want)
		}
	}
	if got := tr.where["refuse.photo.white_dark"]; len(got) > 0 {
		t.Errorf("a refusal that nobody met stands in %v", got)
	}
	if len(tr.where) < 800 {
		t.Errorf("%d messages can be read in the pictures, want at least 800", len(tr.where))
	}
}
