package tank

import "example.org/driploop/model/quantity"

// Shape is the plan of a tank. The walls are upright in every shape.
type Shape string

// The shapes.
const (
	Box      Shape = "box"       // rectangular
	Cube     Shape = "cube"      // Length is each side; Width and Height may be left zero
	BowFront Shape = "bow_front" // rectangular with a front that is an arc of a circle
	Cylinder Shape = "cylinder"  // Length is the outer diameter; Width may be left zero
	Hexagon  Shape = "hexagon"   // regular; Length is measured across corners; Width may be left zero
)

// Shapes lists the shapes in the order in which they are offered.
func Shapes() []Shape { return []Shape{Box, Cube, BowFront, Cylinder, Hexagon} }

// Material is what the panels are made of.
type Material string

// The materials.
const (
	Glass   Material = "glass"
	Acrylic Material = "acrylic"
)

// Materials lists the materials in the order in which they are offered.
func Materials() []Material { return []Material{Glass, Acrylic} }

// Rim says how the top and bottom edges are held and how the tank bears on
// what is below: a framed tank on its perimeter, a rimless one on its area.
type Rim string

// The rims.
const (
	Framed  Rim = "framed"
	Rimless Rim = "rimless"
)

// SizeBasis says how well the sizes are known, which sets the margin on mass.
type SizeBasis string

// The bases.
const (
	Measured    SizeBasis = "measured" // sizes and glass thickness measured
	NominalOnly SizeBasis = "nominal"  // a size from a box or a list, or a thickness not measured
)

// Tank is an empty vessel. Sizes are outer, in metres.
type Tank struct {
	Shape    Shape    `json:"shape"`
	Material Material `json:"material"`
	Rim      Rim      `json:"rim"`
	// Braced says that one or more braces hold the top of the long panels together.
	Braced bool `json:"braced,omitempty"`
	// Length is left to right, 0.05 to 5 m. See Shape for what it is on round tanks.
	Length quantity.Length `json:"length"`
	// Width is front to back; of a bow front, at its sides.
	Width quantity.Length `json:"width,omitempty"`
	// Height is from the underside to the top edge.
	Height quantity.Length `json:"height,omitempty"`
	// Bow is how far a bow front stands out at its middle, up to half the Length.
	Bow quantity.Length `json:"bow,omitempty"`
	// Wall and Bottom are the thicknesses of the panels, 1 to 60 mm.
	Wall   quantity.Length `json:"wall"`
	Bottom quantity.Length `json:"bottom"`
	// Sizes is empty when not known, which counts as NominalOnly.
	Sizes SizeBasis `json:"sizes,omitempty"`
}

// Outer returns the outer length, width (overall, with the bow) and height of t
// as the smallest box around it.
func (t Tank) Outer() (length, width, height quantity.Length) {
	switch t.Shape {
	case Cube:
		return t.Length, t.Length, t.Length
	case Cylinder:
		return t.Length, t.Length, t.Height
	case Hexagon:
		return t.Length, t.Length * quantity.Length(sqrt3/2), t.Height
	case BowFront:
		return t.Length, t.Width + t.Bow, t.Height
	}
	return t.Length, t.Width, t.Height
}
