package daybook

import (
	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// asked is one value that a kind of entry asks for. A word has no kind.
type asked struct {
	name    string
	label   working.Key
	kind    quantity.Kind
	purpose i18n.Purpose
	more    bool // rarer: under 'More'
}

// asks lists, by kind of entry, what is asked, at most three at first; all of it
// may stay empty. Tests have a table of their own.
var asks = map[journal.Kind][]asked{
	journal.Fed: {{name: journal.NameFeed, label: "page.day.amount", kind: quantity.KindMass, purpose: i18n.Food}, {name: journal.NameWhat, label: "page.entry.food"},
		{name: journal.NameLeft, label: "page.entry.left"}},
	journal.Changed: {{name: journal.NameVolume, label: "page.day.volume", kind: quantity.KindVolume, purpose: i18n.Tank},
		{name: journal.NameTemperature, label: "page.day.new_water", kind: quantity.KindTemperature}, {name: journal.NameDose, label: "page.entry.conditioner", kind: quantity.KindVolume, purpose: i18n.Dose}},
	journal.ToppedUp: {{name: journal.NameVolume, label: "page.entry.topped", kind: quantity.KindVolume, purpose: i18n.Tank},
		{name: journal.NameDose, label: "page.entry.conditioner", kind: quantity.KindVolume, purpose: i18n.Dose, more: true}},
	journal.Dosed:       {{name: journal.NameDose, label: "page.day.dose", kind: quantity.KindVolume, purpose: i18n.Dose}, {name: journal.NameWhat, label: "page.entry.product"}},
	journal.Cleaned:     {{name: journal.NamePart, label: "page.entry.part"}, {name: journal.NameWhat, label: "page.entry.with", more: true}},
	journal.Temperature: {{name: journal.NameTemperature, label: "page.fill.reading", kind: quantity.KindTemperature}},
	journal.Noticed:     {{name: journal.NameWhat, label: "page.entry.whom", more: true}},
	journal.FishIn: {{name: journal.NameCount, label: "page.day.fish", kind: quantity.KindCount}, {name: journal.NameWhat, label: "page.entry.species"},
		{name: journal.NameLength, label: "page.day.length", kind: quantity.KindLength, purpose: i18n.Fish}},
	journal.FishOut: {{name: journal.NameCount, label: "page.day.fish", kind: quantity.KindCount}, {name: journal.NameWhat, label: "page.entry.species"},
		{name: journal.NameReason, label: "page.entry.reason"}},
	journal.Kit:      {{name: journal.NameWhat, label: "page.entry.device"}, {name: journal.NameState, label: "page.entry.state"}},
	journal.PowerCut: {{name: journal.NameDuration, label: "page.day.lasted", kind: quantity.KindTime}},
	journal.HomeComing: {{name: journal.NameTemperature, label: "page.entry.bag_temperature", kind: quantity.KindTemperature},
		{name: journal.NameVolume, label: "page.entry.bag_water", kind: quantity.KindVolume, purpose: i18n.Tank},
		{name: journal.NameDuration, label: "page.entry.float", kind: quantity.KindTime, purpose: i18n.Short}},
}

// tests are the things that a water test asks for.
var tests = map[string]asked{
	journal.NameAmmonia:     {name: journal.NameAmmonia, label: "page.day.ammonia", kind: quantity.KindConcentration},
	journal.NameNitrite:     {name: journal.NameNitrite, label: "page.day.nitrite", kind: quantity.KindConcentration},
	journal.NameNitrate:     {name: journal.NameNitrate, label: "page.day.nitrate", kind: quantity.KindConcentration},
	journal.NamePH:          {name: journal.NamePH, label: "page.day.ph", kind: quantity.KindPH},
	journal.NameKH:          {name: journal.NameKH, label: "page.day.kh", kind: quantity.KindHardness, purpose: i18n.Carbonate},
	journal.NameGH:          {name: journal.NameGH, label: "page.entry.gh", kind: quantity.KindHardness, purpose: i18n.Mineral},
	journal.NameTemperature: {name: journal.NameTemperature, label: "page.day.temperature", kind: quantity.KindTemperature},
	journal.NameChlorine:    {name: journal.NameChlorine, label: "page.entry.chlorine", kind: quantity.KindConcentration},
	journal.NameOxygen:      {name: journal.NameOxygen, label: "page.entry.oxygen", kind: quantity.KindConcentration},
	journal.NamePhosphate:   {name: journal.NamePhosphate, label: "page.entry.phosphate", kind: quantity.KindConcentration},
	journal.NameTDS:         {name: journal.NameTDS, label: "page.entry.tds", kind: quantity.KindConcentration},
}

// noteFirst are the kinds that are mostly words: their note stands before 'More'.
var noteFirst = map[journal.Kind]bool{journal.Note: true, journal.Noticed: true, journal.FishOut: true, journal.Photo: true}

// noteLabel is what the note is asked for.
func noteLabel(k journal.Kind) working.Key {
	switch k {
	case journal.Noticed, journal.FishOut:
		return "page.entry.seen"
	}
	return "page.day.words"
}

func ofTest(k journal.Kind) bool { return k == journal.Tested || k == journal.TapTested }
