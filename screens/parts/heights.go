package parts

// heights are those of very many rows: guessed until a row was measured. Setting
// one, and finding what lies at a place, take a number of steps that grows with
// the logarithm of their count (a binary indexed tree over the heights).
type heights struct {
	each []float32
	sums []float64 // the tree, from 1
	know []bool
}

func newHeights(n int, guess float32) *heights {
	h := &heights{each: make([]float32, n), sums: make([]float64, n+1), know: make([]bool, n)}
	for i := range h.each {
		h.each[i] = guess
		h.sums[i+1] = float64(guess)
	}
	for i := 1; i <= n; i++ {
		if up := i + i&-i; up <= n {
			h.sums[up] += h.sums[i]
		}
	}
	return h
}

// set gives row i its measured height and tells by how much it differs.
func (h *heights) set(i int, v float32) (more float32) {
	more = v - h.each[i]
	h.each[i], h.know[i] = v, true
	if more != 0 {
		for n := i + 1; n < len(h.sums); n += n & -n {
			h.sums[n] += float64(more)
		}
	}
	return more
}

// top is how high the rows before row i are together.
func (h *heights) top(i int) float64 {
	s := 0.0
	for n := i; n > 0; n -= n & -n {
		s += h.sums[n]
	}
	return s
}

func (h *heights) all() float64 { return h.top(len(h.each)) }

// at is the row that lies y below the top of the first; the nearest one where
// there is none.
func (h *heights) at(y float64) int {
	n, bit := 0, 1
	for bit<<1 < len(h.sums) {
		bit <<= 1
	}
	for ; bit > 0; bit >>= 1 {
		if n+bit < len(h.sums) && h.sums[n+bit] <= y {
			n += bit
			y -= h.sums[n]
		}
	}
	return max(0, min(n, len(h.each)-1))
}
