package weeks

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/model/working"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// States are told by shape, colour and, in the label, fill.
var (
	shapes  = map[working.State]scene.Shape{working.Steady: scene.Round, working.Wait: scene.Diamond, working.Act: scene.Triangle}
	colours = map[working.State]look.Name{working.Steady: look.Steady, working.Wait: look.Wait, working.Act: look.Act}
	fills   = map[working.State]look.Name{working.Wait: look.Wait, working.Act: look.Act}
)

// View shows a plan as wide as it has room for, and as high as that needs. Its
// steps are reached with the arrow keys. It belongs to the goroutine of the user
// interface.
type View struct {
	widget.BaseWidget
	OnStep func(step int) // a step was tapped, or Enter pressed on it

	spec  Spec
	inner *scene.FocusView
	shown fyne.Size
	scale float64
}

// NewView gives a view of a plan.
func NewView(s Spec) *View {
	v := &View{spec: s, inner: scene.NewFocusView(scene.New())}
	v.inner.OnTapped = func(id scene.ID) {
		if n, ok := StepOf(id); ok && v.OnStep != nil {
			v.OnStep(n)
		}
	}
	v.ExtendBaseWidget(v)
	return v
}

// Set shows another plan.
func (v *View) Set(s Spec) {
	v.spec, v.shown = s, fyne.Size{}
	v.lay()
}

// Focusable gives what takes the focus.
func (v *View) Focusable() fyne.Focusable { return v.inner }

// HeightAt is how high the view is at a width.
func (v *View) HeightAt(width float32) float32 {
	k := look.ScaleFor(v)
	return float32(Height(v.spec, float64(width)/k) * k)
}

// MinSize implements fyne.CanvasObject.
func (v *View) MinSize() fyne.Size { return fyne.NewSize(leastW, v.HeightAt(leastW)) }

// Resize implements fyne.CanvasObject.
func (v *View) Resize(s fyne.Size) {
	v.BaseWidget.Resize(s)
	v.lay()
}

// Refresh implements fyne.CanvasObject.
func (v *View) Refresh() {
	v.lay()
	v.BaseWidget.Refresh()
}

func (v *View) lay() {
	s, k := v.Size(), look.ScaleFor(v)
	if s.Width <= 0 || v.shown == s && v.scale == k {
		return
	}
	v.shown, v.scale = s, k
	w := float64(s.Width) / k
	d := Build(v.spec, w)
	v.inner.SetPlaced(d, scene.Transform{Scale: k, Point: k, Y: Height(v.spec, w) * k})
}

// CreateRenderer implements fyne.Widget.
func (v *View) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(v.inner) }
