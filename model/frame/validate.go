package frame

import "math"

// fault names a field and what is wrong with it; the zero fault is none.
type fault struct {
	field string
	what  Fault
}

// Accepted sizes, in any unit: wide enough for every frame, narrow enough that
// no product of them leaves the range of float64.
const (
	largestInput  = 1e18  // judgement
	smallestInput = 1e-24 // judgement; for values that must be positive
)

func isFinite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func finite(field string, values ...float64) fault {
	for _, v := range values {
		if !isFinite(v) {
			return fault{field, NotFinite}
		}
		if math.Abs(v) > largestInput {
			return fault{field, OutOfRange}
		}
	}
	return fault{}
}

func positive(field string, v float64) fault {
	if f := finite(field, v); f.what != "" {
		return f
	}
	if v <= 0 {
		return fault{field, NotPositive}
	}
	if v < smallestInput {
		return fault{field, OutOfRange}
	}
	return fault{}
}

func notNegative(field string, v float64) fault {
	if f := finite(field, v); f.what != "" {
		return f
	}
	if v < 0 {
		return fault{field, Negative}
	}
	return fault{}
}

// firstFault turns the first real fault into an [InputError].
func firstFault(item Item, index int, faults ...fault) error {
	for _, f := range faults {
		if f.what != "" {
			return &InputError{Item: item, Index: index, Field: f.field, Fault: f.what}
		}
	}
	return nil
}

func (f *Frame) hasNode(i int) bool { return i >= 0 && i < len(f.Nodes) }

// check refuses a frame that cannot be assembled.
func (f *Frame) check() error {
	if len(f.Nodes) == 0 {
		return &InputError{ItemFrame, 0, "Nodes", Missing}
	}
	if len(f.Members) == 0 {
		return &InputError{ItemFrame, 0, "Members", Missing}
	}
	for i, n := range f.Nodes {
		if err := firstFault(ItemNode, i, finite("X", n.X), finite("Y", n.Y), finite("Z", n.Z)); err != nil {
			return err
		}
		if f.Plane && n.Z != 0 {
			return &InputError{ItemNode, i, "Z", OutOfPlane}
		}
	}
	for i := range f.Members {
		if err := f.checkMember(i); err != nil {
			return err
		}
	}
	if err := f.checkSupports(); err != nil {
		return err
	}
	for i, p := range f.Panels {
		if err := firstFault(ItemPanel, i, positive("Shear", p.Shear)); err != nil {
			return err
		}
		for _, n := range p.Corners {
			if !f.hasNode(n) {
				return &InputError{ItemPanel, i, "Corners", Missing}
			}
		}
		if _, ok := f.panelShape(p); !ok {
			return &InputError{ItemPanel, i, "Corners", NotRectangle}
		}
	}
	return nil
}

func (f *Frame) checkMember(i int) error {
	m := f.Members[i]
	if !f.hasNode(m.Start) {
		return &InputError{ItemMember, i, "Start", Missing}
	}
	if !f.hasNode(m.End) {
		return &InputError{ItemMember, i, "End", Missing}
	}
	if err := firstFault(ItemMember, i,
		positive("Material.E", m.Material.E),
		notNegative("Material.G", m.Material.G),
		notNegative("Material.Density", m.Material.Density),
		positive("Section.A", m.Section.A),
		positive("Section.Iz", m.Section.Iz),
		notNegative("Section.Iy", m.Section.Iy),
		notNegative("Section.J", m.Section.J),
		finite("Up", m.Up.X, m.Up.Y, m.Up.Z),
	); err != nil {
		return err
	}
	if !f.Plane {
		if err := firstFault(ItemMember, i, positive("Section.Iy", m.Section.Iy)); err != nil {
			return err
		}
		if m.Section.J > 0 && m.Material.G == 0 {
			return &InputError{ItemMember, i, "Material.G", NotPositive}
		}
	} else if m.Up.Z != 0 {
		return &InputError{ItemMember, i, "Up", OutOfPlane}
	}
	if _, _, what := f.axes(m); what != "" {
		field := "End"
		if what == AlongMember {
			field = "Up"
		}
		return &InputError{ItemMember, i, field, what}
	}
	return nil
}

func (f *Frame) checkSupports() error {
	seen := make([]bool, len(f.Nodes))
	for i, s := range f.Supports {
		if !f.hasNode(s.Node) {
			return &InputError{ItemSupport, i, "Node", Missing}
		}
		if seen[s.Node] {
			return &InputError{ItemSupport, i, "Node", Repeated}
		}
		seen[s.Node] = true
		for _, k := range s.Spring {
			if err := firstFault(ItemSupport, i, notNegative("Spring", k)); err != nil {
				return err
			}
		}
	}
	return nil
}

// checkCase refuses loads that do not fit the frame.
func (f *Frame) checkCase(c Case) error {
	if err := firstFault(ItemFrame, 0, notNegative("Gravity", c.Gravity)); err != nil {
		return err
	}
	for i, l := range c.Nodes {
		if !f.hasNode(l.Node) {
			return &InputError{ItemLoad, i, "Node", Missing}
		}
		if err := firstFault(ItemLoad, i, finite("Load", l.Load[:]...)); err != nil {
			return err
		}
		if f.Plane && (l.Load[UZ] != 0 || l.Load[RX] != 0 || l.Load[RY] != 0) {
			return &InputError{ItemLoad, i, "Load", OutOfPlane}
		}
	}
	for i, l := range c.Lines {
		if l.Member < 0 || l.Member >= len(f.Members) {
			return &InputError{ItemLoad, i, "Member", Missing}
		}
		if err := firstFault(ItemLoad, i, finite("Load", l.Load.X, l.Load.Y, l.Load.Z)); err != nil {
			return err
		}
		if f.Plane && l.Load.Z != 0 {
			return &InputError{ItemLoad, i, "Load", OutOfPlane}
		}
	}
	return nil
}
