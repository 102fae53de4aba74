package firstfill

import (
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// show puts the presented page on the screen: the drawing, the dipstick, the
// column of the page and the foot with its leading safety note.
func (p *Page) show() {
	p.drawing.Show(p.view.Picture, false)
	p.showStick()
	p.scroll.Column().Set(p.content()...)
	p.showFoot()
	p.root.Refresh()
}

var stepStates = map[care.StepState]parts.StepState{care.Shut: parts.StepShut, care.Open: parts.StepOpen, care.Finished: parts.StepDone, care.Reopened: parts.StepReopened}

func (p *Page) showStick() {
	w := p.deps.Present
	spec := parts.DipstickSpec{Still: p.deps.Still(), Current: p.step.Index()}
	for _, s := range p.view.Steps {
		st := parts.DipStep{Label: w.StepName(s.Step), State: stepStates[s.State]}
		st.Waits = p.waits(s.Waits)
		if s.State == care.Reopened {
			st.Word = w.W.T("page.fill.again", nil)
		}
		spec.Steps = append(spec.Steps, st)
	}
	p.stick.Set(spec)
}

// waits names what a step waits for: once the lead, then each thing on a line of its own.
func (p *Page) waits(findings []working.Finding) string {
	w := p.deps.Present
	if len(findings) == 1 {
		return w.Say(findings[0])
	}
	var lines []string
	for _, f := range findings {
		lines = append(lines, w.Say(f))
	}
	return strings.Join(shared(w.W, lines), "\n")
}

// shared takes the words up to the colon, where all sentences begin with the
// same, out of all but the first.
func shared(w *i18n.Words, lines []string) []string {
	var out []string
	lead := ""
	for i, l := range lines {
		name, said, ok := w.AtColon(l)
		switch {
		case i == 0 && ok:
			lead = name
		case ok && name == lead:
			l = said
		}
		out = append(out, l)
	}
	return out
}

// content is the page from top to bottom.
func (p *Page) content() []fyne.CanvasObject {
	s, w := p.shown, p.deps.Present.W
	out := []fyne.CanvasObject{p.head()}
	if p.step == care.TankPlace {
		if p.made.shop == nil {
			p.made.shop = nav.HandedBy(p.deps, p.tank, false)
		}
		if p.made.shop != nil {
			out = append(out, p.made.shop)
		}
	}
	if len(s.Notices) > 0 {
		out = append(out, p.verdict("notice", present.Verdict{State: working.Wait, Word: w.State(working.Wait), Title: s.Notices[0], Lines: s.Notices[1:]}))
	}
	if p.told && len(s.Blocked)+len(p.wrong) > 0 {
		out = append(out, p.verdict("missing", present.Verdict{State: working.Wait, Word: w.State(working.Wait), Title: w.T("page.fill.waiting", nil), Lines: s.Blocked}))
	}
	if p.leads() && p.low { // met before all that is asked, and before the button
		out = append(out, p.note(s.Notes[0]))
	}
	out = append(out, p.number()...)
	for i, g := range s.Groups {
		out = append(out, p.group(g)...)
		if i == 0 { // what waits stands with what decides how long
			out = append(out, p.curve()...)
			out = append(out, p.severalBags()...)
		}
	}
	out = append(out, p.ways()...)
	out = append(out, p.inputs()...)
	out = append(out, p.limits()...)
	if len(s.Ticks) > 0 {
		out = append(out, p.text("ticks", w.T("page.fill.to_do", nil), parts.Section))
		for _, t := range s.Ticks {
			out = append(out, p.tick(t))
		}
	}
	out = append(out, p.kit()...)
	if len(s.Lines) > 0 {
		out = append(out, p.text("figures", w.T("page.fill.figures", nil), parts.Section))
		for _, l := range s.Lines {
			out = append(out, p.line(l))
		}
	}
	out = append(out, p.readings()...)
	if rest := p.standing(); len(rest) > 0 {
		out = append(out, p.text("safety", w.T("page.fill.safety", nil), parts.Section))
		for _, n := range rest {
			out = append(out, p.note(n))
		}
	}
	if len(s.Cautions) > 0 {
		out = append(out, p.text("cautions", w.T("page.fill.cautions", nil), parts.Section))
		for i, c := range s.Cautions {
			out = append(out, p.text("caution "+string(rune('a'+i)), c, parts.SoftBody))
		}
	}
	return append(out, p.workings()...)
}

func (p *Page) head() fyne.CanvasObject {
	c, ok := p.made.rest["head"].(*parts.Column)
	if !ok {
		c = parts.NewColumn(2)
		p.made.rest["head"] = c
	}
	about := []fyne.CanvasObject{p.text("heading", p.shown.Heading, parts.Heading), p.text("purpose", p.shown.Purpose, parts.SoftBody)}
	if p.is {
		about = append(about, p.text("profile", p.deps.Present.W.T("page.counter.editing", i18n.Args{"Name": p.view.Tank.Name}), parts.Note))
	}
	if p.view.Tank.Origin == keeper.Example {
		about = append(about, p.text("example", p.deps.Present.W.T("page.example", nil), parts.Note))
	}
	c.Set(about...)
	return c
}

// group is fields by three in a row under their heading.
func (p *Page) group(g present.Group) []fyne.CanvasObject {
	out := []fyne.CanvasObject{p.text("group "+g.Title, g.Title, parts.Section)}
	if len(p.shown.Groups) == 1 {
		out = nil
	}
	for i := 0; i < len(g.Fields); i += 3 {
		var row []fyne.CanvasObject
		for _, f := range g.Fields[i:min(i+3, len(g.Fields))] {
			row = append(row, p.field(f))
		}
		for len(row) < 3 { // keeps all boxes of a page on one grid
			row = append(row, p.blank(g.Title, i, len(row)))
		}
		out = append(out, p.row(g.Title+string(rune('a'+i)), row...))
	}
	return out
}

func (p *Page) blank(title string, i, j int) fyne.CanvasObject {
	return p.text("blank "+title+string(rune('a'+i))+string(rune('a'+j)), "", parts.Body)
}

// number is the one number that matters, which stays in view above what is asked.
func (p *Page) number() []fyne.CanvasObject {
	n := p.shown.Number
	if n == nil {
		return nil
	}
	spec := parts.NumberSpec{Name: n.Name, Number: n.Value, Beside: n.Beside}
	if n.Word != "" {
		spec.State, spec.Word = nav.State(n.State), n.Word
	}
	if p.made.number == nil {
		p.made.number = parts.NewNumber(spec)
	}
	p.made.number.Set(spec)
	return []fyne.CanvasObject{p.made.number}
}

// leads reports whether the first note is to be confirmed: then it stands in the
// foot, in full view.
func (p *Page) leads() bool { return len(p.shown.Notes) > 0 && p.shown.Notes[0].Confirm }

// standing are the notes that stand on the page itself.
func (p *Page) standing() []present.Note {
	if p.leads() {
		return p.shown.Notes[1:]
	}
	return p.shown.Notes
}

// limits is what was checked, the governing limit first, and the verdict.
func (p *Page) limits() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	s := p.shown
	for i, b := range s.Bars {
		spec := parts.BarSpec{Name: b.Name, Text: b.Percent, Share: b.Use, State: nav.State(b.State), Word: b.Word}
		if i == len(p.made.bars) {
			p.made.bars = append(p.made.bars, parts.NewBar(spec))
		}
		p.made.bars[i].Set(spec)
		out = append(out, p.made.bars[i])
	}
	if s.Verdict != nil {
		out = append(out, p.verdict("verdict", *s.Verdict))
	}
	return out
}

func (p *Page) verdict(name string, v present.Verdict) fyne.CanvasObject {
	spec := parts.VerdictSpec{State: nav.State(v.State), Title: v.Title, Lines: v.Lines}
	w, ok := p.made.rest[name].(*parts.Verdict)
	if !ok {
		w = parts.NewVerdict(spec)
		p.made.rest[name] = w
	}
	w.Set(spec)
	return w
}

// note is a safety panel.
func (p *Page) note(n present.Note) *parts.Safety {
	spec := nav.Panel(n)
	if n.Confirm {
		spec.Confirm, spec.Confirmed = n.ConfirmText, n.Confirmed
	}
	w, ok := p.made.notes[n.ID]
	if !ok {
		w = parts.NewSafety(spec, nil)
		p.made.notes[n.ID] = w
	}
	w.OnConfirm = func(read bool) { p.confirm(n.ID, n.Shown(), read) }
	w.Set(spec)
	return w
}

// footMost is the share of the page's height that the foot may take; beyond it
// the leading safety note stands at the head of the page and scrolls with it.
const footMost = 0.4 // judgement: the page proper keeps the larger part

// fit decides where the leading safety note stands in a column of a size.
func (p *Page) fit(width, height float32) {
	ends, ok := p.made.rest["ends"].(*parts.Ends)
	if !ok {
		return
	}
	low := p.leads() && p.note(p.shown.Notes[0]).HeightAt(width)+footBetween+ends.HeightAt(width) > footMost*height
	if low == p.low {
		return
	}
	p.low = low
	if low { // a part stands in one column at a time
		p.showFoot()
		p.scroll.Column().Set(p.content()...)
		return
	}
	p.scroll.Column().Set(p.content()...)
	p.showFoot()
}

// showFoot sets what never scrolls: the leading safety note, where it can be
// confirmed in full view unless it would fill the page, and the way back and on.
func (p *Page) showFoot() {
	w := p.deps.Present.W
	p.back.Set(parts.ButtonSpec{ID: "back", Label: w.T("label.back", nil)})
	p.on.Set(parts.ButtonSpec{ID: "carry-on", Label: p.shown.Carry, Kind: parts.Primary})
	ends, ok := p.made.rest["ends"].(*parts.Ends)
	if !ok {
		ends = parts.NewEnds(p.back, p.on)
		p.made.rest["ends"] = ends
	}
	if p.leads() && !p.low {
		p.foot.Set(p.note(p.shown.Notes[0]), ends)
		return
	}
	p.foot.Set(ends)
}

// workings is 'Show the working' for every figure of the page.
func (p *Page) workings() []fyne.CanvasObject {
	if len(p.shown.Workings) == 0 {
		return nil
	}
	w := p.deps.Present.W
	spec := parts.WorkingSpec{Show: w.T("working.heading", nil), Hide: w.T("working.hide", nil), Copy: w.T("page.fill.copy", nil), Open: p.open}
	for _, t := range p.shown.Workings {
		spec.Parts = append(spec.Parts, nav.WorkingParts(t)...)
	}
	if p.made.working == nil {
		p.made.working = parts.NewWorking(spec)
		p.made.working.OnOpened = func(open bool) { p.open = open }
		p.made.working.OnCopy = func(text string) {
			fyne.CurrentApp().Clipboard().SetContent(text)
			p.deps.Say(w.T("page.fill.copied", nil), "", nil)
		}
	}
	p.made.working.Set(spec)
	return []fyne.CanvasObject{p.made.working}
}
