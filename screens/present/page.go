package present

import (
	"math"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/heat"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/model/working"
)

// Page is a step of First fill as text.
type Page struct {
	Step     care.Step
	Heading  string
	Purpose  string
	Shut     bool
	Notices  []string // what a shut step waits for, why a finished one is open again
	Groups   []Group
	Number   *Number
	Bars     []Bar
	Verdict  *Verdict
	Cautions []string
	Lines    []Line
	Ticks    []Tick
	Notes    []Note
	Kit      []KitRow
	Readings []Reading
	Workings []i18n.TrailText
	Carry    string
	Done     bool
	Blocked  []string
}

// Group is fields that stand together under a heading.
type Group struct {
	Title  string
	Fields []Field
}

// Field is one field with its texts.
type Field struct {
	ID       care.FieldID
	Type     care.FieldType
	Label    string
	Text     string // what stands in the box, without its unit
	Unit     string // symbol at the right of the box
	Reading  quantity.Reading
	Options  []Option
	Chosen   string
	Proposed bool // nobody has given it yet
	FromShop bool
	Optional bool
	Error    string
}

// Option is a choice with its name.
type Option struct {
	Code  string
	Label string
}

// Number is the one number that matters.
type Number struct {
	Name   string
	Value  string
	Beside string
	State  working.State
	Word   string // of the state, when it is not steady
}

// Bar is a limit that was checked.
type Bar struct {
	Name    string
	Percent string
	Use     float64
	State   working.State
	Word    string
	Detail  string // demand of capacity
}

// Verdict is a judgement with what to do.
type Verdict struct {
	State working.State
	Word  string
	Title string
	Lines []string
}

// Line is a further figure.
type Line struct {
	Name  string
	Value string
	Note  string
}

// Tick is something to do with one's hands.
type Tick struct {
	ID      care.FieldID
	Text    string
	Set     bool
	Ready   bool
	Reason  string
	Confirm bool // kept with the text shown
}

// Note is a safety note in words.
type Note struct {
	ID          care.NoteID
	Severity    care.Severity
	Signal      string
	Hazard      string
	Consequence string
	Avoid       string
	Lang        string // of the three texts
	Unreviewed  string // says that the texts are English because the translation was not reviewed; else empty
	Confirm     bool
	Confirmed   bool
	ConfirmText string
}

// Shown is the whole text of the note, as it is kept with a confirmation.
func (n Note) Shown() string {
	return n.Signal + ". " + strings.Join(n.Texts(), " ")
}

// Texts are the sentences of the note in order, one text each: what follows from
// the hazard, how it is avoided and, where it must be said, why they are English.
func (n Note) Texts() []string {
	out := []string{n.Hazard, n.Consequence, n.Avoid}
	if n.Unreviewed != "" {
		out = append(out, n.Unreviewed)
	}
	return out
}

// KitRow is a line of the kit list.
type KitRow struct {
	ID    string
	Have  care.FieldID
	Cost  care.FieldID
	Name  string
	Size  string
	Why   string
	Owned bool
	Price Field
	State working.State
	Word  string
}

// Reading is one reading of the thermometer.
type Reading struct {
	Entry  string
	When   string
	Value  string
	InBand bool
	Word   string
}

// Presenter speaks for one person: their words and the region's.
type Presenter struct {
	W      *i18n.Words
	Region care.Region
	// Kit finds the kit that showed a reading, so that the reading is written no finer
	// than the kit can tell; nil writes it as typed.
	Kit func(id string) (journal.TestKit, bool)
}

// StepName is the name of a step.
func (p Presenter) StepName(s care.Step) string { return p.W.T(working.Key("step."+string(s)), nil) }

// PlaceName is the name of a place of the program.
func (p Presenter) PlaceName(place string) string { return p.W.T(working.Key("nav."+place), nil) }

// ViewName is the name of a view of the daybook.
func (p Presenter) ViewName(place string) string { return p.W.T(working.Key("nav.view."+place), nil) }

// Page presents a step of First fill.
func (p Presenter) Page(v keeper.View, refused map[care.FieldID]error) Page {
	w, c := p.W, v.Page
	out := Page{Step: c.Step, Heading: w.T(working.Key("step."+string(c.Step)), nil), Purpose: w.T(working.Key("stepfor."+string(c.Step)), nil),
		Shut: c.State == care.Shut, Done: c.State == care.Finished, Carry: w.T(c.Carry, nil)}
	if c.State == care.Finished {
		out.Carry = w.T("label.carry_on", nil)
	}
	for _, f := range c.Waits {
		out.Notices = append(out.Notices, p.Say(f))
	}
	if len(c.Changed) > 0 {
		names := make([]string, 0, len(c.Changed))
		for _, id := range c.Changed {
			if f, ok := care.FieldOf(id); ok {
				names = append(names, w.T(f.Label(), nil))
			}
		}
		out.Notices = append(out.Notices, w.T("page.fill.reopened", i18n.Args{"Fields": w.List(names)}))
	}
	out.Groups = p.groups(c, refused)
	out.Number = p.number(c.Headline)
	for _, k := range c.Checks {
		out.Bars = append(out.Bars, p.Bar(k))
	}
	if c.Verdict != nil {
		out.Verdict = &Verdict{State: c.Verdict.State, Word: w.State(c.Verdict.State), Title: p.Say(c.Verdict.Title)}
		for _, l := range c.Verdict.Lines {
			out.Verdict.Lines = append(out.Verdict.Lines, p.Say(l))
		}
	}
	for _, l := range c.Cautions {
		out.Cautions = append(out.Cautions, p.Say(l))
	}
	for _, l := range c.Lines {
		out.Lines = append(out.Lines, p.Line(l))
	}
	for _, t := range c.Ticks {
		k := Tick{ID: t.ID, Text: p.Say(t.Text), Set: t.Set, Ready: t.Ready, Confirm: t.Confirm}
		if t.Until != nil && !t.Ready {
			k.Reason = p.Say(*t.Until)
		}
		out.Ticks = append(out.Ticks, k)
	}
	for _, n := range c.Notes {
		note := p.Note(n)
		note.Confirm, note.Confirmed = n.ConfirmedIn(c.Step), v.Confirmed[n.ID]
		out.Notes = append(out.Notes, note)
	}
	for _, k := range c.Kit {
		out.Kit = append(out.Kit, p.kitRow(k, refused))
	}
	if c.Steady != nil {
		for i := len(c.Steady.Readings) - 1; i >= 0; i-- {
			r := c.Steady.Readings[i]
			word := w.T("page.fill.in_band", nil)
			if !r.InBand {
				word = w.T("page.fill.out_of_band", nil)
			}
			out.Readings = append(out.Readings, Reading{Entry: r.EntryID, When: w.DateTime(r.At), Value: w.Quantity(r.T.Value()), InBand: r.InBand, Word: word})
		}
	}
	for _, t := range c.Trails {
		out.Workings = append(out.Workings, w.Trail(t))
	}
	for _, b := range c.Blocked {
		out.Blocked = append(out.Blocked, p.Say(b))
	}
	return out
}

// Say writes a finding, with the words of the region and days as dates.
func (p Presenter) Say(f working.Finding) string {
	f = p.times(p.regional(f))
	for name, key := range f.Words {
		if strings.HasPrefix(string(key), "note.") { // a note has regional words of its own
			id, _, _ := strings.Cut(strings.TrimPrefix(string(key), "note."), ".")
			f = f.Say(name, p.noteSpeaker(care.NoteID(id)).Say(working.Find(working.Steady, key)))
		}
	}
	if d, ok := f.Text["Day"]; ok {
		if t, err := dayOf(d); err == nil {
			f = f.Say("Day", p.W.ShortDate(t))
		}
	}
	return p.W.Finding(f)
}

// times writes waits as a person says them: 22 min, 1 h 30 min, 24 days.
func (p Presenter) times(f working.Finding) working.Finding {
	for name, v := range f.Values {
		if v.Kind == quantity.KindTime {
			f = f.Say(name, p.Wait(v))
		}
	}
	return f
}

// Wait writes a length of time, to the minute where it is longer than ten.
func (p Presenter) Wait(v quantity.Value) string {
	x := v.X
	if x > 600 {
		x = math.Round(x/60) * 60
	}
	if x == 0 {
		return p.W.QuantityIn(v, "min", 2)
	}
	return p.W.Duration(quantity.Time(x))
}

// regional adds the words and figures that differ by region and units; a message takes
// those it names.
func (p Presenter) regional(f working.Finding) working.Finding {
	for name, key := range map[string]working.Key{"Protection": p.Region.Protection(), "Socket": p.Region.Socket()} {
		if _, has := f.Words[name]; !has {
			f = f.Word(name, key)
		}
	}
	if _, has := f.Text["Emergency"]; !has {
		f = f.Say("Emergency", p.Emergency())
	}
	for name, v := range map[string]quantity.Value{"Volts": p.Region.Mains(), "Scald": heat.Scalds.Value()} {
		if _, has := f.Values[name]; !has {
			f = f.With(name, v)
		}
	}
	return f
}

// Emergency is the number for an ambulance, or words for it where none is known.
func (p Presenter) Emergency() string {
	if e := p.Region.Emergency(); e.Number != "" {
		return e.Number
	}
	return p.W.T("word.care.emergency", nil)
}

// noteSpeaker speaks for a safety note: in English where nobody has reviewed its
// translation, or where one of its texts changed since.
func (p Presenter) noteSpeaker(n care.NoteID) Presenter {
	if !noteReviewed(p.W.Language(), string(n)) {
		p.W = i18n.Speak(english, p.W.Region(), p.W.System())
	}
	return p
}

const english = "en"

// noteReviewed is a variable so that tests can do without the reviews there are.
var noteReviewed = i18n.NoteReviewed

// Note writes a safety note in the region's words.
func (p Presenter) Note(n care.Note) Note {
	by := p.noteSpeaker(n.ID)
	say := func(k working.Key) string { return by.Say(working.Find(working.Steady, k)) }
	out := Note{ID: n.ID, Severity: n.Severity, Signal: p.W.T(working.Key("signal."+string(n.Severity)), nil), Hazard: say(n.Hazard()),
		Consequence: say(n.Consequence()), Avoid: say(n.Avoid()), Lang: by.W.Language(), ConfirmText: p.W.T("page.fill.confirm", nil)}
	if out.Lang != p.W.Language() {
		out.Unreviewed = p.W.T("signal.unreviewed", i18n.Args{"Language": p.W.NameHere(p.W.Language())})
	}
	return out
}

func (p Presenter) number(h *care.Headline) *Number {
	if h == nil {
		return nil
	}
	n := &Number{Name: p.W.T(h.Name, nil), Value: p.W.Quantity(h.Value), State: h.State}
	if h.Value.Kind == quantity.KindTime {
		n.Value = p.Wait(h.Value)
	}
	if h.Text != "" {
		n.Value = p.W.T(h.Text, nil)
	}
	if h.State != working.Steady {
		n.Word = p.W.State(h.State)
	}
	if h.Spread != nil {
		span := p.span(*h.Spread)
		n.Beside = p.W.T("page.fill.likely", i18n.Args{"Range": span})
		if h.Spread.Why == "assume.care.watts_rule" {
			n.Beside = p.W.T("page.fill.rule", i18n.Args{"Range": span})
		}
	}
	for _, m := range h.Means {
		n.Beside = i18n.Sentences(n.Beside, p.Say(m))
	}
	return n
}

// span writes a range; one of time in whole minutes, hours or days.
func (p Presenter) span(s working.Spread) string {
	if s.Low.Kind != quantity.KindTime {
		return p.W.Range(s.Low, s.High)
	}
	unit := quantity.UnitCode("min")
	switch {
	case s.High.X >= 3*86400:
		unit = "d"
	case s.High.X >= 2*3600:
		unit = "h"
	}
	u := quantity.MustUnit(unit)
	return p.W.T("quantity.range", i18n.Args{"Low": p.W.Number(math.Round(s.Low.In(u)), 3), "High": p.W.QuantityIn(quantity.Value{Kind: quantity.KindTime, X: u.ToBase(math.Round(s.High.In(u)))}, unit, 3)})
}

// Bar writes a check.
func (p Presenter) Bar(c working.Check) Bar {
	b := Bar{Name: p.W.T(c.Name, nil), Percent: p.W.Percent(c.Use), Use: c.Use, State: c.State}
	if c.Demand.Known() && c.Capacity.Known() {
		b.Detail = p.W.T("page.fill.of", i18n.Args{"Demand": c.Demand, "Capacity": c.Capacity})
	}
	if c.State != working.Steady {
		b.Word = p.W.State(c.State)
	}
	return b
}

// Line writes a figure with its range and note.
func (p Presenter) Line(l care.Line) Line {
	out := Line{Name: p.W.T(l.Name, nil)}
	switch {
	case l.Spread != nil:
		out.Value = p.span(*l.Spread)
	case l.Value.Kind == quantity.KindMoney:
		out.Value = p.W.Money(l.Value.X, string(p.Region.Currency()))
	case l.Value.Kind == quantity.KindTime:
		out.Value = p.Wait(l.Value)
	case l.Value.Known():
		out.Value = p.W.Quantity(l.Value)
	}
	if l.Note != nil {
		out.Note = p.Say(*l.Note)
	}
	return out
}

// nominalLabel names a size as the trade sells it.
func (p Presenter) nominalLabel(code string) string {
	for _, n := range tank.Nominals() {
		if n.Code != code {
			continue
		}
		if n.Form != "" {
			return p.W.T("page.fill.nominal", i18n.Args{"Name": p.W.Measure(n.Name), "Form": n.Form})
		}
		return p.W.Measure(n.Name)
	}
	return p.W.T("option.tank.nominal.custom", nil)
}
