package sick

import (
	"slices"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Many is how many fish show the signs; empty is not said.
type Many string

// How many.
const (
	One     Many = "one"
	Several Many = "several"
	Most    Many = "most" // or all
)

// Manies lists what can be said, fewest first.
func Manies() []Many { return []Many{One, Several, Most} }

// Water is how the water stands by a test that is fresh enough to speak for it.
type Water struct {
	Known     bool
	State     working.State
	Emergency bool // a finding that calls for help within minutes
}

// Fresh is how old a water test may be, in hours, to speak for the water as it
// is now. // judgement: a night apart, filter and fish have changed it
const Fresh = 24

// Observed is a sign as it stands in a case.
type Observed struct {
	Sign SignID
	Days int // civil days since it was first seen, 0 for today
}

// Seen is what the urgency is reckoned from.
type Seen struct {
	Signs []Observed
	Many  Many
	Water Water
}

// Urgency is how soon something must be done and why.
type Urgency struct {
	Level Level
	State working.State
	// Why says what governs: the most urgent sign first, then what raised it.
	Why []working.Finding
	// Vet says when to call a veterinarian, over all.
	Vet working.Finding
	// Signs are the signs seen, the most urgent first.
	Signs []Sign
}

// Reckon gives the urgency of what was seen: that of the most urgent sign,
// raised by the water and by the number of fish, never lowered. Signs that are
// not known are left out.
//
// Source for the levels: the table of signs. Judgement for what raises them:
// water that asks to act makes it the same day, and an emergency with a sign of
// breathing or where the test itself calls for one; several fish raise it by one
// level up to the same day; most of them make it the same day at least, and an
// emergency with a sign of breathing, for what strikes all at once is the water.
func Reckon(s Seen) Urgency {
	u := Urgency{Signs: ordered(s.Signs)}
	breathing, longest := false, Observed{}
	var lasting Sign
	for _, o := range s.Signs {
		sign, ok := SignOf(o.Sign)
		if !ok {
			continue
		}
		breathing = breathing || sign.Group == Breathing
		if limit := days[sign.Level]; limit > 0 && o.Days >= limit && (lasting.Code == "" || sign.Level > lasting.Level) {
			lasting, longest = sign, o
		}
	}
	if len(u.Signs) > 0 {
		u.Level = u.Signs[0].Level
		u.Why = append(u.Why, working.Find(u.Level.State(), "find.sick.governs").Word("Sign", u.Signs[0].Message()).Word("Level", levelWord(u.Level)))
	}
	raise := func(to Level, code working.Key) {
		if to > u.Level {
			u.Level = to
			u.Why = append(u.Why, working.Find(to.State(), code).Word("Level", levelWord(to)))
		}
	}
	if w := s.Water; w.Known && w.State == working.Act {
		if w.Emergency || breathing {
			raise(Emergency, "find.sick.raised_water")
		}
		raise(SameDay, "find.sick.raised_water")
	}
	if u.Level > None && s.Many == Several && u.Level < SameDay {
		raise(u.Level+1, "find.sick.raised_several")
	}
	if u.Level > None && s.Many == Most {
		if breathing {
			raise(Emergency, "find.sick.raised_most")
		}
		raise(SameDay, "find.sick.raised_most")
	}
	u.State = u.Level.State()
	u.Vet = vet(u, s.Water, lasting, longest)
	if u.Vet.State > u.State {
		u.State = u.Vet.State
	}
	return u
}

func levelWord(l Level) working.Key { return working.Key("word.sick.level." + l.String()) }

// vet says when to call a veterinarian. Water that was tested and is in order
// is not the cause: then the call does not wait.
func vet(u Urgency, w Water, lasting Sign, o Observed) working.Finding {
	clean := w.Known && w.State != working.Act
	switch {
	case u.Level == None:
		return working.Find(working.Steady, "find.sick.vet_none")
	case lasting.Code != "":
		return working.Find(working.Act, "find.sick.vet_lasting").Word("Sign", lasting.Message()).With("Days", quantity.Time(o.Days*86400).Value())
	case u.Level == Emergency && clean:
		return working.Find(working.Act, "find.sick.vet_now")
	case u.Level == Emergency:
		return working.Find(working.Act, "find.sick.vet_after_water")
	case u.Level == SameDay && clean:
		return working.Find(working.Act, "find.sick.vet_today")
	case u.Level == SameDay:
		return working.Find(working.Act, "find.sick.vet_test_then")
	case u.Level == TwoDays:
		return working.Find(working.Wait, "find.sick.vet_two_days")
	case u.Level == Week:
		return working.Find(working.Wait, "find.sick.vet_week")
	}
	return working.Find(working.Steady, "find.sick.vet_watch")
}

// ordered gives the known signs, the most urgent first, as the table has them
// within a level.
func ordered(seen []Observed) []Sign {
	var out []Sign
	for _, s := range signs {
		if slices.ContainsFunc(seen, func(o Observed) bool { return o.Sign == s.Code }) {
			out = append(out, s)
		}
	}
	slices.SortStableFunc(out, func(a, b Sign) int { return int(b.Level) - int(a.Level) })
	return out
}
