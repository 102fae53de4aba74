// Package picture shows pictures: one that is zoomed and panned with marks over
// it ([View]), several side by side at one scale ([Group]), and small ones from a
// bounded store ([Thumbs]).
//
// # Nouns
//
// A picture has a size in pixels, upright, whatever is loaded of it: [Levels]
// hold what is loaded, halved again and again. A [Lens] places the picture in a
// view. A [Mark] lies over the picture, in thousandths of its sides, and is never
// burnt in: [Burn] draws marks into a copy.
//
// # Contract
//
// Nothing here knows the model or a language: texts come in as strings, acts of
// the person go out through callbacks. Levels are made off the goroutine of the
// user interface and not changed afterwards; all else belongs to that goroutine.
// A view paints just what is seen of the picture, at device pixels, so what a
// frame costs depends on the size of the view and not on that of the picture.
//
// # Keyboard of a view
//
// Arrows pan, or move the chosen mark; + and - zoom, 0 fits, 1 shows pixel for
// pixel; Space goes to the next mark, Enter to its next end, Delete removes it,
// Escape lets go of it. With a tool in hand the arrows move a cross and Space or
// Enter sets a point. With Shift the arrows take small steps. Every act by
// dragging can be done by two taps as well (WCAG 2.2, success criterion 2.5.7).
package picture
