package rounds

import (
	"math"

	"example.org/driploop/model/nitrogen"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// The lines of a routine change of water.
const (
	// Nitrate as the ion, mg/L. Source: OATA Water Quality Criteria: at most 40,
	// and at most 50 above the tap.
	nitrateMost     = quantity.Concentration(40)
	nitrateOverTap  = quantity.Concentration(50)
	shareLeast      = 0.20 // common practice, no source: 20 to 25 % every two to four weeks
	shareRoutine    = 0.25 // common practice, no source
	shareMost       = 0.30 // at once, as routine. Source: common practice, 25 to 30 %
	shareStep       = 0.05 // a round figure to pour by. Judgement
	shortestRoutine = 7    // days
)

// routineDays are the intervals that are tried, the longest first. Common
// practice, no source: every two to four weeks; a week where that is too long.
var routineDays = []int{28, 21, 14, shortestRoutine}

// Basis is what the size of the water change rests on.
type Basis struct {
	Net     quantity.Volume        // 1 L to 100 000 L
	Feed    quantity.MassRate      // dry feed eaten, 0 to 100 g/d
	Protein quantity.Ratio         // of the feed, 0.1 to 0.7
	Tap     quantity.Concentration // nitrate of the tap water, as the ion, 0 to 100 mg/L
}

// ChangePlan is how much water to change how often.
type ChangePlan struct {
	Every  int // days: 28, 21, 14 or 7
	Share  quantity.Ratio
	Volume quantity.Volume
	Peak   quantity.Concentration // nitrate just before a change, as the ion, once steady
	Most   quantity.Concentration // the limit it is held below
	Enough bool                   // false when even the largest weekly change lets it rise over Most
}

// PlanChange finds the longest interval at which a routine share holds nitrate
// below the limit once it swings steadily. Plants take up some: without them the
// figure is on the safe side. Refusals: a value outside Basis; a tap at or over
// the limit, which no change can mend.
func PlanChange(b Basis) (ChangePlan, *working.Trail, error) {
	load, _, err := nitrogen.LoadOf(b.Feed, b.Protein, b.Net)
	if err != nil {
		return ChangePlan{}, nil, err
	}
	if err := working.InRange("tap", "q.rounds.tap", b.Tap.Value(), quantity.Concentration(0).Value(), quantity.Concentration(100).Value()); err != nil {
		return ChangePlan{}, nil, err
	}
	most := min(nitrateMost, b.Tap+nitrateOverTap)
	if b.Tap >= most {
		return ChangePlan{}, nil, working.Refuse("tap", "refuse.rounds.tap_over")
	}
	perDay := quantity.Rate(float64(load.NitrateWeek) / 7)
	p := ChangePlan{Most: most}
	var need float64
	for _, days := range routineDays {
		need = float64(perDay) * float64(days) / float64(most-b.Tap)
		p.Every = days
		if need <= shareRoutine {
			break
		}
	}
	share := math.Ceil(math.Max(need, shareLeast)/shareStep-1e-9) * shareStep
	p.Share = quantity.Ratio(math.Min(share, shareMost))
	p.Enough = need <= shareMost
	p.Volume = quantity.Volume(float64(b.Net) * float64(p.Share))
	every := quantity.Time(float64(p.Every) * 86400)
	cycle, _, err := water.SteadyCycle(b.Tap, perDay, every, p.Share)
	if err != nil {
		return ChangePlan{}, nil, err
	}
	p.Peak = cycle.Peak
	t := working.New("ask.rounds.change").
		Given("V", "q.care.net_volume", b.Net.Value()).
		Given("F", "q.nitrogen.feed", b.Feed.Value()).
		Given("p", "q.nitrogen.protein", b.Protein.Value()).
		Given("C_in", "q.rounds.tap", b.Tap.Value()).
		Constant("C_max", "q.rounds.nitrate_most", most.Value(), srcOATA).
		Step("g", "q.rounds.nitrate_day", "g = 4.427·0.092·F·p/V", perDay.Value(), srcTimmons).
		Step("D", "q.water.interval", "D = max{7; 14; 21; 28 d | f ≤ 0.25}", every.Value(), working.Trade).
		Step("f", "q.water.fraction", "f = ⌈20·g·D/(C_max − C_in)⌉/20, 0.20 ≤ f ≤ 0.30", p.Share.Value(), working.Algebra).
		Step("C_high", "q.water.peak", "C_high = C_in + g·D/f", p.Peak.Value(), working.Algebra).
		Step("V_c", "q.rounds.change_volume", "V_c = f·V", p.Volume.Value(), working.Algebra).
		Assume("assume.nitrogen.no_plants", "assume.nitrogen.eaten", "assume.rounds.change_habit")
	return p, t, nil
}

// The works that this package relies on.
var (
	srcOATA    = working.Register(working.Source{ID: "oata", Cite: "OATA Water Quality Criteria (secondary copy)", Origin: working.Published})
	srcTimmons = working.Register(working.Source{ID: "timmons_ebeling", Cite: "Timmons & Ebeling, Recirculating Aquaculture (secondary copy)", Origin: working.Published})
)
