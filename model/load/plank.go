package load

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Limits of final sag, judgement: under glass a five-hundredth of the span and
// never more than 1.5 mm.
const (
	sagShare                 = 500
	sagMost  quantity.Length = 0.0015
	thinnest quantity.Length = 0.016 // furniture board of unknown thickness, judgement
)

// sagLimit is the final sag that a span may have.
func sagLimit(span float64) quantity.Length { return min(quantity.Length(span/sagShare), sagMost) }

// plank is a board that carries a tank across its span.
type plank struct {
	board     Board
	thickness quantity.Length
	depth     quantity.Length // across the span
	span      quantity.Length
	middle    bool // an upright under the middle
}

// verdict is what a plank or rail does under a load.
type verdict struct {
	grade   grade
	beam    beam
	effect  effect
	stress  quantity.Pressure
	shear   quantity.Pressure
	sag     quantity.Length // final
	limit   quantity.Length
	bending float64 // uses
	shearU  float64
	sagU    float64
}

func (v verdict) worst() float64 { return max(v.bending, v.shearU, v.sagU) }

// judge compares a beam under a load with its grade.
func judge(g grade, b beam, l bearing) verdict {
	v := verdict{grade: g, beam: b, effect: b.under(l)}
	free := b.span
	if b.middle {
		free /= 2
	}
	v.stress, v.shear = b.bending(v.effect), b.shearing(v.effect)
	v.sag, v.limit = quantity.Length(v.effect.sag*g.creep), sagLimit(free)
	v.bending = g.factor * float64(v.stress/g.fm)
	v.shearU = g.factor * float64(v.shear/g.fv)
	v.sagU = float64(v.sag / v.limit)
	return v
}

// onBoard is how a tank bears on a board that spans along the tank's length: a
// framed one on its perimeter, a rimless one on its area.
func (l Load) onBoard() bearing {
	w := float64(l.Mass.Weight())
	if !l.Framed {
		return bearing{patch: w, length: float64(l.Length)}
	}
	line := w / (2 * float64(l.Length+l.Width))
	return bearing{patch: 2 * line * float64(l.Length), length: float64(l.Length), ends: line * float64(l.Width)}
}

// judge returns the verdict on a plank under a tank, its own weight included.
func (p plank) judge(l Load, class ServiceClass) verdict {
	g, _ := p.board.grade(p.thickness, class)
	b := rectangular(float64(p.span), float64(p.depth), float64(p.thickness), float64(g.e))
	b.middle = p.middle
	on := l.onBoard()
	on.uniform += float64(g.density) * b.area * quantity.StandardGravity
	return judge(g, b, on)
}

// plankChecks adds bending, shear and sag of a plank, and what would cure them.
func (r *report) plankChecks(in StandInput, p plank) {
	v := p.judge(in.Load, in.Service)
	r.beamChecks(v, [3]working.Key{"q.load.check_top_bending", "q.load.check_top_shear", "q.load.check_top_sag"}, func(tr *working.Trail) {
		tr.Given("m", "q.load.mass", in.Load.Mass.Value()).
			Given("L", "q.load.span", p.span.Value()).
			Given("b", "q.load.board_depth", p.depth.Value()).
			Given("t", "q.load.thickness", p.thickness.Value()).
			Cites(srcEC5, srcDense)
		if in.Load.Framed {
			tr.Assume("assume.load.perimeter")
		} else {
			tr.Assume("assume.load.area")
		}
	})
	if v.worst() > waitFrom {
		r.plankCures(in, p)
	}
}

// beamChecks adds the three checks of a verdict; given writes the inputs.
func (r *report) beamChecks(v verdict, names [3]working.Key, given func(*working.Trail)) {
	open := func(ask working.Key) *working.Trail {
		tr := working.New(ask)
		given(tr)
		return tr.Cites(srcBeam)
	}
	tr := open("ask.load.bending")
	tr.Step("M", "q.load.moment", "M = max|M(x)|", quantity.Moment(v.effect.moment).Value(), srcBeam).
		Step("σ", "q.load.stress", "σ = M/Z", v.stress.Value(), srcBeam).
		Constant("γ", "q.load.partial_factor", quantity.Ratio(v.grade.factor).Value(), working.Ours).
		Constant("f_d", "q.load.design_strength", v.grade.fm.Value(), v.grade.origin).
		Assume("assume.load.permanent")
	r.add(names[0], quantity.Pressure(v.grade.factor*float64(v.stress)).Value(), v.grade.fm.Value(), tr)

	tr = open("ask.load.shear")
	tr.Step("V", "q.load.shear_force", "V = max|V(x)|", quantity.Force(v.effect.shear).Value(), srcBeam).
		Step("τ", "q.load.shear_stress", "τ = 1.5·V/A", v.shear.Value(), srcBeam).
		Constant("f_v", "q.load.design_shear", v.grade.fv.Value(), v.grade.origin)
	r.add(names[1], quantity.Pressure(v.grade.factor*float64(v.shear)).Value(), v.grade.fv.Value(), tr)

	tr = open("ask.load.sag")
	tr.Constant("E", "q.load.modulus", v.grade.e.Value(), v.grade.origin).
		Step("w_0", "q.load.sag_now", "w_0 = max|w(x)|", quantity.Length(v.effect.sag).Value(), srcBeam).
		Constant("k", "q.load.creep", quantity.Ratio(v.grade.creep).Value(), v.grade.source()).
		Step("w", "q.load.sag", "w = k·w_0", v.sag.Value(), v.grade.source()).
		Step("w_lim", "q.load.sag_limit", "w_lim = min(L/500, 1.5 mm)", v.limit.Value(), working.Ours)
	r.add(names[2], v.sag.Value(), v.limit.Value(), tr)
}

// Boards that a shop sells, thickness in millimetres. Common practice.
var boardSteps = []float64{12, 15, 18, 21, 24, 27, 30, 36, 40}

// thinnestThatHolds returns the least thickness of a board that keeps every use
// at or below 0.7.
func (p plank) thinnestThatHolds(l Load, class ServiceClass) (plank, float64, bool) {
	for _, mm := range boardSteps {
		p.thickness = quantity.Millimetres(mm)
		if u := p.judge(l, class).worst(); u <= waitFrom {
			return p, u, true
		}
	}
	return p, 0, false
}

// plankCures offers, in the order of least work, a support under the middle of
// the board as it is, a plywood board, and both together.
func (r *report) plankCures(in StandInput, p plank) {
	say := func(code working.Key, p plank, use float64) {
		r.offer(r.cure(code).With("Thickness", p.thickness.Value()).With("Use", quantity.Ratio(use).Value()))
	}
	structural, allowed := p.board.LoadBearing(in.Service)
	half := p
	half.middle = true
	if u := half.judge(in.Load, in.Service).worst(); !p.middle && structural && allowed && u <= waitFrom {
		r.offer(r.cure("find.load.cure_middle").With("Use", quantity.Ratio(u).Value()))
	}
	ply := p
	ply.board = BoardPlywood
	if q, u, ok := ply.thinnestThatHolds(in.Load, in.Service); ok {
		say("find.load.cure_plywood", q, u)
	}
	ply.middle = true
	if q, u, ok := ply.thinnestThatHolds(in.Load, in.Service); ok && !p.middle {
		say("find.load.cure_plywood_middle", q, u)
	}
}
