// Package photos is the place of the pictures of a tank: a wall of all of them by
// month, or of one fish, or of one entry; and one to four of them open, with
// marks, lengths and their colours balanced.
//
// Nouns: the wall shows small pictures; the bench shows those that are open, each
// a shot. The panel beside the bench is about the shot that was touched last.
package photos
