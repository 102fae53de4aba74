package chart

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// A plan is a chart laid out: where the plot is, what it spans, where labels go.
type plan struct {
	spec           Spec // ready
	w, h           float64
	plot           scene.Box
	x0, x1, y0, y1 float64
	xTicks, yTicks []Tick
	grid           []float64 // level lines
	marks          []marked
	empty          bool

	labels []scene.Box // where names, limits' labels and notes were put, once drawn
}

// marked is a mark's label put in its row below the plot.
type marked struct {
	Mark
	x, baseline float64
}

const (
	note   = look.Note - 1 // size of labels in points
	row    = 18.0          // height of a row of labels below the plot
	lane   = 20.0          // height of the lane of events above the plot, clear of a point on its top line
	gutter = 10.0          // free room between labels and plot, and at the edges
)

func lay(spec Spec, w, h float64) plan {
	p := plan{spec: spec.ready(), w: w, h: h}
	x0, x1, y0, y1, ok := p.spec.span()
	if !ok || !finite(w, h) || w < 20 || h < 20 {
		p.empty = true
		return p
	}
	for _, l := range p.spec.Limits {
		if finite(l.Y) && !p.spec.Y.Fixed {
			y0, y1 = math.Min(y0, l.Y), math.Max(y1, l.Y)
		}
	}
	if more := p.spec.Y.Least - (y1 - y0); more > 0 && !p.spec.Y.Fixed {
		y0, y1 = y0-more/2, y1+more/2
	}
	top := gutter
	if p.spec.Unit != "" {
		top += 14
	}
	if len(p.spec.Events) > 0 {
		top += lane
	}
	bottom := gutter
	if p.spec.X.Label != nil || len(p.spec.X.Ticks) > 0 {
		bottom += row
	}

	// The rows that mark labels take depend on the plot's width, which depends
	// on the y labels, which depend on the plot's height: two rounds settle it.
	rows := 0
	for range 2 {
		height := math.Max(1, h-top-bottom-row*float64(rows))
		n := math.Max(2, math.Min(6, math.Floor(height/42)))
		var step float64
		p.y0, p.y1, step = widen(y0, y1, p.spec.Y, n, true)
		p.yTicks = p.ticks(p.spec.Y, p.y0, p.y1, step)
		p.grid = nil
		for _, t := range p.yTicks {
			p.grid = append(p.grid, t.At)
		}
		left := math.Max(gutter, p.spec.Left)
		for _, t := range p.yTicks {
			if t.Label != "" {
				left = math.Max(left, width(t.Label)+2*gutter)
			}
		}
		p.plot = scene.Box{Min: scene.Pt(left, h-top-height), Max: scene.Pt(math.Max(left+1, w-1.4*gutter), h-top)}
		p.x0, p.x1, step = widen(x0, x1, p.spec.X, math.Max(1, p.plot.W()/90), false)
		p.xTicks = p.apart(step)
		rows = p.placeMarks(bottom - gutter)
	}
	return p
}

func width(s string) float64 { return scene.TextSize(s, scene.Regular, note).Width }

func (p *plan) ticks(a Axis, lo, hi, step float64) []Tick {
	var out []Tick
	if a.Ticks != nil {
		for _, t := range a.Ticks {
			if finite(t.At) && t.At >= lo && t.At <= hi {
				out = append(out, t)
			}
		}
		return out
	}
	zone := 0.0
	if a.Time {
		zone = a.Zone
	}
	for _, v := range ticksIn(lo, hi, step, zone) {
		t := Tick{At: v}
		if a.Label != nil {
			t.Label = a.Label(v, step)
		}
		out = append(out, t)
	}
	return out
}

// apart gives x ticks whose labels do not touch: with a coarser step, or with
// the caller's own ticks by leaving out every other one.
func (p *plan) apart(step float64) []Tick {
	ts := p.ticks(p.spec.X, p.x0, p.x1, step)
	touch := func() bool {
		end := math.Inf(-1)
		for _, t := range ts {
			half := width(t.Label) / 2
			if t.Label != "" && p.x(t.At)-half < end+gutter {
				return true
			}
			end = p.x(t.At) + half
		}
		return false
	}
	for n := 0; n < 30 && len(ts) > 1 && touch(); n++ {
		if p.spec.X.Ticks != nil {
			var half []Tick
			for i := 0; i < len(ts); i += 2 {
				half = append(half, ts[i])
			}
			ts = half
			continue
		}
		step = niceStep(step*1.01, p.spec.X.Time)
		ts = p.ticks(p.spec.X, p.x0, p.x1, step)
	}
	return ts
}

// placeMarks puts the marks' labels in rows below the plot and its x labels,
// right of their line or left of it, and gives the number of rows.
func (p *plan) placeMarks(below float64) int {
	p.marks = nil
	rows := 0
	var taken []scene.Box
	for _, m := range p.spec.Marks {
		if !finite(m.X) || m.X < p.x0 || m.X > p.x1 {
			continue
		}
		at := marked{Mark: m}
		x, w := p.x(m.X), scene.TextSize(m.Label, scene.SemiBold, note).Width
		for r := 0; m.Label != "" && at.baseline == 0; r++ {
			base := p.plot.Min.Y - below - row*float64(r) - 14
			for _, left := range []float64{x + 5, x - 5 - w, clampTo(x-w/2, 2, p.w-2-w)} {
				b := scene.Box{Min: scene.Pt(left-4, base-3), Max: scene.Pt(left+w+4, base+10)}
				if left < 1 || left+w > p.w-1 && r < 8 {
					continue
				}
				free := true
				for _, o := range taken {
					free = free && !o.Overlaps(b)
				}
				if free || r >= 8 {
					taken = append(taken, b)
					at.x, at.baseline, rows = left, base, max(rows, r+1)
					break
				}
			}
			if r > 8 {
				break
			}
		}
		p.marks = append(p.marks, at)
	}
	return rows
}

func clampTo(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }

// x and y give the place of a value in points; xAt is x's inverse.
func (p *plan) x(v float64) float64    { return p.plot.Min.X + (v-p.x0)/(p.x1-p.x0)*p.plot.W() }
func (p *plan) y(v float64) float64    { return p.plot.Min.Y + (v-p.y0)/(p.y1-p.y0)*p.plot.H() }
func (p *plan) xAt(px float64) float64 { return p.x0 + (px-p.plot.Min.X)/p.plot.W()*(p.x1-p.x0) }
