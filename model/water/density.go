package water

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Density returns the density of fresh water at t (0 to 40 °C) and one
// atmosphere, within 0.005 kg/m³ of IAPWS-95. Dissolved solids below 1 g/L
// change it by less than 0.1 % and are left out.
// Source: Tanaka et al. 2001.
func Density(t quantity.Temperature) (quantity.Density, *working.Trail, error) {
	if err := acceptTemperature("temperature", t, 0, 40); err != nil {
		return 0, nil, err
	}
	x := float64(t)
	d := quantity.Density(999.974950 * (1 - (x-3.983035)*(x-3.983035)*(x+301.797)/(522528.9*(x+69.34881))))
	return d, working.New("ask.water.density").
		Given("t", "q.water.temperature", t.Value()).
		Step("ρ", "q.water.density", "ρ = 999.97495·[1 − (t − 3.983035)²·(t + 301.797)/(522528.9·(t + 69.34881))]", d.Value(), srcTanaka).
		Within("q.water.temperature", quantity.Temperature(0).Value(), quantity.Temperature(40).Value()).
		Assume("assume.water.fresh"), nil
}
