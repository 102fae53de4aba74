package frame

// mat12 is an end matrix of one member. Rows and columns: ux uy uz rx ry rz
// at the start, then at the end, in local or global axes.
type mat12 [12][12]float64

// setSym writes a value and its mirror.
func (k *mat12) setSym(i, j int, v float64) { k[i][j], k[j][i] = v, v }

// bendingDOF lists the freedoms of bending about one local axis, start to
// end, and the sign that ties the rotation to the slope: the rotation about z
// is the slope of v, the rotation about y is minus the slope of w.
type bendingDOF struct {
	move1, turn1, move2, turn2 int
	sign                       float64
}

var (
	aboutZ = bendingDOF{1, 5, 7, 11, 1}
	aboutY = bendingDOF{2, 4, 8, 10, -1}
)

// localStiffness is the Euler-Bernoulli stiffness in local axes, no releases.
// Source: D. L. Logan, A First Course in the Finite Element Method, chapter 5
// (from memory); checked against testdata/structure/frame3d_k_local.csv.
func localStiffness(mat Material, s Section, length float64) mat12 {
	var k mat12
	axial := mat.E * s.A / length
	k[0][0], k[6][6] = axial, axial
	k.setSym(0, 6, -axial)
	twist := mat.G * s.J / length
	k[3][3], k[9][9] = twist, twist
	k.setSym(3, 9, -twist)
	for _, p := range []struct {
		bendingDOF
		ei float64
	}{{aboutZ, mat.E * s.Iz}, {aboutY, mat.E * s.Iy}} {
		fillBending(&k, p.bendingDOF,
			12*p.ei/(length*length*length), 6*p.ei/(length*length), 4*p.ei/length, 2*p.ei/length)
	}
	return k
}

// localGeometric is the consistent geometric stiffness in local axes of an
// axial force of 1 N, tension positive.
// Source: P/(30 L) times {36, 3L, 4L2, -L2}; J. S. Przemieniecki, Theory of
// Matrix Structural Analysis, chapter 15 (from memory).
func localGeometric(length float64) mat12 {
	var k mat12
	for _, d := range []bendingDOF{aboutZ, aboutY} {
		fillBending(&k, d, 1.2/length, 0.1, 4*length/30, -length/30)
	}
	return k
}

// fillBending writes the pattern that elastic and geometric bending share:
// move-move, move-turn, turn-turn at one end, turn-turn across.
func fillBending(k *mat12, d bendingDOF, move, couple, near, far float64) {
	couple *= d.sign
	k[d.move1][d.move1], k[d.move2][d.move2] = move, move
	k.setSym(d.move1, d.move2, -move)
	k.setSym(d.move1, d.turn1, couple)
	k.setSym(d.move1, d.turn2, couple)
	k.setSym(d.move2, d.turn1, -couple)
	k.setSym(d.move2, d.turn2, -couple)
	k[d.turn1][d.turn1], k[d.turn2][d.turn2] = near, near
	k.setSym(d.turn1, d.turn2, far)
}

// lineForces is the end load equal to a uniform local load q (N/m): exact for
// a member with both ends built in.
func lineForces(q [3]float64, length float64) [12]float64 {
	var f [12]float64
	for i, v := range q {
		f[i], f[6+i] = v*length/2, v*length/2
	}
	mz, my := q[1]*length*length/12, q[2]*length*length/12
	f[aboutZ.turn1], f[aboutZ.turn2] = mz, -mz
	f[aboutY.turn1], f[aboutY.turn2] = -my, my
	return f
}

// hinge is one released rotation, eliminated from the member's matrix. With
// it, the member's own end rotation is row·u + (load on it)/pivot.
type hinge struct {
	dof   int
	pivot float64
	row   [12]float64
}

// releaseHinges eliminates the released rotations of m from k, one after the
// other, and returns them in that order.
func releaseHinges(k *mat12, m Member) []hinge {
	var hinges []hinge
	for _, r := range []struct {
		dof  int
		free bool
	}{
		{aboutZ.turn1, m.StartRelease.Z}, {aboutY.turn1, m.StartRelease.Y},
		{aboutZ.turn2, m.EndRelease.Z}, {aboutY.turn2, m.EndRelease.Y},
	} {
		pivot := k[r.dof][r.dof]
		if !r.free || pivot == 0 { // zero: an axis that a plane frame ignores
			continue
		}
		h := hinge{dof: r.dof, pivot: pivot}
		for j := range 12 {
			if j != r.dof {
				h.row[j] = -k[r.dof][j] / pivot
			}
		}
		h.reduce(k)
		hinges = append(hinges, h)
	}
	return hinges
}

// reduce replaces the released rotation in a symmetric end matrix by what the
// other freedoms make of it.
func (h *hinge) reduce(k *mat12) {
	r := h.dof
	col := k[r]
	for i := range 12 {
		for j := range 12 {
			k[i][j] += h.row[i]*col[j] + col[i]*h.row[j] + h.row[i]*h.row[j]*col[r]
		}
	}
	for j := range 12 {
		k[r][j], k[j][r] = 0, 0
	}
}

// reduceLoad does the same for an end load.
func (h *hinge) reduceLoad(f *[12]float64) {
	v := f[h.dof]
	for j := range 12 {
		f[j] += h.row[j] * v
	}
	f[h.dof] = 0
}

// dot multiplies two end vectors.
func dot(a, b *[12]float64) float64 {
	s := 0.0
	for i := range a {
		s += a[i] * b[i]
	}
	return s
}
