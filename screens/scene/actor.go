package scene

import (
	"image"
	"image/draw"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"example.org/driploop/screens/look"
)

// An Actor is a small drawing that moves over a scene. It is painted once for
// each way it faces and then moved, so that its moving paints nothing again.
// Right and Left are its drawing about the origin, in millimetres. Where gives
// where the origin is after so many seconds, and whether it faces left; it must
// be the same every time.
type Actor struct {
	ID          ID
	Right, Left *Scene
	Where       func(seconds float64) (at Point, left bool)
}

// A player shows an actor in a view.
type player struct {
	Actor
	view   *View
	raster *canvas.Raster
	at     Point // in millimetres
	left   bool
	box    Box // of both its drawings about the origin, in points
	img    *image.RGBA
	dots   float64 // device pixels to a point, 0 not known yet
}

// SetActors puts actors over the scene, as they are at second 0, in place of
// those before. Set takes them away.
func (v *View) SetActors(actors []Actor) {
	v.players = nil
	for _, a := range actors {
		p := &player{Actor: a, view: v}
		p.at, p.left = a.Where(0)
		p.raster = canvas.NewRaster(p.paint)
		v.players = append(v.players, p)
	}
	v.Refresh()
}

// Step moves the actors to where they are after so many seconds.
func (v *View) Step(seconds float64) {
	if v.raster == nil || v.fitted == (fyne.Size{}) {
		return
	}
	t := v.Transform()
	for _, p := range v.players {
		at, left := p.Where(seconds)
		p.at = at
		if left != p.left {
			p.left = left
			p.raster.Refresh()
		}
		p.move(t)
	}
	if v.focused && v.chosen != "" && len(v.players) > 0 {
		(&viewRenderer{v}).mark()
	}
}

// shown is the drawing the way it faces.
func (p *player) shown() *Scene {
	if p.left {
		return p.Left
	}
	return p.Right
}

// placePlayers fits the players to the view's size.
func (v *View) placePlayers() {
	if len(v.players) == 0 || v.Size().Width <= 0 {
		return
	}
	t := v.Transform()
	about := Transform{Scale: t.Scale, Point: t.Point}
	boxes := map[*Scene]Box{}
	for _, p := range v.players {
		b, known := boxes[p.Right]
		if !known {
			b = p.Right.Extent(about)
			b.Union(p.Left.Extent(about))
			b = b.Grow(1)
			boxes[p.Right] = b
		}
		p.box = b
		p.raster.Resize(fyne.NewSize(float32(b.W()), float32(b.H())))
		p.move(t)
		p.raster.Refresh()
	}
}

// move puts the raster where the actor is, on a whole pixel, so that it stays
// sharp; it does nothing where that is the same one.
func (p *player) move(t Transform) {
	at := t.Device(p.at).Add(p.box.Min)
	k := p.dots
	if k == 0 {
		k = 1
	}
	to := fyne.NewPos(float32(math.Round(at.X*k)/k), float32(math.Round(at.Y*k)/k))
	if to != p.raster.Position() {
		p.raster.Move(to)
	}
}

// paint draws the actor for a raster of w by h device pixels.
func (p *player) paint(w, h int) image.Image {
	if w <= 0 || h <= 0 || w > MaxPixels/h || !(p.box.W() > 0) {
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	if p.img == nil || p.img.Rect.Dx() != w || p.img.Rect.Dy() != h {
		p.img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	draw.Draw(p.img, p.img.Rect, image.Transparent, image.Point{}, draw.Src)
	t := p.view.Transform()
	k := float64(w) / p.box.W()
	p.dots = k
	p.view.crew.Draw(p.img, p.shown(), Transform{Scale: t.Scale * k, X: -p.box.Min.X * k, Y: -p.box.Min.Y * k, Point: t.Point * k}, look.PaletteFor(p.view.self))
	return p.img
}

// playerAt gives the part of the uppermost actor at a position, "" for none.
func (v *View) playerAt(pos fyne.Position) ID {
	t := v.Transform()
	for i := len(v.players) - 1; i >= 0; i-- {
		p := v.players[i]
		o := t.Device(p.at)
		x, y := float64(pos.X)-o.X, float64(pos.Y)-o.Y
		if !p.box.Grow(hitSlack).Contains(Point{x, y}) {
			continue
		}
		if id := (Transform{Scale: t.Scale, Point: t.Point}).Hit(p.shown(), x, y, hitSlack); id != "" {
			return id
		}
	}
	return ""
}

// ids lists the parts of the scene and of the actors.
func (v *View) ids() []ID {
	if v.scene == nil {
		return nil
	}
	ids := v.scene.IDs()
	for _, p := range v.players {
		if !slices.Contains(ids, p.ID) {
			ids = append(ids, p.ID)
		}
	}
	return ids
}

// extentOf gives the box of a part, actors where they are now, in points.
func (v *View) extentOf(id ID) Box {
	t := v.Transform()
	b := v.scene.ExtentOf(id, t)
	for _, p := range v.players {
		if p.ID == id {
			o := t.Device(p.at)
			b.Union(Box{p.box.Min.Add(o), p.box.Max.Add(o)})
		}
	}
	return b
}
