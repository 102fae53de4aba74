package quantity

import (
	"fmt"
	"math"
)

// Kind is a physical dimension with a purpose. Values of different kinds never
// convert into each other.
type Kind uint8

// The kinds. The comment gives the base unit in which a Value of the kind counts.
const (
	KindNone          Kind = iota
	KindCount              // pieces, a whole number
	KindRatio              // fraction of one
	KindPH                 // pH units
	KindLength             // m
	KindArea               // m²
	KindVolume             // m³
	KindMass               // kg
	KindDensity            // kg/m³
	KindForce              // N
	KindMoment             // N·m
	KindPressure           // Pa; also stress and modulus of elasticity
	KindLineLoad           // N/m
	KindPower              // W
	KindEnergy             // J
	KindTime               // s
	KindFlow               // m³/s
	KindTemperature        // °C, a point on the scale
	KindTempDiff           // K, a difference
	KindConductance        // W/K
	KindTransmittance      // W/(m²·K)
	KindConcentration      // mg/L
	KindHardness           // mg/L as CaCO3; carbonate and general hardness
	KindRate               // mg/(L·d)
	KindMassRate           // g/d
	KindAngle              // rad
	KindMoney              // units of the currency named by the unit code
	KindInertia            // m⁴
	KindModulus            // m³, section modulus
	KindVoltage            // V
	KindCurrent            // A
	KindVelocity           // m/s
	KindAreaFlux           // kg/(m²·h), evaporation
	KindConductivity       // µS/cm at 25 °C
	kindEnd
)

var kindNames = [...]string{
	"none", "count", "ratio", "ph", "length", "area", "volume", "mass", "density", "force", "moment", "pressure",
	"line_load", "power", "energy", "time", "flow", "temperature", "temperature_difference", "conductance", "transmittance",
	"concentration", "hardness", "rate", "mass_rate", "angle", "money", "inertia", "section_modulus", "voltage", "current",
	"velocity", "area_flux", "conductivity",
}

// String returns the stable name of k, as used in JSON and message keys.
func (k Kind) String() string {
	if int(k) < len(kindNames) {
		return kindNames[k]
	}
	return "unknown"
}

// MarshalText writes the stable name of k.
func (k Kind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// UnmarshalText reads the stable name of a kind and refuses any other text.
func (k *Kind) UnmarshalText(text []byte) error {
	got, ok := KindOf(string(text))
	if !ok {
		return fmt.Errorf("quantity: no kind %q", text)
	}
	*k = got
	return nil
}

// Kinds lists every kind, in order.
func Kinds() []Kind {
	ks := make([]Kind, 0, int(kindEnd)-1)
	for k := KindCount; k < kindEnd; k++ {
		ks = append(ks, k)
	}
	return ks
}

// KindOf returns the kind with the stable name s.
func KindOf(s string) (Kind, bool) {
	for i, n := range kindNames {
		if n == s {
			return Kind(i), true
		}
	}
	return KindNone, false
}

// Value is a number of a kind in the kind's base unit. The zero Value has
// KindNone and stands for "missing": it is never zero of something.
type Value struct {
	Kind Kind    `json:"kind"`
	X    float64 `json:"x"`
}

// Known reports whether v holds something; a missing value is not zero.
func (v Value) Known() bool { return v.Kind != KindNone }

// In returns v expressed in unit u. It returns NaN when the kinds differ, which
// is a programmer's error that Finite catches at the edges.
func (v Value) In(u Unit) float64 {
	if u.Kind != v.Kind {
		return math.NaN()
	}
	return u.FromBase(v.X)
}

// Finite reports whether x is a number that may enter or leave a calculation.
func Finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
