package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// DripStage is a moment of a drip at which the container holds twice what it
// began with.
type DripStage struct {
	At       quantity.Time   `json:"at"`       // from the start
	Holds    quantity.Volume `json:"holds"`    // in the container then
	PourOff  quantity.Volume `json:"pour_off"` // before the drip goes on; 0 at the last stage
	Original quantity.Ratio  `json:"original"` // share of the first water left
}

// DripSchedule is the answer of DripStages.
type DripSchedule struct {
	Flow     quantity.Flow   `json:"flow"`
	Time     quantity.Time   `json:"time"`  // until the last stage
	Holds    quantity.Volume `json:"holds"` // the most that the container holds
	Original quantity.Ratio  `json:"original"`
	Stages   []DripStage     `json:"stages"`
}

// DripStages plans a drip in a container that is poured down to half whenever
// it holds twice what it began with: each stage halves what is left of the
// first water, and a small container does. The same as DripIn for one doubling.
// Its TDS is not used. Errors: as DripIn.
func DripStages(d Drip) (DripSchedule, *working.Trail, error) {
	d.TDS = nil
	if _, _, err := DripIn(d); err != nil {
		return DripSchedule{}, nil, err
	}
	flow, most := FlowOfDrops(d.Drops), 2*d.Start
	each := quantity.Time(float64(d.Start) / float64(flow))
	s := DripSchedule{Flow: flow, Time: each * quantity.Time(d.Doubling), Holds: most, Original: halved(d.Doubling)}
	for i := range d.Doubling {
		st := DripStage{At: each * quantity.Time(i+1), Holds: most, Original: halved(i + 1)}
		if i < d.Doubling-1 {
			st.PourOff = d.Start
		}
		s.Stages = append(s.Stages, st)
	}
	return s, working.New("ask.water.drip").
		Given("V_0", "q.water.bag_water", d.Start.Value()).
		Given("n", "q.water.drops", quantity.Count(d.Drops).Value()).
		Given("k", "q.water.doublings", quantity.Count(d.Doubling).Value()).
		Constant("v", "q.water.drop", DropVolume.Value(), srcDrop).
		Step("Q", "q.water.drip_flow", "Q = n·v", flow.Value(), working.Algebra).
		Step("V", "q.water.drip_volume", "V = 2·V_0", most.Value(), working.Algebra).
		Step("x", "q.water.original", "x = 0.5^k", s.Original.Value(), working.Algebra).
		Step("t", "q.water.drip_time", "t = k·V_0/Q", s.Time.Value(), working.Algebra).
		Assume("assume.water.drop", "assume.water.drip_cools", "assume.water.poured"), nil
}

func halved(times int) quantity.Ratio { return quantity.Ratio(math.Pow(0.5, float64(times))) }
