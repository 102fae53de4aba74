package care

import (
	"maps"
	"slices"
	"strings"

	"example.org/driploop/model/working"
)

// Failed lists those of the steps whose own check says act, or that hold an answer
// which cannot be beside the others: a stand that does not carry, gravel above the
// rim. It goes by what is answered: a floor that nobody described is none of it, nor
// is whether the stand was held to the wall, nor what a tank waits for while it is
// set up.
func (f *Facts) Failed(steps ...Step) []Step {
	var out []Step
	for _, s := range steps {
		p := f.Page(s)
		bad := slices.ContainsFunc(p.Fields, func(v FieldView) bool { return v.Refused != nil })
		switch s {
		case StandFloor:
			bad = bad || f.standFailed()
		case KitList, FirstFish:
			bad = bad || p.Verdict != nil && p.Verdict.State == working.Act
		}
		if bad {
			out = append(out, s)
		}
	}
	return out
}

// OfHome reports whether a field is about the place where the tank will stand: its
// floor, its room, its socket, who lives there. A shop may answer it, and need not.
func OfHome(id FieldID) bool {
	for _, p := range []string{"floor.", "home.", "room.", "socket.", "household"} {
		if strings.HasPrefix(string(id), p) {
			return true
		}
	}
	return false
}

func (f *Facts) standFailed() bool {
	if f.r.Answers["stand.anchored"].IsZero() {
		r := *f.r
		r.Answers = maps.Clone(f.r.Answers)
		r.Answers["stand.anchored"] = Answer{Choice: unknown, Origin: FromProposal}
		f = NewFacts(&r)
	}
	if a, err := f.Stand(); err != nil || a.State == working.Act {
		return true
	}
	if a, err := f.Glass(); err == nil && a.State == working.Act && f.choice("tank.history") != "new" {
		return true
	}
	for id, a := range f.r.Answers {
		if strings.HasPrefix(string(id), "floor.") && !a.IsZero() {
			floor, err := f.Floor()
			return err != nil || floor.State == working.Act
		}
	}
	return false
}
