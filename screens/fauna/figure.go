package fauna

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// A figure is a fish being sketched.
type figure struct {
	form
	profile
	row  Row
	unit float64 // height of one unit of the profile, in lengths
	out  *sketch
}

// x gives the place along the length of a place on the body.
func (f *figure) x(s float64) float64 { return f.tail + s*(1-f.tail) - 0.5 }

// axis gives how far the middle line is bent up at x.
func (f *figure) axis(x float64) float64 {
	if f.wave == 0 {
		return 0
	}
	return f.wave * math.Sin((0.5-x)*2*math.Pi*1.15) * (0.35 + 0.65*(0.5-x))
}

// p gives a point at a place of the body, so high over the axis, in lengths.
func (f *figure) p(s, y float64) scene.Point {
	x := f.x(s)
	return scene.Pt(x, y+f.axis(x))
}

func (f *figure) above(s float64) float64 { return f.top.at(s) * f.unit }
func (f *figure) under(s float64) float64 { return -f.low.at(s) * f.unit }

// on gives a point of the flank: w runs from the belly (-1) to the back (1).
func (f *figure) on(s, w float64) scene.Point {
	a, b := f.under(s), f.above(s)
	return f.p(s, (a+b)/2+w*(b-a)/2)
}

func (f *figure) half(s float64) float64 { return (f.above(s) - f.under(s)) / 2 }

func corner(p scene.Point) node { return node{p, true} }

// hull is the contour of the body.
func (f *figure) hull() contour {
	const n = 15
	var nodes []node
	place := func(i int) float64 { return math.Sin(float64(i) / n * math.Pi / 2) }
	for i := range n + 1 {
		nodes = append(nodes, node{f.on(place(i), 1), i == 0})
	}
	for i := n; i >= 0; i-- {
		nodes = append(nodes, node{f.on(place(i), -1), i == 0})
	}
	return contour{nodes: nodes}
}

// sketchFish draws a fish from its form and its row.
func sketchFish(fm form, r Row) *sketch {
	f := &figure{form: fm, profile: profiles[fm.body], row: r, out: &sketch{}}
	if r.Depth > 0 {
		f.depth = r.Depth
	}
	f.unit = f.depth / f.deep()
	f.drawBarbels(true)
	f.drawPair(true)
	for _, n := range f.fins {
		f.drawFin(n)
	}
	f.drawTail()
	hull := f.hull()
	f.out.add(layer{shape: []contour{hull}, fill: r.Body, alpha: r.Alpha, solid: true})
	f.drawTones()
	for _, m := range r.Marks {
		m.draw(f)
	}
	f.out.add(layer{shape: []contour{{hull.copy().nodes, true}}, line: look.Ink, weight: 1, ghost: true}) // open where the tail begins
	f.drawHead()
	f.drawPair(false)
	f.drawBarbels(false)
	f.out.fit()
	if f.inverted {
		f.out.upset()
	}
	return f.out
}

func (c contour) copy() contour { return contour{append([]node(nil), c.nodes...), c.open} }

// surface adds a fin: a wash, its edge, which is open at its foot, and rays in it.
func (f *figure) surface(c contour, colour look.Name, rays [][2]scene.Point, solid bool) {
	f.out.add(layer{shape: []contour{c}, fill: colour, alpha: f.row.finAlpha(colour), solid: solid})
	if len(rays) > 0 {
		var lines []contour
		for _, r := range rays {
			lines = append(lines, open(corner(r[0]), corner(r[1])))
		}
		f.out.add(layer{shape: lines, line: look.Ink, weight: .45, faint: .45, least: leastRays})
	}
	rim := c.copy()
	rim.open = true
	f.out.add(layer{shape: []contour{rim}, line: look.Ink, weight: .75, ghost: true})
}

func (f *figure) drawFin(n fin) {
	edge := finShapes[n.shape]
	side := func(s float64) float64 {
		if n.below {
			return f.under(hold(s, 0, 1))
		}
		return f.above(hold(s, 0, 1))
	}
	up := 1.0
	if n.below {
		up = -1
	}
	place := func(k, h float64) scene.Point {
		s := n.from + (n.to-n.from)*k
		return f.p(s, side(math.Max(s, math.Min(n.to, n.from)))+up*h*n.high)
	}
	sunk := -0.02
	nodes := []node{corner(place(0, sunk)), corner(place(0, 0))}
	var rays [][2]scene.Point
	var rim []node
	for _, e := range edge {
		q := node{place(e[0], e[1]), e[2] == 1}
		nodes, rim = append(nodes, q), append(rim, q)
		if foot := hold(e[0], 0, 1); e[1] > .5 {
			rays = append(rays, [2]scene.Point{place(foot*.9+.03, 0), place(foot*.9+.03, 0).Add(q.Sub(place(foot*.9+.03, 0)).Mul(.86))})
		}
	}
	nodes = append(nodes, corner(place(1, 0)), corner(place(1, sunk)))
	colour := f.row.Fin
	if !n.below && f.row.Dorsal != "" {
		colour = f.row.Dorsal
	}
	f.surface(contour{nodes: nodes}, colour, rays, false)
	for _, m := range f.row.Marks {
		switch {
		case m.kind == "finedge":
			f.margin(rim, m)
		case m.kind == "fintip":
			for i, e := range edge {
				if e[1] > .94 {
					tip, before, after := rim[i].Point, place(0, 0), place(1, 0)
					if i > 0 {
						before = rim[i-1].Point
					}
					if i < len(rim)-1 {
						after = rim[i+1].Point
					}
					part := func(to scene.Point) scene.Point { return tip.Add(to.Sub(tip).Mul(math.Min(.9, .05/to.Sub(tip).Len()))) }
					f.out.add(layer{shape: []contour{closed(corner(tip), corner(part(before)), corner(part(after)))}, fill: m.colour, least: leastMark})
					break
				}
			}
		case m.kind == "dorsalspot" && !n.below:
			f.out.add(layer{shape: []contour{ring(place(m.arg(0, .4), m.arg(1, .5)), m.arg(2, .03))}, fill: m.colour, alpha: .95, least: leastMark})
		case m.kind == "finspots":
			var dots []contour
			for i := range 9 {
				dots = append(dots, ring(place(.12+.76*scene.Scatter(i, 3), .15+.5*scene.Scatter(i, 5)), m.arg(0, .01)))
			}
			f.out.add(layer{shape: dots, fill: m.colour, alpha: .9, least: leastMark})
		}
	}
}

func (f *figure) drawTail() {
	b := f.half(0)
	c := (f.above(0) + f.under(0)) / 2
	place := func(q, v float64) scene.Point {
		x := f.tail*(1-q) - 0.5
		return scene.Pt(x, c*(1-q)+v+f.axis(x))
	}
	var edge []node
	if half, ok := tailShapes[f.shape]; ok {
		for i, e := range half {
			if i < len(half)-1 || e[1] != 0 {
				edge = append(edge, node{place(e[0], e[1]*f.span), e[2] == 1})
			}
		}
		last := half[len(half)-1]
		edge = append(edge, node{place(last[0], 0), last[2] == 1})
		for i := len(half) - 2; i >= 0; i-- {
			edge = append(edge, node{place(half[i][0], -half[i][1]*f.span), half[i][2] == 1})
		}
	} else {
		for _, e := range wholeTails[f.shape] {
			edge = append(edge, node{place(e[0], e[1]*f.span), e[2] == 1})
		}
	}
	nodes := []node{corner(place(-.06, b*.96)), corner(place(0, b))}
	nodes = append(nodes, edge...)
	nodes = append(nodes, corner(place(0, -b)), corner(place(-.06, -b*.96)))
	var rays [][2]scene.Point
	for i, e := range edge {
		if i == 0 || i == len(edge)-1 {
			continue
		}
		v := hold((e.Y-c)/f.span, -1, 1)
		foot := place(.06, v*b*.8)
		rays = append(rays, [2]scene.Point{foot, foot.Add(e.Sub(foot).Mul(.88))})
	}
	f.surface(contour{nodes: nodes}, f.row.Tail, rays, f.shape != "sword")
	if f.shape == "sword" { // the sword is left out of the length
		f.out.add(layer{shape: []contour{closed(corner(place(0, b)), corner(place(1, 0)), corner(place(0, -b)))}, solid: true})
	}
	for _, m := range f.row.Marks {
		switch m.kind {
		case "tailedge":
			f.margin(edge, m)
		case "taillobes":
			var dots []contour
			for _, v := range []float64{1, -1} {
				dots = append(dots, oval(place(.72, v*.68*f.span), .05, .026, -v*.5))
			}
			f.out.add(layer{shape: dots, fill: m.colour, alpha: .95, least: leastMark})
			f.out.add(layer{shape: []contour{contour{edge, true}.copy()}, line: look.Ink, weight: .75, least: leastMark})
		case "tailspot":
			f.out.add(layer{shape: []contour{ring(place(m.arg(1, .25), 0), m.arg(0, .05))}, fill: m.colour, alpha: .95, least: leastMark})
		case "tailbase":
			f.out.add(layer{shape: []contour{closed(corner(place(-.06, b*.9)), corner(place(m.arg(0, .3), b*1.5)), corner(place(m.arg(0, .3)*1.2, 0)), corner(place(m.arg(0, .3), -b*1.5)), corner(place(-.06, -b*.9)))}, fill: m.colour, alpha: .9, least: leastMark})
		case "tailstripe":
			f.out.add(layer{shape: []contour{closed(corner(place(0, b*.55)), at2(place(.5, m.arg(0, .2)*f.span)), corner(place(m.arg(1, .8), m.arg(2, 0)*f.span)), at2(place(.5, -m.arg(0, .2)*f.span)), corner(place(0, -b*.55)))}, fill: m.colour, alpha: .95, least: leastMark})
		case "tailspots":
			var dots []contour
			for i := range int(m.arg(0, 14)) {
				q := .15 + .6*math.Sqrt(scene.Scatter(i, 41))
				dots = append(dots, ring(place(q, (scene.Scatter(i, 43)-.5)*1.5*f.span*q), m.arg(1, .012)))
			}
			f.out.add(layer{shape: dots, fill: m.colour, alpha: .9, least: leastMark})
		}
	}
}

// margin colours the free edge of a fin; the ink goes over it, so that the shape
// shows on any ground.
func (f *figure) margin(edge []node, m mark) {
	f.out.add(layer{shape: []contour{contour{edge, true}.copy()}, line: m.colour, weight: 2.4, least: leastMark})
	f.out.add(layer{shape: []contour{contour{edge, true}.copy()}, line: look.Ink, weight: .75, least: leastMark})
}

func at2(p scene.Point) node { return node{p, false} }

// drawTones lays the darker back and the paler belly over the body.
func (f *figure) drawTones() {
	if f.row.Belly != "" {
		f.out.add(layer{shape: []contour{f.band(0, 1, -1, -.36, false)}, fill: f.row.Belly, alpha: .8 * f.row.alpha(), least: leastMark})
	}
	if f.row.Back != "" {
		f.out.add(layer{shape: []contour{f.band(0, 1, .44, 1, false)}, fill: f.row.Back, alpha: .8 * f.row.alpha(), least: leastMark})
	}
}

// drawHead draws gill cover, mouth and eye.
func (f *figure) drawHead() {
	g := f.eyeAt()
	gill := math.Max(.62, f.eye[0]-.15)
	if f.body == "worm" || f.body == "tongue" {
		gill = f.eye[0] - .08
	}
	f.out.add(layer{shape: []contour{open(at2(f.on(gill+.02, .62)), at2(f.on(gill-.035, .05)), at2(f.on(gill+.02, -.6)))}, line: look.Ink, weight: .55, faint: .75, least: leastFine})
	mouth := f.on(1, -.1)
	f.out.add(layer{shape: []contour{open(at2(mouth), at2(f.on(.965, -.42)))}, line: look.Ink, weight: .6, least: leastFine})
	r := f.eye[2]
	iris := f.row.Eye
	if iris == "" {
		iris = look.Sheet
	}
	f.out.add(layer{shape: []contour{ring(g, r)}, fill: iris, line: look.Ink, weight: .5, least: leastFine})
	f.out.add(layer{shape: []contour{ring(g, r*.56)}, fill: look.PigmentBlack, least: leastEye, dot: 1.5})
}

func (f *figure) eyeAt() scene.Point { return f.on(f.eye[0], f.eye[1]) }

// drawPair draws a pelvic (behind the body) or a pectoral fin (before it).
func (f *figure) drawPair(pelvic bool) {
	if pelvic {
		if f.pelvic == 0 {
			return
		}
		a := f.p(f.pelvicAt, f.under(f.pelvicAt)*.9)
		if f.thread {
			end := a.Add(scene.Pt(-f.pelvic*.86, -f.pelvic*.42))
			f.out.add(layer{shape: []contour{open(at2(a), at2(a.Add(scene.Pt(-f.pelvic*.3, -f.pelvic*.34))), at2(end))}, line: f.row.threads(), weight: 1.1, least: leastEye})
			return
		}
		n := []node{corner(a.Add(scene.Pt(.03, 0))), at2(a.Add(scene.Pt(-f.pelvic*.3, -f.pelvic*.62))), corner(a.Add(scene.Pt(-f.pelvic*.95, -f.pelvic*.6))), corner(a.Add(scene.Pt(-f.pelvic*.35, 0)))}
		f.surface(contour{nodes: n}, f.row.Fin, nil, false)
		return
	}
	if f.pectoral == 0 {
		return
	}
	w, lift := -.5, -.34
	switch f.body {
	case "keel":
		w, lift = .1, .5
	case "pleco", "stream", "cory", "cat":
		w, lift = -.72, -.5
	}
	s := math.Max(.58, f.eye[0]-.19)
	if f.body == "worm" || f.body == "tongue" {
		s = f.eye[0] - .09
	}
	a, k := f.on(s, w), f.pectoral
	n := []node{corner(a.Add(scene.Pt(.012, .012))), at2(a.Add(scene.Pt(-k*.5, k*(lift+.34)))), at2(a.Add(scene.Pt(-k, k*lift))), at2(a.Add(scene.Pt(-k*.62, k*(lift-.2)))), corner(a.Add(scene.Pt(0, -.018)))}
	c := contour{nodes: n}
	f.out.add(layer{shape: []contour{c}, fill: f.row.Fin, alpha: .8, least: leastFine})
	f.out.add(layer{shape: []contour{c.copy()}, line: look.Ink, weight: .55, least: leastFine})
	if f.adipose > 0 {
		s := f.adipose
		b := f.p(s, f.above(s)*.9)
		n := []node{corner(b.Add(scene.Pt(.028, 0))), at2(b.Add(scene.Pt(-.005, .03))), corner(b.Add(scene.Pt(-.034, .026))), corner(b.Add(scene.Pt(-.012, 0)))}
		f.out.add(layer{shape: []contour{{nodes: n}}, fill: f.row.Fin, line: look.Ink, weight: .55, least: leastFine})
	}
}

// drawBarbels draws the feelers; those of the far side behind the body.
func (f *figure) drawBarbels(far bool) {
	m := f.on(.985, -.6)
	var c []contour
	feeler := func(a scene.Point, dx, dy, bx, by float64) {
		c = append(c, open(at2(a), at2(a.Add(scene.Pt(bx, by))), at2(a.Add(scene.Pt(dx, dy)))))
	}
	switch f.barbels {
	case "short":
		if !far {
			feeler(m, .006, -.034, .012, -.014)
		}
	case "pair":
		if far {
			feeler(m, .012, -.055, .02, -.022)
		} else {
			feeler(m, -.012, -.06, .008, -.03)
			feeler(m.Add(scene.Pt(-.012, 0)), -.04, -.05, -.012, -.03)
		}
	case "long":
		if far {
			feeler(m, .1, -.06, .06, -.012)
		} else {
			feeler(m.Add(scene.Pt(0, .015)), -.34, -.15, -.05, -.1)
			feeler(m, .05, -.09, .035, -.04)
			feeler(m.Add(scene.Pt(-.02, 0)), -.12, -.09, -.02, -.06)
		}
	case "ahead":
		if far {
			feeler(f.on(.99, .3), .16, .06, .08, .045)
		} else {
			feeler(f.on(.99, .1), .17, -.01, .09, .012)
		}
	case "chin":
		if !far {
			feeler(f.on(1, -.8), .06, .05, .04, .0)
			feeler(f.on(1, -.8), .07, .02, .04, -.012)
		}
	case "nose":
		if !far {
			feeler(f.on(.995, .5), .016, .02, .012, .004)
		}
	case "bristles":
		if !far {
			for i := range 5 {
				a := f.on(.86+.032*float64(i), .1+.12*float64(i%2))
				feeler(a, .035, .05+.012*float64(i%2), .008, .03)
			}
		}
	}
	if len(c) > 0 {
		f.out.add(layer{shape: c, line: look.Ink, weight: .7, least: leastFine})
	}
}
