package care

import (
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// Bag is a bag of animals on its way into a tank, as it was measured. First fill
// and Home-coming reckon with the same.
type Bag struct {
	Way       string               // WayFloat or WayDrip, as the person wants it
	Water     quantity.Volume      // in the bag
	From, To  quantity.Temperature // of the bag at first, and of the tank
	Tank      quantity.Volume      // net
	Drops     float64              // a second; of a drip
	Doublings int                  // how often a drip doubles the water; 0 is once
	Closed    quantity.Time        // since it was packed
	// What is not known of the water is nil. TAN is as nitrogen; where nobody
	// measured it, that of a long-shipped bag is taken.
	PH, TankPH *quantity.PH
	KH         *quantity.Hardness
	TAN        *quantity.Concentration
}

// bagAmmonia is taken for a bag whose ammonia nobody measures at home, as
// nitrogen. Judgement, from the long-shipped cases of bag_degassing.csv.
const bagAmmonia = quantity.Concentration(5)

// bagEnd is the CO2 that a bag ends with once it stands open. Judgement: above
// the balance with air, as tanks are. Source: bag_degassing.csv.
const bagEnd = quantity.Concentration(2)

// usualFloat is the common advice. Common practice, no source.
var usualFloat = [2]time.Duration{15 * time.Minute, 30 * time.Minute}

// phApart is how far the pH of two waters may be apart before it is said. Judgement.
const phApart = 0.5

// Float is how long the bag floats. Errors: *working.Refusal of "bag", "tank",
// "bag_temp" or "tank_temp".
func (b Bag) Float() (water.FloatPlan, *working.Trail, error) { return water.FloatBag(b.floating()) }

func (b Bag) floating() water.BagFloat {
	return water.BagFloat{Bag: b.Water, From: b.From, Tank: b.Tank, To: b.To}
}

// Drip is the drip with what is poured off between. Errors: *working.Refusal of
// "start", "drops_per_second" or "doublings".
func (b Bag) Drip() (water.DripSchedule, *working.Trail, error) {
	return water.DripStages(water.Drip{Start: b.Water, Drops: b.Drops, Doubling: max(1, b.Doublings)})
}

// shipped is the water as it is tested on opening; nil where pH or hardness is not known.
func (b Bag) shipped() *water.ShippedBag {
	if b.PH == nil || b.KH == nil || *b.KH <= 0 {
		return nil
	}
	s := water.ShippedBag{PH: *b.PH, KH: *b.KH, Temperature: b.From, TAN: bagAmmonia, CO2End: bagEnd}
	if b.TAN != nil {
		s.TAN = *b.TAN
	}
	return &s
}

// WayHome is which way suits the bag: gradual, or out of it at once. Errors:
// *working.Refusal of "closed", or of the water.
func (b Bag) WayHome() (water.Homecoming, []working.Finding, *working.Trail, error) {
	return water.WayHome(water.Trip{Closed: b.Closed, Bag: b.shipped()})
}

// floatCurve is the temperature of the bag with its likely range: as far as the
// slowest case needs, and past the common advice.
func (b Bag) floatCurve(one water.FloatTime) *Curve {
	end := max(float64(one.High)*1.15, usualFloat[1].Seconds()*1.4)
	samples, err := b.floating().Curve(quantity.Time(end), 121)
	if err != nil {
		return nil
	}
	c := &Curve{Name: "q.care.bag_temperature", Usual: usualFloat}
	for _, s := range samples {
		c.Time = append(c.Time, time.Duration(float64(s.At)*float64(time.Second)))
		c.Middle = append(c.Middle, s.Likely.Value())
		c.Low = append(c.Low, s.Low.Value())
		c.High = append(c.High, s.High.Value())
	}
	c.Marks = append(c.Marks, Mark{At: time.Duration(float64(one.Likely) * float64(time.Second)), Text: working.Find(working.Steady, "find.care.within").With("Within", one.Within.Value())})
	return c
}

// dripCurve is the share of the first water left: V/(V + Q·t) from one pouring to
// the next.
func (b Bag) dripCurve(p water.DripSchedule) *Curve {
	c := &Curve{Name: "q.care.bag_share"}
	const n = 60
	begin, left := 0.0, 1.0
	for _, st := range p.Stages {
		for i := range n + 1 {
			t := (float64(st.At) - begin) * float64(i) / n
			x := left * float64(b.Water) / (float64(b.Water) + float64(p.Flow)*t)
			c.Time = append(c.Time, time.Duration((begin+t)*float64(time.Second)))
			c.Middle = append(c.Middle, quantity.Ratio(x).Value())
		}
		begin, left = float64(st.At), float64(st.Original)
		if st.PourOff > 0 {
			c.Marks = append(c.Marks, Mark{At: time.Duration(begin * float64(time.Second)), Text: working.Find(working.Steady, "find.care.pour_off")})
		}
	}
	return c
}
