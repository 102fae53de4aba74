package plan

import (
	"context"
	"errors"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// row is a wish on the page.
type row struct {
	page  *Page
	wish  keeper.Wish
	said  *parts.Verdict
	count *parts.Field
	males *parts.Field
}

// wishes are the rows of what is wished for.
func (p *Page) wishes() []fyne.CanvasObject {
	p.rows = nil
	var out []fyne.CanvasObject
	for i, w := range p.view.Wishes {
		r := &row{page: p, wish: w.Wish, said: parts.NewVerdict(parts.VerdictSpec{})}
		l := p.shown.Wishes[i]
		r.count = parts.NewField(parts.FieldSpec{ID: "count-" + string(l.Code), Label: p.t("page.plan.count"), Text: strconv.Itoa(l.Count)})
		r.males = parts.NewField(parts.FieldSpec{ID: "males-" + string(l.Code), Label: p.t("page.stock.males"), Text: told(w.Males)})
		for _, b := range []*parts.Field{r.count, r.males} {
			b.OnChanged = func(string) { r.typed() }
			b.OnCommit = func(string) { r.commit() }
		}
		r.count.OnStep = func(by int) {
			if n, ok := p.number(r.count.Text()); ok && n+by > 0 {
				r.count.Type(strconv.Itoa(n + by))
			}
		}
		r.say(l)
		away := p.deps.Button("leave-out-"+string(l.Code), "page.plan.leave_out", parts.Quiet, func() {
			p.change(func(ctx context.Context) error { return p.deps.Keeper.RemoveWish(ctx, p.tank, r.wish.ID) }, "page.plan.left_out")
		})
		out = append(out, parts.NewColumn(4, r.said, parts.NewRow(r.count, r.males, away)))
		p.rows = append(p.rows, r)
	}
	return out
}

// say shows how a wish fits.
func (r *row) say(l present.WishLine) {
	lines := slices.Clone(l.Lines)
	if l.Cure != "" {
		lines = append(lines, l.Cure)
	}
	if len(lines) == 0 || l.In {
		lines = append(lines, l.Full)
	}
	w := r.page.deps.Present.W
	r.said.Set(parts.VerdictSpec{Kicker: l.Scientific, State: nav.State(l.State),
		Title: w.T("page.plan.wish_title", i18n.Args{"Name": l.Name, "Word": l.Word}), Lines: lines})
}

// number reads a count as typed.
func (p *Page) number(text string) (int, bool) {
	m, err := quantity.Parse(strings.TrimSpace(text), quantity.KindCount, p.deps.Present.W.Reading(quantity.KindCount, i18n.General))
	if err != nil {
		return 0, false
	}
	v, err := m.Value()
	n := int(v.X)
	return n, err == nil && float64(n) == v.X
}

// told writes a number that may not be known.
func told(n *int) string {
	if n == nil {
		return ""
	}
	return strconv.Itoa(*n)
}

// draft is the wish with the numbers typed; no males typed is not known.
func (r *row) draft() (keeper.Wish, error) {
	w := r.wish
	n, ok := r.page.number(r.count.Text())
	if !ok {
		return w, working.Refuse("count", "refuse.whole_number")
	}
	w.Count, w.Males = n, nil
	if text := strings.TrimSpace(r.males.Text()); text != "" {
		m, ok := r.page.number(text)
		if !ok {
			return w, working.Refuse("males", "refuse.whole_number")
		}
		w.Males = &m
	}
	return w, nil
}

// fault says below its box what was refused, and nothing below the other.
func (r *row) fault(err error) {
	var refused *working.Refusal
	ofMales := errors.As(err, &refused) && refused.Field == "males"
	for _, b := range []*parts.Field{r.count, r.males} {
		s := b.Spec()
		if s.Error = ""; err != nil && (b == r.males) == ofMales {
			s.Error = r.page.refused(err)
		}
		b.Set(s)
	}
}

// typed shows at once how what is typed would fit.
func (r *row) typed() {
	w, err := r.draft()
	var fits keeper.Wished
	if err == nil {
		fits, err = r.page.deps.Keeper.WishFits(context.Background(), r.page.tank, w)
	}
	if r.fault(err); err == nil {
		r.say(r.page.deps.Present.Wished(fits))
	}
}

func (p *Page) refused(err error) string {
	var r *working.Refusal
	if errors.As(err, &r) {
		return p.deps.Present.W.Refusal(r)
	}
	return err.Error()
}

// commit keeps what was typed.
func (r *row) commit() {
	w, err := r.draft()
	if err != nil || w.Count == r.wish.Count && told(w.Males) == told(r.wish.Males) {
		r.typed()
		return
	}
	p := r.page
	of := r.count
	if c := p.deps.Canvas(); c != nil && c.Focused() == r.males.Focusable() {
		of = r.males
	}
	p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.SetWish(ctx, p.tank, w) }, func(err error) {
		var refusal *working.Refusal
		switch {
		case errors.As(err, &refusal):
			r.fault(err)
			return
		case err != nil:
			p.deps.Fail(err)
			return
		}
		nav.Did(p.deps, p.tank, "page.plan.changed", p.Refresh)
		p.refocus(w.ID, of == r.males)
	})
}

// refocus puts the keyboard back into a box of a wish, if it was in one.
func (p *Page) refocus(id string, males bool) {
	c := p.deps.Canvas()
	if c == nil || c.Focused() != nil {
		return
	}
	for _, r := range p.rows {
		if r.wish.ID == id && males {
			c.Focus(r.males.Focusable())
		} else if r.wish.ID == id {
			c.Focus(r.count.Focusable())
		}
	}
}

// offer lists the kinds to wish for, by name.
func (p *Page) offer() {
	spec := parts.ChoiceSpec{ID: "wish", Label: p.t("page.plan.add"), Placeholder: p.t("page.plan.choose"), Search: p.t("page.plan.search"), Empty: p.t("page.plan.no_kind")}
	for _, a := range fish.All() {
		spec.Options = append(spec.Options, parts.Option{Code: string(a.Code), Label: p.deps.Present.KindName(a.Code)})
	}
	slices.SortFunc(spec.Options, func(a, b parts.Option) int {
		return strings.Compare(strings.ToLower(a.Label), strings.ToLower(b.Label))
	})
	p.add.Set(spec)
}

// wish asks for a first group of a kind.
func (p *Page) wish(code string) {
	a, err := fish.Get(fish.Code(code))
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.want(keeper.Wish{Species: a.Code, Count: a.MinGroup})
}

func (p *Page) want(w keeper.Wish) {
	p.change(func(ctx context.Context) error {
		_, err := p.deps.Keeper.AddWish(ctx, p.tank, w)
		return err
	}, "page.plan.wished")
}
