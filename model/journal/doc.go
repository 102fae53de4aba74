// Package journal holds what was seen and done at a tank: entries by civil day
// and time, with the values a person gave.
//
// Nouns:
//   - an Entry is one thing that happened: its Kind, when by the clock on the
//     wall (and the zone that clock was in), the values measured, a free note;
//   - a Reading is one measured value, kept as it was typed, with its unit,
//     basis and qualifier. A value that was not measured is absent; "not
//     detected" is a qualifier; neither is zero.
//
// Civil times never shift: an entry made at 08:10 reads 08:10 wherever the
// keeper travels. Order within a minute is the order of insertion.
package journal
