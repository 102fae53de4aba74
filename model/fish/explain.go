package fish

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// saying is a finding in the making, its values set without copies.
type saying struct{ working.Finding }

func (s saying) value(name string, v quantity.Value) saying {
	if s.Values == nil {
		s.Values = make(map[string]quantity.Value, 4)
	}
	s.Values[name] = v
	return s
}

func (s saying) word(name string, k working.Key) saying {
	if s.Words == nil {
		s.Words = make(map[string]working.Key, 2)
	}
	s.Words[name] = k
	return s
}

func say(v Verdict, code working.Key) saying { return saying{working.Find(v.State(), code)} }

// Values by the unit in which the rules count.
func ofCM(x float64) quantity.Value      { return quantity.Length(x / 100).Value() }
func ofTemp(x float64) quantity.Value    { return quantity.Temperature(x).Value() }
func ofPH(x float64) quantity.Value      { return quantity.PH(x).Value() }
func ofDegrees(x float64) quantity.Value { return quantity.Hardness(x * degree).Value() }
func ofCount(x float64) quantity.Value   { return quantity.Count(x).Value() }
func ofShare(x float64) quantity.Value   { return quantity.Ratio(x).Value() }
func ofTank(x float64) quantity.Value    { return quantity.Volume(x).Value() }
func ofTime(x float64) quantity.Value    { return quantity.Time(x).Value() }

// explain puts a note into findings: what it is, and one thing to do about it.
func (j *judge) explain(n note) Clash {
	c := Clash{Rule: n.rule, Verdict: n.verdict, A: n.a.Code, B: codeOf(n.b), Today: n.today}
	f := say(n.verdict, n.says).word("A", n.a.name)
	if n.b != nil {
		f = f.word("B", n.b.name)
	}
	var cure saying
	switch n.rule {
	case Temperature, Acidity, Hardness:
		f, cure = j.explainBand(n, f, &c)
	case Law:
		f, cure = f.word("Law", LawOf(n.a.Code)), say(Wait, "find.fish.cure_law").word("A", n.a.name)
	case TankSize:
		c.Measured, c.Limit = ofTank(n.x), ofTank(n.limit)
		f = f.value("Tank", c.Measured).value("Least", c.Limit).value("Length", n.a.Length.Value())
		cure = say(Wait, "find.fish.cure_tank").value("Least", c.Limit).word("A", n.a.name)
	case Salt:
		cure = leaveOut(n)
		if n.says == "find.fish.salt_needed" {
			cure = say(Wait, "find.fish.cure_salt").word("A", n.a.name)
		}
	case ColdAndWarm:
		c.Measured, c.Limit = ofTemp(n.x), ofTemp(n.limit)
		f, cure = f.value("High", c.Measured).value("Low", c.Limit), leaveOut(n)
	case Eaten:
		f, cure = j.explainEaten(n, f, &c)
	case Aggression:
		f, cure = j.explainAggression(n, f, &c)
	case TankAge:
		cure = say(Wait, "find.fish.cure_cycle").word("A", n.a.name)
		if n.says != "find.fish.fishless" {
			c.Limit = ofTime(n.limit)
			f = f.value("Least", c.Limit)
			cure = say(Wait, "find.fish.cure_wait").word("A", n.a.name).value("Time", ofTime(n.limit-n.x))
		}
		if n.says == "find.fish.tank_young" {
			c.Measured = ofTime(n.x)
			f = f.value("Age", c.Measured)
		}
	default:
		f, cure = j.explainNumbers(n, f, &c)
	}
	c.Says, c.Advises = f.Code, cure.Code
	c.Finding, c.Cure = &f.Finding, &cure.Finding
	return c
}

// explainBand tells of a figure of the water.
func (j *judge) explainBand(n note, f saying, c *Clash) (saying, saying) {
	of, r := ofTemp, &bandRules[0]
	cure := working.Key("find.fish.cure_set_temp")
	switch n.rule {
	case Acidity:
		of, r, cure = ofPH, &bandRules[1], "find.fish.cure_set_ph"
	case Hardness:
		of, r, cure = ofDegrees, &bandRules[2], "find.fish.cure_set_gh"
	}
	c.Measured = of(n.x)
	if n.b == nil { // the tank's water
		s := r.of(n.a.Animal)
		f = f.value("Now", c.Measured).value("Low", of(s[0])).value("High", of(s[1]))
		c.Limit = of(s[0])
		if n.x > s[1] {
			c.Limit = of(s[1])
		}
		if low, high, ok := j.shared(r); ok && n.rule == Temperature {
			return f, hold(n.rule, cure, of(low), of(high))
		}
		return f, say(Wait, "find.fish.cure_suits").word("A", n.a.name)
	}
	c.Limit = of(n.limit)
	if n.says == r.narrow && n.rule == Temperature && n.limit-n.x < narrowTemp/2 {
		f.Code = "find.fish.temp_only"
		return f.value("Low", c.Measured), hold(n.rule, cure, c.Measured, c.Limit)
	}
	if n.says == r.narrow {
		return f.value("Low", c.Measured).value("High", c.Limit), hold(n.rule, cure, c.Measured, c.Limit)
	}
	return f.value("High", c.Measured).value("Low", c.Limit), leaveOut(n)
}

// hold says to keep the water within a band, or at the one temperature that is left.
func hold(r Rule, cure working.Key, low, high quantity.Value) saying {
	if r == Temperature && high.X-low.X < narrowTemp/2 {
		return say(Wait, "find.fish.cure_hold_temp").value("Low", low)
	}
	return say(Wait, cure).value("Low", low).value("High", high)
}

// shared is the band that all kinds have in common.
func (j *judge) shared(r *bandRule) (low, high float64, ok bool) {
	low, high = math.Inf(-1), math.Inf(1)
	for i := range j.kinds {
		s := r.of(j.kinds[i].Animal)
		low, high = max(low, s[0]), min(high, s[1])
	}
	return low, high, low <= high && len(j.kinds) > 0
}

// explainEaten tells who fits whose mouth.
func (j *judge) explainEaten(n note, f saying, c *Clash) (saying, saying) {
	c.Measured, c.Limit = ofShare(n.x), ofShare(n.limit)
	acm, bcm := n.a.cm, n.b.cm
	if n.today {
		acm, bcm = n.a.large, n.b.small
	} else if n.a.today || n.b.today {
		q := swallow(n.b.Animal, n.b.small, n.a.large)
		if v := eatenAt(n.a.Animal, q); v < n.verdict {
			now := say(v, "find.fish.eaten_later").word("A", n.a.name).word("B", n.b.name).value("LengthA", ofCM(n.a.large)).value("LengthB", ofCM(n.b.small)).value("Share", ofShare(q)).Finding
			c.Now = &now
		}
	}
	f = f.value("LengthA", ofCM(acm)).value("LengthB", ofCM(bcm)).value("Share", c.Measured).value("Most", c.Limit)
	// So long must the other be to count as too large a mouthful.
	safe := bcm * n.limit / n.x
	if n.today && n.b.cm > safe {
		return f, say(Wait, "find.fish.cure_grow").word("B", n.b.name).value("Length", ofCM(safe))
	}
	return f, say(Wait, "find.fish.cure_longer").word("A", n.a.name).value("Length", ofCM(n.a.cm*n.limit))
}

// explainAggression tells who drives whom.
func (j *judge) explainAggression(n note, f saying, c *Clash) (saying, saying) {
	switch n.says {
	case "find.fish.bottom_held":
		c.Measured, c.Limit = ofTank(n.x), ofTank(n.limit)
		return f.value("Tank", c.Measured).value("Least", c.Limit), say(Wait, "find.fish.cure_tank").value("Least", c.Limit).word("A", n.a.name)
	case "find.fish.rasps":
		return f, leaveOut(n)
	}
	c.Measured, c.Limit = ofCM(n.x), ofCM(n.limit)
	f = f.value("LengthA", c.Measured).value("LengthB", c.Limit)
	if n.verdict == Wait {
		return f, say(Wait, "find.fish.cure_hides").word("B", n.b.name)
	}
	return f, leaveOut(n)
}

// explainNumbers tells of counts and of what is no number at all.
func (j *judge) explainNumbers(n note, f saying, c *Clash) (saying, saying) {
	a := n.a.name
	switch n.says {
	case "find.fish.group":
		c.Measured, c.Limit = ofCount(n.x), ofCount(n.limit)
		return f.value("Number", c.Measured).value("Least", c.Limit), say(Wait, "find.fish.cure_more").word("A", a).value("Least", c.Limit)
	case "find.fish.fins_few":
		c.Measured, c.Limit = ofCount(n.x), ofCount(n.limit)
		return f.value("Number", c.Measured).value("Least", c.Limit), leaveOut(n)
	case "find.fish.sex_ratio":
		c.Measured, c.Limit = ofCount(n.x), ofCount(n.limit)
		return f.value("Males", c.Measured).value("Females", c.Limit), say(Wait, "find.fish.cure_females").word("A", a).value("Females", ofCount(femalesEach*n.x))
	case "find.fish.males":
		c.Measured, c.Limit = ofCount(n.x), ofCount(1)
		return f.value("Males", c.Measured), say(Wait, "find.fish.cure_one_male").word("A", a)
	case "find.fish.sexes_unknown":
		return f, say(Wait, "find.fish.cure_one_male").word("A", a)
	case "find.fish.rivals":
		c.Measured, c.Limit = ofCount(n.x), ofCount(1)
		if isCichlid(n.a.Animal) {
			c.Limit = ofCount(2)
			return f.value("Number", c.Measured), say(Wait, "find.fish.cure_pair").word("A", a)
		}
		return f.value("Number", c.Measured), say(Wait, "find.fish.cure_one").word("A", a)
	case "find.fish.level":
		c.Measured, c.Limit = ofShare(n.x), ofShare(n.limit)
		return f.value("Share", c.Measured).word("Level", levelWord(n.a.Zone)), say(Steady, "find.fish.cure_level").word("Level", levelWord(n.a.Zone))
	case "find.fish.pace":
		return f, say(Wait, "find.fish.cure_feed_apart").word("B", n.b.name)
	case "find.fish.shrimp_risk", "find.fish.shrimp_young":
		return f, say(n.verdict, "find.fish.cure_cover").word("B", n.b.name)
	}
	return f, leaveOut(n)
}

// leaveOut is the cure of last resort: the one that is only planned stays away;
// of two alike, the one that runs against more of the others; then b.
func leaveOut(n note) saying {
	out := n.a
	if n.b != nil {
		out = n.b
		switch {
		case n.a.planned != n.b.planned:
			if n.a.planned {
				out = n.a
			}
		case n.a.hard > n.b.hard:
			out = n.a
		}
	}
	return say(Wait, "find.fish.cure_leave_out").word("A", out.name)
}

// levelWord names a level of the water.
func levelWord(z Zone) working.Key {
	switch z {
	case Top:
		return "word.fish.level_top"
	case Bottom:
		return "word.fish.level_bottom"
	}
	return "word.fish.level_middle"
}

// LawOf is why the law is to be checked for a kind with LawCheck. Source: the EU's Union list (2016,
// 2022, 2025) for three; the others from memory.
func LawOf(c Code) working.Key {
	switch c {
	case "misgurnus-anguillicaudatus", "marisa-cornuarietis", "procambarus-virginalis":
		return "word.fish.law_union"
	case "pomacea-diffusa":
		return "word.fish.law_plants"
	case "hypancistrus-zebra":
		return "word.fish.law_trade"
	}
	return "word.fish.law_states"
}
