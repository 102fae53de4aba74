// Package slips shows the files that people hand to each other, to whichever place
// needs them: a visit slip that was opened, a reply in the making, and a reply with
// what can be taken of it.
//
// Contract: what is shown comes from package present; nothing is kept here. Each view
// is a list of parts for a page's column, or a widget that a dialog holds.
package slips
