// Package elevation draws the aquarium as it stands in the room: the tank on its
// stand, on the floor, beside its socket, in ink on paper and true to scale.
//
// [Build] turns a [Spec] into a [scene.Scene]. It is pure: the same Spec gives
// the same drawing, and nothing is read from outside. All measures in a Spec are
// SI (metres, kilograms, cubic metres); all words in it are already translated
// and are drawn as they come.
//
// In the scene, lengths are millimetres of the real thing: x runs from the
// tank's left outer edge, y upwards from the floor. Every part is a group with
// a stable ID ([PartTank], [PartHeater], …; fish, plants and ornaments by their
// own IDs), so that what is tapped can be opened.
//
// What is not known is not drawn. A number that is NaN, infinite, negative or
// beyond [MaxSize] counts as not known. Where the tank or the stand itself is
// not known, a dashed outline of a usual size stands in for it, without
// dimensions. Build never fails.
//
// Text has a fixed size on the screen, so what fits depends on the room: give
// [Spec.Room] and show the scene with [Frame], which is the fit that Build
// reckoned with.
package elevation
