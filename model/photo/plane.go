package photo

import "math"

// plane is one component of a picture, a byte a sample.
type plane struct {
	pix    []byte
	stride int
	w, h   int
}

func newPlane(w, h int) plane { return plane{make([]byte, w*h), w, w, h} }

// boxed averages squares of f by f samples, f being a power of two; what is left
// over at the right and lower edge is averaged as it is.
func (p plane) boxed(f int) plane {
	if f == 1 {
		return p
	}
	out := newPlane((p.w+f-1)/f, (p.h+f-1)/f)
	sums := make([]uint32, out.w)
	for y := range out.h {
		clear(sums)
		rows := min(f, p.h-y*f)
		for r := range rows {
			row := p.pix[(y*f+r)*p.stride:][:p.w]
			addBoxes(sums, row, f)
		}
		to := out.pix[y*out.w:][:out.w]
		whole := p.w / f
		n := uint32(f * rows)
		if rows == f {
			shift := shiftOf(f * f)
			for x, s := range sums[:whole] {
				to[x] = byte((s + n/2) >> shift)
			}
		} else {
			for x, s := range sums[:whole] {
				to[x] = byte((s + n/2) / n)
			}
		}
		if whole < out.w {
			n := uint32((p.w - whole*f) * rows)
			to[whole] = byte((sums[whole] + n/2) / n)
		}
	}
	return out
}

// addBoxes adds up a row in groups of f.
func addBoxes(sums []uint32, row []byte, f int) {
	x := 0
	switch f {
	case 2:
		for ; len(row) >= 2; x++ {
			sums[x] += uint32(row[0]) + uint32(row[1])
			row = row[2:]
		}
	case 4:
		for ; len(row) >= 4; x++ {
			sums[x] += uint32(row[0]) + uint32(row[1]) + uint32(row[2]) + uint32(row[3])
			row = row[4:]
		}
	default:
		for ; len(row) >= f; x++ {
			b := row[:f:f]
			var s uint32
			for ; len(b) >= 8; b = b[8:] {
				s += uint32(b[0]) + uint32(b[1]) + uint32(b[2]) + uint32(b[3]) + uint32(b[4]) + uint32(b[5]) + uint32(b[6]) + uint32(b[7])
			}
			sums[x] += s
			row = row[f:]
		}
	}
	for _, b := range row {
		sums[x] += uint32(b)
	}
}

func shiftOf(n int) uint {
	s := uint(0)
	for ; n > 1; n >>= 1 {
		s++
	}
	return s
}

// boxFor is the box to average by before the fine filter: the largest power of
// two that leaves it at least as many samples as are wanted.
func boxFor(from, to int) int {
	f := 1
	for from/(f*2) >= to {
		f *= 2
	}
	return f
}

// sized brings a plane to w by h samples: boxes first, then the fine filter.
func (p plane) sized(w, h int) plane {
	return p.boxedBy(min(boxFor(p.w, w), boxFor(p.h, h)), w, h)
}

// boxedBy is sized with boxes of f. The last box of a row may be cut short, so
// that the row is that much shorter than the boxes it has.
func (p plane) boxedBy(f, w, h int) plane {
	return p.boxed(f).fine(float64(p.w)/float64(f), float64(p.h)/float64(f), w, h)
}

// fine brings a plane, of which spanW by spanH samples count, to w by h.
func (p plane) fine(spanW, spanH float64, w, h int) plane {
	if spanW == float64(w) && spanH == float64(h) {
		return p
	}
	if p.w <= w && p.h <= h && w*h > plenty {
		return p.repeated(w, h)
	}
	return p.across(w, spanW).down(h, spanH)
}

// plenty is the size from which colour is enlarged by repeating, which no one
// sees there and which takes a tenth of the time. // judgement
const plenty = 4 << 20

// repeated enlarges a plane by repeating its samples.
func (p plane) repeated(w, h int) plane {
	out := newPlane(w, h)
	from := make([]int, w)
	for x := range from {
		from[x] = x * p.w / w
	}
	for y := range h {
		row := p.pix[y*p.h/h*p.stride:][:p.w]
		to := out.pix[y*w:][:w]
		for x, at := range from {
			to[x] = row[at]
		}
	}
	return out
}

// taps are the samples that make one sample of the result: those from first on,
// weighed in parts of 1 << weightBits.
type taps struct {
	first   int
	weights []int32
}

const weightBits = 14

// lobes of the filter. Source: C. E. Duchon, "Lanczos filtering in one and two
// dimensions", Journal of Applied Meteorology 18 (1979) 1016-1022; three lobes
// are common practice.
const lobes = 3

func lanczos(x float64) float64 {
	if x == 0 {
		return 1
	}
	if math.Abs(x) >= lobes {
		return 0
	}
	px := math.Pi * x
	return lobes * math.Sin(px) * math.Sin(px/lobes) / (px * px)
}

// tapsFor makes the taps that bring n samples, of which span count, to m; to
// enlarge, the filter keeps the width of a sample.
func tapsFor(n, m int, span float64) []taps {
	scale := span / float64(m)
	wide := max(scale, 1)
	out := make([]taps, m)
	for i := range out {
		centre := (float64(i) + 0.5) * scale
		first := max(int(math.Floor(centre-lobes*wide)), 0)
		last := min(int(math.Ceil(centre+lobes*wide)), n)
		ws := make([]float64, last-first)
		sum := 0.0
		for k := range ws {
			ws[k] = lanczos((float64(first+k) + 0.5 - centre) / wide)
			sum += ws[k]
		}
		t := taps{first, make([]int32, len(ws))}
		rest, heaviest := int32(1<<weightBits), 0
		for k, w := range ws {
			t.weights[k] = int32(math.Round(w / sum * (1 << weightBits)))
			rest -= t.weights[k]
			if t.weights[k] > t.weights[heaviest] {
				heaviest = k
			}
		}
		t.weights[heaviest] += rest // so that an even surface stays what it is
		out[i] = t
	}
	return out
}

func clamp(s int32) byte {
	s = (s + 1<<(weightBits-1)) >> weightBits
	if uint32(s) > 255 {
		if s < 0 {
			return 0
		}
		return 255
	}
	return byte(s)
}

// across brings every row to w samples.
func (p plane) across(w int, span float64) plane {
	if span == float64(w) {
		return p
	}
	out := newPlane(w, p.h)
	ts := tapsFor(p.w, w, span)
	for y := range p.h {
		row := p.pix[y*p.stride:][:p.w]
		to := out.pix[y*w:][:w]
		for x, t := range ts {
			var s int32
			from := row[t.first:][:len(t.weights)]
			for k, v := range t.weights {
				s += v * int32(from[k])
			}
			to[x] = clamp(s)
		}
	}
	return out
}

// down brings every column to h samples.
func (p plane) down(h int, span float64) plane {
	if span == float64(h) {
		return p
	}
	out := newPlane(p.w, h)
	sums := make([]int32, p.w)
	for y, t := range tapsFor(p.h, h, span) {
		clear(sums)
		for k, v := range t.weights {
			row := p.pix[(t.first+k)*p.stride:][:len(sums)]
			for x := range sums {
				sums[x] += v * int32(row[x])
			}
		}
		to := out.pix[y*p.w:][:p.w]
		for x, s := range sums {
			to[x] = clamp(s)
		}
	}
	return out
}

// turned brings a plane upright from one of the orientations of EXIF.
func (p plane) turned(orientation int) plane {
	if orientation < 2 || orientation > 8 {
		return p
	}
	w, h := p.w, p.h
	if orientation >= 5 {
		w, h = h, w
	}
	out := newPlane(w, h)
	for y := range h {
		to := out.pix[y*w:][:w]
		at, step := origin(orientation, y, p)
		for x := range to {
			to[x] = p.pix[at]
			at += step
		}
	}
	return out
}

// origin gives the place in p of the first sample of row y of the upright
// picture, and the step to the next.
func origin(orientation, y int, p plane) (at, step int) {
	switch orientation {
	case 2: // mirrored
		return y*p.stride + p.w - 1, -1
	case 3: // half turn
		return (p.h-1-y)*p.stride + p.w - 1, -1
	case 4: // upside down, mirrored
		return (p.h - 1 - y) * p.stride, 1
	case 5: // rows and columns exchanged
		return y, p.stride
	case 6: // to be turned a quarter clockwise
		return (p.h-1)*p.stride + y, -p.stride
	case 7: // exchanged about the other diagonal
		return (p.h-1)*p.stride + p.w - 1 - y, -p.stride
	case 8: // to be turned a quarter anticlockwise
		return p.w - 1 - y, p.stride
	}
	return y * p.stride, 1
}
