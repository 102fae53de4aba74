// Package sick is the place where a fish that looks wrong is looked after: the
// cases of a tank, and a case with its signs, how urgent it is, the water tests
// to make now, what to do in the next hour, what has changed lately, when to call
// a veterinarian, and its pictures and notes until it is closed.
//
// The page shows what the keeper answers and decides nothing; what it is asked
// to do it asks of the keeper, each as one step that can be taken back.
package sick
