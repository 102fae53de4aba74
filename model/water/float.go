package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Heat passes from a floating bag through its film and two layers of still
// water. The overall coefficient, W/(m²·K). // judgement; the one published
// figure, about half an hour for a 4 to 5 K gap (Lim et al. 2003), gives 71 to 84.
const (
	bagU     = 80.0
	bagULow  = 50.0 // a double bag, still water
	bagUHigh = 150.0
	// Wetted area of a floating bag, m² for V^(2/3) with V in litres. // judgement (geometry)
	bagArea = 0.045
	// Heat a litre of water holds, J/K. Source: IAPWS-95, 4181 J/(kg·K) and 0.9975 kg/L near 23 °C.
	heatOfLitre = 4181 * 0.9975
)

// BagFloat is a closed bag that floats in a tank to take on its temperature.
type BagFloat struct {
	Bag  quantity.Volume      `json:"bag"`      // water in the bag, 0.1 to 20 L
	From quantity.Temperature `json:"bag_temp"` // in the bag at the start, 0 to 40 °C
	Tank quantity.Volume      `json:"tank"`     // 2 L or more, and more than the bag
	To   quantity.Temperature `json:"tank_temp"`
}

func (b BagFloat) accept() error {
	return first(
		acceptVolume("bag", "q.water.bag_water", b.Bag, quantity.Litres(0.1), quantity.Litres(20)),
		acceptVolume("tank", "q.water.tank_volume", b.Tank, max(quantity.Litres(2), b.Bag), largestTank),
		acceptTemperature("bag_temp", b.From, 0, 40), acceptTemperature("tank_temp", b.To, 0, 40))
}

// FloatTime is how long until bag and tank are within a difference of each other.
type FloatTime struct {
	Within quantity.TemperatureDifference `json:"within"`
	Low    quantity.Time                  `json:"low"`
	Likely quantity.Time                  `json:"likely"`
	High   quantity.Time                  `json:"high"`
}

// FloatPlan is the answer of FloatBag.
type FloatPlan struct {
	Times        []FloatTime          `json:"times"` // within 2, 1 and 0.5 K, in this order
	TimeConstant quantity.Time        `json:"time_constant"`
	Final        quantity.Temperature `json:"final"` // where bag and tank meet, with no heater
}

// FloatBag returns how long a bag floats until it is within 2, 1 and 0.5 K of
// the tank. Rule of thumb: the coefficient of a bag is known to a factor of
// two, so each time is a range. A small tank cools or warms with the bag.
func FloatBag(b BagFloat) (FloatPlan, *working.Trail, error) {
	if err := b.accept(); err != nil {
		return FloatPlan{}, nil, err
	}
	gap := b.From.Minus(b.To)
	p := FloatPlan{TimeConstant: b.tau(bagU), Final: b.final()}
	for _, within := range []quantity.TemperatureDifference{2, 1, 0.5} {
		at := func(u float64) quantity.Time { // no gap: the logarithm is −∞ and the time zero
			return quantity.Time(math.Max(0, float64(b.tau(u))*math.Log(math.Abs(float64(gap/within)))))
		}
		p.Times = append(p.Times, FloatTime{within, at(bagUHigh), at(bagU), at(bagULow)})
	}
	one := p.Times[1]
	u := func(x float64) quantity.Value { return quantity.Value{Kind: quantity.KindTransmittance, X: x} }
	t := working.New("ask.water.float").As(working.RuleOfThumb).
		Given("V_b", "q.water.bag_water", b.Bag.Value()).
		Given("T_b", "q.water.bag_temperature", b.From.Value()).
		Given("V_t", "q.water.tank_volume", b.Tank.Value()).
		Given("T_t", "q.water.tank_temperature", b.To.Value()).
		Constant("U", "q.water.transmittance", u(bagU), working.Ours).
		Step("τ", "q.water.time_constant", "τ = c·V_b/(U·A)·V_t/(V_t + V_b), A = 0.045·V_b^⅔", p.TimeConstant.Value(), srcLim).
		Step("T_∞", "q.water.final_temperature", "T_∞ = (V_b·T_b + V_t·T_t)/(V_b + V_t)", p.Final.Value(), working.Algebra).
		Step("t", "q.water.float_time", "t = τ·ln(|T_b − T_t|/1 K)", one.Likely.Value(), working.Algebra).
		Between(one.Low.Value(), one.High.Value(), "assume.water.bag_u").
		Assume("assume.water.bag_u", "assume.water.no_heater")
	return p, t, nil
}

// tau is the time constant of the difference between bag and tank.
func (b BagFloat) tau(u float64) quantity.Time {
	return bagTau(b.Bag, u) * quantity.Time(b.Tank/(b.Tank+b.Bag))
}

// bagTau is the time constant in a tank so large that it keeps its temperature.
func bagTau(bag quantity.Volume, u float64) quantity.Time {
	v := bag.Litres()
	return quantity.Time(v * heatOfLitre / (u * bagArea * math.Pow(v, 2.0/3)))
}

func (b BagFloat) final() quantity.Temperature {
	return quantity.Temperature((float64(b.Bag)*float64(b.From) + float64(b.Tank)*float64(b.To)) / float64(b.Bag+b.Tank))
}

// FloatSample is one point of the curve of a floating bag: its temperature as
// likely, and the lowest and the highest it may be.
type FloatSample struct {
	At     quantity.Time        `json:"at"`
	Likely quantity.Temperature `json:"likely"`
	Low    quantity.Temperature `json:"low"`
	High   quantity.Temperature `json:"high"`
}

// Curve samples the temperature of the bag at n even steps from 0 to until
// (1 minute to 24 h, n 2 to 10 000), for a chart.
func (b BagFloat) Curve(until quantity.Time, n int) ([]FloatSample, error) {
	err := first(b.accept(), acceptTime("until", "q.water.float_time", until, minute, day),
		working.InRange("samples", "q.water.samples", quantity.Count(n).Value(), quantity.Count(2).Value(), quantity.Count(10_000).Value()))
	if err != nil {
		return nil, err
	}
	end := b.final()
	at := func(t quantity.Time, u float64) quantity.Temperature {
		return end + (b.From-end)*quantity.Temperature(math.Exp(-float64(t/b.tau(u))))
	}
	out := make([]FloatSample, n)
	for i := range out {
		t := until * quantity.Time(i) / quantity.Time(n-1)
		slow, fast := at(t, bagULow), at(t, bagUHigh)
		out[i] = FloatSample{t, at(t, bagU), min(slow, fast), max(slow, fast)}
	}
	return out, nil
}
