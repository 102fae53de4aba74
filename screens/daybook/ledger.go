package daybook

import (
	"context"
	"errors"
	"image"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/picture"
)

// ledger is the entries of the page: what chooses among them, the month with its
// marks, and the list.
type ledger struct {
	page *Page
	long *parts.Long

	filter  keeper.LedgerFilter
	rows    *keeper.Ledger
	judged  map[string]keeper.Judgement
	asked   map[string]bool // tests whose judgement is on its way
	looking int             // the search under way; older ones are let go
	shown   time.Time       // the first of the month of the strip

	words, day   *parts.Field
	kind, fish   *parts.Choice
	month        *parts.Month
	before, next *parts.Button
	now, clear   *parts.Button
	count        *parts.Text
	empty        *parts.Text
}

func newLedger(p *Page) *ledger {
	l := &ledger{page: p, long: parts.NewLong("ledger", 8), judged: map[string]keeper.Judgement{}, asked: map[string]bool{}}
	l.long.OnOpen = func(i int) { p.edit(l.rows.Entry(i).ID) }
	l.long.OnSeen = l.seen
	l.words = parts.NewField(parts.FieldSpec{ID: "find", Label: p.t("page.ledger.words")})
	l.words.OnChanged = func(s string) { l.filter.Text = s; l.look() }
	l.day = parts.NewField(parts.FieldSpec{ID: "go-day", Label: p.t("page.ledger.day"), Placeholder: p.deps.Present.DayExample()})
	l.day.OnEnter = l.jump
	l.kind = parts.NewChoice(parts.ChoiceSpec{}, func(code string) { l.filter.Kind = journal.Kind(code); l.look() })
	l.fish = parts.NewChoice(parts.ChoiceSpec{}, func(code string) { l.filter.Fish = code; l.look() })
	l.month = parts.NewMonth(parts.MonthSpec{ID: "month"})
	l.month.OnDay = func(day int) { l.to(l.shown.AddDate(0, 0, day-1).Format(time.DateOnly)) }
	l.month.OnMonth = func(by int) { l.turn(by) }
	l.before = parts.NewButton(parts.ButtonSpec{}, func() { l.turn(-1) })
	l.next = parts.NewButton(parts.ButtonSpec{}, func() { l.turn(1) })
	l.now = parts.NewButton(parts.ButtonSpec{ID: "today", Label: p.t("label.today"), Kind: parts.Quiet}, func() {
		l.shown = firstOf(p.deps.Now())
		l.strip()
		l.long.GoTo(0)
		l.long.Top()
	})
	l.clear = parts.NewButton(parts.ButtonSpec{ID: "all", Label: p.t("page.ledger.all")}, l.clearAll)
	l.count = parts.NewText(parts.TextSpec{Role: parts.Note})
	l.empty = parts.NewText(parts.TextSpec{Role: parts.SoftBody})
	l.shown = firstOf(p.deps.Now())
	return l
}

func firstOf(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), 1, 0, 0, 0, 0, time.UTC)
}

// read takes the entries as they now are and shows them below what the page puts
// first.
func (l *ledger) read(above ...fyne.CanvasObject) {
	p := l.page
	rows, err := p.deps.Keeper.Ledger(context.Background(), p.tank, l.filter)
	if r := (*working.Refusal)(nil); errors.As(err, &r) && l.filter.Fish != "" { // the fish is gone
		l.filter.Fish = ""
		rows, err = p.deps.Keeper.Ledger(context.Background(), p.tank, l.filter)
	}
	if err != nil {
		p.deps.Fail(err)
		return
	}
	l.choices()
	filters := []fyne.CanvasObject{p.other, l.words, l.kind}
	if len(l.fish.Spec().Options) > 1 {
		filters = append(filters, l.fish)
	}
	above = append(above, parts.NewRowOf(len(filters)+1, append(filters, l.day)...), parts.NewFlow(l.before, l.next, l.now), l.month, l.count, l.clear, l.empty)
	clear(l.judged)
	clear(l.asked)
	l.take(rows)
	l.long.Head().Set(above...)
}

// take shows other entries.
func (l *ledger) take(rows *keeper.Ledger) {
	l.rows = rows
	w, some := l.page.deps.Present.W, l.filter.Any()
	l.count.Set(parts.TextSpec{Role: parts.Note, Text: w.T("page.ledger.found", i18n.Args{"Some": w.Number(float64(rows.Len()), 9), "All": w.N("n.entries", float64(rows.All()), nil)})})
	said := working.Key("page.day.empty")
	if some {
		said = "page.ledger.none"
	}
	l.empty.Set(parts.TextSpec{Role: parts.SoftBody, Text: l.page.t(said)})
	parts.Show(l.count, some && rows.Len() > 0)
	parts.Show(l.clear, some)
	parts.Show(l.empty, rows.Len() == 0)
	l.strip()
	l.long.Set(rowsOf{l})
	l.long.Head().Reflow()
}

// look searches anew, beside the window; what was asked before is let go.
func (l *ledger) look() {
	l.looking++
	n, f, p := l.looking, l.filter, l.page
	var rows *keeper.Ledger
	var err error
	p.deps.Aside(func(ctx context.Context) { rows, err = p.deps.Keeper.Ledger(ctx, p.tank, f) }, func() {
		switch {
		case n != l.looking:
		case err != nil:
			p.deps.Fail(err)
		default:
			l.choices()
			l.take(rows)
			l.long.Top()
		}
	})
}

func (l *ledger) clearAll() {
	l.filter = keeper.LedgerFilter{}
	s := l.words.Spec()
	s.Text = ""
	l.words.Set(s)
	l.look()
	if c := l.page.deps.Canvas(); c != nil {
		c.Focus(l.words.Focusable())
	}
}

// choices offers the kinds, and the fish that go by a name.
func (l *ledger) choices() {
	p := l.page
	every := parts.Option{Label: p.t("page.ledger.every")}
	kinds := parts.ChoiceSpec{ID: "kind", Label: p.t("page.ledger.kind"), Chosen: string(l.filter.Kind), Options: []parts.Option{every}, Search: p.t("label.search")}
	for _, k := range journal.Kinds() {
		kinds.Options = append(kinds.Options, parts.Option{Code: string(k), Label: p.t(working.Key("entry." + string(k)))})
	}
	l.kind.Set(kinds)
	fish := parts.ChoiceSpec{ID: "fish", Label: p.t("page.ledger.fish"), Chosen: l.filter.Fish, Options: []parts.Option{{Label: p.t("page.ledger.any_fish")}}, Search: p.t("label.search")}
	named, err := p.deps.Keeper.FishOf(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
	}
	for _, f := range named {
		fish.Options = append(fish.Options, parts.Option{Code: f.ID, Label: p.deps.Present.FishName(f)})
	}
	l.fish.Set(fish)
}

// strip shows the month with its marks.
func (l *ledger) strip() {
	p, w := l.page, l.page.deps.Present.W
	last := l.shown.AddDate(0, 1, -1)
	today := p.deps.Now().Format(time.DateOnly)
	s := parts.MonthSpec{ID: "month", Title: w.MonthHeading(l.shown), Many: p.t("page.ledger.many"), Round: p.t("entry.tested"), Square: p.t("entry.changed"), Hint: p.t("page.ledger.month_hint")}
	s.Days = make([]parts.MonthDay, last.Day())
	for i := range s.Days {
		d := l.shown.AddDate(0, 0, i)
		date := d.Format(time.DateOnly)
		s.Days[i] = parts.MonthDay{Today: date == today, Off: date > today, Says: p.deps.Present.LedgerDay(d, keeper.DayCount{})}
	}
	if l.rows != nil {
		for _, c := range l.rows.Days(l.shown.Format(time.DateOnly), last.Format(time.DateOnly)) {
			d, err := time.Parse(time.DateOnly, c.Date)
			if err != nil {
				continue
			}
			m := &s.Days[d.Day()-1]
			m.Count, m.Round, m.Square, m.Off, m.Says = c.Entries, c.Tested, c.Changed, false, p.deps.Present.LedgerDay(d, c)
		}
	}
	l.month.Set(s)
	button := func(b *parts.Button, id string, key working.Key, by int) {
		b.Set(parts.ButtonSpec{ID: id, Kind: parts.Quiet, Label: w.T(key, i18n.Args{"Month": w.MonthHeading(l.shown.AddDate(0, by, 0))})})
	}
	button(l.before, "month-before", "page.ledger.month_before", -1)
	button(l.next, "month-next", "page.ledger.month_next", 1)
	parts.Show(l.next, l.shown.AddDate(0, 1, 0).Format(time.DateOnly) <= today)
}

func (l *ledger) turn(by int) {
	to := l.shown.AddDate(0, by, 0)
	if by > 0 && to.After(firstOf(l.page.deps.Now())) {
		return
	}
	l.shown = to
	l.strip()
}

// jump goes to the day that was typed.
func (l *ledger) jump() {
	s := l.day.Spec()
	s.Text, s.Error = l.day.Text(), ""
	date, ok := l.page.deps.Present.ParseDay(s.Text, l.page.deps.Now())
	if !ok {
		s.Error = l.page.deps.Present.W.T("page.ledger.day_refused", i18n.Args{"Example": l.page.deps.Present.DayExample()})
	}
	l.day.Set(s)
	if ok {
		l.to(date)
	}
}

// to goes to the first entry of a day, or where it has none to the nearest
// earlier one.
func (l *ledger) to(date string) {
	if l.rows == nil || l.rows.Len() == 0 {
		return
	}
	l.long.GoTo(min(l.rows.PlaceOfDay(date), l.rows.Len()-1))
	if c := l.page.deps.Canvas(); c != nil {
		c.Focus(l.long.Focusable())
	}
}

// ahead is how many rows beyond those in view are judged with them. Judgement:
// some screens of scrolling.
const ahead = 120

// seen follows the list: the strip shows the month in view, and tests in view and
// near it are judged beside the window.
func (l *ledger) seen(first, last int) {
	if first < 0 || l.rows == nil {
		return
	}
	if d, err := time.Parse(time.DateOnly, l.rows.Day(first)); err == nil && first > 0 && firstOf(d) != l.shown {
		l.shown = firstOf(d)
		l.strip()
	}
	near := false // a test in view, or soon to be, waits for its judgement
	var ids []string
	for i := max(0, first-ahead); i <= min(last+ahead, l.rows.Len()-1); i++ {
		if l.rows.Kind(i) != journal.Tested {
			continue
		}
		if id := l.rows.Entry(i).ID; !l.asked[id] {
			ids = append(ids, id)
			near = near || i >= first-ahead/4 && i <= last+ahead/4
		}
	}
	if !near {
		return
	}
	for _, id := range ids {
		l.asked[id] = true
	}
	p, rows := l.page, l.rows
	var judged map[string]keeper.Judgement
	p.deps.Aside(func(ctx context.Context) { judged, _ = p.deps.Keeper.JudgeOf(ctx, p.tank, ids...) }, func() {
		if l.rows != rows && len(l.judged) == 0 && len(l.asked) == 0 { // read anew meanwhile
			return
		}
		for id, j := range judged {
			l.judged[id] = j
		}
		l.long.Changed()
	})
}

// rowsOf gives the list its rows.
type rowsOf struct{ l *ledger }

func (r rowsOf) Len() int                    { return r.l.rows.Len() }
func (r rowsOf) Place(id string) (int, bool) { return r.l.rows.Place(id) }

func (r rowsOf) Row(i int) parts.LongRowSpec {
	l, pr := r.l, r.l.page.deps.Present
	e := l.rows.Entry(i)
	row := pr.Entry(e)
	s := parts.LongRowSpec{ID: e.ID, Time: row.Time, Kind: row.Kind, Text: row.Text, Note: row.Note}
	if day := e.At.Day(); i == 0 || l.rows.Day(i-1) != day {
		s.Heading = pr.LedgerHeading(day, l.page.deps.Now())
	}
	if j, ok := l.judged[e.ID]; ok {
		s.Note, s.State = pr.W.State(j.State), nav.State(j.State)
	}
	if e.Sick != "" {
		s.Mark = l.page.t("page.ledger.case")
	}
	if of := l.rows.Pictures(i); len(of) > 0 {
		s.More = func(n int) string { return pr.W.N("n.more", float64(n), nil) }
		s.Pictures = make([]image.Image, len(of))
		w, h := l.pixels()
		for n, x := range of[:min(len(of), mostInRow)] {
			s.Pictures[n], _ = l.page.deps.Thumbs.Get(picture.Key{Hash: x.Hash, Turned: x.Turned, W: w, H: h}, l.long.Changed)
		}
	}
	return s
}

// mostInRow is how many pictures a row can ever hold. Judgement: a wide window.
const mostInRow = 16

// pixels is the size of a picture of a row on the screen.
func (l *ledger) pixels() (w, h int) {
	k := float32(1)
	if c := l.page.deps.Canvas(); c != nil {
		k = c.Scale()
	}
	pw, ph := parts.LongPicture(l.long)
	return int(pw * k), int(ph * k)
}
