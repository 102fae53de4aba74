// Package weeks draws a plan over weeks: time from left to right, above it how
// full the tank becomes step by step under the lines of 70 % and of all that it
// carries, below it each purchase with its day, its state in word and shape, and
// its animals to one scale.
//
// Build gives the drawing as a scene in which a millimetre stands for a point, for
// the window and for paper; View shows it in a page. All words come from the
// caller. A plan without steps is drawn as its axis alone.
package weeks
