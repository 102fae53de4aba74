package durable

// Roots lists where the paths of this machine begin: its drives, or the one root that
// other systems have. No drive is touched, so that an empty one is not waited for.
func Roots() []string { return roots() }

// drives writes a set of drives, the lowest bit for A, as the roots of their paths.
func drives(set uint32) []string {
	var out []string
	for i := range 26 {
		if set&(1<<i) != 0 {
			out = append(out, string(rune('A'+i))+`:\`)
		}
	}
	return out
}
