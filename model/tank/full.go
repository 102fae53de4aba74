package tank

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Part is one part of the full mass. Name is the message of its name.
type Part struct {
	Name working.Key   `json:"name"`
	Mass quantity.Mass `json:"mass"`
}

// Full is a set-up tank, measured by Measure.
type Full struct {
	Outer    quantity.Volume `json:"outer"`    // of the box around the outer plan, by the plan's area
	Interior quantity.Volume `json:"interior"` // to the brim, empty
	Gap      quantity.Volume `json:"gap"`      // air between the water line and the brim
	// Solids is what stone grains, rock, wood and ornaments displace. Water in
	// the pores of the substrate is water: Net + Solids + Gap = Interior.
	Solids quantity.Volume `json:"solids"`
	Net    quantity.Volume `json:"net"` // water in the tank: the volume to dose for

	Parts []Part        `json:"parts"` // non-zero parts, in the order glass, water, substrate, rock, wood, ornaments, equipment
	Total quantity.Mass `json:"total"`
	// Upper is the mass for structural checks: filled to the brim, times 1.10
	// for measured sizes or 1.20 for nominal ones.
	Upper     quantity.Mass `json:"upper"`
	Empty     quantity.Mass `json:"empty"` // vessel alone
	Water     quantity.Mass `json:"water"`
	Substrate quantity.Mass `json:"substrate"` // dry, as bought

	Surface     quantity.Area   `json:"surface"`      // of the water
	GravelFront quantity.Length `json:"gravel_front"` // top of the bed above the tank's underside
	GravelBack  quantity.Length `json:"gravel_back"`
	WaterLine   quantity.Length `json:"water_line"` // above the tank's underside
	Centre      quantity.Length `json:"centre"`     // centre of gravity above the tank's underside

	NetTrail  *working.Trail `json:"net_working"`
	MassTrail *working.Trail `json:"mass_working"`
}
