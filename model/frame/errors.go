package frame

import "fmt"

// Item says which part of the input an [InputError] is about.
type Item string

// The items.
const (
	ItemFrame   Item = "frame"
	ItemNode    Item = "node"
	ItemMember  Item = "member"
	ItemSupport Item = "support"
	ItemPanel   Item = "panel"
	ItemLoad    Item = "load"
	ItemSection Item = "section"
	ItemStand   Item = "stand"
	ItemBuckle  Item = "buckling"
)

// Fault says what is wrong with an input.
type Fault string

// The faults.
const (
	NotFinite    Fault = "must be a finite number"
	NotPositive  Fault = "must be greater than zero"
	Negative     Fault = "must be zero or greater"
	OutOfRange   Fault = "is outside the accepted range"
	Missing      Fault = "does not exist"
	Repeated     Fault = "is given more than once"
	ZeroLength   Fault = "has no length"
	AlongMember  Fault = "is parallel to the member"
	OutOfPlane   Fault = "leaves the plane of a plane frame"
	NotRectangle Fault = "is not a rectangle"
)

// InputError is the refusal of a bad input. It never reports a mechanism.
type InputError struct {
	Item  Item
	Index int    // position in its list; 0 where there is no list
	Field string // Go name of the field
	Fault Fault
}

// Error gives the refusal in English, for developers.
func (e *InputError) Error() string {
	return fmt.Sprintf("frame: %s %d: %s %s", e.Item, e.Index, e.Field, e.Fault)
}
