package fish

import "example.org/driploop/model/working"

// gapes are the largest prey over the predator's length. Source: medium and large
// bracket the 32 to 46 % of Gaeta et al. 2018; tiny and small are common practice.
var gapes = map[Mouth]float64{TinyMouth: 0.10, SmallMouth: 0.20, MediumMouth: 0.33, LargeMouth: 0.50}

const (
	// Deep or armoured prey is as hard to swallow as one so much longer. // common
	// practice, after Mihalitsis & Bellwood 2017 on body depth
	hardToSwallow = 1.3
	// Up to this share of their length predators eat every day. Source: Gaeta et
	// al. 2018, median 10 to 20 %
	everyday = 0.20
	// A fish of this length takes shrimp whatever its temper, cm. // common practice
	shrimpEater = 12.0
	// Half-grown shrimp are this share of adult ones. // common practice
	halfGrown = 0.5
)

// swallow is the share of a's length that b's body counts for.
func swallow(b *Animal, bcm, acm float64) float64 {
	if b.Build == Deep || b.has(bitArmoured) {
		bcm *= hardToSwallow
	}
	return bcm / acm
}

// eatenAt is the verdict on a eating b at some lengths.
func eatenAt(a *Animal, q float64) Verdict {
	g := gapes[a.Mouth]
	switch {
	case q > g:
		return Steady
	case a.Temper == Predatory, a.Temper == Aggressive, q <= everyday && (a.Mouth == MediumMouth || a.Mouth == LargeMouth):
		return No
	}
	return Wait
}

// eats holds a as the one that eats against b, at adult sizes and at today's: the
// young of b with the largest of a.
func (j *judge) eats(a, b *kind) {
	if a.Group == Shrimp || a.Group == Snail || !b.Swims() {
		return
	}
	q := swallow(b.Animal, b.cm, a.cm)
	adult := eatenAt(a.Animal, q)
	if adult != Steady {
		j.note(note{rule: Eaten, verdict: adult, a: a, b: b, says: saysEaten(adult, false), x: q, limit: gapes[a.Mouth]})
	}
	if !a.today && !b.today {
		return
	}
	q = swallow(b.Animal, b.small, a.large)
	if now := eatenAt(a.Animal, q); now > adult {
		j.note(note{rule: Eaten, verdict: now, a: a, b: b, says: saysEaten(now, true), x: q, limit: gapes[a.Mouth], today: true})
	}
}

// invertebrates holds a against b, a shrimp or a snail.
func (j *judge) invertebrates(a, b *kind) {
	switch {
	case b.Group == Snail && a.has(bitEatsSnails):
		j.note(note{rule: Invertebrates, verdict: No, a: a, b: b, says: "find.fish.snails"})
	case b.Group != Shrimp || a.Group == Shrimp || a.Group == Snail:
	case a.has(bitEatsShrimp) && (a.Temper == Predatory || a.Temper == Aggressive || a.cm >= shrimpEater):
		j.note(note{rule: Invertebrates, verdict: No, a: a, b: b, says: "find.fish.shrimp"})
	case a.has(bitEatsShrimp), b.cm*halfGrown <= gapes[a.Mouth]*a.cm:
		j.note(note{rule: Invertebrates, verdict: Wait, a: a, b: b, says: "find.fish.shrimp_risk"})
	case a.IsFish() && !isOtocinclus(a.Animal):
		j.note(note{rule: Invertebrates, verdict: Steady, a: a, b: b, says: "find.fish.shrimp_young"})
	}
}

// isOtocinclus: the one fish that leaves the youngest shrimp alone. // common practice
func isOtocinclus(a *Animal) bool { return a.Code == "otocinclus-vittatus" }

// saysEaten is what is said of a being eaten.
func saysEaten(v Verdict, today bool) working.Key {
	switch {
	case today && v == No:
		return "find.fish.eaten_today"
	case today:
		return "find.fish.may_eat_today"
	case v == No:
		return "find.fish.eaten"
	}
	return "find.fish.may_eat"
}
