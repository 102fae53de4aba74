package quantity

// Basis says what a concentration of a nitrogen compound counts: the nitrogen
// in it or the whole ion. Kits differ, so it stays with every stored value.
type Basis string

// The bases. An empty basis is right for everything but nitrogen compounds.
const (
	BasisNone Basis = ""
	AsN       Basis = "n"
	AsIon     Basis = "ion"
)

// Species is a nitrogen compound that tests report.
type Species string

// The species that kits measure.
const (
	Ammonia  Species = "nh3"
	Ammonium Species = "nh4"
	Nitrite  Species = "no2"
	Nitrate  Species = "no3"
)

// Molar masses in g/mol. Source: IUPAC 2021 standard atomic weights N 14.007, H
// 1.008, O 15.999 (conventional values).
const (
	molarN = 14.007
	molarH = 1.008
	molarO = 15.999
)

// IonPerN returns the mass of the ion (or molecule) per mass of its nitrogen.
func (s Species) IonPerN() (float64, bool) {
	switch s {
	case Ammonia:
		return (molarN + 3*molarH) / molarN, true
	case Ammonium:
		return (molarN + 4*molarH) / molarN, true
	case Nitrite:
		return (molarN + 2*molarO) / molarN, true
	case Nitrate:
		return (molarN + 3*molarO) / molarN, true
	}
	return 0, false
}

// ToN converts a concentration of species s given on basis b to nitrogen.
// It reports false when the species or the basis is not one of ours, for a
// basis is never guessed.
func ToN(c Concentration, s Species, b Basis) (Concentration, bool) {
	f, ok := s.IonPerN()
	switch {
	case !ok:
		return 0, false
	case b == AsN:
		return c, true
	case b == AsIon:
		return c / Concentration(f), true
	}
	return 0, false
}

// ToIon converts a concentration of species s given on basis b to the ion.
func ToIon(c Concentration, s Species, b Basis) (Concentration, bool) {
	n, ok := ToN(c, s, b)
	if !ok {
		return 0, false
	}
	f, _ := s.IonPerN()
	return n * Concentration(f), true
}
