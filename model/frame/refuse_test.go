package frame

import (
	"errors"
	"math"
	"testing"
)

func refused(t *testing.T, name string, err error, item Item, index int, field string, what Fault) {
	t.Helper()
	var e *InputError
	if !errors.As(err, &e) {
		t.Errorf("%s: got error %v, expected an InputError", name, err)
		return
	}
	if *e != (InputError{item, index, field, what}) {
		t.Errorf("%s: refused as %v", name, e)
	}
	if e.Error() == "" {
		t.Errorf("%s: no message", name)
	}
}

func TestRefusesFrames(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name  string
		spoil func(*Frame)
		item  Item
		index int
		field string
		what  Fault
	}{
		{"no nodes", func(f *Frame) { f.Nodes = nil }, ItemFrame, 0, "Nodes", Missing},
		{"no members", func(f *Frame) { f.Members = nil }, ItemFrame, 0, "Members", Missing},
		{"NaN place", func(f *Frame) { f.Nodes[2].Y = nan }, ItemNode, 2, "Y", NotFinite},
		{"infinite place", func(f *Frame) { f.Nodes[9].Z = inf }, ItemNode, 9, "Z", NotFinite},
		{"out of plane node", func(f *Frame) { f.Plane = true }, ItemNode, 4, "Z", OutOfPlane},
		{"no start", func(f *Frame) { f.Members[3].Start = 10 }, ItemMember, 3, "Start", Missing},
		{"no end", func(f *Frame) { f.Members[3].End = -1 }, ItemMember, 3, "End", Missing},
		{"one node", func(f *Frame) { f.Members[3].End = f.Members[3].Start }, ItemMember, 3, "End", ZeroLength},
		{"two nodes in one place", func(f *Frame) { f.Nodes[8] = f.Nodes[4] }, ItemMember, 4, "End", ZeroLength},
		{"place beyond range", func(f *Frame) { f.Nodes[8].X = -1e19 }, ItemNode, 8, "X", OutOfRange},
		{"soft", func(f *Frame) { f.Members[1].Material.E = 0 }, ItemMember, 1, "Material.E", NotPositive},
		{"NaN E", func(f *Frame) { f.Members[1].Material.E = nan }, ItemMember, 1, "Material.E", NotFinite},
		{"no G", func(f *Frame) { f.Members[1].Material.G = 0 }, ItemMember, 1, "Material.G", NotPositive},
		{"negative G", func(f *Frame) { f.Members[1].Material.G = -1 }, ItemMember, 1, "Material.G", Negative},
		{"negative density", func(f *Frame) { f.Members[1].Material.Density = -1 }, ItemMember, 1, "Material.Density", Negative},
		{"no area", func(f *Frame) { f.Members[5].Section.A = 0 }, ItemMember, 5, "Section.A", NotPositive},
		{"no Iz", func(f *Frame) { f.Members[5].Section.Iz = -1 }, ItemMember, 5, "Section.Iz", NotPositive},
		{"no Iy", func(f *Frame) { f.Members[5].Section.Iy = 0 }, ItemMember, 5, "Section.Iy", NotPositive},
		{"negative J", func(f *Frame) { f.Members[5].Section.J = -1 }, ItemMember, 5, "Section.J", Negative},
		{"up along the member", func(f *Frame) { f.Members[0].Up = Vector{Z: -3} }, ItemMember, 0, "Up", AlongMember},
		{"NaN up", func(f *Frame) { f.Members[0].Up = Vector{X: nan} }, ItemMember, 0, "Up", NotFinite},
		{"support of no node", func(f *Frame) { f.Supports[2].Node = 77 }, ItemSupport, 2, "Node", Missing},
		{"support twice", func(f *Frame) { f.Supports[2].Node = 0 }, ItemSupport, 2, "Node", Repeated},
		{"negative spring", func(f *Frame) { f.Supports[2].Spring[RY] = -1 }, ItemSupport, 2, "Spring", Negative},
		{"infinite spring", func(f *Frame) { f.Supports[2].Spring[RY] = inf }, ItemSupport, 2, "Spring", NotFinite},
		{"panel of no node", func(f *Frame) { f.Panels = []Panel{{[4]int{0, 1, 5, 99}, 1e5}} }, ItemPanel, 0, "Corners", Missing},
		{"crossed panel", func(f *Frame) { f.Panels = []Panel{{[4]int{0, 1, 4, 5}, 1e5}} }, ItemPanel, 0, "Corners", NotRectangle},
		{"panel without height", func(f *Frame) { f.Panels = []Panel{{[4]int{0, 1, 1, 0}, 1e5}} }, ItemPanel, 0, "Corners", NotRectangle},
		{"soft panel", func(f *Frame) { f.Panels = []Panel{{[4]int{0, 1, 5, 4}, 0}} }, ItemPanel, 0, "Shear", NotPositive},
		{"stiffer than the range", func(f *Frame) { f.Members[2].Material.E = 1e20 }, ItemMember, 2, "Material.E", OutOfRange},
		{"thinner than the range", func(f *Frame) { f.Members[2].Section.Iy = 1e-30 }, ItemMember, 2, "Section.Iy", OutOfRange},
	} {
		f := referenceStand(.61, .33, .7)
		c.spoil(f)
		_, err := f.Assemble()
		refused(t, c.name, err, c.item, c.index, c.field, c.what)
		_, err = f.Buckling(Case{}, 2)
		refused(t, c.name+", buckling", err, c.item, c.index, c.field, c.what)
	}
	f := portal(1, 1, 1, 1, 1, 1, hinged, false)
	f.Members[0].Up = Vector{Z: 1}
	_, err := f.Assemble()
	refused(t, "up out of plane", err, ItemMember, 0, "Up", OutOfPlane)
}

func TestRefusesLoads(t *testing.T) {
	nan := math.NaN()
	space, plane := referenceStand(.61, .33, .7), portal(210e9, 1e-3, 2e-8, 2e-8, .9, .7, hinged, false)
	for _, c := range []struct {
		name  string
		frame *Frame
		load  Case
		item  Item
		index int
		field string
		what  Fault
	}{
		{"no node", space, Case{Nodes: []NodeLoad{{}, {Node: 10}}}, ItemLoad, 1, "Node", Missing},
		{"NaN force", space, Case{Nodes: []NodeLoad{{Load: Vec6{RZ: nan}}}}, ItemLoad, 0, "Load", NotFinite},
		{"no member", space, Case{Lines: []LineLoad{{Member: -1}}}, ItemLoad, 0, "Member", Missing},
		{"infinite line load", space, Case{Lines: []LineLoad{{Load: Vector{Y: math.Inf(-1)}}}}, ItemLoad, 0, "Load", NotFinite},
		{"negative gravity", space, Case{Gravity: -1}, ItemFrame, 0, "Gravity", Negative},
		{"NaN gravity", space, Case{Gravity: nan}, ItemFrame, 0, "Gravity", NotFinite},
		{"force out of plane", plane, Case{Nodes: []NodeLoad{{Load: Vec6{UZ: 1}}}}, ItemLoad, 0, "Load", OutOfPlane},
		{"moment out of plane", plane, Case{Nodes: []NodeLoad{{Load: Vec6{RX: 1}}}}, ItemLoad, 0, "Load", OutOfPlane},
		{"line load out of plane", plane, Case{Lines: []LineLoad{{Load: Vector{Z: 1}}}}, ItemLoad, 0, "Load", OutOfPlane},
		{"load beyond range", space, Case{Nodes: []NodeLoad{{4, Vec6{UX: 1e308}}}}, ItemLoad, 0, "Load", OutOfRange},
	} {
		_, err := c.frame.Solve(c.load)
		refused(t, c.name, err, c.item, c.index, c.field, c.what)
		_, err = c.frame.Buckling(c.load, 2)
		refused(t, c.name+", buckling", err, c.item, c.index, c.field, c.what)
	}
	for _, n := range []int{0, -1, MaxDivisions + 1} {
		_, err := space.Buckling(Case{}, n)
		refused(t, "divisions", err, ItemBuckle, 0, "divisions", OutOfRange)
	}
	r := solve(t, space, Case{})
	for _, n := range []int{-1, 10} {
		_, err := r.Along(n)
		refused(t, "no member", err, ItemMember, n, "member", Missing)
	}
}

func TestRefusesStands(t *testing.T) {
	tube := Profile{steel, tube30}
	for _, c := range []struct {
		name  string
		spoil func(*Stand)
		field string
		what  Fault
	}{
		{"no length", func(s *Stand) { s.Length = 0 }, "Length", NotPositive},
		{"NaN depth", func(s *Stand) { s.Depth = math.NaN() }, "Depth", NotFinite},
		{"negative height", func(s *Stand) { s.Height = -1 }, "Height", NotPositive},
		{"no weight", func(s *Stand) { s.Weight = 0 }, "Weight", NotPositive},
		{"negative gravity", func(s *Stand) { s.Gravity = -1 }, "Gravity", Negative},
		{"negative panel", func(s *Stand) { s.Back.Panel = -1 }, "Back.Panel", Negative},
		{"empty leg", func(s *Stand) { s.Leg = Profile{} }, "Leg.Material.E", NotPositive},
		{"rail without area", func(s *Stand) { s.ShortRail.Section.A = 0 }, "ShortRail.Section.A", NotPositive},
		{"empty diagonal", func(s *Stand) { s.Left.Diagonal = &Profile{} }, "Left.Diagonal.Material.E", NotPositive},
		{"unknown load path", func(s *Stand) { s.LoadPath = 7 }, "LoadPath", OutOfRange},
		{"fifth foot", func(s *Stand) { s.Hanging = 5 }, "Hanging", OutOfRange},
		{"lower rails at the top", func(s *Stand) { s.Lower = &LowerRails{Height: .7, Long: tube, Short: tube} }, "Lower.Height", OutOfRange},
		{"lower rails on the floor", func(s *Stand) { s.Lower = &LowerRails{Long: tube, Short: tube} }, "Lower.Height", NotPositive},
		{"lower rails of nothing", func(s *Stand) { s.Lower = &LowerRails{Height: .1, Long: tube} }, "Lower.Short.Material.E", NotPositive},
	} {
		s := steelStand()
		c.spoil(&s)
		_, err := s.Check()
		refused(t, c.name, err, ItemStand, 0, c.field, c.what)
	}
}
