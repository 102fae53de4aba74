package frame

// Section is a member's cross-section about its local axes. Bending about z
// moves the member along local y, bending about y moves it along local z.
type Section struct {
	A  float64 // area, m2, > 0
	Iy float64 // second moment of area about local y, m4, > 0 (a plane frame ignores it)
	Iz float64 // second moment of area about local z, m4, > 0
	J  float64 // torsion constant, m4, >= 0 (a plane frame ignores it)
	Wy float64 // elastic section modulus about local y, m3; not used in the solution
	Wz float64 // elastic section modulus about local z, m3; not used in the solution
}
