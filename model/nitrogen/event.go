package nitrogen

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Event is something done to the tank at a time after the start.
type Event struct {
	At quantity.Time `json:"at"` // 0 or later
	Do Action        `json:"-"`
}

// Action is what an event does: Dose, Change, Production, Stock or Setting.
type Action interface {
	accept() error
	apply(*tank) error
}

// AlkalinityReturn is the alkalinity that comes with ammonia, moles a mole of N.
type AlkalinityReturn float64

// What the sources of ammonia give back. Source: stoichiometry; fish excrete
// NH3, and ammonia solution is NH3; ammonium chloride gives nothing.
const (
	FromFish     AlkalinityReturn = 1
	FromSolution AlkalinityReturn = 1
	FromChloride AlkalinityReturn = 0
)

// Dose adds ammonia at once, mg/L as nitrogen, 0 to 10.
type Dose struct {
	Ammonia quantity.Concentration `json:"ammonia"`
	Returns AlkalinityReturn       `json:"returns"`
}

func (d Dose) accept() error {
	return first(inRange("dose", "q.nitrogen.dose", d.Ammonia, 10), d.Returns.accept())
}

func (a AlkalinityReturn) accept() error {
	v := func(x float64) quantity.Value { return quantity.Ratio(x).Value() }
	return working.InRange("returns", "q.nitrogen.returns", v(float64(a)), v(0), v(1))
}

func (d Dose) apply(k *tank) error {
	k.y[0] += float64(d.Ammonia)
	k.y[5] += float64(d.Returns) * float64(d.Ammonia) / molarN
	k.bal.Dosed += d.Ammonia
	return nil
}

// Change replaces a share of the water (0 to 1) by tap water. Bacteria sit on
// surfaces and stay.
type Change struct {
	Fraction quantity.Ratio `json:"fraction"`
	Tap      Tap            `json:"tap"`
}

func (c Change) accept() error {
	return first(working.InRange("fraction", "q.nitrogen.fraction", c.Fraction.Value(), quantity.Ratio(0).Value(), quantity.Ratio(1).Value()), c.Tap.accept())
}

func (c Change) apply(k *tank) error {
	f, before := float64(c.Fraction), k.y.state().Nitrogen()
	tap := State{Ammonia: c.Tap.Ammonia, Nitrite: c.Tap.Nitrite, Nitrate: c.Tap.Nitrate, Alkalinity: c.Tap.Alkalinity}.vector()
	for _, i := range []int{0, 1, 2, 5} {
		k.y[i] = (1-f)*k.y[i] + f*tap[i]
	}
	k.bal.Exchanged += k.y.state().Nitrogen() - before
	return nil
}

// Production sets the ammonia that feeding makes from now on, mg/L a day as
// nitrogen, 0 to 10; see Load. Zero stops feeding.
type Production struct {
	Rate    quantity.Rate    `json:"rate"`
	Returns AlkalinityReturn `json:"returns"`
}

func (p Production) accept() error { return first(rateIn(p.Rate, 0), p.Returns.accept()) }

func (p Production) apply(k *tank) error {
	k.production, k.returns = float64(p.Rate), float64(p.Returns)
	return nil
}

// Stock changes the production by fish that come (above zero) or go (below),
// −10 to 10 mg/L a day. It refuses when more go than were there.
type Stock struct {
	By quantity.Rate `json:"by"`
}

func (s Stock) accept() error { return rateIn(s.By, -10) }

func (s Stock) apply(k *tank) error {
	p := k.production + float64(s.By)
	if p < -1e-9 || p > 10 {
		return working.Outside("stock", "q.nitrogen.production", quantity.Rate(p).Value(), quantity.Rate(0).Value(), quantity.Rate(10).Value())
	}
	k.production = math.Max(0, p)
	if s.By > 0 {
		k.returns = float64(FromFish)
	}
	return nil
}

// Setting changes the surroundings; a nil field stays as it is. A pH sets the
// CO2 that goes with it and the alkalinity of that moment; from there on pH
// follows the alkalinity.
type Setting struct {
	Temperature *quantity.Temperature   `json:"temperature,omitempty"` // 15 to 30 °C
	CO2         *quantity.Concentration `json:"co2,omitempty"`         // 0.3 to 100 mg/L
	PH          *quantity.PH            `json:"ph,omitempty"`          // 6 to 9
	Oxygen      *quantity.Concentration `json:"oxygen,omitempty"`      // 0 to 15 mg/L
}

func (s Setting) accept() error {
	var errs []error
	if s.Temperature != nil {
		errs = append(errs, working.InRange("temperature", "q.nitrogen.temperature", s.Temperature.Value(), quantity.Temperature(15).Value(), quantity.Temperature(30).Value()))
	}
	if s.CO2 != nil {
		errs = append(errs, working.InRange("co2", "q.nitrogen.co2", s.CO2.Value(), quantity.Concentration(0.3).Value(), quantity.Concentration(100).Value()))
	}
	if s.PH != nil {
		errs = append(errs, working.InRange("ph", "q.nitrogen.ph", s.PH.Value(), quantity.PH(6).Value(), quantity.PH(9).Value()))
	}
	if s.Oxygen != nil {
		errs = append(errs, inRange("oxygen", "q.nitrogen.oxygen", *s.Oxygen, 15))
	}
	if s.CO2 != nil && s.PH != nil {
		errs = append(errs, working.Refuse("ph", "refuse.nitrogen.ph_or_co2"))
	}
	return first(errs...)
}

func (s Setting) apply(k *tank) error {
	if s.Temperature != nil {
		k.temperature = *s.Temperature
	}
	if s.CO2 != nil {
		k.co2 = float64(*s.CO2)
	}
	if s.Oxygen != nil {
		k.oxygen = float64(*s.Oxygen)
	}
	if err := k.prepare(); err != nil {
		return err
	}
	if s.PH == nil {
		return nil
	}
	k.co2 = math.Max(k.y[5], leastAlk) * molarCO2 / math.Pow(10, float64(*s.PH)-k.pk1)
	return k.prepare()
}

func inRange(field string, name working.Key, c, most quantity.Concentration) error {
	return working.InRange(field, name, c.Value(), quantity.Concentration(0).Value(), most.Value())
}

func rateIn(r, low quantity.Rate) error {
	return working.InRange("production", "q.nitrogen.production", r.Value(), low.Value(), quantity.Rate(10).Value())
}

func first(errs ...error) error {
	for _, e := range errs {
		if e != nil {
			return e
		}
	}
	return nil
}
