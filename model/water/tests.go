package water

import (
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Test names what a test measures.
type Test string

// The tests that Interpret knows.
const (
	TestAmmonia     Test = "ammonia" // total ammonia
	TestNitrite     Test = "nitrite"
	TestNitrate     Test = "nitrate"
	TestPH          Test = "ph"
	TestKH          Test = "kh"
	TestGH          Test = "gh"
	TestTemperature Test = "temperature"
	TestOxygen      Test = "oxygen"
	TestChlorine    Test = "chlorine" // total chlorine: free chlorine misses chloramine
	TestCO2         Test = "co2"
	TestPhosphate   Test = "phosphate" // as the ion PO4
	TestTDS         Test = "tds"       // dissolved solids; for conductivity see SolidsOf
)

// Reading is one test as it was taken. The zero Reading means not measured.
type Reading struct {
	Value      quantity.Value `json:"value,omitzero"`      // of the test's kind; a zero Kind is "not measured"
	Basis      quantity.Basis `json:"basis,omitempty"`     // for ammonia (the ion is NH4+), nitrite, nitrate: required
	Resolution quantity.Value `json:"resolution,omitzero"` // lowest step above nothing that the kit shows; missing takes a common one
	Below      quantity.Value `json:"below,omitzero"`      // how far below Value the truth may lie; missing takes half of Resolution
	Above      quantity.Value `json:"above,omitzero"`      // and how far above it
	At         time.Time      `json:"at,omitzero"`         // when; the zero time is "not known"
	Beyond     bool           `json:"beyond,omitempty"`    // beyond the last colour of the card: Value is that colour, zero when it is not known
}

// Tests are the readings of one visit to the tank, and what goes with them.
type Tests struct {
	Ammonia     Reading                `json:"ammonia,omitzero"`
	Nitrite     Reading                `json:"nitrite,omitzero"`
	Nitrate     Reading                `json:"nitrate,omitzero"`
	PH          Reading                `json:"ph,omitzero"`
	KH          Reading                `json:"kh,omitzero"`
	GH          Reading                `json:"gh,omitzero"`
	Temperature Reading                `json:"temperature,omitzero"`
	Oxygen      Reading                `json:"oxygen,omitzero"`
	Chlorine    Reading                `json:"chlorine,omitzero"`
	CO2         Reading                `json:"co2,omitzero"`
	Phosphate   Reading                `json:"phosphate,omitzero"`
	TDS         Reading                `json:"tds,omitzero"`
	TapNitrate  Reading                `json:"tap_nitrate,omitzero"`
	Mature      bool                   `json:"mature"`             // the filter has matured
	Gasping     bool                   `json:"gasping"`            // fish breathe at the surface
	Emergency   quantity.Concentration `json:"emergency,omitzero"` // un-ionised ammonia as N that calls for an emergency; zero takes EmergencyNH3; see AcceptEmergency
	Earlier     *Tests                 `json:"earlier,omitempty"`  // the visit before, for what changes too fast
}

// Of returns the reading of a test.
func (t Tests) Of(x Test) Reading {
	switch x {
	case TestAmmonia:
		return t.Ammonia
	case TestNitrite:
		return t.Nitrite
	case TestNitrate:
		return t.Nitrate
	case TestPH:
		return t.PH
	case TestKH:
		return t.KH
	case TestGH:
		return t.GH
	case TestTemperature:
		return t.Temperature
	case TestOxygen:
		return t.Oxygen
	case TestChlorine:
		return t.Chlorine
	case TestCO2:
		return t.CO2
	case TestPhosphate:
		return t.Phosphate
	case TestTDS:
		return t.TDS
	}
	return Reading{}
}

// AllTests lists the tests in the order in which they are shown.
func AllTests() []Test {
	return []Test{TestAmmonia, TestNitrite, TestNitrate, TestPH, TestKH, TestGH, TestTemperature, TestOxygen, TestChlorine, TestCO2, TestPhosphate, TestTDS}
}

// nature is what is known of a test in general.
type nature struct {
	name       working.Key
	kind       quantity.Kind
	species    quantity.Species // for nitrogen
	low, high  float64          // readings beyond are mistakes, in the base unit // judgement
	resolution float64          // of common kits, for readings that do not say // judgement
}

var degree = quantity.MustUnit("dkh").Factor // mg/L CaCO3

var natures = map[Test]nature{
	TestAmmonia:     {"q.water.tan", quantity.KindConcentration, quantity.Ammonium, 0, 100, 0.1},
	TestNitrite:     {"q.water.nitrite", quantity.KindConcentration, quantity.Nitrite, 0, 100, 0.1},
	TestNitrate:     {"q.water.nitrate", quantity.KindConcentration, quantity.Nitrate, 0, 1000, 2},
	TestPH:          {"q.water.ph", quantity.KindPH, "", 2, 12, 0.2},
	TestKH:          {"q.water.kh", quantity.KindHardness, "", 0, 60 * degree, 1 * degree},
	TestGH:          {"q.water.gh", quantity.KindHardness, "", 0, 100 * degree, 1 * degree},
	TestTemperature: {"q.water.temperature", quantity.KindTemperature, "", -2, 50, 0.5},
	TestOxygen:      {"q.water.oxygen", quantity.KindConcentration, "", 0, 40, 0.5},
	TestChlorine:    {"q.water.chlorine_total", quantity.KindConcentration, "", 0, 20, 0.05},
	TestCO2:         {"q.water.co2", quantity.KindConcentration, "", 0, 500, 1},
	TestPhosphate:   {"q.water.phosphate", quantity.KindConcentration, "", 0, 100, 0.1},
	TestTDS:         {"q.water.tds_tank", quantity.KindConcentration, "", 0, 50_000, 10},
}

// Name returns the key of the name of what the test measures.
func (x Test) Name() working.Key { return natures[x].name }

// Kind returns the kind of the test's readings.
func (x Test) Kind() quantity.Kind { return natures[x].kind }

// Sources lists what the limits of the test rest on, the firmest first.
func (x Test) Sources() []working.SourceID {
	switch x {
	case TestAmmonia:
		return []working.SourceID{srcEmerson, srcOATA, srcFA16, working.Trade, working.Ours}
	case TestNitrite:
		return []working.SourceID{srcOATA, working.Ours}
	case TestNitrate:
		return []working.SourceID{srcOATA, srcCamargo, working.Ours}
	case TestPH:
		return []working.SourceID{srcSRAC464, working.Trade}
	case TestGH:
		return []working.SourceID{srcUSGS, working.Trade}
	case TestOxygen:
		return []working.SourceID{srcOATA, working.Ours}
	case TestChlorine:
		return []working.SourceID{srcEPAChlor}
	case TestCO2:
		return []working.SourceID{working.Ours, working.Trade}
	}
	return []working.SourceID{working.Trade}
}

// Known reports whether a reading was taken.
func (r Reading) Known() bool { return r.Value.Known() }

// canonical is a reading in the unit and on the basis that it is judged in:
// ammonia as nitrogen, nitrite and nitrate as the ion.
type canonical struct {
	x        float64
	limit    float64 // what the kit can see
	detected bool    // at or above the limit; always so for pH and temperature
	below    float64 // how far below x the truth may lie; 0 as above it where the kit is not known
	above    float64 // and how far above it
	beyond   bool    // x is the least that it can be
	raw      float64 // as it was typed, on basis
	basis    quantity.Basis
}

// told reports whether the kit says how far the reading may be off.
func (c canonical) told() bool { return c.below > 0 || c.above > 0 }

// room is how far the truth may lie below and above: half of what usual kits can see
// where this one is not known.
func (c canonical) room() (below, above float64) {
	if c.told() {
		return c.below, c.above
	}
	return c.limit / 2, c.limit / 2
}

// surely is how far it is at the least from one reading to another, below nought where
// it falls; 0 where both may show the same water, as from one colour of a card to the
// next.
func surely(a, b canonical) float64 {
	belowA, aboveA := a.room()
	belowB, aboveB := b.room()
	const dust = 1e-9 // of the conversions
	switch {
	case b.x-belowB > a.x+aboveA+dust:
		return b.x - belowB - a.x - aboveA
	case b.x+aboveB < a.x-belowA-dust:
		return b.x + aboveB - a.x + belowA
	}
	return 0
}

// Accept refuses a reading that cannot be judged: of another kind, not a
// number, beyond any water, or nitrogen without its basis. A missing reading is
// refused too, for it is not zero.
func (x Test) Accept(r Reading) error {
	_, err := x.canonical(r)
	return err
}

func (x Test) canonical(r Reading) (canonical, error) {
	n, ok := natures[x]
	switch {
	case !ok:
		return canonical{}, working.Refuse("test", "refuse.water.unknown_test")
	case !r.Known():
		return canonical{}, working.Refuse(string(x), "refuse.missing")
	case r.Beyond && r.Value.Kind == n.kind && r.Value.X == 0:
		return canonical{}, working.Refuse(string(x), "refuse.water.beyond")
	case r.Value.Kind != n.kind:
		return canonical{}, working.Refuse(string(x), "refuse.water.reading_kind")
	}
	for _, d := range []quantity.Value{r.Resolution, r.Below, r.Above} {
		switch {
		case !d.Known():
		case d.Kind != n.kind && !x.differenceOf(d.Kind):
			return canonical{}, working.Refuse(string(x), "refuse.water.reading_kind")
		case !(d.X >= 0 && quantity.Finite(d.X)):
			return canonical{}, working.Refuse(string(x)+"_resolution", "refuse.not_a_number")
		}
	}
	v := func(y float64) quantity.Value { return quantity.Value{Kind: n.kind, X: y} }
	if err := working.InRange(string(x), n.name, r.Value, v(n.low), v(n.high)); err != nil {
		return canonical{}, err
	}
	c := canonical{x: r.Value.X, raw: r.Value.X, limit: n.resolution}
	if r.Resolution.Known() {
		c.limit = r.Resolution.X
	}
	if !r.Beyond {
		switch {
		case r.Below.Known() && r.Above.Known():
			c.below, c.above = r.Below.X, r.Above.X
		case r.Resolution.Known():
			c.below, c.above = c.limit/2, c.limit/2
		}
	}
	if n.species != "" {
		convert := quantity.ToIon
		if x == TestAmmonia {
			convert = quantity.ToN
		}
		y, ok := convert(quantity.Concentration(c.x), n.species, r.Basis)
		if !ok {
			return canonical{}, working.Refuse(string(x), "refuse.water.basis")
		}
		c.x, c.basis = float64(y), r.Basis
		for _, d := range []*float64{&c.below, &c.above, &c.limit} {
			if d == &c.limit && !r.Resolution.Known() {
				continue // a usual one, in the unit it is judged in
			}
			l, _ := convert(quantity.Concentration(*d), n.species, r.Basis)
			*d = float64(l)
		}
	}
	c.beyond = r.Beyond
	c.detected = c.x > 0 && c.x >= c.limit || n.kind == quantity.KindPH || n.kind == quantity.KindTemperature || x == TestOxygen || n.kind == quantity.KindHardness
	return c, nil
}

// differenceOf lets a thermometer's resolution be given as a difference.
func (x Test) differenceOf(k quantity.Kind) bool {
	return x == TestTemperature && k == quantity.KindTempDiff
}

// value gives a canonical number its kind back.
func (x Test) value(y float64) quantity.Value { return quantity.Value{Kind: natures[x].kind, X: y} }
