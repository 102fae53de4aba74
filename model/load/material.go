package load

import "example.org/driploop/model/quantity"

// ServiceClass is how damp the place is (EN 1995-1-1 2.3.1.3).
type ServiceClass uint8

// The classes. A cabinet under a tank is class 2: humid air and splashes.
const (
	Class1 ServiceClass = 1
	Class2 ServiceClass = 2
)

// Board is a panel product or a plank.
type Board string

// The boards. Unmarked chipboard counts as BoardP2, unmarked fibreboard as BoardMDF.
const (
	BoardUnknown Board = ""
	BoardP2      Board = "p2"       // furniture chipboard, EN 312
	BoardP4      Board = "p4"       // load-bearing, dry
	BoardP5      Board = "p5"       // load-bearing, humid
	BoardP6      Board = "p6"       // heavy duty, dry
	BoardMDF     Board = "mdf"      // plain fibreboard
	BoardMDFLA   Board = "mdf_la"   // load-bearing fibreboard, dry
	BoardOSB3    Board = "osb3"     // oriented strand board, humid; strands across the span or not known
	BoardOSB3Run Board = "osb3_run" // the same with its strands along the span
	BoardPlywood Board = "plywood"  // birch, across the face grain
	BoardTimber  Board = "timber"   // glued softwood boards, taken as C16
	BoardGlass   Board = "glass"    // never a support for a tank
)

// Boards lists the boards in the order in which they are offered.
func Boards() []Board {
	return []Board{BoardPlywood, BoardTimber, BoardOSB3, BoardOSB3Run, BoardP2, BoardP4, BoardP5, BoardP6, BoardMDF, BoardMDFLA, BoardGlass}
}

// Strength is a board's or a timber's characteristic values.
type Strength struct {
	Bending quantity.Pressure `json:"bending"` // f_m,k
	Shear   quantity.Pressure `json:"shear"`   // f_v,k
	Modulus quantity.Pressure `json:"modulus"` // E, mean
}
