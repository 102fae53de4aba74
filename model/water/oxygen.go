package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// StandardPressure is one atmosphere, exact.
const StandardPressure = quantity.Pressure(101325)

// PressureAt returns the mean air pressure at a height above the sea, −100 to
// 5000 m. Weather moves it by some 3 %. Source: ISO 2533 standard atmosphere.
func PressureAt(height quantity.Length) (quantity.Pressure, *working.Trail, error) {
	err := working.InRange("height", "q.water.height", height.Value(), quantity.Length(-100).Value(), quantity.Length(5000).Value())
	if err != nil {
		return 0, nil, err
	}
	p := StandardPressure * quantity.Pressure(math.Pow(1-2.25577e-5*float64(height), 5.25588))
	return p, working.New("ask.water.pressure").
		Given("h", "q.water.height", height.Value()).
		Step("P", "q.water.pressure", "P = P_0·(1 − 2.25577e-5·h)^5.25588", p.Value(), srcISA).
		Between((p * 0.97).Value(), (p * 1.03).Value(), "assume.water.weather"), nil
}

// OxygenSaturation returns the oxygen that water holds in balance with moist
// air at temperature t (0 to 40 °C), pressure p (50 to 110 kPa) and salinity
// (0 to 40 000 mg/L). Source: Benson & Krause 1984, APHA/USGS form.
func OxygenSaturation(t quantity.Temperature, p quantity.Pressure, salinity quantity.Concentration) (quantity.Concentration, *working.Trail, error) {
	err := first(acceptTemperature("temperature", t, 0, 40),
		working.InRange("pressure", "q.water.pressure", p.Value(), quantity.Pressure(50e3).Value(), quantity.Pressure(110e3).Value()),
		acceptContent("salinity", "q.water.salinity", salinity, 40_000))
	if err != nil {
		return 0, nil, err
	}
	c0 := oxygenAtSea(t)
	fp := pressureFactor(t, p)
	k := t.Kelvin()
	s := float64(salinity) / 1000
	fs := math.Exp(-s * (0.017674 - 10.754/k + 2140.7/(k*k)))
	c := quantity.Concentration(c0 * fp * fs)
	return c, working.New("ask.water.oxygen").
		Given("t", "q.water.temperature", t.Value()).
		Given("P", "q.water.pressure", p.Value()).
		Given("S", "q.water.salinity", salinity.Value()).
		Step("C*", "q.water.oxygen_sea", "ln C* = −139.34411 + 1.575701e5/T − 6.642308e7/T² + 1.2438e10/T³ − 8.621949e11/T⁴", quantity.Concentration(c0).Value(), srcBenson).
		Step("F_P", "q.water.pressure_factor", "F_P = (P − u)·(1 − θ·P)/((1 − u)·(1 − θ))", quantity.Ratio(fp).Value(), srcBenson).
		Step("F_S", "q.water.salinity_factor", "F_S = exp(−S·(0.017674 − 10.754/T + 2140.7/T²))", quantity.Ratio(fs).Value(), srcBenson).
		Step("C", "q.water.oxygen_saturation", "C = C*·F_P·F_S", c.Value(), working.Algebra).
		Within("q.water.temperature", quantity.Temperature(0).Value(), quantity.Temperature(40).Value()), nil
}

// oxygenAtSea is the saturation of fresh water at one atmosphere, mg/L.
func oxygenAtSea(t quantity.Temperature) float64 {
	k := t.Kelvin()
	return math.Exp(-139.34411 + 1.575701e5/k - 6.642308e7/(k*k) + 1.243800e10/(k*k*k) - 8.621949e11/(k*k*k*k))
}

// pressureFactor corrects the saturation to another pressure. Theta takes
// degrees Celsius, not kelvin.
func pressureFactor(t quantity.Temperature, pressure quantity.Pressure) float64 {
	x, p, u := float64(t), float64(pressure/StandardPressure), vapour(t)
	theta := 9.75e-4 - 1.426e-5*x + 6.436e-8*x*x
	return (p - u) * (1 - theta*p) / ((1 - u) * (1 - theta))
}

// vapour is the pressure of water vapour over water, in atmospheres.
func vapour(t quantity.Temperature) float64 {
	k := t.Kelvin()
	return math.Exp(11.8571 - 3840.70/k - 216961/(k*k))
}
