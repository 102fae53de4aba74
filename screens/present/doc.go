// Package present turns what the keeper answers into what a page shows: texts in
// the person's language and units, rows, bars, series. It knows no toolkit, so
// most of what a page says is tested here.
//
// Nouns: each type is a part of a page as text, filled from the value of the
// same name in package care or keeper. Nothing here computes: a number arrives
// computed and leaves formatted by package i18n.
package present
