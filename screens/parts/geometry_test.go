package parts

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/screens/look"
)

// spot is a canvas object with its place in the window.
type spot struct {
	o          fyne.CanvasObject
	x, y, w, h float32
	owner      string
}

func (a spot) overlaps(b spot) bool {
	const slack = 0.6
	return a.x+slack < b.x+b.w && b.x+slack < a.x+a.w && a.y+slack < b.y+b.h && b.y+slack < a.y+a.h
}

// held is a part as tests look into it.
type held interface {
	fyne.Widget
	base() *part
}

func (b *part) base() *part { return b }

// survey walks what is drawn below o, checks that parts keep within what they
// were given, and collects the texts.
func survey(t *testing.T, o fyne.CanvasObject, x, y float32, texts *[]spot) {
	t.Helper()
	if !o.Visible() {
		return
	}
	switch w := o.(type) {
	case held:
		b := w.base()
		size := w.Size()
		r := test.WidgetRenderer(w).(*partRenderer)
		var children []spot
		for _, c := range r.Objects() {
			if !c.Visible() {
				continue
			}
			if c != fyne.CanvasObject(r.pool.ringed) {
				p, s := c.Position(), c.Size()
				const slack = 1.6 // the margin about the shapes of states and a rounded text width
				if p.X < -slack || p.Y < -slack || p.X+s.Width > size.Width+slack || p.Y+s.Height > size.Height+slack {
					t.Errorf("%T: %s at %v size %v leaves its part of %v", w, describe(c), p, s, size)
				}
			}
			if cw, ok := c.(fyne.Widget); ok {
				sp := spot{o: c, x: c.Position().X, y: c.Position().Y, w: c.Size().Width, h: c.Size().Height}
				for _, other := range children {
					if sp.overlaps(other) {
						t.Errorf("%T: %T and %T overlap", w, cw, other.o)
					}
				}
				children = append(children, sp)
			}
			survey(t, c, x+c.Position().X, y+c.Position().Y, texts)
		}
		if _, placed := w.(*Scroller); !placed && size.Width > 0 {
			if need := b.HeightAt(size.Width); need > size.Height+0.01 {
				t.Errorf("%T: needs %.1f at width %.1f, was given %.1f", w, need, size.Width, size.Height)
			}
		}
	case *widget.Entry, *boxed:
		// what is typed scrolls within its box
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(w).Objects() {
			survey(t, c, x+c.Position().X, y+c.Position().Y, texts)
		}
	case *fyne.Container:
		for _, c := range w.Objects {
			survey(t, c, x+c.Position().X, y+c.Position().Y, texts)
		}
	case *canvas.Text:
		s := w.MinSize()
		*texts = append(*texts, spot{o: w, x: x, y: y, w: s.Width, h: s.Height, owner: w.Text})
		if s.Width > w.Size().Width+0.6 || s.Height > w.Size().Height+0.6 {
			t.Errorf("text %q takes %v and was given %v", w.Text, s, w.Size())
		}
	}
}

func describe(o fyne.CanvasObject) string {
	if t, ok := o.(*canvas.Text); ok {
		return fmt.Sprintf("text %q", t.Text)
	}
	return fmt.Sprintf("%T", o)
}

// TestNothingOverlapsOrIsCut lays the page with every part out at several
// widths, languages and text scales: all objects lie within their parts, no two
// texts and no two siblings meet, and every part has the height it asks for.
func TestNothingOverlapsOrIsCut(t *testing.T) {
	for _, percent := range []int{100, 150} {
		themed(t, look.Light, percent)
		for _, w := range []words{english, german, chinese} {
			page, stick, nav := samplePage(w)
			win := test.NewTempWindow(t, page)
			win.SetPadded(false)
			for _, width := range []float32{520, 504, 330} {
				t.Run(fmt.Sprintf("%s %.0f at %d", w.name, width, percent), func(t *testing.T) {
					win.Resize(fyne.NewSize(width, 700))
					check(t, page)
					if got, want := page.sheet.Size().Height, page.sheet.HeightAt(page.sheet.Size().Width); got < want {
						t.Errorf("the page scrolls over %.1f, its content is %.1f", got, want)
					}
				})
			}
			win.SetContent(nav)
			for _, width := range []float32{1280, 1024, 700, 480} {
				t.Run(fmt.Sprintf("bar %s %.0f at %d", w.name, width, percent), func(t *testing.T) {
					win.Resize(fyne.NewSize(width, navHeight*float32(percent)/100))
					check(t, nav)
				})
			}
			win.SetContent(stick)
			for _, height := range []float32{741, 640} {
				t.Run(fmt.Sprintf("stick %s %.0f at %d", w.name, height, percent), func(t *testing.T) {
					win.Resize(fyne.NewSize(stick.WidthNeeded(), height))
					check(t, stick)
				})
			}
		}
	}
}

func check(t *testing.T, o fyne.CanvasObject) {
	t.Helper()
	var texts []spot
	survey(t, o, 0, 0, &texts)
	if len(texts) == 0 {
		t.Fatal("nothing was drawn")
	}
	for i, a := range texts {
		for _, b := range texts[:i] {
			if a.overlaps(b) {
				t.Errorf("%q and %q overlap", a.owner, b.owner)
			}
		}
	}
}
