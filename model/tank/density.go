package tank

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Sources of the densities.
var (
	srcWater = working.Register(working.Source{ID: "tanaka-2001", Cite: "Tanaka, M. et al. (2001) Recommended table for the density of water between 0 °C and 40 °C. Metrologia 38, 301-309", Origin: working.Published})
	srcGlass = working.Register(working.Source{ID: "en-572-1", Cite: "EN 572-1 Glass in building: basic soda-lime silicate glass products, part 1 (density 2500 kg/m³)", Origin: working.Published})
	srcPores = working.Register(working.Source{ID: "freeze-cherry-1979", Cite: "Freeze, R. A. and Cherry, J. A. (1979) Groundwater, table 2.4 (porosity), quoted from memory", Origin: working.Memory})
	srcStone = working.Register(working.Source{ID: "stone-handbook", Cite: "Handbook ranges of stone density, quoted from memory", Origin: working.Memory})
)

// Densities of the vessel.
const (
	glassDensity   quantity.Density = 2500 // Source: EN 572-1
	acrylicDensity quantity.Density = 1190 // Source: EN ISO 7823-1 sheet data, from memory
	woodDensity    quantity.Density = 1100 // waterlogged; common practice, no source (1050 to 1200)
	resinDensity   quantity.Density = 1800 // ornaments of resin and ceramic; judgement
)

// Density returns the density of the vessel's material; zero when it is unknown.
func (m Material) Density() quantity.Density {
	switch m {
	case Glass:
		return glassDensity
	case Acrylic:
		return acrylicDensity
	}
	return 0
}

// WaterDensity returns the density of air-free water at one atmosphere.
// Valid from 0 to 40 °C; outside it returns a *working.Refusal.
// Source: Tanaka et al. 2001, formula from memory, checked at 3.98, 20 and 25 °C.
func WaterDensity(t quantity.Temperature) (quantity.Density, error) {
	if err := working.InRange("water", "q.tank.water_temperature", t.Value(), quantity.Temperature(0).Value(), quantity.Temperature(40).Value()); err != nil {
		return 0, err
	}
	const a1, a2, a3, a4, a5 = -3.983035, 301.797, 522528.9, 69.34881, 999.97495
	x := float64(t)
	return quantity.Density(a5 * (1 - (x+a1)*(x+a1)*(x+a2)/(a3*(x+a4)))), nil
}

// Substrate is what covers the bottom. Empty is none.
type Substrate string

// The substrates.
const (
	Bare      Substrate = ""
	Gravel    Substrate = "gravel"     // quartz, 2 to 5 mm
	Sand      Substrate = "sand"       // quartz, 0.5 to 1 mm
	BakedClay Substrate = "baked_clay" // substrate for planted tanks
)

// Substrates lists the substrates in the order in which they are offered.
func Substrates() []Substrate { return []Substrate{Gravel, Sand, BakedClay, Bare} }

// Grain returns the density of the grains and the share of pores between
// them; it reports false for Bare and for an unknown kind.
func (s Substrate) Grain() (quantity.Density, quantity.Ratio, bool) {
	switch s {
	case Gravel:
		return 2650, 0.40, true // Source: quartz; Freeze & Cherry 1979 table 2.4, from memory
	case Sand:
		return 2650, 0.38, true // Source: as gravel
	case BakedClay:
		return 2300, 0.55, true // common practice, no source
	}
	return 0, 0, false
}

// Stone is a kind of rock.
type Stone string

// The stones. MixedStone is for rock of no known kind.
const (
	MixedStone Stone = "mixed"
	Granite    Stone = "granite"
	Basalt     Stone = "basalt"
	Limestone  Stone = "limestone" // raises hardness
	Slate      Stone = "slate"
	Lava       Stone = "lava"
	Sandstone  Stone = "sandstone"
)

// Stones lists the stones in the order in which they are offered.
func Stones() []Stone {
	return []Stone{MixedStone, Granite, Basalt, Limestone, Slate, Lava, Sandstone}
}

// Solid returns the density of the stone without its pores, which fill with
// water, and the share of the pores; it reports false for an unknown kind.
// Source: handbook ranges, from memory.
func (s Stone) Solid() (quantity.Density, quantity.Ratio, bool) {
	switch s {
	case MixedStone:
		return 2650, 0, true
	case Granite:
		return 2700, 0, true
	case Basalt:
		return 2900, 0, true
	case Limestone:
		return 2600, 0.05, true
	case Slate:
		return 2750, 0, true
	case Lava:
		return 2800, 0.60, true
	case Sandstone:
		return 2650, 0.15, true
	}
	return 0, 0, false
}
