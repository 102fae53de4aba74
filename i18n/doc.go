// Package i18n turns what the program knows into what a person reads: words,
// numbers, units, dates, findings and the working behind a figure, in the
// person's language and in the units they chose. Language and units are
// independent of each other.
//
// Nouns:
//   - a message is one text under a key, kept in messages/AREA.LANG.toml; keys
//     are flat and quoted, plural messages are tables with the categories that
//     CLDR asks of the language;
//   - Words are one person's language, region and system of units. They are
//     immutable, cheap to make and safe for use by several goroutines;
//   - Args fill the placeholders of a message: {{.Name}};
//   - a Purpose tells units of one kind apart: glass is in millimetres, a tank's
//     length in centimetres or inches.
//
// Promises:
//   - a number shown is never more exact than three significant figures, never
//     carries a decimal that is not there, and always has its unit. What is
//     shown can be typed back: quantity.Parse reads it in the same Reading;
//   - thousands are set off by a no-break space (ISO 80000-1), never by a comma
//     or a point, which would be a decimal mark in another language;
//   - a message that is missing shows in English, and failing that as its key
//     between guillemets; both are recorded for the tests (Missing);
//   - a language is offered only when every message of it is there.
//
// Rules for the messages: short sentences, "you" (Spanish: tú), the trade's own
// words, no exclamation marks, no praise. What tells a person how to act safely
// (keys note., step., tick.) keeps to twenty words a sentence, has no
// parentheses and no "should".
//
// Sources: plural rules, month and weekday names, decimal marks and currency
// symbols are Unicode CLDR data.
package i18n
