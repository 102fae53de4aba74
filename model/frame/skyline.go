package frame

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// skyline is a symmetric matrix that keeps, for each row, the entries from its
// first non-zero column to the diagonal.
type skyline struct {
	first []int     // first kept column of each row
	start []int     // where the row begins in val
	val   []float64 // rows one after the other
}

// newSkyline makes a zero matrix with the given first columns.
func newSkyline(first []int) *skyline {
	s := &skyline{first: first, start: make([]int, len(first)+1)}
	for i, f := range first {
		s.start[i+1] = s.start[i] + i - f + 1
	}
	s.val = make([]float64, s.start[len(first)])
	return s
}

func (s *skyline) size() int { return len(s.first) }

// row is the kept part of row i, its last entry the diagonal.
func (s *skyline) row(i int) []float64 { return s.val[s.start[i]:s.start[i+1]] }

// add adds v to entry (i, j) of the lower half, j <= i.
func (s *skyline) add(i, j int, v float64) { s.val[s.start[i]+j-s.first[i]] += v }

// multiply sets dst to s times x.
func (s *skyline) multiply(dst, x []float64) {
	for i := range dst {
		f, row := s.first[i], s.row(i)
		below := row[:len(row)-1]
		dst[i] = floats.Dot(below, x[f:i]) + row[len(row)-1]*x[i]
		floats.AddScaled(dst[f:i], x[i], below)
	}
}

// pivotLimit is the share of its diagonal below which a pivot counts as zero.
// Rounding leaves about 1e-14; the softest real stands stay above 1e-8.
const pivotLimit = 1e-11 // judgement

// freeMotion is a way the frame moves without resistance: one vector over all
// equations, 1 at the equation where it was found.
type freeMotion struct {
	equation int
	shape    []float64
}

// factor replaces s by its factors L D L', L unit lower, D on the diagonal.
//
// Where a pivot vanishes, keep is asked about the free motion: true leaves
// that equation out (its unknown stays zero), false stops the work and hands
// the motion back. Left-out equations have D = 0.
func (s *skyline) factor(keep func(freeMotion) bool) *freeMotion {
	n := s.size()
	diag := make([]float64, n)
	for i := range n {
		fi, ri := s.first[i], s.row(i)
		for j := fi + 1; j < i; j++ {
			fj := s.first[j]
			lo := max(fi, fj)
			if lo < j {
				ri[j-fi] -= floats.Dot(ri[lo-fi:j-fi], s.row(j)[lo-fj:j-fj])
			}
		}
		whole := ri[i-fi]
		pivot := whole
		for j := fi; j < i; j++ {
			g := ri[j-fi]
			if diag[j] == 0 {
				ri[j-fi] = 0
				continue
			}
			l := g / diag[j]
			ri[j-fi] = l
			pivot -= g * l
		}
		if pivot <= pivotLimit*math.Abs(whole) {
			m := freeMotion{equation: i, shape: s.nullShape(i)}
			if !keep(m) {
				return &m
			}
			pivot = 0
		}
		diag[i] = pivot
		ri[i-fi] = pivot
	}
	return nil
}

// nullShape solves for the motion that makes row i's pivot vanish, with the
// rows up to i factored.
func (s *skyline) nullShape(i int) []float64 {
	x := make([]float64, s.size())
	x[i] = 1
	s.backward(x[:i+1])
	return x
}

// forward solves L x = b in place.
func (s *skyline) forward(x []float64) {
	for i := range x {
		f, row := s.first[i], s.row(i)
		x[i] -= floats.Dot(row[:len(row)-1], x[f:i])
	}
}

// backward solves L' x = b in place, over the leading len(x) equations.
func (s *skyline) backward(x []float64) {
	for i := len(x) - 1; i >= 0; i-- {
		f, row := s.first[i], s.row(i)
		floats.AddScaled(x[f:i], -x[i], row[:len(row)-1])
	}
}

// pivot is the i-th entry of D; zero for an equation left out.
func (s *skyline) pivot(i int) float64 { return s.val[s.start[i+1]-1] }

// solve solves L D L' x = b in place; left-out unknowns come back as zero.
func (s *skyline) solve(x []float64) {
	s.forward(x)
	for i := range x {
		if d := s.pivot(i); d == 0 {
			x[i] = 0
		} else {
			x[i] /= d
		}
	}
	s.backward(x)
}
