// Package fish answers which animals fit a tank: what they are, whether they get on, how many
// there may be, in which order and at what pace they come, how they grow and what they eat.
//
// Nouns:
//   - an Animal is a kind of the catalogue: its figures are recommendations, each with its
//     sources and how sure it is (From);
//   - a Lot is a number of one kind, swimming in the tank or planned. What is not known of it
//     (sexes, today's length) is left out and never taken for zero;
//   - a Home is the tank that they live in: volume by the label, water, sizes, temperature, age;
//   - a Clash is a rule that two animals, or an animal and the tank, run against, with the
//     number that clashed, its limit and one cure;
//   - a Verdict is steady, wait (with care) or no.
//
// Units are those of package quantity. Calculations return a working.Trail, or a
// *working.Refusal that names the field; on a refusal the other results mean nothing. NaN and
// infinities are refused and never returned. The package keeps no state, knows no clock and no
// language: an animal's name is the key Animal.Name.
//
// Validity: fresh and brackish water at home, adult lengths of 2 to 120 cm. The rules are common
// practice of the trade where no source is named; hardly any of them is proven. Size and mass
// are estimates: mass within a factor of 1.5 to 2, growth within a factor of 2. Nothing here
// names a disease or a medicine. Of the law it says that it is to be checked, never that a
// thing is allowed.
//
// Sources are registered in sources.go and named by each result.
package fish
