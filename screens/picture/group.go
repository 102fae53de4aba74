package picture

import "math"

// Group is the views that stand side by side. Their pictures are shown at one
// scale: as many points to a unit, which is a millimetre where that is known of
// all of them, else a thousandth of each picture's longer side.
type Group struct {
	Views []*View
	// Linked makes zoom and pan of one that of all.
	Linked bool
	// OnLens is told that something was zoomed or panned.
	OnLens func()

	real  bool // units are millimetres
	whole bool // all fit, and shall after a change of size
	was   map[*View]Lens
}

// NewGroup ties views together, linked.
func NewGroup(views ...*View) *Group {
	g := &Group{Views: views, Linked: true, was: map[*View]Lens{}, whole: true}
	for _, v := range views {
		v.fitAll = g.Fit
		v.resized = func() {
			if g.whole {
				g.Fit()
			}
		}
		v.OnLens = func() {
			g.whole = false
			if g.Linked {
				g.follow(v)
			}
			g.tell()
		}
	}
	return g
}

// SetScales gives the pixels of each picture to a millimetre, 0 where that is not
// known, and shows all of them whole at one scale.
func (g *Group) SetScales(perMM []float64) {
	g.real = len(perMM) == len(g.Views) && len(perMM) > 0
	for _, k := range perMM {
		g.real = g.real && k > 0 && !math.IsInf(k, 0)
	}
	for i, v := range g.Views {
		v.unit = v.size.long() / 1000
		if g.real {
			v.unit = perMM[i]
		}
	}
	g.Fit()
}

// Real reports whether the one scale is that of the things shown.
func (g *Group) Real() bool { return g.real }

// PointsPerUnit gives the scale of a view in points to a unit.
func (g *Group) PointsPerUnit(v *View) float64 { return v.lens.Scale * v.unit }

// SameScale reports whether all views have one scale now.
func (g *Group) SameScale() bool {
	for _, v := range g.Views {
		a, b := g.PointsPerUnit(v), g.PointsPerUnit(g.Views[0])
		if math.Abs(a-b) > 1e-6*b {
			return false
		}
	}
	return true
}

// Fit shows every picture whole, at the largest scale that all of them allow.
func (g *Group) Fit() {
	scale := math.Inf(1)
	for _, v := range g.Views {
		if v.size.W > 0 && v.room().W > 0 {
			scale = math.Min(scale, fitScale(v.size, v.room())*v.unit)
		}
	}
	if math.IsInf(scale, 1) {
		return
	}
	most := 0.0
	for _, v := range g.Views {
		most = math.Max(most, math.Max(mostScale*v.unit, scale))
	}
	for _, v := range g.Views {
		v.least, v.most = scale*leastOfFit/v.unit, most/v.unit
		l := Fit(v.size, v.room())
		l.Scale = scale / v.unit
		v.SetLens(l)
	}
	g.whole = true
	g.tell()
}

// tell notes where all views are and says that they are.
func (g *Group) tell() {
	g.note()
	if g.OnLens != nil {
		g.OnLens()
	}
}

// Link makes the views move together, or each for itself. Together, all take the
// scale of the one given.
func (g *Group) Link(on bool, by *View) {
	g.Linked = on
	if on && by != nil {
		g.note()
		g.follow(by)
		g.tell()
	}
}

// follow gives all others the scale of a view, and moves them by as many units
// as it was moved.
func (g *Group) follow(by *View) {
	scale, was := g.PointsPerUnit(by), g.was[by].Centre
	off := XY{(by.lens.Centre.X - was.X) / by.unit, (by.lens.Centre.Y - was.Y) / by.unit}
	for _, v := range g.Views {
		if v != by {
			c := v.lens.Centre
			v.SetLens(Lens{scale / v.unit, XY{c.X + off.X*v.unit, c.Y + off.Y*v.unit}})
		}
	}
}

// note remembers where all views are.
func (g *Group) note() {
	for _, v := range g.Views {
		g.was[v] = v.lens
	}
}
