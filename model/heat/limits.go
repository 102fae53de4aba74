package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// What the package accepts. Source: judgement, inside the ranges of the
// correlations; Shah's formula is published for water of 7 to 94 °C and is carried
// on below, where little evaporates (see assume.heat.cool_water).
const (
	waterMin, waterMax       quantity.Temperature = 0, 45
	roomMin, roomMax         quantity.Temperature = -10, 45
	sideMin, sideMax         quantity.Length      = 0.1, 3
	wallMin, wallMax         quantity.Length      = 0.001, 0.04
	volumeMin, volumeMax     quantity.Volume      = 0.001, 3
	labelFlowMin             quantity.Flow        = 0.010 / 3600
	flowMax                  quantity.Flow        = 20.0 / 3600
	shahMin                  quantity.Temperature = 7
	leastDifference                               = 0.1 // K, below which a conductance means nothing
	day                                           = 86400.0
	hour                                          = 3600.0
	year                                          = 365 * day
	kilowattHour                                  = 3.6e6
	usGallon                 quantity.Volume      = 3.785411784e-3 // m³, exact by definition
	secondsOfLongestPowerCut                      = 14 * day
)

// first returns the first refusal among errs.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

func waterIn(field string, t quantity.Temperature) error {
	return working.InRange(field, "q.heat.water_temperature", t.Value(), waterMin.Value(), waterMax.Value())
}

func roomIn(field string, t quantity.Temperature) error {
	return working.InRange(field, "q.heat.room_temperature", t.Value(), roomMin.Value(), roomMax.Value())
}

func humidityIn(h quantity.Ratio) error {
	return working.InRange("humidity", "q.heat.humidity", h.Value(), quantity.Ratio(0).Value(), quantity.Ratio(1).Value())
}

func volumeIn(v quantity.Volume) error {
	return working.InRange("water_volume", "q.heat.water_volume", v.Value(), volumeMin.Value(), volumeMax.Value())
}

// check refuses an enclosure that is no box we know.
func (e Enclosure) check() error {
	side := func(field string, name working.Key, x quantity.Length) error {
		return working.InRange(field, name, x.Value(), sideMin.Value(), sideMax.Value())
	}
	err := first(
		side("length", "q.heat.length", e.Length),
		side("width", "q.heat.width", e.Width),
		side("height", "q.heat.height", e.Height),
		working.InRange("wall", "q.heat.wall", e.Wall.Value(), wallMin.Value(), min(wallMax, e.Length/4, e.Width/4, e.Height/4).Value()),
	)
	switch {
	case err != nil:
		return err
	case e.Material > Acrylic:
		return working.Refuse("material", "refuse.missing")
	case e.Cover > Lid:
		return working.Refuse("cover", "refuse.missing")
	case e.Support > OnFoam:
		return working.Refuse("support", "refuse.missing")
	}
	return nil
}

// holds refuses a volume of water that the enclosure cannot hold.
func (e Enclosure) holds(v quantity.Volume) error {
	if err := volumeIn(v); err != nil {
		return err
	}
	outer := quantity.Volume(e.Length * e.Width * e.Height)
	return working.InRange("water_volume", "q.heat.water_volume", v.Value(), volumeMin.Value(), outer.Value())
}
