package fish

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// leave opens the form for animals that left: of a fish where one is given.
func (p *Page) leave(id string) {
	if len(p.all) == 0 {
		p.deps.Say(p.t("page.stock.nobody"), "", nil)
		return
	}
	pr := p.deps.Present
	f := p.newForm()
	fixed := id != ""
	if !fixed {
		id = p.all[0].ID
	}
	why, seen := keeper.WhyDied, ""
	rows := []fyne.CanvasObject{}
	one := ""
	if l, ok := p.living(id); ok && l.Count == 1 {
		one = itoa(1)
	}
	count, males := f.box("count", "page.stock.how_many", one), f.box("males", "page.stock.males", "")
	if !fixed {
		spec := parts.ChoiceSpec{ID: "who", Label: p.t("page.stock.who"), Chosen: id, Search: p.t("label.search")}
		for _, l := range p.all {
			spec.Options = append(spec.Options, parts.Option{Code: l.ID, Label: p.groupName(l)})
		}
		rows = append(rows, choice(spec, func(code string) { id = code }))
	}
	found := parts.ChoiceSpec{ID: "seen", Label: p.t("page.stock.seen"), Options: []parts.Option{{Label: p.t("page.entry.not_said")}}}
	codes, _ := journal.Vocabulary(journal.NameSeen)
	for _, c := range codes {
		found.Options = append(found.Options, parts.Option{Code: c, Label: pr.Said(journal.NameSeen, c)})
	}
	how := choice(found, func(code string) { seen = code })
	reasons := parts.ChoiceSpec{ID: "why", Label: p.t("page.stock.why"), Chosen: string(why)}
	for _, w := range keeper.Leavings() {
		reasons.Options = append(reasons.Options, parts.Option{Code: string(w), Label: pr.Said(journal.NameReason, string(w))})
	}
	beside := parts.NewRow()
	reason := choice(reasons, nil)
	lay := func() {
		if why == keeper.WhyDied {
			beside.Set(reason, how)
			return
		}
		beside.Set(reason, parts.NewText(parts.TextSpec{}))
	}
	reason.OnChosen = func(code string) {
		s := reason.Spec()
		s.Chosen, why = code, keeper.Why(code)
		reason.Set(s)
		lay()
	}
	lay()
	rows = append(rows, parts.NewRow(count, males), beside, f.box("note", "page.entry.seen", ""), f.when())
	f.pictures = nav.NewPictured(p.deps, p.tank, keeper.AddOptions{})
	f.show(p.t("page.stock.left"), func() func(context.Context) (string, error) {
		l, _ := p.living(id)
		d := keeper.Departure{Fish: id, Count: f.need("count"), Males: f.maybe("males"), Why: why, Seen: seen, What: pr.FishName(l.Fish), At: f.at(), Note: f.typed("note")}
		return func(ctx context.Context) (string, error) { return p.deps.Keeper.Depart(ctx, p.tank, d) }
	}, "page.stock.was_out", rows...)
}

// recount opens the form for a new count.
func (p *Page) recount(l keeper.Living) {
	f := p.newForm()
	count := f.box("count", "page.stock.how_many", itoa(l.Count))
	f.show(p.t("page.stock.recount"), func() func(context.Context) (string, error) {
		n := f.need("count")
		return func(ctx context.Context) (string, error) {
			return "", p.deps.Keeper.Recount(ctx, p.tank, l.ID, n, p.deps.Present.FishName(l.Fish))
		}
	}, "page.stock.was_counted", parts.TextOf(p.t("page.stock.recount_how"), parts.SoftBody), count)
}

// split opens the form that takes some out of a group under a name of their own.
func (p *Page) split(l keeper.Living) {
	f := p.newForm()
	name, count := f.box("fish.name", "page.stock.name", ""), f.box("count", "page.stock.how_many", itoa(1))
	f.show(p.t("page.stock.split"), func() func(context.Context) (string, error) {
		n, called := f.need("count"), f.typed("fish.name")
		return func(ctx context.Context) (string, error) {
			_, err := p.deps.Keeper.SplitFish(ctx, p.tank, l.ID, n, called)
			return "", err
		}
	}, "page.stock.was_split", parts.TextOf(p.t("page.stock.split_how"), parts.SoftBody), parts.NewRow(name, count))
}

// merge asks into which group of its kind this one goes.
func (p *Page) merge(l keeper.Living) {
	var shut func()
	var others []fyne.CanvasObject
	for _, o := range p.alike(l) {
		others = append(others, parts.NewButton(parts.ButtonSpec{ID: "into-" + o.ID, Label: p.groupName(o)}, func() {
			shut()
			p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.MergeFish(ctx, p.tank, l.ID, o.ID) }, func(err error) {
				if err != nil {
					p.deps.Fail(err)
					return
				}
				p.deps.Changed()
				p.deps.Go(nav.Route{Place: nav.Fish, Tank: p.tank, Fish: o.ID})
				p.deps.Say(p.t("page.stock.was_merged"), "", nil)
			})
		}))
	}
	shut = p.deps.Dialog(p.t("page.stock.merge"), parts.NewColumn(10, parts.TextOf(p.deps.Present.W.T("page.stock.merge_how", i18n.Args{"Name": p.deps.Present.FishName(l.Fish)}), parts.SoftBody), parts.NewFlow(others...)),
		parts.NewFlow(p.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
}

// alike are the other groups that l may become one with.
func (p *Page) alike(l keeper.Living) []keeper.Living {
	var out []keeper.Living
	for _, o := range p.all {
		if o.ID != l.ID && (o.Species == l.Species || o.Species == "" || l.Species == "") {
			out = append(out, o)
		}
	}
	return out
}

// set opens the form for the name, the kind and the males of a fish.
func (p *Page) set(l keeper.Living) {
	f := p.newForm()
	is, males := "", ""
	if l.Animal != nil {
		is = p.deps.Present.KindName(l.Animal.Code)
	}
	if l.Males != nil {
		males = itoa(*l.Males)
	}
	name := f.box("fish.name", "page.stock.name", l.Name)
	kind := f.newKindBox(is, nil)
	f.show(p.t("page.stock.set"), func() func(context.Context) (string, error) {
		to := keeper.Fish{ID: l.ID, Name: f.typed("fish.name"), Species: string(kind.code), Males: f.maybe("males")}
		if kind.code == "" && f.typed("species") != "" {
			f.say("species", p.t(working.Key("page.stock.not_in_catalogue")))
		}
		return func(ctx context.Context) (string, error) { return "", p.deps.Keeper.SetFish(ctx, p.tank, to) }
	}, "page.stock.was_set", parts.NewRow(name, f.box("males", "page.stock.males", males)), kind.column)
}
