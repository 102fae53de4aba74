// Package desk is the place of the visit slips that a shop was handed: the list of
// them, and one opened beside the reply that is written to it.
//
// Contract: what is shown comes from the keeper and from package present; the desk may
// be on a server, so everything is asked beside the window. A slip is deleted after one
// question and without a way back, as nothing is to be left of it.
package desk
