// Package keeper is what can be done: one method for each change or question a
// person has. Windows and command-line verbs call the same methods.
//
// Contract:
//   - a change is one store.Change: one transaction, durable when the method
//     returns, and undoable (timers' ticks and settings are not);
//   - a question returns values, codes and working, never sentences;
//   - a refusal is an error that says which field and why:
//     *quantity.ParseError for text that is no quantity, *working.Refusal for a
//     value that is not accepted, *Blocked for a step that still waits. Nothing
//     is changed by it. Errors of the store come through unchanged;
//   - the present time comes in through Options.Now, never from a clock here.
//
// Nouns: a Tank is a summary; a View is a step of First fill with everything a
// page shows; an Edit is one answer on its way in, typed but not yet kept.
//
// All methods are safe for use by several goroutines.
package keeper
