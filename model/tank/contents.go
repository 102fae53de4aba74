package tank

import "example.org/driploop/model/quantity"

// Contents is what goes into a tank. Masses are dry, in kilograms; a zero mass
// or depth means that there is none of it.
type Contents struct {
	Substrate Substrate `json:"substrate,omitempty"`
	// SubstrateFront and SubstrateBack are the depths at the front and the back
	// panel, in metres; the bed slopes evenly between them.
	SubstrateFront quantity.Length `json:"substrate_front,omitempty"`
	SubstrateBack  quantity.Length `json:"substrate_back,omitempty"`
	Rocks          []Rock          `json:"rocks,omitempty"`
	Wood           quantity.Mass   `json:"wood,omitempty"`      // soaked until it sinks
	Ornaments      quantity.Mass   `json:"ornaments,omitempty"` // resin, ceramic
	// Equipment is hood, filter, heater and lamp together, hung on the tank or in it.
	// Its displacement is not counted.
	Equipment quantity.Mass `json:"equipment,omitempty"`
	// AirGap is from the top edge down to the water line.
	AirGap quantity.Length `json:"air_gap,omitempty"`
}

// Rock is stone of one kind.
type Rock struct {
	Kind Stone         `json:"kind"`
	Mass quantity.Mass `json:"mass"`
}
