package paper

import (
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
	const sign, pad = 40.0, 2.6
	for _, n := range care.Notes() {
		if n.ID != onFront {
			continue
		}
		note := in.Presenter.Note(n)
		s := &stack{x: f.left() + sign + 4, w: f.width() - sign - 8}
		s.gap(pad)
		s.text(note.Hazard, strongFont)
		s.text(note.Consequence+" "+note.Avoid, bodyFont)
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
	word := cases.Upper(language.Make(in.Presenter.W.Language())).String(n.Signal)
	ft := signFont.in(c.text)
	side := 0.0
	if n.Severity != care.Notice {
		side = 6.2
	}
	wide := ft.width(word) + side
	if side > 0 {
		wide += 1.8
	}
	left := x + (w-wide)/2
	if side > 0 {
		p.alert(left, y+h/2, side, c)
	}
	p.right(left+wide, y+(h-ft.lead())/2, word, ft)
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
	var notes []care.Note
	for _, sev := range []care.Severity{care.Danger, care.Warning, care.Caution, care.Notice} {
		for _, n := range care.Notes() {
			if n.Severity == sev && n.ID != onFront {
				notes = append(notes, n)
			}
		}
	}
	for i := 0; i < len(notes); i += 2 {
		before := 3.0
		if i == 0 {
			before = 0
		}
		f.add(f.pair(in, notes[i:min(i+2, len(notes))], before))
	}
}

// pair sets one or two panels of one height side by side.
func (f *flow) pair(in *Input, notes []care.Note, before float64) block {
	const between, head, pad = 4.0, 7.6, 2.6
	w := (f.width() - between) / 2
	var stacks []*stack
	var shown []present.Note
	height := 0.0
	for i, n := range notes {
		note := in.Presenter.Note(n)
		s := &stack{x: f.left() + float64(i)*(w+between) + pad, w: w - 2*pad}
		s.gap(head + 1.6)
		s.text(note.Hazard, strongFont)
		s.text(note.Consequence, bodyFont)
		s.text(note.Avoid, bodyFont)
		in.unreviewed(s, note)
		s.gap(0.6)
		if where := in.stepsOf(n); where != "" {
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
