// Package nav says where one can go in the program and what each place is given.
//
// Nouns: a Route names a place with its argument; History is where one has
// been; Deps is what a page may use: the keeper, the person's words, and
// callbacks to go elsewhere, to work in the background and to say something.
// A Page is what a place shows. Places know nav and never one another.
package nav
