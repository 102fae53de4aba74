// Package quantity holds what a number of the aquarium means: its physical
// kind, its unit as a person typed it, and its value in one base unit per
// kind.
//
// Nouns:
//   - a Kind is a physical dimension with a purpose (a temperature point and a
//     temperature difference are two kinds);
//   - a Value is a number of a Kind in that kind's base unit (see Kind.Base):
//     SI throughout, except where the trade's unit is the clearer base:
//     temperature in degrees Celsius, concentration in mg/L, hardness in
//     mg/L as calcium carbonate, ratios as plain fractions;
//   - a Unit is a named exact factor (and offset) to the base unit;
//   - a Measure is what a person typed: the digits, the unit and, for nitrogen
//     compounds, the basis. It is what gets stored; a Value is always computed
//     from it, never from a rounded display.
//
// Defined types (Length, Volume, Mass, ...) keep the arguments of the
// calculations apart at compile time; each converts to a Value by its method.
//
// Validity: NaN and infinities are refused by Parse, Measure.Value and Finite.
// Sources: the factors are exact legal definitions (international yard and
// pound 1959; US gallon 231 cubic inches; imperial gallon 4.54609 L) or follow
// from IUPAC atomic masses where a comment says so.
package quantity
