package quantity

// One defined type a quantity, in the base unit of its kind. Conversions from
// other units go through Unit, so that factors stand in one table only.
type (
	Length                float64 // metres
	Area                  float64 // square metres
	Volume                float64 // cubic metres
	Mass                  float64 // kilograms
	Density               float64 // kilograms per cubic metre
	Force                 float64 // newtons
	Moment                float64 // newton metres
	Pressure              float64 // pascals; stress and elastic modulus too
	LineLoad              float64 // newtons per metre
	Power                 float64 // watts
	Energy                float64 // joules
	Time                  float64 // seconds
	Flow                  float64 // cubic metres per second
	Temperature           float64 // degrees Celsius, a point
	TemperatureDifference float64 // kelvin, a difference
	Conductance           float64 // watts per kelvin
	Concentration         float64 // milligrams per litre
	Hardness              float64 // milligrams per litre as CaCO3
	Rate                  float64 // milligrams per litre and day
	MassRate              float64 // grams per day
	Velocity              float64 // metres per second
	Conductivity          float64 // microsiemens per centimetre at 25 °C
	Angle                 float64 // radians
	PH                    float64 // pH units
	Ratio                 float64 // fraction of one
	Count                 float64 // pieces
)

func (q Length) Value() Value                { return Value{KindLength, float64(q)} }
func (q Area) Value() Value                  { return Value{KindArea, float64(q)} }
func (q Volume) Value() Value                { return Value{KindVolume, float64(q)} }
func (q Mass) Value() Value                  { return Value{KindMass, float64(q)} }
func (q Density) Value() Value               { return Value{KindDensity, float64(q)} }
func (q Force) Value() Value                 { return Value{KindForce, float64(q)} }
func (q Moment) Value() Value                { return Value{KindMoment, float64(q)} }
func (q Pressure) Value() Value              { return Value{KindPressure, float64(q)} }
func (q LineLoad) Value() Value              { return Value{KindLineLoad, float64(q)} }
func (q Power) Value() Value                 { return Value{KindPower, float64(q)} }
func (q Energy) Value() Value                { return Value{KindEnergy, float64(q)} }
func (q Time) Value() Value                  { return Value{KindTime, float64(q)} }
func (q Flow) Value() Value                  { return Value{KindFlow, float64(q)} }
func (q Temperature) Value() Value           { return Value{KindTemperature, float64(q)} }
func (q TemperatureDifference) Value() Value { return Value{KindTempDiff, float64(q)} }
func (q Conductance) Value() Value           { return Value{KindConductance, float64(q)} }
func (q Concentration) Value() Value         { return Value{KindConcentration, float64(q)} }
func (q Hardness) Value() Value              { return Value{KindHardness, float64(q)} }
func (q Rate) Value() Value                  { return Value{KindRate, float64(q)} }
func (q MassRate) Value() Value              { return Value{KindMassRate, float64(q)} }
func (q Velocity) Value() Value              { return Value{KindVelocity, float64(q)} }
func (q Conductivity) Value() Value          { return Value{KindConductivity, float64(q)} }
func (q Angle) Value() Value                 { return Value{KindAngle, float64(q)} }
func (q PH) Value() Value                    { return Value{KindPH, float64(q)} }
func (q Ratio) Value() Value                 { return Value{KindRatio, float64(q)} }
func (q Count) Value() Value                 { return Value{KindCount, float64(q)} }

// Litres returns the volume in litres.
func (q Volume) Litres() float64 { return float64(q) * 1000 }

// Litres makes a volume of x litres.
func Litres(x float64) Volume { return Volume(x / 1000) }

// Millimetres makes a length of x millimetres.
func Millimetres(x float64) Length { return Length(x / 1000) }

// Millimetres returns the length in millimetres.
func (q Length) Millimetres() float64 { return float64(q) * 1000 }

// Minus returns the difference between two temperature points.
func (q Temperature) Minus(o Temperature) TemperatureDifference { return TemperatureDifference(q - o) }

// Plus moves a temperature point by a difference.
func (q Temperature) Plus(d TemperatureDifference) Temperature { return q + Temperature(d) }

// Kelvin returns the thermodynamic temperature in kelvin.
func (q Temperature) Kelvin() float64 { return float64(q) + 273.15 }

// StandardGravity in m/s². Source: CGPM 1901, exact.
const StandardGravity = 9.80665

// Weight returns the weight of m under standard gravity.
func (q Mass) Weight() Force { return Force(float64(q) * StandardGravity) }
