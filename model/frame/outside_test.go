package frame

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

// outsideFrames are portals and columns solved without a stiffness matrix.
type outsideFrames struct {
	Checks []struct {
		Portal *struct {
			E, A, Leg, Beam, Span, Height, Load, Push float64
			Held                                      bool
		}
		Column *struct {
			Pieces    [][2]float64 // EI and length
			Foot, Top string
		}
		Want map[string]float64
	}
}

// Source: testdata/outside/frames.py: scipy 1.10.1, a boundary value problem of
// each portal and the transfer matrix of each column.
func TestFramesAgainstOutside(t *testing.T) {
	raw, err := os.ReadFile("../../testdata/outside/frames.json")
	if err != nil {
		t.Fatal(err)
	}
	var all outsideFrames
	if err := json.Unmarshal(raw, &all); err != nil {
		t.Fatal(err)
	}
	portals, columns := 0, 0
	for i, c := range all.Checks {
		switch {
		case c.Portal != nil:
			portals++
			p := c.Portal
			foot := hinged
			if p.Held {
				foot = held
			}
			f := portal(p.E, p.A, p.Leg, p.Beam, p.Span, p.Height, foot, true)
			r := solve(t, f, withPush(onBeam(p.Load, 1, 2), 1, p.Push))
			got := map[string]float64{"sway": r.Displacements[1][UX], "sag": -r.Displacements[2][UY], "corner": math.Abs(r.Ends[1].Start[RZ]),
				"foot": math.Abs(r.Reactions[4][RZ]), "thrust": math.Abs(r.Reactions[0][UX])}
			for what, want := range c.Want {
				if g, ok := got[what]; !ok || !(math.Abs(g-want) <= 1e-6*math.Abs(want)+1e-9) {
					t.Errorf("frames.json check %d (scipy solve_bvp) %s: want %.10g, got %.10g", i, what, want, g)
				}
			}
		case c.Column != nil:
			columns++
			got := buckling(t, pieced(t, c.Column.Pieces, c.Column.Foot, c.Column.Top), pressed(len(c.Column.Pieces)), 16)
			if want := c.Want["force"]; !(math.Abs(got-want) <= 1e-4*want) {
				t.Errorf("frames.json check %d (scipy expm) %s and %s: want %.8g, got %.8g", i, c.Column.Foot, c.Column.Top, want, got)
			}
		}
	}
	if portals != 12 || columns != 15 {
		t.Errorf("%d portals and %d columns checked, want 12 and 15", portals, columns)
	}
}

// pieced is an upright of pieces with their own stiffness.
func pieced(t *testing.T, pieces [][2]float64, foot, top string) *Frame {
	t.Helper()
	f := &Frame{Plane: true, Nodes: []Node{{}}}
	y := 0.0
	for i, p := range pieces {
		y += p[1]
		f.Nodes = append(f.Nodes, Node{0, y, 0})
		f.Members = append(f.Members, Member{Start: i, End: i + 1, Material: Material{E: 1}, Section: Section{A: 1e4, Iz: p[0]}})
	}
	feet := map[string][6]bool{"held": held, "hinged": hinged}
	tops := map[string][6]bool{"free": {}, "hinged": {UX: true}, "guided": {UX: true, RZ: true}, "sliding": {RZ: true}}
	f.Supports = []Support{{Node: 0, Fixed: feet[foot]}, {Node: len(pieces), Fixed: tops[top]}}
	return f
}
