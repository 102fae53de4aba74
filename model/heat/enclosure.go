package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Material is what the walls are made of.
type Material uint8

// The materials.
const (
	Glass Material = iota
	Acrylic
)

// Cover is what lies on top of the water.
type Cover uint8

// The covers.
const (
	Open Cover = iota // nothing: a free water surface
	Lid               // a closed sheet of glass, about 4 mm
)

// Support is what the bottom lies on.
type Support uint8

// The supports.
const (
	OnWood Support = iota // a wooden or board top
	OnFoam                // about 20 mm of foam on such a top
)

// Enclosure is a rectangular tank as heat sees it. Sizes are outer ones, in
// metres: 0.1 to 3 each, walls 1 to 40 mm and at most a quarter of the smallest
// side. For another shape give the box with the same footprint area, perimeter
// and height as nearly as can be.
type Enclosure struct {
	Length, Width, Height quantity.Length
	Wall                  quantity.Length // thickness of walls and bottom
	Material              Material
	Cover                 Cover
	Support               Support
}

// HeatCapacity is the heat that warms something by one kelvin, in J/K.
type HeatCapacity float64

// stuff is what heat needs to know of a wall's material.
type stuff struct {
	conductivity float64 // W/(m·K)
	density      float64 // kg/m³
	specificHeat float64 // J/(kg·K)
	source       working.SourceID
}

func (m Material) stuff() stuff {
	if m == Acrylic {
		return stuff{0.19, 1190, 1470, srcAcrylic} // from memory
	}
	return stuff{1.0, 2500, 720, srcGlass} // Source: EN 572-1
}

// Water at room temperature. Source: Tanaka 2001 for the density at 20 °C,
// rounded; specific heat of water 15 to 35 °C, rounded.
const (
	waterDensity      = 998.0  // kg/m³
	waterSpecificHeat = 4180.0 // J/(kg·K)
)

func waterCapacity(v quantity.Volume) HeatCapacity {
	return HeatCapacity(float64(v) * waterDensity * waterSpecificHeat)
}

// Capacity returns the heat capacity of a tank with its water: water, walls and
// bottom. Gravel and rock are left out; they displace water that stores more, so
// count them as water or leave them out of the volume. Errors: the fields of
// Enclosure, and water_volume (1 L to what the box holds).
func (e Enclosure) Capacity(water quantity.Volume) (HeatCapacity, error) {
	if err := first(e.check(), e.holds(water)); err != nil {
		return 0, err
	}
	m := e.Material.stuff()
	b := e.box()
	shell := (b.wallArea + b.footprint) * float64(e.Wall) * m.density
	return waterCapacity(water) + HeatCapacity(shell*m.specificHeat), nil
}

// box is an Enclosure reduced to what the heat flows need, in base units.
type box struct {
	wallArea, footprint float64 // m²
	height              float64 // m
	topLength           float64 // m, area over perimeter of the surface
	wallR               float64 // m²·K/W, water film and wall
	lidU, bottomU       float64 // W/(m²·K)
	lid                 bool
}

// Films and supports. Sources: judgement for all; the reference tables were
// made with the same values.
const (
	filmInside    = 150.0 // W/(m²·K) from stirred water to the wall, 100 to 300 is usual
	filmUnderLid  = 10.0  // W/(m²·K)
	filmOverLid   = 9.0   // W/(m²·K), convection and radiation
	lidSheet      = 0.004 // m²·K/W, 4 mm of glass
	bottomOnWood  = 2.0   // W/(m²·K)
	bottomOnFoam  = 0.7   // W/(m²·K), 20 mm of foam
	lidLetsBy     = 0.15  // share of the open surface's evaporation
	lidLetsByLow  = 0.05
	lidLetsByHigh = 0.40
)

func (e Enclosure) box() box {
	l, w, h, t := float64(e.Length), float64(e.Width), float64(e.Height), float64(e.Wall)
	r := t / e.Material.stuff().conductivity
	b := box{
		wallArea:  2 * (l + w) * h,
		footprint: l * w,
		height:    h,
		topLength: l * w / (2 * (l + w)),
		wallR:     1/filmInside + r,
		lidU:      1 / (1/filmUnderLid + lidSheet + 1/filmOverLid),
		bottomU:   bottomOnWood,
		lid:       e.Cover == Lid,
	}
	if e.Support == OnFoam {
		b.bottomU = bottomOnFoam
	}
	return b
}
