package i18n

import (
	"math"
	"slices"
	"strings"
	"sync"

	"example.org/driploop/model/quantity"
)

// Purpose tells the customary units of one kind apart. The empty purpose is
// right where a kind has but one.
type Purpose string

// The purposes.
const (
	General   Purpose = ""
	Tank      Purpose = "tank"      // length and volume of a tank
	Dose      Purpose = "dose"      // volume or mass of a product to add
	Label     Purpose = "label"     // volume that a product's label names
	Thickness Purpose = "thickness" // glass and panes: mm everywhere
	Board     Purpose = "board"     // timber and panels: in for the US
	Room      Purpose = "room"      // spans of a floor, sizes of a room
	Fish      Purpose = "fish"      // length and mass of a fish
	Food      Purpose = "food"      // mass of food
	Carbonate Purpose = "carbonate" // carbonate hardness
	Mineral   Purpose = "mineral"   // general hardness
	Stress    Purpose = "stress"    // strength of a material
	Long      Purpose = "long"      // times of years
	Short     Purpose = "short"     // times of minutes
)

type choice struct{ metric, us, imperial quantity.UnitCode }

func (c choice) of(s quantity.System) quantity.UnitCode {
	switch s {
	case quantity.US:
		return c.us
	case quantity.Imperial:
		return c.imperial
	}
	return c.metric
}

func same(c quantity.UnitCode) choice { return choice{c, c, c} }

type use struct {
	kind    quantity.Kind
	purpose Purpose
}

// customary is the unit a field starts with. Common practice, no source: glass
// is traded in millimetres everywhere and doses are marked in millilitres on US
// bottles too; British keepers think of temperature in °C.
var customary = map[use]choice{
	{quantity.KindLength, General}:      {"cm", "in", "in"},
	{quantity.KindLength, Thickness}:    same("mm"),
	{quantity.KindLength, Board}:        {"mm", "in", "mm"},
	{quantity.KindLength, Room}:         {"m", "ft", "ft"},
	{quantity.KindArea, General}:        {"cm2", "in2", "in2"},
	{quantity.KindArea, Room}:           {"m2", "ft2", "ft2"},
	{quantity.KindVolume, General}:      {"l", "gal_us", "gal_imp"},
	{quantity.KindVolume, Dose}:         same("ml"),
	{quantity.KindMass, General}:        {"kg", "lb", "lb"},
	{quantity.KindMass, Dose}:           same("g"),
	{quantity.KindMass, Food}:           same("g"),
	{quantity.KindMass, Fish}:           same("g"),
	{quantity.KindForce, General}:       {"n", "lbf", "lbf"},
	{quantity.KindMoment, General}:      {"n.m", "lbf.ft", "lbf.ft"},
	{quantity.KindPressure, General}:    {"kpa", "psf", "kpa"},
	{quantity.KindPressure, Stress}:     {"mpa", "psi", "mpa"},
	{quantity.KindLineLoad, General}:    {"n/m", "lbf/ft", "n/m"},
	{quantity.KindEnergy, General}:      same("kwh"),
	{quantity.KindTime, General}:        same("h"),
	{quantity.KindTime, Short}:          same("min"),
	{quantity.KindTime, Long}:           same("yr"),
	{quantity.KindFlow, General}:        {"l/h", "gph_us", "l/h"},
	{quantity.KindTemperature, General}: {"degc", "degf", "degc"},
	{quantity.KindTempDiff, General}:    {"k_diff", "f_diff", "k_diff"},
	{quantity.KindHardness, General}:    same("dh"),
	{quantity.KindHardness, Carbonate}:  same("dkh"),
	{quantity.KindHardness, Mineral}:    same("dgh"),
	{quantity.KindRatio, General}:       same("percent"),
	{quantity.KindAngle, General}:       same("deg"),
	{quantity.KindInertia, General}:     same("mm4"),
	{quantity.KindModulus, General}:     same("mm3_section"),
}

// DefaultUnit returns the unit that a field of kind k starts with for this
// person. Where no custom is known it is the base unit of the kind; money has
// none and returns "".
func (w *Words) DefaultUnit(k quantity.Kind, p Purpose) quantity.UnitCode {
	if c, ok := customary[use{k, p}]; ok {
		return c.of(w.system)
	}
	if c, ok := customary[use{k, General}]; ok {
		return c.of(w.system)
	}
	u, _ := k.Base()
	return u.Code
}

// Foreign reports whether a unit is customary elsewhere and not for this person,
// as the degree Fahrenheit is to who counts in Celsius.
func (w *Words) Foreign(c quantity.UnitCode) bool {
	elsewhere := false
	for _, u := range customary {
		if u.of(w.system) == c {
			return false
		}
		elsewhere = elsewhere || u.metric == c || u.us == c || u.imperial == c
	}
	return elsewhere
}

// Reading returns how this person writes numbers in a field of kind k, for
// quantity.Parse.
func (w *Words) Reading(k quantity.Kind, p Purpose) quantity.Reading {
	return quantity.Reading{Unit: w.DefaultUnit(k, p), System: w.system, Decimal: w.decimal, Words: unitWords(w.lang)}
}

// unitWords are the names that a language gives to units, so that what it shows can
// be typed back.
func unitWords(lang string) *quantity.UnitWords {
	once, _ := namesOfUnits.LoadOrStore(lang, sync.OnceValue(func() *quantity.UnitWords {
		out := quantity.UnitWords{}
		for _, k := range quantity.Kinds() {
			for _, u := range quantity.UnitsOf(k) {
				m, ok := in(lang).messages[string(UnitKey(u.Code))]
				if !ok {
					continue
				}
				for _, name := range []string{m.Zero, m.One, m.Two, m.Few, m.Many, m.Other} {
					name = strings.ToLower(strings.Join(strings.Fields(name), " "))
					if name != "" && !slices.Contains(out[name], u.Code) {
						out[name] = append(out[name], u.Code)
					}
				}
			}
		}
		return &out
	}))
	return once.(func() *quantity.UnitWords)()
}

var namesOfUnits sync.Map // language to func() *quantity.UnitWords

// step is one rung of a ladder of units: it serves below the given magnitude,
// counted in the base unit of the kind.
type step struct {
	below float64
	unit  quantity.UnitCode
}

var forever = math.Inf(1)

// The ladders. judgement: the units in which a person of each system would say
// a thing of that size. Lengths under half an inch are thicknesses and
// deflections, which are told in millimetres everywhere; small doses are in
// millilitres and grams everywhere.
var ladders = map[quantity.Kind]map[quantity.System][]step{
	quantity.KindLength: {
		quantity.Metric:   {{0.03, "mm"}, {3, "cm"}, {forever, "m"}},
		quantity.US:       {{0.0127, "mm"}, {10 * 0.3048, "in"}, {forever, "ft"}},
		quantity.Imperial: {{0.0127, "mm"}, {10 * 0.3048, "in"}, {forever, "ft"}},
	},
	quantity.KindArea: {
		quantity.Metric:   {{1e-4, "mm2"}, {1, "cm2"}, {forever, "m2"}},
		quantity.US:       {{1, "in2"}, {forever, "ft2"}},
		quantity.Imperial: {{1, "in2"}, {forever, "ft2"}},
	},
	quantity.KindVolume: {
		quantity.Metric:   {{1e-3, "ml"}, {forever, "l"}},
		quantity.US:       {{1e-4, "ml"}, {1.9e-3, "floz_us"}, {forever, "gal_us"}},
		quantity.Imperial: {{1e-3, "ml"}, {4.5e-3, "l"}, {forever, "gal_imp"}},
	},
	quantity.KindMass: {
		quantity.Metric:   {{1e-3, "mg"}, {1, "g"}, {forever, "kg"}},
		quantity.US:       {{1e-3, "mg"}, {0.02834, "g"}, {0.4535, "oz"}, {forever, "lb"}},
		quantity.Imperial: {{1e-3, "mg"}, {0.02834, "g"}, {0.4535, "oz"}, {forever, "lb"}},
	},
	quantity.KindForce: {
		quantity.Metric: {{1e4, "n"}, {forever, "kn"}},
	},
	quantity.KindPressure: {
		quantity.Metric:   {{1e3, "pa"}, {1e6, "kpa"}, {1e9, "mpa"}, {forever, "gpa"}},
		quantity.US:       {{2e4, "psf"}, {forever, "psi"}},
		quantity.Imperial: {{1e3, "pa"}, {1e6, "kpa"}, {1e9, "mpa"}, {forever, "gpa"}},
	},
	quantity.KindPower: {
		quantity.Metric: {{1e4, "w"}, {forever, "kw"}},
	},
	quantity.KindEnergy: {
		quantity.Metric: {{1e3, "j"}, {3.6e5, "kj"}, {forever, "kwh"}},
	},
	quantity.KindTime: {
		quantity.Metric: {{120, "s"}, {2 * 3600, "min"}, {2 * 86400, "h"}, {90 * 86400, "d"}, {2 * 365.2425 * 86400, "mo"}, {forever, "yr"}},
	},
	quantity.KindFlow: {
		quantity.Metric:   {{1e-3 / 3600, "ml/min"}, {forever, "l/h"}},
		quantity.US:       {{1e-3 / 3600, "ml/min"}, {forever, "gph_us"}},
		quantity.Imperial: {{1e-3 / 3600, "ml/min"}, {forever, "l/h"}},
	},
	quantity.KindConcentration: {
		quantity.Metric: {{1e-3, "ug/l"}, {1e4, "mg/l"}, {forever, "g/l"}},
	},
	quantity.KindMassRate: {
		quantity.Metric: {{1, "mg/d"}, {forever, "g/d"}},
	},
}

// unitFor picks the unit for v by its magnitude.
func (w *Words) unitFor(v quantity.Value) quantity.UnitCode {
	rungs, ok := ladders[v.Kind][w.system]
	if !ok && w.DefaultUnit(v.Kind, General) == w.metric().DefaultUnit(v.Kind, General) {
		rungs, ok = ladders[v.Kind][quantity.Metric]
	}
	if !ok {
		return w.DefaultUnit(v.Kind, General)
	}
	if v.X == 0 {
		return w.DefaultUnit(v.Kind, General)
	}
	for _, r := range rungs {
		// A hair is added so that 0.9999 of a limit, which shows as the limit, already counts as it.
		if math.Abs(v.X)*(1+5e-4) < r.below {
			return r.unit
		}
	}
	return w.DefaultUnit(v.Kind, General)
}

func (w *Words) metric() *Words {
	m := *w
	m.system = quantity.Metric
	return &m
}
