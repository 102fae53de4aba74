// Package homecoming is the place where animals that came in bags are brought into
// the tank: each bag a card with its time, its steps and their cautions. It knows
// no other place; what it shows comes from package present, what it does is done by
// the keeper. Its objects belong to the goroutine of the user interface.
package homecoming
