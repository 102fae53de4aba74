package fauna

import (
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// threads draws open lines in ink.
func (s *sketch) threads(weight float64, least float64, lines ...contour) {
	s.add(layer{shape: lines, line: look.Ink, weight: weight, least: least})
}

// part adds a filled contour with its outline.
func (s *sketch) part(c contour, colour look.Name, alpha, weight float64, solid bool) {
	s.add(layer{shape: []contour{c}, fill: colour, alpha: alpha, solid: solid})
	s.add(layer{shape: []contour{c.copy()}, line: look.Ink, weight: weight, ghost: true})
}

// sketchShrimp draws a shrimp: an arched body with a rostrum, legs to walk and
// to swim, a tail fan, long feelers.
func sketchShrimp(r Row) *sketch {
	s := &sketch{}
	s.threads(.6, leastEye, open(at(.37, .1), at(.46, .2), at(.2, .3), at(-.2, .27)), open(at(.38, .08), at(.52, .1), at(.58, -.02), at(.5, -.16)))
	var legs []contour
	for i := range 5 {
		x := .3 - .075*float64(i)
		legs = append(legs, open(at(x, .0), at(x+.05-.02*float64(i), -.07), at(x+.02-.035*float64(i), -.15)))
	}
	for i := range 5 {
		x := -.04 - .065*float64(i)
		legs = append(legs, open(at(x, .02-.012*float64(i*i)*.6), at(x-.01, -.06-.012*float64(i))))
	}
	s.threads(.7, leastMark, legs...)
	s.part(closed(corner(scene.Pt(-.37, .0)), angle(-.5, .03), at(-.52, -.03), angle(-.5, -.09), at(-.44, -.1), corner(scene.Pt(-.35, -.07))), r.Tail, .85, .75, true)
	hull := closed(angle(.5, .12), at(.36, .125), at(.2, .155), at(.06, .165), at(-.08, .175), at(-.22, .14), at(-.32, .07), angle(-.4, -.02), angle(-.36, -.07), at(-.27, -.02), at(-.16, .02), at(-.02, .02), at(.14, -.005), at(.28, .01), at(.37, .05))
	s.add(layer{shape: []contour{hull}, fill: r.Body, alpha: r.Alpha, solid: true})
	var seams []contour
	for _, x := range []float64{.04, -.07, -.17, -.25, -.32} {
		y := .17 - 1.3*(x+.05)*(x+.05)
		seams = append(seams, open(at(x, y), at(x-.025, y-.06), at(x+.0, y-.13)))
	}
	for _, m := range r.Marks {
		switch m.kind {
		case "bands":
			for _, x := range []float64{.22, -.04, -.26} {
				y := .16 - .9*(x+.02)*(x+.02)
				s.add(layer{shape: []contour{closed(at(x+.06, y), at(x-.06, y-.015), at(x-.05, y-.13), at(x+.05, y-.14))}, fill: m.colour, least: leastMark})
			}
		case "dots":
			s.dots(m.colour, 18, .009, func(u, v float64) scene.Point {
				x := .3 - .58*u
				return scene.Pt(x, .14-.9*(x+.02)*(x+.02)-.09*v)
			})
		}
	}
	s.threads(.5, leastFine, seams...)
	s.add(layer{shape: []contour{hull.copy()}, line: look.Ink, weight: 1, ghost: true})
	s.add(layer{shape: []contour{ring(scene.Pt(.385, .115), .024)}, fill: look.PigmentBlack, line: look.Ink, weight: .5, least: leastEye, dot: 1.5})
	return s
}

// sketchCrayfish draws a crayfish: shield, claws ahead, segments and tail fan.
func sketchCrayfish(r Row) *sketch {
	s := &sketch{}
	s.threads(.6, leastEye, open(at(.4, .09), at(.52, .22), at(.3, .36), at(.0, .36)), open(at(.4, .07), at(.6, .16), at(.74, .14)))
	var legs []contour
	for i := range 4 {
		x := .26 - .085*float64(i)
		legs = append(legs, open(at(x, -.03), at(x+.06-.05*float64(i), .0), at(x+.05-.06*float64(i), -.16)))
	}
	s.threads(1, leastMark, legs...)
	claw := func(dx, dy float64) {
		arm := closed(at(.28+dx, -.02+dy), at(.42+dx, -.1+dy), at(.5+dx, -.06+dy), at(.5+dx, -.02+dy), at(.42+dx, -.03+dy), at(.32+dx, .02+dy))
		hand := closed(at(.48+dx, -.06+dy), at(.56+dx, -.1+dy), at(.66+dx, -.09+dy), angle(.76+dx, -.03+dy), at(.66+dx, -.03+dy), angle(.62+dx, -.025+dy), angle(.74+dx, .03+dy), at(.64+dx, .03+dy), at(.54+dx, .01+dy))
		s.part(arm, r.Body, .9, .7, false)
		s.part(hand, r.Body, 0, .8, false)
	}
	claw(-.02, .05)
	s.part(closed(angle(-.36, .03), angle(-.48, .05), at(-.52, -.03), angle(-.5, -.1), at(-.42, -.12), angle(-.35, -.08)), r.Tail, .9, .8, true)
	hull := closed(angle(.5, .1), at(.38, .115), at(.24, .14), at(.08, .14), at(-.06, .12), at(-.2, .1), at(-.32, .05), angle(-.4, -.02), angle(-.37, -.09), at(-.2, -.06), at(-.05, -.05), at(.14, -.06), at(.3, -.04), at(.4, .02))
	s.add(layer{shape: []contour{hull}, fill: r.Body, solid: true})
	for _, m := range r.Marks {
		s.dots(m.colour, 26, .013, func(u, v float64) scene.Point {
			x := .3 - .62*u
			return scene.Pt(x, .11-.3*(x-.1)*(x-.1)-.13*v)
		})
	}
	s.threads(.6, leastFine, open(at(.06, .14), at(.02, .05), at(.06, -.05)), open(at(-.06, .12), at(-.1, .04), at(-.06, -.05)), open(at(-.16, .11), at(-.2, .03), at(-.16, -.055)), open(at(-.25, .085), at(-.29, .01), at(-.25, -.07)))
	s.add(layer{shape: []contour{hull.copy()}, line: look.Ink, weight: 1, ghost: true})
	claw(0, 0)
	s.add(layer{shape: []contour{ring(scene.Pt(.4, .1), .02)}, fill: look.PigmentBlack, line: look.Ink, weight: .5, least: leastEye, dot: 1.5})
	return s
}

// dots spreads n spots over a part: u and v run from 0 to 1.
func (s *sketch) dots(c look.Name, n int, r float64, place func(u, v float64) scene.Point) {
	var dots []contour
	for i := range n {
		dots = append(dots, ring(place(scene.Scatter(i, 61), scene.Scatter(i, 67)), r*(.7+.6*scene.Scatter(i, 71))))
	}
	s.add(layer{shape: dots, fill: c, alpha: .9, least: leastMark})
}

// sketchFrog draws a small frog that swims, its hind legs drawn up.
func sketchFrog(r Row) *sketch {
	s := &sketch{}
	leg := func(dx, dy float64) {
		s.part(closed(at(-.12+dx, .04+dy), at(-.26+dx, .1+dy), at(-.4+dx, .06+dy), at(-.36+dx, -.02+dy), at(-.22+dx, -.04+dy), at(-.12+dx, -.04+dy)), r.Body, .95, .8, false)
		s.part(closed(at(-.38+dx, .04+dy), at(-.3+dx, -.06+dy), at(-.22+dx, -.13+dy), at(-.2+dx, -.17+dy), at(-.28+dx, -.13+dy), at(-.4+dx, -.02+dy)), r.Body, .95, .8, false)
		s.part(closed(angle(-.22+dx, -.14+dy), angle(-.5+dx, -.1+dy), angle(-.44+dx, -.15+dy), angle(-.5+dx, -.19+dy), angle(-.4+dx, -.2+dy), angle(-.42+dx, -.26+dy), angle(-.2+dx, -.18+dy)), r.Fin, .8, .7, true)
	}
	leg(.05, .03)
	s.threads(1.6, leastMark, open(at(.26, -.02), at(.22, -.12), at(.32, -.18)), open(at(.32, -.18), at(.37, -.17)), open(at(.32, -.18), at(.37, -.2)), open(at(.32, -.18), at(.34, -.23)))
	hull := closed(at(.5, .06), at(.43, .13), at(.3, .17), at(.12, .19), at(-.08, .16), at(-.22, .08), at(-.24, .02), at(-.14, -.05), at(.06, -.09), at(.26, -.06), at(.42, .0))
	s.add(layer{shape: []contour{hull}, fill: r.Body, solid: true})
	s.add(layer{shape: []contour{closed(at(.46, .03), at(.3, -.0), at(.08, -.02), at(-.12, .0), at(-.14, -.05), at(.06, -.09), at(.26, -.06), at(.42, .0))}, fill: r.Belly, alpha: .8, least: leastMark})
	for _, m := range r.Marks {
		s.dots(m.colour, 16, .014, func(u, v float64) scene.Point { return scene.Pt(.36-.5*u, .13-.12*v) })
	}
	s.add(layer{shape: []contour{hull.copy()}, line: look.Ink, weight: 1, ghost: true})
	leg(0, 0)
	s.threads(.6, leastFine, open(at(.49, .05), at(.42, .06), at(.36, .05)))
	s.add(layer{shape: []contour{ring(scene.Pt(.4, .13), .034)}, fill: look.Sheet, line: look.Ink, weight: .5, least: leastFine})
	s.add(layer{shape: []contour{ring(scene.Pt(.405, .132), .019)}, fill: look.PigmentBlack, least: leastEye, dot: 1.5})
	return s
}
