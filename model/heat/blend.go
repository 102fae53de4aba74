package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// BlendResult is how to mix hot and cold water in a bucket.
type BlendResult struct {
	HotShare quantity.Ratio // of the mixture's volume, 0 to 1
	Trail    *working.Trail
	Findings []working.Finding
}

// Hot returns the hot part of a bucket of the given volume.
func (b BlendResult) Hot(total quantity.Volume) quantity.Volume {
	return total * quantity.Volume(b.HotShare)
}

// Cold returns the cold part of a bucket of the given volume.
func (b BlendResult) Cold(total quantity.Volume) quantity.Volume { return total - b.Hot(total) }

// Blend returns the share of hot water that brings cold water to target. Errors:
// *working.Refusal for hot and cold (0 to 95 °C, hot above cold) and target
// (between cold and hot).
func Blend(hot, cold, target quantity.Temperature) (BlendResult, error) {
	return BlendResult{}, working.Refuse("target", "refuse.missing")
}

// ChangeResult is what a water change does to the tank's temperature.
type ChangeResult struct {
	After    quantity.Temperature
	Shift    quantity.TemperatureDifference // After less before; negative is cooler
	Trail    *working.Trail
	Findings []working.Finding
}

// Change returns the temperature after replacing share of a tank's water by
// fresh water. Errors: *working.Refusal for tank, fresh (0 to 45 °C), share (0 to 1).
func Change(tank, fresh quantity.Temperature, share quantity.Ratio) (ChangeResult, error) {
	return ChangeResult{}, working.Refuse("share", "refuse.missing")
}

// ShareResult is the largest water change that keeps the temperature shift small.
type ShareResult struct {
	Share quantity.Ratio
	Trail *working.Trail
}

// LargestChange returns the largest share of water that fresh water may replace
// so that the tank's temperature moves by at most limit (0.1 to 10 K). Errors:
// *working.Refusal for tank, fresh, limit.
func LargestChange(tank, fresh quantity.Temperature, limit quantity.TemperatureDifference) (ShareResult, error) {
	return ShareResult{}, working.Refuse("limit", "refuse.missing")
}
