package parts

import (
	"fmt"
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/screens/look"
)

// decade is a wall of 10,000 pictures in 120 months.
func decade(t testing.TB) (*Wall, fyne.Window, map[int]int) {
	app := test.NewTempApp(t)
	th, err := look.New(look.Options{})
	if err != nil {
		t.Fatal(err)
	}
	app.Settings().SetTheme(th)
	w := NewWall("wall")
	asked := map[int]int{}
	some := make([]image.Image, 40)
	for i := range some {
		some[i] = image.NewRGBA(image.Rect(0, 0, 150, 112))
	}
	w.Image = func(i, _, _ int) image.Image {
		asked[i]++
		return some[i%len(some)]
	}
	w.Cell = func(i int) WallCell { return WallCell{Label: fmt.Sprintf("Wed %d · Stripe", i%28), Marked: i%7 == 0} }
	var groups []WallGroup
	for m := range 120 {
		n := 83
		if m < 40 {
			n = 84
		}
		groups = append(groups, WallGroup{Title: fmt.Sprintf("Month %d", m), Count: n})
	}
	w.Set(groups)
	win := test.NewTempWindow(t, w)
	win.Resize(fyne.NewSize(860, 600))
	return w, win, asked
}

func TestWallAsksOnlyForWhatIsSeen(t *testing.T) {
	w, _, asked := decade(t)
	if n := len(asked); n < 10 || n > 40 || asked[0] == 0 {
		t.Errorf("asked for %d pictures to begin with", n)
	}
	clear(asked)
	w.GoTo(5000)
	if n := len(asked); n > 80 || asked[5000] == 0 {
		t.Errorf("asked for %d pictures in the middle", n)
	}
	if n := len(w.sheet.images) + len(w.sheet.spare); n > 80 {
		t.Errorf("%d objects show pictures", n)
	}
	clear(asked)
	w.GoTo(9999)
	if asked[9999] == 0 || asked[0] != 0 {
		t.Error("the end does not show the last")
	}
}

func TestWallByKeys(t *testing.T) {
	w, win, _ := decade(t)
	var opened, picked []int
	w.OnOpen = func(i int) { opened = append(opened, i) }
	w.OnPick = func(i int) { picked = append(picked, i) }
	pasted := 0
	w.OnPaste = func() { pasted++ }
	win.Canvas().Focus(w)
	cols := w.sheet.plan(w.sheet.Size().Width).cols
	for _, c := range []struct {
		key  fyne.KeyName
		want int
	}{{fyne.KeyRight, 1}, {fyne.KeyDown, 1 + cols}, {fyne.KeyUp, 1}, {fyne.KeyLeft, 0}, {fyne.KeyLeft, 0}, {fyne.KeyUp, 0}, {fyne.KeyEnd, 9999}, {fyne.KeyDown, 9999}, {fyne.KeyHome, 0}} {
		key(w, c.key)
		if w.At() != c.want {
			t.Fatalf("%s leads to %d, want %d", c.key, w.At(), c.want)
		}
	}
	// From the last row of a month to the first of the next, in the same column.
	w.GoTo(83)
	key(w, fyne.KeyDown)
	if want := 84 + (83 % cols); w.At() != want {
		t.Errorf("below 83 lies %d, want %d", w.At(), want)
	}
	key(w, fyne.KeySpace)
	key(w, fyne.KeyReturn)
	w.TypedShortcut(&fyne.ShortcutPaste{})
	if len(opened) != 1 || len(picked) != 1 || opened[0] != w.At() || picked[0] != w.At() || pasted != 1 {
		t.Errorf("opened %v, picked %v, pasted %d", opened, picked, pasted)
	}
	back := false
	w.Keys.Back = func() { back = true }
	key(w, fyne.KeyEscape)
	if !back {
		t.Error("Escape is for the page")
	}
}

func TestWallByPointer(t *testing.T) {
	w, _, _ := decade(t)
	opened, picked := -1, -1
	w.OnOpen = func(i int) { opened = i }
	w.OnPick = func(i int) { picked = i }
	p := w.sheet.plan(w.sheet.Size().Width)
	for _, i := range []int{0, 3, 83, 84, 85, 700, 9999} {
		x, y := p.left(i), p.top(i)
		w.sheet.Tapped(&fyne.PointEvent{Position: fyne.NewPos(x+20, y+60)})
		w.sheet.Tapped(&fyne.PointEvent{Position: fyne.NewPos(x+p.cell-8, y+8)})
		if opened != i || picked != i {
			t.Errorf("taps on %d open %d and pick %d", i, opened, picked)
		}
	}
	opened = -1
	w.sheet.Tapped(&fyne.PointEvent{Position: fyne.NewPos(p.left(0)+20, p.tops[0]+2)})
	if opened != -1 {
		t.Error("a heading opens a picture")
	}
	if pickSize < leastTarget {
		t.Error("the corner is too small a target")
	}
}

// BenchmarkWallScroll is our part of a frame while the wall of 10,000 pictures
// scrolls, beside the toolkit's own grid with the same pictures and labels.
func BenchmarkWallScroll(b *testing.B) {
	b.Run("ours", func(b *testing.B) {
		w, _, _ := decade(b)
		for i := 0; b.Loop(); i++ {
			w.Scroll(37)
			if i%5000 == 4999 {
				w.GoTo(0)
			}
		}
	})
	b.Run("reference", func(b *testing.B) {
		test.NewTempApp(b)
		m := image.NewRGBA(image.Rect(0, 0, 150, 112))
		g := widget.NewGridWrap(func() int { return 10000 }, func() fyne.CanvasObject {
			img := &canvas.Image{ScaleMode: canvas.ImageScaleFastest}
			img.SetMinSize(fyne.NewSize(150, 112))
			return container.NewWithoutLayout(img, widget.NewLabel(""))
		}, func(i widget.GridWrapItemID, o fyne.CanvasObject) {
			c := o.(*fyne.Container)
			c.Objects[0].(*canvas.Image).Image = m
			c.Objects[0].Refresh()
			c.Objects[1].(*widget.Label).SetText(fmt.Sprintf("Wed %d · Stripe", i%28))
		})
		w := test.NewTempWindow(b, g)
		w.Resize(fyne.NewSize(860, 600))
		at := float32(0)
		for b.Loop() {
			at += 37
			if at > 200000 {
				at = 0
			}
			g.ScrollToOffset(at)
		}
	})
}
