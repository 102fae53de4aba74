package paper

import (
	"strconv"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/screens/look"
)

// mainWorkings is how many workings of a step are printed: those of its main
// figure, and on the stand of what governs it too. All others are in the program.
var mainWorkings = map[care.Step]int{
	care.TankPlace: 1, care.KitList: 1, care.StandFloor: 2, care.Rinse: 1, care.PlaceDry: 1,
	care.FillTreat: 1, care.PowerOn: 1, care.Settle: 1, care.FirstFish: 1, care.HomeComing: 1,
}

// workings sets the working behind the main figures.
func (f *flow) workings(in *Input) {
	first := true
	for _, s := range care.Steps() {
		all := in.page(s).Workings
		for _, t := range all[:min(mainWorkings[s], len(all))] {
			if t.Question == "" {
				continue
			}
			if first {
				f.add(f.heading(in.t("paper.workings")))
				first = false
			}
			f.working(t)
		}
	}
}

// wholeWorking is the height in millimetres up to which a working is not parted
// by the end of a page. judgement: more would leave half pages empty.
const wholeWorking = 100.0

func (f *flow) working(t i18n.TrailText) {
	head := &stack{x: f.left(), w: f.width()}
	head.put(0, func(p *page, y float64) { p.rule(f.left(), y, f.width(), 0.8, look.Rule) })
	head.gap(2)
	head.text(t.Question, strongFont)
	head.text(t.Strength, noteFont)
	all := []block{head.block(4)}
	all[0].with = true
	tall := head.height
	for _, part := range t.Parts {
		for i, l := range part.Lines {
			name := ""
			if i == 0 {
				name = part.Heading
			}
			b := f.worked(name, l, i == 0)
			b.with = i < len(part.Lines)-1 // a part stays together
			tall += b.before + b.height
			all = append(all, b)
		}
	}
	if n := len(t.Parts); n > 1 { // the last part does not stand alone on a page
		all[len(all)-1-len(t.Parts[n-1].Lines)].with = true
	}
	if tall <= wholeWorking {
		for i := range all[:len(all)-1] {
			all[i].with = true
		}
	}
	f.add(all...)
}

// worked is a line of the working: the part's heading at its first line, the
// name, and at the right the equation with the values put in.
func (f *flow) worked(heading string, l i18n.TrailLine, first bool) block {
	const names, gap = 26.0, 3.0
	left := &stack{x: f.left(), w: names}
	left.text(heading, noteStrong.in(look.SoftInk))
	x := f.left() + names + gap
	if l.Equation == "" && l.Symbol == "" && l.Value == "" { // a sentence or a source
		s := &stack{x: x, w: f.right() - x}
		s.text(l.PlainText(), noteInk)
		return beside(gapOf(first), left, s)
	}
	nameWidth := (f.right() - x) * 0.38
	name := &stack{x: x, w: nameWidth - gap}
	name.text(l.Text, noteInk)
	s := &stack{x: x + nameWidth, w: f.right() - x - nameWidth}
	for _, line := range equation(l, s.w) {
		s.text(line.text, line.font)
	}
	return beside(gapOf(first), left, name, s)
}

func gapOf(first bool) float64 {
	if first {
		return 1.6
	}
	return 0.5
}

type formula struct {
	text string
	font font
}

// equation writes a line's symbol, equation, values and result: in one line of
// at most w where they have room, else one below the other.
func equation(l i18n.TrailLine, w float64) []formula {
	var out []formula
	value := l.Value
	if l.Cite > 0 {
		value += " [" + strconv.Itoa(l.Cite) + "]"
	}
	switch {
	case l.Equation != "":
		text := l.Equation
		if _, right, ok := strings.Cut(l.Filled, "="); ok {
			filled := "= " + strings.TrimSpace(right)
			if noteInk.width(text+" "+filled) <= w {
				text += " " + filled
			} else {
				out = append(out, formula{text, noteInk})
				text = filled
			}
		}
		out = append(out, formula{text, noteInk}, formula{"= " + value, noteStrong})
	case l.Symbol != "":
		out = append(out, formula{l.Symbol + " = " + value, noteStrong})
	default:
		out = append(out, formula{value, noteStrong})
	}
	if l.Note != "" {
		out = append(out, formula{l.Note, noteFont})
	}
	return out
}
