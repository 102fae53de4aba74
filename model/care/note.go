package care

import (
	"slices"

	"example.org/driploop/model/working"
)

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

// Place is where a safety note stands besides the steps of First fill.
type Place string

// The places.
const (
	AtChange  Place = "change"  // before a water change
	AtClean   Place = "clean"   // before filter, glass or gravel are cleaned
	AtSwitch  Place = "switch"  // when the protective switch is tried
	AtTest    Place = "test"    // before a water test
	AtFeeding Place = "feeding" // where food is planned
	AtCounter Place = "counter" // at the shop's side
	AtVisit   Place = "visit"   // on the sheet for whoever looks after the tank
)

// Note is a safety note as data: its words are the messages note.<id>.hazard,
// note.<id>.consequence and note.<id>.avoid, in that order.
type Note struct {
	ID       NoteID
	Severity Severity
	Steps    []Step
	Places   []Place
	// Confirm lists the steps in which acting wrongly can injure at once: such a
	// step is not finished before the person has confirmed the note.
	Confirm []Step
	Sources []working.SourceID
}

// ConfirmedIn reports whether the note is to be confirmed in a step.
func (n Note) ConfirmedIn(s Step) bool { return slices.Contains(n.Confirm, s) }

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
		Cite: "Moritz A.R., Henriques F.C. 1947, Am. J. Pathol. 23:695: burns from water above 50 °C within minutes, from 60 °C within seconds (from memory)"})
	srcWelfare = working.Register(working.Source{ID: "eu-2007-526", Origin: working.Published,
		Cite: "Commission Recommendation 2007/526/EC: quarantine, observation and handling of fish with wet hands and clean nets"})
	srcTest = working.Register(working.Source{ID: "gfci-monthly", Origin: working.Memory,
		Cite: "US Consumer Product Safety Commission, GFCI fact sheet: test once a month; makers' leaflets of RCDs ask for a test every month to every half year (from memory)"})
	srcSplash = working.Register(working.Source{ID: "ghs-p305", Origin: working.Memory,
		Cite: "UN GHS, precautionary statements P102, P305+P351+P338, P315, P301+P310: out of reach of children, rinse eyes for several minutes, get medical advice, call a poison centre or doctor when swallowed (from memory)"})
	srcRinse = working.Register(working.Source{ID: "ansi-z358.1", Origin: working.Memory,
		Cite: "ANSI/ISEA Z358.1: eyes and skin are flushed for 15 minutes (from memory)"})
	srcShocked = working.Register(working.Source{ID: "erc-electric", Origin: working.Memory,
		Cite: "European Resuscitation Council, guidelines for special circumstances, electric shock: cut the power before touching the person (from memory)"})
	srcGerms = working.Register(working.Source{ID: "cdc-fish", Origin: working.Memory,
		Cite: "US Centers for Disease Control and Prevention, Healthy Pets, fish: cuts, hand washing, no siphon by mouth (from memory)"})
	srcAllergy = working.Register(working.Source{ID: "liebers-1993", Origin: working.Memory,
		Cite: "Liebers V., Hoernstein M., Baur X. 1993, Allergy 48:236: allergy to red midge larvae in fish food (from memory)"})
	srcCords = working.Register(working.Source{ID: "nec-400-12", Origin: working.Memory,
		Cite: "NFPA 70 (NEC), 400.12 and 110.12(B): flexible cords, damaged parts; UL 1363 relocatable power taps: not one into another (from memory)"})
	srcRooms = working.Register(working.Source{ID: "iec-60364-8", Origin: working.Memory,
		Cite: "NFPA 70 (NEC) 210.8(B) and IEC 60364 as taken over by each country: rooms other than dwellings; work on them is a licensed electrician's (from memory)"})
)

// notes in the order in which they are listed: what to do when it has happened
// first, then the gravest.
var notes = []Note{
	{"fell_in", Danger, []Step{PowerOn, Settle}, []Place{AtVisit}, nil, []working.SourceID{srcRCD, working.Trade}},
	{"someone_shocked", Danger, []Step{PowerOn, Settle}, []Place{AtVisit}, nil, []working.SourceID{srcShocked}},
	{"shock", Danger, []Step{PowerOn}, nil, []Step{PowerOn}, []working.SourceID{srcRCD, working.Trade}},
	{"stray_current", Danger, nil, nil, nil, []working.SourceID{srcRCD, working.Trade}}, // where a fish looks as if the water were live
	{"unplug_first", Warning, []Step{Settle, HomeComing}, []Place{AtChange, AtClean}, []Step{Settle}, []working.SourceID{srcAppliance, working.Trade}},
	{"heater_dry", Warning, []Step{PlaceDry, PowerOn}, []Place{AtChange}, nil, []working.SourceID{srcAppliance, working.Trade}},
	{"dry_hands", Warning, []Step{HomeComing}, []Place{AtChange}, []Step{HomeComing}, []working.SourceID{working.Trade}},
	{"drip_loop", Warning, []Step{PlaceDry}, []Place{AtChange}, nil, []working.SourceID{srcAppliance, working.Trade}},
	{"nothing_plugged", Warning, []Step{PlaceDry}, nil, []Step{PlaceDry}, []working.SourceID{srcAppliance, working.Trade}},
	{"protection", Warning, []Step{KitList, PowerOn}, []Place{AtCounter}, nil, []working.SourceID{srcRCD, srcGFCI, srcNEC, srcAppliance}},
	{"protection_test", Warning, []Step{PowerOn}, []Place{AtSwitch}, nil, []working.SourceID{srcTest}},
	{"extension_block", Warning, []Step{KitList, PlaceDry}, nil, nil, []working.SourceID{srcCords, working.Trade}},
	{"damaged_cable", Warning, []Step{PlaceDry}, []Place{AtClean}, nil, []working.SourceID{srcCords, srcAppliance}},
	{"lights_lids", Warning, []Step{PowerOn}, []Place{AtClean}, nil, []working.SourceID{srcAppliance, working.Trade}},
	{"public_rooms", Warning, []Step{KitList}, []Place{AtCounter}, nil, []working.SourceID{srcNEC, srcRooms}},
	{"drip_tube", Warning, nil, nil, nil, []working.SourceID{working.Trade}}, // where a bag is brought home drop by drop
	{"hot_water", Warning, []Step{FillTreat}, []Place{AtChange}, []Step{FillTreat}, []working.SourceID{srcScald}},
	{"stand_collapse", Warning, []Step{StandFloor}, nil, []Step{StandFloor}, []working.SourceID{working.Trade}},
	{"tipping", Warning, []Step{StandFloor}, nil, nil, []working.SourceID{working.Trade}},
	{"never_move", Warning, []Step{StandFloor, FillTreat}, nil, nil, []working.SourceID{working.Trade}},
	{"siphon_tap", Warning, []Step{FillTreat}, []Place{AtChange}, nil, []working.SourceID{srcRCD, working.Trade}},
	{"food_allergy", Warning, []Step{FirstFish}, []Place{AtFeeding}, nil, []working.SourceID{srcAllergy}},
	{"lifting", Caution, []Step{Rinse, FillTreat}, []Place{AtChange}, nil, []working.SourceID{srcLifting}},
	{"conditioner", Caution, []Step{FillTreat}, []Place{AtChange}, nil, []working.SourceID{srcSplash, srcRinse, working.Trade}},
	{"wet_floor", Caution, []Step{FillTreat}, []Place{AtChange}, nil, []working.SourceID{working.Trade}},
	{"siphon_mouth", Caution, nil, []Place{AtChange, AtClean}, nil, []working.SourceID{srcGerms}},
	{"glass", Caution, []Step{TankPlace, Rinse}, nil, []Step{Rinse}, []working.SourceID{working.Trade}},
	{"reagents", Caution, []Step{FirstFish}, []Place{AtTest}, []Step{FirstFish}, []working.SourceID{srcSplash, srcRinse, working.Trade}},
	{"hands", Caution, []Step{HomeComing}, []Place{AtChange, AtClean}, nil, []working.SourceID{srcGerms, working.Trade}},
	{"no_soap", Notice, []Step{Rinse}, nil, nil, []working.SourceID{working.Trade}},
	{"first_fish", Notice, []Step{FirstFish}, nil, nil, []working.SourceID{srcWelfare}},
	{"bag_water", Notice, []Step{HomeComing}, nil, nil, []working.SourceID{srcWelfare}},
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

// NotesAt lists the notes of places, each once, in the order in which the set has
// them: what can kill first.
func NotesAt(places ...Place) []Note {
	var out []Note
	for _, n := range notes {
		if slices.ContainsFunc(places, func(p Place) bool { return slices.Contains(n.Places, p) }) {
			out = append(out, n)
		}
	}
	return out
}

// NotesFor lists the notes of a step, the one to confirm first, then the gravest.
func NotesFor(s Step) []Note {
	var out []Note
	for _, sev := range []Severity{Danger, Warning, Caution, Notice} {
		for _, n := range notes {
			if n.Severity == sev && slices.Contains(n.Steps, s) {
				out = append(out, n)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Note) int {
		switch x, y := a.ConfirmedIn(s), b.ConfirmedIn(s); {
		case x && !y:
			return -1
		case y && !x:
			return 1
		}
		return 0
	})
	return out
}
