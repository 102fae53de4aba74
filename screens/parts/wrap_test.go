package parts

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"pgregory.net/rapid"

	"example.org/driploop/screens/look"
)

// count measures text as if every character were one wide.
func count(s string) float32 { return float32(utf8.RuneCountInString(s)) }

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		text  string
		width float32
		want  []string
	}{
		{"", 10, []string{""}},
		{"one two three", 7, []string{"one two", "three"}},
		{"one two three", 3, []string{"one", "two", "thr", "ee"}},
		{"a\nb c", 10, []string{"a", "b c"}},
		{"鱼缸加热棒。开关", 5, []string{"鱼缸加热", "棒。开关"}},                                            // a line does not begin with a full stop
		{"Depth: 10 in · Height: 12 in", 12, []string{"Depth: 10", "in · Height:", "12 in"}}, // nor with the dot between two things
		{"one", 0, []string{"o", "n", "e"}},
	} {
		got := wrap(c.text, c.width, count)
		if strings.Join(got, "|") != strings.Join(c.want, "|") {
			t.Errorf("%q at %v: expected %q, got %q", c.text, c.width, c.want, got)
		}
	}
	if got := ellipsis("Own furniture", 8, count); got != "Own fur…" {
		t.Errorf("ellipsis: %q", got)
	}
	if got := ellipsis("Own", 8, count); got != "Own" {
		t.Errorf("ellipsis of what fits: %q", got)
	}
}

// Wrapping loses no character but the spaces at line ends, and keeps to the
// width as far as one character does.
func TestWrapKeepsAllAndFits(t *testing.T) {
	letters := rapid.StringOfN(rapid.RuneFrom([]rune("abcß XY-,.。（）水槽加 \n")), 0, 60, -1)
	rapid.Check(t, func(t *rapid.T) {
		s, width := letters.Draw(t, "text"), float32(rapid.IntRange(0, 20).Draw(t, "width"))
		lines := wrap(s, width, count)
		bare := strings.NewReplacer(" ", "", "\n", "")
		if bare.Replace(strings.Join(lines, "")) != bare.Replace(s) {
			t.Fatalf("%q became %q", s, lines)
		}
		for _, l := range lines {
			if count(l) > max(width, 1) && strings.TrimSpace(l) != "" {
				t.Fatalf("%q is wider than %v", l, width)
			}
		}
	})
}

func TestBarShares(t *testing.T) {
	themed(t, look.Light, 100)
	for _, c := range []struct {
		share float64
		rects int     // track, fill, notch
		wide  float32 // of the fill
	}{{0, 1, 0}, {-1, 1, 0}, {math.NaN(), 1, 0}, {0.5, 2, 200}, {1, 2, 400}, {1.2, 3, 400}, {math.Inf(1), 3, 400}, {0.001, 2, trackHeight}} {
		b := NewBar(BarSpec{Name: "Top", Text: "x", Share: c.share})
		b.Resize(fyne.NewSize(400, b.HeightAt(400)))
		b.Refresh()
		p := b.drawn.pool
		if p.nRect != c.rects {
			t.Errorf("share %v: expected %d rectangles, got %d", c.share, c.rects, p.nRect)
			continue
		}
		if c.rects > 1 && p.rects[1].Size().Width != c.wide {
			t.Errorf("share %v: expected a fill of %v, got %v", c.share, c.wide, p.rects[1].Size().Width)
		}
	}
	for _, s := range []State{Wait, Act} {
		b := NewBar(BarSpec{Name: "Top", Text: "86 %", Share: 0.86, State: s, Word: "near"})
		b.Resize(fyne.NewSize(400, b.HeightAt(400)))
		if !has(drawnTexts(t, b), "near") || b.drawn.pool.nSketch != 1 {
			t.Errorf("state %d is told by its colour alone", s)
		}
	}
}
