// Package care is First fill: what is asked at each of its ten steps, what the
// answers come to, which step is open and what it waits for, and the safety
// notes as data.
//
// Nouns:
//   - a Field is one thing that is asked, with what is believable and what is
//     proposed; an Answer is what stands in it, exactly as given;
//   - a Record is all that is known of one tank; Facts reads a Record and
//     computes from it, each thing once;
//   - a Page is one step as it stands: fields, the number that matters, limits,
//     verdict, ticks, notes, working, and what still blocks it;
//   - a Step is shut, open, finished or reopened. It opens by what makes it safe,
//     not by pages seen, and is reopened by a change of an answer it relied on;
//   - a Note is a safety note: hazard, consequence, avoidance by message key, its
//     severity by the open sign standards, and its sources.
//
// Contract: no field is without a proposal unless it may stay empty; nothing is
// computed from an answer that is refused; no number that is not one leaves the
// package; time comes in through Record.Now. Units are those of package quantity.
//
// Validity: that of the packages the figures come from (tank, load, heat, water,
// nitrogen). Common practice of the trade and our own judgement are marked so
// where they stand. Sources: see the register of package working.
package care
