// Package sick is what to do when a fish looks wrong: the signs that can be
// seen, how urgent they are, which water tests to make, what to do in the next
// hour, when to call a veterinarian, and what has changed at the tank lately.
//
// Nouns:
//   - a Sign is something that can be seen, with its Level and what follows from it;
//   - Seen is what a person ticked, how many fish show it and how the water stands;
//   - an Urgency is what follows: the governing sign first, then what raised it;
//   - a Change is something of the last fourteen days that may have to do with it.
//
// Contract: water first. No illness is ever named and nothing that treats one:
// that is for a veterinarian. Codes and typed values come out, never sentences;
// the code of a sign is the message sign.CODE, that of an act tick.sick.ACT, that
// of a safety note one of package care. Functions are pure: the time comes in.
package sick
