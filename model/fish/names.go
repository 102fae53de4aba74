package fish

import (
	"regexp"
	"slices"
	"strings"
)

var (
	latinForm = regexp.MustCompile(`^[A-Z][a-z]+ (?:(?:cf|sp|spp)\.|[a-z]+)(?: (?:f\.|sp\.)| [a-z]+){0,3}(?: [0-9])?$`)
	inBracket = regexp.MustCompile(` \([^)]*\)$`)
)

// vernacular are last words of names of the trade that begin with a capital, such
// as Congo tetra, by which they are told from scientific names.
var vernacular = []string{"tetra", "salmler", "danio", "barb", "eater", "fox", "catfish", "loach", "fish", "fighter", "ram", "cichlid", "rainbow", "rainbowfish", "carp",
	"flagfish", "ricefish", "killifish", "bichir", "puffer", "shark", "shrimp", "snail", "frog", "guppy"}

// latin is a name without what stands in brackets behind it, and whether it is a
// scientific one.
func latin(name string) (string, bool) {
	bare := inBracket.ReplaceAllString(name, "")
	if !latinForm.MatchString(bare) {
		return bare, false
	}
	words := strings.Fields(bare)
	return bare, !slices.Contains(vernacular, words[len(words)-1])
}

// OldNames are the scientific names that a kind had, or that the trade sells it by.
func (a *Animal) OldNames() []string {
	var out []string
	for _, n := range a.Also {
		if bare, ok := latin(n); ok && !slices.Contains(out, bare) {
			out = append(out, bare)
		}
	}
	return out
}

// TradeNames are the names that the trade has for a kind in English, and its codes.
func (a *Animal) TradeNames() []string {
	var out []string
	for _, n := range a.Also {
		if bare, ok := latin(n); !ok && !slices.Contains(out, bare) {
			out = append(out, bare)
		}
	}
	return out
}

// Traits lists the traits: first what bars a kind from most tanks, then what it
// needs, then how it behaves.
func Traits() []Trait {
	return []Trait{LawCheck, NotSmallTanks, GrowsLarge, Alone, NeedsSalt, ColdWater, SoftOnly, HardOnly, MatureTank, Delicate, TallTank, NeedsFlow, NeedsSand, NeedsWood,
		BreathesAir, SoftPreferred, TakesSalt, TakesCool, NoCopper, Jumps, Escapes, EatsShrimp, EatsSnails, EatsPlants, MucusGrazer, Active, SlowSwimmer, SexRatio, Armoured, Nano}
}
