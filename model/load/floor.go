package load

import "example.org/driploop/model/quantity"

// FloorKind is what the floor is made of.
type FloorKind string

// The kinds.
const (
	FloorUnknown  FloorKind = ""
	Joists        FloorKind = "joists"   // timber joists over a room or a void
	GroundSlab    FloorKind = "slab"     // concrete on the ground
	ConcreteFloor FloorKind = "concrete" // concrete over a room
)

// Direction is how the tank's long side lies to the joists.
type Direction string

// The directions.
const (
	DirectionUnknown Direction = ""
	Across           Direction = "across" // the long side crosses the joists
	Along            Direction = "along"  // the long side runs with the joists
)

// Place is where in the room the tank stands.
type Place string

// The places. An unknown place counts as the worse of the two.
const (
	PlaceUnknown Place = ""
	MidRoom      Place = "middle"
	AtWall       Place = "wall" // beside the wall that carries the joists' ends
)

// FloorCondition is something about the building that calls for a person who
// can look at it, whatever the figures say.
type FloorCondition string

// The conditions.
const (
	UpperOldFloor FloorCondition = "upper_old" // upper floor of an old or altered building
	FloorSags     FloorCondition = "sags"
	FloorBounces  FloorCondition = "bounces"
	FloorRot      FloorCondition = "rot"
	JoistsCut     FloorCondition = "cut_joists"
	Balcony       FloorCondition = "balcony" // or mezzanine
	RaisedFloor   FloorCondition = "raised_floor"
	MobileHome    FloorCondition = "mobile_home"
	Rented        FloorCondition = "rented"
	SeveralTanks  FloorCondition = "several_tanks"
	Earthquakes   FloorCondition = "earthquakes"
)

// FloorConditions lists the conditions in the order in which they are asked.
func FloorConditions() []FloorCondition {
	return []FloorCondition{UpperOldFloor, FloorSags, FloorBounces, FloorRot, JoistsCut, Balcony, RaisedFloor, MobileHome, Rented,
		SeveralTanks, Earthquakes}
}

// FloorInput is what CheckFloor needs.
type FloorInput struct {
	Kind      FloorKind       `json:"kind"`
	Mass      quantity.Mass   `json:"mass"`   // upper mass of tank and stand together
	Length    quantity.Length `json:"length"` // footprint
	Width     quantity.Length `json:"width"`
	Direction Direction       `json:"direction,omitempty"`
	Place     Place           `json:"place,omitempty"`
	// Span and Spacing of the joists; zero is not known. 1 to 8 m, 0.2 to 1 m.
	Span    quantity.Length `json:"span,omitempty"`
	Spacing quantity.Length `json:"spacing,omitempty"`
	// WallGap is between the stand and the wall; zero counts as 50 mm.
	WallGap quantity.Length `json:"wall_gap,omitempty"`
	// Joist and Wood are the joists' own section and NDS species; empty is not
	// known. They tell whether the joists span further than is usual.
	Joist Section     `json:"joist,omitzero"`
	Wood  LegMaterial `json:"wood,omitempty"`
	// Live is the design load of the floor; zero counts as LiveEurope (LiveUS in the US and Canada).
	Live quantity.Pressure `json:"live,omitempty"`
	// FootForce is the greatest force under one foot; zero when it stands on its area.
	FootForce  quantity.Force   `json:"foot_force,omitempty"`
	Conditions []FloorCondition `json:"conditions,omitempty"`
}
