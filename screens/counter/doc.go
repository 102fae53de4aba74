// Package counter is the shop's side: the card of the shop, the catalogue of
// starter profiles, one profile with its checks, and handing it out. It knows no
// other place; its words come from package present. Its objects belong to the
// goroutine of the user interface.
package counter
