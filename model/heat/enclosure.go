package heat

import "example.org/driploop/model/quantity"

// Material is what the walls and the lid are made of.
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
	Lid               // a closed sheet of the wall's material and thickness
)

// Support is what the bottom lies on.
type Support uint8

// The supports.
const (
	OnWood Support = iota // a wooden or board top
	OnFoam                // about 20 mm of foam on such a top
)

// Enclosure is a rectangular tank as heat sees it. Sizes are outer ones, in
// metres: 0.1 to 3 each, walls 1 to 40 mm and thinner than a quarter of the
// smallest side. For another shape give the box with the same footprint area,
// perimeter and height as nearly as can be.
type Enclosure struct {
	Length, Width, Height quantity.Length
	Wall                  quantity.Length // thickness of walls, bottom and lid
	Material              Material
	Cover                 Cover
	Support               Support
}

// HeatCapacity is the heat that warms something by one kelvin, in J/K.
type HeatCapacity float64
