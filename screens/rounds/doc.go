// Package rounds is the place of what recurs: what is late and due with buttons
// to do or skip it, the coming days, every round with its repetition in words,
// the usual rounds proposed with their reasons, times away, and the calendar.
//
// The page shows what the keeper answers and decides nothing; what it is asked to
// do it asks of the keeper, each as one step that can be taken back.
package rounds
