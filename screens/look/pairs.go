package look

// Use says what a colour pair is for, which decides the contrast it must have.
type Use uint8

const (
	// Text of any size: at least 4.5:1.
	Text Use = iota
	// LargeText, at least 18.66 points bold or 24 points: at least 3:1.
	LargeText
	// Graphic: lines, markers, outlines of controls: at least 3:1.
	Graphic
)

// Least gives the least contrast that the use demands.
// Source: WCAG 2.2, success criteria 1.4.3 (text, large text) and 1.4.11
// (non-text contrast).
func (u Use) Least() float64 {
	if u == Text {
		return 4.5
	}
	return 3
}

// Pair is a permitted combination: Fore drawn on Back.
type Pair struct {
	Fore, Back Name
	Use        Use
}

// BandAlpha is the opacity of the band about a chart series, drawn in the
// series' own colour.
const BandAlpha = 0.22

// Pairs lists every combination that is used. What is permitted for Text is
// permitted for LargeText and Graphic too.
var Pairs = func() []Pair {
	var ps []Pair
	add := func(u Use, back Name, fores ...Name) {
		for _, f := range fores {
			ps = append(ps, Pair{f, back, u})
		}
	}
	for _, ground := range []Name{Paper, Sheet, Tint} {
		add(Text, ground, Ink, SoftInk, Teal, Rust, Limit, Leaf, Violet, Ochre, Steady, Wait, Act)
	}
	for _, ground := range []Name{Paper, Sheet} {
		add(Graphic, ground, Edge, Glass)
	}
	add(Text, Teal, OnTeal)
	add(Text, Rust, OnRust)
	for _, ground := range []Name{Track, Water, Wood, Case} {
		add(Text, ground, Ink)
	}
	add(Graphic, Track, Teal, Rust, SoftInk)
	add(LargeText, Water, Rust, Teal)
	add(Graphic, Water, Leaf, Glass, SoftInk)
	add(Text, Gravel, Ink)
	add(Graphic, Gravel, Rust, Leaf)
	add(Graphic, Wood, Rust)
	add(Graphic, Case, Teal, Rust)
	add(Text, SignDanger, SignDangerText)
	add(Text, SignWarning, SignWarningText)
	add(Text, SignCaution, SignCautionText)
	add(Text, SignNotice, SignNoticeText)
	return ps
}()

// Permits tells whether fore may be drawn on back for the use, in both variants.
func Permits(fore, back Name, u Use) bool {
	for _, p := range Pairs {
		if p.Fore == fore && p.Back == back && (p.Use == u || p.Use == Text || p.Use == LargeText && u == Graphic) {
			return true
		}
	}
	return false
}
