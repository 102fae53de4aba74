package rounds

import (
	"strings"
	"time"

	"github.com/teambition/rrule-go"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/working"
)

// Rule is a recurrence rule of RFC 5545. The zero Rule never recurs.
type Rule struct {
	text   string
	option rrule.ROption
}

const (
	// MaxRule is the longest text of a rule, in bytes. Judgement.
	MaxRule = 500
	// MaxADay is how often a round may recur in a day. Judgement: beyond it is a slip.
	MaxADay = 12
	// MaxYears is how long a round lasts from its start. Judgement: longer than a tank.
	MaxYears = 40
)

// ParseRule reads the value of an RRULE property, without its name. Refusals
// (field "rule"): a text that is no rule; one by hours, minutes or seconds, or
// more often than MaxADay; a part that RFC 5545 does not know.
func ParseRule(text string) (Rule, error) {
	refused := working.Refuse("rule", "refuse.rounds.rule")
	if text = strings.TrimSpace(text); len(text) > MaxRule || strings.ContainsAny(text, "\n\r:") {
		return Rule{}, refused
	}
	upper := strings.ToUpper(text)
	seen := map[string]bool{}
	for _, part := range strings.Split(upper, ";") {
		name, _, _ := strings.Cut(part, "=")
		if seen[name] || name == "DTSTART" || name == "BYEASTER" { // the library's own, or twice
			return Rule{}, refused
		}
		seen[name] = true
	}
	if seen["COUNT"] && seen["UNTIL"] { // section 3.3.10: not both
		return Rule{}, refused
	}
	o, err := rrule.StrToROption(upper)
	if err != nil || o.Freq > rrule.DAILY || len(o.Bysecond) > 0 || max(1, len(o.Byhour))*max(1, len(o.Byminute)) > MaxADay {
		return Rule{}, refused
	}
	if seen["INTERVAL"] && (o.Interval < 1 || o.Interval > maxEvery) || seen["COUNT"] && o.Count < 1 {
		return Rule{}, refused
	}
	if _, err := rrule.NewRRule(*o); err != nil {
		return Rule{}, refused
	}
	return Rule{upper, *o}, nil
}

// maxEvery is the longest interval in units of the frequency. Judgement.
const maxEvery = 1000

// MustRule is ParseRule for rules of this program.
func MustRule(text string) Rule {
	r, err := ParseRule(text)
	if err != nil {
		panic("rounds: " + text)
	}
	return r
}

// String returns the text of the rule as RFC 5545 has it.
func (r Rule) String() string { return r.text }

// IsZero reports whether r is no rule.
func (r Rule) IsZero() bool { return r.text == "" }

// Once is the rule of what is due a single time.
func Once() Rule { return MustRule("FREQ=DAILY;COUNT=1") }

// Single reports whether r comes due one time only.
func (r Rule) Single() bool { return r.option.Count == 1 }

// Between lists the occurrences of a rule that starts at start, from from to to,
// both included, earliest first. Times are civil: see Wall. Nothing lies beyond
// MaxYears after the start.
func (r Rule) Between(start journal.Civil, from, to time.Time) []journal.Civil {
	first, err := start.Parse()
	if err != nil || r.IsZero() {
		return nil
	}
	if end := first.AddDate(MaxYears, 0, 0); to.After(end) {
		to = end
	}
	rule, err := r.within(first, from, to)
	if err != nil {
		return nil
	}
	var out []journal.Civil
	for next := rule.Iterator(); ; {
		t, ok := next()
		if !ok || t.After(to) {
			return out
		}
		if !t.Before(from) {
			out = append(out, journal.CivilOf(t))
		}
	}
}

// After returns the first occurrence at or after from, false when there is none
// for ten years.
func (r Rule) After(start journal.Civil, from time.Time) (journal.Civil, bool) {
	first, err := start.Parse()
	if err != nil || r.IsZero() {
		return "", false
	}
	if from.Before(first) {
		from = first
	}
	for _, days := range []int{40, 400, 3700} { // most rounds are due within weeks
		to := from.AddDate(0, 0, days)
		rule, err := r.within(first, from, to)
		if err != nil {
			return "", false
		}
		if t := rule.After(from, true); !t.IsZero() && !t.After(to) {
			return journal.CivilOf(t), true
		}
	}
	return "", false
}

// within is the rule from its first occurrence on, ended at to. Where it goes by
// days or weeks alone it begins shortly before from, in step with first.
func (r Rule) within(first, from, to time.Time) (*rrule.RRule, error) {
	o := r.option
	o.Dtstart = first
	if o.Until.IsZero() || o.Until.After(to) {
		o.Until = to
	}
	if p, ok := r.Plain(); ok && !p.Once && (p.Unit == Days || p.Unit == Weeks) && from.After(first) {
		step := p.Every
		if p.Unit == Weeks {
			step *= 7
		}
		gone := int(from.Sub(first).Hours() / 24)
		o.Dtstart = first.AddDate(0, 0, max(0, gone/step-1)*step)
	}
	return rrule.NewRRule(o)
}

// Weekly is the rule of what recurs once a week, on the day on which it begins.
func Weekly() Rule { return MustRule("FREQ=WEEKLY") }
