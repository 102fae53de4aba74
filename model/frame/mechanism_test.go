package frame

import "testing"

// expectFree checks for the verdict, both of the solution and of buckling.
func expectFree(t *testing.T, name string, f *Frame, c Case, dof DOF, nodes ...int) {
	t.Helper()
	r, err := f.Solve(c)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	b, err := f.Buckling(c, 3)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if !r.Mechanism || !b.Mechanism {
		t.Fatalf("%s: no mechanism found", name)
	}
	for _, m := range []Motion{r.Free, b.Free} {
		found := false
		for _, n := range nodes {
			found = found || m.Node == n
		}
		if m.DOF != dof || !found {
			t.Errorf("%s: free motion %v of node %d, expected %v of one of %v", name, m.DOF, m.Node, dof, nodes)
		}
	}
	if r.Displacements != nil || r.Reactions != nil || r.Ends != nil || b.Factor != 0 {
		t.Errorf("%s: a mechanism carries values", name)
	}
}

func TestMechanisms(t *testing.T) {
	// Hinged corners on hinged feet: sways.
	f := portal(210e9, 1e-3, 2e-8, 2e-8, .9, .7, hinged, false)
	f.Members[1].StartRelease, f.Members[1].EndRelease = Pinned(), Pinned()
	expectFree(t, "hinged portal", f, onBeam(1000, 1), UX, 1, 2)

	// Rollers only: slides as a whole.
	f = portal(210e9, 1e-3, 2e-8, 2e-8, .9, .7, [6]bool{UY: true}, false)
	expectFree(t, "on rollers", f, onBeam(1000, 1), UX, 0, 1, 2, 3)

	// No supports at all.
	f = portal(210e9, 1e-3, 2e-8, 2e-8, .9, .7, hinged, false)
	f.Supports = nil
	r := mustSolve(t, f, onBeam(1000, 1))
	if !r.Mechanism {
		t.Error("unsupported frame: no mechanism found")
	}

	// A node that no member holds.
	f = portal(210e9, 1e-3, 2e-8, 2e-8, .9, .7, hinged, false)
	f.Nodes = append(f.Nodes, Node{5, 5, 0})
	expectFree(t, "loose node", f, onBeam(1000, 1), UX, 4)

	// A skew linkage: the free motion of the top is across the bar.
	f = &Frame{
		Nodes:    []Node{{}, {.2, .1, 1}},
		Members:  []Member{{Start: 0, End: 1, Material: steel, Section: tube30}},
		Supports: []Support{{Node: 0, Fixed: [6]bool{UX: true, UY: true, UZ: true, RX: true, RZ: true}}},
	}
	expectFree(t, "skew bar", f, Case{}, UX, 1)
}

func mustSolve(t *testing.T, f *Frame, c Case) *Result {
	t.Helper()
	r, err := f.Solve(c)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// A diagonal cures the hinged portal; its force is statics: P times the ratio
// of the diagonal to the span.
func TestDiagonalCuresMechanism(t *testing.T) {
	f := portal(210e9, 1e-3, 2e-8, 2e-8, .9, .7, hinged, false)
	f.Members[1].StartRelease, f.Members[1].EndRelease = Pinned(), Pinned()
	f.Members = append(f.Members, Member{Start: 0, End: 2, Material: steel, Section: tube30, StartRelease: Pinned(), EndRelease: Pinned()})
	r := solve(t, f, withPush(Case{}, 1, 100))
	near(t, "tension in the diagonal", r.Ends[3].End[UX], 100*1.1401754/.9, 1e-6)
	if c := along(t, r, 3).Compression; c > 1e-6 {
		t.Errorf("tension bar reports %g N compression", c)
	}
}

// A rotation that moves nothing is no mechanism, until a load turns it.
func TestSpinIsNoMechanism(t *testing.T) {
	// A bar between held points, hinged at both ends and free in torsion at its
	// skew ends: it can only spin about itself.
	f := &Frame{
		Nodes:    []Node{{}, {.5, .4, .3}},
		Members:  []Member{{Start: 0, End: 1, Material: steel, Section: tube30}},
		Supports: []Support{{Node: 0, Fixed: hinged}, {Node: 1, Fixed: hinged}},
	}
	r := solve(t, f, Case{Lines: []LineLoad{{0, Vector{Z: -100}}}})
	if along(t, r, 0).Sag.Value <= 0 {
		t.Error("the spinning bar does not sag")
	}
	r = mustSolve(t, f, Case{Nodes: []NodeLoad{{1, Vec6{RX: 10, RY: 8, RZ: 6}}}})
	if !r.Mechanism || r.Free.DOF < RX {
		t.Errorf("a driven spin must be a free rotation: %+v", r.Free)
	}
	// Unreleased, but without torsional stiffness: three bars in a row.
	f = boardBeam([]float64{0, .2, .5, .8}, map[int][6]bool{0: held, 3: held})
	f.Plane = false
	for i := range f.Members {
		f.Members[i].Section.J = 0
	}
	solve(t, f, Case{Nodes: []NodeLoad{{1, Vec6{UZ: -10}}}})
}

// The panel alone: mean shear strain under a push along its top edge is
// P h / (Gt b h); it takes no vertical load. Statics.
func TestPanel(t *testing.T) {
	f := portal(210e9, 1e-3, 2e-8, 2e-8, .9, .7, hinged, false)
	f.Members[1].StartRelease, f.Members[1].EndRelease = Pinned(), Pinned()
	f.Panels = []Panel{{Corners: [4]int{0, 3, 2, 1}, Shear: 2e5}}
	half := withPush(withPush(Case{}, 1, 50), 2, 50)
	r := solve(t, f, half)
	near(t, "shear flow", r.PanelShear[0], 100/.9, 1e-9)
	// The legs stretch a little under the overturning moment: 0.1 %.
	near(t, "drift", r.Displacements[1][UX], 100*.7/(2e5*.9), 1e-3)
	near(t, "foot", r.Reactions[3][UY], 100*.7/.9, 1e-9)
	r = solve(t, f, onBeam(1000, 1))
	near(t, "no share of the weight", r.Ends[0].Start[UX], 450, 1e-9)
	near(t, "no shear from the weight", r.PanelShear[0], 0, 1e-9)
}
