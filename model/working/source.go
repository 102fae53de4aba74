package working

import (
	"fmt"
	"sort"
)

// Key names a message. See the package comment for its first parts.
type Key string

// SourceID names a citation in the register.
type SourceID string

// Origin says how a figure came to be ours, which decides how it is worded.
type Origin string

// The origins, from the firmest to the loosest.
const (
	Definition Origin = "definition" // exact by definition or algebra
	Published  Origin = "published"  // read in a copy or transcription of the work
	Computed   Origin = "computed"   // solved for this product and kept as a table
	Memory     Origin = "memory"     // published, quoted from memory, not re-read
	Judgement  Origin = "judgement"  // set by us
	Practice   Origin = "practice"   // common practice of the trade, no source
)

// Source is one citation. Cite is the bibliographic text in its own language
// and is not translated.
type Source struct {
	ID     SourceID `json:"id"`
	Cite   string   `json:"cite"`
	Origin Origin   `json:"origin"`
}

var register = map[SourceID]Source{}

// Register adds s to the register and returns its id. It is meant for package
// variables; the same id with another text is a programmer's error and panics.
func Register(s Source) SourceID {
	if s.ID == "" || s.Cite == "" || s.Origin == "" {
		panic(fmt.Sprintf("working: incomplete source %+v", s))
	}
	if old, ok := register[s.ID]; ok && old != s {
		panic("working: source registered twice: " + string(s.ID))
	}
	register[s.ID] = s
	return s.ID
}

// LookUp returns the source with the given id.
func LookUp(id SourceID) (Source, bool) {
	s, ok := register[id]
	return s, ok
}

// Sources lists the register by id.
func Sources() []Source {
	list := make([]Source, 0, len(register))
	for _, s := range register {
		list = append(list, s)
	}
	sort.Slice(list, func(i, j int) bool { return list[i].ID < list[j].ID })
	return list
}

// Sources that several packages rely on.
var (
	// Algebra marks a result that follows from definitions alone.
	Algebra = Register(Source{"algebra", "Exact algebra from definitions and conservation of mass or energy", Definition})
	// Trade marks common practice of the trade.
	Trade = Register(Source{"trade", "Common practice of the trade, no source", Practice})
	// Ours marks a value set by judgement.
	Ours = Register(Source{"judgement", "Judgement set for this program, no published source", Judgement})
)
