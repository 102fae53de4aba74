package fish

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// arrive opens the form for animals that came in: of an entry that tells of them
// already, where one is given.
func (p *Page) arrive(of *journal.Entry) {
	f := p.newForm()
	joins := parts.NewChoice(parts.ChoiceSpec{}, nil)
	into := ""
	var kind *kindBox
	offer := func() {
		spec := parts.ChoiceSpec{ID: "joins", Label: p.t("page.stock.joins"), Chosen: into, Options: []parts.Option{{Label: p.t("page.stock.new_group")}}, Search: p.t("label.search")}
		here := false
		for _, l := range p.all {
			if kind == nil || kind.code == l.Code() {
				spec.Options = append(spec.Options, parts.Option{Code: l.ID, Label: p.groupName(l)})
				here = here || l.ID == into
			}
		}
		if !here {
			into, spec.Chosen = "", ""
		}
		joins.Set(spec)
	}
	joins.OnChosen = func(code string) { into = code; offer() }
	kind = f.newKindBox("", func() {
		if kind != nil {
			offer()
		}
	})
	offer()
	count, males := f.box("count", "page.stock.how_many", ""), f.box("males", "page.stock.males", "")
	length := f.length("page.stock.length")
	source, price, name := f.box(journal.NameSource, "page.stock.source", ""), f.box(journal.NamePrice, "page.stock.price", ""), f.box("fish.name", "page.stock.name", "")
	rows := []fyne.CanvasObject{kind.column, parts.NewRow(count, males, length), parts.NewRow(joins, name), parts.NewRow(source, price)}
	said := of != nil
	if said {
		p.fill(f, *of)
		kind.look()
		rows[3] = parts.TextOf(p.deps.Present.CivilDay(of.At)+" · "+p.deps.Present.CameIn(*of), parts.SoftBody)
	} else {
		note := f.box("note", "page.day.words", "")
		rows = append(rows, f.when(), note)
		f.pictures = nav.NewPictured(p.deps, p.tank, keeper.AddOptions{})
	}
	f.show(p.t("page.stock.came"), func() func(context.Context) (string, error) {
		a := keeper.Newcomers{Fish: into, Count: f.need("count"), Males: f.maybe("males"), Length: f.measure(), Source: f.typed(journal.NameSource), Price: f.typed(journal.NamePrice)}
		if said {
			a.Entry = of.ID
		} else {
			a.At, a.Note = f.at(), f.typed("note")
		}
		words := f.typed("species")
		if into == "" {
			a.Name, a.Species = f.typed("fish.name"), string(kind.code)
			if kind.code == "" && a.Name == "" {
				a.Name = words
			}
			if a.Name == "" && a.Species == "" {
				f.say("species", p.t("refuse.missing"))
			}
			a.What = p.deps.Present.FishName(keeper.Fish{Name: a.Name, Species: a.Species})
			if a.Name != "" && kind.code != "" {
				a.What = p.deps.Present.W.Comma(a.What, p.deps.Present.KindName(kind.code))
			}
		} else if l, ok := p.living(into); ok {
			a.What = p.deps.Present.FishName(l.Fish)
		}
		return func(ctx context.Context) (string, error) {
			_, entry, err := p.deps.Keeper.Arrive(ctx, p.tank, a)
			return entry, err
		}
	}, "page.stock.was_in", rows...)
}

// fill puts what an entry says into the boxes of an arrival.
func (p *Page) fill(f *form, e journal.Entry) {
	if r, ok := e.Get(journal.NameCount); ok && r.Qualifier == journal.Plain {
		f.boxes["count"].Type(r.Measure.Number)
	}
	what := e.Note
	if r, ok := e.Get(journal.NameWhat); ok {
		what = r.Measure.Number
	}
	f.boxes["species"].Type(what)
}

// groupName is what a group goes by, with how many there are.
func (p *Page) groupName(l keeper.Living) string {
	return p.deps.Present.W.Comma(p.deps.Present.FishName(l.Fish), p.deps.Present.W.Number(float64(l.Count), 5))
}

// born opens the form for young ones: they are a group of their own.
func (p *Page) born() {
	pr := p.deps.Present
	f := p.newForm()
	of := p.all[0].ID
	if p.id != "" {
		of = p.id
	}
	var who *parts.Choice
	name := parts.NewField(parts.FieldSpec{})
	call := func() {
		if l, ok := p.living(of); ok {
			name.Type(pr.W.T("page.stock.fry_of", i18n.Args{"Name": pr.FishName(l.Fish)}))
		}
	}
	spec := parts.ChoiceSpec{ID: "parents", Label: p.t("page.stock.parents"), Chosen: of, Search: p.t("label.search")}
	for _, l := range p.all {
		spec.Options = append(spec.Options, parts.Option{Code: l.ID, Label: pr.FishName(l.Fish)})
	}
	count, length := f.box("count", "page.stock.how_many", ""), f.length("page.stock.length")
	name = f.box("fish.name", "page.stock.name", "")
	who = choice(spec, func(code string) { of = code; call() })
	call()
	note := f.box("note", "page.day.words", "")
	f.pictures = nav.NewPictured(p.deps, p.tank, keeper.AddOptions{})
	f.show(p.t("page.stock.born"), func() func(context.Context) (string, error) {
		l, _ := p.living(of)
		a := keeper.Newcomers{Name: f.typed("fish.name"), Species: l.Species, Count: f.need("count"), Length: f.measure(), Born: true, At: f.at(), Note: f.typed("note")}
		a.What = pr.FishName(keeper.Fish{Name: a.Name, Species: a.Species})
		return func(ctx context.Context) (string, error) {
			_, entry, err := p.deps.Keeper.Arrive(ctx, p.tank, a)
			return entry, err
		}
	}, "page.stock.was_born", parts.NewRow(who, name), parts.NewRow(count, length), f.when(), note)
}

// measure opens the form for a length of one of a group.
func (p *Page) measure(l keeper.Living) {
	f := p.newForm()
	length := f.length("page.stock.length")
	f.show(p.t("page.stock.measure"), func() func(context.Context) (string, error) {
		m, at := f.measure(), f.at()
		if m == (quantity.Measure{}) && f.boxes["length"].Spec().Error == "" {
			f.say("length", p.t("refuse.missing"))
		}
		return func(ctx context.Context) (string, error) {
			return "", p.deps.Keeper.MeasureFish(ctx, p.tank, l.ID, m, at, p.deps.Present.FishName(l.Fish))
		}
	}, "page.stock.was_measured", parts.TextOf(p.t("page.stock.measure_how"), parts.SoftBody), parts.NewRow(length, f.when()))
}
