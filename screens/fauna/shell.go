package fauna

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// foot draws the body of a snail that creeps to the right.
func (s *sketch) foot(r Row, high float64) {
	s.threads(.8, leastMark, open(at(.4, high*.6), at(.5, high*1.5), at(.56, high*2.1)), open(at(.36, high*.8), at(.4, high*1.8), at(.44, high*2.5)))
	s.part(closed(angle(-.5, 0), at(-.3, high*.5), at(.0, high), at(.3, high), at(.44, high*.95), at(.5, high*.4), angle(.48, 0)), r.Fin, .95, .8, true)
	s.add(layer{shape: []contour{ring(scene.Pt(.4, high*.72), .014)}, fill: look.PigmentBlack, least: leastFine, dot: 1.2})
}

// whorls gives a spiral about c from radius r inwards.
func whorls(c scene.Point, r, begin, turns, shrink float64) contour {
	var n []node
	steps := int(turns * 12)
	for i := range steps + 1 {
		t := float64(i) / 12
		sin, cos := math.Sincos(begin - 2*math.Pi*t)
		k := r * math.Pow(shrink, t)
		n = append(n, at(c.X+k*cos, c.Y+k*sin))
	}
	return contour{n, true}
}

// sketchGlobe draws a round snail with a short spire.
func sketchGlobe(r Row) *sketch {
	s := &sketch{}
	s.foot(r, .1)
	c := scene.Pt(-.02, .36)
	hull := closed(at(.3, .2), at(.34, .42), at(.2, .62), at(-.02, .68), at(-.2, .66), angle(-.36, .64), at(-.4, .5), at(-.4, .3), at(-.26, .12), at(-.02, .06), at(.2, .08))
	s.add(layer{shape: []contour{hull}, fill: r.Body})
	if r.Back != "" {
		s.add(layer{shape: []contour{closed(at(.3, .44), at(.2, .62), at(-.02, .68), at(-.2, .66), angle(-.36, .64), at(-.2, .54), at(.06, .52))}, fill: r.Back, alpha: .6, least: leastMark})
	}
	for _, m := range r.Marks {
		var lines []contour
		for i := range 6 {
			a := .35 + .36*float64(i)
			sin, cos := math.Sincos(a)
			if m.kind == "bands" {
				k := .12 + .055*float64(i)
				lines = append(lines, open(at(.3-k*.2, .16+k*.2), at(.06, .1+k*.9), at(-.24, .14+k), at(-.34, .3+k*.6)))
				continue
			}
			x, y := c.X+.33*cos, c.Y+.3*sin
			lines = append(lines, open(angle(c.X+.08*cos, c.Y+.08*sin), angle(c.X+.17*cos-.03*sin, c.Y+.17*sin+.03*cos), angle(c.X+.24*cos+.02*sin, c.Y+.24*sin-.02*cos), angle(x, y)))
		}
		s.add(layer{shape: lines, line: m.colour, weight: 1.6, least: leastMark})
	}
	s.add(layer{shape: []contour{hull.copy()}, line: look.Ink, weight: 1, ghost: true})
	s.threads(.7, leastFine, open(at(-.36, .64), at(-.22, .5), at(-.3, .34), at(-.39, .34)), open(at(-.34, .6), at(-.3, .54), at(-.34, .5)), open(at(.3, .2), at(.2, .3), at(.0, .26), at(-.12, .1)))
	return s
}

// sketchCoil draws a snail whose shell lies in one plane.
func sketchCoil(r Row) *sketch {
	s := &sketch{}
	s.foot(r, .1)
	c := scene.Pt(-.04, .42)
	hull := closed(at(.34, .26), at(.37, .46), at(.26, .7), at(.04, .82), at(-.2, .79), at(-.38, .62), at(-.42, .4), at(-.34, .2), at(-.14, .07), at(.08, .06), angle(.3, .1))
	s.add(layer{shape: []contour{hull}, fill: r.Body})
	if r.Back != "" {
		s.add(layer{shape: []contour{ring(c, .22)}, fill: r.Back, alpha: .55, least: leastMark})
	}
	for _, m := range r.Marks {
		s.add(layer{shape: []contour{whorls(c, .33, -.5, 1.2, .84), whorls(c, .26, -.5, 1, .8)}, line: m.colour, weight: 1.5, least: leastMark})
	}
	s.add(layer{shape: []contour{hull.copy()}, line: look.Ink, weight: 1, ghost: true})
	s.threads(.75, leastFine, whorls(c, .3, -1.1, 2.6, .48))
	return s
}

// sketchCone draws a snail with a long spire, carried behind.
func sketchCone(r Row) *sketch {
	s := &sketch{}
	s.foot(r, .08)
	tip, base := scene.Pt(-.66, .34), scene.Pt(.22, .18)
	v := base.Sub(tip)
	n := scene.Pt(-v.Y, v.X).Mul(1 / v.Len())
	side := func(k, w float64) scene.Point { return tip.Add(v.Mul(k)).Add(n.Mul(w)) }
	var up, down []node
	hull := []node{corner(tip)}
	const turns = 7
	for i := 1; i <= turns; i++ {
		k := math.Pow(float64(i)/turns, 1.25)
		w := .17 * k
		up = append(up, at2(side(k-.035*k, w*1.04)), at2(side(k, w*.98)))
		down = append(down, at2(side(k-.035*k, -w*1.04)), at2(side(k, -w*.98)))
	}
	hull = append(hull, up...)
	hull = append(hull, at2(side(1.1, .12)), at2(side(1.14, -.02)), at2(side(1.08, -.15)))
	for i := len(down) - 1; i >= 0; i-- {
		hull = append(hull, down[i])
	}
	shell := contour{nodes: hull}
	s.add(layer{shape: []contour{shell}, fill: r.Body, solid: true})
	if r.Back != "" {
		s.add(layer{shape: []contour{closed(corner(tip), at2(side(.5, .07)), at2(side(1, .165)), at2(side(1, .06)), at2(side(.5, .02)))}, fill: r.Back, alpha: .6, least: leastMark})
	}
	var lines []contour
	for i := 2; i <= turns; i++ {
		k := math.Pow(float64(i)/turns, 1.25)
		lines = append(lines, open(at2(side(k, .165*k)), at2(side(k+.04, 0)), at2(side(k+.005, -.165*k))))
	}
	for _, m := range r.Marks {
		if m.kind == "dots" {
			s.dots(m.colour, 22, .011, func(u, v float64) scene.Point { k := .2 + .85*u; return side(k, .26*k*(v-.5)) })
			continue
		}
		var bands []contour
		for i := 2; i <= turns; i++ {
			k := math.Pow((float64(i)-.45)/turns, 1.25)
			bands = append(bands, open(at2(side(k, .14*k)), at2(side(k+.03, 0)), at2(side(k, -.14*k))))
		}
		s.add(layer{shape: bands, line: m.colour, weight: 2.6, least: leastMark})
	}
	s.add(layer{shape: []contour{shell.copy()}, line: look.Ink, weight: 1, ghost: true})
	s.threads(.65, leastFine, lines...)
	return s
}
