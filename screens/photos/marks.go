package photos

import (
	"context"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/picture"
)

// marks are the marks of a shot as its view draws them.
func (s *shot) marks() []picture.Mark {
	w, h := s.photo.Shown()
	return nav.Marks(s.bench.deps, s.photo.Marks, w, h)
}

// measured is what a length mark measures beside the known one. Refusals: those
// of photo.MeasureLength; no known length.
func (s *shot) measured(m photo.Mark) (quantity.Length, *working.Trail, error) {
	known := s.known()
	if known == nil {
		return 0, nil, working.Refuse("mark.known", "refuse.photo.no_known")
	}
	w, h := s.photo.Shown()
	return photo.MeasureLength(*known, m, w, h)
}

func (s *shot) mark(id string) *photo.Mark {
	for i := range s.photo.Marks {
		if s.photo.Marks[i].ID == id {
			return &s.photo.Marks[i]
		}
	}
	return nil
}

// take takes a tool in hand, "" none; spot chooses the white patch.
func (p *bench) take(tool photo.MarkKind, spot bool) {
	p.tool, p.spot = tool, spot
	t, preview := picture.Hand, picture.Ring
	switch {
	case spot || tool == photo.Text:
		t = picture.OnePoint
	case tool != "":
		t, preview = picture.TwoPoint, nav.ShapeOf(tool)
	}
	for _, s := range p.shots {
		s.view.SetTool(t, preview)
	}
	p.show()
	p.Focus()
}

func points(ps []picture.Point) []photo.Point {
	out := make([]photo.Point, len(ps))
	for i, q := range ps {
		out[i] = photo.Point{X: q.X, Y: q.Y}
	}
	return out
}

// drawn makes what was drawn a mark, after asking what it needs.
func (p *bench) drawn(ps []picture.Point) {
	s := p.shot()
	if p.spot {
		p.whiten(s, points(ps)[0])
		return
	}
	m := photo.Mark{Kind: p.tool, Points: points(ps)}
	switch p.tool {
	case photo.Text:
		p.ask("page.photo.words", "", "", func(text string) error {
			m.Words = text
			return p.add(s, m)
		})
	case photo.Known:
		w := p.deps.Present.W
		p.ask("page.photo.known_is", "page.photo.known_hint", w.Unit(w.DefaultUnit(quantity.KindLength, i18n.Fish)), func(text string) error {
			v, err := quantity.Parse(text, quantity.KindLength, w.Reading(quantity.KindLength, i18n.Fish))
			if err != nil {
				return err
			}
			m.Measure = v
			return p.add(s, m)
		})
	default:
		if err := p.add(s, m); err != nil {
			p.refused(err)
		}
	}
}

// add keeps a new mark and chooses it. Refusals are given back before anything
// is kept.
func (p *bench) add(s *shot, m photo.Mark) error {
	if err := m.Check(); err != nil {
		return err
	}
	var id string
	photoID := s.photo.ID
	p.change(func(ctx context.Context) (err error) {
		id, err = p.deps.Keeper.AddMark(ctx, p.tank, photoID, m)
		return err
	}, func() {
		p.take("", false)
		s.view.Choose(id)
		p.show()
	})
	return nil
}

// ask asks for one line; keep refuses it or takes it.
func (p *bench) ask(label, hint working.Key, unit string, keep func(text string) error) {
	spec := parts.FieldSpec{ID: "ask", Label: p.t(label), Unit: unit}
	if hint != "" {
		spec.Hint = p.t(hint)
	}
	f := parts.NewField(spec)
	var shut func()
	save := func() {
		if err := keep(strings.TrimSpace(f.Text())); err != nil {
			words, ok := p.deps.Present.W.Problem(err)
			if !ok {
				shut()
				p.deps.Fail(err)
				return
			}
			spec.Error = words
			f.Set(spec)
			return
		}
		shut()
	}
	f.OnEnter = save
	shut = p.deps.Dialog(p.t(label), f, parts.NewFlow(
		p.deps.Button("keep", "label.save", parts.Primary, save),
		p.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
	p.focus(f.Focusable())
}

// moved keeps a mark where it was moved to.
func (p *bench) moved(s *shot, id string, ps []picture.Point) {
	m := s.mark(id)
	if m == nil {
		return
	}
	is := *m
	is.Points = points(ps)
	photoID := s.photo.ID
	p.change(func(ctx context.Context) error { return p.deps.Keeper.ChangeMark(ctx, p.tank, photoID, is) }, nil)
}

// unmark takes a mark away.
func (p *bench) unmark(s *shot, id string) {
	photoID := s.photo.ID
	p.change(func(ctx context.Context) error { return p.deps.Keeper.RemoveMark(ctx, p.tank, photoID, id) }, func() {
		p.deps.Say(p.t("page.photo.unmarked"), p.t("label.undo"), p.undo)
	})
}

// undo takes back the latest change.
func (p *bench) undo() {
	p.change(func(ctx context.Context) error {
		_, _, err := p.deps.Keeper.Undo(ctx, p.tank)
		return err
	}, nil)
}

// whiten sets the white patch where its colour can be told.
func (p *bench) whiten(s *shot, at photo.Point) {
	white := photo.Patch{Centre: at, Radius: photo.PatchRadius}
	if len(s.levels) == 0 {
		return
	}
	if _, err := photo.Balance(s.levels[0], white); err != nil {
		p.refused(err)
		return
	}
	id := s.photo.ID
	s.plain = false
	p.change(func(ctx context.Context) error { return p.deps.Keeper.SetWhite(ctx, p.tank, id, &white) }, func() { p.take("", false) })
}
