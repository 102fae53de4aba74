package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Change is a substance in the tank, in the water that comes in, and the share
// of the tank that is changed.
type Change struct {
	Now      quantity.Concentration `json:"now"`      // 0 to 100 000 mg/L
	Incoming quantity.Concentration `json:"incoming"` // in the new water
	Fraction quantity.Ratio         `json:"fraction"` // 0 to 1
}

func (c Change) accept() error {
	return first(acceptContent("now", "q.water.now", c.Now, largestContent),
		acceptContent("incoming", "q.water.incoming", c.Incoming, largestContent),
		acceptRatio("fraction", "q.water.fraction", c.Fraction, 0, 1))
}

func (c Change) trail(ask working.Key) *working.Trail {
	return working.New(ask).Given("C_0", "q.water.now", c.Now.Value()).
		Given("C_in", "q.water.incoming", c.Incoming.Value()).
		Given("f", "q.water.fraction", c.Fraction.Value())
}

// AfterChanges returns what is left after n equal changes (0 to 1000) with
// nothing added between them.
func AfterChanges(c Change, n int) (quantity.Concentration, *working.Trail, error) {
	err := first(c.accept(), working.InRange("changes", "q.water.changes", quantity.Count(n).Value(), quantity.Count(0).Value(), quantity.Count(1000).Value()))
	if err != nil {
		return 0, nil, err
	}
	r := c.Incoming + (c.Now-c.Incoming)*quantity.Concentration(math.Pow(1-float64(c.Fraction), float64(n)))
	return r, c.trail("ask.water.after_change").Given("n", "q.water.changes", quantity.Count(n).Value()).
		Step("C_n", "q.water.after", "C_n = C_in + (C_0 − C_in)·(1 − f)^n", r.Value(), working.Algebra), nil
}

// FractionFor returns the share of the tank to change at once to bring now to
// target. It refuses a target that new water cannot reach.
func FractionFor(now, incoming, target quantity.Concentration) (quantity.Ratio, *working.Trail, error) {
	c := Change{Now: now, Incoming: incoming}
	if err := first(c.accept(), reachable(now, incoming, target, true)); err != nil {
		return 0, nil, err
	}
	f := quantity.Ratio(0)
	if now != target {
		f = quantity.Ratio((now - target) / (now - incoming))
	}
	return f, c.trail("ask.water.fraction_for").Given("C_t", "q.water.target", target.Value()).
		Step("f", "q.water.fraction", "f = (C_0 − C_t)/(C_0 − C_in)", f.Value(), working.Algebra), nil
}

// ChangesFor returns how many changes of a fraction (0.01 to 0.99) bring the
// tank to target: the exact number and the whole changes that it takes.
func ChangesFor(c Change, target quantity.Concentration) (exact float64, whole int, tr *working.Trail, err error) {
	err = first(c.accept(), acceptRatio("fraction", "q.water.fraction", c.Fraction, 0.01, 0.99),
		reachable(c.Now, c.Incoming, target, false))
	if err != nil {
		return 0, 0, nil, err
	}
	if c.Now != target {
		exact = math.Log(float64((target-c.Incoming)/(c.Now-c.Incoming))) / math.Log1p(-float64(c.Fraction))
	}
	whole = int(math.Ceil(exact - 1e-9))
	return exact, whole, c.trail("ask.water.changes_for").Given("C_t", "q.water.target", target.Value()).
		Step("n", "q.water.changes", "n = ln((C_t − C_in)/(C_0 − C_in))/ln(1 − f)", quantity.Count(exact).Value(), working.Algebra), nil
}

// reachable refuses a target that does not lie between now and incoming; the
// incoming value itself is reached only by changing everything at once.
func reachable(now, incoming, target quantity.Concentration, atOnce bool) error {
	low, high := min(now, incoming), max(now, incoming)
	if err := working.InRange("target", "q.water.target", target.Value(), low.Value(), high.Value()); err != nil {
		return err
	}
	if !atOnce && target == incoming && target != now {
		return working.Outside("target", "q.water.target", target.Value(), low.Value(), high.Value())
	}
	return nil
}

// Cycle is the steady swing of a substance that rises between regular changes.
type Cycle struct {
	Peak   quantity.Concentration `json:"peak"`   // just before a change
	Trough quantity.Concentration `json:"trough"` // just after
}

// SteadyCycle returns where a substance that grows by rate (0 to 1000 mg/L/d)
// settles when a fraction (0.01 to 1) is changed every interval (1 h to 1 year).
func SteadyCycle(incoming quantity.Concentration, rate quantity.Rate, every quantity.Time, f quantity.Ratio) (Cycle, *working.Trail, error) {
	err := first(acceptContent("incoming", "q.water.incoming", incoming, largestContent),
		working.InRange("rate", "q.water.rate", rate.Value(), quantity.Rate(0).Value(), quantity.Rate(1000).Value()),
		acceptTime("every", "q.water.interval", every, hour, 366*day),
		acceptRatio("fraction", "q.water.fraction", f, 0.01, 1))
	if err != nil {
		return Cycle{}, nil, err
	}
	grown := quantity.Concentration(float64(rate) * float64(every/day))
	c := Cycle{Peak: incoming + grown/quantity.Concentration(f), Trough: incoming + grown*quantity.Concentration((1-f)/f)}
	return c, working.New("ask.water.cycle").
		Given("C_in", "q.water.incoming", incoming.Value()).
		Given("g", "q.water.rate", rate.Value()).
		Given("D", "q.water.interval", every.Value()).
		Given("f", "q.water.fraction", f.Value()).
		Step("C_low", "q.water.trough", "C_low = C_in + g·D·(1 − f)/f", c.Trough.Value(), working.Algebra).
		Step("C_high", "q.water.peak", "C_high = C_in + g·D/f", c.Peak.Value(), working.Algebra), nil
}

// FlowThrough returns what is left when new water runs in and old runs over at
// flow (0 to 1 m³/s) for a time (0 to 1 year) in a well-mixed tank.
// Change.Fraction is not used.
func FlowThrough(c Change, flow quantity.Flow, tank quantity.Volume, t quantity.Time) (quantity.Concentration, *working.Trail, error) {
	replaced, tr, err := Replaced(flow, tank, t)
	if err == nil {
		err = c.accept()
	}
	if err != nil {
		return 0, nil, err
	}
	r := c.Incoming + (c.Now-c.Incoming)*quantity.Concentration(1-replaced)
	return r, tr.Given("C_0", "q.water.now", c.Now.Value()).Given("C_in", "q.water.incoming", c.Incoming.Value()).
		Step("C", "q.water.after", "C = C_in + (C_0 − C_in)·(1 − x)", r.Value(), working.Algebra), nil
}

// Replaced returns the share of the water that a steady flow has replaced.
func Replaced(flow quantity.Flow, tank quantity.Volume, t quantity.Time) (quantity.Ratio, *working.Trail, error) {
	err := first(working.InRange("flow", "q.water.flow", flow.Value(), quantity.Flow(0).Value(), quantity.Flow(1).Value()),
		acceptVolume("tank", "q.water.tank_volume", tank, smallestTank, largestTank),
		acceptTime("time", "q.water.flow_time", t, 0, 366*day))
	if err != nil {
		return 0, nil, err
	}
	x := quantity.Ratio(-math.Expm1(-float64(flow) * float64(t) / float64(tank)))
	return x, working.New("ask.water.flow_through").
		Given("Q", "q.water.flow", flow.Value()).
		Given("V", "q.water.tank_volume", tank.Value()).
		Given("t", "q.water.flow_time", t.Value()).
		Step("x", "q.water.replaced", "x = 1 − e^(−Q·t/V)", x.Value(), working.Algebra).
		Assume("assume.water.well_mixed"), nil
}

// EvaporationFactor returns by how much dissolved substances grow when a share
// e (0 to 0.9) of the water evaporates and is not topped up.
func EvaporationFactor(e quantity.Ratio) (quantity.Ratio, *working.Trail, error) {
	if err := acceptRatio("evaporated", "q.water.evaporated", e, 0, 0.9); err != nil {
		return 0, nil, err
	}
	f := 1 / (1 - e)
	return f, working.New("ask.water.evaporation").Given("e", "q.water.evaporated", e.Value()).
		Step("k", "q.water.concentrates", "k = 1/(1 − e)", f.Value(), working.Algebra).
		Assume("assume.water.top_up"), nil
}
