package frame

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// eigenTolerance bounds the residual of the eigenpair, as a share of the
// eigenvalue; the eigenvalue itself is better than that.
const eigenTolerance = 1e-7 // judgement

// noneLimit is the share of the largest eigenvalue by size below which a
// positive one is rounding.
const noneLimit = 1e-8 // judgement

// largestEigenvalue finds the largest eigenvalue of the symmetric operator
// apply on n unknowns, or zero if none is positive.
//
// Lanczos iteration with full reorthogonalisation from a fixed start that no
// symmetry of a frame shares, so every distinct eigenvalue is met; at n steps
// it is a complete reduction. Source: G. H. Golub and C. F. Van Loan, Matrix
// Computations, chapter 10 (from memory).
func largestEigenvalue(n int, apply func(dst, src []float64)) (float64, error) {
	if n == 0 {
		return 0, nil
	}
	var basis [][]float64
	var diagonal, off []float64
	v := startVector(n)
	scale := 0.0
	for next := 10; ; {
		basis = append(basis, v)
		m := len(basis)
		w := make([]float64, n)
		apply(w, v)
		alpha := floats.Dot(w, v)
		for range 2 { // twice is enough
			for _, b := range basis {
				floats.AddScaled(w, -floats.Dot(w, b), b)
			}
		}
		beta := floats.Norm(w, 2)
		if !isFinite(alpha) || !isFinite(beta) {
			return 0, &InputError{ItemBuckle, 0, "result", OutOfRange}
		}
		diagonal = append(diagonal, alpha)
		scale = max(scale, math.Abs(alpha), beta)
		complete := m == n || beta <= 1e-14*scale
		if complete || m == next {
			theta, last, size, ok := topPair(diagonal, off)
			if !ok {
				return 0, &InputError{ItemBuckle, 0, "result", OutOfRange}
			}
			positive := theta > noneLimit*size
			if positive && beta*last <= eigenTolerance*theta || complete {
				if !positive {
					return 0, nil
				}
				return theta, nil
			}
			next = m + m/2
			next = min(next, n)
		}
		off = append(off, beta)
		floats.Scale(1/beta, w)
		v = w
	}
}

// topPair is the largest eigenvalue of a symmetric tridiagonal matrix, the
// size of its vector's last entry, and the largest eigenvalue by size.
func topPair(diagonal, off []float64) (theta, last, size float64, ok bool) {
	m := len(diagonal)
	t := mat.NewSymDense(m, nil)
	for i, d := range diagonal {
		t.SetSym(i, i, d)
		if i+1 < m {
			t.SetSym(i, i+1, off[i])
		}
	}
	var e mat.EigenSym
	if !e.Factorize(t, true) {
		return 0, 0, 0, false
	}
	values := e.Values(nil)
	var vectors mat.Dense
	e.VectorsTo(&vectors)
	return values[m-1], math.Abs(vectors.At(m-1, m-1)), max(math.Abs(values[0]), math.Abs(values[m-1])), true
}

// startVector is a fixed unit vector without pattern.
func startVector(n int) []float64 {
	v := make([]float64, n)
	state := uint64(1)
	for i := range v {
		state = state*6364136223846793005 + 1442695040888963407 // Knuth's MMIX multiplier (from memory)
		v[i] = float64(state>>11)/(1<<53) - 0.5
	}
	floats.Scale(1/floats.Norm(v, 2), v)
	return v
}
