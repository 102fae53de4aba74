package fish

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// Quarantine is where new animals are watched.
type Quarantine string

// The ways. For a first tank the tank itself is the quarantine: one group, then
// three weeks of waiting.
const (
	InTheTank Quarantine = "in_the_tank"
	Apart     Quarantine = "apart" // four weeks in a tank of their own
)

// Quarantines lists the ways.
func Quarantines() []Quarantine { return []Quarantine{InTheTank, Apart} }

const (
	// A purchase is at most this share of the load in the end, one every two weeks.
	// // common practice
	stepShare = 0.25
	paceApart = 14 * 24 * time.Hour
	// Source: 3 to 4 weeks are usual; no ideal period is established
	paceInTank     = 21 * 24 * time.Hour
	quarantineTime = 28 * 24 * time.Hour
	kindsAStep     = 2
	mostSteps      = 60
)

// Order is stock that a person has and stock that they want.
type Order struct {
	Home       Home          `json:"home"`
	Now        []Lot         `json:"now,omitempty"`
	Wish       []Lot         `json:"wish"`
	Tests      []water.Tests `json:"tests,omitempty"` // visits of late, in any order
	At         time.Time     `json:"at"`              // today
	Ready      *time.Time    `json:"ready,omitempty"` // when the filter is expected to keep up: see nitrogen.Maturing
	Last       *time.Time    `json:"last,omitempty"`  // when the last animals came in
	Quarantine Quarantine    `json:"quarantine"`
}

// Purchase is one step of a plan.
type Purchase struct {
	Lots  []Lot          `json:"lots"`
	Share quantity.Ratio `json:"share"` // of the load in the end
	Buy   time.Time      `json:"buy"`   // predicted; a quarantine apart begins then
	In    time.Time      `json:"in"`    // predicted; tests decide
	Open  bool           `json:"open"`  // its gate is open now: only ever the first
}

// Plan is stock brought home over weeks.
type Plan struct {
	Steps    []Purchase        `json:"steps"`
	Done     time.Time         `json:"done"` // predicted for the last step
	Verdict  Verdict           `json:"verdict"`
	Findings []working.Finding `json:"-"`
	Trail    *working.Trail    `json:"-"`
}

// PlanOf lays a wish out over weeks: the hardiest first, a first purchase of at
// most a quarter of the final load and as much at each step after, pairs together.
// Each step waits for ammonia and nitrite at zero on two tests a day apart; only
// the first can be open. Animals that want a settled tank wait for it. Dates are
// predictions. A wish that does not get on, or that overfills the tank, is planned
// all the same and said so. Errors: *working.Refusal.
func PlanOf(o Order) (Plan, error) {
	if err := o.accept(); err != nil {
		return Plan{}, err
	}
	p := Plan{}
	all := slices.Concat(o.Now, o.Wish)
	grown := o.Home
	grown.Fishless, grown.Age = false, nil // at the end of the plan it has matured
	t, err := Judge(grown, all)
	if err != nil {
		return Plan{}, err
	}
	c, err := CapacityOf(o.Home, all)
	if err != nil {
		return Plan{}, err
	}
	p.Verdict = max(t.Verdict, c.Verdict)
	p.Findings = append(append(p.Findings, t.Findings...), c.Findings[0])
	open, from, why := gate(o.Tests, o.At)
	p.Findings = append(p.Findings, why)
	if o.Ready != nil && o.Ready.After(from) {
		open, from = false, *o.Ready
	}
	if o.Ready == nil && o.Home.Fishless {
		open = false
		p.Findings = append(p.Findings, working.Find(working.Wait, "find.fish.plan_ready_unknown"))
	}
	p.Findings = append(p.Findings, working.Find(working.Steady, map[Quarantine]working.Key{InTheTank: "find.fish.plan_in_tank", Apart: "find.fish.plan_apart"}[o.Quarantine]))
	if o.Home.Age == nil {
		p.Findings = append(p.Findings, working.Find(working.Steady, "find.fish.plan_age_unknown"))
	}
	p.lay(o, open, from)
	p.Trail = p.working(o)
	return p, nil
}

func (o Order) accept() error {
	if err := o.Home.Accept(); err != nil {
		return err
	}
	if err := acceptLots("now", o.Now); err != nil {
		return err
	}
	if err := acceptLots("wish", o.Wish); err != nil {
		return err
	}
	switch {
	case len(o.Wish) == 0:
		return working.Refuse("wish", "refuse.fish.no_animals")
	case len(o.Now)+len(o.Wish) > MaxLots:
		return working.Outside("wish", "q.fish.lots", ofCount(float64(len(o.Now)+len(o.Wish))), ofCount(1), ofCount(MaxLots))
	case o.Quarantine != InTheTank && o.Quarantine != Apart:
		return working.Refuse("quarantine", "refuse.unknown")
	case o.At.IsZero():
		return working.Refuse("at", "refuse.missing")
	}
	return nil
}

// part is what is still to come of one lot.
type part struct {
	lot  Lot
	a    *Animal
	left int
	each float64 // metabolic load of one
}

// lay cuts the wish into steps and gives them dates.
func (p *Plan) lay(o Order, open bool, from time.Time) {
	var parts []part
	final := 0.0
	for _, l := range slices.Concat(o.Now, o.Wish) {
		a := load().by[l.Code]
		final += float64(l.Count) * math.Pow(a.grams, massExponent)
	}
	for _, l := range o.Wish {
		a := load().by[l.Code]
		parts = append(parts, part{l, a, l.Count, math.Pow(a.grams, massExponent)})
	}
	slices.SortStableFunc(parts, func(x, y part) int {
		return cmp.Or(cmp.Compare(settled(x.a), settled(y.a)), cmp.Compare(y.a.Hardiness, x.a.Hardiness), cmp.Compare(temperRank[x.a.Temper], temperRank[y.a.Temper]),
			cmp.Compare(x.each, y.each), cmp.Compare(x.a.Code, y.a.Code))
	})
	pace := paceInTank
	if o.Quarantine == Apart {
		pace = paceApart
	}
	in := from
	if o.Last != nil && in.Before(o.Last.Add(pace)) {
		in, open = o.Last.Add(pace), open && !o.At.Before(o.Last.Add(pace))
	}
	if earliest := o.At.Add(quarantineTime); o.Quarantine == Apart && in.Before(earliest) {
		in = earliest
	}
	for len(p.Steps) < mostSteps {
		s := nextStep(parts, stepShare*final, len(p.Steps) == mostSteps-1)
		if len(s.Lots) == 0 {
			return
		}
		for _, l := range s.Lots {
			a := load().by[l.Code]
			s.Share += quantity.Ratio(float64(l.Count) * math.Pow(a.grams, massExponent) / final)
			if o.Home.Age != nil {
				if ripe := o.At.Add(time.Duration((settled(a) - float64(*o.Home.Age)) * float64(time.Second))); ripe.After(in) {
					in, open = ripe, false
				}
			}
		}
		s.In, s.Buy = in, in
		if o.Quarantine == Apart {
			s.Buy = in.Add(-quarantineTime)
		}
		s.Open = open && len(p.Steps) == 0
		p.Steps = append(p.Steps, s)
		p.Done, in = in, in.Add(pace)
	}
}

// temperRank puts the mildest first.
var temperRank = map[Temper]int{Peaceful: 0, SemiAggressive: 1, Aggressive: 2, Predatory: 3}

// settled is the age that a tank is to have for a kind, s.
func settled(a *Animal) float64 {
	switch {
	case a.has(bitMature):
		return matureTank
	case a.Hardiness <= delicate:
		return youngTank
	}
	return 0
}

// nextStep takes a purchase out of what is left: up to a load, at least one
// animal, pairs together, a few kinds at most; the last step takes all.
func nextStep(parts []part, budget float64, last bool) Purchase {
	var s Purchase
	for i := range parts {
		x := &parts[i]
		if x.left == 0 {
			continue
		}
		n := min(x.left, int(math.Floor(budget/x.each*(1+slack))))
		switch {
		case last:
			n = x.left
		case len(s.Lots) >= kindsAStep:
			n = 0
		case x.a.MinGroup == 2 && x.left == 2 && len(s.Lots) == 0:
			n = 2
		case n == 0 && len(s.Lots) == 0:
			n = 1
		case len(s.Lots) > 0 && n < min(x.left, 2): // one alone is no second purchase
			n = 0
		}
		if n == 0 {
			continue
		}
		l := x.lot
		l.Count, l.Planned = n, true
		if l.Males != nil { // males come in proportion
			m := *l.Males
			if n < x.left {
				m = min(n, int(math.Round(float64(m)*float64(n)/float64(x.left))))
			}
			rest := *x.lot.Males - m
			l.Males, x.lot.Males = &m, &rest
		}
		x.left -= n
		s.Lots = append(s.Lots, l)
		budget -= float64(n) * x.each
	}
	return s
}

// working tells how the plan was cut.
func (p Plan) working(o Order) *working.Trail {
	pace := paceInTank
	if o.Quarantine == Apart {
		pace = paceApart
	}
	first := p.Steps[0]
	length := quantity.Time(p.Done.Sub(o.At).Seconds())
	return working.New("ask.fish.plan").As(working.RuleOfThumb).
		Given("V", "q.fish.tank", o.Home.Tank.Value()).
		Constant("f", "q.fish.step_share", ofShare(stepShare), working.Trade).
		Constant("T", "q.fish.pace", ofTime(pace.Seconds()), srcNoga).
		Step("s", "q.fish.first_share", "s = R_1/R ≤ f", first.Share.Value(), working.Trade).
		Step("n", "q.fish.steps", "n ≥ 1/f", ofCount(float64(len(p.Steps))), working.Algebra).
		Step("D", "q.fish.plan_time", "D ≥ t_1 + (n − 1)·T", length.Value(), working.Trade).
		Cites(srcClarke).Assume("assume.fish.tests_decide", "assume.fish.steps", "assume.fish.settled")
}
