package kinds

import (
	"context"
	"errors"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// List is the catalogue.
type List struct {
	deps nav.Deps
	tank string // empty for none
	root *fyne.Container
	side *side // nil without a tank
	long *parts.Long

	cat    *keeper.Catalogue
	names  func(fish.Code) []string
	found  []keeper.Kind
	cards  map[fish.Code]parts.Sketch
	filter fish.Filter
	memory *Memory

	search             *parts.Field
	only               *parts.Tick
	choices            []*parts.Choice
	count, empty, note *parts.Text
	clear, more        *parts.Button
}

// Memory is what was looked for last, so that the way back from an animal leads to
// the same place in the list.
type Memory struct {
	tank   string
	words  string
	chosen map[string]string // of the choices
	fits   bool
	open   bool   // the filters are shown
	at     string // the row that was opened
}

var _ nav.Page = (*List)(nil)

// New makes the catalogue of a tank, or of none where tank is empty, as it was left.
func New(d nav.Deps, tank string, m *Memory) *List {
	if m.chosen == nil || m.tank != tank {
		*m = Memory{tank: tank, fits: true, chosen: map[string]string{}}
	}
	l := &List{deps: d, tank: tank, memory: m, long: parts.NewLong("kinds", 10), names: present.KindNames(), cards: map[fish.Code]parts.Sketch{}}
	l.long.OnOpen = func(i int) { l.open(l.found[i]) }
	l.long.Keys.Back = l.Focus
	l.search = parts.NewField(parts.FieldSpec{ID: "find-kind", Label: l.t("page.kinds.search"), Placeholder: l.t("page.kinds.search_eg"), Text: m.words})
	l.search.OnChanged = func(s string) { m.words, l.filter.Text = s, s; l.look() }
	l.search.OnEnter = l.toRows
	l.search.OnStep = func(by int) {
		if by < 0 {
			l.toRows()
		}
	}
	only := func() parts.TickSpec {
		return parts.TickSpec{ID: "only-fits", Text: l.t("page.kinds.only_fits"), Done: m.fits, Strong: true}
	}
	l.only = parts.NewTick(only(), func(on bool) {
		m.fits = on
		l.only.Set(only())
		l.look()
	})
	l.more = parts.NewButton(parts.ButtonSpec{ID: "filters"}, func() {
		m.open = !m.open
		l.head()
	})
	l.clear = l.deps.Button("clear-filters", "page.kinds.clear", parts.Quiet, l.clearAll)
	l.count, l.note = parts.NewText(parts.TextSpec{Role: parts.Note}), parts.NewText(parts.TextSpec{Role: parts.Body})
	l.empty = parts.NewText(parts.TextSpec{Role: parts.SoftBody})
	for _, f := range filters {
		l.choices = append(l.choices, parts.NewChoice(parts.ChoiceSpec{ID: f.id}, func(code string) { l.choose(f.id, code) }))
	}
	if tank == "" {
		l.root = container.New(middle{}, l.long)
	} else {
		l.side = newSide(d, tank)
		l.root = container.New(nav.Beside{}, l.side.root, l.long)
	}
	l.Refresh()
	return l
}

// Object implements nav.Page.
func (l *List) Object() fyne.CanvasObject { return l.root }

// Focus implements nav.Page: where one came from an animal, that is gone back to.
func (l *List) Focus() {
	c := l.deps.Canvas()
	if c == nil {
		return
	}
	at := l.memory.at
	l.memory.at = ""
	if i, ok := (rows{l}).Place(at); ok && at != "" {
		l.long.See(i)
		c.Focus(l.long.Focusable())
		return
	}
	c.Focus(l.search.Focusable())
}

// Key acts on a key typed while nothing has the focus.
func (l *List) Key(ev *fyne.KeyEvent) bool { return l.long.Key(ev) }

func (l *List) t(k working.Key) string { return l.deps.Present.W.T(k, nil) }

// Refresh implements nav.Page.
func (l *List) Refresh() {
	ctx := context.Background()
	cat, err := l.deps.Keeper.Catalogue(ctx, l.tank)
	said := ""
	if r := (*working.Refusal)(nil); errors.As(err, &r) && l.tank != "" { // a tank that cannot be: the animals are shown by themselves
		said = l.t("page.kinds.no_size")
		cat, err = l.deps.Keeper.Catalogue(ctx, "")
	}
	if err != nil {
		l.deps.Fail(err)
		return
	}
	l.cat = cat
	if cat.Home != nil && cat.Home.Proposed {
		said = l.t("page.kinds.proposed")
	}
	if cat.Home != nil && cat.Home.Fishless {
		said = strings.TrimSpace(said + "\n" + l.t("page.kinds.fishless"))
	}
	l.note.Set(parts.TextSpec{Role: parts.Body, Text: said})
	if l.side != nil {
		var bars []present.Bar
		if g, err := l.deps.Keeper.GetOn(ctx, l.tank); err == nil {
			bars = topBars(l.deps.Present.GetOn(g))
		}
		l.side.show(bars)
	}
	l.sift()
	l.head()
	l.look()
}

// mostBars is how many limits stand beside a page; all are on the page of their own.
const mostBars = 3 // judgement

// topBars are the limits that govern, and the familiar rule beside them.
func topBars(g present.GetOn) []present.Bar {
	return append(append([]present.Bar(nil), g.Bars[:min(len(g.Bars), mostBars)]...), g.Cross)
}

// head lays out what stands above the rows.
func (l *List) head() {
	purpose := working.Key("page.kinds.purpose")
	if l.cat.Home == nil {
		purpose = "page.kinds.purpose_all"
	}
	out := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(l.t("page.kinds.heading"), parts.Heading), parts.TextOf(l.t(purpose), parts.SoftBody))}
	if l.tank != "" {
		out = append(out, nav.ViewRow(l.deps, l.tank, nav.Kinds))
	}
	out = append(out, l.note, l.search)
	if l.cat.Home != nil {
		out = append(out, l.only)
	}
	spec := parts.ButtonSpec{ID: "filters", Label: l.t("page.kinds.filters"), Kind: parts.Quiet, Disclosure: parts.Shut}
	if l.memory.open {
		spec.Disclosure = parts.Opened
	}
	l.more.Set(spec)
	out = append(out, parts.NewFlow(l.more, l.clear))
	if l.memory.open {
		row := make([]fyne.CanvasObject, len(l.choices))
		for i, c := range l.choices {
			c.Set(l.spec(filters[i]))
			row[i] = c
		}
		out = append(out, parts.NewRowOf(len(row), row...))
	}
	l.long.Head().Set(append(out, l.count, l.empty)...)
}

// look searches anew and shows what is found.
func (l *List) look() {
	l.found = l.cat.Find(l.filter, l.memory.fits && l.cat.Home != nil, l.names)
	_, all := l.cat.Count(fish.Steady)
	l.count.Set(parts.TextSpec{Role: parts.Note, Text: l.deps.Present.Found(len(l.found), all)})
	none := working.Key("page.kinds.none")
	if l.memory.fits && l.cat.Home != nil {
		none = "page.kinds.none_fits"
	}
	l.empty.Set(parts.TextSpec{Role: parts.SoftBody, Text: l.t(none)})
	parts.Show(l.count, len(l.found) > 0)
	parts.Show(l.empty, len(l.found) == 0)
	parts.Show(l.clear, l.filtered())
	l.long.Set(rows{l})
	l.long.Head().Reflow()
}

// toRows puts the keys at the first animal.
func (l *List) toRows() {
	c := l.deps.Canvas()
	if c == nil || len(l.found) == 0 {
		return
	}
	l.long.Select(0)
	c.Focus(l.long.Focusable())
}

func (l *List) open(k keeper.Kind) {
	l.memory.at = rowID(k)
	l.deps.Go(nav.Route{Place: nav.Kinds, Tank: l.tank, Species: string(k.Animal.Code)})
}

// rows are the animals found, as the list shows them.
type rows struct{ *List }

// Len implements parts.LongRows.
func (r rows) Len() int { return len(r.found) }

// Place implements parts.LongRows.
func (r rows) Place(id string) (int, bool) {
	for i, k := range r.found {
		if rowID(k) == id {
			return i, true
		}
	}
	return 0, false
}

func rowID(k keeper.Kind) string { return "kind-" + string(k.Animal.Code) }

// Row implements parts.LongRows.
func (r rows) Row(i int) parts.LongRowSpec {
	k := r.found[i]
	row := parts.LongRowSpec{ID: rowID(k)}
	if r.cat.Home != nil && (i == 0 || r.found[i-1].Verdict() != k.Verdict()) {
		row.Heading = r.t([...]working.Key{"page.kinds.fits_head", "page.kinds.care_head", "page.kinds.no_head"}[k.Verdict()])
	}
	s, ok := r.cards[k.Animal.Code]
	if !ok {
		s = sketchOf(k.Animal)
		r.cards[k.Animal.Code] = s
	}
	card := cardOf(r.deps.Present.Kind(k), s)
	card.ID = row.ID
	row.Card = &card
	return row
}

// cardOf is an animal as a card.
func cardOf(k present.Kind, s parts.Sketch) parts.CardSpec {
	c := parts.CardSpec{ID: "kind-" + string(k.Code), Sketch: s, Title: k.Name, Under: k.Scientific, Facts: k.Facts, Word: k.Word}
	if k.Word != "" {
		c.State = nav.State(k.State)
	}
	if k.Why != "" {
		c.Lines = []string{k.Why}
	}
	return c
}

// middle keeps a page without a tank at a width that reads well.
type middle struct{}

const readable = 960 // points. Judgement

func (middle) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(400, 300) }

func (middle) Layout(o []fyne.CanvasObject, s fyne.Size) {
	w := fyne.Min(s.Width-40, readable)
	for _, x := range o {
		x.Move(fyne.NewPos((s.Width-w)/2, 0))
		x.Resize(fyne.NewSize(w, s.Height))
	}
}
