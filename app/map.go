package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/model/durable"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// mapVariable names the file of the map. It is a hook for tests of the real
// window: such a test types keys and must know where they went. Without the
// variable there is no map.
const mapVariable = "DRIPLOOP_MAP"

// dropEnding marks the file of what is dropped on the window, see answerMap.
const dropEnding = ".drop"

// shown is the map: where one is and what the windows show.
type shown struct {
	Place   string        `json:"place"`
	Tank    string        `json:"tank"`
	Step    string        `json:"step"`
	Windows []shownWindow `json:"windows"`
}

// shownWindow is one window: what can be reached in it by keyboard, in the
// order of Tab, and every text. Under a dialog both are the dialog's own.
type shownWindow struct {
	Title string      `json:"title"`
	Focus int         `json:"focus"` // index into Parts, -1 for none
	Parts []shownPart `json:"parts"`
	Texts []string    `json:"texts"`
}

// shownPart is what can take the focus. The rectangle is in device pixels from
// the window's upper left corner.
type shownPart struct {
	ID   string `json:"id"`
	Type string `json:"type"`
	Text string `json:"text"`
	X    int    `json:"x"`
	Y    int    `json:"y"`
	W    int    `json:"w"`
	H    int    `json:"h"`
}

// writeMap writes what the windows of an application show. It must run on the
// toolkit's goroutine.
func writeMap(path string, d fyne.Driver, at nav.Route) error {
	m := shown{Place: string(at.Place), Tank: at.Tank, Step: string(at.Step)}
	for _, w := range d.AllWindows() {
		m.Windows = append(m.Windows, seeWindow(d, w))
	}
	raw, err := json.Marshal(m)
	if err != nil {
		return err
	}
	return durable.WriteFile(path, raw, 0o600)
}

func seeWindow(d fyne.Driver, w fyne.Window) shownWindow {
	c := w.Canvas()
	s := shownWindow{Title: w.Title(), Focus: -1, Parts: []shownPart{}}
	root := c.Content()
	if top := c.Overlays().Top(); top != nil {
		root = top
	}
	has := c.Focused()
	walkShown(root, func(o fyne.CanvasObject) {
		if t, ok := o.(*canvas.Text); ok && t.Text != "" {
			s.Texts = append(s.Texts, t.Text)
		}
		f, ok := o.(fyne.Focusable)
		if off, can := o.(fyne.Disableable); !ok || can && off.Disabled() {
			return
		}
		if f == has {
			s.Focus = len(s.Parts)
		}
		at, size, k := d.AbsolutePositionForObject(o), o.Size(), c.Scale()
		p := shownPart{ID: parts.IDOf(f), Type: fmt.Sprintf("%T", o), Text: textIn(o)}
		p.X, p.Y, p.W, p.H = int(at.X*k), int(at.Y*k), int(size.Width*k), int(size.Height*k)
		s.Parts = append(s.Parts, p)
	})
	return s
}

// textIn is the text that an object shows.
func textIn(o fyne.CanvasObject) string {
	var all []string
	walkShown(o, func(x fyne.CanvasObject) {
		if t, ok := x.(*canvas.Text); ok && t.Text != "" {
			all = append(all, t.Text)
		}
	})
	return strings.Join(all, " ")
}

// walkShown visits what is not hidden, in the order in which it is drawn.
func walkShown(o fyne.CanvasObject, visit func(fyne.CanvasObject)) {
	if o == nil || !o.Visible() {
		return
	}
	visit(o)
	for _, i := range innerOf(o) {
		walkShown(i, visit)
	}
}

// innerOf is what an object is drawn of, scrolled out of view or not.
func innerOf(o fyne.CanvasObject) []fyne.CanvasObject {
	switch x := o.(type) {
	case *fyne.Container:
		return x.Objects
	case fyne.Widget:
		r := test.WidgetRenderer(x)
		if of, ok := r.(interface{ All() []fyne.CanvasObject }); ok {
			return of.All()
		}
		return r.Objects()
	}
	return nil
}

// mapNow writes the map and tells the log when it cannot.
func mapNow(path string, where func() nav.Route) {
	if err := writeMap(path, fyne.CurrentApp().Driver(), where()); err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
}
