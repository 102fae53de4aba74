package heat

import (
	"strconv"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Plug is one appliance of the tank.
type Plug struct {
	Power quantity.Power // on its label, 0 to 3000 W
	Daily quantity.Time  // how long it runs in a day, 0 to 24 h
	Share quantity.Ratio // of that time it draws its power: 1, less for a heater
}

// Outlet is the supply that one extension block hangs on.
type Outlet uint8

// The outlets.
const (
	Outlet230V Outlet = iota // 230 V, 10 A
	Outlet120V               // 120 V, 15 A, 80 % for continuous load
)

// PlugsResult is all appliances together.
type PlugsResult struct {
	AllOn    quantity.Power // everything at once
	Mean     quantity.Power // over day and night
	Sockets  int
	Cost     CostResult
	Check    working.Check // AllOn against what the outlet carries
	Trail    *working.Trail
	Findings []working.Finding
}

// limit is what an extension block carries for hours. Source: from memory, usual
// ratings; at 120 V 80 % of 15 A for a continuous load.
func (o Outlet) limit() quantity.Power {
	if o == Outlet120V {
		return 1440
	}
	return 2300
}

// heavyLoad is the share of the outlet's rating from which the load is worth a
// note. Source: judgement.
const heavyLoad = 0.8

// Plugs adds up the appliances on one outlet: lamp, heater, filter, air pump.
// Errors: *working.Refusal for plug_power, plug_daily, plug_share, plugs (none, or
// more than 50), outlet, power (a mean above 20 kW), tariff.
func Plugs(list []Plug, o Outlet, tariff quantity.Value) (PlugsResult, error) {
	n := quantity.Count(len(list))
	if err := first(
		working.InRange("plugs", "q.heat.sockets", n.Value(), quantity.Count(1).Value(), quantity.Count(50).Value()),
		tariffIn(tariff)); err != nil {
		return PlugsResult{}, err
	}
	if o > Outlet120V {
		return PlugsResult{}, working.Refuse("outlet", "refuse.missing")
	}
	r := PlugsResult{Sockets: len(list)}
	t := working.New("ask.heat.plugs").Given("n", "q.heat.sockets", n.Value())
	for i, p := range list {
		if err := p.check(); err != nil {
			return PlugsResult{}, err
		}
		r.AllOn += p.Power
		r.Mean += p.mean()
		n := strconv.Itoa(i + 1)
		t.Given("P_"+n, "q.heat.plug_power", p.Power.Value()).
			Given("t_"+n, "q.heat.plug_daily", p.Daily.Value()).
			Given("s_"+n, "q.heat.plug_share", p.Share.Value())
	}
	cost, err := RunningCost(r.Mean, tariff)
	if err != nil {
		return PlugsResult{}, err
	}
	r.Cost = cost
	r.Trail = t.Constant("P_o", "q.heat.outlet_limit", o.limit().Value(), srcOutlet).
		Step("P_m", "q.heat.mean_power", "P_m = ΣP_i·t_i·s_i/24 h", r.Mean.Value(), working.Algebra).
		Step("E", "q.heat.energy_year", "E = P_m·365·24 h", cost.Energy.Value(), working.Algebra).
		Step("P", "q.heat.all_on", "P = ΣP_i", r.AllOn.Value(), working.Algebra)
	r.Check = working.Graded(working.Check{Name: "q.heat.outlet_check", Use: float64(r.AllOn / o.limit()),
		Demand: r.AllOn.Value(), Capacity: o.limit().Value(), Trail: r.Trail}, heavyLoad)
	if r.Check.State != working.Steady {
		f := working.Find(r.Check.State, "find.heat.plugs_heavy").With("Power", r.AllOn.Value()).With("Limit", o.limit().Value())
		r.Check.Finding = &f
		r.Findings = append(r.Findings, f)
	}
	r.Findings = append(r.Findings, working.Find(working.Steady, "find.heat.sockets").With("Sockets", n.Value()))
	return r, nil
}

func (p Plug) mean() quantity.Power {
	return quantity.Power(float64(p.Power) * float64(p.Daily) / day * float64(p.Share))
}

func (p Plug) check() error {
	return first(
		working.InRange("plug_power", "q.heat.plug_power", p.Power.Value(), quantity.Power(0).Value(), quantity.Power(3000).Value()),
		working.InRange("plug_daily", "q.heat.plug_daily", p.Daily.Value(), quantity.Time(0).Value(), quantity.Time(day).Value()),
		working.InRange("plug_share", "q.heat.plug_share", p.Share.Value(), quantity.Ratio(0).Value(), quantity.Ratio(1).Value()))
}
