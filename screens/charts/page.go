package charts

import (
	"context"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// span is the days that are looked at, empty for no bound; a zoom also has
// times within days.
type span struct {
	first, last string
	x0, x1      float64 // of a zoom; 0 and 0 for whole days
}

// Page is the charts of a tank.
type Page struct {
	deps nav.Deps
	tank string
	root *fyne.Container
	long *parts.Long
	head fyne.CanvasObject
	tabs fyne.CanvasObject

	days   int // the last so many days; 0 for all, -1 for dates of one's own
	now    span
	before []span // what was seen before zooming in, the latest last
	what   string // the one thing to show; "" for all
	with   string // another tank beside, every for all of them
	table  bool

	tanks []keeper.Tank
	seen  []seen // as shown
	rows  []journal.Entry
	views []*chart.View

	from, to       *parts.Field
	choice, beside *parts.Choice
	spans          []*parts.Button
	back, flip     *parts.Button
	picture, file  *parts.Button
	legend         *parts.Legend
	empty          *parts.Text
}

// every is the code for all tanks beside this one.
const every = "*"

// seen is what was measured in one of the tanks shown.
type seen struct {
	tank keeper.Tank
	keeper.Traces
}

var _ nav.Page = (*Page)(nil)

// New opens the charts of a tank, of the last three months.
func New(d nav.Deps, tank string) *Page {
	p := &Page{deps: d, tank: tank, days: 91, long: parts.NewLong("measured", 8)}
	p.long.OnOpen = func(i int) {
		p.deps.Go(nav.Route{Place: nav.Daybook, Tank: p.tank, Entry: p.rows[i].ID})
	}
	p.head = parts.NewText(parts.TextSpec{Text: p.t("nav.view.charts"), Role: parts.Heading})
	p.tabs = nav.ViewRow(d, tank, nav.Charts)
	p.from = parts.NewField(parts.FieldSpec{})
	p.to = parts.NewField(parts.FieldSpec{})
	p.from.OnEnter, p.to.OnEnter = p.own, p.own
	p.choice = parts.NewChoice(parts.ChoiceSpec{}, func(code string) { p.what = code; p.Refresh() })
	p.beside = parts.NewChoice(parts.ChoiceSpec{}, func(code string) { p.with = code; p.Refresh() })
	for _, n := range spans {
		p.spans = append(p.spans, parts.NewButton(parts.ButtonSpec{}, func() { p.look(n.days) }))
	}
	p.back = p.deps.Button("whole", "page.chart.whole", parts.Secondary, p.out)
	p.flip = parts.NewButton(parts.ButtonSpec{}, func() { p.table = !p.table; p.Refresh() })
	p.picture = p.deps.Button("save-picture", "page.chart.save_picture", parts.Quiet, p.savePicture)
	p.file = p.deps.Button("save-table", "page.chart.save_table", parts.Quiet, p.saveTable)
	p.legend = parts.NewLegend()
	p.empty = parts.NewText(parts.TextSpec{Role: parts.SoftBody})
	p.root = container.New(wide{}, p.long)
	p.Refresh()
	return p
}

// spans are the lengths of time offered.
var spans = []struct {
	days int
	key  working.Key
}{{30, "page.chart.days_30"}, {91, "page.chart.months_3"}, {365, "page.chart.year"}, {0, "page.chart.all"}}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Focus implements nav.Page.
func (p *Page) Focus() {
	if c := p.deps.Canvas(); c != nil {
		for i, n := range spans {
			if n.days == p.days || i == 0 {
				c.Focus(p.spans[i])
			}
		}
	}
}

// Key acts on a key typed while nothing has the focus.
func (p *Page) Key(ev *fyne.KeyEvent) bool { return p.long.Key(ev) }

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// look shows the last so many days.
func (p *Page) look(days int) {
	p.days, p.before = days, nil
	p.Refresh()
}

// own shows the days typed.
func (p *Page) own() {
	read := func(f *parts.Field) (string, bool) {
		s := f.Spec()
		s.Text, s.Error = f.Text(), ""
		date, ok := p.deps.Present.ParseDay(s.Text, p.deps.Now())
		if !ok {
			s.Error = p.deps.Present.W.T("page.ledger.day_refused", i18n.Args{"Example": p.deps.Present.DayExample()})
		}
		f.Set(s)
		return date, ok
	}
	first, ok := read(p.from)
	last, ok2 := read(p.to)
	if !ok || !ok2 {
		return
	}
	if last < first {
		first, last = last, first
	}
	p.days, p.before, p.now = -1, nil, span{first: first, last: last}
	p.Refresh()
}

// in looks closer at what was drawn out.
func (p *Page) in(x0, x1 float64) {
	const least = 6 * 3600 // judgement: shorter than a visit to the tank shows nothing more
	if x1-x0 < least {
		x0, x1 = (x0+x1-least)/2, (x0+x1+least)/2
	}
	p.before = append(p.before, p.now)
	day := func(x float64) string { return time.Unix(int64(x), 0).UTC().Format(time.DateOnly) }
	p.now = span{day(x0), day(x1), x0, x1}
	p.show(false)
}

// out goes back by one step to what was seen before.
func (p *Page) out() {
	if n := len(p.before); n > 0 {
		p.now, p.before = p.before[n-1], p.before[:n-1]
		p.show(false)
	}
}

// Refresh implements nav.Page.
func (p *Page) Refresh() { p.show(true) }

func (p *Page) show(whole bool) {
	if whole && len(p.before) == 0 && p.days >= 0 {
		p.now = span{last: p.deps.Now().Format(time.DateOnly)}
		if p.days > 0 {
			p.now.first = p.deps.Now().AddDate(0, 0, 1-p.days).Format(time.DateOnly)
		}
	}
	if !p.read() {
		return
	}
	p.controls()
	head := []fyne.CanvasObject{p.head, p.tabs, p.spanRow(), p.fields(), parts.NewFlow(p.flip, p.back, p.picture, p.file)}
	some := false
	for _, s := range p.seen {
		some = some || len(s.Traces.Traces) > 0
	}
	if !some {
		p.views, p.rows = nil, nil
		p.empty.Set(parts.TextSpec{Role: parts.SoftBody, Text: p.t("page.chart.nothing")})
		p.long.Set(table{p})
		p.long.Head().Set(append(head, p.empty)...)
		return
	}
	if p.table {
		p.views = nil
		p.long.Set(table{p})
		p.long.Head().Set(head...)
		return
	}
	p.rows = nil
	p.long.Set(table{p})
	head = append(head, p.legend)
	for _, v := range p.draw() {
		head = append(head, v)
	}
	p.long.Head().Set(head...)
}

// read asks for what is shown; it reports false when it cannot be had.
func (p *Page) read() bool {
	ctx := context.Background()
	var err error
	if p.tanks, err = p.deps.Keeper.Tanks(ctx); err != nil {
		p.deps.Fail(err)
		return false
	}
	names := keeper.TraceNames()
	if p.what != "" {
		names = []string{p.what}
	}
	p.seen = nil
	own := slices.IndexFunc(p.tanks, func(t keeper.Tank) bool { return t.ID == p.tank })
	for i, t := range p.tanks {
		if i != own && p.with != every && p.with != t.ID {
			continue
		}
		tr, err := p.deps.Keeper.Traces(ctx, t.ID, names, p.now.first, p.now.last)
		if err != nil {
			p.deps.Fail(err)
			return false
		}
		s := seen{t, tr}
		if i == own {
			p.seen = append([]seen{s}, p.seen...)
		} else {
			p.seen = append(p.seen, s)
		}
	}
	p.rows, err = p.deps.Keeper.Measured(ctx, p.tank, names, p.now.first, p.now.last)
	slices.Reverse(p.rows)
	if err != nil {
		p.deps.Fail(err)
	}
	return err == nil
}

func (p *Page) spanRow() fyne.CanvasObject {
	var row []fyne.CanvasObject
	for i, n := range spans {
		spec := parts.ButtonSpec{ID: "span_" + string(n.key), Label: p.t(n.key), Kind: parts.View}
		if n.days == p.days && len(p.before) == 0 {
			spec.Kind = parts.ViewHere
		}
		p.spans[i].Set(spec)
		row = append(row, p.spans[i])
	}
	return parts.NewFlow(row...)
}

func (p *Page) fields() fyne.CanvasObject {
	row := []fyne.CanvasObject{p.from, p.to, p.choice}
	if len(p.tanks) > 1 {
		row = append(row, p.beside)
	}
	return parts.NewRowOf(4, row...)
}

// controls sets what chooses to what is shown.
func (p *Page) controls() {
	w := p.deps.Present.W
	x0, x1 := p.bounds()
	typed := func(f *parts.Field, id string, label working.Key, x float64) {
		f.Set(parts.FieldSpec{ID: id, Label: p.t(label), Text: p.deps.Present.TypedDay(x), Placeholder: p.deps.Present.DayExample()})
	}
	typed(p.from, "from", "page.chart.from", x0)
	typed(p.to, "to", "page.chart.to", max(x0, x1-1))
	s := parts.ChoiceSpec{ID: "what", Label: p.t("page.chart.what"), Chosen: p.what, Options: []parts.Option{{Label: p.t("page.chart.everything")}}, Search: p.t("label.search")}
	for _, n := range keeper.TraceNames() {
		s.Options = append(s.Options, parts.Option{Code: n, Label: p.deps.Present.TraceName(n)})
	}
	p.choice.Set(s)
	b := parts.ChoiceSpec{ID: "beside", Label: p.t("page.chart.beside"), Chosen: p.with, Options: []parts.Option{{Label: p.t("page.chart.alone")}}, Search: p.t("label.search")}
	for _, t := range p.tanks {
		if t.ID != p.tank {
			b.Options = append(b.Options, parts.Option{Code: t.ID, Label: t.Name})
		}
	}
	if len(p.tanks) > 2 {
		b.Options = append(b.Options, parts.Option{Code: every, Label: p.t("page.chart.every_tank")})
	}
	p.beside.Set(b)
	flip := working.Key("page.chart.as_table")
	if p.table {
		flip = "page.chart.as_charts"
	}
	p.flip.Set(parts.ButtonSpec{ID: "flip", Label: w.T(flip, nil)})
	parts.Show(p.back, len(p.before) > 0)
	parts.Show(p.picture, !p.table)
}

// wide gives the page all the room, with margins.
type wide struct{}

const margin = 28 // points. Judgement

func (wide) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(600, 400) }

func (wide) Layout(o []fyne.CanvasObject, s fyne.Size) {
	for _, x := range o {
		x.Move(fyne.NewPos(margin, 0))
		x.Resize(fyne.NewSize(s.Width-2*margin, s.Height))
	}
}

// chartTall is the height of one chart in points at 100 %. Judgement: four in a window.
const chartTall = 172

// draw makes the charts, or uses those there are again.
func (p *Page) draw() []*chart.View {
	specs, legend := p.specs()
	p.legend.Set(legend...)
	k := float32(look.ScaleFor(p.long))
	for len(p.views) < len(specs) {
		p.views = append(p.views, chart.NewView(chart.Spec{}))
	}
	p.views = p.views[:len(specs)]
	for i, c := range specs {
		v := p.views[i]
		v.ReadOut = c.says
		v.OnZoom = p.in
		v.OnRead = func(r chart.Reading, ok bool) { // the others show what they say at that time
			for _, o := range p.views {
				if o != v {
					o.Follow(r.X, ok)
				}
			}
		}
		v.OnFocus = func() { p.long.Reveal(v) }
		v.SetMinSize(fyne.NewSize(240, chartTall*k))
		v.Set(c.Spec)
	}
	return p.views
}
