// Package load screens what carries a tank: the stand, the floor and the glass.
//
// Nouns:
//   - a Load is the tank as a load: mass, footprint, how it bears;
//   - a Stand is one of three kinds: bought with a rating, own furniture, or a
//     self-built frame;
//   - an Assessment is the verdict: checks with the governing one first, what
//     would cure it, cautions, and forces for the drawing.
//
// It is screening for a beginner, never design or approval. A size or material
// that is not known counts as the worst that is usual, and whatever decides
// and is not known keeps the verdict from steady.
// Structural checks take the upper mass (see tank.Full.Upper), 1.35 on
// permanent load against long-term design strength, and W/2 in each leg for a
// stand that rocks on two of four feet.
//
// Units: SI in defined types of package quantity. Validity stands with each
// function; outside it a *working.Refusal is returned, never a number.
//
// Sources: EN 1995-1-1, EN 338, EN 12369-1, EN 1993-1-1, AWC NDS, AISC 360,
// EN 16612, ASCE 7 and IRC tables, NIOSH 94-110, and plate coefficients solved
// for this program. The register of package working holds each with its origin.
package load
