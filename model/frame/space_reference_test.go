package frame

import "testing"

// referenceStand is the stand of frame3d_reference.csv, numbered as its header
// says: 0-3 feet, 4-7 corners, 8 and 9 the middles of the long rails.
func referenceStand(lx, ly, h float64) *Frame {
	f := &Frame{Nodes: []Node{
		{0, 0, 0}, {lx, 0, 0}, {lx, ly, 0}, {0, ly, 0},
		{0, 0, h}, {lx, 0, h}, {lx, ly, h}, {0, ly, h},
		{lx / 2, 0, h}, {lx / 2, ly, h},
	}}
	for _, m := range [][2]int{{0, 4}, {1, 5}, {2, 6}, {3, 7}, {4, 8}, {8, 5}, {5, 6}, {6, 9}, {9, 7}, {7, 4}} {
		f.Members = append(f.Members, Member{Start: m[0], End: m[1], Material: steel, Section: tube30})
	}
	for i := range 4 {
		f.Supports = append(f.Supports, Support{Node: i, Fixed: hinged})
	}
	return f
}

// onLongRails puts a mass in kg on the long rails of a referenceStand.
func onLongRails(mass, lx float64) Case {
	var c Case
	for _, m := range []int{4, 5, 7, 8} {
		c.Lines = append(c.Lines, LineLoad{m, Vector{Z: -mass * 9.80665 / (2 * lx)}})
	}
	return c
}

func pushed(c Case, d DOF, total float64, nodes ...int) Case {
	c.Nodes = append([]NodeLoad(nil), c.Nodes...)
	for _, n := range nodes {
		var v Vec6
		v[d] = total / float64(len(nodes))
		c.Nodes = append(c.Nodes, NodeLoad{n, v})
	}
	return c
}

// hangingFoot frees a foot of its vertical support only, as the reference does.
func hangingFoot(f *Frame, foot int) *Frame {
	out := f.copy()
	out.Supports[foot].Fixed[UZ] = false
	return &out
}

// Source: testdata/structure/frame3d_reference.csv, 0.1 %.
func TestSpaceReference(t *testing.T) {
	got := map[string]float64{}

	// K: the loads are those that the closed forms in the note column imply.
	s := tube30
	s.Iz *= 2 // about global z: Up is global y
	k := &Frame{
		Nodes:    []Node{{0, 0, 0}, {1, 0, 0}},
		Members:  []Member{{Start: 0, End: 1, Material: steel, Section: s, Up: Vector{Y: 1}}},
		Supports: []Support{{Node: 0, Fixed: held}},
	}
	r := solve(t, k, Case{Nodes: []NodeLoad{{1, Vec6{10, 20, 30, 5, 6, 7}}}})
	got["K cantilever x-axis Iy=I Iz=2I|ux m"] = r.Displacements[1][UX]
	got["K|uz m"] = r.Displacements[1][UZ]
	got["K|rx rad"] = r.Displacements[1][RX]
	got["K|rz rad"] = r.Displacements[1][RZ]

	const lName = "L stand 610x330x700 SHS30x30x2 100 kg on the two long rails pinned feet"
	l, lLoad := referenceStand(.61, .33, .7), onLongRails(100, .61)
	lWeight := 100 * 9.80665
	r = solve(t, l, lLoad)
	got[lName+"|uz mid long rail mm"] = r.Displacements[8][UZ] * 1e3
	got[lName+"|reaction Rx foot 0 N"] = r.Reactions[0][UX]
	got[lName+"|reaction Ry foot 0 N"] = r.Reactions[0][UY]
	got[lName+"|rail elem4 moment at corner about local z N m"] = r.Ends[4].Start[RZ]
	got[lName+"|rail elem4 moment at midspan N m"] = r.Ends[4].End[RZ]
	r = solve(t, l, pushed(lLoad, UX, .05*lWeight, 4, 7))
	got[lName+" + 5 % x|Rz foot 0 N"] = r.Reactions[0][UZ]
	got[lName+" + 5 % x|Rz foot 1 N"] = r.Reactions[1][UZ]
	r = solve(t, l, pushed(lLoad, UY, .05*lWeight, 4, 5))
	got[lName+" + 5 % y|Rz foot 0 N"] = r.Reactions[0][UZ]
	got[lName+" + 5 % y|Rz foot 3 N"] = r.Reactions[3][UZ]
	r = solve(t, l, pushed(lLoad, UY, 100, 4))
	got[lName+" + 100 N torsion|rz node 4 rad"] = r.Displacements[4][RZ]
	got[lName+" + 100 N torsion|Ry foot 1 N"] = r.Reactions[1][UY]
	r = solve(t, hangingFoot(l, 0), lLoad)
	got[lName+" foot 0 hanging|Rz foot 1 N"] = r.Reactions[1][UZ]
	got[lName+" foot 0 hanging|Rz foot 2 N"] = r.Reactions[2][UZ]

	const mName = "M stand 1220x330x750 SHS30x30x2 270 kg on the two long rails pinned feet"
	m, mLoad := referenceStand(1.22, .33, .75), onLongRails(270, 1.22)
	mWeight := 270 * 9.80665
	r = solve(t, m, mLoad)
	got[mName+"|uz mid long rail mm"] = r.Displacements[8][UZ] * 1e3
	got[mName+"|leg axial compression N"] = r.Ends[0].Start[UX]
	got[mName+"|reaction Ry foot 0 N"] = r.Reactions[0][UY]
	got[mName+"|reaction Rz foot 0 N"] = r.Reactions[0][UZ]
	got[mName+"|rail elem4 moment at midspan N m"] = r.Ends[4].End[RZ]
	got[mName+"|J mm4"] = tube30.J * 1e12
	r = solve(t, m, pushed(mLoad, UX, .05*mWeight, 4, 7))
	got[mName+" + 5 % of weight pushed along x at top (split nodes 4 and 7)|ux node 4 mm"] = r.Displacements[4][UX] * 1e3
	got[mName+" + 5 % x|Rz foot 1 N"] = r.Reactions[1][UZ]
	r = solve(t, m, pushed(mLoad, UY, .05*mWeight, 4, 5))
	got[mName+" + 5 % pushed along y at top (nodes 4 and 5)|uy node 4 mm"] = r.Displacements[4][UY] * 1e3
	got[mName+" + 5 % y|Rz foot 3 N"] = r.Reactions[3][UZ]
	r = solve(t, m, pushed(mLoad, UY, 100, 4))
	got[mName+" + 100 N along y at node 4 only (torsion of the ring)|uy node 4 mm"] = r.Displacements[4][UY] * 1e3
	got[mName+" + 100 N torsion|Ry foot 1 N"] = r.Reactions[1][UY]
	r = solve(t, hangingFoot(m, 0), mLoad)
	got[mName+" foot 0 hanging (free in z)|uz foot 0 mm"] = r.Displacements[0][UZ] * 1e3
	got[mName+" foot 0 hanging|Rz foot 2 N"] = r.Reactions[2][UZ]
	checkRows(t, "frame3d_reference.csv", spaceRows, got)
}

const spaceRows = 32 // with the heading
