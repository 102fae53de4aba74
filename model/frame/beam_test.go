package frame

import (
	"math"
	"testing"

	"example.org/driploop/model/drill"
)

// The beam of beam_formulas.csv: a board b = 0.3 m, h = 0.018 m, E = 9 GPa.
var (
	board     = rectangle(.3, .018)
	boardWood = Material{E: 9e9}
)

// boardBeam is a plane beam through the given places, carried as the supports
// say (by place; nil is free).
func boardBeam(places []float64, supports map[int][6]bool) *Frame {
	f := &Frame{Plane: true}
	for i, x := range places {
		f.Nodes = append(f.Nodes, Node{X: x})
		if i > 0 {
			f.Members = append(f.Members, Member{Start: i - 1, End: i, Material: boardWood, Section: board})
		}
	}
	for n, fixed := range supports {
		f.Supports = append(f.Supports, Support{Node: n, Fixed: fixed})
	}
	return f
}

// Source: testdata/structure/beam_formulas.csv (Gere App. G, Roark Table 8.1,
// expressions from memory), 0.1 %, propped and two-span 0.2 %. Spans 0.8 m and
// q = 500 N/m unless said; the inputs the table leaves out (partial load 400 N
// over 0.5 m, cantilever of 0.3 m) are those its answers imply.
func TestBeamFormulas(t *testing.T) {
	const span, q = .8, 500.0
	roller := [6]bool{UY: true}
	got := map[string]float64{}

	ends := []float64{0, span}
	simple := boardBeam(ends, map[int][6]bool{0: hinged, 1: roller})
	r := solve(t, simple, onBeam(q, 0))
	a := along(t, r, 0)
	got["SS uniform: Mmax N m"] = a.MomentZ.Value
	got["SS uniform: wmax mm"] = a.Sag.Value * 1e3
	got["section I mm4"] = board.Iz * 1e12
	got["max shear stress MPa for SS uniform V=200"] = 1.5 * r.Ends[0].Start[UY] / board.A / 1e6
	got["bending stress MPa for SS uniform"] = a.MomentZ.Value / board.Wz / 1e6

	down := func(nodes ...int) Case {
		var c Case
		for _, n := range nodes {
			c.Nodes = append(c.Nodes, NodeLoad{n, Vec6{UY: -300}})
		}
		return c
	}
	r = solve(t, boardBeam([]float64{0, .4, .8}, map[int][6]bool{0: hinged, 2: roller}), down(1))
	got["SS centre point: M"] = along(t, r, 0).MomentZ.Value
	r = solve(t, boardBeam([]float64{0, .2, .6, .8}, map[int][6]bool{0: hinged, 3: roller}), down(1, 2))
	got["SS two equal point loads at a=0.2 each P=300: M"] = along(t, r, 1).MomentZ.Value
	got["SS two equal loads: wmid mm"] = -at(t, r, 1, .2).Displacement.Y * 1e3

	r = solve(t, boardBeam([]float64{0, .3}, map[int][6]bool{0: held}), onBeam(q, 0))
	got["Cantilever uniform: wtip mm"] = -r.Displacements[1][UY] * 1e3
	r = solve(t, boardBeam(ends, map[int][6]bool{0: held, 1: held}), onBeam(q, 0))
	got["Fixed-fixed uniform: Mend"] = -along(t, r, 0).MomentZ.Value
	r = solve(t, boardBeam(ends, map[int][6]bool{0: held, 1: roller}), onBeam(q, 0))
	got["Propped cantilever uniform: Mfixed"] = -along(t, r, 0).MomentZ.Value
	got["Propped cantilever: wmax mm"] = along(t, r, 0).Sag.Value * 1e3
	r = solve(t, boardBeam([]float64{0, span, 2 * span}, map[int][6]bool{0: hinged, 1: roller, 2: roller}), onBeam(q, 0, 1))
	got["Two equal spans: wmax mm"] = along(t, r, 0).Sag.Value * 1e3
	got["Two equal spans: centre reaction"] = r.Reactions[1][UY]
	r = solve(t, boardBeam([]float64{0, .15, .65, .8}, map[int][6]bool{0: hinged, 3: roller}), onBeam(800, 1))
	got["SS partial central: wmid mm"] = -at(t, r, 1, .25).Displacement.Y * 1e3

	asked := map[string]bool{}
	for i, row := range readTable(t, "beam_formulas.csv", 16)[1:] {
		asked[row[0]] = true
		v, ok := got[row[0]]
		if !ok {
			t.Errorf("beam_formulas.csv row %d: no answer for %q", i+1, row[0])
			continue
		}
		tolerance := 1e-3
		switch row[0] {
		case "Propped cantilever uniform: Mfixed", "Propped cantilever: wmax mm", "Two equal spans: wmax mm", "Two equal spans: centre reaction":
			tolerance = 2e-3
		}
		near(t, "beam_formulas.csv: "+row[0], v, drill.Number(t, row[2]), tolerance)
	}
	if len(asked) != len(got) {
		t.Errorf("beam_formulas.csv: %d answers for %d rows", len(got), len(asked))
	}
}

// A member hinged at both ends between built-in nodes is the simple beam; a
// member hinged at one end is the propped cantilever. Same source.
func TestReleasesAreHinges(t *testing.T) {
	ei := boardWood.E * board.Iz
	for _, c := range []struct {
		name       string
		start, end Release
		moment     float64
		sag        float64
	}{
		{"both ends", Pinned(), Pinned(), 40, 5 * 500 * math.Pow(.8, 4) / (384 * ei)},
		{"end only", Release{}, Pinned(), -40, 500 * math.Pow(.8, 4) / (184.6 * ei)},
		{"start only", Pinned(), Release{}, -40, 500 * math.Pow(.8, 4) / (184.6 * ei)},
	} {
		for _, plane := range []bool{true, false} {
			f := boardBeam([]float64{0, .8}, map[int][6]bool{0: held, 1: held})
			load := Vector{Y: -500}
			f.Members[0].StartRelease, f.Members[0].EndRelease = c.start, c.end
			if !plane {
				f.Plane = false
				f.Members[0].Material.G = 1e9
				load = Vector{Z: -500}
			}
			r := solve(t, f, Case{Lines: []LineLoad{{0, load}}})
			a := along(t, r, 0)
			near(t, "hinge, "+c.name+": moment", a.MomentZ.Value, c.moment, 1e-9)
			near(t, "hinge, "+c.name+": sag", a.Sag.Value, c.sag, 3e-4) // 184.6 is rounded
		}
	}
}

// Bending about local y: a load along global y on a space beam along x, whose
// local z is -y. Closed form qL2/8 and 5qL4/384EIy.
func TestWeakAxis(t *testing.T) {
	f := &Frame{
		Nodes:    []Node{{}, {X: .8}},
		Members:  []Member{{Start: 0, End: 1, Material: Material{E: 9e9, G: 6e8}, Section: board, StartRelease: Pinned(), EndRelease: Pinned()}},
		Supports: []Support{{Node: 0, Fixed: held}, {Node: 1, Fixed: held}},
	}
	r := solve(t, f, Case{Lines: []LineLoad{{0, Vector{Y: 500}}}})
	a := along(t, r, 0)
	near(t, "moment about y", a.MomentY.Value, 40, 1e-9)
	near(t, "moment about z", a.MomentZ.Value, 0, 1e-9)
	near(t, "place of the moment", a.MomentY.At, .4, 1e-9)
	near(t, "sag", a.Sag.Value, 5*500*math.Pow(.8, 4)/(384*9e9*board.Iy), 1e-8)
	near(t, "middle moves with the load", at(t, r, 0, .4).Displacement.Y, a.Sag.Value, 1e-8)
}

// Own weight: a hanging bar stretches by rho g L2 / 2E, and its half by 3/4 of
// that (statics).
func TestOwnWeight(t *testing.T) {
	bar := Member{Start: 0, End: 1, Material: steel, Section: tube30}
	f := &Frame{Nodes: []Node{{}, {Z: -2}}, Members: []Member{bar}, Supports: []Support{{Node: 0, Fixed: held}}}
	r := solve(t, f, Case{Gravity: 9.80665})
	stretch := 7850 * 9.80665 * 4 / (2 * 210e9)
	near(t, "end", r.Displacements[1][UZ], -stretch, 1e-9)
	near(t, "middle", at(t, r, 0, 1).Displacement.Z, -.75*stretch, 1e-9)
	near(t, "reaction", r.Reactions[0][UZ], 7850*tube30.A*2*9.80665, 1e-9)
	near(t, "axial at the middle", at(t, r, 0, 1).Axial, 7850*tube30.A*9.80665, 1e-9)
	f = &Frame{Plane: true, Nodes: []Node{{}, {X: 2}}, Members: []Member{bar}, Supports: []Support{{Node: 0, Fixed: held}}}
	r = solve(t, f, Case{Gravity: 9.80665})
	near(t, "plane reaction", r.Reactions[0][UY], 7850*tube30.A*2*9.80665, 1e-9)
}

// A spring under a rigid post: u = P/k, and its force is the reaction.
func TestSpring(t *testing.T) {
	f := column(hinged, [6]bool{UX: true})
	f.Supports[0].Fixed[UY] = false
	f.Supports[0].Spring[UY] = 250
	r := solve(t, f, pressed(1))
	near(t, "settlement", r.Displacements[0][UY], -1.0/250, 1e-9)
	near(t, "spring force", r.Reactions[0][UY], 1, 1e-9)
}
