package chart

import (
	"math"

	"example.org/driploop/screens/scene"
)

// thin gives a line of at most two points to each column of one point's width:
// the lowest and the highest there, in the order they come. Extremes survive.
func thin(line []scene.Point) []scene.Point {
	if len(line) < 3 {
		return line
	}
	var out []scene.Point
	for i := 0; i < len(line); {
		column := math.Floor(line[i].X)
		lo, hi, j := i, i, i
		for ; j < len(line) && math.Floor(line[j].X) == column; j++ {
			if line[j].Y < line[lo].Y {
				lo = j
			}
			if line[j].Y > line[hi].Y {
				hi = j
			}
		}
		switch {
		case j-i == 1:
			out = append(out, line[i])
		case lo == hi: // level within the column
			out = append(out, line[i], line[j-1])
		default:
			out = append(out, line[min(lo, hi)], line[max(lo, hi)])
		}
		i = j
	}
	return out
}
