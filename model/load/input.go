package load

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
)

// Load is a tank as a load on what is below it.
type Load struct {
	Mass   quantity.Mass   `json:"mass"`   // upper, for checks
	Usual  quantity.Mass   `json:"usual"`  // as set up
	Empty  quantity.Mass   `json:"empty"`  // vessel alone, for tipping
	Length quantity.Length `json:"length"` // footprint
	Width  quantity.Length `json:"width"`
	Height quantity.Length `json:"height"`
	Centre quantity.Length `json:"centre"` // centre of gravity above the tank's underside
	Framed bool            `json:"framed"` // bears on its perimeter
}

// Of makes the load of a tank that was measured.
func Of(t tank.Tank, f tank.Full) Load {
	l, w, h := t.Outer()
	return Load{Mass: f.Upper, Usual: f.Total, Empty: f.Empty, Length: l, Width: w, Height: h, Centre: f.Centre,
		Framed: t.Rim == tank.Framed}
}

// StandKind is one of the three kinds of stand.
type StandKind string

// The kinds.
const (
	Bought    StandKind = "bought"    // sold for tanks, with a rating
	Furniture StandKind = "furniture" // shelf, cabinet, desk, sideboard
	SelfBuilt StandKind = "frame"     // timber or steel frame
)

// StandInput is what CheckStand needs. The part for Kind is read, the others
// are not. Service zero counts as class 2.
type StandInput struct {
	Kind      StandKind      `json:"kind"`
	Load      Load           `json:"load"`
	Service   ServiceClass   `json:"service,omitempty"`
	Bought    BoughtStand    `json:"bought,omitzero"`
	Furniture FurnitureStand `json:"furniture,omitzero"`
	Frame     FrameStand     `json:"frame,omitzero"`
	// Height is from the floor to where the tank stands, 0 to 2 m. Length and
	// Depth are the outer sizes at the feet; zero counts as the tank's own.
	Height quantity.Length `json:"height"`
	Length quantity.Length `json:"length,omitempty"`
	Depth  quantity.Length `json:"depth,omitempty"`
	Mass   quantity.Mass   `json:"mass,omitempty"` // of the stand; zero when not known
	Back   Answer          `json:"back,omitempty"` // a back panel fixed along its edges
	// Anchored says that the stand is held to the wall against tipping.
	Anchored Answer `json:"anchored,omitempty"`
	// Wetted says that a board has swollen or is often wet.
	Wetted Answer `json:"wetted,omitempty"`
}

// BoughtStand is a stand made for tanks. Give one of the two ratings; none is
// the same as furniture.
type BoughtStand struct {
	Rated       quantity.Mass   `json:"rated,omitempty"`        // mass the maker allows on it
	RatedVolume quantity.Volume `json:"rated_volume,omitempty"` // "for tanks of N gallons"
	TankVolume  quantity.Volume `json:"tank_volume,omitempty"`  // nominal size of this tank
	// Footprint says that the stand is made for the tank's length and width.
	Footprint Answer `json:"footprint,omitempty"`
	// Damaged says that a part is cracked, bent, rusted or missing.
	Damaged Answer `json:"damaged,omitempty"`
}

// Support is how a furniture top or shelf is held.
type Support string

// The supports.
const (
	SupportUnknown Support = ""
	OnSides        Support = "sides" // lies on upright side panels
	OnPins         Support = "pins"  // four shelf pins
	OnLegs         Support = "legs"  // four legs, or more
)

// FurnitureStand is furniture that was not made for a tank.
type FurnitureStand struct {
	Top       Board           `json:"top"`
	Thickness quantity.Length `json:"thickness"` // 6 to 100 mm
	Depth     quantity.Length `json:"depth"`     // of the board, front to back
	Span      quantity.Length `json:"span"`      // clear, between the supports
	Support   Support         `json:"support,omitempty"`
	// Middle says that an upright stands under the middle of the board.
	Middle Answer `json:"middle,omitempty"`
	// LegSection and LegMaterial are read when Support is OnLegs; zero is not known.
	LegSection  Section     `json:"leg_section,omitzero"`
	LegMaterial LegMaterial `json:"leg_material,omitempty"`
	// Rated is a load printed for the board by its maker; zero when none is.
	Rated quantity.Mass `json:"rated,omitempty"`
}

// LegMaterial is what legs and rails are made of: a timber class of EN 338, an
// NDS species group or a steel grade. Empty is not known.
type LegMaterial string

// Section is a member's cross-section. Wall zero is solid. Width is the side
// seen from the front, Depth the other; of a rail, Depth is its height.
type Section struct {
	Width quantity.Length `json:"width"`
	Depth quantity.Length `json:"depth"`
	Wall  quantity.Length `json:"wall,omitempty"`
}

// Corner is how the corners of a frame are joined.
type Corner string

// The corners.
const (
	CornerUnknown   Corner = ""
	CornerBearing   Corner = "bearing"   // the rails lie on the legs
	CornerFasteners Corner = "fasteners" // screws, dowels or cams carry the rails
	CornerWelded    Corner = "welded"    // welded all round
)

// FrameStand is a self-built frame of four legs and rails. The long rails span
// the length between the legs; their number under the tank is two.
type FrameStand struct {
	Material LegMaterial `json:"material"`
	Leg      Section     `json:"leg"`
	Rail     Section     `json:"rail"` // top rails; Depth is the height of the rail
	// BottomRails says that rails join the legs near the floor.
	BottomRails Answer `json:"bottom_rails,omitempty"`
	// Diagonal says that a diagonal braces the long side.
	Diagonal Answer `json:"diagonal,omitempty"`
	// SideBracing says that the short sides have a panel or a diagonal.
	SideBracing Answer `json:"side_bracing,omitempty"`
	Corners     Corner `json:"corners,omitempty"`
	// MiddleLegs says that a third pair of legs stands under the middle.
	MiddleLegs Answer `json:"middle_legs,omitempty"`
	// Top is the board under the tank; empty is none, which only a framed tank may have.
	Top       Board           `json:"top,omitempty"`
	Thickness quantity.Length `json:"thickness,omitempty"`
}
