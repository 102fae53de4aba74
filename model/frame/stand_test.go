package frame

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// steelStand is stand L of frame3d_reference.csv.
func steelStand() Stand {
	tube := Profile{steel, tube30}
	return Stand{
		Length: .61, Depth: .33, Height: .70,
		Leg: tube, LongRail: tube, ShortRail: tube,
		Weight: 100 * 9.80665, LoadPath: OnLongRails,
	}
}

func checked(t testing.TB, s Stand) *StandResult {
	t.Helper()
	r, err := s.Check()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func sound(t testing.TB, s Stand) *StandResult {
	t.Helper()
	r := checked(t, s)
	if r.Mechanism {
		t.Fatalf("unexpected mechanism: %v at %v", r.Free, r.FreeAt)
	}
	return r
}

// Source: frame3d_reference.csv, stands L and M, 0.1 %.
func TestStandAgainstReference(t *testing.T) {
	l := sound(t, steelStand())
	for i, f := range l.Feet {
		near(t, "L: least foot reaction (5 % y, foot 0)", f.Min, 193.1613, 1e-3)
		near(t, "L: largest foot reaction (5 % y, foot 3)", f.Max, 297.1712, 1e-3)
		if i == 0 {
			near(t, "L: leg compression", l.Legs.Compression, 297.1712, 1e-3)
		}
	}
	// Less the shortening of the legs, 245.17 N on 0.7 m.
	sag := .1319167e-3 - 245.16625*.7/(210e9*tube30.A)
	near(t, "L: sag of the long rail", stillSag(t, steelStand()), sag, 1e-3)
	if l.LongRails.Sag < sag {
		t.Errorf("L: governing sag %g is below the sag without push %g", l.LongRails.Sag, sag)
	}

	s := steelStand()
	s.Length, s.Height, s.Weight = 1.22, .75, 270*9.80665
	m := sound(t, s)
	near(t, "M: least foot reaction", m.Feet[0].Min, 2*661.9489-812.3918, 1e-3)
	near(t, "M: largest foot reaction", m.Feet[2].Max, 812.3918, 1e-3)
	sag = 2.202699e-3 - 661.9489*.75/(210e9*tube30.A)
	near(t, "M: sag of the long rail", stillSag(t, s), sag, 1e-3)
	// The reference pushes two corners, so that rails shorten a little more.
	near(t, "M: drift", m.Drift, 1.369008e-3, 2e-2)
	if m.LongRails.MomentZ < 106.4408 {
		t.Errorf("M: rail moment %g is below the reference without push", m.LongRails.MomentZ)
	}
}

// stillSag is the sag of the front rail under the weight alone.
func stillSag(t *testing.T, s Stand) float64 {
	t.Helper()
	b, err := s.build()
	if err != nil {
		t.Fatal(err)
	}
	return along(t, solve(t, &b.Frame, s.weightCase(b)), b.rails[0]).Sag.Value
}

// One foot off the floor: the diagonal legs carry half the weight each.
// Source: frame3d_reference.csv, rows "foot 0 hanging".
func TestHangingFoot(t *testing.T) {
	for hanging := FrontLeft; hanging <= BackLeft; hanging++ {
		s := steelStand()
		s.Hanging = hanging
		r := sound(t, s)
		near(t, "leg", r.Legs.Compression, 490.3325, 1e-3)
		for i := range r.Feet {
			want := 490.3325
			if (i-int(hanging-FrontLeft))%2 == 0 {
				want = 0
			}
			near(t, "foot", r.Feet[i].Max, want, 1e-3)
		}
		if r.BucklingFactor >= sound(t, steelStand()).BucklingFactor {
			t.Error("a hanging foot must bring buckling nearer")
		}
	}
}

// Hinged corners and boards on all faces: the feet by statics, and the two
// boards beside the hanging leg bring its quarter of the weight to the next
// legs, an eighth each. With the front open the box twists.
func TestHangingFootOfBox(t *testing.T) {
	s := boxed(1e6)
	s.Hanging = FrontLeft
	if r := checked(t, s); !r.Mechanism {
		t.Errorf("an open box must twist: %+v", r)
	}
	s.Front.Panel = 1e6
	r := sound(t, s)
	for i, want := range []float64{0, 490.3325, 0, 490.3325} {
		near(t, "foot", r.Feet[i].Max, want, 1e-9)
	}
	near(t, "boards", r.PanelShear, s.Weight/8/s.Height, 1e-6)
}

// boxed is a stand with hinged corners and boards behind, on both sides and
// on top.
func boxed(shear float64) Stand {
	s := steelStand()
	s.PinnedCorners = true
	for _, f := range []*Face{&s.Back, &s.Left, &s.Right, &s.Top} {
		f.Panel = shear
	}
	return s
}

// Hinged corners: a mechanism without bracing, whatever is missing.
func TestPinnedStandNeedsBracing(t *testing.T) {
	for _, c := range []struct {
		name string
		open func(*Stand)
		free DOF
	}{
		{"nothing", func(s *Stand) { s.Back, s.Left, s.Right, s.Top = Face{}, Face{}, Face{}, Face{} }, UX},
		{"no back", func(s *Stand) { s.Back = Face{} }, UX},
		{"no sides", func(s *Stand) { s.Left, s.Right = Face{}, Face{} }, UY},
		{"no top: the front sways", func(s *Stand) { s.Top = Face{} }, UX},
	} {
		s := boxed(1e6)
		c.open(&s)
		r := checked(t, s)
		if !r.Mechanism || r.Free != c.free || r.FreeAt.Z != s.Height {
			t.Errorf("%s: %+v", c.name, r)
		}
		if r.Legs != (Worst{}) || r.BucklingFactor != 0 {
			t.Errorf("%s: a mechanism carries values", c.name)
		}
		s.PinnedCorners = false
		if checked(t, s).Mechanism {
			t.Errorf("%s: rigid corners are no mechanism", c.name)
		}
	}
}

// Hinged corners and boards: rails are simple beams, the boards carry the
// push by statics, and the legs are Euler's hinged columns.
func TestBoxedStand(t *testing.T) {
	s := boxed(1e8)
	r := sound(t, s)
	q, ei := s.Weight/(2*s.Length), 210e9*tube30.Iz
	near(t, "rail moment qL2/8", r.LongRails.MomentZ, q*s.Length*s.Length/8, 1e-9)
	near(t, "rail sag 5qL4/384EI", r.LongRails.Sag, 5*q*math.Pow(s.Length, 4)/(384*ei), 1e-8)
	near(t, "back board carries the push", r.PanelShear, PushShare*s.Weight/s.Length, 1e-6)
	near(t, "short rails carry nothing", r.ShortRails.MomentZ, 0, 1e-9)
	euler := math.Pi * math.Pi * ei / (s.Height * s.Height)
	near(t, "Euler leg", r.BucklingFactor, euler/(s.Weight/4), 1e-3)
	if !r.Buckles {
		t.Error("a stand under weight must have a buckling factor")
	}
}

// Diagonals instead of boards, one in each face: also sound, and in force.
func TestDiagonalStand(t *testing.T) {
	s := boxed(0)
	bar := Profile{steel, rectangle(.003, .02)}
	for _, f := range []*Face{&s.Back, &s.Left, &s.Right, &s.Top} {
		f.Diagonal = &bar
	}
	r := sound(t, s)
	// The back bar takes the whole push along the length, by statics.
	near(t, "back bar", r.Diagonals.Compression, PushShare*s.Weight*math.Hypot(s.Length, s.Height)/s.Length, 1e-9)
	if !r.Buckles || r.BucklingFactor <= 0 {
		t.Errorf("buckling %+v", r)
	}
}

// Lower rails stiffen a rigid stand and brace its legs.
func TestLowerRails(t *testing.T) {
	open := sound(t, steelStand())
	s := steelStand()
	tube := Profile{steel, tube30}
	s.Lower = &LowerRails{Height: .1, Long: tube, Short: tube, Shelf: Face{Panel: 1e6}}
	low := sound(t, s)
	if low.Drift >= open.Drift || low.BucklingFactor <= open.BucklingFactor {
		t.Errorf("drift %g, without %g; buckling %g, without %g", low.Drift, open.Drift, low.BucklingFactor, open.BucklingFactor)
	}
	if low.LowerRails.MomentZ == 0 || open.LowerRails != (Worst{}) {
		t.Errorf("lower rails %+v, without %+v", low.LowerRails, open.LowerRails)
	}
	sum := 0.0
	for _, f := range low.Feet {
		sum += (f.Min + f.Max) / 2
	}
	near(t, "feet carry the weight", sum, s.Weight, 1e-9)
}

// Both load paths bring the same total to the feet, with own weight on top;
// the long rails are worse off when they carry all of it.
func TestLoadPaths(t *testing.T) {
	s := steelStand()
	long := sound(t, s)
	s.LoadPath = OnPerimeter
	rim := sound(t, s)
	if rim.LongRails.MomentZ >= long.LongRails.MomentZ || rim.ShortRails.MomentZ <= long.ShortRails.MomentZ {
		t.Errorf("long rails %+v and %+v", rim.LongRails, long.LongRails)
	}
	s.Gravity = 9.80665
	heavy := sound(t, s)
	length := 4*s.Height + 2*(s.Length+s.Depth)
	for i := range rim.Feet {
		near(t, "foot", (rim.Feet[i].Min+rim.Feet[i].Max)/2, s.Weight/4, 1e-9)
		near(t, "foot with own weight", (heavy.Feet[i].Min+heavy.Feet[i].Max)/2, (s.Weight+7850*9.80665*tube30.A*length)/4, 1e-9)
	}
}

// Any stand: the feet carry the weight, turning the stand by a right angle
// (length for depth) changes nothing, and doubling the weight doubles forces
// and halves the buckling factor.
func TestAnyStand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.Float64Range(.3, 1.5)
		wood := Material{E: 11e9, G: 6.9e8}
		thick := rapid.Float64Range(.03, .09)
		profile := func() Profile {
			side := thick.Draw(t, "side")
			return Profile{wood, rectangle(side, side)}
		}
		s := Stand{
			Length: size.Draw(t, "length"), Depth: size.Draw(t, "depth"), Height: size.Draw(t, "height"),
			Leg: profile(), LongRail: profile(), ShortRail: profile(),
			Weight: rapid.Float64Range(100, 5000).Draw(t, "weight"),
		}
		if rapid.Bool().Draw(t, "lower") {
			s.Lower = &LowerRails{Height: s.Height * rapid.Float64Range(.1, .9).Draw(t, "at"), Long: profile(), Short: profile()}
		}
		check := func(s Stand) *StandResult {
			r, err := s.Check()
			if err != nil {
				t.Fatal(err)
			}
			if r.Mechanism || !r.Buckles {
				t.Fatalf("%+v", r)
			}
			return r
		}
		same := func(what string, got, want, tolerance float64) {
			if math.Abs(got-want) > tolerance*math.Abs(want) {
				t.Fatalf("%s: got %g, expected %g", what, got, want)
			}
		}
		r := check(s)
		sum := 0.0
		for _, f := range r.Feet {
			sum += (f.Min + f.Max) / 2
		}
		same("feet", sum, s.Weight, 1e-9)

		side := s
		side.Length, side.Depth = s.Depth, s.Length
		side.LongRail, side.ShortRail = s.ShortRail, s.LongRail
		if s.Lower != nil {
			lower := *s.Lower
			lower.Long, lower.Short = lower.Short, lower.Long
			side.Lower = &lower
		}
		q := check(side)
		same("turned: rail moment", q.ShortRails.MomentZ, r.LongRails.MomentZ, 1e-6)
		same("turned: rail sag", q.ShortRails.Sag, r.LongRails.Sag, 1e-6)
		same("turned: leg", q.Legs.Compression, r.Legs.Compression, 1e-6)
		same("turned: leg moment", q.Legs.MomentY, r.Legs.MomentZ, 1e-6)
		same("turned: drift", q.Drift, r.Drift, 1e-6)
		same("turned: buckling", q.BucklingFactor, r.BucklingFactor, 1e-6)

		double := s
		double.Weight *= 2
		d := check(double)
		same("doubled: leg", d.Legs.Compression, 2*r.Legs.Compression, 1e-9)
		same("doubled: drift", d.Drift, 2*r.Drift, 1e-9)
		same("doubled: buckling", d.BucklingFactor, r.BucklingFactor/2, 1e-6)
	})
}
