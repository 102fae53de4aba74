package sick

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/keeper"
	model "example.org/driploop/model/sick"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// list is the page without a case: opening one, and those there are.
func (p *Page) list() []fyne.CanvasObject {
	ctx := context.Background()
	out := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(p.t("page.sick.heading"), parts.Heading), parts.TextOf(p.t("page.sick.purpose"), parts.SoftBody)),
		nav.ViewRow(p.deps, p.tank, nav.Sick), p.opening(ctx)}
	cs, err := p.deps.Keeper.Cases(ctx, p.tank)
	if err != nil {
		p.deps.Fail(err)
	}
	section := ""
	for _, c := range cs {
		head := p.t("page.sick.closed_cases")
		if c.Open() {
			head = p.t("page.sick.open_cases")
		}
		if head != section {
			section = head
			out = append(out, parts.NewDayHeading(head))
		}
		row := parts.EntryRowSpec{ID: "case-" + c.ID, Time: p.deps.Present.CivilDay(c.Opened), Kind: p.deps.Present.About(c), Text: p.deps.Present.CaseBrief(c)}
		if c.Open() && !c.Looked {
			row.Note, row.State = p.t("page.sick.look_again"), parts.Wait
		}
		out = append(out, parts.NewEntryRow(row, func() { p.deps.Go(nav.Route{Place: nav.Sick, Tank: p.tank, Case: c.ID}) }))
	}
	if len(cs) == 0 {
		out = append(out, parts.TextOf(p.t("page.sick.none"), parts.SoftBody))
	}
	return append(out, parts.TextOf(p.t("page.sick.no_names"), parts.Note))
}

// The codes of whom a case concerns; others are ids of fish, or words after said.
const (
	somebody = "somebody"
	said     = "said:"
)

// opening is the form of a new case.
func (p *Page) opening(ctx context.Context) fyne.CanvasObject {
	p.who.Set(p.whoSpec(ctx, p.who.Spec().Chosen))
	p.who.OnChosen = func(code string) { p.who.Set(p.whoSpec(context.Background(), code)) }
	p.many.Set(p.manySpec(p.many.Spec().Chosen))
	p.many.OnChosen = func(code string) { p.many.Set(p.manySpec(code)) }
	return parts.NewPanel(p.t("page.sick.open_title"), parts.NewRow(p.who, p.about, p.many), parts.NewFlow(p.button("open-case", p.t("page.sick.open"), parts.Primary, p.open)))
}

func (p *Page) whoSpec(ctx context.Context, chosen string) parts.ChoiceSpec {
	spec := parts.ChoiceSpec{ID: "who", Label: p.t("page.sick.who"), Chosen: chosen, Search: p.t("label.search"), Options: []parts.Option{{Code: somebody, Label: p.t("page.sick.some_fish")}}}
	if chosen == "" {
		spec.Chosen = somebody
	}
	fish, err := p.deps.Keeper.FishOf(ctx, p.tank)
	if err != nil {
		p.deps.Fail(err)
	}
	for _, f := range fish {
		spec.Options = append(spec.Options, parts.Option{Code: f.ID, Label: p.deps.Present.FishName(f)})
	}
	came, err := p.deps.Keeper.Arrivals(ctx, p.tank)
	if err != nil {
		p.deps.Fail(err)
	}
	for _, name := range came {
		spec.Options = append(spec.Options, parts.Option{Code: said + name, Label: name})
	}
	return spec
}

func (p *Page) manySpec(chosen string) parts.ChoiceSpec {
	spec := parts.ChoiceSpec{ID: "many", Label: p.t("page.sick.many"), Chosen: chosen, Options: []parts.Option{{Label: p.deps.Present.ManyName("")}}}
	for _, m := range model.Manies() {
		spec.Options = append(spec.Options, parts.Option{Code: string(m), Label: p.deps.Present.ManyName(m)})
	}
	return spec
}

// chosenOf is whom a form says: what is typed goes before what is chosen.
func chosenOf(typed, code string) keeper.Who {
	if typed = strings.TrimSpace(typed); typed != "" {
		return keeper.Who{About: typed}
	}
	switch {
	case code == "" || code == somebody:
		return keeper.Who{}
	case strings.HasPrefix(code, said):
		return keeper.Who{About: strings.TrimPrefix(code, said)}
	default:
		return keeper.Who{Fish: code}
	}
}

// open opens a case and goes to it.
func (p *Page) open() {
	who, many := chosenOf(p.about.Text(), p.who.Spec().Chosen), model.Many(p.many.Spec().Chosen)
	var id string
	p.deps.Work(func(ctx context.Context) (err error) {
		id, err = p.deps.Keeper.OpenCase(ctx, p.tank, who, many)
		return err
	}, func(err error) {
		if err != nil {
			words, ok := p.deps.Present.W.Problem(err)
			if s := p.about.Spec(); ok {
				s.Error = words
				p.about.Set(s)
				return
			}
			p.deps.Fail(err)
			return
		}
		p.deps.Changed()
		p.deps.Go(nav.Route{Place: nav.Sick, Tank: p.tank, Case: id})
	})
}

// concern asks anew whom the case concerns and how many show it.
func (p *Page) concern() {
	c := p.view.Case
	chosen := c.Fish
	if chosen == "" {
		chosen = somebody
	}
	words := parts.FieldSpec{ID: "about", Label: p.t("page.sick.about"), Placeholder: p.t("page.sick.about_eg")}
	if c.Fish == "" {
		words.Text = c.About
	}
	about := parts.NewField(words)
	var who, many *parts.Choice
	who = parts.NewChoice(p.whoSpec(context.Background(), chosen), func(code string) { who.Set(p.whoSpec(context.Background(), code)) })
	many = parts.NewChoice(p.manySpec(string(c.Many)), func(code string) { many.Set(p.manySpec(code)) })
	var shut func()
	keep := func() {
		to, count := chosenOf(about.Text(), who.Spec().Chosen), model.Many(many.Spec().Chosen)
		p.put(func(ctx context.Context) error { return p.deps.Keeper.SetCase(ctx, p.tank, p.id, to, count) }, about, shut)
	}
	about.OnEnter = keep
	buttons := []fyne.CanvasObject{p.deps.Button("keep", "page.day.keep", parts.Primary, keep),
		p.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })}
	switch {
	case c.Fish != "":
		buttons = append(buttons, p.deps.Button("rename-fish", "page.sick.rename", parts.Secondary, func() {
			shut()
			p.rename(c)
		}))
	case c.About != "":
		buttons = append(buttons, p.deps.Button("name-fish", "page.sick.name_fish", parts.Secondary, func() {
			shut()
			p.nameFish()
		}))
	}
	shut = p.deps.Dialog(p.t("page.sick.concern"), parts.NewColumn(10, parts.NewRow(who, about), many), parts.NewFlow(buttons...))
	p.deps.Focus(about.Focusable())
}

// rename gives the fish of the case another name, everywhere.
func (p *Page) rename(c keeper.Case) {
	name := parts.NewField(parts.FieldSpec{ID: "fish-name", Label: p.t("page.sick.name"), Text: c.About})
	var shut func()
	keep := func() {
		to := name.Text()
		p.put(func(ctx context.Context) error { return p.deps.Keeper.RenameFish(ctx, p.tank, c.Fish, to) }, name, shut)
	}
	name.OnEnter = keep
	shut = p.deps.Dialog(p.t("page.sick.rename"), name, parts.NewFlow(p.deps.Button("keep", "page.day.keep", parts.Primary, keep),
		p.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
	p.deps.Focus(name.Focusable())
}

// put makes a change from a panel: what the box holds is refused below it, or the panel shuts.
func (p *Page) put(job func(context.Context) error, box *parts.Field, shut func()) {
	p.deps.Work(job, func(err error) {
		if words, ok := p.deps.Present.W.Problem(err); err != nil && ok {
			nav.Fault(box, words)
			return
		}
		shut()
		p.deps.Fail(err)
		p.deps.Changed()
		p.Refresh()
	})
}

// nameFish puts whom the case concerns into the list of fish, so that it can be
// chosen another time.
func (p *Page) nameFish() {
	p.do(func(ctx context.Context) error { return p.deps.Keeper.NameFishOf(ctx, p.tank, p.id) }, "page.sick.named", nil)
}
