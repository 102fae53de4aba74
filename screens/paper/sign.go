package paper

import (
	"slices"

	"golang.org/x/text/cases"
	"golang.org/x/text/language"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// signColours are the ground and the words of a sign. They differ in lightness
// as much as in hue, so a black and white print can be read.
type signColours struct{ ground, text look.Name }

var signs = map[care.Severity]signColours{
	care.Danger:  {look.SignDanger, look.SignDangerText},
	care.Warning: {look.SignWarning, look.SignWarningText},
	care.Caution: {look.SignCaution, look.SignCautionText},
	care.Notice:  {look.SignNotice, look.SignNoticeText},
}

// onFront is the note that stands on the first page: it holds every day that
// there is a tank.
const onFront = care.NoteID("unplug_first")

// always is the note of the first page, over the whole width.
func (f *flow) always(in *Input) block {
	const usual, pad = 40.0, 2.6
	for _, n := range care.Notes() {
		if n.ID != onFront {
			continue
		}
		note := in.Presenter.Note(n)
		_, wide := in.signalWord(note)
		sign := max(usual, wide+2*pad)
		s := &stack{x: f.left() + sign + 4, w: f.width() - sign - 8}
		s.gap(pad)
		s.text(note.Hazard, strongFont)
		s.text(following(note.Consequence, note.Avoid), bodyFont)
		in.unreviewed(s, note)
		s.gap(pad)
		return block{height: s.height, before: 3, draw: func(p *page, y float64) {
			p.rect(f.left(), y, sign, s.height, 0, scene.Style{Fill: signs[note.Severity].ground})
			in.signal(p, f.left(), y, sign, s.height, note)
			s.draw(p, y)
			p.rect(f.left(), y, f.width(), s.height, 0, scene.Style{Stroke: look.Ink, Width: 1.1})
		}}
	}
	return block{draw: func(*page, float64) {}}
}

// signal writes the signal word with its triangle in the middle of a ground that
// is painted already. A notice is about animals and property and has no triangle.
// Source: ANSI Z535.4 and ISO 3864-2, as public summaries give them.
func (in *Input) signal(p *page, x, y, w, h float64, n present.Note) {
	c := signs[n.Severity]
	word, wide := in.signalWord(n)
	ft := signFont.in(c.text)
	left := x + (w-wide)/2
	if n.Severity != care.Notice {
		p.alert(left, y+h/2, alertSide, c)
	}
	p.right(left+wide, y+(h-ft.lead())/2, word, ft)
}

// alertSide is how wide the triangle is, alertGap how far the word stands from it.
const alertSide, alertGap = 6.2, 1.8

// signalWord is the signal word in capitals, and how wide it is with its triangle.
func (in *Input) signalWord(n present.Note) (string, float64) {
	word := cases.Upper(language.Make(in.Presenter.W.Language())).String(n.Signal)
	wide := signFont.width(word)
	if n.Severity != care.Notice {
		wide += alertSide + alertGap
	}
	return word, wide
}

// alert is the safety alert symbol: a triangle of the words' colour with an
// exclamation mark of the ground's.
func (p *page) alert(x, middle, side float64, c signColours) {
	tall := side * 0.88
	top, foot := middle-tall/2, middle+tall/2
	cx := x + side/2
	p.scene.Add(scene.Polyline{Points: []scene.Point{at(cx, top), at(x+side, foot), at(x, foot)}, Closed: true,
		Style: scene.Style{Fill: c.text, Stroke: c.text, Width: 0.8}},
		scene.Polyline{Points: []scene.Point{at(cx-side*0.075, top+tall*0.3), at(cx+side*0.075, top+tall*0.3), at(cx+side*0.04, top+tall*0.7), at(cx-side*0.04, top+tall*0.7)},
			Closed: true, Style: scene.Style{Fill: c.ground}},
		scene.Circle(at(cx, top+tall*0.83), side*0.06, scene.Style{Fill: c.ground}))
}

// signs sets all safety notes two and two, the gravest first.
func (f *flow) signs(in *Input) {
	f.add(f.heading(in.t("paper.safety")))
	f.panels(in, slices.DeleteFunc(care.Notes(), func(n care.Note) bool { return n.ID == onFront }), 0)
}

// panelLeast is how wide a panel is at least, mm. Judgement: a line of some 45
// letters.
const panelLeast = 80.0

// abreast is how many panels are beside each other.
func (f *flow) abreast() int { return int((f.width() + panelGap) / (panelLeast + panelGap)) }

// graveness lists the severities, the gravest first.
var graveness = []care.Severity{care.Danger, care.Warning, care.Caution, care.Notice}

// panels sets notes beside each other, the gravest first, as many as the page is wide,
// those of a row of one height.
func (f *flow) panels(in *Input, notes []care.Note, before float64) {
	slices.SortStableFunc(notes, func(a, b care.Note) int {
		return slices.Index(graveness, a.Severity) - slices.Index(graveness, b.Severity)
	})
	for row := range slices.Chunk(notes, f.abreast()) {
		f.add(f.panelRow(in, row, before))
		before = 3
	}
}

const panelGap = 4.0

func (f *flow) panelRow(in *Input, notes []care.Note, before float64) block {
	const between, head, pad = panelGap, 7.6, 2.6
	strong, body := f.fonts()
	columns := float64(f.abreast())
	w := (f.width() - between*(columns-1)) / columns
	var stacks []*stack
	var shown []present.Note
	height := 0.0
	for i, n := range notes {
		note := in.Presenter.Note(n)
		s := &stack{x: f.left() + float64(i)*(w+between) + pad, w: w - 2*pad}
		s.gap(head + 1.6)
		s.text(note.Hazard, strong)
		if f.setting == usual {
			s.text(note.Consequence, body)
			s.text(note.Avoid, body)
		} else {
			s.text(following(note.Consequence, note.Avoid), body)
		}
		in.unreviewed(s, note)
		s.gap(0.6)
		if where := in.stepsOf(n); where != "" && f.setting < closest {
			s.text(where, noteFont)
		}
		s.gap(1.8)
		stacks, shown = append(stacks, s), append(shown, note)
		height = max(height, s.height)
	}
	return block{height: height, before: before, draw: func(p *page, y float64) {
		for i, s := range stacks {
			x := s.x - pad
			p.rect(x, y, w, head, 0, scene.Style{Fill: signs[shown[i].Severity].ground})
			in.signal(p, x, y, w, head, shown[i])
			p.rule(x, y+head, w, 1.1, look.Ink)
			s.draw(p, y)
			p.rect(x, y, w, height, 0, scene.Style{Stroke: look.Ink, Width: 1.1})
		}
	}}
}

// unreviewed says below a note that it is in English, and why.
func (in *Input) unreviewed(s *stack, n present.Note) {
	if n.Unreviewed != "" {
		s.text(n.Unreviewed, noteFont)
	}
}

// placeNames are what is done where a note stands besides the steps.
var placeNames = map[care.Place]working.Key{care.AtChange: "round.change", care.AtClean: "round.filter", care.AtSwitch: "round.protection", care.AtTest: "round.test", care.AtFeeding: "round.feed"}

// stepsOf names the steps and the work that a note belongs to; "" for none.
func (in *Input) stepsOf(n care.Note) string {
	var names []string
	for _, s := range n.Steps {
		names = append(names, in.t(working.Key("step."+string(s))))
	}
	for _, p := range n.Places {
		if k, ok := placeNames[p]; ok {
			names = append(names, in.t(k))
		}
	}
	if len(names) == 0 {
		return ""
	}
	w := in.Presenter.W
	return w.T("paper.note_steps", i18n.Args{"Steps": w.List(names)})
}
