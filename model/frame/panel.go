package frame

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// panelShape is the shear strain of a panel as a linear form in its corners'
// displacements, and its area.
type panelShape struct {
	form [4][3]float64 // strain = sum of form·displacement, 1/m
	area float64       // m2
}

// rectangleLimit is how far, as a share of its size, a panel may be from a
// rectangle.
const rectangleLimit = 1e-3 // judgement: a millimetre in a metre

// panelShape works out the strain form; false if the corners are no rectangle.
//
// With edges 1 (corner 0 to 1) and 2 (corner 0 to 3) of lengths b and h, the
// mean strain is (mean movement along 1 of the far edge less the near) / h
// plus (mean movement along 2 of the right edge less the left) / b.
func (f *Frame) panelShape(p Panel) (panelShape, bool) {
	var c [4]r3.Vec
	for i, n := range p.Corners {
		c[i] = r3.Vec(f.Nodes[n])
	}
	e1, e2 := r3.Sub(c[1], c[0]), r3.Sub(c[3], c[0])
	b, h := r3.Norm(e1), r3.Norm(e2)
	if b < smallestInput || h < smallestInput {
		return panelShape{}, false
	}
	if math.Abs(r3.Dot(e1, e2)) > rectangleLimit*b*h {
		return panelShape{}, false
	}
	if gap := r3.Sub(c[2], r3.Add(c[1], e2)); r3.Norm(gap) > rectangleLimit*min(b, h) {
		return panelShape{}, false
	}
	e1, e2 = r3.Scale(1/b, e1), r3.Scale(1/h, e2)
	var s panelShape
	s.area = b * h
	far := [4]float64{-1, -1, 1, 1}
	right := [4]float64{-1, 1, 1, -1}
	for i := range s.form {
		v := r3.Add(r3.Scale(far[i]/(2*h), e1), r3.Scale(right[i]/(2*b), e2))
		s.form[i] = [3]float64{v.X, v.Y, v.Z}
	}
	return s, true
}
