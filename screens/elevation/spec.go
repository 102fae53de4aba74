package elevation

import (
	"example.org/driploop/screens/scene"
)

// MaxSize is the largest length taken for real, in metres.
const MaxSize = 10.0 // judgement: no room aquarium is longer

// Spec is everything the drawing shows. The zero value is an empty corner: two
// dashed outlines on a floor.
type Spec struct {
	Tank  Tank
	Stand Stand

	Filter      Filter
	Heater      Heater
	Thermometer Thermometer
	Lid         Lid
	Socket      Socket

	Gravel    Gravel
	Ornaments []Ornament
	Plants    []Plant
	Fish      []Fish
	Bag       Bag

	Loads  Loads
	Figure Figure
	Labels Labels

	Highlight scene.ID // part to ring; "" none
	Compact   bool     // the smaller drawing on other pages: fewer notes, no room kept for loads
	Moving    bool     // the fish are left out, for Stage gives them by themselves
	Paper     bool     // for print: lines and text in ink alone, told apart without colour

	// Room is the width and height of the place it is shown in, in points.
	// 0 means 530 by 740.
	Room struct{ W, H float64 }
}

// Shape is the form of the tank seen from above.
type Shape uint8

// The shapes. A hexagon is regular and stands with one face to the front.
const (
	Box Shape = iota
	Cube
	BowFront
	Cylinder // upright; Length is its diameter
	Hexagon
)

// Material is what the panes are made of.
type Material uint8

// The materials.
const (
	Glass Material = iota
	Acrylic
)

// Tank is the tank itself. Outer measures in metres.
type Tank struct {
	Shape    Shape
	Material Material
	Rimless  bool
	Length   float64 // along the front, > 0
	Width    float64 // from front to back, > 0
	Height   float64 // > 0
	Wall     float64 // thickness of the panes, > 0; 0 means not known and a usual one is drawn
	Water    float64 // level above the inside of the bottom; 0 means dry
}

// State says how far a piece of kit has come.
type State uint8

// The states.
const (
	Absent  State = iota
	Planned       // chosen, not yet in place: drawn dashed
	Placed
	Running // in place and switched on
)

// Cord is the lead from a piece of kit to the socket.
type Cord struct {
	Present bool
	Plugged bool    // else the plug lies away from the socket
	Length  float64 // metres; 0 means not known, taken as long enough
}

// FilterKind is how a filter works and where it sits.
type FilterKind uint8

// The kinds of filter.
const (
	HangOn   FilterKind = iota // hangs on the back pane with an intake tube
	Sponge                     // stands inside, driven by air
	Internal                   // inside, against the back pane
)

// Filter is the filter.
type Filter struct {
	State  State
	Kind   FilterKind
	W, H   float64 // of the body seen from the front, metres; 0 means a usual size
	Intake float64 // reach of a hang-on filter's intake below the rim, metres; 0 means a usual one
	At     float64 // its middle as a fraction of the length from the left, 0 < At < 1; 0 means 0.2
	Cord   Cord
}

// Heater is an immersed heater, hung upright.
type Heater struct {
	State    State
	Length   float64 // metres; 0 means 0.2
	Diameter float64 // metres; 0 means 0.026
	MinLevel float64 // height of its minimum water mark above its lower end, metres; 0 means not known
	At       float64 // as Filter.At; 0 means 0.87
	Cord     Cord
}

// Thermometer is a thermometer inside the front pane.
type Thermometer struct {
	State  State
	Length float64 // metres; 0 means 0.11
	At     float64 // as Filter.At; 0 means 0.63
}

// Lid covers the tank; a lamp may be built into it.
type Lid struct {
	State  State
	Height float64 // metres; 0 means 0.05
	Lamp   bool    // a lamp is built in; it is lit when State is Running
	Cord   Cord    // of the lamp
}

// Side is left or right, as the drawing is seen.
type Side uint8

// The sides.
const (
	Left Side = iota
	Right
)

// Socket is the wall socket or the power strip fixed to the wall.
type Socket struct {
	Present bool
	Height  float64 // of its middle above the floor, metres, > 0
	Side    Side
	Strip   bool // a row of outlets; else a single plate, which shows two
}

// Gravel is the depth of the substrate in metres at the middle of each side.
// Where only front and back, or only left and right are given, it slopes that
// way alone.
type Gravel struct{ Front, Back, Left, Right float64 }

// Loads switches the arrows of the stand check.
type Loads struct {
	Arrows    bool        // through the base of the tank
	Reactions [2]Reaction // under the left and the right feet
}

// Reaction is what a side's feet press on the floor with.
type Reaction struct {
	Mass  float64 // kg, > 0; 0 draws none
	Label string
}

// Figure is what is drawn for a sense of size.
type Figure uint8

// The figures. A figure that has no room is left out.
const (
	NoFigure Figure = iota
	Hand            // an open hand, 190 mm
	Child           // 1.2 m
	Adult           // 1.7 m
)

// Labels are the words on the drawing, already translated, with their units.
// An empty one is not drawn.
type Labels struct {
	Length, Height, StandHeight string // on the dimension lines
	Weight                      string // large, on the tank
	Sag                         string // true value of the exaggerated sag
	AirGap                      string // between water and lid
	MinLevel                    string // at the heater's mark
	Temperature                 string // at the thermometer
	Figure                      string // at the hand or person
	NoLoop                      string // at the sign: no drip loop can form
	BelowWater                  string // at the sign: the socket lies lower than the water
	Notes                       []string
	// Scale gives the note on the scale from n of 1 : n; nil draws none.
	Scale func(n float64) string
}
