package fish

const (
	// A peaceful fish up to this share of an aggressive one's length is driven. //
	// common practice, no source; so are the next two
	smallBeside = 0.6
	// A semi-aggressive fish so much longer than a peaceful one at its level.
	longBeside = 1.5
	// Two that hold a place on the bottom want this much tank, m³.
	bottomRoom = 0.120
	// Gouramis from this length on hold a territory, cm.
	territorial = 5.0
)

// meet reports whether two swim at the same level.
func meet(a, b *Animal) bool { return a.Zone == b.Zone || a.Zone == AllOf || b.Zone == AllOf }

// isCichlid reports whether a kind lives in bonded pairs.
func isCichlid(a *Animal) bool {
	return a.Group == Cichlid || a.Group == DwarfCichlid || a.Group == Angelfish
}

// holdsBottom reports whether a kind claims a place on the bottom.
func holdsBottom(a *Animal) bool {
	return a.IsFish() && a.Zone == Bottom && (a.Rivalry != NoRivals || a.Temper == SemiAggressive || a.Temper == Aggressive)
}

// pair holds the rules in which a does something to b.
func (j *judge) pair(a, b *kind) {
	j.salts(a, b)
	j.eats(a, b)
	j.invertebrates(a, b)
	if a.has(bitAlone) {
		j.note(note{rule: OwnKindOnly, verdict: No, a: a, b: b, says: "find.fish.own_kind"})
	}
	if !a.Swims() || !b.Swims() {
		return
	}
	j.fins(a, b)
	j.aggression(a, b)
	if a.has(bitActive) && b.has(bitSlow) {
		j.note(note{rule: Pace, verdict: Wait, a: a, b: b, says: "find.fish.pace"})
	}
	if a.Group == Betta && b.Group == Gourami {
		j.note(note{rule: Alike, verdict: No, a: a, b: b, says: "find.fish.alike"})
	}
	if a.Group == Betta && b.Group == Livebearer && b.LongFins && b.cm <= a.cm {
		j.note(note{rule: Alike, verdict: Wait, a: a, b: b, says: "find.fish.alike"})
	}
}

// fins: a nips the fins of b.
func (j *judge) fins(a, b *kind) {
	if !a.NipsFins || !b.LongFins {
		return
	}
	switch {
	case a.count < a.MinGroup:
		j.note(note{rule: Fins, verdict: No, a: a, b: b, says: "find.fish.fins_few", x: float64(a.count), limit: float64(a.MinGroup)})
	case a.Temper != Peaceful:
		j.note(note{rule: Fins, verdict: No, a: a, b: b, says: "find.fish.fins"})
	default:
		j.note(note{rule: Fins, verdict: Wait, a: a, b: b, says: "find.fish.fins_risk"})
	}
}

// aggression: a drives b.
func (j *judge) aggression(a, b *kind) {
	n := note{rule: Aggression, a: a, b: b, x: a.cm, limit: b.cm}
	switch {
	case a.Temper == Aggressive && b.Temper != Aggressive:
		n.verdict, n.says = Wait, "find.fish.rough"
		if meet(a.Animal, b.Animal) || b.Temper == Peaceful && b.cm <= smallBeside*a.cm {
			n.verdict, n.says = No, "find.fish.aggression"
		}
		j.note(n)
	case a.Temper == Predatory && isCichlid(a.Animal) && b.Temper != Predatory && b.Temper != Aggressive && meet(a.Animal, b.Animal) && a.cm >= longBeside*b.cm:
		// A large cichlid holds a territory too; works differ on how hard. // judgement
		n.verdict, n.says = Wait, "find.fish.rough"
		j.note(n)
	case a.Temper == SemiAggressive && b.Temper == Peaceful && meet(a.Animal, b.Animal) && a.cm >= longBeside*b.cm:
		n.verdict, n.says = Wait, "find.fish.rough"
		j.note(n)
	}
	if a.has(bitMucus) && b.Build == Deep {
		j.note(note{rule: Aggression, verdict: No, a: a, b: b, says: "find.fish.rasps"})
	}
}

// bothWays holds the rules in which neither does more to the other.
func (j *judge) bothWays(a, b *kind) {
	if holdsBottom(a.Animal) && holdsBottom(b.Animal) && float64(j.home.Tank) < bottomRoom {
		j.note(note{rule: Aggression, verdict: Wait, a: a, b: b, says: "find.fish.bottom_held", x: float64(j.home.Tank), limit: bottomRoom})
	}
	if a.Group == SharkMinnow && b.Group == SharkMinnow && (a.Rivalry == AllRivals || b.Rivalry == AllRivals) {
		j.note(note{rule: Alike, verdict: No, a: a, b: b, says: "find.fish.alike"})
	}
	holds := func(k *kind) bool { return k.Group == Gourami && k.Rivalry != NoRivals && k.cm >= territorial }
	if holds(a) && holds(b) && (a.Temper == SemiAggressive || b.Temper == SemiAggressive) {
		j.note(note{rule: Alike, verdict: Wait, a: a, b: b, says: "find.fish.alike"})
	}
}

// rivals: a kind among itself.
func (j *judge) rivals(k *kind) {
	n := note{rule: Rivals, a: k, x: float64(k.count)}
	switch {
	case k.count < 2 || k.Rivalry == NoRivals:
		return
	case k.Group == Betta && k.males == 1: // he drives her too, but for spawning
		n.verdict, n.says = Wait, "find.fish.rivals"
	case k.Rivalry == MaleRivals && k.males < 0:
		n.says = "find.fish.sexes_unknown"
		if k.Temper != Peaceful {
			n.verdict = Wait
		}
	case k.Rivalry == MaleRivals && k.males >= 2:
		n.verdict, n.says, n.x = Wait, "find.fish.males", float64(k.males)
		if k.Group == Betta {
			n.verdict = No
		}
	case k.Rivalry == MaleRivals, isCichlid(k.Animal) && k.count == 2 && (k.males < 0 || k.males == 1):
		return
	case !isCichlid(k.Animal) && k.Temper == Aggressive:
		n.verdict, n.says = No, "find.fish.rivals"
	default:
		n.verdict, n.says = Wait, "find.fish.rivals"
	}
	j.note(n)
}
