package load

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// factors are k_mod for permanent load, k_def and γ_M of a board in a service
// class. Source: EN 1995-1-1 tables 2.3, 3.1 and 3.2.
type factors struct{ kMod, kDef, gammaM float64 }

// boardRow holds what is known of a board. A class that the code does not allow
// has allowed2 unset and takes the factors of the next worse product instead.
type boardRow struct {
	class1, class2 factors
	allowed2       bool
	structural     bool    // made to carry
	shear          float64 // MPa, planar; from memory, rounded down
	density        float64 // kg/m³
}

var boardRows = map[Board]boardRow{
	// P2 and plain MDF are not load-bearing: the factors of P4 stand in for them.
	BoardP2:      {factors{0.30, 2.25, 1.3}, factors{0.20, 3.00, 1.3}, false, false, 0.8, 650},
	BoardP4:      {factors{0.30, 2.25, 1.3}, factors{0.20, 3.00, 1.3}, false, true, 1.0, 650},
	BoardP5:      {factors{0.30, 2.25, 1.3}, factors{0.20, 3.00, 1.3}, true, true, 1.0, 650},
	BoardP6:      {factors{0.40, 1.50, 1.3}, factors{0.30, 2.25, 1.3}, false, true, 1.0, 650},
	BoardMDF:     {factors{0.20, 2.25, 1.3}, factors{0.20, 3.00, 1.3}, false, false, 1.0, 750},
	BoardMDFLA:   {factors{0.20, 2.25, 1.3}, factors{0.20, 3.00, 1.3}, false, true, 1.0, 750},
	BoardOSB3:    {factors{0.40, 1.50, 1.2}, factors{0.30, 2.25, 1.2}, true, true, 1.0, 650},
	BoardOSB3Run: {factors{0.40, 1.50, 1.2}, factors{0.30, 2.25, 1.2}, true, true, 1.0, 650},
	BoardPlywood: {factors{0.60, 0.80, 1.2}, factors{0.60, 1.00, 1.2}, true, true, 1.0, 680},
	BoardTimber:  {factors{0.60, 0.60, 1.3}, factors{0.60, 0.80, 1.3}, true, true, 3.2 * crackFactor, 370},
	// Glass as a shelf is refused by the verdict; the figures only size its sag.
	BoardGlass: {factors{0.29, 0, 1.8}, factors{0.29, 0, 1.8}, true, false, 7, 2500},
}

// strengthRow is a board's characteristic bending strength (MPa) and mean
// modulus (MPa) up to a thickness (mm).
type strengthRow struct{ upTo, fm, e float64 }

// Sources: see sources.go; P4, P6, the modulus of P2 and MDF.LA bending are from memory.
var boardStrengths = map[Board][]strengthRow{
	BoardP2:      {{20, 11, 1600}, {1e3, 10.5, 1500}},
	BoardP4:      {{1e3, 12.5, 2900}},
	BoardP5:      {{18, 13.3, 3300}, {1e3, 11.7, 3000}},
	BoardP6:      {{1e3, 15, 4100}},
	BoardMDF:     {{1e3, 20, 2200}},
	BoardMDFLA:   {{1e3, 21, 3000}},
	BoardOSB3:    {{1e3, 8.2, 1980}}, // minor axis
	BoardOSB3Run: {{1e3, 16.4, 4930}},
	BoardPlywood: {{1e3, 34.1, 7452}},
	BoardTimber:  {{1e3, 16, 8000}}, // C16, EN 338
	BoardGlass:   {{1e3, 45, 70000}},
}

// Strength returns the characteristic values of a board of the given thickness;
// it reports false for a board that is not one of ours. BoardUnknown counts as BoardP2.
func (b Board) Strength(thickness quantity.Length) (Strength, bool) {
	if b == BoardUnknown {
		b = BoardP2
	}
	const mpa = 1e6
	for _, r := range boardStrengths[b] {
		if thickness.Millimetres() <= r.upTo+1e-9 {
			return Strength{Bending: quantity.Pressure(r.fm * mpa), Shear: quantity.Pressure(boardRows[b].shear * mpa), Modulus: quantity.Pressure(r.e * mpa)}, true
		}
	}
	return Strength{}, false
}

// LoadBearing reports whether the board is made to carry, and whether its
// standard allows it in the service class.
func (b Board) LoadBearing(class ServiceClass) (structural, allowed bool) {
	r, ok := boardRows[b]
	return ok && r.structural, ok && (class == Class1 || r.allowed2)
}

// factors returns the factors of the board in a class.
func (b Board) factors(class ServiceClass) factors {
	if b == BoardUnknown {
		b = BoardP2
	}
	if class == Class1 {
		return boardRows[b].class1
	}
	return boardRows[b].class2
}

// grade is a board of a thickness as a grade: design strength and creep.
func (b Board) grade(thickness quantity.Length, class ServiceClass) (grade, bool) {
	s, ok := b.Strength(thickness)
	if !ok {
		return grade{}, false
	}
	f := b.factors(class)
	d := quantity.Pressure(f.kMod / f.gammaM)
	if b == BoardUnknown {
		b = BoardP2
	}
	return grade{factor: permanent, fm: s.Bending * d, fv: s.Shear * d, e: s.Modulus, creep: 1 + f.kDef,
		density: quantity.Density(boardRows[b].density), origin: b.origin()}, true
}

// origin is where the strengths of a board come from.
func (b Board) origin() working.SourceID {
	switch b {
	case BoardP2:
		return srcEN312
	case BoardMDF:
		return srcEN622
	case BoardPlywood:
		return srcBirch
	case BoardTimber:
		return srcEN338
	case BoardGlass:
		return srcEN16
	}
	return srcPanel
}
