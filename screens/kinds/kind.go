package kinds

import (
	"context"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// Kind is the page of one animal.
type Kind struct {
	deps   nav.Deps
	tank   string // empty for none
	code   fish.Code
	root   *fyne.Container
	scale  *scale
	scroll *parts.Scroller

	view  keeper.KindView
	shown present.KindPage
	tried keeper.GetOn

	count, males     *parts.Field
	all, wish, whole *parts.Button
	fewer, more      *parts.Button
	result           *parts.Column
	working          *parts.Working
}

var _ nav.Page = (*Kind)(nil)

// NewKind makes the page of an animal, in a tank or, where tank is empty, by itself.
func NewKind(d nav.Deps, tank string, code fish.Code) *Kind {
	k := &Kind{deps: d, tank: tank, code: code, scroll: parts.NewScroller(12), result: parts.NewColumn(8)}
	k.scale = newScale(d)
	k.all = k.deps.Button("all-kinds", "page.kind.all", parts.Secondary, k.back)
	k.wish = k.deps.Button("wish", "page.kind.wish", parts.Primary, k.plan)
	k.whole = k.deps.Button("together", "page.kind.judge", parts.Quiet, func() { d.Go(nav.Route{Place: nav.Together, Tank: tank}) })
	k.fewer = k.deps.Button("fewer", "page.kind.fewer", parts.Secondary, func() { k.step(-1) })
	k.more = k.deps.Button("more", "page.kind.more", parts.Secondary, func() { k.step(1) })
	k.count = parts.NewField(parts.FieldSpec{ID: "count", Label: k.t("page.kind.count")})
	k.count.OnChanged = func(string) { k.try() }
	k.count.OnStep = k.step
	k.count.OnEnter = func() {}
	k.males = parts.NewField(parts.FieldSpec{ID: "males", Label: k.t("page.kind.males"), Placeholder: k.t("page.kind.males_eg")})
	k.males.OnChanged = func(string) { k.try() }
	k.males.OnEnter = func() {}
	k.scroll.Keys.Back = k.back
	k.root = container.New(nav.Beside{}, k.scale.root, k.scroll)
	k.Refresh()
	if k.view.Fit != nil {
		k.count.Type(strconv.Itoa(k.view.Fit.Count))
	}
	return k
}

// Object implements nav.Page.
func (k *Kind) Object() fyne.CanvasObject { return k.root }

// Focus implements nav.Page.
func (k *Kind) Focus() {
	c := k.deps.Canvas()
	switch {
	case c == nil:
	case k.view.Fit != nil && !k.shown.Refused:
		c.Focus(k.count.Focusable())
	default:
		c.Focus(k.all)
	}
	k.scroll.Top()
}

// Key acts on a key typed while nothing has the focus.
func (k *Kind) Key(ev *fyne.KeyEvent) bool { return k.scroll.Key(ev) }

// Shown is the animal as it stands on the page.
func (k *Kind) Shown() present.KindPage { return k.shown }

func (k *Kind) t(key working.Key) string { return k.deps.Present.W.T(key, nil) }

func (k *Kind) back() { k.deps.Go(nav.Route{Place: nav.Kinds, Tank: k.tank}) }

// Refresh implements nav.Page.
func (k *Kind) Refresh() {
	v, err := k.deps.Keeper.Kind(context.Background(), k.tank, k.code)
	if err != nil && k.tank != "" { // a tank that cannot be: the animal by itself
		v, err = k.deps.Keeper.Kind(context.Background(), "", k.code)
	}
	if err != nil {
		k.deps.Fail(err)
		return
	}
	k.view, k.shown = v, k.deps.Present.KindPage(v)
	n := v.Animal.MinGroup
	if v.Fit != nil {
		n = v.Fit.Count
	}
	k.scale.show(v.Animal, k.tank, n)
	k.lay()
	k.try()
}

// lay puts the parts on the page.
func (k *Kind) lay() {
	s := k.shown
	name := []fyne.CanvasObject{parts.TextOf(s.Name, parts.Heading), parts.TextOf(s.Scientific+" · "+s.Group, parts.SoftBody)}
	if s.Old != "" {
		name = append(name, parts.TextOf(k.deps.Present.W.T("page.kind.old", i18n.Args{"Names": s.Old}), parts.Note))
	}
	if s.Trade != "" {
		name = append(name, parts.TextOf(k.deps.Present.W.T("page.kind.trade", i18n.Args{"Names": s.Trade}), parts.Note))
	}
	out := []fyne.CanvasObject{parts.NewColumn(2, name...)}
	if k.tank != "" {
		out = append(out, nav.ViewRow(k.deps, k.tank, nav.Kinds))
	}
	out = append(out, parts.NewFlow(k.all))
	if s.Law != "" {
		out = append(out, parts.NewVerdict(parts.VerdictSpec{State: parts.Wait, Title: k.t("page.kind.law"), Lines: []string{s.Law}}))
	}
	out = append(out, k.fit()...)
	if len(s.Needs) > 0 {
		var lines []fyne.CanvasObject
		for _, n := range s.Needs {
			lines = append(lines, parts.TextOf(n, parts.Body))
		}
		out = append(out, parts.TextOf(k.t("page.kind.needs"), parts.Section), parts.NewColumn(4, lines...))
	}
	out = append(out, k.company()...)
	var figures []fyne.CanvasObject
	for _, f := range s.Figures {
		figures = append(figures, parts.NewFigure(parts.FigureSpec{Name: f.Name, Value: f.Value, Note: f.Note}))
	}
	out = append(out, parts.TextOf(k.t("page.kind.figures"), parts.Section), parts.NewColumn(8, figures...), parts.NewSpace(16))
	k.scroll.Column().Set(out...)
}

// fit is how the animal stands to the tank: whether it fits, how many, and what
// comes of trying.
func (k *Kind) fit() []fyne.CanvasObject {
	s := k.shown
	if s.Fit == nil {
		return nil
	}
	kicker := k.t("page.kind.here")
	if s.Refused {
		kicker = k.t("page.kind.refused")
	}
	out := []fyne.CanvasObject{parts.NewVerdict(parts.VerdictSpec{Kicker: kicker, State: nav.State(s.Fit.State), Title: s.Fit.Title, Lines: s.Fit.Lines})}
	if s.Refused {
		return append(out, k.clashes(s.Clashes)...)
	}
	n := s.Room
	k.working = parts.NewWorking(nav.Working(k.deps, k.view.Room.Trail))
	k.working.OnCopy = nav.CopyWorking(k.deps)
	out = append(out, parts.NewNumber(parts.NumberSpec{Name: n.Name, Number: n.Value, Beside: n.Beside, State: nav.State(n.State), Word: n.Word}), k.working)
	return append(out, parts.TextOf(k.t("page.kind.try"), parts.Section), parts.NewRow(k.count, k.males), parts.NewFlow(k.fewer, k.more, k.wish, k.whole), k.result)
}

func (k *Kind) clashes(cs []present.Clash) []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, c := range cs {
		out = append(out, clashCard(c))
	}
	return out
}

// clashCard is a clash with both animals drawn at one scale.
func clashCard(c present.Clash) fyne.CanvasObject {
	spec := parts.CardSpec{Sketch: pairOf(c.A, c.B), Title: c.Title, Under: c.Rule, State: nav.State(c.State), Word: c.Word, Sentence: true, Advice: c.Cure}
	if c.Numbers != "" {
		spec.Under += " · " + c.Numbers
	}
	for _, l := range []string{c.Text, c.Now} {
		if l != "" {
			spec.Lines = append(spec.Lines, l)
		}
	}
	return parts.NewCard(spec)
}

// company are kinds that go with it; each leads to its page.
func (k *Kind) company() []fyne.CanvasObject {
	head := working.Key("page.kind.company")
	switch {
	case k.view.Fit == nil:
		head = "page.kind.company_alone"
	case k.view.Fit.Verdict == fish.No:
		return nil
	}
	out := []fyne.CanvasObject{parts.TextOf(k.t(head), parts.Section)}
	for _, s := range k.shown.Company {
		out = append(out, openCard(k.deps, k.tank, s))
	}
	if len(k.shown.Company) == 0 {
		out = append(out, parts.TextOf(k.t("page.kind.no_company"), parts.SoftBody))
	}
	return out
}

// openCard is a kind that leads to its page.
func openCard(d nav.Deps, tank string, s present.Kind) fyne.CanvasObject {
	a, err := fish.Get(s.Code)
	if err != nil {
		return parts.TextOf(s.Name, parts.Body)
	}
	return parts.NewOpenCard(cardOf(s, sketchOf(a)), func() { d.Go(nav.Route{Place: nav.Kinds, Tank: tank, Species: string(s.Code)}) })
}

// step counts one more or one fewer.
func (k *Kind) step(by int) {
	n, _ := strconv.Atoi(k.count.Text())
	k.count.Type(strconv.Itoa(max(1, min(n+by, fish.MaxCount))))
	k.try()
}

// lot is what is tried; false with the reason at its box where it cannot be.
func (k *Kind) lot() (fish.Lot, bool) {
	l := fish.Lot{Code: k.code, Planned: true}
	n, err := strconv.Atoi(k.count.Text())
	ok := k.check(k.count, err == nil && n >= 1 && n <= fish.MaxCount, quantity.Count(1), quantity.Count(fish.MaxCount), "q.fish.count")
	l.Count = n
	if words := k.males.Text(); ok && words != "" {
		m, err := strconv.Atoi(words)
		ok = k.check(k.males, err == nil && m >= 0 && m <= n, 0, quantity.Count(n), "q.fish.males")
		l.Males = &m
	} else {
		k.check(k.males, true, 0, 0, "")
	}
	return l, ok
}

// check says at a box what it takes, where it does not take what stands in it.
func (k *Kind) check(f *parts.Field, ok bool, low, high quantity.Count, name working.Key) bool {
	s := f.Spec()
	s.Error = ""
	if !ok {
		s.Error = k.deps.Present.W.T("page.kind.takes", i18n.Args{"Name": name, "Low": low.Value(), "High": high.Value()})
	}
	if s != f.Spec() {
		s.Text = f.Text()
		f.Set(s)
	}
	return ok
}

// try judges what would come of adding so many.
func (k *Kind) try() {
	if k.view.Fit == nil || k.shown.Refused || k.count.Text() == "" {
		return
	}
	l, ok := k.lot()
	if !ok {
		k.result.Set()
		return
	}
	g, err := k.deps.Keeper.GetOn(context.Background(), k.tank, l)
	if err != nil {
		k.deps.Fail(err)
		return
	}
	k.tried = g
	shown := k.deps.Present.GetOn(g)
	lines := shown.Head.Lines
	out := []fyne.CanvasObject{parts.NewVerdict(parts.VerdictSpec{Kicker: k.deps.Present.W.T("page.kind.tried", i18n.Args{"Group": k.deps.Present.W.N("n.animals", float64(l.Count), nil)}),
		State: nav.State(shown.Head.State), Title: shown.Head.Title, Lines: lines})}
	for _, b := range topBars(shown) {
		out = append(out, bar(b))
	}
	for _, c := range shown.Clashes {
		if c.A == k.code || c.B == k.code {
			out = append(out, clashCard(c))
		}
	}
	k.result.Set(out...)
}

// plan wishes for what is tried.
func (k *Kind) plan() {
	l, ok := k.lot()
	if !ok {
		return
	}
	nav.Change(k.deps, k.tank, func(ctx context.Context) error {
		_, err := k.deps.Keeper.AddWish(ctx, k.tank, keeper.Wish{Species: k.code, Count: l.Count, Males: l.Males})
		return err
	}, "page.kind.wished", k.Refresh)
}
