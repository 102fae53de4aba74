package present

import (
	"math"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Plan is the plan over weeks as text.
type Plan struct {
	Tank   string // what is known of the tank
	Gate   Verdict
	Filter Verdict // how far the filter is
	Wishes []WishLine
	Steps  []PlanStep
	Done   string  // when the last is expected
	Now    float64 // of what the tank carries, used today
	Today  string
	// Way is where new animals are watched, as an option of fish.Quarantines.
	Way    fish.Quarantine
	WaySay string
	Trail  *working.Trail // of the plan; nil without steps
}

// WishLine is a wish as text.
type WishLine struct {
	ID         string
	Code       fish.Code
	Name       string
	Scientific string
	Count      int
	State      working.State
	Word       string
	Lines      []string // what speaks against it, the gravest first
	Cure       string   // the first thing to do about it
	Full       string   // how full the tank would be
	Law        bool     // the law is to be checked
	In         bool     // it is in the plan
}

// PlanStep is a purchase as text.
type PlanStep struct {
	Title   string // which of how many
	When    string // about when they come in
	Short   string // the same in little room
	Buy     string // when to buy, where that is another day
	Week    float64
	State   working.State
	Word    string
	Animals []PlanAnimal
	Waits   []string
	Split   []string
	Use     float64 // of what the tank carries, afterwards
	Load    string
	Percent string
}

// PlanAnimal is animals of one kind in a purchase.
type PlanAnimal struct {
	Code       fish.Code
	Count      int
	Males      *int // of them; nil is not known
	Name       string
	Scientific string
	Text       string // number and name
	Size       string // which to look for
	Length     quantity.Length
	Law        bool
}

// Plan presents what is wished for and when it comes.
func (p Presenter) Plan(v keeper.FishPlan) Plan {
	out := Plan{Tank: p.HomeBrief(v.Home), Today: p.W.T("page.plan.today", nil), Way: v.Quarantine, Gate: p.gate(v), Filter: p.filter(v), Trail: v.Plan.Trail}
	out.Now = float64(v.Plan.Now)
	out.WaySay = p.W.T(map[fish.Quarantine]working.Key{fish.InTheTank: "find.fish.plan_in_tank", fish.Apart: "find.fish.plan_apart"}[v.Quarantine], nil)
	for _, w := range v.Wishes {
		out.Wishes = append(out.Wishes, p.Wished(w))
	}
	for i, s := range v.Plan.Steps {
		out.Steps = append(out.Steps, p.planStep(v, i, s))
	}
	if len(v.Plan.Steps) > 0 {
		out.Done = p.W.T("page.plan.done", i18n.Args{"Day": p.W.Date(v.Plan.Done), "Time": p.days(v.Plan.Done.Sub(v.At))})
	}
	return out
}

// gate says whether tests open the next step, and by which they do.
func (p Presenter) gate(v keeper.FishPlan) Verdict {
	g := v.Gate
	out := Verdict{State: g.Finding.State, Word: p.W.State(g.Finding.State), Title: p.Say(g.Finding)}
	for _, e := range g.Tests {
		out.Lines = append(out.Lines, p.W.T("page.plan.test", i18n.Args{"Day": p.CivilDay(e.At), "Says": p.Entry(e).Text}))
	}
	return out
}

// filter says how far the filter is on its way.
func (p Presenter) filter(v keeper.FishPlan) Verdict {
	r := v.Ready
	say := func(s working.State, key working.Key, a i18n.Args) Verdict {
		return Verdict{State: s, Word: p.W.State(s), Title: p.W.T(key, a)}
	}
	switch {
	case r.Shown:
		return say(working.Steady, "page.plan.filter_shown", nil)
	case v.Home.Filled.IsZero():
		return say(working.Wait, "page.plan.not_filled", nil)
	case r.Likely.IsZero():
		return say(working.Wait, "find.fish.plan_ready_unknown", nil)
	case r.Way != care.MatureFishless && len(v.Stock) == 0:
		return say(working.Steady, "page.plan.filter_with_fish", i18n.Args{"Time": p.days(time.Duration(float64(r.Takes) * float64(time.Second)))})
	}
	key := working.Key("page.plan.filter_ahead")
	if r.Likely.Before(v.At) {
		key = "page.plan.filter_over"
	}
	return say(working.Wait, key, i18n.Args{"Age": p.days(v.At.Sub(v.Home.Filled)), "Day": p.W.Date(r.Likely), "Low": p.W.Date(r.Low), "High": p.W.Date(r.High)})
}

// days writes a length of time in whole days.
func (p Presenter) days(d time.Duration) string {
	return p.W.N("n.days", math.Max(0, math.Round(d.Hours()/24)), nil)
}

// share is a use in whole per cent, as sure as a rule of thumb is.
func (p Presenter) share(x quantity.Ratio) string {
	return p.W.Percent(math.Round(float64(x)*100) / 100)
}

// Wished presents how a wish fits.
func (p Presenter) Wished(w keeper.Wished) WishLine {
	out := WishLine{ID: w.ID, Code: w.Species, Name: p.KindName(w.Species), Count: w.Count, State: w.Verdict.State(), In: w.Verdict != fish.No,
		Word: p.W.T(working.Key("word.plan."+w.Verdict.String()), nil)}
	if w.Animal != nil {
		out.Scientific, out.Law = w.Animal.Scientific, w.Animal.Has(fish.LawCheck)
	}
	for _, c := range w.Clashes {
		if c.Finding == nil || c.Verdict == fish.Steady {
			continue
		}
		out.Lines = append(out.Lines, p.Say(*c.Finding))
		if out.Cure == "" && c.Cure != nil {
			out.Cure = p.Say(*c.Cure)
		}
	}
	out.Full = p.W.T("page.plan.full", i18n.Args{"Share": p.share(w.Capacity.Use), "Rule": w.Capacity.Governing})
	if w.Capacity.Verdict == fish.No && w.Room.Most > 0 {
		out.Lines = append(out.Lines, p.W.T("page.plan.room", i18n.Args{"Number": p.W.Number(float64(w.Room.Most), 6)}))
	}
	return out
}

func (p Presenter) planStep(v keeper.FishPlan, i int, s fish.Purchase) PlanStep {
	out := PlanStep{Title: p.W.T("page.plan.step", i18n.Args{"Step": p.W.Number(float64(i+1), 3), "Of": p.W.Number(float64(len(v.Plan.Steps)), 3)}),
		When: p.W.T("page.plan.about", i18n.Args{"Day": p.W.Date(s.In)}), Short: p.W.ShortDate(s.In), State: working.Wait, Word: p.W.T("word.plan.waits", nil),
		Week: math.Max(0, s.In.Sub(v.At).Hours()/(7*24)), Use: float64(s.Use), Percent: p.share(s.Use)}
	if s.Open {
		out.State, out.Word = working.Steady, p.W.T("word.plan.open", nil)
		out.When = p.W.T("page.plan.now", nil)
	}
	out.Load = p.W.T("page.plan.load", i18n.Args{"Share": out.Percent})
	if s.Buy.Add(24 * time.Hour).Before(s.In) {
		out.Buy = p.W.T("page.plan.buy", i18n.Args{"Day": p.W.Date(s.Buy)})
	}
	for _, l := range s.Lots {
		if a, err := fish.Get(l.Code); err == nil {
			out.Animals = append(out.Animals, p.PlanAnimal(a, l))
		}
	}
	for _, f := range s.Waits {
		out.Waits = append(out.Waits, p.Say(f))
	}
	for _, f := range s.Split {
		out.Split = append(out.Split, p.Say(f))
	}
	return out
}

// Shop sizes are half of an adult's, of large animals at most so much: young ones
// settle well and a size that swims out of its own group's mouths. // common practice
const (
	shopShare = 0.5
	shopMost  = 0.08 // m
)

// PlanAnimal presents animals of a kind that are to be bought.
func (p Presenter) PlanAnimal(a *fish.Animal, l fish.Lot) PlanAnimal {
	long := func(x quantity.Length) string { return p.W.For(x.Value(), i18n.Fish) }
	size := min(a.Length*shopShare, shopMost)
	if u, ok := quantity.UnitOf(p.W.DefaultUnit(quantity.KindLength, i18n.Fish)); ok { // halves of a centimetre, quarters of an inch
		step := map[quantity.UnitCode]float64{"cm": 0.5, "in": 0.25, "mm": 5}[u.Code]
		if step > 0 {
			size = quantity.Length(u.ToBase(math.Max(step, math.Round(u.FromBase(float64(size))/step)*step)))
		}
	}
	words := p.W.T("page.plan.animals", i18n.Args{"Number": p.W.Number(float64(l.Count), 6), "Name": p.KindName(a.Code)})
	if l.Males != nil {
		words = p.W.T("page.plan.with_males", i18n.Args{"Animals": words, "Males": p.W.N("page.stock.males_of", float64(*l.Males), nil)})
	}
	return PlanAnimal{Code: a.Code, Count: l.Count, Males: l.Males, Name: p.KindName(a.Code), Scientific: a.Scientific, Length: a.Length, Law: a.Has(fish.LawCheck), Text: words,
		Size: p.W.T("page.plan.size", i18n.Args{"Size": long(size), "Adult": long(a.Length)})}
}

// Asked is a question for the shop, as First fill words it.
func (p Presenter) Asked(id care.FieldID) string { return p.W.T(working.Key("tick."+string(id)), nil) }
