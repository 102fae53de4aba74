package photos

import (
	"context"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// part gives the panel's part of that name, made when it is first needed and kept
// while it is shown, so that the focus stays where it is.
func part[T fyne.CanvasObject](p *bench, name string, make func() T) T {
	p.used[name] = true
	if o, ok := p.made[name].(T); ok {
		return o
	}
	o := make()
	p.made[name] = o
	return o
}

func (p *bench) button(spec parts.ButtonSpec, do func()) fyne.CanvasObject {
	b := part(p, spec.ID, func() *parts.Button { return parts.NewButton(spec, nil) })
	b.Set(spec)
	b.OnPressed = do
	return b
}

func (p *bench) text(name, words string, role parts.Role) fyne.CanvasObject {
	t := part(p, name, func() *parts.Text { return parts.NewText(parts.TextSpec{}) })
	t.Set(parts.TextSpec{Text: words, Role: role})
	return t
}

// row gives a flow of that name with these parts.
func (p *bench) row(name string, o ...fyne.CanvasObject) fyne.CanvasObject {
	f := part(p, name, func() *parts.Flow { return parts.NewFlow() })
	f.Set(o...)
	return f
}

// field is a box about the picture of the shot, or about one of its marks.
func (p *bench) field(name string, spec parts.FieldSpec, commit func(string)) fyne.CanvasObject {
	f := part(p, name+p.shot().id, func() *parts.Field { return parts.NewField(spec) })
	f.Set(spec)
	f.OnCommit = commit
	f.OnEnter = func() {}
	return f
}

// show puts the panel together for the shot, and the heads above the views.
func (p *bench) show() {
	for i, s := range p.shots {
		p.showHead(s, i)
	}
	p.used = map[string]bool{}
	back := working.Key("page.photo.back")
	if p.sick != "" {
		back = "page.photo.back_case"
	}
	out := []fyne.CanvasObject{p.row("top", p.button(parts.ButtonSpec{ID: "back", Label: p.t(back), Kind: parts.Quiet}, p.back))}
	s := p.shot()
	if s.gone {
		out = append(out, p.text("gone", p.t("refuse.photo.none"), parts.Body))
		p.set(out)
		return
	}
	at := slices.Index(p.order, s.id)
	out = append(out, p.row("steps",
		p.button(parts.ButtonSpec{ID: "earlier", Label: p.t("page.photo.earlier"), Off: at <= 0}, func() { p.step(-1) }),
		p.button(parts.ButtonSpec{ID: "later", Label: p.t("page.photo.later"), Off: at < 0 || at+1 >= len(p.order)}, func() { p.step(1) })))
	if s.photo.Problem == "" {
		out = append(out, p.looks()...)
		out = append(out, p.tools()...)
		out = append(out, p.chosen()...)
		out = append(out, p.lengths()...)
		out = append(out, p.white()...)
	}
	out = append(out, p.about()...)
	out = append(out, p.text("keys_title", p.t("page.photo.keys_title"), parts.Section), p.text("keys", p.t("page.photo.keys"), parts.Note))
	p.set(out)
}

// set shows the panel and forgets the parts that are shown no more.
func (p *bench) set(out []fyne.CanvasObject) {
	for name := range p.made {
		if !p.used[name] {
			delete(p.made, name)
		}
	}
	p.panel.Column().Set(out...)
	p.area.Layout.Layout(p.area.Objects, p.area.Size())
}

func (p *bench) showHead(s *shot, i int) {
	w := p.deps.Present.W
	words := s.photo.Name
	if t, err := s.photo.Taken.Parse(); err == nil {
		words = w.DateTime(t)
	}
	role := parts.StrongBody
	if i != p.at {
		role = parts.SoftBody
	}
	if s.wrong != nil {
		why, ok := w.Problem(s.wrong)
		if !ok {
			why = p.deps.Present.Error(s.wrong)
		}
		words += "\n" + why
	} else if len(s.levels) == 0 {
		words += "\n" + p.t("page.photo.opening")
	}
	s.head.Set(parts.TextSpec{Text: words, Role: role})
}

// looks are zoom, turns, and what holds for pictures side by side.
func (p *bench) looks() []fyne.CanvasObject {
	v := p.shot().view
	zoom := func(f float64) func() { return func() { v.Zoom(f, v.Middle()) } }
	const more = 1.5 // judgement
	out := []fyne.CanvasObject{p.row("zoom",
		p.button(parts.ButtonSpec{ID: "nearer", Label: p.t("page.photo.nearer")}, zoom(more)),
		p.button(parts.ButtonSpec{ID: "farther", Label: p.t("page.photo.farther")}, zoom(1/more)),
		p.button(parts.ButtonSpec{ID: "whole", Label: p.t("page.photo.whole")}, func() { v.Fit() })),
		p.row("turns",
			p.button(parts.ButtonSpec{ID: "left", Label: p.t("page.photo.left")}, func() { p.turn(-1) }),
			p.button(parts.ButtonSpec{ID: "right", Label: p.t("page.photo.right")}, func() { p.turn(1) }))}
	if len(p.shots) < 2 {
		return out
	}
	link := part(p, "linked", func() *parts.Tick { return parts.NewTick(parts.TickSpec{}, nil) })
	link.Set(parts.TickSpec{ID: "linked", Text: p.t("page.photo.linked"), Done: p.group.Linked})
	link.OnToggled = func(on bool) {
		p.group.Link(on, p.shot().view)
		p.show()
	}
	scale := p.t("page.photo.scale_none")
	switch {
	case !p.group.Linked:
		scale = p.t("page.photo.scale_own")
	case p.group.Real():
		scale = p.t("page.photo.scale_real")
	}
	return append(out, link, p.text("scale", scale, parts.Note))
}

var toolNames = []struct {
	kind  photo.MarkKind
	id    string
	label working.Key
	hint  working.Key
}{
	{"", "hand", "page.photo.tool_hand", "page.photo.hint_hand"},
	{photo.Circle, "circle", "page.photo.tool_circle", "page.photo.hint_circle"},
	{photo.Arrow, "arrow", "page.photo.tool_arrow", "page.photo.hint_arrow"},
	{photo.Text, "words", "page.photo.tool_words", "page.photo.hint_words"},
	{photo.Known, "known", "page.photo.tool_known", "page.photo.hint_known"},
	{photo.Length, "length", "page.photo.tool_length", "page.photo.hint_length"},
}

// tools are what can be done with the pointer, the one in hand outlined.
func (p *bench) tools() []fyne.CanvasObject {
	var row []fyne.CanvasObject
	hint := working.Key("page.photo.hint_white")
	for _, t := range toolNames {
		spec := parts.ButtonSpec{ID: "tool_" + t.id, Label: p.t(t.label), Kind: parts.Quiet}
		if t.kind == p.tool && !p.spot {
			spec.Kind, hint = parts.Secondary, t.hint
		}
		row = append(row, p.button(spec, func() { p.take(t.kind, false) }))
	}
	return []fyne.CanvasObject{p.text("marks_title", p.t("page.photo.marks"), parts.Section), p.row("tools", row...), p.text("hint", p.t(hint), parts.Note)}
}

// chosen is about the mark that is chosen.
func (p *bench) chosen() []fyne.CanvasObject {
	s := p.shot()
	m := s.mark(s.view.Chosen())
	if m == nil {
		return nil
	}
	is, id := *m, s.photo.ID
	words := p.field("words_"+m.ID, parts.FieldSpec{ID: "words", Label: p.t("page.photo.mark_words"), Text: m.Words}, func(text string) {
		is.Words = text
		p.change(func(ctx context.Context) error { return p.deps.Keeper.ChangeMark(ctx, p.tank, id, is) }, nil)
	})
	return []fyne.CanvasObject{words, p.row("mark_row", p.button(parts.ButtonSpec{ID: "unmark", Label: p.t("page.photo.unmark")}, func() { p.unmark(s, is.ID) }))}
}

// lengths are what the marks measure, each with its working.
func (p *bench) lengths() []fyne.CanvasObject {
	s, w := p.shot(), p.deps.Present.W
	var out []fyne.CanvasObject
	for _, m := range s.photo.Marks {
		if m.Kind != photo.Length {
			continue
		}
		length, trail, err := s.measured(m)
		if err != nil {
			words, _ := w.Problem(err)
			out = append(out, p.text("length_"+m.ID, words, parts.SoftBody))
			continue
		}
		name := p.t("page.photo.length")
		if m.Words != "" {
			name = m.Words
		}
		value := w.Quantity(length.Value())
		if trail.Spread != nil {
			value = w.T("page.photo.between", i18n.Args{"Value": value, "Range": w.Range(trail.Spread.Low, trail.Spread.High)})
		}
		fig := part(p, "figure_"+m.ID, func() *parts.Figure { return parts.NewFigure(parts.FigureSpec{}) })
		fig.Set(parts.FigureSpec{Name: name, Value: value})
		work := part(p, "working_"+m.ID, func() *parts.Working { return parts.NewWorking(parts.WorkingSpec{}) })
		spec := nav.Working(p.deps, trail)
		spec.Open = work.Spec().Open
		work.Set(spec)
		work.OnCopy = nav.CopyWorking(p.deps)
		out = append(out, fig, work)
	}
	return out
}

// white is the balance of colours by a white patch.
func (p *bench) white() []fyne.CanvasObject {
	s := p.shot()
	pick := parts.ButtonSpec{ID: "white", Label: p.t("page.photo.white_pick"), Kind: parts.Quiet}
	if p.spot {
		pick.Kind = parts.Secondary
	}
	out := []fyne.CanvasObject{p.text("white_title", p.t("page.photo.white"), parts.Section)}
	if s.photo.White == nil {
		return append(out, p.text("white_why", p.t("page.photo.white_why"), parts.Note), p.row("white_row", p.button(pick, func() { p.take("", !p.spot) })))
	}
	on := part(p, "balanced", func() *parts.Tick { return parts.NewTick(parts.TickSpec{}, nil) })
	on.Set(parts.TickSpec{ID: "balanced", Text: p.t("page.photo.balanced"), Done: !s.plain})
	on.OnToggled = func(done bool) {
		s.plain = !done
		s.balance()
		p.show()
	}
	id := s.photo.ID
	return append(out, on, p.row("white_row", p.button(pick, func() { p.take("", !p.spot) }),
		p.button(parts.ButtonSpec{ID: "unwhite", Label: p.t("page.photo.white_none"), Kind: parts.Quiet}, func() {
			p.change(func(ctx context.Context) error { return p.deps.Keeper.SetWhite(ctx, p.tank, id, nil) }, nil)
		})))
}

// fishOf is the choice of which fish the picture shows.
func (p *bench) fishOf() fyne.CanvasObject {
	s := p.shot()
	id := s.photo.ID
	options, err := p.fishOptions(p.t("page.photo.no_fish"))
	if err != nil {
		p.deps.Fail(err)
	}
	set := func(fish string) {
		p.change(func(ctx context.Context) error { return p.deps.Keeper.PhotoFish(ctx, p.tank, id, fish) }, nil)
	}
	c := part(p, "fish", func() *parts.Choice { return parts.NewChoice(parts.ChoiceSpec{}, nil) })
	c.Set(parts.ChoiceSpec{ID: "fish", Label: p.t("page.photo.fish"), Chosen: s.photo.Fish, Options: options, Search: p.t("label.search"), Empty: p.t("page.photo.none_found")})
	c.OnChosen = func(code string) {
		if code == newFishCode {
			p.nameFish(set)
			return
		}
		set(code)
	}
	return c
}

// about is the caption, the fish, the time and the place, the copy and the bin.
func (p *bench) about() []fyne.CanvasObject {
	s, w := p.shot(), p.deps.Present.W
	id := s.photo.ID
	out := []fyne.CanvasObject{p.text("about_title", p.t("page.photo.about"), parts.Section),
		p.field("caption", parts.FieldSpec{ID: "caption", Label: p.t("page.photo.caption"), Text: s.photo.Caption}, func(text string) {
			p.change(func(ctx context.Context) error { return p.deps.Keeper.CaptionPhoto(ctx, p.tank, id, text) }, nil)
		}), p.fishOf(), p.taken()}
	place := p.t("page.photo.place_none")
	if s.photo.Place != nil {
		place = w.T("page.photo.place", i18n.Args{"Latitude": w.Number(s.photo.Place.Latitude, 7), "Longitude": w.Number(s.photo.Place.Longitude, 7)})
	}
	out = append(out, p.text("place", place, parts.Note))
	var row []fyne.CanvasObject
	if s.photo.Problem == "" {
		row = append(row, p.button(parts.ButtonSpec{ID: "copy", Label: p.t("page.photo.copy"), Busy: s.copying}, func() { p.copy(s) }))
	}
	if s.photo.Entry != "" {
		row = append(row, p.button(parts.ButtonSpec{ID: "entry", Label: p.t("page.photo.to_entry")}, func() {
			p.deps.Go(nav.Route{Place: nav.Daybook, Tank: p.tank, Entry: s.photo.Entry})
		}))
	}
	return append(out, p.row("last", append(row, p.button(parts.ButtonSpec{ID: "delete", Label: p.t("label.delete")}, p.remove))...),
		p.text("file", strings.TrimSpace(s.photo.Name), parts.Note))
}
