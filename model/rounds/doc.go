// Package rounds is what recurs at a tank: the rule by which it recurs, how each
// occurrence stands, the usual rounds proposed for a tank, and times away.
//
// Nouns:
//   - a Rule is a recurrence rule of RFC 5545 by days, weeks, months or years,
//     kept as its text; Plain is the part of it that a person sets by hand;
//   - a Round is something that recurs: which of the usual ones (Code) or one of
//     the person's own, its Rule and the civil time of its first occurrence;
//   - an Occurrence is one time it is due; Handled says that it was done or
//     skipped; a Standing is how a round stands now;
//   - a Proposal is one of the usual rounds with its reasons and its working;
//   - a Span is a time away, when somebody else looks after the tank.
//
// Contract: times are civil (floating, RFC 5545 section 3.3.5): a round at 08:00
// is at 08:00 wherever the clock on the wall is, over every change of it. An
// occurrence is known by its civil time. What was done never comes back by
// itself; doing late moves nothing unless asked. However many occurrences were
// missed, only the newest is shown, with their number. The time comes in.
//
// Validity: MaxYears from the start of a round; at most MaxADay a day. Intervals of the usual rounds are common
// practice of the trade, but for the water change, which is computed.
package rounds
