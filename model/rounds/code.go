package rounds

import "example.org/driploop/model/journal"

// Code says which of the usual rounds one is.
type Code string

// The usual rounds, and the follow-ups that other pages ask for.
const (
	Look        Code = "look"        // the fish, the thermometer, the filter's flow
	Feed        Code = "feed"        // feeding
	Test        Code = "test"        // a water test
	Change      Code = "change"      // part of the water
	Filter      Code = "filter"      // the filter's care
	Glass       Code = "glass"       // algae off the glass
	Gravel      Code = "gravel"      // the gravel siphoned
	Protection  Code = "protection"  // the protective switch tried
	Timer       Code = "timer"       // the light's timer looked at
	Thermometer Code = "thermometer" // compared with another
	TestKit     Code = "test_kit"    // its date of expiry
	Own         Code = "own"         // one of the person's own, with a title

	Retest      Code = "retest"       // test again, once
	LookAgain   Code = "look_again"   // look at a fish again, once
	PhotoAgain  Code = "photo_again"  // photograph it again, once
	ChangeAgain Code = "change_again" // change water again, once
)

// Usual lists the usual rounds, the most frequent first.
func Usual() []Code {
	return []Code{Look, Feed, Test, Change, Glass, Gravel, Filter, Protection, Timer, Thermometer, TestKit}
}

// FollowUps lists what other pages ask to be done once.
func FollowUps() []Code { return []Code{Retest, LookAgain, PhotoAgain, ChangeAgain} }

// Known reports whether c is a code of this package.
func (c Code) Known() bool {
	if c == Own {
		return true
	}
	for _, list := range [][]Code{Usual(), FollowUps()} {
		for _, x := range list {
			if x == c {
				return true
			}
		}
	}
	return false
}

// Writes is the kind of entry that doing a round writes; empty writes none.
func (c Code) Writes() journal.Kind {
	switch c {
	case Feed:
		return journal.Fed
	case Test, Retest:
		return journal.Tested
	case Change, ChangeAgain:
		return journal.Changed
	case Filter, Glass, Gravel:
		return journal.Cleaned
	case Protection, Timer, Thermometer, TestKit:
		return journal.Kit
	case Own:
		return journal.Note
	}
	return ""
}

// CountedBy lists the kinds of entry that do a round when they are written by
// hand. A hand-written cleaning does none: it does not say what was cleaned.
func (c Code) CountedBy() []journal.Kind {
	switch c {
	case Feed, Test, Retest, Change, ChangeAgain:
		return []journal.Kind{c.Writes()}
	case Look:
		return []journal.Kind{journal.Noticed, journal.Temperature}
	}
	return nil
}

// AsksReading reports whether doing the round needs a form: a test without a
// reading says nothing.
func (c Code) AsksReading() bool { return c == Test || c == Retest }

// ByNeighbour reports whether a round can be handed to somebody who knows
// nothing of fish, while one is away.
func (c Code) ByNeighbour() bool { return c == Look || c == Feed }
