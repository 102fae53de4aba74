package paper

import (
	"bytes"
	"context"
	"image/jpeg"
	"io"
	"slices"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/code"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
	"example.org/driploop/screens/trace"
)

// VisitSlip is what a keeper takes along to a shop or a veterinarian: one page with the
// tank, its stock, tests, feeding and changes, a case and questions; the pictures behind
// it, and last a page of codes that carry the slip without them.
const VisitSlip Kind = "visit-slip"

// Call is what the paper of a visit shows.
type Call struct {
	Slip  slip.Visit
	Water keeper.VisitWater
	Shown present.Visit
	Plan  present.VisitPlan // what is too much for it
	shots []Shot
	codes []code.Matrix // of the slip without its pictures; none where they were too many
}

// WriteVisit makes the paper of a visit slip as it is asked for, writes it to out and
// keeps which tank it is of, as keeper.NoteVisit does. Nothing is written before it is
// complete; pictures take up to seconds each, of which progress, which may be nil, is
// told. Errors: those of keeper.Visit, ctx's own, those of out.
func WriteVisit(ctx context.Context, k *keeper.Keeper, tank string, a keeper.VisitAsk, p present.Presenter, size Size, out io.Writer, progress func(done, total int)) error {
	v, err := k.PrepareVisit(ctx, tank, a, progress)
	if err != nil {
		return err
	}
	in, err := GatherVisit(ctx, k, tank, v, p, size)
	if err != nil {
		return err
	}
	if err := write(out, VisitSlip, in, true); err != nil {
		return err
	}
	return k.NoteVisit(ctx, v)
}

// GatherVisit asks the keeper for all that the paper of a visit shows beside the slip.
func GatherVisit(ctx context.Context, k *keeper.Keeper, tank string, v keeper.VisitReady, p present.Presenter, size Size) (Input, error) {
	in, err := Gather(ctx, k, tank, p, size)
	if err != nil {
		return Input{}, err
	}
	c := &Call{Slip: v.Visit, Shown: in.Presenter.Visit(v.Visit), Plan: in.Presenter.VisitPlan(v.VisitPreview)}
	if c.codes, err = codesOrNone(v.File); err != nil {
		return Input{}, err
	}
	if c.Water, err = k.VisitWater(ctx, v.Visit); err != nil {
		return Input{}, err
	}
	for _, x := range v.Visit.Pictures {
		s := Shot{Photo: keeper.Photo{Taken: x.Taken, Caption: x.Caption, Marks: x.Marks, Orientation: 1}}
		if head, err := jpeg.DecodeConfig(bytes.NewReader(x.JPEG)); err == nil {
			s.JPEG, s.Width, s.Height = x.JPEG, head.Width, head.Height
		}
		c.shots = append(c.shots, s)
	}
	in.Visit = c
	return in, nil
}

// A fill is how much of everything stands on the page.
type fill struct{ tests, charts, rows, facts, questions int }

// fills are tried, from full to spare, until all of it is one page. Judgement.
var fills = []fill{
	{12, 4, 10, 20, 20}, {10, 4, 7, 16, 20}, {8, 4, 5, 12, 12}, {6, 4, 4, 10, 8}, {5, 2, 3, 8, 6}, {4, 2, 2, 6, 4}, {3, 0, 2, 4, 3}, {2, 0, 1, 2, 2},
}

// visitPages lays the one page out, and the pictures behind it.
func visitPages(in *Input) []*page {
	var ps []*page
	for _, n := range fills {
		if ps = visitFront(in, n); len(ps) > 1 {
			continue
		}
		for n.facts < fills[0].facts { // what room is left is that of the facts
			n.facts += 2
			more := visitFront(in, n)
			if len(more) > 1 {
				break
			}
			ps = more
		}
		break
	}
	if len(in.Visit.shots) > 0 {
		g := newFlow(in.Size)
		was := in.Case
		in.Case = &Matter{Pictures: in.Visit.shots}
		g.shots(in)
		in.Case = was
		ps = append(ps, g.lay()...)
	}
	return append(ps, visitCodes(in)...)
}

// visitCodes is the last page: the slip for the shop's program, and what it does not
// carry.
func visitCodes(in *Input) []*page {
	c := newFlow(in.Size)
	var apart []string
	if a := in.Presenter.Visit(in.Visit.Slip.WithoutPictures()).Apart; a != "" {
		apart = []string{a}
	}
	c.codes(in, in.Visit.codes, "paper.visit.read", apart...)
	return c.lay()
}

// visitFront lays out what stands before the pictures.
func visitFront(in *Input, n fill) []*page {
	f := newFlow(in.Size)
	f.title(in, VisitSlip)
	f.visitHead(in, n.questions)
	f.visitCase(in, n.rows)
	f.visitTests(in, n.tests, n.charts)
	f.visitLists(in, n.rows)
	f.visitFacts(in, n.facts)
	return f.lay()
}

// visitHead says whose it is and which days it tells of, and asks the questions.
func (f *flow) visitHead(in *Input, most int) {
	c := in.Visit
	s := &stack{x: f.left(), w: f.width()}
	if c.Slip.Label != "" {
		s.text(c.Shown.Title, sectionFont)
	}
	s.text(c.Shown.Beside, noteInk)
	s.text(in.Presenter.W.T("paper.visit.number", i18n.Args{"Number": c.Slip.ID}), noteFont)
	f.add(s.block(2.5))
	if len(c.Shown.Questions) == 0 {
		return
	}
	const pad = 2.4
	q := &stack{x: f.left() + pad, w: f.width() - 2*pad}
	q.gap(pad)
	q.text(in.t("word.visit.part.questions"), strongFont)
	for i, x := range c.Shown.Questions {
		if i == most {
			q.text(in.more(len(c.Shown.Questions)-most), noteFont)
			break
		}
		q.text(x, bodyFont)
		q.gap(0.6)
	}
	q.gap(pad - 0.6)
	f.add(f.framed(q, 3))
}

// more says how many lines are in the file and not on the page.
func (in *Input) more(n int) string { return in.Presenter.W.N("paper.visit.more", float64(n), nil) }

// small is the heading of a part of the page; it stays with what follows.
func (f *flow) small(t string) block {
	s := &stack{x: f.left(), w: f.width()}
	s.text(t, strongFont)
	s.put(0.9, func(p *page, y float64) { p.rule(f.left(), y+0.4, f.width(), 1.1, look.SoftInk) })
	b := s.block(3.6)
	b.with = true
	return b
}

func (f *flow) visitCase(in *Input, most int) {
	c := in.Visit.Shown.Case
	if c == nil {
		return
	}
	f.add(f.small(in.t("word.visit.part.case")))
	s := &stack{x: f.left(), w: f.width()}
	s.text(in.Presenter.W.T("paper.visit.case", i18n.Args{"About": c.Heading, "Beside": c.Beside}), noteStrong)
	if c.Note != "" {
		s.text(c.Note, noteInk)
	}
	for i, x := range c.Signs {
		if i == 2*most {
			s.text(in.more(len(c.Signs)-i), noteFont)
			break
		}
		s.text(in.Presenter.W.T("paper.visit.sign", i18n.Args{"Sign": x.Text, "Since": x.When, "Until": x.Kind}), noteInk)
	}
	f.add(s.block(0.6))
}

// visitTests is the water as a table of the latest tests, with the courses above it.
func (f *flow) visitTests(in *Input, most, charts int) {
	c := in.Visit
	t := c.Shown.Tests
	f.add(f.small(in.t("word.visit.part.tests")))
	if len(t.Rows) == 0 {
		f.add(f.text(in.t("paper.case.no_tests"), noteInk, 0)...)
		return
	}
	drawn := trace.Drawn(c.Water.Traces, charts)
	const gap, tall = 6.0, 31.0
	w := (f.width() - gap) / 2
	for i := 0; i < len(drawn); i += 2 {
		var row []*stack
		for j, x := range drawn[i:min(i+2, len(drawn))] {
			row = append(row, in.course(f.left()+float64(j)*(w+gap), w, tall, x))
		}
		f.add(beside(1.2, row...))
	}
	const state = 19.0
	col := (f.width() - whenWide - state) / float64(max(1, len(t.Columns)-1))
	f.add(f.visitTestHead(t, col))
	n := min(most, len(t.Rows))
	for i, row := range t.Rows[:n] {
		b := f.visitTestRow(row, col)
		if j, ok := c.Water.Judged[t.Entries[i]]; ok {
			inner, word := b.draw, in.Presenter.W.State(j.State)
			b.draw = func(p *page, y float64) {
				inner(p, y)
				p.stated(f.right(), y+0.4, j.State, word, noteInk)
			}
		}
		f.add(b)
	}
	if left := len(t.Rows) - n; left > 0 {
		f.add(f.text(in.more(left), noteFont, 0.4)...)
	}
}

func (f *flow) visitTestHead(t present.VisitTable, col float64) block {
	var stacks []*stack
	for i, name := range t.Columns {
		s := &stack{x: f.left() + whenWide + float64(i-1)*col, w: col - 1.2}
		if i == 0 {
			s.x, s.w = f.left(), whenWide-2
		}
		s.text(name, noteStrong.in(look.SoftInk))
		stacks = append(stacks, s)
	}
	b := beside(1.6, stacks...)
	inner, h := b.draw, b.height
	b.height, b.with = h+0.8, true
	b.draw = func(p *page, y float64) {
		inner(p, y)
		p.rule(f.left(), y+h+0.4, f.width(), 0.8, look.Rule)
	}
	return b
}

func (f *flow) visitTestRow(row []string, col float64) block {
	var stacks []*stack
	for i, s := range row {
		st := &stack{x: f.left() + whenWide + float64(i-1)*col, w: col - 1.2}
		if i == 0 {
			st.x, st.w = f.left(), whenWide-2
		}
		if s == "" {
			s = "–"
		}
		st.gap(0.4)
		st.text(s, noteInk)
		st.gap(0.4)
		stacks = append(stacks, st)
	}
	b := beside(0, stacks...)
	inner, h := b.draw, b.height
	b.draw = func(p *page, y float64) {
		inner(p, y)
		p.rule(f.left(), y+h, f.width(), 0.5, look.Rule)
	}
	return b
}

// course is the course of one thing as a drawing.
func (in *Input) course(x, w, h float64, t keeper.Trace) *stack {
	s := &stack{x: x, w: w}
	spec := trace.One(in.Presenter, t, in.Visit.Slip.From, in.Visit.Slip.To, look.Sheet)
	spec.Series[0].Colour = look.Ink // as black on a black and white print
	s.put(h, func(p *page, y float64) {
		d := chart.Build(spec, w/scene.PointMM, h/scene.PointMM)
		p.figures = append(p.figures, figure{d, scene.Transform{Scale: scene.PointMM, Point: scene.PointMM, X: x, Y: y + h}})
	})
	return s
}

// visitLists are stock, feeding, changes and other entries in two columns.
func (f *flow) visitLists(in *Input, most int) {
	c := in.Visit.Shown
	const gap = 6.0
	w := (f.width() - gap) / 2
	left, right := &stack{x: f.left(), w: w}, &stack{x: f.left() + w + gap, w: w}
	list := func(s *stack, title working.Key, lines []string) {
		if len(lines) == 0 {
			return
		}
		if s.height > 0 {
			s.gap(2)
		}
		s.text(in.t(title), strongFont)
		s.gap(0.3)
		for i, l := range lines {
			if i == most && len(lines) > most+1 {
				s.text(in.more(len(lines)-most), noteFont)
				break
			}
			s.text(l, noteInk)
		}
	}
	rows := func(rs []present.VisitRow) (out []string) {
		for _, r := range rs {
			out = append(out, in.Presenter.W.T("paper.figure", i18n.Args{"Name": r.Name, "Value": r.Text}))
		}
		return out
	}
	entries := func(es []present.VisitEntry) (out []string) {
		for _, e := range es {
			out = append(out, strings.Trim(strings.Join([]string{e.When, e.Kind, e.Text}, " · "), " ·"))
		}
		return out
	}
	list(left, "word.visit.part.stock", append(rows(c.Stock), rows(c.Wishes)...))
	list(left, "word.visit.part.feeding", entries(c.Feeding))
	list(right, "word.visit.part.changes", entries(c.Changes))
	list(right, "word.visit.part.others", entries(c.Others))
	if left.height+right.height > 0 {
		f.add(beside(3.6, left, right))
	}
}

// told are the facts of the tank that say most to somebody who does not see it, in
// order; the sizes stand below the title.
var told = []care.FieldID{"filter.kind", "filter.flow", "heater.watts", "heater.count", "settle.target", "light.hours", "lid.kind", "gravel.kind", "water.source", "treat.way", "dose.amount", "bacteria.amount",
	"tank.history", "rock.mass", "wood.mass", "room.low", "room.high", "stand.kind", "tank.material"}

// visitFacts are the facts of the tank in two columns.
func (f *flow) visitFacts(in *Input, most int) {
	c := in.Visit
	w := in.Presenter.W
	var lines []string
	if s := c.Shown.Stand; s.Word != "" {
		lines = append(lines, w.T("paper.figure", i18n.Args{"Name": s.Title, "Value": s.Word}))
	}
	for _, id := range told {
		i := slices.IndexFunc(c.Shown.Facts, func(x present.Said) bool { return x.Field == id })
		if i >= 0 && len(lines) < most {
			lines = append(lines, w.T("paper.figure", i18n.Args{"Name": c.Shown.Facts[i].Name, "Value": c.Shown.Facts[i].Text}))
		}
	}
	if len(lines) == 0 {
		return
	}
	f.add(f.small(in.t("word.visit.part.facts")))
	const gap = 6.0
	wide := (f.width() - gap) / 2
	left, right := &stack{x: f.left(), w: wide}, &stack{x: f.left() + wide + gap, w: wide}
	for i, l := range lines {
		s := left
		if i >= (len(lines)+1)/2 {
			s = right
		}
		s.text(l, noteInk)
	}
	f.add(beside(0.6, left, right))
	for _, l := range c.Plan.Left {
		f.add(f.text(l, noteFont, 0.4)...)
	}
}
