package water

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Inputs beyond these are mistakes of typing, not aquariums. // judgement
const (
	smallestTank   = quantity.Volume(0.001) // 1 L
	largestTank    = quantity.Volume(100)   // 100 000 L
	largestContent = quantity.Concentration(100_000)
)

// first returns the first error, so that a calculation reads as a list of what
// it accepts.
func first(errs ...error) error {
	for _, e := range errs {
		if e != nil {
			return e
		}
	}
	return nil
}

func acceptTemperature(field string, t, low, high quantity.Temperature) error {
	return working.InRange(field, "q.water.temperature", t.Value(), low.Value(), high.Value())
}

func acceptPH(field string, ph, low, high quantity.PH) error {
	return working.InRange(field, "q.water.ph", ph.Value(), low.Value(), high.Value())
}

func acceptVolume(field string, name working.Key, v, low, high quantity.Volume) error {
	return working.InRange(field, name, v.Value(), low.Value(), high.Value())
}

func acceptContent(field string, name working.Key, c, high quantity.Concentration) error {
	return working.InRange(field, name, c.Value(), quantity.Concentration(0).Value(), high.Value())
}

func acceptRatio(field string, name working.Key, r, low, high quantity.Ratio) error {
	return working.InRange(field, name, r.Value(), low.Value(), high.Value())
}

func acceptTime(field string, name working.Key, t, low, high quantity.Time) error {
	return working.InRange(field, name, t.Value(), low.Value(), high.Value())
}

// acceptKH takes KH from low up to 60 dKH, far above any tap.
func acceptKH(field string, kh quantity.Hardness, low float64) error {
	d := quantity.MustUnit("dkh")
	return working.InRange(field, "q.water.kh", kh.Value(),
		quantity.Hardness(d.ToBase(low)).Value(), quantity.Hardness(d.ToBase(60)).Value())
}

// number is a plain dimensionless value, as equilibrium constants are.
func number(x float64) quantity.Value { return quantity.Value{Kind: quantity.KindRatio, X: x} }

const (
	minute = quantity.Time(60)
	hour   = quantity.Time(3600)
	day    = quantity.Time(86400)
)
