package fish

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// UsualProtein is the share of protein of a food whose label was not read.
const UsualProtein = quantity.Ratio(usualProtein)

// FoodsOf lists what suits an animal, from its diet, where it feeds, its mouth and
// how grown it is: the foods first, then how they are given. Common practice, no
// source.
func FoodsOf(a *Animal, s Stage) []working.Finding {
	var out []working.Finding
	add := func(k working.Key) { out = append(out, working.Find(working.Steady, k)) }
	if a.Group == Shrimp || a.Group == Snail {
		add("find.fish.food_grazes")
		return out
	}
	if s == Fry {
		add("find.fish.food_fry")
	}
	switch a.Diet {
	case Carnivore:
		add("find.fish.food_carnivore")
	case Herbivore:
		add("find.fish.food_herbivore")
	case Micro:
		add("find.fish.food_micro")
	default:
		add("find.fish.food_omnivore")
	}
	switch a.Zone {
	case Bottom:
		add("find.fish.food_bottom")
	case Top:
		add("find.fish.food_top")
	}
	if a.Mouth == TinyMouth && s != Fry {
		add("find.fish.food_tiny")
	}
	if a.Has(SlowSwimmer) {
		add("find.fish.food_slow")
	}
	return out
}
