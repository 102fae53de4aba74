package load

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Timber classes of EN 338, NDS species groups and steel grades.
const (
	MaterialUnknown LegMaterial = "" // counts as C14
	C14             LegMaterial = "c14"
	C16             LegMaterial = "c16"
	C18             LegMaterial = "c18"
	C24             LegMaterial = "c24"
	C30             LegMaterial = "c30"
	D30             LegMaterial = "d30"
	D40             LegMaterial = "d40"
	SPFNo2          LegMaterial = "spf_no2" // spruce-pine-fir
	SPFStud         LegMaterial = "spf_stud"
	DFLNo2          LegMaterial = "dfl_no2" // Douglas fir-larch
	HFNo2           LegMaterial = "hf_no2"  // hem-fir
	S235            LegMaterial = "s235"    // cold-formed tube, EN 10219
	S275            LegMaterial = "s275"
	S355            LegMaterial = "s355"
	A500B           LegMaterial = "a500_b" // cold-formed tube, ASTM A500 grade B
)

// LegMaterials lists the materials in the order in which they are offered.
func LegMaterials() []LegMaterial {
	return []LegMaterial{C24, C16, C14, C18, C30, D30, D40, SPFNo2, SPFStud, DFLNo2, HFNo2, S235, S275, S355, A500B}
}

// timberClass is a row of EN 338:2016 tables 1 and 3. Stresses in MPa, moduli
// in GPa, densities in kg/m³.
type timberClass struct {
	fm, ft0, fc0, fc90, fv, eMean, e05, g, rhoK, rhoMean float64
}

// Source: EN 338:2016, as transcribed.
var timberClasses = map[LegMaterial]timberClass{
	C14: {14, 7.2, 16, 2.0, 3.0, 7, 4.7, 0.44, 290, 350},
	C16: {16, 8.5, 17, 2.2, 3.2, 8, 5.4, 0.5, 310, 370},
	C18: {18, 10, 18, 2.2, 3.4, 9, 6, 0.56, 320, 380},
	C24: {24, 14.5, 21, 2.5, 4.0, 11, 7.4, 0.69, 350, 420},
	C30: {30, 19, 24, 2.7, 4.0, 12, 8, 0.75, 380, 460},
	D30: {30, 18, 24, 5.3, 3.9, 11, 9.2, 0.69, 530, 640},
	D40: {40, 24, 27, 5.5, 4.2, 13, 10.9, 0.81, 550, 660},
}

// ndsSpecies is a row of the NDS Supplement 2018 table 4A, in psi.
type ndsSpecies struct{ fb, fv, fcPerp, fc, e, eMin float64 }

// Source: AWC NDS Supplement 2018 table 4A.
var ndsTable = map[LegMaterial]ndsSpecies{
	SPFNo2:  {875, 135, 425, 1150, 1400000, 510000},
	SPFStud: {675, 135, 425, 725, 1200000, 440000},
	DFLNo2:  {900, 180, 625, 1350, 1600000, 580000},
	HFNo2:   {850, 150, 405, 1300, 1300000, 470000},
}

// ndsDensity for self-weight, kg/m³. From memory, of Douglas fir, the heaviest.
const ndsDensity = 530

// ndsSize returns the NDS size factors for bending and compression by the
// depth of the member. Source: NDS Supplement 2018 table 4A adjustment factors.
func ndsSize(depth quantity.Length) (bending, compression float64) {
	in := depth.Value().In(quantity.MustUnit("in"))
	switch {
	case in <= 3.51:
		return 1.5, 1.15
	case in <= 5.51:
		return 1.3, 1.10
	case in <= 7.26:
		return 1.2, 1.05
	case in <= 9.26:
		return 1.1, 1.0
	}
	return 1.0, 1.0
}

// steelYield in MPa. Source: EN 10219; ASTM A500 grade B shaped 46 ksi, from memory.
var steelYield = map[LegMaterial]float64{S235: 235, S275: 275, S355: 355, A500B: 46 * 6.894757293}

const (
	steelModulus = 210e9 // Pa. Source: EN 1993-1-1 3.2.6
	steelShear   = 81e9
	steelDensity = 7850              // kg/m³
	aiscModulus  = 200e9             // Pa, 29000 ksi. Source: AISC 360-16
	aiscSafety   = 1.67              // Source: AISC 360-16 E1, F1
	permanent    = 1.35              // partial factor on permanent load. Source: EN 1990 table A1.2(B), recommended
	solidFactor  = 1.3               // partial factor of solid timber. Source: EN 1995-1-1 table 2.3, recommended
	crackFactor  = 0.67              // k_cr for shear of timber. Source: EN 1995-1-1 6.1.7
	ndsDuration  = 0.9               // C_D of permanent load. Source: NDS 2018 table 2.3.2
	psi          = 6894.757293168361 // Pa, exact factors of quantity
)

// method is the design rule that a grade follows.
type method uint8

const (
	byEC5 method = iota
	byNDS
	byEC3
	byAISC
)

// grade is a material with the strengths that a load may be compared with.
type grade struct {
	method       method
	factor       float64           // on the load
	fm, fv       quantity.Pressure // bending, shear
	fc, fc90     quantity.Pressure // along and across the grain, before buckling
	fcK          quantity.Pressure // characteristic, for slenderness
	e, eLow, g   quantity.Pressure
	creep        float64 // final sag over sag at once
	density      quantity.Density
	slenderLimit float64
	origin       working.SourceID // of the strengths
}

// grade returns the design strengths of a material in a section. It reports
// false when the material is not one of ours.
func (m LegMaterial) grade(s Section, class ServiceClass) (grade, bool) {
	if m == MaterialUnknown {
		m = C14
	}
	const mpa, gpa = 1e6, 1e9
	if t, ok := timberClasses[m]; ok {
		kMod, kDef := 0.6, 0.6 // Source: EN 1995-1-1 tables 3.1 and 3.2, permanent
		if class != Class1 {
			kDef = 0.8
		}
		d := kMod / solidFactor * mpa
		return grade{method: byEC5, factor: permanent, fm: quantity.Pressure(t.fm * d), fv: quantity.Pressure(t.fv * crackFactor * d),
			fc: quantity.Pressure(t.fc0 * d), fc90: quantity.Pressure(t.fc90 * d), fcK: quantity.Pressure(t.fc0 * mpa),
			e: quantity.Pressure(t.eMean * gpa), eLow: quantity.Pressure(t.e05 * gpa), g: quantity.Pressure(t.g * gpa), creep: 1 + kDef,
			density: quantity.Density(t.rhoMean), origin: srcEN338}, true
	}
	if n, ok := ndsTable[m]; ok {
		cfB, cfC := ndsSize(s.Depth)
		creep := 1.5 // K_cr of seasoned lumber, from memory. Source: NDS 2018 3.5.2
		if class != Class1 {
			creep = 2.0
		}
		return grade{method: byNDS, factor: 1, fm: quantity.Pressure(n.fb * ndsDuration * cfB * psi), fv: quantity.Pressure(n.fv * ndsDuration * psi),
			fc: quantity.Pressure(n.fc * ndsDuration * cfC * psi), fc90: quantity.Pressure(n.fcPerp * psi), fcK: quantity.Pressure(n.fc * psi),
			e: quantity.Pressure(n.e * psi), eLow: quantity.Pressure(n.eMin * psi), g: quantity.Pressure(n.e * psi / 16), creep: creep,
			density: ndsDensity, slenderLimit: 50, origin: srcNDS}, true
	}
	if y, ok := steelYield[m]; ok {
		f := quantity.Pressure(y * mpa)
		gr := grade{method: byEC3, factor: permanent, fm: f, fv: f * 0.577, fc: f, fc90: f, fcK: f, e: steelModulus, eLow: steelModulus,
			g: steelShear, creep: 1, density: steelDensity, origin: srcEC3}
		if m == A500B {
			gr.method, gr.factor, gr.e, gr.eLow, gr.origin = byAISC, 1, aiscModulus, aiscModulus, srcAISC
			gr.fm, gr.fv, gr.fc, gr.fc90 = f/aiscSafety, f*0.6/aiscSafety, f/aiscSafety, f/aiscSafety
		}
		return gr, true
	}
	return grade{}, false
}

// timber reports whether the material is wood, known or not.
func (m LegMaterial) timber() bool {
	_, steel := steelYield[m]
	return !steel
}
