package present

import (
	"slices"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/sick"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// VisitHold is a part of a visit slip with how much of it there is.
type VisitHold struct {
	Part keeper.VisitPart
	Name string
	Text string // how many; nothing for none
}

// VisitPrivate is something private with how much of it there is.
type VisitPrivate struct {
	What slip.Private
	Name string // what is put in when it is ticked
	Text string // how many there are
}

// VisitPlan says what a visit slip would hold.
type VisitPlan struct {
	Span    string
	Holds   []VisitHold
	Private []VisitPrivate
	Left    []string // what is too much for a slip
}

// VisitPlan presents what a visit slip would hold.
func (p Presenter) VisitPlan(v keeper.VisitPreview) VisitPlan {
	w := p.W
	out := VisitPlan{Span: p.Span(v.Visit.From, v.Visit.To)}
	number := func(n int) string {
		if n == 0 {
			return w.T("page.visit.none", nil)
		}
		return w.Number(float64(n), 9)
	}
	for _, part := range keeper.VisitParts() {
		out.Holds = append(out.Holds, VisitHold{part, p.VisitPart(part), number(v.Count[part])})
	}
	for _, x := range slip.Privates() {
		out.Private = append(out.Private, VisitPrivate{x, p.VisitPrivate(x), number(v.Private[x])})
	}
	if n := v.EarlierEntries; n > 0 {
		out.Left = append(out.Left, w.N("page.visit.earlier_entries", float64(n), nil))
	}
	if n := v.EarlierPictures; n > 0 {
		out.Left = append(out.Left, w.N("page.visit.earlier_pictures", float64(n), nil))
	}
	if n := v.Lost; n > 0 {
		out.Left = append(out.Left, w.N("page.visit.lost", float64(n), nil))
	}
	return out
}

// VisitHeld says what a visit slip that was opened holds.
func (p Presenter) VisitHeld(v slip.Visit) []VisitHold {
	count := map[keeper.VisitPart]int{keeper.VisitFacts: len(v.Facts), keeper.VisitStock: len(v.Stock) + len(v.Wishes), keeper.VisitPictures: len(v.Pictures), keeper.VisitQuestions: len(v.Questions)}
	for _, e := range v.Entries {
		count[keeper.PartOf(e.Kind)]++
	}
	if v.Case != nil {
		count[keeper.VisitCase] = 1
	}
	return p.VisitPlan(keeper.VisitPreview{Visit: v, Count: count}).Holds
}

// VisitPart names a part of a visit slip.
func (p Presenter) VisitPart(x keeper.VisitPart) string {
	return p.W.T(working.Key("word.visit.part."+string(x)), nil)
}

// VisitPrivate names something private.
func (p Presenter) VisitPrivate(x slip.Private) string {
	return p.W.T(working.Key("word.visit.private."+string(x)), nil)
}

// VisitSpan names a span that is offered, in days; 0 is everything.
func (p Presenter) VisitSpan(days int) string {
	if days == 0 {
		return p.W.T("page.visit.all_days", nil)
	}
	return p.W.N("page.visit.last_days", float64(days), nil)
}

// VisitRow is a line of a visit slip.
type VisitRow struct{ Name, Text string }

// VisitEntry is an entry of it, or several that say the same.
type VisitEntry struct{ When, Kind, Text string }

// VisitTable is its water tests, without what was no more than a temperature.
type VisitTable struct {
	Columns []string
	Rows    [][]string
	Entries []int // the place of each row's test among the entries
}

// Visit is a visit slip that was opened, as text.
type Visit struct {
	Title   string   // whose it is
	Beside  string   // when it was made, and of which days
	Holds   string   // what of the private things is in it; empty for none
	Apart   string   // how many pictures it lacks; empty for none
	Net     VisitRow // of water in the tank; empty where it is not known
	Facts   []Said
	Stand   Verdict // empty word where nothing was checked
	Stock   []VisitRow
	Wishes  []VisitRow
	Tests   VisitTable
	Feeding []VisitEntry
	Changes []VisitEntry
	Others  []VisitEntry
	Case    *VisitCase
	// Pictures say of each picture when it was taken, and its caption.
	Pictures  []VisitEntry
	Questions []string
}

// VisitCase is the case of a visit.
type VisitCase struct {
	Heading, Beside string
	Note            string
	Signs           []VisitEntry // since when, and until when
}

// Visit presents a visit slip that was opened.
func (p Presenter) Visit(v slip.Visit) Visit {
	w := p.W
	out := Visit{Title: v.Label, Beside: w.T("page.visit.made", i18n.Args{"Time": p.When(v.Made), "Span": p.Span(v.From, v.To)}), Questions: v.Questions}
	if out.Title == "" {
		out.Title = w.T("page.visit.unnamed", nil)
	}
	var private []string
	for _, x := range v.Private {
		private = append(private, p.VisitPrivate(x))
	}
	if len(private) > 0 {
		out.Holds = w.T("page.visit.holds_private", i18n.Args{"What": w.List(private)})
	}
	if v.Apart > 0 {
		out.Apart = w.N("page.visit.apart", float64(v.Apart), nil)
	}
	if net, err := v.Net.Value(); err == nil {
		out.Net = VisitRow{w.T("page.visit.net", nil), w.For(net, i18n.Tank)}
	}
	out.Facts = p.Answers(v.Facts)
	for _, s := range []working.State{working.Steady, working.Wait, working.Act} {
		if v.Stand == s.String() {
			out.Stand = Verdict{State: s, Word: w.State(s), Title: w.T("page.visit.stand", nil)}
		}
	}
	for _, a := range v.Stock {
		out.Stock = append(out.Stock, p.visitAnimal(a))
	}
	for _, a := range v.Wishes {
		out.Wishes = append(out.Wishes, p.visitAnimal(a))
	}
	out.Tests = p.visitTests(v)
	out.Feeding = p.visitEntries(v, true, journal.Fed)
	out.Changes = p.visitEntries(v, false, journal.Changed, journal.ToppedUp, journal.Dosed, journal.Cleaned)
	out.Others = p.visitOthers(v)
	if v.Case != nil {
		out.Case = p.visitCase(*v.Case)
	}
	for _, x := range v.Pictures {
		when := w.T("page.sick.undated", nil)
		if t, err := x.Taken.Parse(); err == nil { // below a small picture there is little room
			when = w.T("date.time", i18n.Args{"Date": w.ShortDate(t), "Time": w.Time(t)})
		}
		out.Pictures = append(out.Pictures, VisitEntry{When: when, Text: x.Caption})
	}
	return out
}

// whose is a name, or else that of the kind, which may be of a later catalogue.
func (p Presenter) whose(name, species string) string {
	if name == "" && species != "" {
		return p.KindName(fish.Code(species))
	}
	return name
}

func (p Presenter) visitAnimal(a slip.Animal) VisitRow {
	w := p.W
	row := VisitRow{Name: p.FishName(keeper.Fish{Name: p.whose(a.Name, a.Species)})}
	parts := []string{w.Number(float64(a.Count), 9)}
	if a.Males != nil {
		parts = append(parts, w.N("page.visit.males", float64(*a.Males), nil))
	}
	if !a.Length.IsZero() {
		parts = append(parts, w.T("page.visit.long", i18n.Args{"Length": w.Typed(a.Length), "Day": p.day(a.LengthAt)}))
	}
	if a.Since != "" {
		parts = append(parts, w.T("page.visit.since", i18n.Args{"Day": p.day(a.Since)}))
	}
	for _, s := range []string{a.Source, a.Price} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	row.Text = strings.Join(parts, " · ")
	return row
}

// visitTests are the water tests, the newest first, with a column for each reading in
// the order of a test.
func (p Presenter) visitTests(v slip.Visit) VisitTable {
	var tests []slip.VisitEntry
	there := map[string]bool{}
	var rows []int
	for i, e := range slices.Backward(v.Entries) {
		if e.Kind != journal.Tested && e.Kind != journal.TapTested {
			continue
		}
		tests, rows = append(tests, e), append(rows, i)
		for _, r := range e.Readings {
			there[r.Name] = true
		}
	}
	if len(tests) == 0 {
		return VisitTable{}
	}
	t := VisitTable{Columns: []string{p.W.T("page.archive.when", nil)}, Entries: rows}
	var names []string
	for _, name := range journal.Tests() {
		if there[name] {
			names = append(names, name)
			t.Columns = append(t.Columns, p.ReadingName(name))
		}
	}
	for _, e := range tests {
		row := []string{p.CivilDay(e.At)}
		if e.Kind == journal.TapTested {
			row[0] += " (" + p.W.T("entry.tap_tested", nil) + ")"
		}
		for _, name := range names {
			text := ""
			if r, ok := e.Get(name); ok {
				text = p.Reading(r)
			}
			row = append(row, text)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// visitEntries are entries of some kinds, the newest first. Together, those that say
// the same are one line: how often, and on which days.
func (p Presenter) visitEntries(v slip.Visit, together bool, kinds ...journal.Kind) []VisitEntry {
	var out []VisitEntry
	type run struct{ first, last journal.Civil }
	runs, count, at := map[string]run{}, map[string]int{}, map[string]int{}
	for _, e := range slices.Backward(v.Entries) {
		if !slices.Contains(kinds, e.Kind) {
			continue
		}
		row := p.Entry(e.Entry)
		line := VisitEntry{p.CivilDay(e.At), row.Kind, row.Text}
		if e.OfCase {
			line.Kind = p.W.T("paper.case.own", i18n.Args{"Kind": row.Kind})
		}
		key := line.Kind + "\n" + line.Text
		if !together {
			out = append(out, line)
			continue
		}
		if count[key]++; count[key] == 1 {
			runs[key], at[key] = run{e.At, e.At}, len(out)
			out = append(out, line)
			continue
		}
		r := runs[key]
		r.first = min(r.first, e.At)
		runs[key] = r
		out[at[key]].Text = strings.TrimPrefix(line.Text+" · ", " · ") + p.W.N("page.visit.times", float64(count[key]), i18n.Args{"Span": p.Span(r.first.Day(), r.last.Day())})
	}
	return out
}

// visitOthers are the entries that stand nowhere else.
func (p Presenter) visitOthers(v slip.Visit) []VisitEntry {
	var kinds []journal.Kind
	for _, k := range journal.Kinds() {
		switch k {
		case journal.Tested, journal.TapTested, journal.Temperature, journal.Fed, journal.Changed, journal.ToppedUp, journal.Dosed, journal.Cleaned:
		default:
			kinds = append(kinds, k)
		}
	}
	return p.visitEntries(v, false, kinds...)
}

func (p Presenter) visitCase(c slip.VisitCase) *VisitCase {
	w := p.W
	k := keeper.Case{About: p.whose(c.About, c.Species), Opened: c.Opened, Closed: c.Closed, Outcome: keeper.Outcome(c.Outcome)}
	out := &VisitCase{Heading: p.About(k), Note: c.Note, Beside: w.T("page.visit.case_since", i18n.Args{"Day": p.CivilDay(c.Opened)})}
	if c.Closed != "" && slices.Contains(keeper.Outcomes(), k.Outcome) {
		out.Beside = p.CaseBeside(k)
	}
	if m := sick.Many(c.Many); slices.Contains(sick.Manies(), m) {
		out.Beside += " · " + p.ManyName(m)
	}
	for _, s := range c.Signs {
		row := VisitEntry{When: p.CivilDay(s.Seen), Text: s.Sign}
		if sign, ok := sick.SignOf(sick.SignID(s.Sign)); ok {
			row.Text = w.T(sign.Message(), nil)
		}
		row.Kind = w.T("paper.case.still", nil)
		if s.Gone != "" {
			row.Kind = w.T("page.visit.until", i18n.Args{"Day": p.CivilDay(s.Gone)})
		}
		out.Signs = append(out.Signs, row)
	}
	return out
}

// ReplyItem is a proposal of a reply as text.
type ReplyItem struct {
	ID    string
	Title string
	Lines []string
	Why   string // in the shop's words
	Note  string // when it was taken, or why it cannot be
	Open  bool   // can be taken
}

// Reply is a reply slip beside a tank, as text.
type Reply struct {
	From   []string // the shop's name, address and hours
	Beside string   // when it was made
	Again  string   // that something of it was taken before; empty where nothing was
	Items  []ReplyItem
}

// Reply presents a reply slip.
func (p Presenter) Reply(v keeper.ReplyView) Reply {
	w, r := p.W, v.Reply
	out := Reply{Beside: w.T("page.reply.made", i18n.Args{"Time": p.When(r.Made)})}
	for _, s := range []string{r.Shop.Name, r.Shop.Address, r.Shop.Hours} {
		if s != "" {
			out.From = append(out.From, s)
		}
	}
	if len(out.From) == 0 {
		out.From = []string{w.T("page.reply.unnamed", nil)}
	}
	if !v.Again.IsZero() {
		out.Again = w.T("page.reply.again", i18n.Args{"Day": w.ShortDate(v.Again)})
	}
	for _, x := range v.Items {
		item := ReplyItem{ID: x.ID, Open: x.Taken.IsZero() && x.Refused == nil}
		switch {
		case x.Round != nil:
			item.Title, item.Why = w.T("page.reply.round", i18n.Args{"Name": p.RoundName(*x.Round)}), x.Round.Note
			item.Lines = []string{p.Repeats(x.Round.Rule, x.Round.Start)}
		case x.Plan != nil:
			item.Title, item.Why = p.planChange(*x.Plan), x.Plan.Why
		case x.ID == keeper.ItemTest:
			item.Title = w.T("page.reply.test", i18n.Args{"Time": p.When(r.Test.At)})
			for _, m := range r.Test.Readings {
				item.Lines = append(item.Lines, p.reading(journal.Tested, m))
			}
		case x.ID == keeper.ItemAdvice:
			item.Title = w.T("page.reply.advice", nil)
			text, lang := keeper.AdviceIn(r.Advice, w.Language())
			item.Lines = []string{text}
			if lang != w.Language() {
				item.Note = w.T("page.reply.other_language", nil)
			}
		}
		switch {
		case !x.Taken.IsZero():
			item.Note = w.T("page.reply.taken_on", i18n.Args{"Day": w.ShortDate(x.Taken)})
		case x.Refused != nil:
			item.Note, _ = w.Problem(x.Refused)
		}
		out.Items = append(out.Items, item)
	}
	return out
}

func (p Presenter) planChange(x slip.ProposedAnimals) string {
	name := p.KindName(fish.Code(x.Species))
	switch {
	case x.Change == slip.PlanHold && x.Count == 0:
		return p.W.T("page.reply.hold_all", i18n.Args{"Name": name})
	case x.Change == slip.PlanHold:
		return p.W.T("page.reply.hold", i18n.Args{"Name": name, "Number": p.W.Number(float64(x.Count), 9)})
	}
	return p.W.T("page.reply.add", i18n.Args{"Name": name, "Number": p.W.Number(float64(x.Count), 9)})
}

// VisitTests are the water tests of a visit slip as rows, the newest first, each with
// what it says; what was no more than a temperature is left to the course of it.
func (p Presenter) VisitTests(v slip.Visit, judged map[int]keeper.Judgement) []Entry {
	var out []Entry
	for i, e := range slices.Backward(v.Entries) {
		if e.Kind != journal.Tested && e.Kind != journal.TapTested {
			continue
		}
		row := p.Entry(e.Entry)
		row.Time = p.CivilDay(e.At)
		if j, ok := judged[i]; ok {
			row.State, row.Note = j.State, p.W.State(j.State)
		}
		out = append(out, row)
	}
	return out
}
