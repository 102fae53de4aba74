package fish

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// part is what is still to come of one lot.
type part struct {
	lot  Lot
	a    *Animal
	left int
	each float64 // metabolic load of one
}

// weightOf is the metabolic load of one of a kind.
func weightOf(a *Animal) float64 { return math.Pow(a.grams, massExponent) }

// parts puts what is wished for in the order in which it comes: what needs no
// settled tank first, then the hardiest, the mildest, the smallest.
func (o Order) parts() []part {
	var out []part
	for _, l := range o.Wish {
		i := slices.IndexFunc(out, func(x part) bool { return x.lot.Code == l.Code })
		if i < 0 {
			a := load().by[l.Code]
			out = append(out, part{l, a, l.Count, weightOf(a)})
			continue
		}
		x := &out[i] // wished for twice: one group
		x.left, x.lot.Length = x.left+l.Count, nil
		if x.lot.Males != nil && l.Males != nil {
			m := *x.lot.Males + *l.Males
			x.lot.Males = &m
		} else {
			x.lot.Males = nil
		}
	}
	slices.SortStableFunc(out, func(x, y part) int {
		return cmp.Or(cmp.Compare(settled(x.a), settled(y.a)), cmp.Compare(y.a.Hardiness, x.a.Hardiness), cmp.Compare(temperRank[x.a.Temper], temperRank[y.a.Temper]),
			cmp.Compare(x.each, y.each), cmp.Compare(x.a.Code, y.a.Code))
	})
	return out
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

// loads returns the metabolic load of all in the end, and the load that the
// shares of purchases are taken of: at least that of a tank filled comfortably.
func (o Order) loads() (final, whole float64, err error) {
	all := slices.Concat(o.Now, o.Wish)
	kinds, ls, _, err := capacityInput(o.Home, all)
	if err != nil {
		return 0, 0, err
	}
	for i := range kinds {
		final += float64(kinds[i].count) * weightOf(kinds[i].Animal)
	}
	return final, final * max(1, green/fullness(ls, kinds)), nil
}

// fullness is the use of the governing rule among those that add animals up: one
// more takes nobody's length to swim.
func fullness(ls []limit, kinds []kind) float64 {
	use := 0.0
	for _, l := range ls {
		if !l.peak {
			use = max(use, l.use(l.demand(kinds)))
		}
	}
	return use
}

// full is how full the tank of an order is with a stock.
func (o Order) full(lots []Lot) (quantity.Ratio, error) {
	kinds, ls, _, err := capacityInput(o.Home, lots)
	return quantity.Ratio(fullness(ls, kinds)), err
}

// lay cuts the wish into steps and gives them dates.
func (p *Plan) lay(o Order, open bool, from time.Time) error {
	final, whole, err := o.loads()
	if err != nil {
		return err
	}
	parts, in := o.parts(), from
	have := map[Code]int{}
	for _, l := range o.Now {
		have[l.Code] += l.Count
	}
	pace := o.pace()
	stock := slices.Clone(o.Now)
	if p.Now, err = o.full(stock); err != nil {
		return err
	}
	for len(p.Steps) < mostSteps {
		n := len(p.Steps)
		s := nextStep(parts, have, whole, n == mostSteps-1)
		if len(s.Lots) == 0 {
			return nil
		}
		in, open = s.wait(o, n, in, open, p.Gate)
		for _, l := range s.Lots {
			have[l.Code] += l.Count
			s.Share += quantity.Ratio(float64(l.Count) * weightOf(load().by[l.Code]) / final)
		}
		stock = append(stock, s.Lots...)
		if s.Use, err = o.full(stock[:min(len(stock), MaxLots)]); err != nil {
			return err
		}
		s.In, s.Buy = in, in
		if o.Quarantine == Apart {
			s.Buy = in.Add(-quarantineTime)
		}
		s.Open = open && n == 0
		p.Steps = append(p.Steps, s)
		p.Done, in = in, in.Add(pace)
		if n == 0 && len(o.Now) == 0 && o.Matures != nil {
			if ripe := p.Done.Add(span(float64(*o.Matures))); ripe.After(in) {
				in = ripe
			}
		}
	}
	return nil
}

// pace is the time between two purchases.
func (o Order) pace() time.Duration {
	if o.Quarantine == Apart {
		return paceApart
	}
	return paceInTank
}

// span is so many seconds as a length of time.
func span(s float64) time.Duration { return time.Duration(s * float64(time.Second)) }

// wait finds out when a step may come, from when its turn is, whether it may now,
// and says what it waits for.
func (s *Purchase) wait(o Order, n int, in time.Time, open bool, g Gate) (time.Time, bool) {
	pace := o.pace()
	if n == 0 {
		s.Waits = append(s.Waits, g.Finding)
		if o.Ready != nil && o.Ready.After(o.At) {
			s.Waits = append(s.Waits, working.Find(working.Wait, "find.fish.step_ready").With("Time", ofTime(o.Ready.Sub(o.At).Seconds())))
		}
		if o.Last != nil && in.Before(o.Last.Add(pace)) {
			in = o.Last.Add(pace)
			s.Waits = append(s.Waits, working.Find(working.Wait, "find.fish.step_pace").With("Time", ofTime(pace.Seconds())))
		}
		if earliest := o.At.Add(quarantineTime); o.Quarantine == Apart && in.Before(earliest) {
			in = earliest
		}
		open = open && (o.Last == nil || !o.At.Before(o.Last.Add(pace)))
	} else {
		s.Waits = append(s.Waits, working.Find(working.Wait, "find.fish.step_tests"), working.Find(working.Wait, "find.fish.step_pace").With("Time", ofTime(pace.Seconds())))
		if n == 1 && len(o.Now) == 0 && o.Matures != nil && span(float64(*o.Matures)) > pace {
			s.Waits = append(s.Waits, working.Find(working.Wait, "find.fish.step_matures").With("Time", ofTime(float64(*o.Matures))))
		}
	}
	for _, l := range s.Lots {
		a := load().by[l.Code]
		least := settled(a)
		if o.Home.Age == nil || least == 0 {
			continue
		}
		if ripe := o.At.Add(span(least - float64(*o.Home.Age))); ripe.After(in) {
			in, open = ripe, false
			s.Waits = append(s.Waits, working.Find(working.Wait, "find.fish.step_settled").Word("A", l.Code.Name()).With("Least", ofTime(least)))
		}
	}
	return in, open
}

// nextStep takes a purchase out of what is left, a few kinds at most; the last
// step takes all.
func nextStep(parts []part, have map[Code]int, whole float64, last bool) Purchase {
	var s Purchase
	budget, most := stepShare*whole, groupShare*whole
	for i := range parts {
		x := &parts[i]
		n := x.left
		if !last {
			n = x.take(have[x.lot.Code], budget, most, len(s.Lots) == 0)
			if len(s.Lots) >= kindsAStep {
				n = 0
			}
		}
		if n == 0 {
			continue
		}
		if short := x.a.MinGroup - have[x.lot.Code]; n < x.left && n < short {
			s.Split = append(s.Split, working.Find(working.Wait, "find.fish.step_split").Word("A", x.lot.Code.Name()).
				With("Number", ofCount(float64(have[x.lot.Code]+n))).With("Least", ofCount(float64(x.a.MinGroup))))
		}
		s.Lots = append(s.Lots, x.cut(n))
		spent := float64(n) * x.each
		budget, most = budget-spent, min(most, budget)-spent // a second group keeps to the smaller share
	}
	return s
}

// take is how many of a part come with the next step: what the load allows, a
// whole group where it is not far beyond, and nobody of a group alone. Beside
// another kind it is that or nothing.
func (x *part) take(have int, budget, most float64, first bool) int {
	if x.left == 0 {
		return 0
	}
	fit := func(load float64) int { return min(x.left, int(math.Floor(max(0, load)/x.each*(1+slack)))) }
	n, short := fit(budget), min(x.left, x.a.MinGroup-have)
	switch {
	case short > 0 && n >= short, short <= 0 && n > 0: // the group stands
	case short > 0 && fit(most) >= short:
		return short
	case !first:
		return 0
	default: // parted, in pairs at least
		n = min(x.left, max(n, 1, min(2, x.a.MinGroup)))
	}
	if !first && n < min(x.left, 2) { // one alone is no second purchase
		return 0
	}
	if left := x.left - n; left == 1 && x.a.MinGroup > 1 { // nor is one left alone for later
		if n > max(2, short) {
			return n - 1
		}
		return n + 1
	}
	return n
}

// cut takes so many out of a part; males come in proportion.
func (x *part) cut(n int) Lot {
	l := x.lot
	l.Count, l.Planned = n, true
	if l.Males != nil {
		m := *l.Males
		if n < x.left {
			m = min(n, int(math.Round(float64(m)*float64(n)/float64(x.left))))
		}
		rest := *x.lot.Males - m
		l.Males, x.lot.Males = &m, &rest
	}
	x.left -= n
	return l
}
