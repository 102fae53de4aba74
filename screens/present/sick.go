package present

import (
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/sick"
	"example.org/driploop/model/working"
)

// Case is a fish that looks wrong as text.
type Case struct {
	ID      string
	Heading string // whom it concerns
	Beside  string // which day it is, since when
	Open    bool
	Outcome string // how it ended, once it is closed
	Urgency Verdict
	Vet     Verdict    // when to call a veterinarian, all over, then sign by sign
	Water   *Verdict   // what the latest test says
	WaterAt string     // when that was
	Tests   []CaseTest // to make now, in order
	Acts    []string
	Notes   []Note
	Changes []CaseChange
	Signs   []SignGroup
	Seen    []CaseSign
	Days    []Day
	Many    string // chosen
}

// CaseTest is a water test to make.
type CaseTest struct {
	Name  string // of the reading
	Label string
	Last  string // what was measured last and when
}

// CaseChange is something that has changed lately.
type CaseChange struct {
	Entry string
	When  string
	Kind  string // of the entry; empty where nothing was done
	Text  string
	State working.State
}

// SignGroup is the signs of one part of a fish.
type SignGroup struct {
	Code  string
	Title string
	Signs []CaseSign
}

// CaseSign is a sign with whether it is ticked.
type CaseSign struct {
	Code  sick.SignID
	Text  string
	State working.State
	Level string
	Set   bool
	Since string // since when, for one that is ticked; or when it was seen and went
}

// About names whom a case concerns.
func (p Presenter) About(c keeper.Case) string {
	if c.About == "" && c.Species == "" {
		return p.W.T("page.sick.some_fish", nil)
	}
	return p.FishName(keeper.Fish{Name: c.About, Species: c.Species})
}

// ManyName says how many fish show it.
func (p Presenter) ManyName(m sick.Many) string {
	if m == "" {
		m = "unsaid"
	}
	return p.W.T(working.Key("word.sick.many."+string(m)), nil)
}

// OutcomeName says how a case ended.
func (p Presenter) OutcomeName(o keeper.Outcome) string {
	return p.W.T(working.Key("word.sick.outcome."+string(o)), nil)
}

func (p Presenter) level(l sick.Level) string {
	return p.W.T(working.Key("word.sick.level."+l.String()), nil)
}

// CaseBeside says which day of the case it is, and how it ended once it has.
func (p Presenter) CaseBeside(c keeper.Case) string {
	since := p.CivilDay(c.Opened)
	if c.Open() {
		return p.W.T("page.sick.day", i18n.Args{"Day": p.W.Number(float64(c.Day), 6), "Since": since})
	}
	return p.W.T("page.sick.closed", i18n.Args{"Outcome": p.OutcomeName(c.Outcome), "On": p.CivilDay(c.Closed), "Since": since})
}

// CivilDay writes the date of a civil time.
func (p Presenter) CivilDay(c journal.Civil) string {
	t, err := c.Parse()
	if err != nil {
		return string(c)
	}
	return p.W.ShortDate(t)
}

// CaseBrief says in a line which day of a case it is and what is seen.
func (p Presenter) CaseBrief(c keeper.Case) string {
	if !c.Open() {
		return p.W.T("page.sick.ended", i18n.Args{"Outcome": p.OutcomeName(c.Outcome), "On": p.CivilDay(c.Closed)})
	}
	var seen []string
	for _, s := range c.Signs {
		if sign, ok := sick.SignOf(s.Sign); ok && s.Gone == "" {
			seen = append(seen, p.W.T(sign.Message(), nil))
		}
	}
	if len(seen) == 0 {
		seen = append(seen, p.level(sick.None))
	}
	return p.W.T("page.sick.brief", i18n.Args{"Day": p.W.Number(float64(c.Day), 6), "Seen": strings.Join(seen, "; ")})
}

// Case presents a case; judged are the water tests by entry.
func (p Presenter) Case(v keeper.CaseView, judged map[string]keeper.Judgement) Case {
	w, c := p.W, v.Case
	out := Case{ID: c.ID, Heading: p.About(c), Beside: p.CaseBeside(c), Open: c.Open(), Many: string(c.Many)}
	if !c.Open() {
		out.Outcome = p.OutcomeName(c.Outcome)
	}
	u := v.Urgency
	out.Urgency = Verdict{State: u.State, Word: w.State(u.State), Title: p.level(u.Level)}
	for _, f := range u.Why {
		out.Urgency.Lines = append(out.Urgency.Lines, p.Say(f))
	}
	out.Vet = Verdict{State: u.Vet.State, Word: w.State(u.Vet.State), Title: p.Say(u.Vet)}
	for _, s := range u.Signs {
		out.Vet.Lines = append(out.Vet.Lines, w.T("page.sick.vet_line", i18n.Args{"Sign": s.Message(), "Vet": s.Vet()}))
	}
	if len(u.Signs) > 0 {
		out.Vet.Lines = append(out.Vet.Lines, w.T("page.sick.other_causes", nil))
	}
	p.caseWater(v, &out)
	for _, a := range v.Acts {
		out.Acts = append(out.Acts, p.Say(working.Find(working.Steady, a.Message())))
	}
	for _, n := range v.Notes {
		out.Notes = append(out.Notes, p.Note(n))
	}
	for _, ch := range v.Changes {
		out.Changes = append(out.Changes, p.caseChange(ch, v.Known[ch.Entry]))
	}
	p.caseSigns(v, &out)
	var days []keeper.Day
	for _, e := range v.Entries {
		if n := len(days); n == 0 || days[n-1].Date != e.At.Day() {
			days = append(days, keeper.Day{Date: e.At.Day()})
		}
		days[len(days)-1].Entries = append(days[len(days)-1].Entries, e)
	}
	out.Days = p.Days(days, judged)
	return out
}

func (p Presenter) caseWater(v keeper.CaseView, out *Case) {
	if v.Water != nil {
		j := p.Judged(*v.Water)
		when := i18n.Args{"When": p.When(v.WaterEntry.At)}
		out.WaterAt = p.W.T("page.sick.tested", when)
		if !v.Fresh { // what it said then is no word on the water now
			j = Verdict{State: max(working.Wait, j.State), Title: p.W.T("page.sick.tested_old", nil), Lines: append([]string{j.Title}, j.Lines...)}
			j.Word = p.W.State(j.State)
		}
		out.Water = &j
	}
	for _, t := range v.Tests {
		row := CaseTest{Name: t.Name, Label: p.ReadingName(t.Name), Last: p.W.T("page.sick.never", nil)}
		if t.Reading.Name != "" {
			value := p.Reading(t.Reading)
			row.Last = p.W.T("page.sick.last", i18n.Args{"Value": value, "When": p.When(t.Entry.At)})
		}
		out.Tests = append(out.Tests, row)
	}
}

// ReadingName is the name of a reading as it stands at the head of a line.
func (p Presenter) ReadingName(name string) string {
	return p.W.T(working.Key("reading."+name), nil)
}

// Reading writes the value of a reading with its basis, without its name.
func (p Presenter) Reading(r journal.Reading) string {
	if r.Qualifier != journal.Plain {
		return p.W.T(working.Key("reading.is_"+string(r.Qualifier)), nil)
	}
	value := p.told(r)
	if r.Measure.Basis != quantity.BasisNone {
		value += " " + p.W.T(working.Key("word.basis."+string(r.Measure.Basis)), nil)
	}
	return value
}

// When writes a civil time with its date.
func (p Presenter) When(c journal.Civil) string {
	t, err := c.Parse()
	if err != nil {
		return string(c)
	}
	return p.W.DateTime(t)
}

func (p Presenter) caseChange(c sick.Change, e journal.Entry) CaseChange {
	out := CaseChange{Entry: c.Entry, Text: p.Say(c.Finding), State: c.Finding.State, When: p.W.T("page.sick.now", nil)}
	if c.Entry != "" {
		out.When, out.Kind = p.CivilDay(c.At), p.W.T(working.Key("entry."+string(e.Kind)), nil)
		if c.Finding.Code != "find.sick.was.other_food" {
			out.Text = i18n.Sentences(out.Text, p.Entry(e).Text)
		}
	}
	return out
}

func (p Presenter) caseSigns(v keeper.CaseView, out *Case) {
	since := map[sick.SignID]string{}
	for _, s := range v.Case.Signs {
		if s.Gone == "" {
			since[s.Sign] = p.W.T("page.sick.since", i18n.Args{"Day": p.CivilDay(s.Seen)})
		} else if _, on := since[s.Sign]; !on {
			since[s.Sign] = p.W.T("page.sick.went", i18n.Args{"Seen": p.CivilDay(s.Seen), "Gone": p.CivilDay(s.Gone)})
		}
	}
	set := map[sick.SignID]bool{}
	for _, s := range v.Urgency.Signs {
		set[s.Code] = true
	}
	sign := func(s sick.Sign) CaseSign {
		return CaseSign{Code: s.Code, Text: p.W.T(s.Message(), nil), State: s.Level.State(), Level: p.level(s.Level), Set: set[s.Code], Since: since[s.Code]}
	}
	for _, s := range v.Urgency.Signs {
		out.Seen = append(out.Seen, sign(s))
	}
	for _, g := range sick.Groups() {
		group := SignGroup{Code: string(g), Title: p.W.T(working.Key("word.sick.group."+string(g)), nil)}
		for _, s := range sick.Signs() {
			if s.Group == g {
				group.Signs = append(group.Signs, sign(s))
			}
		}
		out.Signs = append(out.Signs, group)
	}
}
