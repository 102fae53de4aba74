package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// DropVolume is one drop, 0.05 mL. Source: pharmacy convention, 20 drops a millilitre.
const DropVolume = quantity.Volume(0.05e-6)

// Drip is tank water that drips into the water the fish came in. The container
// fills up; nothing is taken out.
type Drip struct {
	Start    quantity.Volume `json:"start"`            // water with the fish, 0.05 to 50 L
	Drops    float64         `json:"drops_per_second"` // 0.1 to 50
	Doubling int             `json:"doublings"`        // how often the volume doubles, 1 to 4
	TDS      *DripTDS        `json:"tds,omitempty"`    // nil when not measured
}

// DripTDS is the dissolved solids of the two waters, 0 to 100 000 mg/L.
type DripTDS struct {
	Start quantity.Concentration `json:"start"` // in the water with the fish
	Tank  quantity.Concentration `json:"tank"`
}

// DripPlan is the answer of DripIn.
type DripPlan struct {
	Flow     quantity.Flow          `json:"flow"`
	Time     quantity.Time          `json:"time"`     // until all doublings are done
	Volume   quantity.Volume        `json:"volume"`   // in the container at the end
	Original quantity.Ratio         `json:"original"` // share of the first water left
	TDS      quantity.Concentration `json:"tds"`      // at the end; 0 when the TDS was not given
}

// DripIn plans a drip that doubles the water Doubling times: half of the first
// water is left after one, a quarter after two. A slow drip cools: the trail
// says to watch the container's temperature.
func DripIn(d Drip) (DripPlan, *working.Trail, error) {
	err := first(
		acceptVolume("start", "q.water.bag_water", d.Start, quantity.Litres(0.05), quantity.Litres(50)),
		working.InRange("drops_per_second", "q.water.drops", quantity.Count(d.Drops).Value(), quantity.Count(0.1).Value(), quantity.Count(50).Value()),
		working.InRange("doublings", "q.water.doublings", quantity.Count(d.Doubling).Value(), quantity.Count(1).Value(), quantity.Count(4).Value()))
	if err == nil && d.TDS != nil {
		err = first(acceptContent("start_tds", "q.water.tds", d.TDS.Start, largestContent),
			acceptContent("tank_tds", "q.water.tds_tank", d.TDS.Tank, largestContent))
	}
	if err != nil {
		return DripPlan{}, nil, err
	}
	times := math.Pow(2, float64(d.Doubling))
	p := DripPlan{Flow: FlowOfDrops(d.Drops), Volume: d.Start * quantity.Volume(times), Original: quantity.Ratio(1 / times)}
	p.Time = quantity.Time(float64(p.Volume-d.Start) / float64(p.Flow))
	t := working.New("ask.water.drip").
		Given("V_0", "q.water.bag_water", d.Start.Value()).
		Given("n", "q.water.drops", quantity.Count(d.Drops).Value()).
		Constant("v", "q.water.drop", DropVolume.Value(), srcDrop).
		Step("Q", "q.water.drip_flow", "Q = n·v", p.Flow.Value(), working.Algebra).
		Step("V", "q.water.drip_volume", "V = V_0·2^k", p.Volume.Value(), working.Algebra).
		Step("x", "q.water.original", "x = V_0/V", p.Original.Value(), working.Algebra)
	if d.TDS != nil {
		p.TDS = d.TDS.Tank + (d.TDS.Start-d.TDS.Tank)*quantity.Concentration(p.Original)
		t.Given("S_0", "q.water.tds", d.TDS.Start.Value()).Given("S_t", "q.water.tds_tank", d.TDS.Tank.Value()).
			Step("S", "q.water.tds_after", "S = S_t + (S_0 − S_t)·x", p.TDS.Value(), working.Algebra)
	}
	t.Step("t", "q.water.drip_time", "t = (V − V_0)/Q", p.Time.Value(), working.Algebra).
		Assume("assume.water.drop", "assume.water.drip_cools")
	return p, t, nil
}

// FlowOfDrops returns the flow of n drops a second.
func FlowOfDrops(n float64) quantity.Flow { return quantity.Flow(n * float64(DropVolume)) }

// DropsOf returns how many drops a second make a flow.
func DropsOf(q quantity.Flow) float64 { return float64(q) / float64(DropVolume) }

// DripFilling returns the share of the first water left after t in a container
// that fills up.
func DripFilling(start quantity.Volume, q quantity.Flow, t quantity.Time) (quantity.Ratio, *working.Trail, error) {
	tr, err := dripGivens(start, q, t)
	if err != nil {
		return 0, nil, err
	}
	x := quantity.Ratio(float64(start) / (float64(start) + float64(q)*float64(t)))
	return x, tr.Step("x", "q.water.original", "x = V_0/(V_0 + Q·t)", x.Value(), working.Algebra), nil
}

// DripConstant returns the share of the first water left after t in a container
// that runs over, or is emptied as fast as it fills.
func DripConstant(v quantity.Volume, q quantity.Flow, t quantity.Time) (quantity.Ratio, *working.Trail, error) {
	tr, err := dripGivens(v, q, t)
	if err != nil {
		return 0, nil, err
	}
	x := quantity.Ratio(math.Exp(-float64(q) * float64(t) / float64(v)))
	return x, tr.Step("x", "q.water.original", "x = e^(−Q·t/V)", x.Value(), working.Algebra), nil
}

// DripConstantTime returns how long a drip at constant volume takes to leave
// the share left of the first water (0.001 to 1).
func DripConstantTime(v quantity.Volume, q quantity.Flow, left quantity.Ratio) (quantity.Time, *working.Trail, error) {
	tr, err := dripGivens(v, q, 0)
	if err == nil {
		err = acceptRatio("left", "q.water.original", left, 0.001, 1)
	}
	if err == nil && q == 0 {
		err = working.Outside("flow", "q.water.drip_flow", q.Value(), FlowOfDrops(0.1).Value(), FlowOfDrops(1000).Value())
	}
	if err != nil {
		return 0, nil, err
	}
	t := quantity.Time(-math.Log(float64(left)) * float64(v) / float64(q))
	if !quantity.Finite(float64(t)) {
		return 0, nil, working.Outside("flow", "q.water.drip_flow", q.Value(), FlowOfDrops(0.1).Value(), FlowOfDrops(1000).Value())
	}
	return t, tr.Step("t", "q.water.drip_time", "t = −ln(x)·V/Q", t.Value(), working.Algebra), nil
}

func dripGivens(v quantity.Volume, q quantity.Flow, t quantity.Time) (*working.Trail, error) {
	err := first(acceptVolume("volume", "q.water.bag_water", v, quantity.Litres(0.05), quantity.Litres(50)),
		working.InRange("flow", "q.water.drip_flow", q.Value(), quantity.Flow(0).Value(), FlowOfDrops(1000).Value()),
		acceptTime("time", "q.water.drip_time", t, 0, 2*day))
	if err != nil {
		return nil, err
	}
	return working.New("ask.water.drip").Given("V_0", "q.water.bag_water", v.Value()).
		Given("Q", "q.water.drip_flow", q.Value()).Given("t", "q.water.drip_time", t.Value()), nil
}
