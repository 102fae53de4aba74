package elevation

import (
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// PlantKind is the habit of a plant.
type PlantKind uint8

// The habits.
const (
	Ribbon   PlantKind = iota // long blades from the ground
	Stem                      // a stem with pairs of leaves
	Rosette                   // broad leaves on stalks from a crown
	Carpet                    // a low lawn
	Floating                  // at the surface, with roots
)

// Plant is one plant or clump.
type Plant struct {
	ID     scene.ID
	Kind   PlantKind
	At     float64 // its middle as a fraction of the length from the left, 0 to 1
	Height float64 // metres; 0 means a usual one for its habit
	Spread float64 // metres; 0 means a usual one for its habit
}

// OrnamentKind is the sort of an ornament.
type OrnamentKind uint8

// The sorts.
const (
	Rock OrnamentKind = iota
	Wood
)

// Ornament is a rock or a piece of wood.
type Ornament struct {
	ID   scene.ID
	Kind OrnamentKind
	At   float64 // as Plant.At
	W, H float64 // seen from the front, metres, > 0
}

// Body is the build of a fish.
type Body uint8

// The builds.
const (
	Fusiform Body = iota // spindle-shaped
	Deep                 // high and narrow, with long fins
	Elongate             // slender
	Flat                 // flat below, lives on the ground
	Eel
)

// Zone is where in the water a fish keeps.
type Zone uint8

// The zones.
const (
	Mid Zone = iota
	TopZone
	BottomZone
)

// Fish is one species in the tank.
type Fish struct {
	ID     scene.ID
	Length float64 // of one fish now, total, metres, > 0
	Depth  float64 // body depth as a fraction of the length, 0 to 1.2; 0 means usual for its build
	Body   Body
	Count  int
	Zone   Zone
	Colour look.Name // of the body; "" means look.FishWarm
	Phase  float64   // place in a slow to and fro; whole numbers are the same place
	Adult  float64   // length when full-grown, metres: dashed about the first fish; 0 draws none
	Stripe bool      // a dark line along the side, or bars on a deep fish
}

// Bag is the bag that fish are brought home in, afloat in the tank.
type Bag struct {
	Afloat bool
	Water  float64 // m³ in it, > 0; 0 means 0.001
	Fish   []Fish  // those within; Zone, Phase and Adult are not used
}
