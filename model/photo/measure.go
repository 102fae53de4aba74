package photo

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Click is how far the end of a mark may lie from the end meant, as a standard
// deviation, in thousandths of the picture's longer side: 3 mm on a screen 1 m
// wide. // judgement
const Click = 3.0

// coverage makes a spread of a standard uncertainty, for about 95 %. Source: GUM,
// 6.3.3.
const coverage = 2.0

// leastClicks is how long a mark must be, in Clicks, for the first-order law of
// propagation to hold. // judgement
const leastClicks = 5.0

var gum = working.Register(working.Source{ID: "gum", Cite: "JCGM 100:2008, Evaluation of measurement data: Guide to the expression of uncertainty in measurement (GUM), 5.1 and 6.2",
	Origin: working.Memory})

// MeasureLength gives the length of what length marks beside what known marks,
// on a picture of width by height pixels: both in one plane square to the line of
// sight, so that their ratio in the picture is their ratio in truth. The spread
// is that of the four ends, each off by Click in both directions:
//
//	L = K·l/k   u(L)/L = √2·s·√(1/l² + 1/k²)   L ± 2·u(L)
//
// It says nothing of a fish that stands nearer or farther than the known thing,
// which the trail tells. Refusals: marks that are not these two kinds, a known
// length that is none, a mark shorter than five Clicks.
func MeasureLength(known, length Mark, width, height int) (quantity.Length, *working.Trail, error) {
	if known.Kind != Known || length.Kind != Length {
		return 0, nil, working.Refuse("mark.kind", "refuse.photo.mark_kind")
	}
	for _, m := range []Mark{known, length} {
		if err := m.Check(); err != nil {
			return 0, nil, err
		}
	}
	if width <= 0 || height <= 0 {
		return 0, nil, working.Refuse("photo", "refuse.photo.none")
	}
	truth, err := known.length()
	if err != nil {
		return 0, nil, err
	}
	k, l := known.pixels(width, height), length.pixels(width, height)
	s := Click / 1000 * float64(max(width, height))
	if min(k, l) < leastClicks*s {
		field := "mark.known"
		if l < k {
			field = "mark.length"
		}
		return 0, nil, working.Refuse(field, "refuse.photo.mark_short")
	}
	got := float64(truth) * l / k
	u := math.Sqrt2 * s * math.Sqrt(1/(l*l)+1/(k*k))
	value := func(x float64) quantity.Value { return quantity.Length(x).Value() }
	t := working.New("ask.photo.length").
		Given("K", "q.photo.known", truth.Value()).
		Given("k", "q.photo.known_pixels", quantity.Count(math.Round(k)).Value()).
		Given("l", "q.photo.length_pixels", quantity.Count(math.Round(l)).Value()).
		Constant("s", "q.photo.click", quantity.Count(math.Round(s)).Value(), working.Ours).
		Step("u", "q.photo.spread", "u = √2·s·√(1/l² + 1/k²)", quantity.Ratio(u).Value(), gum).
		Step("L", "q.photo.length", "L = K·l/k", value(got), working.Algebra).
		Between(value(got*(1-coverage*u)), value(got*(1+coverage*u)), "why.photo.ends").
		Assume("assume.photo.one_plane", "assume.photo.square", "assume.photo.same_water")
	t.Givens[0].Typed = known.Measure
	return quantity.Length(got), t, nil
}

// pixels is the length of a mark on a picture.
func (m Mark) pixels(width, height int) float64 {
	x0, y0 := m.Points[0].On(width, height)
	x1, y1 := m.Points[1].On(width, height)
	return math.Hypot(x1-x0, y1-y0)
}
