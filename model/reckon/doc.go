// Package reckon is the calculations of the domain by name, with JSON in and out.
//
// Contract:
//   - every calculation of packages tank, load, heat, water, nitrogen and fish has one
//     dotted name and one worked example; Names lists them;
//   - input is one JSON object. A quantity is an object {"value": 57, "unit":
//     "l"} with a unit code of package quantity; a concentration of a nitrogen
//     compound also gives its "basis", "n" or "ion". A plain number stands only
//     where there is no dimension. A choice is a text, a condition true or false.
//     A field that is not known is left out, never null, never zero;
//   - reading is strict: an unknown, missing or repeated field, another kind of
//     unit, a number that is none, a value out of range, something behind the
//     object, more than MaxInput bytes, more than MaxDepth levels are refused.
//     A refusal names the field by its path ("tank.length", "plugs[2].power"; "$"
//     is the whole input), a code, and what would be accepted;
//   - output is one JSON object with the fields that Schema describes, all of
//     them always there: the figure ("result" in "unit", "of" what, with its
//     "spread"), all "values", the "working", "sources", "findings", "checks" and
//     "refused", null when nothing was; an input in the working that was given as
//     a quantity also has what was "typed": its digits, unit and basis;
//   - the schemas are JSON Schema 2020-12, made from the very definitions by
//     which input and output are read and written.
//
// Nouns: a Calculation is one name; a shape is what JSON a Go type takes, found
// by reflection and by the rules in rules.go for what a Go type does not say.
//
// Units: output counts in base units of package quantity, but volumes are in
// litres and flows in litres an hour. Numbers are rounded to twelve significant
// figures. NaN and infinities neither enter nor leave.
//
// The package knows no language: keys stand for texts, and a caller that has
// words adds them through Text.
package reckon
