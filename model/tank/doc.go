// Package tank is the glass box and what is in it: shapes, volumes, contents
// and the mass of the whole, part by part.
//
// Nouns:
//   - a Tank is an empty vessel with outer sizes and the thickness of its
//     panels;
//   - a Nominal is a size as the trade sells it, with usual thickness;
//   - Contents is what goes in: substrate, rock, wood, ornaments, equipment,
//     and how far below the rim the water stands;
//   - Full is the set-up tank, measured: volumes, masses, heights.
//
// Units: SI base units in defined types of package quantity. Outer sizes run
// from 0.05 m to 5 m; water from 0 to 40 °C.
//
// The upper mass is the one for every structural check: brimful, and ten or
// twenty per cent above the figure, by how well the sizes are known.
//
// Refusals: Tank.Check lists every input that is not accepted; Measure returns
// the first as an error. Nothing is guessed: a thickness that is not known is
// filled in by UsualThickness on the caller's decision.
//
// Sources: exact solid geometry; EN 572-1 for glass; Tanaka et al. 2001 for
// water; handbook densities for stone; trade tables for nominal sizes. The
// register of package working holds each with its origin.
package tank
