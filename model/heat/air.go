package heat

import "math"

const atmosphere = 101325.0 // Pa, standard atmosphere. Source: CGPM 1954, exact

// air holds the properties of dry air at a film temperature.
type air struct {
	conductivity float64 // W/(m·K)
	viscosity    float64 // kinematic, m²/s
	diffusivity  float64 // thermal, m²/s
	prandtl      float64
	expansion    float64 // 1/K
}

// airAt returns dry air's properties at kelvin under one atmosphere. Source: U.S.
// Standard Atmosphere 1976 (Sutherland's viscosity and the conductivity formula);
// specific heat 1006 J/(kg·K); gas constant 287.05 J/(kg·K).
func airAt(kelvin float64) air {
	const cp, gas = 1006.0, 287.05
	t15 := kelvin * math.Sqrt(kelvin)
	dynamic := 1.458e-6 * t15 / (kelvin + 110.4)
	k := 2.64638e-3 * t15 / (kelvin + 245.4*math.Pow(10, -12/kelvin))
	density := atmosphere / (gas * kelvin)
	a := air{conductivity: k, viscosity: dynamic / density, diffusivity: k / (density * cp), expansion: 1 / kelvin}
	a.prandtl = a.viscosity / a.diffusivity
	return a
}

// moist is humid air as psychrometrics sees it.
type moist struct {
	vapour     float64 // Pa, partial pressure of water vapour
	dryDensity float64 // kg of dry air in 1 m³ of humid air
	ratio      float64 // kg of vapour per kg of dry air
}

// moistAt returns humid air at celsius and relative humidity under one
// atmosphere. Source: ASHRAE Handbook Fundamentals, chapter 1.
func moistAt(celsius, humidity float64) moist {
	const gas, massRatio = 287.042, 0.621945
	p := humidity * saturation(celsius)
	return moist{
		vapour:     p,
		dryDensity: (atmosphere - p) / (gas * (celsius + 273.15)),
		ratio:      massRatio * p / (atmosphere - p),
	}
}

// saturation returns the vapour pressure in Pa over water, or over ice below
// 0 °C. Source: Hyland and Wexler 1983, valid -100 to 200 °C.
func saturation(celsius float64) float64 {
	t := celsius + 273.15
	if celsius < 0 {
		return math.Exp(-5.6745359e3/t + 6.3925247 + t*(-9.677843e-3+t*(6.2215701e-7+t*(2.0747825e-9-9.484024e-13*t))) + 4.1635019*math.Log(t))
	}
	return math.Exp(-5.8002206e3/t + 1.3914993 + t*(-4.8640239e-2+t*(4.1764768e-5-1.4452093e-8*t)) + 6.5459673*math.Log(t))
}

// vaporisation returns the heat of vaporisation of water in J/kg. Source: Rogers
// and Yau 1989, from memory; 2442 kJ/kg at 25 °C.
func vaporisation(celsius float64) float64 {
	return 1000 * (2500.8 + celsius*(-2.36+celsius*(0.0016-0.00006*celsius)))
}
