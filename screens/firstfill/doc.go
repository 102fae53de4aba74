// Package firstfill is the guided set-up: the tank as it now is, the dipstick of
// its ten steps, and one page a step.
//
// While a person types, the page is computed anew at every key from what was
// typed, without keeping it; a value is kept when it is complete: at Enter, when
// the focus goes, at a choice, at a tick. Text that cannot be read stays in its
// box with a sentence below it, and the figures stay at the last that could.
package firstfill
