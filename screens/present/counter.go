package present

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// ProfileCard is a starter profile as the list of them shows it.
type ProfileCard struct {
	Name  string
	Size  string
	Facts []string
	State working.State
	Word  string
	Lines []string
}

// ProfileCard presents a profile of the catalogue.
func (p Presenter) ProfileCard(c keeper.ProfileCard) ProfileCard {
	w := p.W
	out := ProfileCard{Name: c.Tank.Name, Size: p.size(c.Size), Word: w.State(working.Steady)}
	if c.Net.Known() {
		out.Facts = append(out.Facts, w.Quantity(c.Net))
	}
	out.Facts = append(out.Facts, p.edition(c)...)
	if len(c.Failed) > 0 {
		out.State, out.Word = working.Act, w.State(working.Act)
		out.Lines = append(out.Lines, w.T("page.counter.fails", i18n.Args{"Steps": p.steps(c.Failed)}))
	} else {
		out.Lines = append(out.Lines, w.T("page.counter.holds", nil))
	}
	if c.Changed {
		out.Lines = append(out.Lines, w.T("page.counter.changed", i18n.Args{"Edition": w.Number(float64(c.Edition+1), 7)}))
	}
	return out
}

// size writes the outer sizes of a tank.
func (p Presenter) size(s [3]quantity.Value) string {
	for _, v := range s {
		if !v.Known() {
			return ""
		}
	}
	unit := p.W.DefaultUnit(quantity.KindLength, i18n.Tank)
	u := quantity.MustUnit(unit)
	return p.W.T("page.counter.size", i18n.Args{"Length": p.W.Number(s[0].In(u), 3), "Width": p.W.Number(s[1].In(u), 3), "Height": p.W.QuantityIn(s[2], unit, 3)})
}

func (p Presenter) edition(c keeper.ProfileCard) []string {
	if c.Times == 0 {
		return []string{p.W.T("page.counter.not_yet", nil)}
	}
	return []string{p.W.T("page.start.profile_edition", i18n.Args{"Edition": p.W.Number(float64(c.Edition), 7)}), p.W.N("n.handed_out", float64(c.Times), nil)}
}

func (p Presenter) steps(steps []care.Step) string {
	var names []string
	for _, s := range steps {
		names = append(names, p.StepName(s))
	}
	return p.W.List(names)
}

// NoteTongues names the languages that there is a note in.
func (p Presenter) NoteTongues(notes map[string]string) string {
	var names []string
	for _, lang := range slices.Sorted(maps.Keys(notes)) {
		if notes[lang] != "" {
			names = append(names, p.W.NameHere(lang))
		}
	}
	if len(names) == 0 {
		return p.W.T("page.counter.notes_none", nil)
	}
	return p.W.T("page.counter.notes_in", i18n.Args{"Languages": p.W.List(names)})
}

// NotesByTongue are notes with the names of their languages, that of the person first.
func (p Presenter) NotesByTongue(notes map[string]string) []Line {
	var out []Line
	for _, lang := range slices.Sorted(maps.Keys(notes)) {
		if notes[lang] == "" {
			continue
		}
		l := Line{Name: p.W.NameHere(lang), Value: notes[lang]}
		if lang == p.W.Language() {
			out = slices.Insert(out, 0, l)
		} else {
			out = append(out, l)
		}
	}
	return out
}

// ProfileWork is a profile in work in full.
type ProfileWork struct {
	Name     string
	Under    string
	Check    Verdict
	Parts    []ProfilePart
	Plan     []string
	Feeding  []string
	Notes    []string
	Outs     []HandOut
	OutsNone string
}

// ProfilePart is what a profile says at one step.
type ProfilePart struct {
	Step  care.Step
	Title string
	Text  string // what is answered, one after the other, and that the rest is as proposed
}

// HandOut is one time that a profile was handed out.
type HandOut struct {
	ID    string
	When  string
	Way   string
	Label string
}

// ProfileWork presents a profile in work.
func (p Presenter) ProfileWork(k keeper.ProfileWork) ProfileWork {
	w := p.W
	out := ProfileWork{Name: k.Tank.Name, Under: strings.Join(append([]string{p.size(k.Size)}, p.ProfileCard(k.ProfileCard).Facts...), " · "),
		Check: Verdict{State: working.Steady, Word: w.State(working.Steady), Title: w.T("page.counter.holds", nil)}}
	if len(k.Failed) > 0 {
		out.Check = Verdict{State: working.Act, Word: w.State(working.Act), Title: w.T("page.counter.fails", i18n.Args{"Steps": p.steps(k.Failed)})}
	}
	if k.Changed {
		out.Check.Lines = append(out.Check.Lines, w.T("page.counter.changed", i18n.Args{"Edition": w.Number(float64(k.Profile.Edition), 7)}))
	}
	for _, c := range k.Checks {
		out.Check.Lines = append(out.Check.Lines, p.failure(c)...)
		part := ProfilePart{Step: c.Step, Title: p.StepName(c.Step)}
		var said []string
		for _, x := range p.AnswersAt(c.Step, k.Profile.Answers) {
			said = append(said, x.Line(w))
		}
		rest := slices.ContainsFunc(care.Fields(), func(f *care.Field) bool {
			return f.Step == c.Step && slip.Settable(f.ID) && k.Profile.Answers[f.ID].IsZero()
		})
		if part.Text = strings.Join(said, " · "); len(said) == 0 {
			part.Text = w.T("page.counter.as_proposed", nil)
		} else if rest {
			part.Text = w.Stop(part.Text, w.T("page.counter.rest", nil))
		}
		out.Parts = append(out.Parts, part)
	}
	for _, r := range k.Rounds {
		line := w.T("page.start.profile_line", i18n.Args{"Field": p.RoundName(rounds.Round{Code: r.Code, Title: r.Title}), "Value": p.Repeats(r.Rule, r.Start)})
		out.Plan = append(out.Plan, i18n.Sentences(line, r.Note))
	}
	out.Feeding = p.feeding(k.Feeding)
	for _, lang := range slices.Sorted(maps.Keys(k.Notes)) {
		out.Notes = append(out.Notes, w.T("page.start.profile_line", i18n.Args{"Field": w.NameHere(lang), "Value": k.Notes[lang]}))
	}
	if len(k.Outs) == 0 {
		out.OutsNone = w.T("page.counter.outs_none", nil)
	}
	for _, o := range k.Outs {
		out.Outs = append(out.Outs, HandOut{ID: o.ID, When: w.ShortDate(o.At), Label: o.Label,
			Way: w.T(working.Key("page.counter.way_"+string(o.Way)), i18n.Args{"Edition": w.Number(float64(o.Edition), 7)})})
	}
	return out
}

// failure is why the check of a step failed.
func (p Presenter) failure(c keeper.StepCheck) []string {
	if !c.Failed {
		return nil
	}
	var out []string
	for _, r := range c.Refused {
		if words, ok := p.W.Problem(r); ok {
			out = append(out, words)
		}
	}
	if c.Verdict == nil {
		return out
	}
	for _, f := range c.Verdict.Lines {
		if f.State == working.Act {
			out = append(out, p.Say(f))
		}
	}
	for _, x := range c.Checks {
		if x.State == working.Act && x.Use > 0 {
			out = append(out, p.W.T("page.start.profile_line", i18n.Args{"Field": p.W.T(x.Name, nil), "Value": p.W.Percent(x.Use)}))
		}
	}
	return out
}

// Families are the labels of sheets: one for each line of names, and as many blank
// ones as are wanted beyond them. Refusals: "sheets" that is no number from 1 to
// keeper.MaxSheets, or smaller than the names; "label" too long.
func Families(count, names string) ([]string, error) {
	var out []string
	for _, n := range strings.Split(names, "\n") {
		if n = slip.OneLine(n); n == "" {
			continue
		}
		if len([]rune(n)) > keeper.MaxLabel {
			return nil, working.Refuse("label", "refuse.care.words_long")
		}
		out = append(out, n)
	}
	n := len(out)
	if c := strings.TrimSpace(count); c != "" {
		var err error
		if n, err = strconv.Atoi(c); err != nil {
			return nil, working.Refuse("sheets", "refuse.keeper.sheets")
		}
	}
	if n < max(1, len(out)) || n > keeper.MaxSheets {
		return nil, working.Refuse("sheets", "refuse.keeper.sheets")
	}
	return append(out, make([]string, n-len(out))...), nil
}
