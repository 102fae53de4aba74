package elevation

import (
	"example.org/driploop/model/fish"
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

// Fish is a lot of one kind in the tank, or planned for it.
type Fish struct {
	ID      scene.ID  // see FishPart
	Code    fish.Code // of the catalogue, which knows its shape and its zone; "" is a plain fish in the middle
	Count   int
	Length  float64 // of one of them today, total, metres, > 0
	Adult   float64 // full-grown, metres; 0 is not known
	Planned bool    // not there yet: drawn as dashed outlines
}

// Bag is the bag that fish are brought home in, afloat in the tank.
type Bag struct {
	Afloat bool
	Water  float64 // m³ in it, > 0; 0 means 0.001
	Fish   []Fish  // those within; Adult is not used
}
