// Package scene is a display list: a drawing described once, in millimetres
// with y upwards, and shown by three back-ends that agree: pixels ([Raster],
// [PNG]), a Fyne widget ([View], [FocusView]) and PDF vectors ([PDF]).
//
// # How to draw
//
//	s := scene.New()
//	s.Area(scene.Box{Min: scene.Pt(-200, -20), Max: scene.Pt(900, 1300)}) // keeps the scale steady while parts come and go
//	s.Group("tank", func() {
//		s.Add(scene.Rect{Min: scene.Pt(0, 700), Max: scene.Pt(610, 1110),
//			Style: scene.Style{Stroke: look.Glass, Width: 3}})
//	})
//	s.Add(scene.Dimension{From: scene.Pt(0, 1110), To: scene.Pt(610, 1110), Offset: 34, Text: "610 mm"})
//	s.Add(scene.NewPath(scene.Style{Stroke: look.Ink}).
//		MoveTo(scene.Pt(0, 900)).CubicTo(scene.Pt(-50, 900), scene.Pt(-80, 600), scene.Pt(-90, 800)))
//	t := scene.Fit(s, scene.Frame{W: 800, H: 700, Point: 1})
//
// Items are plain values: [Line], [Polyline], [Rect], [Ellipse] (see [Circle]),
// [Path], [Text], [Dimension], [Arrow], [Hatch], [Marker]. They are drawn in the
// order added. What is added inside [Scene.Group] carries the group's [ID],
// which hit testing and hovering report.
//
// # Two units
//
// Places and sizes of things are millimetres of the real object. Stroke
// widths, dashes, arrow heads, hatch spacing, marker sizes, offsets and (unless
// said otherwise) text are in points, so that they stay the same size on the
// screen whatever the scale. One point is one device-independent pixel, and
// 1/96 inch on paper. [Fit] makes room for both.
//
// Colours are roles of package look; "" paints nothing. Numbers must be finite:
// an item with NaN or Inf is left out and reported by [Scene.Err].
//
// Scenes hold no text of their own: all words come from the caller.
package scene
