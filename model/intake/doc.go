// Package intake reads a table that somebody else made into entries of the
// daybook: any CSV, from any program, by any hand.
//
// Contract:
//
//   - Read takes any bytes at all. It finds the separator, the decimal mark and a
//     heading by itself, keeps the number of the line on which each row begins, and
//     refuses with a *working.Refusal what is no text in UTF-8 or larger than the
//     limits; memory is bounded by them.
//   - Guess proposes what each column means, from our own export and from headings
//     in the languages that the caller knows. A person may change any of it: the
//     Plan is data. Doubt tells where the table itself does not decide whether 03/04
//     is in March or in April.
//   - Entries makes entries by a Plan. Every row is told of by its line: it became
//     part of an entry, or was refused and why. Nothing is guessed beyond the Plan: a
//     number that can be read in two ways, or a value that no tank has, is refused.
//
// Nouns: a Sheet is the table as text; an As is what a column means; a Plan is the
// As of every column with the order of dates. No clock: the present and the zone
// of the wall clock come in with Hints.
package intake
