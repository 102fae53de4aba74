package slip

import (
	"regexp"
	"slices"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
)

// Round is a round that the shop proposes: what recurs, how often, at what time
// of day. It begins when the keeper takes it up.
type Round struct {
	Code  rounds.Code `json:"code"`            // a usual round, or rounds.Own
	Rule  string      `json:"rule"`            // RRULE of RFC 5545, as rounds.Rule writes it
	At    string      `json:"at"`              // time of day, 24 hours: 18:00
	Title string      `json:"title,omitempty"` // of an own round, up to MaxRoundWords runes
	Note  string      `json:"note,omitempty"`  // up to MaxRoundWords runes
}

// Feeding is what the shop proposes for feeding. A zero Measure leaves the usual
// value, and no day of Fasting the usual rule.
type Feeding struct {
	Share   quantity.Measure // dry food a day over body mass, fish.LeastShare to fish.MostShare
	Protein quantity.Measure // in the food, by its label, fish.LeastProtein to fish.MostProtein
	Fasting []time.Weekday   // days of the week without food, Monday first, each once
}

// IsZero reports whether f proposes nothing.
func (f Feeding) IsZero() bool {
	return f.Share.IsZero() && f.Protein.IsZero() && len(f.Fasting) == 0
}

// Limits of a care plan. // judgement
const (
	// MaxRounds is how many rounds a plan may hold.
	MaxRounds = 40
	// MaxRoundWords is the longest title or note of a round, in runes.
	MaxRoundWords = 300
	// MaxEdition is the highest edition that is believed.
	MaxEdition = 1_000_000
	// maxFasting is how many days of a week may be without food.
	maxFasting = 6
)

// Of a plan: what is wrong with it, and what is left out of one.
const (
	CodePlan     working.Key = "refuse.slip.plan"    // a round that cannot be one
	CodeFeeding  working.Key = "refuse.slip.feeding" // a share or a day that cannot be
	CodeMark     working.Key = "refuse.slip.mark"    // no step that a profile answers
	FoundRound   working.Key = "find.slip.round"     // a round of a kind that is not known
	FoundFeeding working.Key = "find.slip.feeding"   // feeding of a later version
)

// Marked reports whether a step may bear the mark that the shop's own check failed:
// those whose fields a profile may answer.
func Marked(s care.Step) bool {
	return slices.ContainsFunc(care.Fields(), func(f *care.Field) bool { return f.Step == s && Settable(f.ID) })
}

var clockForm = regexp.MustCompile(`^([01][0-9]|2[0-3]):[0-5][0-9]$`)

// weekdays as RFC 5545 names them, in the order of Weekdays.
var weekdays = map[time.Weekday]string{time.Monday: "MO", time.Tuesday: "TU", time.Wednesday: "WE", time.Thursday: "TH", time.Friday: "FR",
	time.Saturday: "SA", time.Sunday: "SU"}

// Weekdays are the days of the week, Monday first.
func Weekdays() []time.Weekday {
	return []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday}
}

// Proposes reports whether a code is one that a plan may hold: what recurs, not
// what follows up on something that happened.
func Proposes(c rounds.Code) bool { return c == rounds.Own || slices.Contains(rounds.Usual(), c) }

func (r Round) check() error {
	bad := &Error{Code: CodePlan, Part: partProfile, Place: "plan"}
	rule, err := rounds.ParseRule(r.Rule)
	switch {
	case !Proposes(r.Code), err != nil, rule.String() != r.Rule, !clockForm.MatchString(r.At), r.Code == rounds.Own && r.Title == "":
		return bad
	}
	if err := checkText(partProfile, "plan.title", r.Title, MaxRoundWords, false); err != nil {
		return err
	}
	return checkText(partProfile, "plan.note", r.Note, MaxRoundWords, false)
}

func checkPlan(plan []Round) error {
	if len(plan) > MaxRounds {
		return &Error{Code: CodePlan, Part: partProfile, Place: "plan"}
	}
	seen := map[rounds.Code]bool{}
	for _, r := range plan {
		if err := r.check(); err != nil {
			return err
		}
		if r.Code != rounds.Own && seen[r.Code] {
			return &Error{Code: CodeTwice, Part: partProfile, Place: string(r.Code)}
		}
		seen[r.Code] = true
	}
	return nil
}

func (f Feeding) check() error {
	bad := func(place string) error {
		return &Error{Code: CodeFeeding, Part: partProfile, Place: "feeding." + place}
	}
	for _, x := range []struct {
		place     string
		m         quantity.Measure
		low, high quantity.Ratio
	}{{"share", f.Share, fish.LeastShare, fish.MostShare}, {"protein", f.Protein, fish.LeastProtein, fish.MostProtein}} {
		if x.m.IsZero() {
			continue
		}
		v, err := x.m.Value()
		if err != nil || v.Kind != quantity.KindRatio || len(x.m.Number) > MaxNumber || !numberForm.MatchString(x.m.Number) || x.m.Basis != quantity.BasisNone ||
			working.InRange(x.place, "", v, x.low.Value(), x.high.Value()) != nil {
			return bad(x.place)
		}
	}
	last := -1
	for _, d := range f.Fasting {
		n := slices.Index(Weekdays(), d)
		if n <= last {
			return bad("fasting")
		}
		last = n
	}
	if len(f.Fasting) > maxFasting {
		return bad("fasting")
	}
	return nil
}

func checkMarks(marks []care.Step) error {
	for i, s := range marks {
		if !Marked(s) || slices.Contains(marks[:i], s) {
			return &Error{Code: CodeMark, Part: partProfile, Place: "marks"}
		}
	}
	return nil
}

// writtenFeeding and writtenShare are feeding as written.
type writtenFeeding struct {
	Share   *writtenShare `json:"share,omitempty"`
	Protein *writtenShare `json:"protein,omitempty"`
	Fasting []string      `json:"fasting,omitempty"`
}

type writtenShare struct {
	Value string            `json:"value"`
	Unit  quantity.UnitCode `json:"unit"`
}

func (f Feeding) written() *writtenFeeding {
	if f.IsZero() {
		return nil
	}
	share := func(m quantity.Measure) *writtenShare {
		if m.IsZero() {
			return nil
		}
		return &writtenShare{m.Number, m.Unit}
	}
	out := &writtenFeeding{Share: share(f.Share), Protein: share(f.Protein)}
	for _, d := range f.Fasting {
		out.Fasting = append(out.Fasting, weekdays[d])
	}
	return out
}

// plan reads the care plan. A round of a kind that is not known is left out and
// named; in a profile of a later version, so is one that is not understood.
func (f *fetch) plan(p *Profile, of map[string]tree) error {
	t, ok := of["plan"]
	if !ok {
		return nil
	}
	if t.kind != isList {
		return f.shape("plan")
	}
	for _, t := range t.items {
		one, err := f.object(t, "plan", "code", "rule", "at", "title", "note")
		if err != nil {
			return err
		}
		var r Round
		for _, x := range []struct {
			name string
			most int
			to   *string
		}{{"code", MaxNumber, (*string)(&r.Code)}, {"rule", rounds.MaxRule, &r.Rule}, {"at", MaxNumber, &r.At}, {"title", MaxRoundWords, &r.Title}, {"note", MaxRoundWords, &r.Note}} {
			if *x.to, err = f.text(one, "plan", x.name, x.most, false); err != nil {
				return err
			}
		}
		if r.Code != "" && !Proposes(r.Code) {
			f.leftOut(FoundRound, string(r.Code))
			continue
		}
		if err := r.check(); err != nil {
			if p.Version > Version {
				f.leftOut(FoundRound, string(r.Code))
				continue
			}
			return err
		}
		p.Plan = append(p.Plan, r)
	}
	return nil
}

// feeding reads what is proposed for feeding.
func (f *fetch) feeding(p *Profile, of map[string]tree) error {
	t, ok := of["feeding"]
	if !ok {
		return nil
	}
	got, err := f.fed(t)
	if err == nil {
		err = got.check()
	}
	if err != nil && p.Version > Version {
		f.note(working.Find(working.Wait, FoundFeeding))
		return nil
	}
	p.Feeding = got
	return err
}

func (f *fetch) fed(t tree) (Feeding, error) {
	var out Feeding
	of, err := f.object(t, "feeding", "share", "protein", "fasting")
	if err != nil {
		return out, err
	}
	for _, x := range []struct {
		name string
		to   *quantity.Measure
	}{{"share", &out.Share}, {"protein", &out.Protein}} {
		name, to := x.name, x.to
		t, ok := of[name]
		if !ok {
			continue
		}
		one, err := f.object(t, "feeding."+name, "value", "unit")
		if err != nil {
			return out, err
		}
		unit, err := f.text(one, "feeding."+name, "unit", MaxNumber, false)
		if err != nil {
			return out, err
		}
		if to.Number, err = f.text(one, "feeding."+name, "value", MaxNumber, false); err != nil {
			return out, err
		}
		if to.Unit = quantity.UnitCode(unit); to.IsZero() {
			return out, f.shape("feeding." + name)
		}
	}
	days, ok := of["fasting"]
	if !ok {
		return out, nil
	}
	if days.kind != isList {
		return out, f.shape("feeding.fasting")
	}
	for _, x := range days.items {
		at := slices.IndexFunc(Weekdays(), func(d time.Weekday) bool { return x.kind == isString && weekdays[d] == x.text })
		if at < 0 {
			return out, &Error{Code: CodeFeeding, Part: f.part, Place: "feeding.fasting"}
		}
		out.Fasting = append(out.Fasting, Weekdays()[at])
	}
	return out, nil
}

// marks reads the steps at which the shop's own check failed. A step that is not
// known is left out and named.
func (f *fetch) marks(p *Profile, of map[string]tree) error {
	t, ok := of["marks"]
	if !ok {
		return nil
	}
	if t.kind != isList {
		return f.shape("marks")
	}
	for _, x := range t.items {
		if x.kind != isString {
			return f.shape("marks")
		}
		if s := care.Step(x.text); Marked(s) {
			p.Marks = append(p.Marks, s)
		} else {
			f.leftOut(FoundMember, join("marks", x.text))
		}
	}
	return nil
}

// edition reads how often the profile was handed out anew.
func (f *fetch) edition(p *Profile, of map[string]tree) error {
	if _, ok := of["edition"]; !ok {
		return nil
	}
	n, err := f.whole(of, "", "edition", 1, MaxEdition)
	p.Edition = int(n)
	return err
}
