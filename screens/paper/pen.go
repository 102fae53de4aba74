package paper

import (
	"example.org/driploop/model/working"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// plain shows a page's scene in millimetres from its top left corner.
var plain = scene.Transform{Scale: 1, Point: scene.PointMM}

// A figure is a drawing with a scale of its own on a page.
type figure struct {
	scene *scene.Scene
	at    scene.Transform
}

// A page is one page under way.
type page struct {
	prints  []print // below everything else
	scene   *scene.Scene
	figures []figure
}

// at turns a place on the page into one of its scene, where y runs upwards.
func at(x, y float64) scene.Point { return scene.Pt(x, -y) }

// text writes one line with its top at y.
func (p *page) text(x, y float64, s string, f font) {
	p.write(x, y, s, f, scene.Start)
}

// right writes one line that ends at x.
func (p *page) right(x, y float64, s string, f font) {
	p.write(x, y, s, f, scene.End)
}

func (p *page) write(x, y float64, s string, f font, h scene.HAlign) {
	if s = clean(s); s != "" {
		p.scene.Add(scene.Text{At: at(x, y+f.base()), S: s, Size: f.size, Weight: f.weight, Colour: f.colour, H: h})
	}
}

func (p *page) rule(x, y, w, width float64, c look.Name) {
	p.scene.Add(scene.Line{From: at(x, y), To: at(x+w, y), Style: scene.Style{Stroke: c, Width: width}})
}

func (p *page) rect(x, y, w, h, radius float64, st scene.Style) {
	p.scene.Add(scene.Rect{Min: at(x, y+h), Max: at(x+w, y), Radius: radius, Style: st})
}

// box draws a square to tick, ticked where it is done.
func (p *page) box(x, y, side float64, done bool) {
	p.rect(x, y, side, side, 0.6, scene.Style{Stroke: look.Ink, Width: 1.1})
	if done {
		p.check(x+side*0.17, y+side*0.2, side*0.66)
	}
}

func (p *page) check(x, y, side float64) {
	p.scene.Add(scene.Polyline{Points: []scene.Point{at(x, y+side*0.5), at(x+side*0.36, y+side*0.88), at(x+side, y+side*0.05)},
		Style: scene.Style{Stroke: look.Ink, Width: 1.8}})
}

var stateShapes = map[working.State]scene.Shape{working.Steady: scene.Round, working.Wait: scene.Diamond, working.Act: scene.Triangle}

// state draws the shape of a state about x, y. The graver, the blacker: steady is
// hollow.
func (p *page) state(x, y float64, s working.State) {
	st := scene.Style{Fill: look.Ink}
	if s == working.Steady {
		st = scene.Style{Stroke: look.Ink, Width: 1.2}
	}
	p.scene.Add(scene.Marker{At: at(x, y), Shape: stateShapes[s], Size: 8, Style: st})
}

// stated writes the shape and the word of a state ending at x, and gives how much
// room they take.
func (p *page) stated(x, y float64, s working.State, word string, f font) float64 {
	p.right(x, y, word, f)
	w := f.width(word) + 2.4
	p.state(x-w, y+f.lead()/2, s)
	return w + 1.4
}
