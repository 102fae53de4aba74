package fish

import (
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
	// A purchase is at most this share of the load in the end, one every two weeks;
	// a whole group may come at once up to the second. // common practice
	stepShare, groupShare = 0.25, 0.40
	paceApart             = 14 * 24 * time.Hour
	// Source: 3 to 4 weeks are usual; no ideal period is established
	paceInTank     = 21 * 24 * time.Hour
	quarantineTime = 28 * 24 * time.Hour
	kindsAStep     = 2
	mostSteps      = 60
)

// Order is stock that a person has and stock that they want.
type Order struct {
	Home  Home          `json:"home"`
	Now   []Lot         `json:"now,omitempty"`
	Wish  []Lot         `json:"wish"`
	Tests []water.Tests `json:"tests,omitempty"` // visits of late, in any order
	At    time.Time     `json:"at"`              // today
	Ready *time.Time    `json:"ready,omitempty"` // when the filter is expected to keep up: see nitrogen.Maturing
	// Matures is how long the filter is expected to mature once the first animals are
	// in, where it matures with them: the second purchase waits for it.
	Matures    *quantity.Time `json:"matures,omitempty"`
	Last       *time.Time     `json:"last,omitempty"` // when the last animals came in
	Quarantine Quarantine     `json:"quarantine"`
}

// Purchase is one step of a plan.
type Purchase struct {
	Lots  []Lot             `json:"lots"`
	Share quantity.Ratio    `json:"share"` // of the load in the end
	Use   quantity.Ratio    `json:"use"`   // how full the tank is once they are in and grown, by the rules that add animals up
	Buy   time.Time         `json:"buy"`   // predicted; a quarantine apart begins then
	In    time.Time         `json:"in"`    // predicted; tests decide
	Open  bool              `json:"open"`  // its gate is open now: only ever the first
	Waits []working.Finding `json:"-"`     // what it waits for, the tests first
	Split []working.Finding `json:"-"`     // the groups that cannot come whole, and why
}

// Plan is stock brought home over weeks.
type Plan struct {
	Steps    []Purchase        `json:"steps"`
	Now      quantity.Ratio    `json:"now"`  // how full the tank is before the first step
	Done     time.Time         `json:"done"` // predicted for the last step
	Gate     Gate              `json:"gate"` // of the first step, by tests alone
	Verdict  Verdict           `json:"verdict"`
	Findings []working.Finding `json:"-"`
	Trail    *working.Trail    `json:"-"`
}

// PlanOf lays a wish out over weeks: the hardiest first, a first purchase of at
// most a quarter of the final load and as much at each step after. The final load
// is that of the wish, or of a tank filled comfortably where the wish is less.
// Groups come whole as long as they are no more than two fifths of it; where they
// are, they are parted, nobody alone, and the step says so. Each step waits for ammonia and nitrite at zero on two tests a day apart; only
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
	p.Gate = GateOf(o.Tests, o.At)
	open, from := p.Gate.Open, p.Gate.From
	p.Findings = append(p.Findings, p.Gate.Finding)
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
	if err := p.lay(o, open, from); err != nil {
		return Plan{}, err
	}
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
