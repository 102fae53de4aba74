package present

import (
	"slices"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// SaidPart is a part of a starter profile that was opened, as text.
type SaidPart struct {
	Title string // the step that its lines answer, or what else they are; "" for whose it is
	Lines []string
}

// SaidParts writes a starter profile in full, before anything of it is taken: whose it
// is with what was found while reading, the answers step by step, the care plan, the
// feeding, and the notes in the person's language.
func (p Presenter) SaidParts(f slip.Profile, findings []working.Finding) []SaidPart {
	w := p.W
	head := []string{w.T("page.start.profile_tank", i18n.Args{"Name": f.Tank})}
	if f.Edition > 0 {
		head = append(head, w.T("page.start.profile_edition", i18n.Args{"Edition": w.Number(float64(f.Edition), 7)}))
	}
	for _, s := range []string{f.Shop.Name, f.Shop.Address, f.Shop.Hours} {
		if s != "" {
			head = append(head, s)
		}
	}
	for _, x := range findings {
		head = append(head, p.Say(x))
	}
	out := []SaidPart{{Lines: head}}
	for _, step := range care.Steps() {
		part := SaidPart{Title: p.StepName(step)}
		for _, x := range p.AnswersAt(step, f.Answers) {
			part.Lines = append(part.Lines, x.Line(w))
		}
		out = append(out, part)
	}
	out = append(out, SaidPart{w.T("page.handed.plan", nil), p.plan(f.Plan)},
		SaidPart{w.T("nav.view.feeding", nil), p.feeding(keeper.FeedingBasis{Share: f.Feeding.Share, Protein: f.Feeding.Protein, Fasting: keeper.WeekdaysOf(f.Feeding.Fasting)})},
		SaidPart{w.T("page.counter.notes", nil), p.note(f.Notes)})
	return slices.DeleteFunc(out, func(x SaidPart) bool { return len(x.Lines) == 0 })
}

// Profile writes a starter profile in full, line by line: see SaidParts.
func (p Presenter) Profile(f slip.Profile, findings []working.Finding) []string {
	var out []string
	for _, part := range p.SaidParts(f, findings) {
		if part.Title != "" {
			out = append(out, part.Title)
		}
		out = append(out, part.Lines...)
	}
	return out
}

// Handed is who handed over the profile that a tank began with, as text.
type Handed struct {
	Title string
	Lines []string // address, hours, since when, which edition
	Marks []string // what failed the shop's check
	Note  []string // of the shop, with a line before it where it is in another language
	Plan  string   // that the shop proposed rounds, "" where it did not
}

// Handed presents who handed over a tank's profile.
func (p Presenter) Handed(h keeper.Handed) Handed {
	w := p.W
	out := Handed{Title: w.T("page.handed.unnamed", nil), Note: p.note(h.Notes)}
	if h.Shop.Name != "" {
		out.Title = w.T("page.handed.title", i18n.Args{"Name": h.Shop.Name})
	}
	for _, s := range []string{h.Shop.Address, h.Shop.Hours} {
		if s != "" {
			out.Lines = append(out.Lines, s)
		}
	}
	taken := w.T("page.handed.taken", i18n.Args{"Day": w.ShortDate(h.At)})
	if h.Edition > 0 {
		taken = w.T("page.handed.edition", i18n.Args{"Day": w.ShortDate(h.At), "Edition": w.Number(float64(h.Edition), 7)})
	}
	if h.Thumbprint == "" {
		taken = i18n.Sentences(taken, w.T("page.handed.unsigned", nil))
	}
	out.Lines = append(out.Lines, taken)
	for _, s := range h.Marks {
		out.Marks = append(out.Marks, w.T("find.slip.mark", i18n.Args{"Step": p.StepName(s)}))
	}
	if len(h.Plan) > 0 {
		out.Plan = w.N("n.handed_plan", float64(len(h.Plan)), nil)
	}
	return out
}

// note is the shop's note in the person's language, else in the nearest one that
// there is, with a line that says so.
func (p Presenter) note(by map[string]string) []string {
	text, in := p.W.Nearest(by)
	switch {
	case text == "":
		return nil
	case in != "":
		return []string{p.W.T("page.handed.other", i18n.Args{"Language": p.W.NameHere(in)}), text}
	}
	return []string{text}
}

// plan writes the rounds that a shop proposes, a line each.
func (p Presenter) plan(plan []slip.Round) []string {
	var out []string
	for _, r := range plan {
		rule, err := rounds.ParseRule(r.Rule)
		if err != nil {
			continue
		}
		line := p.W.T("page.start.profile_line", i18n.Args{"Field": p.RoundName(rounds.Round{Code: r.Code, Title: r.Title}),
			"Value": p.Repeats(rule, journal.Civil("2024-01-01T"+r.At))}) // a Monday, where a rule names no day
		out = append(out, i18n.Sentences(line, r.Note))
	}
	return out
}

// feeding writes what a shop proposes for feeding, a line each.
func (p Presenter) feeding(f keeper.FeedingBasis) []string {
	var out []string
	line := func(name, value string) {
		out = append(out, p.W.T("page.start.profile_line", i18n.Args{"Field": name, "Value": value}))
	}
	if !f.Share.IsZero() {
		line(p.W.T("page.feed.share", nil), p.W.Typed(f.Share))
	}
	if !f.Protein.IsZero() {
		line(p.W.T("page.feed.protein", nil), p.W.Typed(f.Protein))
	}
	if days := f.Fasting.List(); len(days) > 0 {
		line(p.W.T("page.feed.fast_days", nil), p.Weekdays(days))
	}
	return out
}

// Weekdays lists days of the week.
func (p Presenter) Weekdays(days []time.Weekday) string {
	var names []string
	for _, d := range days {
		names = append(names, p.W.Weekday(d))
	}
	return p.W.List(names)
}

// answer writes what stands in a field.
func (p Presenter) answer(f *care.Field, a care.Answer) string {
	switch {
	case !a.Measure.IsZero():
		return p.W.Measure(a.Measure)
	case a.Choice != "":
		return p.option(f, a.Choice)
	}
	return a.Words
}
