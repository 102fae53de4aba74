package scene

import (
	"image"
	"image/draw"
	"weak"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/screens/look"
)

// hitSlack is how far, in points, a line may be missed and still be hit.
const hitSlack = 5 // judgement

// View is a widget that shows a scene as large as it has room for, painted at
// device pixels in the colours of the theme it is shown in. All its fields and
// methods belong to the goroutine of the user interface.
//
// A part that can be tapped must be reachable by keyboard too: use FocusView
// where OnTapped is set.
type View struct {
	widget.BaseWidget

	OnTapped func(id ID)                    // a part was tapped; "" when beside all parts
	OnHover  func(id ID, pos fyne.Position) // the pointer moved over a part, or off all of them ("")
	Tip      func(id ID) []string           // the words beside a part that is pointed at or chosen; none shows none

	Margins        // kept free around the drawing, in points
	AlignX, AlignY float64
	Back           look.Name // ground; "" shows what lies behind

	scene   *Scene
	min     fyne.Size
	fitted  fyne.Size // the size that place belongs to
	place   Transform // in points
	fixed   *Transform
	over    ID
	chosen  ID
	focused bool
	self    fyne.Widget // the outermost widget, whose theme counts
	pen     Raster
	img     weak.Pointer[image.RGBA] // the last picture, to be painted over
	painted bool
	early   *early // a picture that is being painted ahead
	raster  *canvas.Raster
	ring    *canvas.Rectangle
	tip     *tip
	players []*player
	crew    Raster // the pen of the players: the view's own may be painting ahead
}

// NewView gives a view of s, which may be nil: then nothing is shown until Set.
func NewView(s *Scene) *View {
	v := &View{scene: s}
	v.self = v
	v.ExtendBaseWidget(v)
	return v
}

// Set shows another scene.
func (v *View) Set(s *Scene) {
	v.scene, v.fixed, v.players = s, nil, nil
	v.forget()
	v.Refresh()
}

// SetPlaced shows a scene under a transform, in points, that the caller has
// fixed instead of the fitted one; charts use it.
func (v *View) SetPlaced(s *Scene, t Transform) {
	v.scene, v.fixed = s, &t
	v.forget()
	v.Refresh()
}

// Scene gives what is shown, or nil.
func (v *View) Scene() *Scene { return v.scene }

// SetMinSize sets the least size that layouts give the view.
func (v *View) SetMinSize(s fyne.Size) {
	v.min = s
	v.Refresh()
}

// Transform gives where the scene lies in the view, in points from the view's
// top left corner. Its Ratio tells the scale of the drawing.
func (v *View) Transform() Transform {
	if v.fixed != nil {
		return *v.fixed
	}
	if v.scene == nil {
		return Transform{Scale: 1, Point: 1}
	}
	// Text grows with the person's text scale, and lines and marks with it.
	if size, k := v.Size(), look.ScaleFor(v.self); v.fitted != size || v.place.Point != k {
		v.place = Fit(v.scene, Frame{W: float64(size.Width), H: float64(size.Height), Margins: v.Margins, Point: k, AlignX: v.AlignX, AlignY: v.AlignY})
		v.fitted = size
	}
	return v.place
}

func (v *View) forget() { v.place = Transform{} }

// At gives the part at a position in the view.
func (v *View) At(pos fyne.Position) ID {
	if v.scene == nil {
		return ""
	}
	if id := v.playerAt(pos); id != "" {
		return id
	}
	return v.Transform().Hit(v.scene, float64(pos.X), float64(pos.Y), hitSlack)
}

// Tapped implements fyne.Tappable.
func (v *View) Tapped(e *fyne.PointEvent) {
	if v.OnTapped != nil {
		v.OnTapped(v.At(e.Position))
	}
}

// MouseIn implements desktop.Hoverable.
func (v *View) MouseIn(e *desktop.MouseEvent) { v.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (v *View) MouseMoved(e *desktop.MouseEvent) {
	if v.OnHover == nil && v.OnTapped == nil && v.Tip == nil {
		return
	}
	id := v.At(e.Position)
	v.showTip(id, e.Position)
	if v.OnHover != nil && (id != "" || v.over != "") {
		v.OnHover(id, e.Position)
	}
	v.over = id
}

// MouseOut implements desktop.Hoverable.
func (v *View) MouseOut() {
	if v.over != "" && v.OnHover != nil {
		v.OnHover("", fyne.Position{})
	}
	v.over = ""
	v.showTip("", fyne.Position{})
}

// Cursor implements desktop.Cursorable: a hand over a part that can be tapped.
func (v *View) Cursor() desktop.Cursor {
	if v.OnTapped != nil && v.over != "" {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// paint draws the scene for a raster of w by h device pixels. The painters use
// up the picture before they ask for the next, so its memory is used again, unless
// it was wanted elsewhere: views that are out of sight keep none.
func (v *View) paint(w, h int) image.Image {
	if w <= 0 || h <= 0 || w > MaxPixels/h {
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	v.painted = true
	img := v.img.Value()
	if e := v.early; e != nil {
		v.early = nil
		<-e.done
		if img = e.img; e.of == v.scene && e.size == v.Size() && img.Rect == image.Rect(0, 0, w, h) {
			v.img = weak.Make(img)
			return img
		}
	}
	if img == nil || img.Rect.Dx() != w || img.Rect.Dy() != h {
		img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	v.img = weak.Make(img)
	v.painter(img)()
	return img
}

// painter gives what paints the scene as it now is on an image. It uses the view's
// pen and nothing else of the view.
func (v *View) painter(img *image.RGBA) func() {
	colours := look.PaletteFor(v.self)
	ground := image.Transparent
	if v.Back != "" {
		ground = image.NewUniform(colours(v.Back))
	}
	of, width := v.scene, float64(v.Size().Width)
	var t Transform
	if of != nil && width > 0 {
		t = v.Transform()
		k := float64(img.Rect.Dx()) / width
		t = Transform{Scale: t.Scale * k, X: t.X * k, Y: t.Y * k, Point: t.Point * k}
	}
	return func() {
		draw.Draw(img, img.Rect, ground, image.Point{}, draw.Src)
		if of != nil && width > 0 {
			v.pen.Draw(img, of, t, colours)
		}
	}
}

// early is a picture painted before it is asked for.
type early struct {
	of   *Scene
	size fyne.Size
	img  *image.RGBA
	done chan struct{}
}

// PaintAhead begins to paint the view beside the caller, for a screen with one
// pixel a point. The picture is used if the view is as it was when it is first
// drawn; a later change of the theme alone is to be followed by Refresh.
func (v *View) PaintAhead() {
	w, h := int(v.Size().Width+0.5), int(v.Size().Height+0.5)
	if v.early != nil || v.painted || v.scene == nil || w <= 0 || h <= 0 || w > MaxPixels/h {
		return
	}
	e := &early{of: v.scene, size: v.Size(), img: image.NewRGBA(image.Rect(0, 0, w, h)), done: make(chan struct{})}
	paint := v.painter(e.img)
	v.early = e
	go func() {
		defer close(e.done)
		paint()
	}()
}

// CreateRenderer implements fyne.Widget.
func (v *View) CreateRenderer() fyne.WidgetRenderer {
	v.raster = canvas.NewRaster(v.paint)
	v.ring = canvas.NewRectangle(image.Transparent.C)
	v.ring.StrokeWidth = 2
	v.ring.CornerRadius = 4
	v.tip = newTip()
	r := &viewRenderer{v}
	r.mark()
	return r
}

type viewRenderer struct{ v *View }

func (r *viewRenderer) Layout(size fyne.Size) {
	r.v.raster.Resize(size)
	r.v.placePlayers()
	r.mark()
}

func (r *viewRenderer) MinSize() fyne.Size { return r.v.min }

func (r *viewRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.v.raster}
	for _, p := range r.v.players {
		out = append(out, p.raster)
	}
	return append(out, r.v.ring, r.v.tip.box)
}

func (r *viewRenderer) Refresh() {
	r.v.placePlayers()
	r.mark()
	if r.v.early != nil {
		r.v.early.of = nil // the theme may be another
	}
	r.v.raster.Refresh()
}

func (r *viewRenderer) Destroy() {}

// mark puts the focus ring about the chosen part, or about the whole view.
func (r *viewRenderer) mark() {
	v := r.v
	v.ring.Hidden = !v.focused
	if !v.focused {
		return
	}
	box := Box{Max: Point{float64(v.Size().Width), float64(v.Size().Height)}}.Grow(-1)
	if v.scene != nil && v.chosen != "" {
		if b := v.extentOf(v.chosen); !b.Empty() {
			box = b.Grow(4)
		}
	}
	v.ring.StrokeColor = look.PaletteFor(v.self)(look.Teal)
	v.ring.Move(fyne.NewPos(float32(box.Min.X), float32(box.Min.Y)))
	v.ring.Resize(fyne.NewSize(float32(box.W()), float32(box.H())))
	v.ring.Refresh()
}
