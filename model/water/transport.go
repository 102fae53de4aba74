package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

const (
	// Cooling of a box of 2.5 cm foam, cm/h. Source: Froese 1998.
	foamCooling = 0.11
	// How far boxes differ from that one, either way. // judgement
	foamSpread = 0.30
)

// Transport is a foam box on its way.
type Transport struct {
	Start   quantity.Temperature `json:"start"`   // water when packed, 0 to 40 °C
	Air     quantity.Temperature `json:"air"`     // around the box, −30 to 50 °C
	Water   quantity.Volume      `json:"water"`   // in the box, 0.5 to 50 L
	Surface quantity.Area        `json:"surface"` // of the water body in its bags, 0.01 to 2 m²
	Time    quantity.Time        `json:"time"`    // on the way, 0 to 3 days
}

// TransportCooling returns the temperature of water that travels in a box of
// 2.5 cm foam. Water that would freeze is refused. Rule of thumb: one series
// of boxes of about 8 L. Source: Froese 1998.
func TransportCooling(p Transport) (quantity.Temperature, *working.Trail, error) {
	err := first(acceptTemperature("start", p.Start, 0, 40), acceptTemperature("air", p.Air, -30, 50),
		acceptVolume("water", "q.water.box_water", p.Water, quantity.Litres(0.5), quantity.Litres(50)),
		working.InRange("surface", "q.water.box_surface", p.Surface.Value(), quantity.Area(0.01).Value(), quantity.Area(2).Value()),
		acceptTime("time", "q.water.trip_time", p.Time, 0, 3*day))
	if err != nil {
		return 0, nil, err
	}
	at := func(insulation float64) quantity.Temperature {
		perHour := insulation * float64(p.Surface) * 1e4 / (float64(p.Water) * 1e6)
		return p.Air + (p.Start-p.Air)*quantity.Temperature(math.Exp(-float64(p.Time/hour)*perHour))
	}
	t, fast, slow := at(foamCooling), at(foamCooling*(1+foamSpread)), at(foamCooling*(1-foamSpread))
	if t < 0 {
		return 0, nil, working.Refuse("air", "refuse.water.freezes")
	}
	return t, working.New("ask.water.transport").As(working.RuleOfThumb).
		Given("T_0", "q.water.temperature", p.Start.Value()).Given("T_a", "q.water.air", p.Air.Value()).
		Given("V", "q.water.box_water", p.Water.Value()).Given("A", "q.water.box_surface", p.Surface.Value()).Given("t", "q.water.trip_time", p.Time.Value()).
		Step("T", "q.water.arrives", "T = T_a + (T_0 − T_a)·e^(−0.11 cm/h·t·A/V)", t.Value(), srcFroese).
		Between(min(fast, slow).Value(), max(fast, slow).Value(), "assume.water.boxes_differ").
		Assume("assume.water.foam_box"), nil
}
