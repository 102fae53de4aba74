package nitrogen

import (
	"math"
	"sort"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Start is a tank about to be run. The zero value of Oxygen or CO2 takes the
// usual of a stirred tank, 7.5 and 3 mg/L.
type Start struct {
	State       State                  `json:"state"`
	Temperature quantity.Temperature   `json:"temperature"` // 15 to 30 °C
	Oxygen      quantity.Concentration `json:"oxygen,omitzero"`
	CO2         quantity.Concentration `json:"co2,omitzero"`
	Production  Production             `json:"production"` // ammonia from feeding, from the start
}

// Phase says where in the schedule a sample stands.
type Phase string

// The phases.
const (
	AtStart Phase = "start"
	OnGrid  Phase = "grid"
	Before  Phase = "pre"  // just before the events of that time
	After   Phase = "post" // just after them
)

// Sample is the tank at a time of a run.
type Sample struct {
	At    quantity.Time          `json:"at"`
	Phase Phase                  `json:"phase"`
	State State                  `json:"state"`
	PH    quantity.PH            `json:"ph"`
	NH3N  quantity.Concentration `json:"nh3_n"` // un-ionised ammonia as nitrogen
}

// Balance is the nitrogen that went in and out, mg/L. What the water holds at
// the end is what it held at the start plus all three.
type Balance struct {
	Produced  quantity.Concentration `json:"produced"`
	Dosed     quantity.Concentration `json:"dosed"`
	Exchanged quantity.Concentration `json:"exchanged"` // by water changes; below zero when they take out
}

// Result is a run.
type Result struct {
	Samples  []Sample          `json:"samples"`
	End      State             `json:"end"`
	Balance  Balance           `json:"balance"`
	Findings []working.Finding `json:"findings,omitempty"` // where the run leaves the model's range, or the KH gives out
}

// step is the length of a step of the solver, d: an hour. A tank with more
// bacteria takes shorter ones.
const step = 1.0 / 24

// Run follows a tank from its start until a time (up to 400 days) through the
// events, sampling every sampleStep (from 15 minutes) and before and after each
// event. Events need no order; those at one time happen in the order given.
//
// Errors: *working.Refusal for a figure, a state or an event out of range.
func Run(p Params, s Start, events []Event, until, sampleStep quantity.Time) (Result, *working.Trail, error) {
	k, evs, err := prepareRun(p, s, events, until, sampleStep)
	if err != nil {
		return Result{}, nil, err
	}
	r := Result{Samples: make([]Sample, 0, int(until/sampleStep)+2*len(evs)+2)}
	k.sample(&r, 0, AtStart)
	now, grid := 0.0, 1
	end, each := float64(until)/secondsADay, float64(sampleStep)/secondsADay
	for {
		next := math.Min(float64(grid)*each, end)
		due := len(evs) > 0 && float64(evs[0].At)/secondsADay <= next+1e-9
		if due {
			next = math.Max(now, float64(evs[0].At)/secondsADay)
		}
		if err := k.advance(next - now); err != nil {
			return Result{}, nil, err
		}
		now = next
		if due {
			if evs, err = k.happen(&r, evs, now); err != nil {
				return Result{}, nil, err
			}
		} else {
			k.sample(&r, now, OnGrid)
		}
		for float64(grid)*each <= now+1e-9 {
			grid++
		}
		if now >= end-1e-9 && (len(evs) == 0 || float64(evs[0].At)/secondsADay > end+1e-9) {
			break
		}
	}
	r.End, r.Balance, r.Findings = k.y.state(), k.bal, remarks(r.Samples)
	return r, runTrail(s, until, r), nil
}

const secondsADay = 86400

func prepareRun(p Params, s Start, events []Event, until, sampleStep quantity.Time) (*tank, []Event, error) {
	if s.Oxygen == 0 {
		s.Oxygen = usualOxygen
	}
	if s.CO2 == 0 {
		s.CO2 = usualCO2
	}
	set := Setting{Temperature: &s.Temperature, CO2: &s.CO2, Oxygen: &s.Oxygen}
	err := first(p.Accept(), s.State.accept(), set.accept(), s.Production.accept(),
		working.InRange("until", "q.nitrogen.until", until.Value(), quantity.Time(900).Value(), quantity.Time(400*secondsADay).Value()),
		working.InRange("sample_step", "q.nitrogen.sample_step", sampleStep.Value(), quantity.Time(900).Value(), quantity.Time(400*secondsADay).Value()))
	if err != nil {
		return nil, nil, err
	}
	for _, e := range events {
		if e.Do == nil {
			return nil, nil, working.Refuse("event", "refuse.missing")
		}
		err := first(working.InRange("at", "q.nitrogen.at", e.At.Value(), quantity.Time(0).Value(), until.Value()), e.Do.accept())
		if err != nil {
			return nil, nil, err
		}
	}
	evs := append([]Event(nil), events...)
	sort.SliceStable(evs, func(i, j int) bool { return evs[i].At < evs[j].At })
	k := &tank{p: p, y: s.State.vector()}
	return k, evs, first(s.Production.apply(k), set.apply(k))
}

// happen samples, applies every event of this moment, and samples again.
func (k *tank) happen(r *Result, evs []Event, now float64) ([]Event, error) {
	k.sample(r, now, Before)
	for len(evs) > 0 && float64(evs[0].At)/secondsADay <= now+1e-9 {
		if err := evs[0].Do.apply(k); err != nil {
			return nil, err
		}
		if err := k.y.state().accept(); err != nil {
			return nil, err
		}
		evs = evs[1:]
	}
	k.sample(r, now, After)
	return evs, nil
}

func (k *tank) sample(r *Result, now float64, ph Phase) {
	a := quantity.Concentration(k.freeAmmonia(math.Max(0, k.y[0]), k.y[5]))
	r.Samples = append(r.Samples, Sample{quantity.Time(now * secondsADay), ph, k.y.state(), quantity.PH(k.ph(k.y[5])), a})
}

// advance moves the tank by some days in even steps of the classical
// Runge-Kutta method of order four, which keeps the sum of nitrogen to rounding.
func (k *tank) advance(days float64) error {
	if days <= 0 {
		return nil
	}
	for left := days; left > 1e-12; {
		h := math.Min(left, k.stepLength())
		if n := math.Ceil(left / h); n < 1e6 {
			h = left / n // even steps, none of them tiny
		}
		k.y = k.rk4(h)
		k.settle()
		k.bal.Produced += quantity.Concentration(k.production * h)
		left -= h
		for _, x := range k.y {
			if !quantity.Finite(x) {
				return working.Refuse("state", "refuse.not_a_number")
			}
		}
	}
	return nil
}

// stepLength keeps the fastest uptake, that of a scarce food, well inside the
// region where the method is stable.
func (k *tank) stepLength() float64 {
	fastest := math.Max(k.muA*1.13*k.y[3]/(k.p.YieldA*k.p.HalfA), k.muN*1.13*k.y[4]/(k.p.YieldN*k.p.HalfN))
	return math.Min(step, 0.7/math.Max(fastest, 1e-9))
}

func (k *tank) rk4(h float64) vector {
	y := k.y
	k1 := k.slope(&y)
	y2 := add(&y, &k1, h/2)
	k2 := k.slope(&y2)
	y3 := add(&y, &k2, h/2)
	k3 := k.slope(&y3)
	y4 := add(&y, &k3, h)
	k4 := k.slope(&y4)
	for i := range y {
		y[i] += h / 6 * (k1[i] + 2*k2[i] + 2*k3[i] + k4[i])
	}
	return y
}

func add(y, d *vector, h float64) vector {
	var out vector
	for i := range out {
		out[i] = y[i] + h*d[i]
	}
	return out
}

// settle lifts a rounding below zero to zero, moving the nitrogen along the
// chain so that none is made.
func (k *tank) settle() {
	y := &k.y
	if y[0] < 0 {
		y[1], y[0] = y[1]+y[0], 0
	}
	if y[1] < 0 {
		y[2], y[1] = y[2]+y[1], 0
	}
	y[3], y[4], y[5] = math.Max(0, y[3]), math.Max(0, y[4]), math.Max(0, y[5])
}

func runTrail(s Start, until quantity.Time, r Result) *working.Trail {
	return working.New("ask.nitrogen.run").As(working.Ranged).
		Given("T", "q.nitrogen.temperature", s.Temperature.Value()).
		Given("P", "q.nitrogen.production", s.Production.Rate.Value()).
		Given("t", "q.nitrogen.until", until.Value()).
		Step("A", "q.nitrogen.ammonia", "dA/dt = P − r_A/Y_A", r.End.Ammonia.Value(), srcHiatt).
		Step("B", "q.nitrogen.nitrite", "dB/dt = r_A/Y_A − r_N/Y_N", r.End.Nitrite.Value(), srcHiatt).
		Step("C", "q.nitrogen.nitrate", "dC/dt = r_N/Y_N", r.End.Nitrate.Value(), srcHiatt).
		Cites(srcVannecke, srcHenze, srcSin, working.Ours).
		Within("q.nitrogen.temperature", quantity.Temperature(15).Value(), quantity.Temperature(30).Value()).
		Within("q.nitrogen.ph", quantity.PH(6).Value(), quantity.PH(9).Value()).
		Assume("assume.nitrogen.bacteria_unknown", "assume.nitrogen.no_plants", "assume.nitrogen.tests_decide")
}
