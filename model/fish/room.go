package fish

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Room is how many more of a kind a tank takes.
type Room struct {
	Code        Code           `json:"code"`
	Comfortable int            `json:"comfortable"` // up to 70 % of what the tank carries
	Most        int            `json:"most"`        // up to all of it
	Governing   working.Key    `json:"governing"`   // the rule with the smallest answer
	Trail       *working.Trail `json:"-"`
}

// RoomFor returns how many more of a kind a tank with a stock takes: the smallest
// answer of the rules of CapacityOf, at most MaxCount. It says nothing on whether
// they get on: see Judge. Errors: *working.Refusal.
func RoomFor(h Home, lots []Lot, code Code) (Room, error) {
	a, err := Get(code)
	if err != nil {
		return Room{}, err
	}
	kinds, ls, _, err := capacityInput(h, lots)
	if err != nil {
		return Room{}, err
	}
	r, governs := roomFor(h, kinds, ls, a)
	n := ofCount(float64(r.Most))
	r.Trail = working.New("ask.fish.room").As(working.RuleOfThumb).
		Given("V", "q.fish.tank", h.Tank.Value()).
		Constant("V_0", "q.fish.least_tank", a.LeastTank.Value(), working.Trade).
		Step("D", "q.fish.demand", "D = Σ n·d", governs.value(governs.demand(kinds)), working.Trade).
		Step("d", "q.fish.demand_each", "d", governs.value(governs.per(a)), working.Trade).
		Step("C", "q.fish.capacity", "C", governs.value(governs.upTo(1)), working.Trade).
		Step("n", "q.fish.room", "n = (C − D)/d", n, working.Algebra).
		Cites(a.MassFrom.Sources...).Assume("assume.fish.adult", "assume.fish.least_tank")
	return r, nil
}

// roomFor is RoomFor without the working, and the limit that governs.
func roomFor(h Home, kinds []kind, ls []limit, a *Animal) (Room, limit) {
	r := Room{Code: a.Code, Comfortable: MaxCount, Most: MaxCount, Governing: "q.fish.check_mass"}
	governs := ls[0]
	for _, l := range ls {
		m := l.more(kinds, a, 1)
		if m < r.Most {
			r.Most, r.Governing, governs = m, l.name, l
		}
		r.Comfortable = min(r.Comfortable, l.more(kinds, a, green))
	}
	if h.below(a, tightTank) {
		r.Comfortable, r.Most, r.Governing = 0, 0, "q.fish.check_tank"
	}
	return r, governs
}

// more is how many of a kind a limit takes up to a share of it.
func (l limit) more(kinds []kind, a *Animal, share float64) int {
	per := l.per(a)
	switch {
	case per <= 0:
		return MaxCount
	case l.peak && per > l.upTo(share)*(1+slack):
		return 0
	case l.peak:
		return MaxCount
	}
	n := math.Floor((l.upTo(share) - l.demand(kinds)) / per * (1 + slack))
	return int(math.Max(0, math.Min(n, MaxCount)))
}

// quick is the use of the governing rule alone.
func quick(ls []limit, kinds []kind) float64 {
	u := 0.0
	for _, l := range ls {
		u = math.Max(u, l.use(l.demand(kinds)))
	}
	return u
}

// Suggestion is a kind that fits a tank beside its stock.
type Suggestion struct {
	Code    Code             `json:"code"`
	Count   int              `json:"count"`   // a first group of it
	Verdict Verdict          `json:"verdict"` // steady or wait
	Use     quantity.Ratio   `json:"use"`     // of the tank's capacity, with them
	Reason  working.Key      `json:"reason"`  // the code of Finding
	Finding *working.Finding `json:"finding"`
}

// Suggest lists the kinds that fit beside a stock, the best first, at most so many:
// those that get on steadily, then those that take care; a wanted kind (or none)
// that does not fit ranks its like first. The law flag, the kinds already there and
// what outgrows the tank are left out. The order is the same every time: by
// verdict, likeness, hardiness, room left, then code. Errors: *working.Refusal.
func Suggest(h Home, lots []Lot, wanted Code, most int) ([]Suggestion, error) {
	if most < 1 || most > 200 {
		return nil, working.Outside("most", "q.fish.suggestions", ofCount(float64(most)), ofCount(1), ofCount(200))
	}
	var like *Animal
	if wanted != "" {
		a, err := Get(wanted)
		if err != nil {
			return nil, err
		}
		like = a
	}
	kinds, ls, _, err := capacityInput(h, lots)
	if err != nil {
		return nil, err
	}
	return rank(h, kinds, ls, like, most), nil
}
