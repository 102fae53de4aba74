package fish

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// How far a mass may be off, as a factor either way, by how sure the relation is.
// Source: the spread of the FishBase estimates at family level, sd(log10 a) 0.16
// to 0.2; a factor of two for averages of a shape and for our own.
const (
	spreadPublished = 1.3
	spreadAdjusted  = 1.5
	spreadPractice  = 2.0
)

func (a *Animal) massSpread() float64 {
	switch a.MassFrom.Sure {
	case SurePublished:
		return spreadPublished
	case SureAdjusted:
		return spreadAdjusted
	}
	return spreadPractice
}

// atLength is the mass of an animal of so many centimetres, g.
func (a *Animal) atLength(cm float64) float64 { return a.MassFactor * math.Pow(cm, a.MassPower) }

// WeightOf returns the mass of one animal of a kind at a total length, from 0.3 cm
// to one and a half times its adult length. Errors: *working.Refusal.
func WeightOf(code Code, length quantity.Length) (quantity.Mass, *working.Trail, error) {
	a, err := Get(code)
	if err != nil {
		return 0, nil, err
	}
	low, high := quantity.Length(leastToday).Value(), (a.Length * mostOfAdult).Value()
	if err := working.InRange("length", "q.fish.length", length.Value(), low, high); err != nil {
		return 0, nil, err
	}
	m := quantity.Mass(a.atLength(float64(length)*100) / 1000)
	s := quantity.Mass(a.massSpread())
	t := working.New("ask.fish.weight").Given("L", "q.fish.length", length.Value()).
		Constant("a", "q.fish.mass_factor", ofShare(a.MassFactor), a.MassFrom.Sources[0]).
		Constant("b", "q.fish.mass_power", ofShare(a.MassPower), a.MassFrom.Sources[0]).
		Step("W", "q.fish.mass_one", "W = a·(L/1 cm)^b g", m.Value(), a.MassFrom.Sources[0]).Cites(srcFroese).
		Between((m/s).Value(), (m*s).Value(), "assume.fish.body_differs").Within("q.fish.length", low, high)
	return m, t, nil
}

// Growth is how a young animal may grow.
type Growth struct {
	Length quantity.Length `json:"length"` // after the time
	Low    quantity.Length `json:"low"`
	High   quantity.Length `json:"high"`
	Adult  quantity.Time   `json:"adult"` // from now to nine tenths of adult length; 0 when it is there
}

// Months from hatching to nine tenths of adult length: 7 for a neon of 3.5 cm, 13
// at 10 cm, 25 at 35 cm, within a factor of two. // judgement
const (
	grownFactor, grownPower = 3.6, 0.55
	growthSpread            = 2.0
	grown                   = 0.9
	month                   = 365.25 / 12 * day
)

// growthRate is the rate k of L = L_a − (L_a − L_0)·e^(−k·t), 1/s.
func (a *Animal) growthRate() float64 {
	return math.Ln10 / (grownFactor * math.Pow(a.cm, grownPower) * month)
}

// GrowthOf estimates the length of an animal that is so long today after some time
// (0 to 10 years), with good food and water: the curve of von Bertalanffy towards
// its adult length. A rule of thumb. An animal longer than its kind grows no more.
// Errors: *working.Refusal.
func GrowthOf(code Code, today quantity.Length, after quantity.Time) (Growth, *working.Trail, error) {
	a, err := Get(code)
	if err != nil {
		return Growth{}, nil, err
	}
	low, high := quantity.Length(leastToday).Value(), (a.Length * mostOfAdult).Value()
	if err := working.InRange("length", "q.fish.length", today.Value(), low, high); err != nil {
		return Growth{}, nil, err
	}
	if err := working.InRange("after", "q.fish.after", after.Value(), ofTime(0), ofTime(10*365.25*day)); err != nil {
		return Growth{}, nil, err
	}
	k, gap := a.growthRate(), float64(a.Length-today)
	at := func(k float64) quantity.Length {
		if gap <= 0 {
			return today
		}
		return a.Length - quantity.Length(gap*math.Exp(-k*float64(after)))
	}
	g := Growth{Length: at(k), Low: at(k / growthSpread), High: at(k * growthSpread)}
	if left := float64(a.Length) * (1 - grown); gap > left {
		g.Adult = quantity.Time(math.Log(gap/left) / k)
	}
	t := working.New("ask.fish.growth").As(working.RuleOfThumb).
		Given("L_0", "q.fish.length", today.Value()).Given("t", "q.fish.after", after.Value()).
		Constant("L_a", "q.fish.adult_length", a.Length.Value(), a.LengthFrom.Sources[0]).
		Step("T", "q.fish.grown_after", "T = 109.6 d·(L_a/1 cm)^0.55", ofTime(math.Ln10/k), working.Ours).
		Step("L", "q.fish.length_then", "L = L_a − (L_a − L_0)·10^(−t/T)", g.Length.Value(), working.Ours).
		Between(g.Low.Value(), g.High.Value(), "assume.fish.growth_differs").
		Within("q.fish.length", low, high).Within("q.fish.after", ofTime(0), ofTime(10*365.25*day))
	return g, t, nil
}
