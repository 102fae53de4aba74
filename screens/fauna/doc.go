// Package fauna draws the animals of the catalogue to scale: fish, shrimp,
// snails, a crayfish and a frog, in ink with a tint, each from the shape of its
// group and a colouring of our own. A drawing is a sketch by shape, to tell one
// animal from another and to show its size; it is no portrait, and nobody's
// photograph or plate was drawn from.
//
// [Animal] gives a drawing as scene items in millimetres, [Outline] its dashed
// contour (what is planned, or the adult about today's size), [Box] the room it
// takes, [Picture] and [Fitted] a scene of one animal by itself.
//
// Length is the total length in millimetres, > 0: from the snout to the end of
// the tail fin, along x and exactly. Feelers, threads of fins and a swordtail's
// sword reach beyond it, as the trade leaves them out of a length; of a snail
// it is all that is seen, foot included. An unknown code is drawn as a plain
// small fish. Nothing is drawn of a length that is not positive and finite.
//
// The smaller an animal comes out, the less of it is drawn: give [Pose.Scale].
// Colours are pigments of package look, so both themes have theirs.
//
// The colouring is the table fauna.csv, one row an animal, read once; see
// [Row]. A row that cannot be drawn fails on loading, and a test reads it.
package fauna
