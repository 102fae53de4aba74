package care

import "example.org/driploop/model/working"

// NoteID names a safety note.
type NoteID string

// Severity is the signal word of a safety note.
// Source: ANSI Z535.4 and ISO 3864-2 (read in secondary copies): danger will,
// warning could cause death or serious injury; caution could cause minor or
// moderate injury; notice is about animals and property, without the triangle.
type Severity string

// The severities, gravest first.
const (
	Danger  Severity = "danger"
	Warning Severity = "warning"
	Caution Severity = "caution"
	Notice  Severity = "notice"
)

// Note is a safety note as data: its words are the messages note.<id>.hazard,
// note.<id>.consequence and note.<id>.avoid, in that order.
type Note struct {
	ID       NoteID
	Severity Severity
	Steps    []Step
	// Acknowledge holds where acting wrongly can injure: the step is not finished
	// before the person has confirmed the note.
	Acknowledge bool
	Sources     []working.SourceID
}

// Hazard, Consequence and Avoid are the keys of the note's three sentences.
func (n Note) Hazard() working.Key      { return working.Key("note." + string(n.ID) + ".hazard") }
func (n Note) Consequence() working.Key { return working.Key("note." + string(n.ID) + ".consequence") }
func (n Note) Avoid() working.Key       { return working.Key("note." + string(n.ID) + ".avoid") }

// Sources of the safety facts. The standards themselves were not seen; the facts
// are as public summaries give them.
var (
	srcRCD = working.Register(working.Source{ID: "iec-60364-4-41", Origin: working.Published,
		Cite: "IEC 60364-4-41, 411.3.3 and 415.1: additional protection by a residual current device of at most 30 mA (secondary copies)"})
	srcGFCI = working.Register(working.Source{ID: "ul-943", Origin: working.Published,
		Cite: "UL 943, Class A ground-fault circuit interrupter: trips at 4 to 6 mA (secondary copies)"})
	srcNEC = working.Register(working.Source{ID: "nec-2023-210.8", Origin: working.Published,
		Cite: "NFPA 70 (NEC) 2023, 210.8(B)(13): receptacles for aquariums in other than dwelling units (secondary copy)"})
	srcAppliance = working.Register(working.Source{ID: "iec-60335-2-55", Origin: working.Published,
		Cite: "IEC 60335-2-55:2021, appliances for aquariums and garden ponds; IEC 60335-2-41, pumps (scope as published)"})
	srcLifting = working.Register(working.Source{ID: "niosh-94-110-use", Origin: working.Published,
		Cite: "Waters, Putz-Anderson, Garg: Applications manual for the revised NIOSH lifting equation, NIOSH 94-110, 1994, rev. 2021"})
	srcScald = working.Register(working.Source{ID: "scald", Origin: working.Memory,
		Cite: "Moritz A.R., Henriques F.C. 1947, Am. J. Pathol. 23:695: burns from water above 50 °C within minutes, faster above (from memory)"})
	srcWelfare = working.Register(working.Source{ID: "eu-2007-526", Origin: working.Published,
		Cite: "Commission Recommendation 2007/526/EC: quarantine, observation and handling of fish with wet hands and clean nets"})
)

var notes = []Note{
	{"glass", Caution, []Step{TankPlace, Rinse}, false, []working.SourceID{working.Trade}},
	{"protection", Warning, []Step{KitList, PowerOn}, false, []working.SourceID{srcRCD, srcGFCI, srcNEC, srcAppliance}},
	{"stand_collapse", Warning, []Step{StandFloor}, true, []working.SourceID{working.Trade}},
	{"tipping", Warning, []Step{StandFloor}, false, []working.SourceID{working.Trade}},
	{"never_move", Warning, []Step{StandFloor, FillTreat}, false, []working.SourceID{working.Trade}},
	{"no_soap", Notice, []Step{Rinse}, false, []working.SourceID{working.Trade}},
	{"lifting", Caution, []Step{Rinse, FillTreat}, false, []working.SourceID{srcLifting}},
	{"nothing_plugged", Warning, []Step{PlaceDry}, true, []working.SourceID{srcAppliance, working.Trade}},
	{"heater_dry", Warning, []Step{PlaceDry, PowerOn}, false, []working.SourceID{srcAppliance, working.Trade}},
	{"hot_water", Warning, []Step{FillTreat}, true, []working.SourceID{srcScald}},
	{"wet_floor", Caution, []Step{FillTreat}, false, []working.SourceID{working.Trade}},
	{"conditioner", Caution, []Step{FillTreat}, false, []working.SourceID{working.Trade}},
	{"shock", Danger, []Step{PowerOn}, true, []working.SourceID{srcRCD, working.Trade}},
	{"fell_in", Danger, []Step{PowerOn, Settle}, false, []working.SourceID{srcRCD, working.Trade}},
	{"unplug_first", Warning, []Step{Settle, HomeComing}, false, []working.SourceID{working.Trade}},
	{"reagents", Caution, []Step{FirstFish}, false, []working.SourceID{working.Trade}},
	{"first_fish", Notice, []Step{FirstFish}, false, []working.SourceID{srcWelfare}},
	{"hands", Caution, []Step{HomeComing}, false, []working.SourceID{working.Trade}},
	{"bag_water", Notice, []Step{HomeComing}, false, []working.SourceID{srcWelfare}},
	{"stray_current", Danger, nil, false, []working.SourceID{srcRCD, working.Trade}}, // where a fish looks as if the water were live
	{"drip_tube", Warning, nil, false, []working.SourceID{working.Trade}},            // where a bag is brought home drop by drop
	{"dry_hands", Warning, []Step{HomeComing}, true, []working.SourceID{working.Trade}},
}

// Notes lists every safety note.
func Notes() []Note { return append([]Note(nil), notes...) }

// NoteOf finds a safety note.
func NoteOf(id NoteID) (Note, bool) {
	for _, n := range notes {
		if n.ID == id {
			return n, true
		}
	}
	return Note{}, false
}

// NotesFor lists the notes of a step, those to acknowledge first, then the gravest.
func NotesFor(s Step) []Note {
	var out []Note
	for _, sev := range []Severity{Danger, Warning, Caution, Notice} {
		for _, first := range []bool{true, false} {
			for _, n := range notes {
				if n.Severity != sev || n.Acknowledge != first {
					continue
				}
				for _, t := range n.Steps {
					if t == s {
						out = append(out, n)
					}
				}
			}
		}
	}
	for i, n := range out { // the one to acknowledge leads, whatever its rank
		if n.Acknowledge {
			copy(out[1:i+1], out[:i])
			out[0] = n
			break
		}
	}
	return out
}
