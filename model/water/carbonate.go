package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Carbonate holds the constants of dissolved carbon dioxide at one temperature,
// as negative logarithms (KH, the solubility, as the logarithm itself).
type Carbonate struct {
	LogKH float64 `json:"log_kh"` // mol/(L·atm)
	PK1   float64 `json:"pk1"`
	PK2   float64 `json:"pk2"`
	PKw   float64 `json:"pkw"`
}

// CarbonateConstants returns the constants at t (0 to 50 °C) for zero ionic
// strength. Source: Plummer & Busenberg 1982; Neal et al. 1998 for water.
func CarbonateConstants(t quantity.Temperature) (Carbonate, *working.Trail, error) {
	if err := acceptTemperature("temperature", t, 0, 50); err != nil {
		return Carbonate{}, nil, err
	}
	c := carbonateAt(t)
	return c, carbonateTrail("ask.water.carbonate", t, c), nil
}

func carbonateTrail(ask working.Key, t quantity.Temperature, c Carbonate) *working.Trail {
	return working.New(ask).
		Given("t", "q.water.temperature", t.Value()).
		Step("pK2", "q.water.pk2", "pK2 = 107.8871 + 0.03252849·T − 5151.79/T − 38.92561·lg T + 563713.9/T²", quantity.PH(c.PK2).Value(), srcPlummer).
		Step("pKw", "q.water.pkw", "pKw = 4471.33/T + 0.017053·T − 6.0843", quantity.PH(c.PKw).Value(), srcNeal).
		Step("pK1", "q.water.pk1", "pK1 = 356.3094 + 0.06091964·T − 21834.37/T − 126.8339·lg T + 1684915/T²", quantity.PH(c.PK1).Value(), srcPlummer).
		Within("q.water.temperature", quantity.Temperature(0).Value(), quantity.Temperature(50).Value()).
		Assume("assume.water.fresh", "assume.water.kh_is_alkalinity")
}

func carbonateAt(t quantity.Temperature) Carbonate {
	k := t.Kelvin()
	lg := math.Log10(k)
	return Carbonate{
		LogKH: 108.3865 + 0.01985076*k - 6919.53/k - 40.45154*lg + 669365/(k*k),
		PK1:   356.3094 + 0.06091964*k - 21834.37/k - 126.8339*lg + 1684915/(k*k),
		PK2:   107.8871 + 0.03252849*k - 5151.79/k - 38.92561*lg + 563713.9/(k*k),
		PKw:   4471.33/k + 0.017053*k - 6.0843,
	}
}

// co2Molar is grams CO2 a mole. Source: IUPAC 2021 atomic masses.
const co2Molar = 44.0095

// alkalinity returns carbonate hardness as equivalents a litre.
func alkalinity(kh quantity.Hardness) float64 {
	return kh.Value().In(quantity.MustUnit("meq/l")) / 1000
}

// co2 returns dissolved CO2, mol/L, of water with alkalinity alk, eq/L.
func (c Carbonate) co2(alk, ph float64) float64 {
	return c.bicarbonate(alk, ph) * math.Pow(10, c.PK1-ph)
}

// bicarbonate returns HCO3−, mol/L: alkalinity less hydroxide plus acid, shared with carbonate.
func (c Carbonate) bicarbonate(alk, ph float64) float64 {
	return (alk - math.Pow(10, ph-c.PKw) + math.Pow(10, -ph)) / (1 + 2*math.Pow(10, ph-c.PK2))
}

// CO2 returns the dissolved carbon dioxide of water with a pH (5 to 10), KH
// (0.05 to 60 dKH) and temperature (0 to 50 °C). Phosphate and humic acids in
// the water make it read high. Error in pH of the method is up to 0.05.
func CO2(ph quantity.PH, kh quantity.Hardness, t quantity.Temperature) (quantity.Concentration, *working.Trail, error) {
	err := first(acceptPH("ph", ph, 5, 10), acceptKH("kh", kh, 0.05), acceptTemperature("temperature", t, 0, 50))
	if err != nil {
		return 0, nil, err
	}
	c := carbonateAt(t)
	x := quantity.Concentration(co2Molar * 1000 * c.co2(alkalinity(kh), float64(ph)))
	if x < 0 { // more hydroxide than alkalinity: such water does not exist
		return 0, nil, working.Refuse("ph", "refuse.water.ph_without_kh")
	}
	spread := quantity.Concentration(math.Pow(10, 0.05))
	tr := carbonateTrail("ask.water.co2", t, c).
		Given("pH", "q.water.ph", ph.Value()).
		Given("KH", "q.water.kh", kh.Value()).
		Step("CO2", "q.water.co2", "CO2 = 44009.5·(Alk − 10^(pH − pKw) + 10^−pH)/(1 + 2·10^(pH − pK2))·10^(pK1 − pH)", x.Value(), srcPlummer).
		Between((x / spread).Value(), (x * spread).Value(), "assume.water.ph_error")
	return x, tr, nil
}

// PHOfCO2 returns the pH of water with a KH (0.05 to 60 dKH) that holds
// dissolved CO2 (0.001 to 1000 mg/L) at a temperature (0 to 50 °C); the inverse of CO2.
func PHOfCO2(co2 quantity.Concentration, kh quantity.Hardness, t quantity.Temperature) (quantity.PH, *working.Trail, error) {
	err := first(working.InRange("co2", "q.water.co2", co2.Value(), quantity.Concentration(0.001).Value(), quantity.Concentration(1000).Value()),
		acceptKH("kh", kh, 0.05), acceptTemperature("temperature", t, 0, 50))
	if err != nil {
		return 0, nil, err
	}
	c := carbonateAt(t)
	ph := c.phOfCO2(float64(co2)/co2Molar/1000, alkalinity(kh))
	tr := carbonateTrail("ask.water.ph_of_co2", t, c).
		Given("CO2", "q.water.co2", co2.Value()).
		Given("KH", "q.water.kh", kh.Value()).
		Step("pH", "q.water.ph", "CO2(pH, KH) = CO2", quantity.PH(ph).Value(), srcPlummer)
	return quantity.PH(ph), tr, nil
}

// AirCO2 returns the CO2 that water holds in balance with moist air of a share
// of CO2 (0 to 0.01 of the dry air; outdoors 420e-6, a lived-in room about
// 800e-6) at one atmosphere and t (0 to 40 °C).
func AirCO2(share quantity.Ratio, t quantity.Temperature) (quantity.Concentration, *working.Trail, error) {
	err := first(acceptRatio("share", "q.water.air_co2", share, 0, 0.01), acceptTemperature("temperature", t, 0, 40))
	if err != nil {
		return 0, nil, err
	}
	c := carbonateAt(t)
	u := vapour(t)
	x := quantity.Concentration(co2Molar * 1000 * float64(share) * (1 - u) * math.Pow(10, c.LogKH))
	tr := working.New("ask.water.air_co2").
		Given("x", "q.water.air_co2", share.Value()).
		Given("t", "q.water.temperature", t.Value()).
		Step("u", "q.water.vapour", "u = exp(11.8571 − 3840.7/T − 216961/T²)", number(u), srcBenson).
		Step("CO2", "q.water.co2", "CO2 = 44009.5·x·(1 − u)·10^lgK_H", x.Value(), srcPlummer)
	return x, tr, nil
}

// phOfCO2 bisects for the pH at which water of an alkalinity holds x mol/L of
// CO2. CO2 falls with every rise of pH, so the root is single.
func (c Carbonate) phOfCO2(x, alk float64) float64 {
	return bisect(2, 13, func(ph float64) bool { return c.co2(alk, ph) > x })
}

// bisect halves low..high until it stands where above turns false, to 1e-12.
func bisect(low, high float64, above func(float64) bool) float64 {
	for range 60 {
		mid := (low + high) / 2
		if above(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}
