package tank

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Nominal is a size as the trade sells it.
type Nominal struct {
	Code   string          `json:"code"`   // stable: "us_10", "us_20_high", "metric_54"
	System quantity.System `json:"system"` // the system in which it is named
	// Name is the size as named: 10 US gallons, 54 litres.
	Name   quantity.Measure `json:"name"`
	Form   working.Key      `json:"form,omitempty"` // high, long or wide, where the trade says so
	Length quantity.Length  `json:"length"`
	Width  quantity.Length  `json:"width"`
	Height quantity.Length  `json:"height"`
	Rim    Rim              `json:"rim"`
	Wall   quantity.Length  `json:"wall"` // usual glass thickness, walls and bottom
	Empty  quantity.Mass    `json:"empty"`
	// Filled is the mass that the trade prints for the tank set up; zero when it prints none.
	Filled quantity.Mass    `json:"filled,omitempty"`
	Source working.SourceID `json:"source"`
}

// Tank makes the tank of this size, with usual thickness and NominalOnly sizes.
func (n Nominal) Tank() Tank {
	return Tank{Shape: Box, Material: Glass, Rim: n.Rim, Length: n.Length, Width: n.Width, Height: n.Height,
		Wall: n.Wall, Bottom: n.Wall, Sizes: NominalOnly}
}
