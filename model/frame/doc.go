// Package frame solves small frames of straight beams, in a plane or in
// space: displacements, reactions, end forces, moment and sag along members,
// and the load factor at which the frame buckles.
//
// # What it is for
//
// The four legs and the rails of an aquarium stand are such a frame. [Stand]
// builds and checks one; [Frame] is the general model below it. The package
// knows nothing of tanks.
//
// # Method
//
// Direct stiffness with Euler-Bernoulli beams: small displacements, linear
// elastic material, no shear deformation, no warping. Uniform loads enter
// through their exact fixed-end forces, so nodal results do not depend on how
// finely a member is divided. Buckling is the smallest positive factor at
// which (K + factor Kg) u = 0, with Kg the consistent geometric stiffness of
// the axial forces; torsional and lateral-torsional buckling are not covered.
//
// # Nouns
//
// A node is a point with six freedoms: three displacements and three
// rotations about the global axes. A member joins two nodes; its local x runs
// from Start to End (see [Member] for y and z). A panel is a thin board that
// resists shear only. A mechanism is a frame that can move without
// resistance: a verdict in [Result], never an error.
//
// # Units and validity
//
// SI throughout: m, N, Pa, N m, rad, kg/m3. Any consistent set works for
// [Frame]. Numbers beyond 1e18, and positive ones below 1e-24, are refused. A
// plane frame lies in x-y with y up; a space frame has z up.
// Real furniture joints are neither pinned nor rigid: callers check both and
// take the worse. Supports pull as well as push: a negative foot reaction
// means that the foot lifts and the linear result no longer holds.
//
// # Sources
//
// Element matrices: D. L. Logan, A First Course in the Finite Element Method,
// chapters 4 and 5; J. S. Przemieniecki, Theory of Matrix Structural Analysis,
// chapters 5 and 15 (both from memory). Reference values: testdata/structure.
package frame
