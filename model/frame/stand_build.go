package frame

// group is a set of members that share one [Worst].
type group int

const (
	legGroup group = iota
	longGroup
	shortGroup
	lowerGroup
	diagonalGroup
	groupCount
)

// standFrame is a stand turned into a frame.
type standFrame struct {
	Frame
	groups []group // by member
	top    [4]int  // nodes of the top corners
	rails  [4]int  // members of the top rails: front, right, back, left
}

// build lays out nodes and members. Nodes 0 to 3 are the feet.
func (s *Stand) build() (*standFrame, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	b := &standFrame{}
	below := b.ring(s, 0)
	face := below
	feet := below
	if s.Lower != nil {
		ring := b.ring(s, s.Lower.Height)
		b.legs(s, below, ring)
		b.rails4(s, ring, s.Lower.Long, s.Lower.Short, lowerGroup, lowerGroup)
		b.face(s.Lower.Shelf, ring)
		below, face = ring, ring
	}
	b.top = b.ring(s, s.Height)
	b.legs(s, below, b.top)
	b.rails = b.rails4(s, b.top, s.LongRail, s.ShortRail, longGroup, shortGroup)
	t := b.top
	b.face(s.Front, [4]int{face[0], face[1], t[1], t[0]})
	b.face(s.Right, [4]int{face[1], face[2], t[2], t[1]})
	b.face(s.Back, [4]int{face[3], face[2], t[2], t[3]})
	b.face(s.Left, [4]int{face[0], face[3], t[3], t[0]})
	b.face(s.Top, t)
	for i, foot := range feet {
		fixed := [6]bool{UX: true, UY: true, UZ: true, RZ: true}
		if Corner(i+1) == s.Hanging {
			if !s.PinnedCorners {
				continue
			}
			fixed[UZ] = false
		}
		b.Supports = append(b.Supports, Support{Node: foot, Fixed: fixed})
	}
	return b, nil
}

// ring adds the four corner nodes at a height.
func (b *standFrame) ring(s *Stand, z float64) [4]int {
	n := len(b.Nodes)
	b.Nodes = append(b.Nodes, Node{0, 0, z}, Node{s.Length, 0, z}, Node{s.Length, s.Depth, z}, Node{0, s.Depth, z})
	return [4]int{n, n + 1, n + 2, n + 3}
}

func (b *standFrame) member(from, to int, p Profile, hinge Release, g group) int {
	b.Members = append(b.Members, Member{
		Start: from, End: to, Material: p.Material, Section: p.Section,
		StartRelease: hinge, EndRelease: hinge,
	})
	b.groups = append(b.groups, g)
	return len(b.Members) - 1
}

func (b *standFrame) legs(s *Stand, from, to [4]int) {
	for i := range from {
		b.member(from[i], to[i], s.Leg, Release{}, legGroup)
	}
}

// rails4 adds the rails of one ring: front, right, back, left.
func (b *standFrame) rails4(s *Stand, ring [4]int, long, short Profile, longG, shortG group) [4]int {
	var hinge Release
	if s.PinnedCorners {
		hinge = Pinned()
		long.Section.J, short.Section.J = 0, 0 // a hinge carries no torsion either
	}
	return [4]int{
		b.member(ring[0], ring[1], long, hinge, longG),
		b.member(ring[1], ring[2], short, hinge, shortG),
		b.member(ring[2], ring[3], long, hinge, longG),
		b.member(ring[3], ring[0], short, hinge, shortG),
	}
}

func (b *standFrame) face(f Face, corners [4]int) {
	if f.Panel > 0 {
		b.Panels = append(b.Panels, Panel{Corners: corners, Shear: f.Panel})
	}
	if f.Diagonal != nil {
		bar := *f.Diagonal
		bar.Section.J = 0 // as a hinged rail
		b.member(corners[0], corners[2], bar, Pinned(), diagonalGroup)
	}
}

// check refuses a stand that cannot be laid out.
func (s *Stand) check() error {
	if err := firstFault(ItemStand, 0,
		positive("Length", s.Length), positive("Depth", s.Depth), positive("Height", s.Height),
		positive("Weight", s.Weight), notNegative("Gravity", s.Gravity),
		notNegative("Front.Panel", s.Front.Panel), notNegative("Back.Panel", s.Back.Panel),
		notNegative("Left.Panel", s.Left.Panel), notNegative("Right.Panel", s.Right.Panel),
		notNegative("Top.Panel", s.Top.Panel),
		profile("Leg", &s.Leg), profile("LongRail", &s.LongRail), profile("ShortRail", &s.ShortRail),
		profile("Front.Diagonal", s.Front.Diagonal), profile("Back.Diagonal", s.Back.Diagonal),
		profile("Left.Diagonal", s.Left.Diagonal), profile("Right.Diagonal", s.Right.Diagonal),
		profile("Top.Diagonal", s.Top.Diagonal),
	); err != nil {
		return err
	}
	if s.LoadPath != OnPerimeter && s.LoadPath != OnLongRails {
		return &InputError{ItemStand, 0, "LoadPath", OutOfRange}
	}
	if s.Hanging < NoCorner || s.Hanging > BackLeft {
		return &InputError{ItemStand, 0, "Hanging", OutOfRange}
	}
	l := s.Lower
	if l == nil {
		return nil
	}
	if err := firstFault(ItemStand, 0,
		positive("Lower.Height", l.Height), notNegative("Lower.Shelf.Panel", l.Shelf.Panel),
		profile("Lower.Long", &l.Long), profile("Lower.Short", &l.Short),
		profile("Lower.Shelf.Diagonal", l.Shelf.Diagonal),
	); err != nil {
		return err
	}
	if l.Height >= s.Height {
		return &InputError{ItemStand, 0, "Lower.Height", OutOfRange}
	}
	return nil
}

// profile checks a member's material and section under the stand's own field
// name; nil is no member.
func profile(field string, p *Profile) fault {
	if p == nil {
		return fault{}
	}
	for _, f := range []fault{
		positive(field+".Material.E", p.Material.E),
		positive(field+".Material.G", p.Material.G),
		notNegative(field+".Material.Density", p.Material.Density),
		positive(field+".Section.A", p.Section.A),
		positive(field+".Section.Iy", p.Section.Iy),
		positive(field+".Section.Iz", p.Section.Iz),
		notNegative(field+".Section.J", p.Section.J),
	} {
		if f.what != "" {
			return f
		}
	}
	return fault{}
}
