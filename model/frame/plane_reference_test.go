package frame

import (
	"math"
	"testing"

	"example.org/driploop/model/drill"
)

// portal is a plane portal: nodes foot, corner, [middle,] corner, foot.
func portal(e, a, iLeg, iBeam, span, height float64, foot [6]bool, middle bool) *Frame {
	f := &Frame{Plane: true, Nodes: []Node{{0, 0, 0}, {0, height, 0}}}
	if middle {
		f.Nodes = append(f.Nodes, Node{span / 2, height, 0})
	}
	f.Nodes = append(f.Nodes, Node{span, height, 0}, Node{span, 0, 0})
	last := len(f.Nodes) - 1
	for i := range last {
		inertia := iBeam
		if i == 0 || i == last-1 {
			inertia = iLeg
		}
		f.Members = append(f.Members, Member{Start: i, End: i + 1, Material: Material{E: e}, Section: Section{A: a, Iz: inertia}})
	}
	f.Supports = []Support{{Node: 0, Fixed: foot}, {Node: last, Fixed: foot}}
	return f
}

func onBeam(w float64, members ...int) Case {
	var c Case
	for _, m := range members {
		c.Lines = append(c.Lines, LineLoad{m, Vector{Y: -w}})
	}
	return c
}

func withPush(c Case, node int, p float64) Case {
	c.Nodes = append(c.Nodes, NodeLoad{node, Vec6{UX: p}})
	return c
}

// Source: testdata/structure/frame2d_reference.csv (Logan Ex 5.1; Kleinlogel;
// slope-deflection; Euler), 0.1 %.
func TestPlaneReference(t *testing.T) {
	got := map[string]float64{}

	// A: Logan Ex 5.1, inches and pounds.
	logan := portal(30e6, 10, 200, 100, 120, 120, held, false)
	r := solve(t, logan, Case{Nodes: []NodeLoad{{1, Vec6{UX: 10000}}, {2, Vec6{RZ: 5000}}}})
	got["A Logan Ex 5.1|u2 in"] = r.Displacements[1][UX]
	got["A Logan Ex 5.1|phi2 rad"] = r.Displacements[1][RZ]
	got["A Logan Ex 5.1|u3 in"] = r.Displacements[2][UX]
	got["A Logan Ex 5.1|phi3 rad"] = r.Displacements[2][RZ]
	got["A Logan Ex 5.1|elem1 axial i lb"] = r.Ends[0].Start[UX]
	got["A Logan Ex 5.1|elem1 M i lb-in"] = r.Ends[0].Start[RZ]
	got["A Logan Ex 5.1|elem1 M j lb-in"] = r.Ends[0].End[RZ]
	got["A Logan Ex 5.1|elem2 M j"] = r.Ends[1].End[RZ]
	got["A Logan Ex 5.1|elem3 M i (node3)"] = r.Ends[2].Start[RZ]

	// B to E: closed forms, which give sizes without sign.
	pinned := portal(210e9, 1e-2, 2.4e-8, 1.8e-8, .9, .7, hinged, false)
	fixed := portal(210e9, 1e-2, 2.4e-8, 1.8e-8, .9, .7, held, false)
	r = solve(t, pinned, onBeam(1500, 1))
	got["B pinned portal UDL on beam 1500 N/m h=.7 L=.9 Ic=2.4e-8 Ib=1.8e-8 A=1e-2|base thrust H N"] = math.Abs(r.Reactions[0][UX])
	got["B|corner moment N m"] = math.Abs(r.Ends[1].Start[RZ])
	r = solve(t, fixed, onBeam(1500, 1))
	got["C|base M"] = math.Abs(r.Reactions[0][RZ])
	r = solve(t, pinned, withPush(Case{}, 1, 100))
	got["D pinned portal horizontal P=100 N at left top same data|corner M"] = math.Abs(r.Ends[1].Start[RZ])
	r = solve(t, fixed, withPush(Case{}, 1, 100))
	got["E fixed portal P=100|base M"] = math.Abs(r.Reactions[0][RZ])
	got["E|corner M"] = math.Abs(r.Ends[1].Start[RZ])

	// F and G: steel stands.
	const fName = "F steel SHS30x30x2 pinned feet L=.61 h=.70 w=3000 N/m|"
	f := portal(210e9, tube30.A, tube30.Iz, tube30.Iz, .61, .70, hinged, true)
	r = solve(t, f, onBeam(3000, 1, 2))
	got[fName+"I mm4"] = tube30.Iz * 1e12
	got[fName+"mid deflection mm"] = r.Displacements[2][UY] * 1e3
	got[fName+"corner moment N m"] = r.Ends[1].Start[RZ]
	got[fName+"midspan moment N m (elem2 end j local)"] = r.Ends[1].End[RZ]
	got[fName+"corner rotation rad"] = r.Displacements[1][RZ]
	r = solve(t, f, withPush(Case{}, 1, 50))
	got[fName+"sway mm for 50 N at left top"] = r.Displacements[1][UX] * 1e3

	const gName = "G steel SHS30x30x2 pinned feet L=1.22 h=.75 w=2500 N/m|"
	g := portal(210e9, tube30.A, tube30.Iz, tube30.Iz, 1.22, .75, hinged, true)
	r = solve(t, g, onBeam(2500, 1, 2))
	got[gName+"A mm2"] = tube30.A * 1e6
	got[gName+"I mm4"] = tube30.Iz * 1e12
	got[gName+"base thrust N"] = r.Reactions[0][UX]
	got[gName+"corner moment N m"] = r.Ends[1].Start[RZ]
	got[gName+"leg axial N"] = r.Ends[0].Start[UX]
	got[gName+"corner rotation rad"] = r.Displacements[1][RZ]
	whole := portal(210e9, tube30.A, tube30.Iz, tube30.Iz, 1.22, .75, hinged, false)
	corner := Vec6{UY: -2500 * 1.22 / 2}
	got[gName+"elastic sway buckling load factor (corner loads wL/2 each; 8 elem per member)"] =
		buckling(t, whole, Case{Nodes: []NodeLoad{{1, corner}, {2, corner}}}, 8)

	// H: lower rail at 0.10 m, one foot on a roller.
	const hName = "H stand with bottom rail at 0.10 m; foot 1 pinned foot 2 roller; L=.61 h=.70 SHS30x30x2; w=3000 N/m + 50 N at left top|"
	h := &Frame{Plane: true, Nodes: []Node{{0, 0, 0}, {.61, 0, 0}, {0, .1, 0}, {.61, .1, 0}, {0, .7, 0}, {.61, .7, 0}}}
	for _, m := range [][2]int{{0, 2}, {1, 3}, {2, 3}, {2, 4}, {3, 5}, {4, 5}} {
		h.Members = append(h.Members, Member{Start: m[0], End: m[1], Material: steel, Section: tube30})
	}
	h.Supports = []Support{{Node: 0, Fixed: hinged}, {Node: 1, Fixed: [6]bool{UY: true}}}
	r = solve(t, h, withPush(onBeam(3000, 5), 4, 50))
	got[hName+"u(left top) mm"] = r.Displacements[4][UX] * 1e3
	got[hName+"rail moment end i N m"] = r.Ends[2].Start[RZ]
	got[hName+"vertical reaction left N"] = r.Reactions[0][UY]

	// I: timber.
	const iName = "I timber 45x45 E=11 GPa rigid corners pinned feet L=.61 h=.70 w=1500 N/m + 20 N|"
	square := rectangle(.045, .045)
	timber := portal(11e9, square.A, square.Iz, square.Iz, .61, .70, hinged, true)
	r = solve(t, timber, withPush(onBeam(1500, 1, 2), 1, 20))
	got[iName+"u(left top) mm"] = r.Displacements[1][UX] * 1e3
	got[iName+"v(mid) mm"] = r.Displacements[2][UY] * 1e3
	got[iName+"right leg top moment N m"] = r.Ends[3].Start[RZ]

	// J: Euler columns.
	sway := [6]bool{UX: true, RZ: true}
	for name, ends := range map[string][2][6]bool{
		"pinned-pinned":           {hinged, {UX: true}},
		"fixed-fixed(guided top)": {held, sway},
		"fixed-pinned":            {held, {UX: true}},
	} {
		got["J column buckling EI=1 L=1 8 elements "+name+"|Pcr"] = buckling(t, column(ends[0], ends[1]), pressed(1), 8)
	}
	checkRows(t, "frame2d_reference.csv", planeRows, got)
}

const planeRows = 38 // with the heading

// column is upright with EI = 1 and L = 1, practically incompressible.
func column(foot, top [6]bool) *Frame {
	return &Frame{
		Plane:    true,
		Nodes:    []Node{{0, 0, 0}, {0, 1, 0}},
		Members:  []Member{{Start: 0, End: 1, Material: Material{E: 1}, Section: Section{A: 1e4, Iz: 1}}},
		Supports: []Support{{Node: 0, Fixed: foot}, {Node: 1, Fixed: top}},
	}
}

func pressed(node int) Case { return Case{Nodes: []NodeLoad{{node, Vec6{UY: -1}}}} }

// Source: testdata/structure/frame2d_k_local.csv and frame3d_k_local.csv,
// 0.1 %: exact formulas.
func TestLocalStiffness(t *testing.T) {
	plane := localStiffness(Material{E: 210e9}, Section{A: 224e-6, Iz: 2.941867e-8}, .7)
	inPlane := []int{0, 1, 5, 6, 7, 11}
	for i, row := range readTable(t, "frame2d_k_local.csv", 6) {
		if len(row) != 6 {
			t.Fatalf("frame2d_k_local.csv row %d: %d columns", i, len(row))
		}
		for j, s := range row {
			near(t, "frame2d_k_local.csv", plane[inPlane[i]][inPlane[j]], drill.Number(t, s), 1e-6)
		}
	}
	space := localStiffness(Material{E: 210e9, G: 80.77e9}, Section{A: 224e-6, Iy: 2e-8, Iz: 3e-8, J: 4.3904e-8}, .7)
	for i, row := range readTable(t, "frame3d_k_local.csv", 12) {
		if len(row) != 12 {
			t.Fatalf("frame3d_k_local.csv row %d: %d columns", i, len(row))
		}
		for j, s := range row {
			near(t, "frame3d_k_local.csv", space[i][j], drill.Number(t, s), 1e-6)
		}
	}
}
