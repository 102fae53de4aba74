package load

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
)

// Maker is who built a tank.
type Maker string

// The makers. Unknown is judged like self-built.
const (
	MakerUnknown Maker = ""
	Factory      Maker = "factory" // a standard size from a tank factory
	HomeBuilt    Maker = "self"
)

// GlassCondition is a defect that overrules every figure.
type GlassCondition string

// The conditions.
const (
	Crack      GlassCondition = "crack"
	EdgeChip   GlassCondition = "chip"
	Scratch    GlassCondition = "scratch" // a fingernail catches in it
	RimCracked GlassCondition = "rim"     // rim or brace cracked or missing
	SeamBubble GlassCondition = "seam"    // bubbles in a seam, or it peels
	Old        GlassCondition = "old"     // older than ten years, history not known
)

// GlassConditions lists the conditions in the order in which they are asked.
func GlassConditions() []GlassCondition {
	return []GlassCondition{Crack, EdgeChip, Scratch, RimCracked, SeamBubble, Old}
}

// GlassInput is what CheckGlass needs.
type GlassInput struct {
	Tank   tank.Tank       `json:"tank"`
	AirGap quantity.Length `json:"air_gap,omitempty"`
	Maker  Maker           `json:"maker,omitempty"`
	// Caliper says that the thickness was measured with a caliper. Otherwise it
	// is taken as nominal, less the tolerance of the glass, and never steady.
	Caliper Answer `json:"caliper,omitempty"`
	// FlatBase says that the bottom lies on a flat, continuous support. Otherwise
	// it spans between its edges.
	FlatBase Answer `json:"flat_base,omitempty"`
	// Inspected says that the person looked for the conditions.
	Inspected  Answer           `json:"inspected,omitempty"`
	Conditions []GlassCondition `json:"conditions,omitempty"`
}
