package kinds

import (
	"math"

	"example.org/driploop/model/fish"
	"example.org/driploop/screens/fauna"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/scene"
)

// The sketches of a list, in points. Judgement: a name and its scientific name
// stand beside them.
const (
	sketchW, sketchH     = 96, 48
	shortest, longest    = 34, 92    // how long an animal is drawn
	shortestIs, steepest = 2.0, 60.0 // the adult length that is shortest, and how many times that is longest
)

// drawnAt is how long an animal of an adult length is drawn in a list: larger ones
// are larger, but closer together than they are, so that all can be told.
func drawnAt(a *fish.Animal) float64 {
	share := math.Log(float64(a.Length)*100/shortestIs) / math.Log(steepest)
	return shortest + (longest-shortest)*math.Max(0, math.Min(1, share))
}

// sketchOf draws one animal of the catalogue for a list.
func sketchOf(a *fish.Animal) parts.Sketch {
	return boxed([]fish.Code{a.Code}, []float64{drawnAt(a)}, sketchW, sketchH)
}

// pairOf draws two animals, one above the other, at one scale: adult.
func pairOf(a, b fish.Code) parts.Sketch {
	x, err := fish.Get(a)
	if err != nil {
		return parts.Sketch{}
	}
	long := []float64{float64(x.Length)}
	codes := []fish.Code{a}
	if y, err := fish.Get(b); err == nil {
		codes, long = append(codes, b), append(long, float64(y.Length))
	}
	most := math.Max(long[0], long[len(long)-1])
	for i := range long {
		long[i] *= longest / most
	}
	return boxed(codes, long, sketchW, float32(sketchH*len(codes)))
}

// boxed draws animals so many points long one above the other in a box, smaller
// where they are too high or too wide for it.
func boxed(codes []fish.Code, long []float64, w, h float32) parts.Sketch {
	const gap = 4
	wide, high := 0.0, gap*float64(len(codes)-1)
	for i, c := range codes {
		b := fauna.Box(c, long[i])
		wide, high = math.Max(wide, b.W()), high+b.H()
	}
	k := math.Min(1, math.Min(float64(w)/wide, float64(h)/high))
	s := scene.New()
	y := float64(h)/2 + k*high/2
	for i, c := range codes {
		l := long[i] * k
		b := fauna.Box(c, l)
		y -= b.Max.Y
		x := float64(w)/2 - (b.Min.X+b.Max.X)/2
		s.Add(fauna.Animal(c, l, fauna.Pose{At: scene.Pt(x, y), Scale: 1})...)
		y += b.Min.Y - gap*k
	}
	return parts.Sketch{Scene: s, W: w, H: h}
}
