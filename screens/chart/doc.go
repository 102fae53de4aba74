// Package chart draws line charts as scenes, and shows them in a widget with a
// read-out by pointer and by keyboard.
//
// A [Spec] holds the data and every word: there is no language in this package.
// There is one y axis, never two. A series is told by its colour, its marker
// shape and its name written beside its line. What was measured carries markers
// ([Series.Points]); what was computed is a plain line ([Series.Line]) with an
// optional band from low to high. A missing value breaks the line and is never
// drawn as zero. Without any value the caller's text for that case is shown.
//
// Lengths are points. [Build] makes a scene in which one millimetre stands for
// one point, so for a page rectangle w by h millimetres build it with w and h
// divided by scene.PointMM and let scene.PDF fit it there.
package chart
