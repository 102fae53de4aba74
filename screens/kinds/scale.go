package kinds

import (
	"context"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/fauna"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/scene"
)

// scale is what stands beside the page of a kind: the adult with its length, and
// below it the adult with the tank, at one scale.
type scale struct {
	deps           nav.Deps
	alone, beside  *scene.View
	above, caption *parts.Text
	root           *fyne.Container
}

func newScale(d nav.Deps) *scale {
	s := &scale{deps: d, alone: scene.NewView(scene.New()), beside: scene.NewView(scene.New()), above: parts.NewText(parts.TextSpec{}), caption: parts.NewText(parts.TextSpec{})}
	s.alone.Margins, s.beside.Margins = scene.Even(18), scene.Even(18)
	s.alone.AlignY, s.beside.AlignY = 1, 1 // near their captions
	s.root = container.New(stacked{}, s.above, s.alone, s.caption, s.beside)
	return s
}

// show draws a kind, beside a tank or, where tank is empty, beside the least one.
func (s *scale) show(a *fish.Animal, tank string, count int) {
	w := s.deps.Present.W
	words := w.About(a.Length.Value())
	s.alone.Set(portrait(a, words))
	s.above.Set(parts.TextSpec{Role: parts.Note, Text: w.T("page.kind.scale", nil)})
	box, mine := leastTank(a), false
	if tank != "" {
		if c, err := s.deps.Keeper.TankPicture(context.Background(), tank); err == nil && c.Known {
			l, _, h := c.Tank.Outer()
			box, mine = scene.Point{X: float64(l) * 1000, Y: float64(h) * 1000}, true
		}
	}
	caption := w.T("page.kind.beside_least", nil)
	if mine {
		caption = w.T("page.kind.beside", nil)
	}
	s.caption.Set(parts.TextSpec{Role: parts.Note, Text: caption})
	length := w.For(quantity.Length(box.X/1000).Value(), i18n.Tank)
	s.beside.Set(besideTank(a, box, count, words, length))
	s.root.Refresh()
}

// leastTank is the front of a tank of the least size for a kind, in millimetres:
// twice as long as it is deep and high. // judgement
func leastTank(a *fish.Animal) scene.Point {
	side := math.Cbrt(float64(a.LeastTank)/2) * 1000
	return scene.Point{X: 2 * side, Y: side}
}

// portrait is one adult with its length.
func portrait(a *fish.Animal, length string) *scene.Scene {
	s, l := scene.New(), float64(a.Length)*1000
	s.Add(fauna.Animal(a.Code, l, fauna.Pose{})...)
	b := fauna.Box(a.Code, l)
	s.Add(scene.Dimension{From: scene.Pt(-l/2, b.Min.Y), To: scene.Pt(l/2, b.Min.Y), Offset: -26, Text: length})
	return s
}

// Where the animals of a zone swim, over the height of the water. // judgement
var swims = map[fish.Zone][2]float64{fish.Top: {0.72, 0.9}, fish.Middle: {0.35, 0.7}, fish.Bottom: {0.1, 0.1}, fish.AllOf: {0.2, 0.85}}

const (
	mostDrawn = 12   // animals in the tank: more cannot be told apart. // judgement
	tooLong   = 0.45 // of the tank: a longer one stands below it. // judgement
	bed       = 0.08 // height of the gravel over that of the tank
	waterline = 0.93
)

// besideTank is the front of a tank with a group of adults in it, or with one below
// it where it is too long for the tank, all to one scale.
func besideTank(a *fish.Animal, tank scene.Point, count int, length, tankLength string) *scene.Scene {
	s, l := scene.New(), float64(a.Length)*1000
	fill := func(y0, y1 float64, c look.Name) {
		s.Add(scene.Rect{Min: scene.Pt(0, y0), Max: scene.Pt(tank.X, y1), Style: scene.Style{Fill: c}})
	}
	fill(bed*tank.Y, waterline*tank.Y, look.Water)
	fill(0, bed*tank.Y, look.Gravel)
	s.Add(scene.Rect{Max: tank, Style: scene.Style{Stroke: look.Glass, Width: 2}})
	s.Add(scene.Dimension{From: scene.Pt(0, tank.Y), To: scene.Pt(tank.X, tank.Y), Offset: 16, Text: tankLength})
	b := fauna.Box(a.Code, l)
	if l > tooLong*tank.X || b.H() > 0.8*tank.Y {
		at := scene.Pt(tank.X/2, -b.Max.Y-0.06*tank.Y)
		s.Add(fauna.Animal(a.Code, l, fauna.Pose{At: at})...)
		s.Add(scene.Dimension{From: scene.Pt(at.X-l/2, at.Y+b.Min.Y), To: scene.Pt(at.X+l/2, at.Y+b.Min.Y), Offset: -24, Text: length})
		return s
	}
	zone := swims[a.Zone]
	low, high := zone[0]*tank.Y-b.Min.Y, zone[1]*tank.Y-b.Max.Y
	if a.Zone == fish.Bottom {
		low = bed*tank.Y - b.Min.Y
		high = low + 0.12*tank.Y
	}
	n := max(1, min(count, mostDrawn))
	for i := range n {
		x := tank.X * (0.08 + 0.84*(float64(i)+0.5)/float64(n))
		x = math.Max(l/2+4, math.Min(tank.X-l/2-4, x))
		y := low + (math.Max(low, high)-low)*math.Mod(float64(i)*0.618, 1) // the golden ratio spreads them evenly
		s.Add(fauna.Animal(a.Code, l, fauna.Pose{At: scene.Pt(x, y), Left: i%3 == 1, Scale: 0.6})...)
	}
	return s
}

// stacked lays out two drawings below their captions, the first drawing lower.
type stacked struct{}

const stackedFirst = 0.36 // of the height. Judgement

func (stacked) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(200, 200) }

func (stacked) Layout(o []fyne.CanvasObject, s fyne.Size) {
	const in = 20
	y := float32(14)
	for i := 0; i+1 < len(o); i += 2 {
		h := s.Height * stackedFirst
		if i > 0 {
			h = s.Height - y - 12
		}
		t := float32(0)
		if tall, ok := o[i].(parts.Tall); ok {
			t = tall.HeightAt(s.Width - 2*in)
		}
		o[i].Move(fyne.NewPos(in, y))
		o[i].Resize(fyne.NewSize(s.Width-2*in, t))
		o[i+1].Move(fyne.NewPos(0, y+t))
		o[i+1].Resize(fyne.NewSize(s.Width, h-t))
		y += h
	}
}
