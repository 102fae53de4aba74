package paper

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// linear undoes the transfer curve of a grey of 0 to 255. Source: WCAG 2.2,
// relative luminance.
func linear(v float64) float64 {
	v /= 255
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// Wrapping loses nothing, adds nothing, and keeps to the width.
func TestWrapKeepsAllAndFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringOfN(rapid.RuneFrom([]rune("ab ñ日🐟\n\t\u00a0().—W")), 0, 200, -1).Draw(t, "text")
		w := rapid.Float64Range(3, 120).Draw(t, "width")
		f := rapid.SampledFrom([]font{titleFont, bodyFont, noteFont, numberFont}).Draw(t, "font")
		lines := f.wrap(s, w)
		bare := func(s string) string { return strings.ReplaceAll(s, " ", "") }
		if got, want := bare(strings.Join(lines, "")), bare(clean(s)); got != want {
			t.Fatalf("wrapped %q, want %q", got, want)
		}
		for _, l := range lines {
			if l == "" || f.width(l) > w+1e-9 && len([]rune(l)) > 1 {
				t.Fatalf("line %q is %.2f wide, at most %.2f", l, f.width(l), w)
			}
		}
		if short := f.short(s, w); f.width(short) > w+f.width("W…") {
			t.Fatalf("%q was to be cut to %.2f", short, w)
		}
	})
}

// Blocks keep their order, lie on the page, do not overlap, and stay with the
// block they belong to.
func TestFlowKeepsBlocksWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		type placed struct {
			page int
			y, h float64
		}
		f := newFlow(rapid.SampledFrom(Sizes()).Draw(t, "size"))
		n := rapid.IntRange(1, 60).Draw(t, "n")
		got := make([]placed, 0, n)
		with := make([]bool, n)
		chain, gaps := 0.0, 0.0
		for i := range n {
			h := rapid.Float64Range(0.5, 70).Draw(t, "height")
			gap := rapid.Float64Range(0, 8).Draw(t, "gap")
			// A chain that no page can hold may be parted; here there is none.
			with[i] = i < n-1 && chain+gaps+h < 120 && rapid.Bool().Draw(t, "with")
			chain, gaps = chain+h, gaps+gap
			if !with[i] {
				chain, gaps = 0, 0
			}
			f.add(block{height: h, before: gap, with: with[i], draw: func(_ *page, y float64) {
				got = append(got, placed{len(f.pages), y, h})
			}})
		}
		f.lay()
		if len(got) != n {
			t.Fatalf("%d of %d blocks were set", len(got), n)
		}
		for i, b := range got {
			if b.y < marginTop-1e-9 || b.y+b.h > f.bottom()+1e-9 {
				t.Fatalf("block %d at %.1f, %.1f tall, leaves the page", i, b.y, b.h)
			}
			if i == 0 {
				continue
			}
			before := got[i-1]
			if b.page < before.page || b.page == before.page && b.y < before.y+before.h-1e-9 {
				t.Fatalf("block %d lies over block %d", i, i-1)
			}
			if with[i-1] && b.page != before.page {
				t.Fatalf("block %d was parted from block %d", i, i-1)
			}
		}
	})
}

// The head of a table stands again above a row that begins a page.
func TestTableHeadIsRepeated(t *testing.T) {
	f := newFlow(A4)
	heads := 0
	head := block{height: 6, with: true, draw: func(*page, float64) { heads++ }}
	f.add(head)
	for range 50 {
		f.add(block{height: 12, again: &head, draw: func(*page, float64) {}})
	}
	f.lay()
	if len(f.pages) < 3 || heads != len(f.pages) {
		t.Errorf("%d heads on %d pages", heads, len(f.pages))
	}
}

// A number in a text without spaces is not broken, and no mark that opens ends a line.
func TestNumbersAreNotBrokenInJapanese(t *testing.T) {
	const text = "硝酸塩を40未満に保ちます。水換え前に30.6に落ち着きます（前回は128.75）。"
	lines := 0
	for w := 16.0; w < 60; w += 1.5 {
		got := bodyFont.wrap(text, w)
		if strings.Join(got, "") != text {
			t.Fatalf("at %g the text reads %q", w, got)
		}
		for i, l := range got {
			lines++
			next := ""
			if i+1 < len(got) {
				next = got[i+1]
			}
			if strings.HasSuffix(l, "（") || strings.ContainsAny(l[len(l)-1:], "0123456789.") && next != "" && strings.ContainsAny(next[:1], "0123456789.") {
				t.Errorf("at %g a line ends in %q before %q", w, l, next)
			}
		}
	}
	if lines < 50 {
		t.Errorf("%d lines, want at least 50", lines)
	}
}

// The last line of a text without spaces is more than the end of a word, and a space that
// was there stays.
func TestLastLineIsNotAlone(t *testing.T) {
	for _, text := range []string{"水槽の水で、傷口が感染することがあります。皮膚の炎症が何週間も続くことがあります。", "飲み込んだら、すぐに医師か中毒情報センター 999 に電話してください。"} {
		for w := 24.0; w < 120; w += 1.5 {
			got := bodyFont.wrap(text, w)
			if last := len([]rune(got[len(got)-1])); len(got) > 1 && last < 3 {
				t.Errorf("at %g the last line of %q has %d characters", w, got, last)
			}
			if bare(strings.Join(got, "")) != bare(text) {
				t.Errorf("at %g the text reads %q", w, got)
			}
		}
	}
	if got := following("あります。", "手を"); got != "あります。手を" {
		t.Error(got)
	}
	if got := following("It can.", "Do not."); got != "It can. Do not." {
		t.Error(got)
	}
}

// No line of Chinese or Japanese begins with a mark that closes, and nothing is lost.
func TestNoLineBeginsWithAClosingMark(t *testing.T) {
	const text = "这是按你给的数据作的估算，不是批准。以当地规范、房主和注册结构工程师的意见为准。"
	lines := 0
	for w := 12.0; w < 60; w += 1.5 {
		got := bodyFont.wrap(text, w)
		if strings.Join(got, "") != text {
			t.Fatalf("at %g the text reads %q", w, got)
		}
		for _, l := range got {
			lines++
			if strings.ContainsAny(l[:len("，")], "，。、") {
				t.Errorf("at %g a line begins with a mark: %q", w, l)
			}
		}
	}
	if lines < 50 {
		t.Errorf("%d lines, want at least 50", lines)
	}
}
