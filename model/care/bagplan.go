package care

import (
	"errors"
	"math"
	"slices"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// BagStep names something to do with one's hands at a home-coming.
type BagStep string

// The steps.
const (
	BagLights BagStep = "lights" // lights off, lid ajar
	BagFloat  BagStep = "float"  // closed and afloat: the wait begins
	BagBucket BagStep = "bucket" // the animals in a clean bucket, below the tank, away from sockets
	BagDrip   BagStep = "drip"   // the tube runs: the wait begins
	BagMix    BagStep = "mix"    // open, tank water little by little
	BagUnplug BagStep = "unplug" // heater, filter and light, before a hand goes in
	BagMove   BagStep = "move"   // over with a wet net
	BagPour   BagStep = "pour"   // the bag's water away, not into the tank
	BagPlug   BagStep = "plug"   // dry hands, plugs in, filter and heater run
	BagWash   BagStep = "wash"   // hands
)

// Waits reports whether a wait begins with the step.
func (s BagStep) Waits() bool { return s == BagFloat || s == BagDrip }

// bagSteps are the steps of each way, in order.
var bagSteps = map[BagWay][]BagStep{
	BagFloats: {BagLights, BagFloat, BagMix, BagUnplug, BagMove, BagPour, BagPlug, BagWash},
	BagDrips:  {BagLights, BagBucket, BagDrip, BagUnplug, BagMove, BagPour, BagPlug, BagWash},
	BagSoon:   {BagLights, BagFloat, BagUnplug, BagMove, BagPour, BagPlug, BagWash},
}

// bagNotes are the safety notes that stand at a step.
var bagNotes = map[BagStep][]NoteID{
	BagBucket: {"drip_tube"}, BagUnplug: {"unplug_first"}, BagMove: {"hands"}, BagPour: {"bag_water"}, BagPlug: {"dry_hands"},
}

// BagWay is the way a bag is brought home once all is considered.
type BagWay string

// The ways.
const (
	BagFloats BagWay = "float" // float, then tank water little by little
	BagDrips  BagWay = "drip"  // drop by drop in a bucket
	BagSoon   BagWay = "soon"  // float closed, open, move at once
)

// BagPlan is how a bag is brought home.
type BagPlan struct {
	Way    BagWay
	Wait   quantity.Time          // until bag and tank agree as far as wanted
	Spread *working.Spread        // of the wait; nil for a drip
	Usual  [2]quantity.Time       // the common advice, of a floating bag
	Float  water.FloatPlan        // of a floating bag
	Drip   *water.DripSchedule    // of a drip
	Opened *water.OpenedBag       // what opening does to the water; nil where it was not tested
	TAN    quantity.Concentration // as taken for Opened, as nitrogen
	Taken  bool                   // TAN was not measured
	Curve  *Curve
	Steps  []BagStep
	// Why the animals are to be moved soon, or what else is to be known; the
	// gravest first.
	Findings []working.Finding
	Trails   []*working.Trail
}

// NotesAt lists the safety notes of a step of a home-coming.
func (s BagStep) NotesAt() []Note {
	var out []Note
	for _, id := range bagNotes[s] {
		if n, ok := NoteOf(id); ok {
			out = append(out, n)
		}
	}
	return out
}

// Plan says how a bag is brought home: how long it floats or drips, or that the
// animals are to be moved as soon as it is open, with the steps in order. Errors:
// *working.Refusal of "bag", "bag_temp", "tank", "tank_temp", "closed", "ph",
// "kh", "tan", "drops_per_second" or "doublings".
func (b Bag) Plan() (BagPlan, error) {
	home, _, trail, err := b.WayHome()
	if err != nil {
		return BagPlan{}, err
	}
	p := BagPlan{Way: BagFloats}
	if b.Way == WayDrip {
		p.Way = BagDrips
	}
	if home == water.MoveSoon {
		p.Way = BagSoon
		why := working.Find(working.Act, "find.care.home_soon")
		if way, _, _, err := water.WayHome(water.Trip{Closed: b.Closed}); err == nil && way != water.MoveSoon { // the trip was short, the water is bad
			why = working.Find(working.Act, "find.care.home_water")
		}
		p.Findings = append(p.Findings, why)
		if b.Way == WayDrip {
			p.Findings = append(p.Findings, working.Find(working.Act, "find.care.soon_no_drip"))
		}
		p.Findings = append(p.Findings, working.Find(working.Act, "find.water.bag_no_air"))
	}
	if err := b.opened(&p); err != nil {
		return BagPlan{}, err
	}
	if p.Way == BagDrips {
		s, t, err := b.Drip()
		if err != nil {
			return BagPlan{}, err
		}
		p.Drip, p.Wait, p.Curve = &s, s.Time, b.dripCurve(s)
		p.Trails = append(p.Trails, t)
	} else {
		f, t, err := b.Float()
		if err != nil {
			return BagPlan{}, err
		}
		one := f.Times[1]
		p.Float, p.Wait, p.Curve = f, one.Likely, b.floatCurve(one)
		p.Spread = &working.Spread{Low: one.Low.Value(), High: one.High.Value(), Why: "assume.water.bag_u"}
		p.Usual = [2]quantity.Time{quantity.Time(usualFloat[0].Seconds()), quantity.Time(usualFloat[1].Seconds())}
		p.Trails = append(p.Trails, t)
	}
	p.Trails = append(p.Trails, trail)
	if b.PH != nil && b.TankPH != nil && math.Abs(float64(*b.PH-*b.TankPH)) > phApart {
		p.Findings = append(p.Findings, working.Find(working.Wait, "find.care.ph_apart").With("Bag", b.PH.Value()).With("Tank", b.TankPH.Value()))
	}
	p.Steps = slices.Clone(bagSteps[p.Way])
	return p, nil
}

// opened works out what opening does to a bag whose water was tested.
func (b Bag) opened(p *BagPlan) error {
	s := b.shipped()
	if s == nil {
		return nil
	}
	o, _, err := water.OpenBag(*s)
	var r *working.Refusal
	if errors.As(err, &r) && r.Code == "refuse.water.no_co2_to_lose" {
		p.Findings = append(p.Findings, working.Find(working.Steady, "find.care.bag_no_co2"))
		return nil
	}
	if err != nil {
		return err
	}
	p.Opened, p.TAN, p.Taken = &o, s.TAN, b.TAN == nil
	f := working.Find(working.Steady, "find.care.bag_opened")
	if o.After.AsN > water.HarmNH3N {
		f = working.Find(working.Act, "find.care.bag_opened_harm").With("Limit", water.HarmNH3N.Value())
	}
	p.Findings = append(p.Findings, f.With("Before", o.Before.AsN.Value()).With("After", o.After.AsN.Value()).With("PH", b.PH.Value()).With("PHAfter", o.PHAfter.Value()))
	if p.Taken {
		p.Findings = append(p.Findings, working.Find(working.Steady, "find.care.bag_assumed").With("Ammonia", s.TAN.Value()))
	}
	return nil
}
