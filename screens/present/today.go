package present

import (
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Today is the page of today as text.
type Today struct {
	Heading string
	Beside  string // how many days since the fill
	Next    Next
	Facts   []Line
	Water   *Verdict // what the latest test says
	Last    []Entry
	LastOf  string // heading over Last
	Empty   string // instead of Last
}

// Next is the one thing to do now.
type Next struct {
	Title string
	Lines []string
	State working.State
	Word  string
	Go    string
	Step  care.Step
}

// Entry is a row of the daybook.
type Entry struct {
	ID    string
	Time  string
	Kind  string
	Text  string
	Note  string // at the right
	State working.State
}

// Day is a day of the daybook.
type Day struct {
	Title   string
	Entries []Entry
}

// Today presents what matters now.
func (p Presenter) Today(t keeper.Today) Today {
	w := p.W
	out := Today{Heading: w.T("nav.today", nil), LastOf: w.T("page.today.last", nil)}
	if t.Day > 0 {
		out.Beside = w.T("page.today.day", i18n.Args{"Day": w.Number(float64(t.Day), 6)})
	}
	n := Next{Step: t.Next.Step, State: t.Next.State}
	if t.Next.All {
		n.Title = w.T("page.today.all_done", nil)
		n.Go = w.T("page.today.daybook", nil)
	} else {
		n.Title = w.T(working.Key("step."+string(t.Next.Step)), nil)
		n.Go = w.T("page.today.go", i18n.Args{"Step": w.T(working.Key("step."+string(t.Next.Step)), nil)})
		n.Word = w.State(t.Next.State)
		for i, f := range t.Next.Why {
			if i == 4 {
				n.Lines = append(n.Lines, w.N("n.more", float64(len(t.Next.Why)-4), nil))
				break
			}
			n.Lines = append(n.Lines, p.Say(f))
		}
	}
	out.Next = n
	if t.Water != nil {
		v := p.Judged(*t.Water)
		out.Water = &v
	}
	for _, l := range t.Facts {
		out.Facts = append(out.Facts, p.Line(l))
	}
	for _, e := range t.Last {
		row := p.Entry(e)
		if at, err := e.At.Parse(); err == nil {
			row.Time = w.ShortDate(at)
		}
		out.Last = append(out.Last, row)
	}
	if len(out.Last) == 0 {
		out.Empty = w.T("page.today.nothing", nil)
	}
	return out
}

// Judged presents what a water test says: the gravest finding leads, the advice
// follows in the order in which to follow it.
func (p Presenter) Judged(j keeper.Judgement) Verdict {
	v := Verdict{State: j.State, Word: p.W.State(j.State)}
	if j.State == working.Steady {
		v.Title = p.W.T("page.today.water_steady", nil)
	}
	for _, f := range j.Findings {
		if v.Title == "" {
			v.Title = p.Say(f)
			continue
		}
		v.Lines = append(v.Lines, p.Say(f))
	}
	return v
}

// Days presents the daybook; judged are its water tests by entry.
func (p Presenter) Days(days []keeper.Day, judged map[string]keeper.Judgement) []Day {
	out := make([]Day, 0, len(days))
	for _, d := range days {
		day := Day{Title: d.Date}
		if t, err := dayOf(d.Date); err == nil {
			day.Title = p.W.DayHeading(t)
		}
		for _, e := range d.Entries {
			row := p.Entry(e)
			if j, ok := judged[e.ID]; ok {
				row.State, row.Note = j.State, p.W.State(j.State)
			}
			day.Entries = append(day.Entries, row)
		}
		out = append(out, day)
	}
	return out
}

// Entry presents one entry as a row.
func (p Presenter) Entry(e journal.Entry) Entry {
	out := Entry{ID: e.ID, Kind: p.W.T(working.Key("entry."+string(e.Kind)), nil)}
	if e.Reply != "" {
		out.Kind = p.W.T("page.day.of_shop", i18n.Args{"Kind": out.Kind})
	}
	if t, err := e.At.Parse(); err == nil {
		out.Time = p.W.Time(t)
	}
	var parts []string
	if e.Kind == journal.StepDone && e.Step != "" {
		parts = append(parts, p.W.T(working.Key("step."+e.Step), nil))
	}
	for _, r := range e.InOrder() {
		parts = append(parts, p.reading(e.Kind, r))
	}
	for i, s := range parts {
		if i > 0 {
			out.Text += " · "
		}
		out.Text += s
	}
	if e.Note != "" {
		out.Text = p.W.Stop(out.Text, e.Note)
	}
	return out
}

// reading writes one value: its name, what was typed, and the basis where a
// nitrogen compound was measured. What a kit could not tell stands behind a colon, for
// in many languages it would have to agree with the name.
func (p Presenter) reading(kind journal.Kind, r journal.Reading) string {
	if word, ok := r.Word(); ok {
		return p.Said(r.Name, word)
	}
	name := p.W.T(working.Key("reading."+r.Name), nil)
	if r.Qualifier != journal.Plain {
		return p.W.T("paper.figure", i18n.Args{"Name": name, "Value": p.W.T(working.Key("reading.is_"+string(r.Qualifier)), nil)})
	}
	value := p.told(r)
	if u, ok := quantity.UnitOf(r.Measure.Unit); ok && u.Kind == quantity.KindPH {
		return value // a pH carries its own name
	}
	if r.Measure.Basis != quantity.BasisNone {
		value += " " + p.W.T(working.Key("word.basis."+string(r.Measure.Basis)), nil)
	}
	if (kind == journal.Temperature || kind == journal.HomeComing || kind == journal.Filled) && r.Name != journal.NameDuration {
		return value
	}
	return name + " " + value
}

// told writes the number of a reading, no finer than the kit that showed it can tell.
func (p Presenter) told(r journal.Reading) string {
	if p.Kit != nil && r.Kit != "" {
		if kit, ok := p.Kit(r.Kit); ok {
			r.Measure = kit.Shown(r.Measure)
		}
	}
	return p.measured(r.Measure)
}

// computedFigures is how many figures the program writes of a value that it worked
// out for an entry. Nobody reads that many off a bucket or a bottle.
const computedFigures = 6

// measured writes the measure of an entry digit for digit; one that was worked out is
// told as every computed figure is, and kept in full.
func (p Presenter) measured(m quantity.Measure) string {
	if v, err := m.Value(); err == nil && len(strings.Trim(strings.Replace(m.Number, ".", "", 1), "-0")) >= computedFigures && strings.Contains(m.Number, ".") {
		return p.W.Quantity(v)
	}
	return p.W.Typed(m)
}

// Said writes a reading that is a word: one of ours in the person's language,
// one of theirs as it is.
func (p Presenter) Said(name, word string) string {
	if key := working.Key("word.said." + name + "." + word); p.W.Has(key) {
		return p.W.T(key, nil)
	}
	return word
}

// UndoName says what a change was, in the words of its own kind.
func (p Presenter) UndoName(label working.Key, values map[string]string) string {
	args := i18n.Args{}
	for k, v := range values {
		switch k {
		case "Step":
			args[k] = working.Key("step." + v)
		case "Kind":
			args[k] = working.Key("entry." + v)
		case "Sign":
			args[k] = working.Key("sign." + v)
		case "Species":
			args[k] = p.KindName(fish.Code(v))
		case "Round":
			if title, own := strings.CutPrefix(v, "="); own {
				args[k] = title
			} else {
				args[k] = working.Key("round." + v)
			}
		case "Field":
			if f, ok := care.FieldOf(care.FieldID(v)); ok {
				args[k] = p.fieldName(f)
			} else {
				args[k] = v
			}
		default:
			args[k] = v
		}
	}
	return p.W.T(label, args)
}

func (p Presenter) fieldName(f *care.Field) string {
	switch f.Type {
	case care.TypeTick:
		if k := working.Key("tickname." + string(f.ID)); p.W.Has(k) {
			return p.W.T(k, nil)
		}
	}
	return p.W.T(f.Label(), nil)
}
