package elevation

import "example.org/driploop/screens/scene"

// The parts of the drawing, for hit testing and for [Spec.Highlight]. Fish,
// plants and ornaments carry the ID given in the Spec.
const (
	PartTank        scene.ID = "tank"
	PartRim         scene.ID = "rim"
	PartWater       scene.ID = "water"
	PartGravel      scene.ID = "gravel"
	PartFilter      scene.ID = "filter"
	PartHeater      scene.ID = "heater"
	PartThermometer scene.ID = "thermometer"
	PartLight       scene.ID = "light" // the lid and the lamp in it
	PartStand       scene.ID = "stand"
	PartFeet        scene.ID = "feet" // what bears on the floor
	PartSag         scene.ID = "sag"
	PartFloor       scene.ID = "floor"
	PartSocket      scene.ID = "socket"
	PartFilterCord  scene.ID = "cord-filter"
	PartHeaterCord  scene.ID = "cord-heater"
	PartLightCord   scene.ID = "cord-light"
	PartFlag        scene.ID = "flag" // sign that a cord has no drip loop or the socket lies below the water
	PartLoads       scene.ID = "loads"
	PartReactions   scene.ID = "reactions"
	PartWeight      scene.ID = "weight"
	PartBag         scene.ID = "bag"
	PartFigure      scene.ID = "figure" // hand or person drawn for scale
	PartLength      scene.ID = "dimension-length"
	PartHeight      scene.ID = "dimension-height"
	PartStandHeight scene.ID = "dimension-stand"
	PartNotes       scene.ID = "notes"
	PartHighlight   scene.ID = "highlight"
)
