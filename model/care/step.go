package care

// Step is one step of First fill.
type Step string

// The steps, bottom to top of the dipstick. Their order is that of a safe set-up:
// what carries comes before what is heavy, what is wet before what is live.
const (
	TankPlace  Step = "tank_place"
	KitList    Step = "kit_list"
	StandFloor Step = "stand_floor"
	Rinse      Step = "rinse"
	PlaceDry   Step = "place_dry"
	FillTreat  Step = "fill_treat"
	PowerOn    Step = "power_on"
	Settle     Step = "settle"
	FirstFish  Step = "first_fish"
	HomeComing Step = "home_coming"
)

// Steps lists all steps in order.
func Steps() []Step {
	return []Step{TankPlace, KitList, StandFloor, Rinse, PlaceDry, FillTreat, PowerOn, Settle, FirstFish, HomeComing}
}

// Index returns the place of s in the order, or -1.
func (s Step) Index() int {
	for i, t := range Steps() {
		if t == s {
			return i
		}
	}
	return -1
}

// Next returns the step after s, or s itself at the end.
func (s Step) Next() Step {
	all := Steps()
	if i := s.Index(); i >= 0 && i+1 < len(all) {
		return all[i+1]
	}
	return s
}

// Previous returns the step before s, or s itself at the start.
func (s Step) Previous() Step {
	if i := s.Index(); i > 0 {
		return Steps()[i-1]
	}
	return s
}

// needs lists what must be finished before a step opens: what makes the step
// safe, not merely the step before it. Rinsing, say, needs no stand.
var needs = map[Step][]Step{
	KitList:    {TankPlace},
	StandFloor: {TankPlace},
	Rinse:      {TankPlace},
	PlaceDry:   {StandFloor, Rinse, KitList},
	FillTreat:  {PlaceDry, StandFloor},
	PowerOn:    {FillTreat},
	Settle:     {PowerOn},
	FirstFish:  {Settle},
	HomeComing: {FirstFish},
}

// StepState is how a step stands.
type StepState string

// The states of a step.
const (
	Shut     StepState = "shut"     // waits for another step
	Open     StepState = "open"     // can be done now
	Finished StepState = "finished" // done, and what it relied on still holds
	Reopened StepState = "reopened" // done once, but an answer it relied on has changed
)
