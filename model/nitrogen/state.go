package nitrogen

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// State is the tank at one moment. Nitrogen compounds are mg/L as nitrogen.
type State struct {
	Ammonia    quantity.Concentration `json:"ammonia"`    // total ammonia, 0 to 50
	Nitrite    quantity.Concentration `json:"nitrite"`    // 0 to 200
	Nitrate    quantity.Concentration `json:"nitrate"`    // 0 to 1000
	EatersA    quantity.Concentration `json:"eaters_a"`   // bacteria that take ammonia, mg COD/L, 0 to 50
	EatersN    quantity.Concentration `json:"eaters_n"`   // bacteria that take nitrite, mg COD/L, 0 to 50
	Alkalinity quantity.Hardness      `json:"alkalinity"` // KH, 0 to 40 dKH
}

// Nitrogen returns all the nitrogen in the water, mg/L.
func (s State) Nitrogen() quantity.Concentration { return s.Ammonia + s.Nitrite + s.Nitrate }

// NewTank returns a fresh tank filled from the tap, with the few bacteria that
// p says a new tank starts with.
func NewTank(p Params, tap Tap) State {
	return State{Ammonia: tap.Ammonia, Nitrite: tap.Nitrite, Nitrate: tap.Nitrate, Alkalinity: tap.Alkalinity,
		EatersA: quantity.Concentration(p.SeedA), EatersN: quantity.Concentration(p.SeedN)}
}

// Tap is the water that changes bring in, as nitrogen.
type Tap struct {
	Ammonia    quantity.Concentration `json:"ammonia"` // as left by broken chloramine, for one
	Nitrite    quantity.Concentration `json:"nitrite"`
	Nitrate    quantity.Concentration `json:"nitrate"`
	Alkalinity quantity.Hardness      `json:"alkalinity"`
}

func (s State) accept() error {
	for _, c := range []struct {
		field string
		name  working.Key
		x     quantity.Concentration
		most  quantity.Concentration
	}{
		{"ammonia", "q.nitrogen.ammonia", s.Ammonia, 50}, {"nitrite", "q.nitrogen.nitrite", s.Nitrite, 200}, {"nitrate", "q.nitrogen.nitrate", s.Nitrate, 1000},
		{"eaters_a", "q.nitrogen.eaters_a", s.EatersA, 50}, {"eaters_n", "q.nitrogen.eaters_n", s.EatersN, 50},
	} {
		if err := working.InRange(c.field, c.name, c.x.Value(), quantity.Concentration(0).Value(), c.most.Value()); err != nil {
			return err
		}
	}
	most := quantity.Hardness(quantity.MustUnit("dkh").ToBase(40))
	return working.InRange("alkalinity", "q.nitrogen.kh", s.Alkalinity.Value(), quantity.Hardness(0).Value(), most.Value())
}

func (t Tap) accept() error {
	return State{Ammonia: t.Ammonia, Nitrite: t.Nitrite, Nitrate: t.Nitrate, Alkalinity: t.Alkalinity}.accept()
}

// vector is the state in the solver's units: mg/L and meq/L.
type vector [6]float64

var perEquivalent = quantity.MustUnit("meq/l").Factor // mg/L CaCO3 a meq/L

func (s State) vector() vector {
	return vector{float64(s.Ammonia), float64(s.Nitrite), float64(s.Nitrate), float64(s.EatersA), float64(s.EatersN), float64(s.Alkalinity) / perEquivalent}
}

func (y vector) state() State {
	return State{quantity.Concentration(y[0]), quantity.Concentration(y[1]), quantity.Concentration(y[2]),
		quantity.Concentration(y[3]), quantity.Concentration(y[4]), quantity.Hardness(y[5] * perEquivalent)}
}
