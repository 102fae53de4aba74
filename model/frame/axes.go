package frame

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// triad holds a member's local axes as rows: local = triad times global.
type triad [3][3]float64

// alongLimit is the sine below which Up counts as parallel to the member.
const alongLimit = 1e-6 // judgement: far above rounding, far below any drawing

// axes gives a member's length and local axes, or the fault that prevents it.
func (f *Frame) axes(m Member) (float64, triad, Fault) {
	a, b := r3.Vec(f.Nodes[m.Start]), r3.Vec(f.Nodes[m.End])
	d := r3.Sub(b, a)
	length := r3.Norm(d)
	// A length lost in the rounding of the coordinates is no length.
	if size := max(r3.Norm(a), r3.Norm(b)); length <= 1e-12*size || length < smallestInput {
		return 0, triad{}, ZeroLength
	}
	x := r3.Scale(1/length, d)
	up := r3.Vec(m.Up)
	if up == (r3.Vec{}) {
		up = f.defaultUp(x)
	} else {
		// By its largest part first: the square of a tiny direction is zero.
		largest := max(math.Abs(up.X), math.Abs(up.Y), math.Abs(up.Z))
		up = r3.Unit(r3.Vec{X: up.X / largest, Y: up.Y / largest, Z: up.Z / largest})
	}
	z := r3.Cross(x, up)
	sine := r3.Norm(z)
	if sine < alongLimit {
		return 0, triad{}, AlongMember
	}
	z = r3.Scale(1/sine, z)
	y := r3.Cross(z, x)
	return length, triad{{x.X, x.Y, x.Z}, {y.X, y.Y, y.Z}, {z.X, z.Y, z.Z}}, ""
}

// defaultUp is the Up of a member that gives none; x is its unit axis.
func (f *Frame) defaultUp(x r3.Vec) r3.Vec {
	if f.Plane {
		return r3.Vec{X: -x.Y, Y: x.X} // global z cross x
	}
	if math.Hypot(x.X, x.Y) < alongLimit {
		return r3.Vec{X: 1}
	}
	return r3.Vec{Z: 1}
}

// toLocal turns a global vector into local axes.
func (t *triad) toLocal(v Vector) [3]float64 {
	var out [3]float64
	for i := range out {
		out[i] = t[i][0]*v.X + t[i][1]*v.Y + t[i][2]*v.Z
	}
	return out
}

// localEnds turns the twelve global end values of a member into local axes.
func (t *triad) localEnds(g *[12]float64) [12]float64 {
	var out [12]float64
	for b := 0; b < 12; b += 3 {
		for i := range 3 {
			out[b+i] = t[i][0]*g[b] + t[i][1]*g[b+1] + t[i][2]*g[b+2]
		}
	}
	return out
}

// globalEnds is the inverse of localEnds.
func (t *triad) globalEnds(l *[12]float64) [12]float64 {
	var out [12]float64
	for b := 0; b < 12; b += 3 {
		for i := range 3 {
			out[b+i] = t[0][i]*l[b] + t[1][i]*l[b+1] + t[2][i]*l[b+2]
		}
	}
	return out
}

// globalMatrix turns a symmetric local end matrix into global axes.
func (t *triad) globalMatrix(k *mat12) mat12 {
	var out mat12
	for a := 0; a < 12; a += 3 {
		for b := 0; b <= a; b += 3 {
			var half [3][3]float64 // k_ab R
			for i := range 3 {
				for j := range 3 {
					half[i][j] = k[a+i][b]*t[0][j] + k[a+i][b+1]*t[1][j] + k[a+i][b+2]*t[2][j]
				}
			}
			for i := range 3 {
				for j := range 3 {
					v := t[0][i]*half[0][j] + t[1][i]*half[1][j] + t[2][i]*half[2][j]
					out[a+i][b+j] = v
					out[b+j][a+i] = v
				}
			}
		}
	}
	return out
}
