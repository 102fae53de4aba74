package parts

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// pool keeps the canvas objects of one part between drawings.
type pool struct {
	shown    []fyne.CanvasObject // in the order drawn
	texts    []*canvas.Text
	rects    []*canvas.Rectangle
	sketches []*sketch
	ringed   *canvas.Rectangle // the focus ring, made when first needed

	nText, nRect, nSketch int
}

func (pl *pool) begin() {
	pl.shown = make([]fyne.CanvasObject, 0, len(pl.shown))
	pl.nText, pl.nRect, pl.nSketch = 0, 0, 0
}

func (pl *pool) add(o fyne.CanvasObject) { pl.shown = append(pl.shown, o) }

// live gives what is no mere picture: widgets and what holds some.
func (pl *pool) live() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, o := range pl.shown {
		switch o.(type) {
		case fyne.Widget, *fyne.Container:
			out = append(out, o)
		}
	}
	return out
}

func (pl *pool) text() *canvas.Text {
	if pl.nText == len(pl.texts) {
		pl.texts = append(pl.texts, canvas.NewText("", color.Black))
	}
	t := pl.texts[pl.nText]
	pl.nText++
	pl.add(t)
	return t
}

func (pl *pool) rect() *canvas.Rectangle {
	if pl.nRect == len(pl.rects) {
		pl.rects = append(pl.rects, canvas.NewRectangle(color.Transparent))
	}
	r := pl.rects[pl.nRect]
	pl.nRect++
	pl.add(r)
	return r
}

func (pl *pool) ring() *canvas.Rectangle {
	if pl.ringed == nil {
		pl.ringed = canvas.NewRectangle(color.Transparent)
	}
	pl.add(pl.ringed)
	return pl.ringed
}

func (pl *pool) sketch() *sketch {
	if pl.nSketch == len(pl.sketches) {
		pl.sketches = append(pl.sketches, newSketch())
	}
	s := pl.sketches[pl.nSketch]
	pl.nSketch++
	pl.add(s.Raster)
	return s
}

// sketch is a small drawing painted at device pixels.
type sketch struct {
	*canvas.Raster
	scene   *scene.Scene
	colours look.Palette
	wide    float64 // of the box in the drawing's millimetres
	fitted  bool    // as large as the box allows, whatever the drawing's millimetres
	pen     scene.Raster
}

func newSketch() *sketch {
	s := &sketch{}
	s.Raster = canvas.NewRaster(s.paint)
	return s
}

// show sets what the sketch paints; its box is wide millimetres across.
func (s *sketch) show(sc *scene.Scene, colours look.Palette, wide float32) {
	s.scene, s.colours, s.wide, s.fitted = sc, colours, float64(wide), false
}

func (s *sketch) paint(w, h int) image.Image {
	if w <= 0 || h <= 0 || s.wide <= 0 {
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	k := float64(w) / s.wide
	t := scene.Transform{Scale: k, Point: k, Y: float64(h)}
	if s.fitted {
		t = scene.Fit(s.scene, scene.Frame{W: float64(w), H: float64(h), Margins: scene.Even(2), Point: k})
	}
	s.pen.Draw(img, s.scene, t, s.colours)
	return img
}
