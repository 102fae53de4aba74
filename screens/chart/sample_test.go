package chart

import (
	"fmt"
	"math"
	"strconv"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

func plainLabel(v, _ float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }

// cycle is made-up data in the shape of a filter that runs in; not a reference.
func cycle() Spec {
	bump := func(x, at, high, wide float64) float64 { return high * math.Exp(-(x-at)*(x-at)/(2*wide*wide)) }
	a := Series{Name: "ammonia", Shape: scene.Round}
	b := Series{Name: "nitrite", Shape: scene.Square}
	for i := range 800 {
		x := float64(i) / 16
		a.Line = append(a.Line, Sample{X: x, Y: bump(x, 9, 2.6, 4)})
		b.Line = append(b.Line, Sample{X: x, Y: bump(x, 20, 3.1, 6)})
		if x >= 16 {
			f := math.Min(1, (x-16)/6)
			b.Band = append(b.Band, Spread{x, bump(x, 18.5, 3.1-0.4*f, 5.5), bump(x, 21.5, 3.1+0.4*f, 6.5)})
		}
	}
	for i := range 9 {
		x := float64(i) * 2
		a.Points = append(a.Points, Sample{X: x, Y: bump(x, 9, 2.6, 4)})
		b.Points = append(b.Points, Sample{X: x, Y: bump(x, 20, 3.1, 6)})
	}
	return Spec{
		Series: []Series{a, b}, Unit: "mg/L as N",
		X:      Axis{Label: plainLabel},
		Y:      Axis{Label: plainLabel, FromZero: true},
		Marks:  []Mark{{X: 16, Label: "today"}, {X: 36, Label: "ready for more fish", Colour: look.Rust, Solid: true}},
		Limits: []Limit{{Y: 1, Label: "harmful above"}},
		Notes:  []Note{{X: 44, Y: 0, Text: "6–15 Dec"}},
	}
}

func five() Spec {
	s := Spec{Unit: "°dKH", Y: Axis{Label: plainLabel}, X: Axis{Time: true, Zone: 3600, Label: func(v, step float64) string {
		d := int(math.Floor((v + 3600) / 86400))
		if step < 86400 {
			return fmt.Sprintf("%02d:%02d", int(math.Mod((v+3600)/3600, 24)), int(math.Mod((v+3600)/60, 60)))
		}
		return fmt.Sprintf("d%d", d)
	}}}
	for i, sh := range []scene.Shape{scene.Round, scene.Square, scene.Diamond, scene.Triangle, scene.Cross} {
		a := Series{Name: []string{"alpha", "beta", "gamma", "delta", "epsilon"}[i], Shape: sh}
		for k := range 24 {
			a.Points = append(a.Points, Sample{X: 1.76e9 + 43000*float64(k), Y: 5 + float64(i)*1.3 + math.Sin(float64(k+i*3)/4), Gap: k == 10 || i == 2 && k > 18})
		}
		s.Series = append(s.Series, a)
	}
	return s
}
