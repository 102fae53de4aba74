package fish

import (
	"math"

	"example.org/driploop/model/nitrogen"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Plate is how a meal ended.
type Plate string

// How meals end.
const (
	Leftovers  Plate = "leftovers"   // food lay on the floor after two minutes
	CleanFloor Plate = "clean_floor" // all was eaten in two minutes
)

// Plates lists how meals end.
func Plates() []Plate { return []Plate{Leftovers, CleanFloor} }

// Feeding is a tank to be fed with dry food.
type Feeding struct {
	Lots        []Lot                `json:"lots"`        // today's lengths where known
	Temperature quantity.Temperature `json:"temperature"` // 8 to 34 °C
	Net         quantity.Volume      `json:"net"`         // water, 1 L to 20 000 L
	Protein     *quantity.Ratio      `json:"protein,omitempty"`
	Share       *quantity.Ratio      `json:"share,omitempty"`   // of body mass a day, instead of ours: 0.1 % to 10 %
	Twenty      *quantity.Mass       `json:"twenty,omitempty"`  // twenty pinches on the scale: see PinchOf
	Fasting     *int                 `json:"fasting,omitempty"` // days a week without food where all are grown, 0 to 6; nil is one
	Last        []Plate              `json:"last,omitempty"`    // how the last meals ended, the latest last; 14 at most count
}

// Ration is what a tank is fed.
type Ration struct {
	Day     quantity.MassRate `json:"day"`  // dry food on a feeding day
	Meal    quantity.Mass     `json:"meal"` // of one meal
	Meals   int               `json:"meals"`
	Pinches *quantity.Ratio   `json:"pinches"` // a meal; nil while no pinch was weighed
	Week    quantity.Mass     `json:"week"`    // with the fasting day
	Fasting int               `json:"fasting"` // days a week without food: 1 unless said, 0 for young fish
	Factor  quantity.Ratio    `json:"factor"`  // what the last meals made of it, 0.5 to 1.3
	Kinds   []KindRation      `json:"kinds"`
	Load    nitrogen.Load     `json:"load"` // what the food means for the water
}

// KindRation is the share of one lot.
type KindRation struct {
	Code   Code              `json:"code"`
	Mass   quantity.Mass     `json:"mass"` // of all of the lot today
	Day    quantity.MassRate `json:"day"`
	Growth Stage             `json:"stage"`
}

// Stage is how grown an animal is, which decides how it eats.
type Stage string

// The stages.
const (
	Fry   Stage = "fry"   // up to 30 % of adult length
	Young Stage = "young" // up to 70 %
	Adult Stage = "adult"
)

// What may be set of a ration: dry food a day over body mass, and the protein in
// it. // judgement: beyond them is a slip of the pen
const (
	LeastShare, MostShare     quantity.Ratio = 0.001, 0.1
	LeastProtein, MostProtein quantity.Ratio = 0.1, 0.7
)

const (
	// Dry food a day over body mass for one gram at 25 °C. // common practice, 1 to
	// 3 %; compared with the maintenance of Sales & Janssens 2003
	usualShare = 0.015
	// Food follows metabolism: mass to the 0.80, a factor of 1.83 for ten kelvin.
	// From memory: Clarke & Johnston 1999
	foodQ10 = 1.83
	// What growing takes on top. // judgement; common practice feeds growing fish 2
	// to 3 %, fry more and oftener
	youngFactor, fryFactor           = 1.5, 3.0
	fryTo, youngTo                   = 0.3, 0.7
	leastShare, mostShare, mostOfFry = 0.003, 0.03, 0.06
	mealsOfAdults, mealsOfFry        = 2, 4
	fastingDays, mostFasting         = 1, 6
	// After leftovers the next ration is lower by a fifth, after a clean floor a
	// tenth higher, within limits. // judgement
	afterLeftovers, afterClean = 0.8, 1.1
	leastFactor, mostFactor    = 0.5, 1.3
	mealsCounted               = 14
	// The estimate is good to a factor of two either way. // judgement
	rationSpread = 2.0
)

// dietFactor: plant food carries less, meat more. // judgement
var dietFactor = map[Diet]float64{Omnivore: 1, Carnivore: 0.9, Herbivore: 1.3, Micro: 1.2}

func stageOf(a *Animal, cm float64) Stage {
	switch {
	case cm <= fryTo*a.cm:
		return Fry
	case cm <= youngTo*a.cm:
		return Young
	}
	return Adult
}

// shareOf is the dry food a day over body mass. Shrimp and snails graze and take
// what is left: nothing is fed for them.
func shareOf(a *Animal, cm, celsius float64) (float64, Stage) {
	s := stageOf(a, cm)
	if a.Group == Shrimp || a.Group == Snail {
		return 0, s
	}
	x := usualShare * math.Pow(a.atLength(cm), massExponent-1) * math.Pow(foodQ10, (celsius-25)/10) * dietFactor[a.Diet]
	most := mostShare
	switch s {
	case Young:
		x *= youngFactor
	case Fry:
		x, most = x*fryFactor, mostOfFry
	}
	return math.Min(math.Max(x, leastShare), most), s
}

// factorOf is what the last meals make of the ration.
func factorOf(last []Plate) float64 {
	f := 1.0
	for _, p := range last[max(0, len(last)-mealsCounted):] {
		switch p {
		case Leftovers:
			f = math.Max(leastFactor, f*afterLeftovers)
		case CleanFloor:
			f = math.Min(mostFactor, f*afterClean)
		}
	}
	return f
}

func (in Feeding) accept() error {
	if err := acceptLots("lots", in.Lots); err != nil {
		return err
	}
	if len(in.Lots) == 0 {
		return working.Refuse("lots", "refuse.fish.no_animals")
	}
	if err := working.InRange("temperature", "q.fish.temperature", in.Temperature.Value(), ofTemp(8), ofTemp(34)); err != nil {
		return err
	}
	if err := working.InRange("net", "q.fish.net", in.Net.Value(), ofTank(0.001), ofTank(mostTank)); err != nil {
		return err
	}
	if in.Protein != nil {
		if err := working.InRange("protein", "q.fish.protein", in.Protein.Value(), LeastProtein.Value(), MostProtein.Value()); err != nil {
			return err
		}
	}
	if in.Share != nil {
		if err := working.InRange("share", "q.fish.food_share", in.Share.Value(), LeastShare.Value(), MostShare.Value()); err != nil {
			return err
		}
	}
	if in.Fasting != nil && (*in.Fasting < 0 || *in.Fasting > mostFasting) {
		return working.Outside("fasting", "q.fish.fasting", quantity.Count(*in.Fasting).Value(), quantity.Count(0).Value(), quantity.Count(mostFasting).Value())
	}
	for _, p := range in.Last {
		if p != Leftovers && p != CleanFloor {
			return working.Refuse("last", "refuse.unknown")
		}
	}
	return nil
}

// RationOf returns the dry food for a tank: in grams a day and a meal, in pinches
// once one was weighed, and the ammonia and nitrate that come of it. A rule of
// thumb to begin with; how meals end moves it. Errors: *working.Refusal, also for
// more than 100 g a day.
func RationOf(in Feeding) (Ration, *working.Trail, error) {
	if err := in.accept(); err != nil {
		return Ration{}, nil, err
	}
	r := Ration{Meals: mealsOfAdults, Fasting: fastingDays, Factor: quantity.Ratio(factorOf(in.Last))}
	if in.Fasting != nil {
		r.Fasting = *in.Fasting
	}
	total, body := 0.0, 0.0
	for _, l := range in.Lots {
		a := load().by[l.Code]
		cm := a.cm
		if l.Length != nil {
			cm = float64(*l.Length) * 100
		}
		share, stage := shareOf(a, cm, float64(in.Temperature))
		if in.Share != nil && share > 0 {
			share = float64(*in.Share)
		}
		if stage == Fry && share > 0 {
			r.Meals, r.Fasting = mealsOfFry, 0
		}
		if stage == Young && share > 0 {
			r.Fasting = 0
		}
		m := float64(l.Count) * a.atLength(cm)
		f := m * share * float64(r.Factor)
		r.Kinds = append(r.Kinds, KindRation{l.Code, quantity.Mass(m / 1000), quantity.MassRate(f), stage})
		total, body = total+f, body+m
	}
	r.Day = quantity.MassRate(total)
	r.Meal = quantity.Mass(total / float64(r.Meals) / 1000)
	r.Week = quantity.Mass(total * float64(7-r.Fasting) / 1000)
	t := working.New("ask.fish.ration").As(working.RuleOfThumb).
		Given("t", "q.fish.temperature", in.Temperature.Value()).
		Step("M", "q.fish.mass_all", "M = Σ n·a·L^b", grams(body), srcFBEst)
	if in.Share != nil {
		t.Given("s", "q.fish.food_share", in.Share.Value())
	} else {
		t.Constant("s_1", "q.fish.food_share", ofShare(usualShare), working.Trade)
	}
	t.Step("k", "q.fish.plate_factor", "k = 0.8^x·1.1^y", r.Factor.Value(), working.Ours)
	if r.Day > 100 {
		return Ration{}, nil, working.Outside("lots", "q.fish.food_day", r.Day.Value(), quantity.MassRate(0).Value(), quantity.MassRate(100).Value())
	}
	if in.Twenty != nil {
		pinch, _, err := PinchOf(*in.Twenty)
		if err != nil {
			return Ration{}, nil, err
		}
		n := quantity.Ratio(float64(r.Meal) / float64(pinch))
		r.Pinches = &n
		t.Given("m_20", "q.fish.twenty", in.Twenty.Value()).
			Step("p", "q.fish.pinch", "p = m_20/20", pinch.Value(), working.Algebra).
			Step("n_p", "q.fish.pinches", "n_p = F/(z·p)", n.Value(), working.Algebra)
	}
	formula := "F = k·Σ n·g·s_1·(w/1 g)^−0.20·1.83^((t − 25)/10)·w"
	if in.Share != nil {
		formula = "F = k·s·M"
	}
	t.Step("F", "q.fish.food_day", formula, r.Day.Value(), srcClarke).Cites(srcSales, working.Trade).
		Between((r.Day/rationSpread).Value(), (r.Day*rationSpread).Value(), "assume.fish.appetite_differs").
		Within("q.fish.temperature", ofTemp(8), ofTemp(34)).Assume("assume.fish.dry_food", "assume.fish.grazers", "assume.fish.plate", "assume.fish.growing")
	protein := quantity.Ratio(usualProtein)
	if in.Protein != nil {
		protein = *in.Protein
	}
	n, _, err := nitrogen.LoadOf(r.Day, protein, in.Net)
	r.Load = n
	return r, t, err
}

// PinchOf returns the mass of one pinch from twenty on a scale together, 0.1 to
// 10 g. Errors: *working.Refusal.
func PinchOf(twenty quantity.Mass) (quantity.Mass, *working.Trail, error) {
	if err := working.InRange("twenty", "q.fish.twenty", twenty.Value(), grams(0.1), grams(10)); err != nil {
		return 0, nil, err
	}
	p := twenty / 20
	return p, working.New("ask.fish.pinch").Given("m_20", "q.fish.twenty", twenty.Value()).
		Step("p", "q.fish.pinch", "p = m_20/20", p.Value(), working.Algebra).
		Within("q.fish.twenty", grams(0.1), grams(10)), nil
}
