package present

import (
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// Bag is a bag on its way, as text.
type Bag struct {
	ID      string
	Name    string // with how many there are
	Beside  string // its water, when it was opened
	Number  *Number
	State   working.State // of the wait: steady before, wait while it lasts, act once it is over
	Left    string        // what the timer says in words; empty where none runs
	Unsure  string        // what of it rests on the clock on the wall; empty where nothing does
	Now     string        // what to do now
	Next    string        // and after it; empty at the end
	Steps   []BagStep
	Verdict *Verdict // what is to be known of it; nil where nothing is
	Figures []string // of a drip: flow, volumes, when to pour off
	Curve   *care.Curve
	Refused string // why there is no plan
	Trails  []i18n.TrailText
}

// BagStep is a step of a bag, as text.
type BagStep struct {
	Step  care.BagStep
	Text  string
	Done  bool
	At    string // when it was done
	Notes []Note // the safety notes that stand at it
}

// Bag presents a bag as it stands now.
func (p Presenter) Bag(v keeper.BagView, now time.Time) Bag {
	out := Bag{ID: v.ID, Name: p.BagName(v.Bag)}
	args := i18n.Args{"Volume": p.W.Typed(v.Ask.Volume), "Time": p.clock(v.Opened)}
	out.Beside = p.W.T("page.bag.beside", args)
	if a, err := fish.Get(fish.Code(v.Ask.Species)); err == nil {
		out.Beside = p.W.Stop(a.Scientific, out.Beside)
	}
	if v.Refused != nil {
		out.Refused, _ = p.W.Problem(v.Refused)
		return out
	}
	p.bagPlan(v.Plan, &out)
	if v.Timer != nil && v.Plan.Curve != nil {
		c := *v.Plan.Curve
		c.Timer = v.Timer
		out.Curve = &c
		out.Unsure = p.Unsure(*v.Timer)
	}
	for _, s := range v.Plan.Steps {
		st := BagStep{Step: s, Text: p.bagStep(s, v.Plan)}
		if at, ok := v.Done[s]; ok {
			st.Done, st.At = true, p.W.Time(at.In(now.Location()))
		}
		for _, n := range s.NotesAt() {
			st.Notes = append(st.Notes, p.Note(n))
		}
		out.Steps = append(out.Steps, st)
	}
	out.Now = p.W.T("page.bag.all_done", nil)
	next := v.Next
	if v.Now != "" {
		out.Now = p.bagStep(v.Now, v.Plan)
	}
	switch {
	case v.Waiting(now):
		out.State, out.Left = working.Wait, p.W.T("page.bag.to_go", nil)
		out.Now = p.W.T("page.bag.waiting", i18n.Args{"Time": p.W.Time(now.Add(v.Timer.Left(now)).In(now.Location()))})
		next = v.Now
	case v.Ready(now):
		out.State, out.Left = working.Act, p.W.T("page.bag.ready", nil)
	}
	if next != "" {
		out.Next = p.W.T("page.bag.next", i18n.Args{"Step": p.bagStep(next, v.Plan)})
	}
	return out
}

// Unsure says what of a timer rests on the clock on the wall alone; nothing where
// none of it does.
func (p Presenter) Unsure(t care.Timer) string {
	switch {
	case t.Ended || !t.Unsure():
		return ""
	case t.SetBack:
		return p.W.T("page.bag.set_back", nil)
	}
	return p.W.T("page.bag.by_wall", i18n.Args{"Time": p.W.Duration(quantity.Time(t.ByWall.Round(time.Minute).Seconds()))})
}

// BagPlan presents how a bag is to be brought home before it is taken up.
func (p Presenter) BagPlan(plan care.BagPlan) Bag {
	var out Bag
	p.bagPlan(plan, &out)
	return out
}

// BagName is whom a bag holds, with how many.
func (p Presenter) BagName(b keeper.Bag) string {
	return p.W.T("page.bag.name", i18n.Args{"Count": p.W.Number(float64(b.Count), 5), "Name": b.Ask.Name})
}

func (p Presenter) bagPlan(plan care.BagPlan, out *Bag) {
	h := &care.Headline{Name: "q.care.float", Value: plan.Wait.Value(), Spread: plan.Spread}
	switch plan.Way {
	case care.BagDrips:
		h.Name = "q.care.drip"
		h.Means = append(h.Means, working.Find(working.Steady, "find.care.drip_means").With("Volume", plan.Drip.Holds.Value()).With("Original", plan.Drip.Original.Value()))
		p.drip(plan, out)
	default:
		h.Means = append(h.Means, working.Find(working.Steady, "find.care.float_means").With("Low", plan.Usual[0].Value()).With("High", plan.Usual[1].Value()))
		if plan.Wait == 0 {
			h.Means = append(h.Means, working.Find(working.Steady, "find.care.bag_warm"))
		}
	}
	out.Number, out.Curve = p.number(h), plan.Curve
	if len(plan.Findings) > 0 {
		v := Verdict{State: working.WorstOf(plan.Findings), Title: p.Say(plan.Findings[0])}
		v.Word = p.W.State(v.State)
		for _, f := range plan.Findings[1:] {
			v.Lines = append(v.Lines, p.Say(f))
		}
		out.Verdict = &v
	}
	for _, t := range plan.Trails {
		if t != nil {
			out.Trails = append(out.Trails, p.W.Trail(t))
		}
	}
}

// drip says the schedule of a drip line by line.
func (p Presenter) drip(plan care.BagPlan, out *Bag) {
	out.Figures = append(out.Figures, p.W.T("page.bag.flow", i18n.Args{"Flow": plan.Drip.Flow.Value(), "Drops": p.W.Number(water.DropsOf(plan.Drip.Flow), 3)}))
	for _, s := range plan.Drip.Stages {
		args := i18n.Args{"After": p.Wait(s.At.Value()), "Holds": s.Holds.Value(), "PourOff": s.PourOff.Value(), "Original": s.Original.Value()}
		key := working.Key("page.bag.stage_last")
		if s.PourOff > 0 {
			key = "page.bag.stage"
		}
		out.Figures = append(out.Figures, p.W.T(key, args))
	}
}

// bagStep is a step in words, with its figures.
func (p Presenter) bagStep(s care.BagStep, plan care.BagPlan) string {
	key := working.Key("tick.bag." + string(s))
	if s == care.BagMove && plan.Way == care.BagSoon {
		key = "tick.bag.move_soon"
	}
	return p.W.T(key, i18n.Args{"Wait": p.Wait(plan.Wait.Value())})
}
