package load

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Grip is how well a load can be held (NIOSH coupling).
type Grip string

// The grips.
const (
	GoodGrip Grip = "good"
	FairGrip Grip = "fair" // a bucket's bail
	PoorGrip Grip = "poor"
)

// LiftInput is a lift from a start to an end. Zero values count as a bucket
// lifted from the floor to the rim of a tank that stands RimHeight high.
type LiftInput struct {
	RimHeight quantity.Length `json:"rim_height"` // 0.3 to 1.75 m above the floor
	// Reach is from the ankles to the hands at the rim; zero counts as 0.50 m.
	Reach  quantity.Length `json:"reach,omitempty"`
	Grip   Grip            `json:"grip,omitempty"`   // empty counts as fair
	Bucket quantity.Mass   `json:"bucket,omitempty"` // empty bucket; zero counts as 0.6 kg
	// Volume is what the person means to carry at once; zero when not asked.
	Volume quantity.Volume `json:"volume,omitempty"`
}

// Lift is the advice for one lift.
type Lift struct {
	Start quantity.Mass   `json:"start"` // recommended weight limit at the start
	End   quantity.Mass   `json:"end"`   // and at the end
	Limit quantity.Mass   `json:"limit"` // the lesser of both
	Water quantity.Volume `json:"water"` // water in the bucket at that limit
	// Index is load over limit for Volume; zero when Volume was not given.
	Index    quantity.Ratio    `json:"index,omitempty"`
	Findings []working.Finding `json:"findings,omitempty"`
	Trail    *working.Trail    `json:"working"`
}
