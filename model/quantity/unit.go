package quantity

// UnitCode is the stable name of a unit, as stored with what a person typed.
type UnitCode string

// System is a family of units a person chooses to read and write in.
type System string

// The three systems. They differ where a US and an imperial gallon differ.
const (
	US       System = "us"
	Metric   System = "metric"
	Imperial System = "imperial"
)

// Systems lists the systems in the order in which they are offered.
func Systems() []System { return []System{Metric, US, Imperial} }

// Unit is an exact linear scale: base = x·Factor + Offset.
type Unit struct {
	Code   UnitCode
	Kind   Kind
	Factor float64
	Offset float64
	// Names are the lower-case spellings that Parse takes for this unit.
	Names []string
}

// ToBase converts x of this unit into the base unit of its kind.
func (u Unit) ToBase(x float64) float64 { return x*u.Factor + u.Offset }

// FromBase converts x of the base unit into this unit.
func (u Unit) FromBase(x float64) float64 { return (x - u.Offset) / u.Factor }

// Exact definitions. Source: international yard and pound agreement 1959
// (inch, pound); US gallon 231 in³; imperial gallon 4.54609 L (UK Weights and
// Measures Act 1985); standard gravity; thermochemical units are not used.
const (
	inch    = 0.0254
	pound   = 0.45359237
	ounce   = pound / 16
	galUS   = 231 * inch * inch * inch
	galImp  = 4.54609e-3
	flozUS  = galUS / 128
	flozImp = galImp / 160
	poundF  = pound * StandardGravity
	foot    = 12 * inch

	// One German degree is 10 mg/L CaO. Source: DIN 38409-6 definition, with
	// IUPAC 2021 atomic masses Ca 40.078, O 15.999, C 12.011.
	caCO3     = 40.078 + 12.011 + 3*15.999
	caO       = 40.078 + 15.999
	degreeDH  = 10 * caCO3 / caO
	meqCaCO3  = caCO3 / 2
	grainMass = 64.79891 // mg, exact: pound/7000
)

var units = []Unit{
	{"piece", KindCount, 1, 0, []string{""}},
	{"one", KindRatio, 1, 0, nil},
	{"percent", KindRatio, 0.01, 0, []string{"%", "percent", "pct"}},
	{"ph", KindPH, 1, 0, []string{"ph"}},

	{"m", KindLength, 1, 0, []string{"m", "metre", "metres", "meter", "meters", "metro", "metros"}},
	{"cm", KindLength, 0.01, 0, []string{"cm"}},
	{"mm", KindLength, 0.001, 0, []string{"mm"}},
	{"in", KindLength, inch, 0, []string{"in", "in.", "inch", "inches", `"`, "″", "''", "pulg", "pulgadas"}},
	{"ft", KindLength, foot, 0, []string{"ft", "ft.", "foot", "feet", "'", "′", "pie", "pies"}},

	{"m2", KindArea, 1, 0, []string{"m2", "m²"}},
	{"cm2", KindArea, 1e-4, 0, []string{"cm2", "cm²"}},
	{"ft2", KindArea, foot * foot, 0, []string{"ft2", "ft²", "sq ft"}},
	{"in2", KindArea, inch * inch, 0, []string{"in2", "in²", "sq in"}},
	{"mm2", KindArea, 1e-6, 0, []string{"mm2", "mm²"}},

	{"m3", KindVolume, 1, 0, []string{"m3", "m³"}},
	{"l", KindVolume, 1e-3, 0, []string{"l", "lt", "ltr", "litre", "litres", "liter", "liters", "litro", "litros"}},
	{"ml", KindVolume, 1e-6, 0, []string{"ml", "cc", "cm3", "cm³", "ccm"}},
	{"gal_us", KindVolume, galUS, 0, []string{"us gal", "gal us", "usgal", "us gallon", "us gallons", "gal (us)"}},
	{"gal_imp", KindVolume, galImp, 0, []string{"imp gal", "gal imp", "uk gal", "imperial gallon", "imperial gallons", "gal (imp)", "gal uk"}},
	{"qt_us", KindVolume, galUS / 4, 0, []string{"qt", "us qt", "quart", "quarts"}},
	{"floz_us", KindVolume, flozUS, 0, []string{"us fl oz"}},
	{"floz_imp", KindVolume, flozImp, 0, []string{"imp fl oz", "uk fl oz"}},
	{"tsp_us", KindVolume, flozUS / 6, 0, []string{"tsp", "teaspoon", "teaspoons", "cdta"}},
	{"tbsp_us", KindVolume, flozUS / 2, 0, []string{"tbsp", "tablespoon", "tablespoons", "cda"}},
	{"drop", KindVolume, 0.05e-6, 0, []string{"drop", "drops", "gota", "gotas"}}, // pharmacy convention, 20 drops a millilitre

	{"kg", KindMass, 1, 0, []string{"kg", "kilo", "kilos"}},
	{"g", KindMass, 1e-3, 0, []string{"g", "gr", "gram", "grams", "gramo", "gramos"}},
	{"mg", KindMass, 1e-6, 0, []string{"mg"}},
	{"lb", KindMass, pound, 0, []string{"lb", "lb.", "lbs", "pound", "pounds", "libra", "libras"}},
	{"oz", KindMass, ounce, 0, []string{"oz", "oz.", "ounce", "ounces"}},

	{"kg/m3", KindDensity, 1, 0, []string{"kg/m3", "kg/m³"}},
	{"g/cm3", KindDensity, 1000, 0, []string{"g/cm3", "g/cm³", "kg/l", "g/ml"}},

	{"n", KindForce, 1, 0, []string{"n"}},
	{"kn", KindForce, 1000, 0, []string{"kn"}},
	{"lbf", KindForce, poundF, 0, []string{"lbf"}},

	{"n.m", KindMoment, 1, 0, []string{"nm", "n·m", "n m"}},
	{"lbf.ft", KindMoment, poundF * foot, 0, []string{"lbf·ft", "lbf ft"}},

	{"pa", KindPressure, 1, 0, []string{"pa"}},
	{"kpa", KindPressure, 1e3, 0, []string{"kpa", "kn/m2", "kn/m²"}},
	{"mpa", KindPressure, 1e6, 0, []string{"mpa", "n/mm2", "n/mm²"}},
	{"gpa", KindPressure, 1e9, 0, []string{"gpa"}},
	{"psi", KindPressure, poundF / (inch * inch), 0, []string{"psi"}},
	{"psf", KindPressure, poundF / (foot * foot), 0, []string{"psf"}},
	{"bar", KindPressure, 1e5, 0, []string{"bar"}},
	{"mmhg", KindPressure, 133.322387415, 0, []string{"mmhg"}}, // Source: NIST SP 811 B.8
	{"atm", KindPressure, 101325, 0, []string{"atm"}},

	{"n/m", KindLineLoad, 1, 0, []string{"n/m"}},
	{"lbf/ft", KindLineLoad, poundF / foot, 0, []string{"lbf/ft", "plf"}},

	{"w", KindPower, 1, 0, []string{"w", "watt", "watts", "vatios"}},
	{"kw", KindPower, 1000, 0, []string{"kw"}},

	{"j", KindEnergy, 1, 0, []string{"j"}},
	{"kj", KindEnergy, 1e3, 0, []string{"kj"}},
	{"kwh", KindEnergy, 3.6e6, 0, []string{"kwh"}},

	{"s", KindTime, 1, 0, []string{"s", "sec", "seconds"}},
	{"min", KindTime, 60, 0, []string{"min", "minute", "minutes", "minuto", "minutos"}},
	{"h", KindTime, 3600, 0, []string{"h", "hr", "hour", "hours", "hora", "horas"}},
	{"d", KindTime, 86400, 0, []string{"d", "day", "days", "día", "días", "dia", "dias"}},
	{"wk", KindTime, 7 * 86400, 0, []string{"wk", "week", "weeks", "semana", "semanas"}},
	{"mo", KindTime, 365.2425 / 12 * 86400, 0, []string{"mo", "month", "months", "mes", "meses"}}, // mean Gregorian month
	{"yr", KindTime, 365.2425 * 86400, 0, []string{"yr", "year", "years", "año", "años"}},

	{"m3/s", KindFlow, 1, 0, []string{"m3/s", "m³/s"}},
	{"l/min", KindFlow, 1e-3 / 60, 0, []string{"l/min", "lpm"}},
	{"l/h", KindFlow, 1e-3 / 3600, 0, []string{"l/h", "lph"}},
	{"ml/min", KindFlow, 1e-6 / 60, 0, []string{"ml/min"}},
	{"gph_us", KindFlow, galUS / 3600, 0, []string{"us gal/h", "us gph"}},
	{"gph_imp", KindFlow, galImp / 3600, 0, []string{"imp gal/h", "imp gph"}},

	{"degc", KindTemperature, 1, 0, []string{"°c", "c", "degc", "ºc", "celsius"}},
	{"degf", KindTemperature, 5.0 / 9, -160.0 / 9, []string{"°f", "f", "degf", "ºf", "fahrenheit"}},
	{"k_diff", KindTempDiff, 1, 0, []string{"k", "°c", "c", "ºc"}},
	{"f_diff", KindTempDiff, 5.0 / 9, 0, []string{"°f", "f", "ºf"}},

	{"w/k", KindConductance, 1, 0, []string{"w/k"}},
	{"w/m2k", KindTransmittance, 1, 0, []string{"w/m2k", "w/(m²·k)"}},

	{"mg/l", KindConcentration, 1, 0, []string{"mg/l", "ppm", "g/m3"}},
	{"ug/l", KindConcentration, 1e-3, 0, []string{"µg/l", "ug/l", "ppb"}},
	{"g/l", KindConcentration, 1e3, 0, []string{"g/l", "ppt"}},

	{"mg/l_caco3", KindHardness, 1, 0, []string{"mg/l", "ppm", "mg/l caco3", "mg/l caco₃", "ppm caco3"}},
	{"dh", KindHardness, degreeDH, 0, []string{"°dh", "dh", "°d"}}, // carbonate or general, as the context says
	{"dkh", KindHardness, degreeDH, 0, []string{"°dkh", "dkh", "°kh", "kh"}},
	{"dgh", KindHardness, degreeDH, 0, []string{"°dgh", "dgh", "°gh", "gh"}},
	{"meq/l", KindHardness, meqCaCO3, 0, []string{"meq/l"}},
	{"mmol/l", KindHardness, caCO3, 0, []string{"mmol/l"}}, // of Ca + Mg, or of 2 HCO3
	{"degf_fr", KindHardness, 10, 0, []string{"°f", "°fh", "tac"}},
	{"clark", KindHardness, grainMass / 4.54609, 0, []string{"°e", "clark", "°clark"}},
	{"gpg", KindHardness, grainMass / 3.785411784, 0, []string{"gpg", "gr/gal"}},

	{"mg/l/d", KindRate, 1, 0, []string{"mg/l/d", "mg/(l·d)"}},
	{"g/d", KindMassRate, 1, 0, []string{"g/d", "g/day"}},
	{"mg/d", KindMassRate, 1e-3, 0, []string{"mg/d"}},
	{"rad", KindAngle, 1, 0, []string{"rad"}},
	{"deg", KindAngle, 0.017453292519943295, 0, []string{"°", "deg"}},
	{"m4", KindInertia, 1, 0, []string{"m4", "m⁴"}},
	{"mm4", KindInertia, 1e-12, 0, []string{"mm4", "mm⁴"}},
	{"m3_section", KindModulus, 1, 0, []string{"m3", "m³"}},
	{"mm3_section", KindModulus, 1e-9, 0, []string{"mm3", "mm³"}},
	{"v", KindVoltage, 1, 0, []string{"v", "volt", "volts"}},
	{"a", KindCurrent, 1, 0, []string{"a", "amp", "amps"}},
	{"m/s", KindVelocity, 1, 0, []string{"m/s"}},
	{"m/d", KindVelocity, 1.0 / 86400, 0, []string{"m/d", "m/day"}},
	{"us/cm", KindConductivity, 1, 0, []string{"µs/cm", "μs/cm", "us/cm", "µs", "μs", "us"}},
	{"ms/cm", KindConductivity, 1000, 0, []string{"ms/cm", "ms"}},
	{"kg/m2h", KindAreaFlux, 1, 0, []string{"kg/m2h", "kg/(m²·h)"}},
}

var unitByCode = func() map[UnitCode]Unit {
	m := make(map[UnitCode]Unit, len(units))
	for _, u := range units {
		if _, twice := m[u.Code]; twice {
			panic("quantity: unit code twice: " + string(u.Code))
		}
		m[u.Code] = u
	}
	return m
}()

// UnitOf returns the unit with the given code. Money units are the three-letter
// currency codes of ISO 4217 and need no entry of their own.
func UnitOf(c UnitCode) (Unit, bool) {
	if u, ok := unitByCode[c]; ok {
		return u, true
	}
	if isCurrency(string(c)) {
		return Unit{Code: c, Kind: KindMoney, Factor: 1}, true
	}
	return Unit{}, false
}

// MustUnit is UnitOf for codes written in the program; it panics on a code that
// does not exist.
func MustUnit(c UnitCode) Unit {
	u, ok := UnitOf(c)
	if !ok {
		panic("quantity: no unit " + string(c))
	}
	return u
}

// UnitsOf lists the units of a kind in the order of the table.
func UnitsOf(k Kind) []Unit {
	var us []Unit
	for _, u := range units {
		if u.Kind == k {
			us = append(us, u)
		}
	}
	return us
}

// Base returns the unit in which a Value of k counts.
func (k Kind) Base() (Unit, bool) {
	for _, u := range units {
		if u.Kind == k && u.Factor == 1 && u.Offset == 0 {
			return u, true
		}
	}
	return Unit{}, false
}

func isCurrency(s string) bool {
	if len(s) != 3 {
		return false
	}
	for _, r := range s {
		if r < 'A' || r > 'Z' {
			return false
		}
	}
	return true
}
