package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// MediaResult is the surface that the nitrifying bacteria need.
type MediaResult struct {
	Ammonia quantity.MassRate // total ammonia as nitrogen from the food
	Area    quantity.Area     // at the rate for this water and age
	Low     quantity.Area     // at the highest published rate
	High    quantity.Area     // at half the rate used
	Trail   *working.Trail
}

// MediaArea returns the ammonia that the food of a day (0 to 1000 g) with its share
// of protein (0.05 to 0.9) brings, and the filter media surface to turn it over. The rate is halved below 20 °C
// and for new media. Errors: *working.Refusal for food, protein, water (5 to 35 °C).
func MediaArea(food quantity.MassRate, protein quantity.Ratio, water quantity.Temperature, newMedia bool) (MediaResult, error) {
	return MediaResult{}, working.Refuse("food", "refuse.missing")
}
