// Package kinds is the catalogue of animals, one kind of it, and whether all in
// a tank get on and have room.
//
// The catalogue is searched as one types, on what the keeper worked out once for
// the tank; it works without a tank too. A kind's page shows every figure with its
// source, the adult beside the tank, how many fit, and what would come of adding
// some. Nothing is kept but wishes.
package kinds
