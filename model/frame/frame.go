package frame

// Vector is a point or direction in global axes; m for points, N for forces,
// N/m for line loads.
type Vector struct{ X, Y, Z float64 }

// DOF is one of a node's six freedoms, in global axes.
type DOF int

// The freedoms in the order of every [Vec6]: displacements, then rotations
// (right-hand rule).
const (
	UX DOF = iota
	UY
	UZ
	RX
	RY
	RZ
)

// Vec6 holds one value for each [DOF]: displacements (m) and rotations (rad),
// or forces (N) and moments (N m).
type Vec6 [6]float64

// Node is a joint, an end or a foot, at its position in m.
type Node struct{ X, Y, Z float64 }

// Material is a member's elastic material.
type Material struct {
	E       float64 // Young's modulus, Pa, > 0
	G       float64 // shear modulus, Pa, >= 0; used in torsion only; > 0 where J > 0
	Density float64 // kg/m3, >= 0; used with Case.Gravity only
}

// Release frees a member's end from its node: a hinge about the member's
// local y or z axis. Torsion is carried as Section.J says; J = 0 for a member
// that carries none.
type Release struct{ Y, Z bool }

// Pinned is the release of both bending axes.
func Pinned() Release { return Release{Y: true, Z: true} }

// Member is a straight beam of constant section between two nodes.
//
// Local x runs from Start to End. Local y is the part of Up square to local
// x, and local z completes the right-handed set. With Up left zero: in a
// plane frame local z is global z; in a space frame local y is as near to
// global z (up) as the member allows, and global x for a vertical member.
type Member struct {
	Start, End   int // node indices, distinct
	Material     Material
	Section      Section
	StartRelease Release
	EndRelease   Release
	Up           Vector // direction only; not along the member
}

// Support holds a node: rigidly where Fixed is true, by a spring elsewhere.
type Support struct {
	Node   int
	Fixed  [6]bool
	Spring Vec6 // N/m and N m/rad, >= 0; ignored where Fixed
}

// Panel is a thin board fixed to four nodes at the corners of a rectangle.
// It resists racking in its plane and nothing else: it takes no share of the
// vertical load from the legs.
type Panel struct {
	Corners [4]int  // node indices around the rectangle
	Shear   float64 // effective shear modulus times thickness, N/m, > 0; the caller reduces it for slip in screws or nails
}

// Frame is a structure without its loads. The zero Frame is empty and is
// refused by [Frame.Assemble].
type Frame struct {
	Plane    bool // true: x-y plane only; uz, rx and ry are held everywhere
	Nodes    []Node
	Members  []Member
	Supports []Support // at most one for each node
	Panels   []Panel
}

// NodeLoad is a force (N) and moment (N m) at a node, in global axes.
type NodeLoad struct {
	Node int
	Load Vec6
}

// LineLoad is a uniform load over the whole of a member, N for each metre of
// its length, in global axes.
type LineLoad struct {
	Member int
	Load   Vector
}

// Case is a set of loads that act together.
type Case struct {
	Nodes   []NodeLoad
	Lines   []LineLoad
	Gravity float64 // m/s2, >= 0: adds the members' own weight, downwards; 0 leaves it out
}
