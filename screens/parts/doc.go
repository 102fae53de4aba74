// Package parts is the program's own set of widgets: what pages are made of.
//
// Parts know no model and no language. Every text comes in as a string, every
// act of the person goes out through a callback. A part is made from a small
// Spec and shows another one after Set; Set does nothing when nothing changed
// and otherwise refreshes that part alone. Spec and callbacks belong to the
// goroutine of the user interface.
//
// # Size
//
// Text wraps, so a part's height depends on the width that it is given. Every
// part answers HeightAt (see [Tall]), and it is drawn by the same code that
// measured it, so nothing is ever cut or overlaps. [Column] stacks parts by
// their heights at its own width, [Row] sets up to three side by side and falls
// to fewer when narrow, [Flow] and [Ends] hold buttons, [Panel] is a sheet with
// parts in it and [Scroller] is a page that scrolls. A part that grows (an error
// of two lines, a working that opens) tells the column that it stands in.
//
// Sizes are points at a text scale of 100 %; what stands beside text grows with
// the scale of the theme. Colours are roles of package look, asked for whenever
// a part is drawn.
//
// # Keyboard
//
// All parts that act take the focus in reading order and show a ring about what
// has it. Space presses; Enter presses a button. A key that a part has no use
// for goes up to the page: Enter carries on and Escape goes back (see [Keys]),
// Page Up and Page Down scroll. What takes the focus is scrolled into view.
// Targets are at least 24 by 24 points (WCAG 2.2, success criterion 2.5.8).
package parts
