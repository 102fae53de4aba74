// Package water answers what the water of an aquarium is and what to do with
// it: density, ammonia, oxygen, carbon dioxide and pH, chlorine, the dose a
// label gives, water changes, the ways to bring fish home, and what test
// readings mean.
//
// Nouns:
//   - TAN is total ammonia nitrogen, always mg/L as nitrogen here; NH3 is its
//     un-ionised part, the part that harms fish;
//   - KH is carbonate hardness, taken as the alkalinity of the water;
//   - a Label is a dose as the bottle gives it. Doses never move from one
//     label to another;
//   - a Reading is one test as it was taken. A missing reading is not zero, and
//     neither is one below what the kit can see;
//   - Tests are the readings of one visit to the tank, which Interpret judges.
//
// Units are those of package quantity. Every calculation returns its result
// with a working.Trail, or a *working.Refusal that names the field and what is
// accepted; on a refusal the other results are zero and mean nothing. NaN and
// infinities are refused and never returned. The package keeps no state, knows
// no clock and no language.
//
// Validity: fresh water. Density and oxygen hold for 0 to 40 °C, ammonia for 0
// to 50 °C and pH 5 to 10, the carbonate system for 0 to 50 °C and pH 5 to 10
// at low ionic strength. Rules of thumb (hours of oxygen in a power cut, bag
// times, safe steps of temperature or pH) carry a range and say so.
//
// Sources are registered in sources.go and named by each result.
package water
