package fish

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// The figures of the capacity rules.
const (
	// Length of slender fish a litre, cm. // common practice: one inch a US gallon
	lengthALitre = 0.67
	// Longest adult for which the length rule was made, cm. // common practice
	lengthRuleTo = 7.5
	// Surface a centimetre of fish, cm²: 12 square inches an inch in warm water, 24
	// to 30 in cold. // common practice, compared with Innes 1935
	surfaceWarm, surfaceCold = 30.0, 68.0
	// Fish that breathe air want half. Source: Innes 1935, labyrinth fish
	airBreathers = 0.5
	// A filter that ripples the surface carries half as many more. // common practice
	rippled = 1.5
	// Mass a litre at which to stop; 0.5 g/L is what to plan for. // common practice
	massALitre = 0.75 // g/L
	// Goldfish and big eaters count twice. // common practice, 0.25 g/L
	messy     = 2.0
	messyFrom = 20.0 // cm // judgement
	// Swimming and fed fish use twice what they use at rest. // from memory
	fedActive = 2.0
	// Transfer of oxygen through a still surface, m/h. From memory, within a factor
	// of two; the mass of an animal is known within 1.5 to 2, see doc.go. Together
	// that is a factor of 2.3: beyond it the oxygen refuses, up to it it warns.
	transfer   = 0.03
	oxygenOpen = 2.3
	// Oxygen that must be left, mg/L. Source: OATA 6 in everyday running; 5 with the
	// pump off is common practice.
	leastOxygen, leastOxygenOff = 6.0, 5.0
	// Dry food of a settled adult a day over its mass, protein in it, ammonia
	// nitrogen a gram of protein. Source: common practice; Timmons & Ebeling
	adultFood, usualProtein, ammoniaShare = 0.01, 0.42, 0.092
	// What filter media turn over, g N/(m²·d). Source: the lowest published, see
	// package heat
	nitrification = 0.2
	// Tank lengths over an adult's. // common practice
	swimLengths, swimActive, swimStill, swimWidth = 6.0, 10.0, 4.0, 2.0
	// Green up to here. // common practice
	green = 0.7
	// The unit of metabolic load: a neon of 3.5 cm.
	neonCode Code = "paracheirodon-innesi"
)

// Capacity is how much of what a tank carries is used. The smallest answer
// governs: the check with the largest use.
type Capacity struct {
	Verdict   Verdict           `json:"verdict"` // steady up to 70 %, wait up to 100 %, no beyond
	Governing working.Key       `json:"governing"`
	Use       quantity.Ratio    `json:"use"`
	Mass      quantity.Mass     `json:"mass"` // of all, adult
	Load      float64           `json:"load"` // metabolic, in neons of 3.5 cm
	Levels    []Level           `json:"levels"`
	Checks    []working.Check   `json:"checks"`      // governing first
	Cross     working.Check     `json:"length_rule"` // the familiar length rule: it never governs
	Findings  []working.Finding `json:"-"`
	Trail     *working.Trail    `json:"-"` // of the governing check
}

// Level is what share of the metabolic load a level of the water holds.
type Level struct {
	Zone  Zone           `json:"zone"`
	Share quantity.Ratio `json:"share"`
}

// limit is one rule: what each animal asks, and what there is.
type limit struct {
	name  working.Key
	per   func(*Animal) float64
	most  float64 // infinite where it does not bound
	peak  bool    // the largest asker counts, not the sum
	open  float64 // factor within which most is known; 0 is 1
	trail func(demand, use float64, lots []kind) *working.Trail
	value func(float64) quantity.Value
}

// needsAir reports whether a kind lives on air: labyrinth fish.
func needsAir(a *Animal) bool { return (a.Group == Gourami || a.Group == Betta) && a.Has(BreathesAir) }

func isMessy(a *Animal) bool { return a.has(bitCold) && a.Has(EatsPlants) || a.cm >= messyFrom }

// breathing is what an animal uses of the water's oxygen, swimming and fed, mg/h.
func breathing(a *Animal, t float64) float64 {
	r := fedActive * restingOxygen(a.grams, t)
	if needsAir(a) {
		r *= airBreathers
	}
	return r
}

// warmth is the temperature that capacity is reckoned at: the tank's, else the
// middle of what its animals share, else 25 °C.
func warmth(h Home, kinds []kind) float64 {
	if h.Water.Temperature != nil {
		return float64(*h.Water.Temperature)
	}
	j := judge{kinds: kinds}
	if low, high, ok := j.shared(&bandRules[0]); ok {
		return (low + high) / 2
	}
	return 25
}

// limits are the rules that the home has the figures for; missing names what is
// not known for the others.
func limits(h Home, kinds []kind) (out []limit, missing []working.Key, err error) {
	t := warmth(h, kinds)
	litres := h.net().Litres()
	temp := quantity.Temperature(t).Value()
	out = append(out, limit{name: "q.fish.check_mass", most: massALitre * litres, value: grams, per: func(a *Animal) float64 {
		if isMessy(a) {
			return messy * counted(a, t)
		}
		return counted(a, t)
	}, trail: func(d, u float64, _ []kind) *working.Trail {
		return working.New("ask.fish.mass").As(working.RuleOfThumb).Given("V", "q.fish.net", h.net().Value()).Given("t", "q.fish.temperature", temp).
			Constant("c", "q.fish.mass_a_litre", quantity.Density(massALitre).Value(), working.Trade).
			Constant("w_0", "q.fish.mass_small", grams(load().by[neonCode].grams), srcFBEst).
			Step("W", "q.fish.mass_counted", "W = Σ n·m·w_0·(a·L^b/w_0)^0.80·exp(5020/298.15 − 5020/T)", grams(d), srcClarke).
			Step("u", "q.fish.use", "u = W/(c·V)", ofShare(u), working.Trade).Within("q.fish.length", ofCM(2), ofCM(120)).
			Assume("assume.fish.adult", "assume.fish.large_less", "assume.fish.big_eaters", "assume.fish.weekly_change")
	}})
	area, known := h.surface()
	if known {
		sat, _, err := water.OxygenSaturation(quantity.Temperature(t), water.StandardPressure, 0)
		if err != nil {
			return nil, nil, err
		}
		out = append(out, surfaceLimit(area), airLimit(true, area, t, float64(sat)), airLimit(false, area, t, float64(sat)))
	} else {
		missing = append(missing, "q.fish.surface")
	}
	if h.Media != nil {
		out = append(out, limit{name: "q.fish.check_waste", most: nitrification * float64(*h.Media), value: func(x float64) quantity.Value { return quantity.MassRate(x).Value() },
			per: func(a *Animal) float64 { return adultFood * a.grams * usualProtein * ammoniaShare },
			trail: func(d, u float64, _ []kind) *working.Trail {
				return working.New("ask.fish.waste").As(working.RuleOfThumb).Given("A_m", "q.fish.media", h.Media.Value()).Given("t", "q.fish.temperature", temp).
					Constant("F", "q.fish.food_share", ofShare(adultFood), working.Trade).Constant("p", "q.fish.protein", ofShare(usualProtein), working.Trade).
					Constant("r", "q.fish.nitrification", quantity.MassRate(nitrification).Value(), working.Ours).
					Step("N", "q.fish.ammonia", "N = F·W·p·0.092", quantity.MassRate(d).Value(), srcTimmons).
					Step("u", "q.fish.use", "u = N/(r·A_m)", ofShare(u), working.Ours).Within("q.fish.temperature", ofTemp(4), ofTemp(35)).Assume("assume.fish.adult")
			}})
	} else {
		missing = append(missing, "q.fish.media")
	}
	if h.Length != nil {
		out = append(out, swimLimit("q.fish.check_swim", "ask.fish.swim", "q.fish.tank_length", float64(*h.Length), swimLengthsOf))
	} else {
		missing = append(missing, "q.fish.tank_length")
	}
	if h.Width != nil {
		out = append(out, swimLimit("q.fish.check_turn", "ask.fish.turn", "q.fish.tank_width", float64(*h.Width), func(*Animal) float64 { return swimWidth }))
	}
	return out, missing, nil
}

// counted is the mass of an animal by what it takes in and gives off: the grams
// of neons at 25 °C that use as much, W_0·(w/w_0)^0.80 and less in cool water. The
// grams a litre of the trade were made for small fish; by them as they stand, a
// pair of grown angelfish or goldfish would not fit a tank of 200 L.
func counted(a *Animal, celsius float64) float64 {
	small := load().by[neonCode]
	return small.grams * restingOxygen(a.grams, celsius) / restingOxygen(small.grams, 25)
}

// use is what a demand uses of a limit. Where the limit is known within a factor
// only, what is beyond the green counts less: all of it is used at that factor.
func (l limit) use(demand float64) float64 {
	u := demand / l.most
	if l.open > 1 && u > green {
		return green + (u-green)*(1-green)/(l.open-green)
	}
	return u
}

// upTo is the demand at which a share of a limit is used: the inverse of use.
func (l limit) upTo(share float64) float64 {
	if l.open > 1 && share > green {
		share = green + (share-green)*(l.open-green)/(1-green)
	}
	return share * l.most
}

func grams(x float64) quantity.Value { return quantity.Mass(x / 1000).Value() }

func surfaceLimit(area quantity.Area) limit {
	square := func(x float64) quantity.Value { return quantity.Area(x / 1e4).Value() }
	return limit{name: "q.fish.check_surface", most: float64(area) * 1e4 * rippled, value: square, per: func(a *Animal) float64 {
		switch {
		case !a.Swims():
			return 0
		case a.has(bitCold):
			return surfaceCold * a.cm
		case needsAir(a):
			return airBreathers * surfaceWarm * a.cm
		}
		return surfaceWarm * a.cm
	}, trail: func(d, u float64, kinds []kind) *working.Trail {
		t := working.New("ask.fish.surface").As(working.RuleOfThumb).Given("A", "q.fish.surface", area.Value()).
			Constant("k", "q.fish.rippled", ofShare(rippled), working.Trade).
			Step("A_w", "q.fish.surface_wanted", "A_w = Σ n·s·L", square(d), working.Trade).
			Step("u", "q.fish.use", "u = A_w/(k·A)", ofShare(u), working.Trade).Cites(srcInnes).
			Within("q.fish.length", ofCM(2), ofCM(30)).Assume("assume.fish.adult", "assume.fish.surface_each", "assume.fish.filter_on")
		return t
	}}
}

// airLimit weighs what the fish breathe against what crosses the surface, with the
// filter on or the pump off.
func airLimit(on bool, area quantity.Area, t, sat float64) limit {
	name, ask, k, least := working.Key("q.fish.check_pump_off"), working.Key("ask.fish.pump_off"), transfer, leastOxygenOff
	if on {
		name, ask, k, least = "q.fish.check_oxygen", "ask.fish.oxygen", transfer*rippled, leastOxygen
	}
	rate := func(x float64) quantity.Value { return quantity.MassRate(x * 24 / 1000).Value() } // mg/h
	supply := math.Max(0.1, k*float64(area)*(sat-least)*1000)
	return limit{name: name, most: supply, open: oxygenOpen, value: rate, per: func(a *Animal) float64 { return breathing(a, t) },
		trail: func(d, u float64, _ []kind) *working.Trail {
			return working.New(ask).As(working.RuleOfThumb).Given("A", "q.fish.surface", area.Value()).Given("t", "q.fish.temperature", quantity.Temperature(t).Value()).
				Constant("O", "q.fish.oxygen_least", quantity.Concentration(least).Value(), leastSource(on)).
				Constant("k", "q.fish.transfer", quantity.Velocity(k/3600).Value(), working.Ours).
				Step("O_s", "q.fish.oxygen_full", "ln O_s = −139.34411 + 1.575701e5/T − 6.642308e7/T² + 1.2438e10/T³ − 8.621949e11/T⁴", quantity.Concentration(sat).Value(), srcBenson).
				Step("S", "q.fish.oxygen_supply", "S = k·A·(O_s − O)", rate(supply), working.Ours).
				Step("R", "q.fish.oxygen_used", "R = Σ n·h·64·exp(15.7 − 5020/T)·(w/50 g)^0.80 mg/h", rate(d), srcClarke).
				Step("u", "q.fish.use", "u = R/S, u > 0.7: 0.7 + (R/S − 0.7)·0.3/(2.3 − 0.7)", ofShare(u), working.Ours).
				Within("q.fish.temperature", ofTemp(4), ofTemp(35)).Assume("assume.fish.adult", "assume.fish.fed_active", "assume.fish.transfer_rough")
		}}
}

func leastSource(on bool) working.SourceID {
	if on {
		return srcOATA
	}
	return working.Trade
}

// swimLengthsOf is how many of its own lengths a kind wants to swim.
func swimLengthsOf(a *Animal) float64 {
	switch {
	case !a.Swims():
		return 0
	case a.has(bitActive):
		return swimActive
	case a.Zone == Bottom && a.Build == FlatBed:
		return swimStill
	}
	return swimLengths
}

func swimLimit(name, ask, what working.Key, metres float64, lengths func(*Animal) float64) limit {
	metre := func(x float64) quantity.Value { return quantity.Length(x).Value() }
	return limit{name: name, most: metres, peak: true, value: metre, per: func(a *Animal) float64 {
		if !a.Swims() {
			return 0
		}
		return lengths(a) * a.cm / 100
	}, trail: func(d, u float64, kinds []kind) *working.Trail {
		return working.New(ask).As(working.RuleOfThumb).Given("l", what, metre(metres)).
			Step("l_w", "q.fish.swim_wanted", "l_w = max(k·L)", metre(d), working.Trade).
			Step("u", "q.fish.use", "u = l_w/l", ofShare(u), working.Trade).Within("q.fish.length", ofCM(2), ofCM(120)).Assume("assume.fish.adult", "assume.fish.own_lengths")
	}}
}

// demand is what a stock asks of a limit.
func (l limit) demand(kinds []kind) float64 {
	d := 0.0
	for i := range kinds {
		x := l.per(kinds[i].Animal)
		if l.peak {
			d = math.Max(d, x)
		} else {
			d += x * float64(kinds[i].count)
		}
	}
	return d
}

func (l limit) check(kinds []kind) working.Check {
	d := l.demand(kinds)
	u := l.use(d)
	return working.Graded(working.Check{Name: l.name, Use: u, Demand: l.value(d), Capacity: l.value(l.most), Trail: l.trail(d, u, kinds)}, green)
}

// CapacityOf says how full a tank is with all of a stock grown up, what is planned
// included, by every rule that the home's figures allow; the others are named as
// missing. Rules of thumb throughout. Errors: *working.Refusal, also of a
// temperature outside 4 to 35 °C.
func CapacityOf(h Home, lots []Lot) (Capacity, error) {
	kinds, ls, missing, err := capacityInput(h, lots)
	if err != nil {
		return Capacity{}, err
	}
	c := Capacity{}
	for _, l := range ls {
		c.Checks = append(c.Checks, l.check(kinds))
	}
	c.Checks = working.Governing(c.Checks)
	first := c.Checks[0]
	c.Governing, c.Use, c.Trail = first.Name, quantity.Ratio(first.Use), first.Trail
	c.Verdict = [...]Verdict{working.Steady: Steady, working.Wait: Wait, working.Act: No}[first.State]
	f := working.Find(first.State, [...]working.Key{"find.fish.capacity_steady", "find.fish.capacity_wait", "find.fish.capacity_no"}[c.Verdict]).
		Word("Rule", first.Name).With("Use", c.Use.Value())
	c.Findings = append(c.Findings, f)
	for _, m := range missing {
		f := working.Find(working.Steady, "find.fish.capacity_missing").Word("What", m)
		if m == "q.fish.media" {
			f.Code = "find.fish.capacity_media"
		}
		c.Findings = append(c.Findings, f)
	}
	neon := load().by[neonCode]
	c.Levels = []Level{{Zone: Top}, {Zone: Middle}, {Zone: Bottom}}
	all := 0.0
	for i := range kinds {
		k := &kinds[i]
		c.Mass += quantity.Mass(k.grams * float64(k.count) / 1000)
		n := float64(k.count) * math.Pow(k.grams/neon.grams, massExponent)
		c.Load, all = c.Load+n, all+n
		for z := range c.Levels {
			switch {
			case k.Zone == AllOf:
				c.Levels[z].Share += quantity.Ratio(n / 3)
			case k.Zone == c.Levels[z].Zone:
				c.Levels[z].Share += quantity.Ratio(n)
			}
		}
	}
	for z := range c.Levels {
		if all > 0 {
			c.Levels[z].Share /= quantity.Ratio(all)
		}
	}
	c.lengthRule(h, kinds)
	return c, nil
}

func capacityInput(h Home, lots []Lot) ([]kind, []limit, []working.Key, error) {
	if err := h.Accept(); err != nil {
		return nil, nil, nil, err
	}
	if t := h.Water.Temperature; t != nil {
		if err := working.InRange("temperature", "q.fish.temperature", t.Value(), ofTemp(4), ofTemp(35)); err != nil {
			return nil, nil, nil, err
		}
	}
	if err := acceptLots("lots", lots); err != nil {
		return nil, nil, nil, err
	}
	kinds := kindsOf(lots)
	ls, missing, err := limits(h, kinds)
	return kinds, ls, missing, err
}

// lengthRule works the familiar rule out and says where it fails.
func (c *Capacity) lengthRule(h Home, kinds []kind) {
	total := 0.0
	var worst *kind
	for i := range kinds {
		k := &kinds[i]
		if !k.Swims() {
			continue
		}
		total += k.cm * float64(k.count)
		if (k.cm > lengthRuleTo || k.Build == Deep) && (worst == nil || k.grams > worst.grams) {
			worst = k
		}
	}
	most := lengthALitre * h.net().Litres()
	u := total / most
	t := working.New("ask.fish.length_rule").As(working.RuleOfThumb).Given("V", "q.fish.net", h.net().Value()).
		Constant("c", "q.fish.length_a_litre", ofCM(lengthALitre), working.Trade).
		Step("S", "q.fish.length_total", "S = Σ n·L", ofCM(total), "").
		Step("u", "q.fish.use", "u = S/(c·V)", ofShare(u), working.Trade).
		Within("q.fish.length", ofCM(2), ofCM(lengthRuleTo)).Assume("assume.fish.adult", "assume.fish.slender")
	c.Cross = working.Graded(working.Check{Name: "q.fish.check_length", Use: u, Demand: ofCM(total), Capacity: ofCM(most), Trail: t}, green)
	if worst != nil {
		f := working.Find(working.Steady, "find.fish.length_rule_fails").Word("A", worst.Code.Name()).With("Length", worst.Length.Value()).With("Most", ofCM(lengthRuleTo)).
			With("Neons", ofCount(math.Round(math.Pow(worst.grams/load().by[neonCode].grams, massExponent))))
		c.Cross.Finding = &f
	}
}
