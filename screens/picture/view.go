package picture

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Tool is what the pointer does on a picture.
type Tool uint8

// The tools.
const (
	Hand     Tool = iota // pans, chooses and moves marks
	TwoPoint             // sets the two points of a new mark
	OnePoint             // sets one point: of words, of a white patch
)

// View shows a picture. All fields and methods belong to the goroutine of the
// user interface; callbacks may be nil.
type View struct {
	widget.BaseWidget

	OnLens   func()                          // the person zoomed or panned
	OnChosen func(id string)                 // a mark was chosen, "" none
	OnDrawn  func(points []Point)            // the tool has set its points
	OnMoved  func(id string, points []Point) // a mark was moved
	OnDelete func(id string)                 // the chosen mark is to be removed
	OnFocus  func()                          // the view has taken the focus
	OnKey    func(*fyne.KeyEvent) bool       // a key that the view has no use for
	OnRune   func(rune)                      // a character that it has no use for
	OnWant   func(long int)                  // a picture with a longer side of so many pixels would show more
	// Preview is the shape that is drawn while the tool sets two points.
	Preview Shape

	size    Size // of the original, upright and turned, in pixels
	levels  Levels
	balance Balance
	marks   []Mark
	lens    Lens
	unit    float64 // pixels of the original to a unit of the scale shared with others
	least   float64 // scales allowed
	most    float64
	asked   int
	fitAll  func() // of its group
	resized func()

	tool    Tool
	chosen  string
	grip    int     // of the chosen mark; -1 for the whole
	draft   []Point // set by the tool so far
	cross   Point   // of the keyboard
	crossed bool    // the cross is shown
	held    press
	fine    bool // Shift is down
	focused bool

	raster *canvas.Raster
	img    *image.RGBA
	pen    scene.Raster
	device float64 // device pixels to a point, as last painted
}

// NewView gives a view without a picture.
func NewView() *View {
	v := &View{lens: Lens{Scale: 1}, unit: 1, grip: -1, device: 1}
	v.raster = canvas.NewRaster(v.paint)
	v.ExtendBaseWidget(v)
	return v
}

// SetPicture shows a picture of that size in pixels, of which levels are loaded,
// whole. Marks and balance stay.
func (v *View) SetPicture(size Size, levels Levels) {
	v.size, v.levels, v.asked = size, levels, 0
	v.drop()
	v.Fit()
}

// Load puts more, or less, of the same picture in place of what was loaded.
func (v *View) Load(levels Levels) {
	v.levels, v.asked = levels, 0
	v.touch()
}

// Loaded gives the longer side of what is loaded, in pixels.
func (v *View) Loaded() int { return v.levels.Long() }

// Picture gives the size of the original in pixels.
func (v *View) Picture() Size { return v.size }

// SetMarks shows other marks; the chosen one stays chosen while it is there.
func (v *View) SetMarks(marks []Mark) {
	v.marks = marks
	if v.at(v.chosen) < 0 {
		v.chosen, v.grip = "", -1
	}
	v.touch()
}

// SetBalance shows the picture's colours through a balance; nil as they are.
func (v *View) SetBalance(b Balance) {
	v.balance = b
	v.touch()
}

// SetTool takes a tool in hand.
func (v *View) SetTool(t Tool, preview Shape) {
	v.tool, v.Preview = t, preview
	v.drop()
	if t != Hand {
		v.chosen, v.grip = "", -1
	}
	v.touch()
}

// Tool gives the tool in hand.
func (v *View) Tool() Tool { return v.tool }

// Choose chooses a mark, "" none, without telling.
func (v *View) Choose(id string) {
	if v.at(id) < 0 {
		id = ""
	}
	if id != v.chosen {
		v.chosen, v.grip = id, -1
		v.touch()
	}
}

// Chosen gives the mark that is chosen, "" for none.
func (v *View) Chosen() string { return v.chosen }

// Lens gives how the picture lies in the view.
func (v *View) Lens() Lens { return v.lens }

// SetLens places the picture without telling, within what is allowed.
func (v *View) SetLens(l Lens) {
	l.Scale = v.allowed(l.Scale)
	v.lens = l.held(v.size)
	v.touch()
	v.want()
}

// Fit shows the whole picture, or in a group all of them.
func (v *View) Fit() {
	if v.fitAll != nil {
		v.fitAll()
		return
	}
	v.SetLens(Fit(v.size, v.room()))
	if v.OnLens != nil {
		v.OnLens()
	}
}

// Zoom makes the picture larger by a factor about a position of the view, and
// tells.
func (v *View) Zoom(factor float64, about XY) {
	scale := v.allowed(v.lens.Scale * factor)
	v.SetLens(v.lens.ScaledTo(scale, about, v.room()))
	if v.OnLens != nil {
		v.OnLens()
	}
}

// Pan moves the picture by so many points, and tells.
func (v *View) Pan(by XY) {
	v.SetLens(v.lens.Moved(by))
	if v.OnLens != nil {
		v.OnLens()
	}
}

// Middle is the middle of the view.
func (v *View) Middle() XY { r := v.room(); return XY{r.W / 2, r.H / 2} }

// The scales allowed where a group gives none. Judgement.
const (
	leastOfFit = 0.25 // of the scale at which the picture fits
	mostScale  = 16   // points to a pixel
)

func (v *View) limits() (least, most float64) {
	if v.most > 0 {
		return v.least, v.most
	}
	fit := fitScale(v.size, v.room())
	return fit * leastOfFit, math.Max(mostScale, fit)
}

func (v *View) allowed(scale float64) float64 {
	least, most := v.limits()
	if math.IsNaN(scale) {
		return least
	}
	return clamp(scale, least, most)
}

func (v *View) room() Size {
	s := v.BaseWidget.Size()
	return Size{float64(s.Width), float64(s.Height)}
}

// want asks for more of the picture once it is shown larger than it is loaded.
func (v *View) want() {
	need := int(math.Ceil(math.Min(v.size.long(), v.lens.Scale*v.device*v.size.long())))
	if v.OnWant == nil || len(v.levels) == 0 || need <= v.levels.Long()*9/8 || need <= v.asked { // judgement: an eighth is not seen
		return
	}
	v.asked = need
	v.OnWant(need)
}

// at gives the index of a mark; -1 for none.
func (v *View) at(id string) int {
	for i, m := range v.marks {
		if m.ID == id && id != "" {
			return i
		}
	}
	return -1
}

// drop lets go of what was begun.
func (v *View) drop() {
	v.draft, v.crossed, v.held = nil, false, press{}
}

// touch paints anew.
func (v *View) touch() { v.raster.Refresh() }

// paint draws what is seen, at device pixels.
func (v *View) paint(w, h int) image.Image {
	if w <= 0 || h <= 0 {
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	if v.img == nil || v.img.Rect.Dx() != w || v.img.Rect.Dy() != h {
		v.img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	room := v.room()
	if room.W > 0 {
		v.device = float64(w) / room.W
	}
	colours := look.PaletteFor(v)
	paint(v.img, v.levels, v.size, v.lens, v.device, v.balance, color.RGBAModel.Convert(colours(look.Track)).(color.RGBA))
	v.pen.Draw(v.img, v.sketch(), scene.Transform{Scale: v.device, Point: v.device * look.ScaleFor(v)}, night)
	if v.focused {
		v.edge(colours)
	}
	return v.img
}

// edge draws the focus ring along the inside of the view.
func (v *View) edge(colours look.Palette) {
	w, h := float64(v.img.Rect.Dx()), float64(v.img.Rect.Dy())
	t := focusEdge * v.device
	s := scene.New()
	for _, b := range [][4]float64{{0, 0, w, t}, {0, h - t, w, h}, {0, 0, t, h}, {w - t, 0, w, h}} {
		s.Add(scene.Rect{Min: scene.Pt(b[0], -b[1]), Max: scene.Pt(b[2], -b[3]), Style: scene.Style{Fill: look.Teal}})
	}
	v.pen.Draw(v.img, s, scene.Transform{Scale: 1, Point: 1}, colours)
}

// focusEdge is the width of the focus ring in points. Judgement.
const focusEdge = 3

// sketch is what lies over the picture.
func (v *View) sketch() *scene.Scene {
	s, room := scene.New(), v.room()
	words := &plates{scale: look.ScaleFor(v)}
	for _, m := range v.marks {
		d := drawn{Mark: m, chosen: m.ID == v.chosen && m.ID != "", grip: -1}
		if d.chosen {
			d.Points, d.grip = v.moved(m.Points), v.grip
		}
		d.sketch(s, v.size, v.lens, room, words)
	}
	if points := v.drafted(); len(points) == 2 {
		drawn{Mark: Mark{Shape: v.Preview, Points: points}, grip: -1}.sketch(s, v.size, v.lens, room, words)
	}
	words.draw(s)
	if v.crossed {
		at := v.lens.ToView(v.cross.In(v.size), room)
		for _, st := range []scene.Style{{Stroke: look.Paper, Width: edgeWidth, Alpha: 0.8}, {Stroke: look.Teal, Width: markWidth}} {
			for _, d := range []XY{{12, 0}, {0, 12}} {
				s.Add(scene.Line{From: scene.Pt(at.X-d.X, -at.Y-d.Y), To: scene.Pt(at.X+d.X, -at.Y+d.Y), Style: st})
			}
		}
	}
	return s
}

// Cursor implements desktop.Cursorable.
func (v *View) Cursor() desktop.Cursor {
	if v.tool != Hand {
		return desktop.CrosshairCursor
	}
	return desktop.DefaultCursor
}

// Resize implements fyne.CanvasObject: what fitted still fits.
func (v *View) Resize(s fyne.Size) {
	before := v.room()
	fitted := before.W <= 0 || math.Abs(v.lens.Scale-fitScale(v.size, before)) < 1e-9
	v.BaseWidget.Resize(s)
	switch {
	case v.room() == before:
	case v.resized != nil:
		v.resized()
	case fitted:
		v.Fit()
	}
}

// CreateRenderer implements fyne.Widget.
func (v *View) CreateRenderer() fyne.WidgetRenderer { return &viewRenderer{v} }

type viewRenderer struct{ v *View }

func (r *viewRenderer) Layout(s fyne.Size) {
	r.v.raster.Resize(s)
	r.v.touch()
}

// MinSize is small, for a view shows what room it has.
func (r *viewRenderer) MinSize() fyne.Size { return fyne.NewSize(80, 60) }

func (r *viewRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.v.raster}
}

func (r *viewRenderer) Destroy() {}

func (r *viewRenderer) Refresh() { r.v.touch() }
