package shell_test

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
)

// rendered is what a widget is made of.
func rendered(w fyne.Widget) []fyne.CanvasObject { return test.WidgetRenderer(w).Objects() }

// eachText visits every text that is shown in o, with where it stands.
func eachText(o fyne.CanvasObject, at fyne.Position, visit func(text string, at fyne.Position)) {
	if !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	var inner []fyne.CanvasObject
	switch o := o.(type) {
	case *canvas.Text:
		visit(o.Text, at)
	case *fyne.Container:
		inner = o.Objects
	case fyne.Widget:
		inner = rendered(o)
	}
	for _, i := range inner {
		eachText(i, at, visit)
	}
}

// shows reports whether a sentence is shown, on however many lines.
func (s stage) shows(words string) bool {
	one := func(t string) string { return strings.Join(strings.Fields(t), " ") }
	return strings.Contains(one(s.texts()), one(words))
}

// texts is every text shown in the window and over it.
func (s stage) texts() string {
	var all []string
	for _, o := range append([]fyne.CanvasObject{s.w.Canvas().Content()}, s.w.Canvas().Overlays().List()...) {
		eachText(o, fyne.Position{}, func(text string, _ fyne.Position) { all = append(all, text) })
	}
	return strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(strings.Join(all, "\n"))
}

// inView is every text in the window that is in view.
func (s stage) inView() string {
	var out []string
	height := s.w.Canvas().Size().Height
	eachText(s.Root(), fyne.Position{}, func(text string, at fyne.Position) {
		if at.Y >= 0 && at.Y < height {
			out = append(out, text)
		}
	})
	return strings.Join(out, "|")
}

// shoot writes what the window shows where DRIPLOOP_SHOTS says, for the eye.
func (s stage) shoot(t *testing.T, name string) {
	t.Helper()
	dir := os.Getenv("DRIPLOOP_SHOTS")
	if dir == "" {
		return
	}
	var b bytes.Buffer
	if err := png.Encode(&b, s.w.Canvas().Capture()); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name+".png"), b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
}
