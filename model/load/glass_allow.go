package load

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Stress limits of annealed glass under water for years. Judgement, among the
// bases that Allowables lists.
const (
	glassSteady quantity.Pressure = 5.0e6
	glassMost   quantity.Pressure = 7.25e6
	edgeSteady  quantity.Pressure = 4.3e6 // stressed free edge
	edgeMost    quantity.Pressure = 6.0e6
)

// Constants behind the bases.
const (
	floatStrength   = 45e6   // f_g,k. Source: EN 16612
	floatMaterial   = 1.8    // γ_M,A. Source: EN 16612
	longTerm        = 0.29   // k_mod of permanent load, rounded. Source: EN 16612
	cutEdge         = 0.8    // k_e of an as-cut edge. Source: EN 16612
	surface3s       = 23.3e6 // Source: ASTM E1300 / NCSEA, 3 s, 8 in 1000
	edge3s          = 18.3e6 // Source: as surface3s
	glassScatter    = 0.22   // coefficient of variation. Source: as surface3s
	oneInThousand   = 3.0902 // standard normal deviate of 1/1000
	eightInThousand = 2.4089 // of 8/1000
	fatigue         = 16     // exponent
	tradeStrength   = 19.2e6 // common practice, no source
	tradeFactor     = 3.8    // common practice, no source
)

// staticFactor is the strength left after years over that in 3 s, (t/3 s)^(−1/16).
func staticFactor(years float64) float64 {
	return math.Pow(years*365.25*24*3600/3, -1.0/fatigue)
}

// rarer is the strength at one break in 1000 over that at 8 in 1000.
func rarer() float64 {
	return (1 - oneInThousand*glassScatter) / (1 - eightInThousand*glassScatter)
}

// Allowable is a long-term stress by one basis, for the working.
type Allowable struct {
	Name   working.Key       `json:"name"`
	Stress quantity.Pressure `json:"stress"`
	Source working.SourceID  `json:"source"`
}

// Allowables lists the bases between which the limits were set. None is a
// licence to call a tank safe: the building standards leave aquariums out.
func Allowables() []Allowable {
	en := longTerm * floatStrength / floatMaterial
	years := staticFactor(50)
	mk := func(n working.Key, x float64, s working.SourceID) Allowable {
		return Allowable{n, quantity.Pressure(x), s}
	}
	return []Allowable{
		mk("q.load.allow_en", en, srcEN16),
		mk("q.load.allow_en_factored", en/permanent, srcEN16),
		mk("q.load.allow_en_edge", en*cutEdge/permanent, srcEN16),
		mk("q.load.allow_e1300", surface3s*years, srcE1300),
		mk("q.load.allow_e1300_rare", surface3s*years*rarer(), srcE1300),
		mk("q.load.allow_e1300_edge", edge3s*years, srcE1300),
		mk("q.load.allow_e1300_edge_rare", edge3s*years*rarer(), srcE1300),
		mk("q.load.allow_trade", tradeStrength/tradeFactor, working.Trade),
	}
}
