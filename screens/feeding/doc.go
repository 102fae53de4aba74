// Package feeding is the place of the ration: how much a meal is, in grams and in
// weighed pinches, how the last ones ended, what the food means for the water, and
// who eats what. It knows no other place; its words come from package present. Its
// objects belong to the goroutine of the user interface.
package feeding
