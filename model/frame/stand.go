package frame

// Profile is a section of a material.
type Profile struct {
	Material Material
	Section  Section
}

// LoadPath says which top rails carry the weight.
type LoadPath int

// The load paths.
const (
	// OnPerimeter spreads the weight evenly along all four top rails: a tank
	// that stands on a rim.
	OnPerimeter LoadPath = iota
	// OnLongRails gives each long rail half: a flat bottom on a board that
	// spans from front to back, and the worse case for the rails.
	OnLongRails
)

// Corner names a leg, seen from the front.
type Corner int

// The corners, in the order of [StandResult.Feet] shifted by one.
const (
	NoCorner Corner = iota
	FrontLeft
	FrontRight
	BackRight
	BackLeft
)

// Face is what stiffens one face of the stand. Both kinds may be given.
type Face struct {
	Panel    float64  // board: effective shear modulus times thickness, N/m, >= 0; 0 for none
	Diagonal *Profile // one bar from the lower left to the upper right corner, hinged at both ends; nil for none
}

// LowerRails is a ring of rails below the top.
type LowerRails struct {
	Height float64 // m above the feet, above 0 and below Stand.Height
	Long   Profile
	Short  Profile
	Shelf  Face // in the plane of the ring
}

// Stand is a four-legged stand on pinned feet: the ground holds each foot in
// place and lets it turn, except about the vertical.
//
// Dimensions are between the centre lines of the members. x runs along the
// length from the left, y along the depth from the front, z up. A leg's
// section has its height along x and its width along y; a rail's section has
// its height upright.
//
// With PinnedCorners every rail end is hinged about all axes; legs run through
// in one piece.
// Real joints lie between pinned and rigid: check both and take the worse.
type Stand struct {
	Length, Depth, Height float64 // m, > 0
	Leg                   Profile
	LongRail, ShortRail   Profile     // top rails
	Lower                 *LowerRails // nil for none

	// The upright faces reach from the lower rails, or else from the feet, to
	// the top rails. Top is the plane of the top rails: a top board, or the
	// tank itself where it cannot slide.
	Front, Back, Left, Right, Top Face

	PinnedCorners bool
	// Hanging is a foot that does not touch the ground: the rocking stand.
	// Below hinged rails it is still kept from swinging sideways, as a board
	// along the leg keeps it; with rigid corners nothing holds it. Hinged
	// corners with an open face are a mechanism here, as an open box twists:
	// such a stand settles onto its foot, so the verdict to use is that of
	// rigid corners.
	Hanging Corner

	Weight   float64 // N, everything on the top rails, > 0
	LoadPath LoadPath
	// Gravity, m/s2, >= 0, adds the members' own weight from their densities;
	// 0 leaves it out.
	Gravity float64
}

// PushShare is the horizontal push on the top rails, as a share of Weight,
// tried along and across the stand, both ways.
const PushShare = 0.05 // judgement

// buckleDivisions is how many pieces a member is cut into for buckling.
const buckleDivisions = 4 // pin-ended column within 0.05 %

// Worst holds the governing values of a group of members, over all load
// cases: sizes, never negative.
type Worst struct {
	Compression float64 // N
	MomentY     float64 // N m about local y
	MomentZ     float64 // N m about local z
	Sag         float64 // m, off the straight line between the member's ends
}

// FootRange is the range of a foot's upward reaction over all load cases, N.
// Min below zero means that the foot lifts off: the stand rocks or tips, and
// the other values no longer hold.
type FootRange struct{ Min, Max float64 }

// StandResult is the answer of [Stand.Check]. With Mechanism set all else but
// Free and FreeAt is empty.
type StandResult struct {
	Mechanism bool
	Free      DOF    // ux: sways along its length, uy: across its depth, uz: drops
	FreeAt    Vector // where it moves most, m

	Legs, LongRails, ShortRails Worst
	LowerRails                  Worst // zero without lower rails
	Diagonals                   Worst // zero without diagonals

	Drift      float64      // m, largest horizontal movement of a top corner
	Feet       [4]FootRange // front left, front right, back right, back left
	PanelShear float64      // N for each metre of edge, largest over all panels

	Buckles        bool    // false: nothing is compressed enough to buckle
	BucklingFactor float64 // factor on the vertical load at buckling, > 0; only with Buckles
}
