package parts

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"example.org/driploop/screens/look"
)

// many is a list whose rows differ in height.
type many int

func (m many) Len() int { return int(m) }
func (m many) Row(i int) LongRowSpec {
	s := LongRowSpec{ID: fmt.Sprint("row-", i), Time: "07:30", Kind: "Fed", Text: strings.Repeat("some flakes were left over ", i%11)}
	if i%4 == 0 {
		s.Heading = fmt.Sprint("day ", i/4)
	}
	return s
}
func (m many) Place(id string) (int, bool) {
	var i int
	_, err := fmt.Sscanf(id, "row-%d", &i)
	return i, err == nil && i < int(m)
}

func longIn(t *testing.T, n int, size fyne.Size) (*Long, fyne.Window) {
	t.Helper()
	app := test.NewTempApp(t)
	th, err := look.New(look.Options{Variant: look.Light})
	if err != nil {
		t.Fatal(err)
	}
	app.Settings().SetTheme(th)
	l := NewLong("list", 8)
	w := test.NewTempWindow(t, l)
	w.SetPadded(false)
	w.Resize(size)
	l.Set(many(n))
	return l, w
}

// inView gives where a row stands in the view; false when it is not made.
func inView(l *Long, i int) (top, foot float32, ok bool) {
	r, ok := l.body.shown[i]
	if !ok {
		return 0, 0, false
	}
	return l.body.Position().Y + r.Position().Y, l.body.Position().Y + r.Position().Y + r.Size().Height, true
}

func TestLongByKeyboard(t *testing.T) {
	l, w := longIn(t, 50000, fyne.NewSize(700, 400))
	opened := -1
	l.OnOpen = func(i int) { opened = i }
	w.Canvas().Focus(l.Focusable())
	if l.At() != 0 {
		t.Fatalf("the focus is at row %d", l.At())
	}
	at := 0
	for _, c := range []struct {
		key  fyne.KeyName
		want func(before, now int) bool
	}{
		{fyne.KeyDown, func(b, n int) bool { return n == b+1 }}, {fyne.KeyDown, func(b, n int) bool { return n == b+1 }}, {fyne.KeyUp, func(b, n int) bool { return n == b-1 }},
		{fyne.KeyPageDown, func(b, n int) bool { return n > b+2 }}, {fyne.KeyPageDown, func(b, n int) bool { return n > b+2 }}, {fyne.KeyPageUp, func(b, n int) bool { return n < b-2 }},
		{fyne.KeyEnd, func(_, n int) bool { return n == 49999 }}, {fyne.KeyDown, func(_, n int) bool { return n == 49999 }}, {fyne.KeyPageUp, func(b, n int) bool { return n < b-2 }},
		{fyne.KeyHome, func(_, n int) bool { return n == 0 }}, {fyne.KeyUp, func(_, n int) bool { return n == 0 }},
	} {
		l.body.TypedKey(&fyne.KeyEvent{Name: c.key})
		if !c.want(at, l.At()) {
			t.Errorf("%s from row %d leads to %d", c.key, at, l.At())
		}
		at = l.At()
		if top, foot, ok := inView(l, at); !ok || top < -1 || foot > l.Size().Height+1 {
			t.Errorf("%s: row %d stands from %v to %v of %v", c.key, at, top, foot, l.Size().Height)
		}
		if n := len(l.body.shown); n > 30 {
			t.Errorf("%d rows exist", n)
		}
	}
	l.body.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	l.body.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if opened != 1 {
		t.Errorf("Enter opened %d", opened)
	}
}

// However one scrolls and jumps, the rows in view follow on one another without
// gap or overlap, fill the view, and nothing that stood in view moves by more
// than was scrolled.
func TestLongScrollsSmoothly(t *testing.T) {
	l, _ := longIn(t, 3000, fyne.NewSize(560, 420))
	rapid.Check(t, func(t *rapid.T) {
		for range rapid.IntRange(1, 12).Draw(t, "moves") {
			before := map[int]float32{}
			for i := range l.body.shown {
				before[i], _, _ = inView(l, i)
			}
			by, off := 0.0, l.off
			switch rapid.IntRange(0, 3).Draw(t, "how") {
			case 0:
				l.GoTo(rapid.IntRange(0, 2999).Draw(t, "row"))
				before = nil
			default:
				by = float64(rapid.IntRange(-300, 300).Draw(t, "by"))
				l.scroll(by)
			}
			end := l.headHeight() + l.h.all() + scrollFoot - float64(l.Size().Height)
			first, last := l.Seen()
			var foot float32
			for i := first; i <= last; i++ {
				top, f, ok := inView(l, i)
				if !ok || i > first && abs(top-foot) > 0.5 {
					t.Fatalf("row %d begins at %v, the one before ends at %v", i, top, foot)
				}
				foot = f
				if was, ok := before[i]; ok && off+by > 0 && l.off < end-1 && abs(top-(was-float32(by))) > 1 {
					t.Fatalf("scrolled by %v, row %d went from %v to %v", by, i, was, top)
				}
			}
			if top, _, _ := inView(l, first); top > 0.5 && l.off > 0 && first > 0 || foot < l.Size().Height-scrollFoot-1 {
				t.Fatalf("the view is not filled: %v to %v", top, foot)
			}
		}
	})
}

func abs(x float32) float32 { return max(x, -x) }

// Rows that are read anew stay in view where they were.
func TestLongKeepsItsPlace(t *testing.T) {
	l, w := longIn(t, 3000, fyne.NewSize(560, 420))
	l.GoTo(1500)
	l.scroll(37)
	first, _ := l.Seen()
	top, _, _ := inView(l, first)
	l.Set(many(3100))
	if now, _, ok := inView(l, first); !ok || abs(now-top) > 1 {
		t.Errorf("row %d went from %v to %v", first, top, now)
	}
	w.Resize(fyne.NewSize(900, 420))
	if now, _ := l.Seen(); now < first-1 || now > first+1 {
		t.Errorf("at another width the view begins at row %d, not %d", now, first)
	}
	l.Set(many(0))
	if a, b := l.Seen(); a != -1 || b != -1 || len(l.body.shown) != 0 {
		t.Errorf("nothing is left, and rows %d to %d are shown", a, b)
	}
}
