package frame

import "testing"

func BenchmarkPlaneSolve(b *testing.B) {
	f := portal(210e9, tube30.A, tube30.Iz, tube30.Iz, 1.22, .75, hinged, false)
	c := onBeam(2500, 1)
	for b.Loop() {
		solve(b, f, c)
	}
}

func BenchmarkPlaneBuckling(b *testing.B) {
	f := portal(210e9, tube30.A, tube30.Iz, tube30.Iz, 1.22, .75, hinged, false)
	c := onBeam(2500, 1)
	for b.Loop() {
		buckling(b, f, c, 4)
	}
}

func BenchmarkSpaceSolve(b *testing.B) {
	f, c := referenceStand(1.22, .33, .75), onLongRails(270, 1.22)
	for b.Loop() {
		solve(b, f, c)
	}
}

func BenchmarkSpaceBuckling(b *testing.B) {
	f, c := referenceStand(1.22, .33, .75), onLongRails(270, 1.22)
	for b.Loop() {
		buckling(b, f, c, 4)
	}
}

// The whole check: five load cases, peaks along all members, buckling.
func BenchmarkStandCheck(b *testing.B) {
	tube := Profile{steel, tube30}
	for name, s := range map[string]Stand{"open": steelStand(), "boxed": boxed(1e6), "lower": func() Stand {
		s := steelStand()
		s.Lower = &LowerRails{Height: .1, Long: tube, Short: tube}
		return s
	}()} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				sound(b, s)
			}
		})
	}
}
