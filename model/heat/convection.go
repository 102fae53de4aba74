package heat

import (
	"math"

	"example.org/driploop/model/quantity"
)

// stefanBoltzmann in W/(m²·K⁴). Source: CODATA 2018, exact by the SI.
const stefanBoltzmann = 5.670374419e-8

// Emissivities. Source: common table values for glass 0.84 to 0.90 and for water
// 0.95 to 0.96.
const (
	emissivityWall  = 0.90
	emissivityWater = 0.95
)

// rayleigh returns the Rayleigh number of a plate of characteristic length l
// with a temperature difference dT of either sign.
func rayleigh(a air, dT, l float64) float64 {
	return quantity.StandardGravity * a.expansion * math.Abs(dT) * l * l * l / (a.viscosity * a.diffusivity)
}

// laminarLimit is the Rayleigh number up to which the laminar form is used.
const laminarLimit = 1e9

// nusseltVertical is the mean Nusselt number of a vertical plate. Source:
// Churchill and Chu 1975, laminar form below 1e9, form for all Ra above.
func nusseltVertical(ra, pr float64) float64 {
	base := 1 + math.Pow(0.492/pr, 9.0/16)
	if ra < laminarLimit {
		return 0.68 + 0.670*math.Sqrt(math.Sqrt(ra))/math.Pow(base, 4.0/9)
	}
	n := 0.825 + 0.387*math.Pow(ra, 1.0/6)/math.Pow(base, 8.0/27)
	return n * n
}

// nusseltTop is the mean Nusselt number of a horizontal surface that faces
// up, with the characteristic length area over perimeter. Source: McAdams 1954;
// warm surface 0.54·Ra^¼ (1e4 to 1e7) and 0.15·Ra^⅓ (1e7 to 1e11), cool surface
// 0.27·Ra^¼. The first form is carried on below 1e4, where next to nothing flows.
func nusseltTop(ra float64, warm bool) float64 {
	switch {
	case !warm:
		return 0.27 * math.Sqrt(math.Sqrt(ra))
	case ra < 1e7:
		return 0.54 * math.Sqrt(math.Sqrt(ra))
	}
	return 0.15 * math.Cbrt(ra)
}

// radiation returns the net heat in W/m² that a surface of the given
// emissivity radiates to surroundings at the room's temperature, both in kelvin.
func radiation(emissivity, surface, room float64) float64 {
	s, r := surface*surface, room*room
	return emissivity * stefanBoltzmann * (s*s - r*r)
}

// wallFlux returns the heat in W/m² through a vertical wall whose inner film and
// body have resistance r, and the outer surface's temperature in °C. The surface
// lies between water and room where conduction in equals convection plus
// radiation out.
func wallFlux(r, height, water, room float64) (flux, surface float64) {
	if water == room {
		return 0, water
	}
	out := func(s float64) float64 {
		a := airAt((s+room)/2 + 273.15)
		h := nusseltVertical(rayleigh(a, s-room, height), a.prandtl) * a.conductivity / height
		return h*(s-room) + radiation(emissivityWall, s+273.15, room+273.15)
	}
	// Regula falsi, Illinois variant: the balance has one root between the two
	// temperatures and falls steadily with the surface's.
	balance := func(s float64) float64 { return (water-s)/r - out(s) }
	a, fa := water, balance(water)
	b, fb := room, balance(room)
	s := water
	for range 100 {
		s = (a*fb - b*fa) / (fb - fa)
		f := balance(s)
		if math.Abs(f) <= 1e-9*math.Abs(water-room)/r {
			break
		}
		if (f > 0) == (fb > 0) {
			fa /= 2
		} else {
			a, fa = b, fb
		}
		b, fb = s, f
	}
	return (water - s) / r, s
}

// topFlux returns the heat in W/m² that a free water surface gives off by
// convection and radiation alone.
func topFlux(length, water, room float64) float64 {
	a := airAt((water+room)/2 + 273.15)
	nu := nusseltTop(rayleigh(a, water-room, length), water > room)
	return nu*a.conductivity/length*(water-room) + radiation(emissivityWater, water+273.15, room+273.15)
}
