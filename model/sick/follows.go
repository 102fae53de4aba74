package sick

import (
	"slices"

	"example.org/driploop/model/journal"
)

// usual are the tests to make when no sign says which. Source: the reference
// table's first checks, which begin with the water throughout.
var usual = []string{journal.NameTemperature, journal.NameAmmonia, journal.NameNitrite, journal.NamePH}

// Tests lists the water tests to make, the ones of the most urgent sign first,
// each once. Ammonia is judged with pH and temperature, so they follow it.
func Tests(ss []Sign) []string {
	var out []string
	add := func(name string) {
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	for _, s := range ss {
		for _, t := range s.Tests {
			add(t)
		}
	}
	if len(out) == 0 {
		return slices.Clone(usual)
	}
	if slices.Contains(out, journal.NameAmmonia) {
		add(journal.NamePH)
		add(journal.NameTemperature)
	}
	return out
}

// Acts lists what to do in the next hour, in the order of doing, each once.
func Acts(ss []Sign) []Act {
	var out []Act
	for _, a := range acts {
		if slices.ContainsFunc(ss, func(s Sign) bool { return slices.Contains(s.Acts, a) }) {
			out = append(out, a)
		}
	}
	return out
}

// handsIn are acts for which a hand goes into the water.
var handsIn = []Act{"flow", "heater", "change_half", "change_matched", "change_small", "remove_body", "separate", "separate_calm", "leak", "decor", "shelter",
	"clean_gravel", "take_out_food"}

// cautions are the safety notes in order, the gravest danger first.
var cautions = []string{"stray_current", "unplug_first", "reagents", "hands"}

// Notes lists the ids of the safety notes to show: those of the signs, that of
// appliances wherever a hand goes in, and that of the tests that are always made.
func Notes(ss []Sign) []string {
	in := slices.ContainsFunc(Acts(ss), func(a Act) bool { return slices.Contains(handsIn, a) })
	var out []string
	for _, n := range cautions {
		if n == "reagents" || n == "unplug_first" && in || slices.ContainsFunc(ss, func(s Sign) bool { return slices.Contains(s.Notes, n) }) {
			out = append(out, n)
		}
	}
	return out
}
