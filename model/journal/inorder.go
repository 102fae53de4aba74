package journal

import (
	"math"
	"slices"
)

// order is how the readings of an entry follow one another: what was given and to whom,
// the tests as a card prints them, how much water, how long, how it ended.
var order = []string{NameFeed, NameCount, NamePart, NameWhat, NameLength, NameAmmonia, NameNitrite, NameNitrate, NamePH, NameKH, NameGH, NameVolume, NameTemperature,
	NameChlorine, NameOxygen, NamePhosphate, NameTDS, NameDose, NameDuration, NameState, NameReason, NameLeft}

// InOrder gives the readings of an entry in the order in which a person reads them; the
// daybook keeps them by name. Names that are in no order come last.
func (e Entry) InOrder() []Reading {
	at := func(r Reading) int {
		if i := slices.Index(order, r.Name); i >= 0 {
			return i
		}
		return math.MaxInt
	}
	out := slices.Clone(e.Readings)
	slices.SortStableFunc(out, func(a, b Reading) int { return at(a) - at(b) })
	return out
}
