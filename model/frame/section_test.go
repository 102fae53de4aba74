package frame

import "testing"

// Source: S. Timoshenko and J. N. Goodier, Theory of Elasticity, article 109,
// table of J/(long short3) (from memory, three digits).
func TestRectangleTorsion(t *testing.T) {
	for _, c := range []struct{ ratio, want float64 }{
		{1, .1406}, {1.2, .166}, {1.5, .196}, {2, .229}, {2.5, .249}, {3, .263}, {4, .281}, {5, .291}, {10, .312},
	} {
		for _, tall := range []bool{true, false} {
			width, height := .02, .02*c.ratio
			if tall {
				width, height = height, width
			}
			s := rectangle(width, height)
			near(t, "rectangle torsion constant", s.J/(.02*c.ratio*.02*.02*.02), c.want, 4e-3)
		}
	}
}

// Source: header of frame3d_reference.csv.
func TestSquareTube(t *testing.T) {
	near(t, "A mm2", tube30.A*1e6, 224, 1e-9)
	near(t, "I mm4", tube30.Iz*1e12, 29418.67, 1e-6)
	near(t, "J mm4", tube30.J*1e12, 43904, 1e-9)
	near(t, "W mm3", tube30.Wy*1e9, 29418.67/15, 1e-6)
}
