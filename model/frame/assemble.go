package frame

import "math"

// Assembled is a frame with its stiffness factored, ready for any number of
// load cases. It keeps its own copy of the frame and never changes, so it may
// be used from several goroutines.
type Assembled struct {
	frame    Frame
	equation []int // 6*node+DOF to equation; -1 where held
	elements []element
	panels   []panelShape
	stiff    *skyline     // factored
	spins    []freeMotion // rotations that nothing resists and that move no node
	free     *Motion      // set for a mechanism
	named    int          // nodes that a Motion may name
}

// element is a member ready for use: matrices in local axes.
type element struct {
	length float64
	axes   triad
	k      mat12 // releases eliminated
	hinges []hinge
}

// Motion names a freedom along which a mechanism moves most.
type Motion struct {
	Node int // index in Frame.Nodes
	DOF  DOF
}

// Assemble checks the frame and factors its stiffness. The error is an
// [InputError]; a mechanism is no error and shows in every [Result].
func (f *Frame) Assemble() (*Assembled, error) {
	order := make([]int, len(f.Nodes))
	for i := range order {
		order[i] = i
	}
	a, k, err := f.prepare(order)
	if err != nil {
		return nil, err
	}
	a.factor(k)
	return a, nil
}

// prepare checks the frame, numbers its equations in the given order of nodes
// and sums its stiffness.
func (f *Frame) prepare(order []int) (*Assembled, *skyline, error) {
	if err := f.check(); err != nil {
		return nil, nil, err
	}
	a := &Assembled{frame: f.copy(), named: len(f.Nodes)}
	count := a.number(order)
	k := newSkyline(a.profile(count))
	a.elements = make([]element, len(f.Members))
	for i, m := range f.Members {
		e := &a.elements[i]
		e.length, e.axes, _ = f.axes(m)
		e.k = localStiffness(m.Material, m.Section, e.length)
		e.hinges = releaseHinges(&e.k, m)
		g := e.axes.globalMatrix(&e.k)
		a.scatter(k, m, &g)
	}
	for _, p := range f.Panels {
		shape, _ := f.panelShape(p)
		a.panels = append(a.panels, shape)
		a.scatterPanel(k, p, shape)
	}
	for _, s := range f.Supports {
		for d, spring := range s.Spring {
			if eq := a.equation[6*s.Node+d]; eq >= 0 && spring > 0 {
				k.add(eq, eq, spring)
			}
		}
	}
	return a, k, nil
}

func (f *Frame) copy() Frame {
	return Frame{
		Plane:    f.Plane,
		Nodes:    append([]Node(nil), f.Nodes...),
		Members:  append([]Member(nil), f.Members...),
		Supports: append([]Support(nil), f.Supports...),
		Panels:   append([]Panel(nil), f.Panels...),
	}
}

// number gives each free DOF its equation and returns how many there are.
func (a *Assembled) number(order []int) int {
	a.equation = make([]int, 6*len(a.frame.Nodes))
	for _, s := range a.frame.Supports {
		for d, fixed := range s.Fixed {
			if fixed {
				a.equation[6*s.Node+d] = -1
			}
		}
	}
	count := 0
	for _, n := range order {
		for d := UX; d <= RZ; d++ {
			i := 6*n + int(d)
			if a.frame.Plane && (d == UZ || d == RX || d == RY) {
				a.equation[i] = -1
			}
			if a.equation[i] == 0 {
				a.equation[i] = count
				count++
			}
		}
	}
	return count
}

// profile gives the first column of each row of the stiffness.
func (a *Assembled) profile(count int) []int {
	first := make([]int, count)
	for i := range first {
		first[i] = i
	}
	join := func(nodes ...int) {
		low := count
		for _, n := range nodes {
			for _, eq := range a.equation[6*n : 6*n+6] {
				if eq >= 0 {
					low = min(low, eq)
				}
			}
		}
		for _, n := range nodes {
			for _, eq := range a.equation[6*n : 6*n+6] {
				if eq >= 0 {
					first[eq] = min(first[eq], low)
				}
			}
		}
	}
	for n := range a.frame.Nodes {
		join(n)
	}
	for _, m := range a.frame.Members {
		join(m.Start, m.End)
	}
	for _, p := range a.frame.Panels {
		join(p.Corners[:]...)
	}
	return first
}

// endEquations lists a member's twelve equations.
func (a *Assembled) endEquations(m Member) [12]int {
	var eq [12]int
	copy(eq[:6], a.equation[6*m.Start:])
	copy(eq[6:], a.equation[6*m.End:])
	return eq
}

// scatter adds a member's global matrix to the lower half of k.
func (a *Assembled) scatter(k *skyline, m Member, g *mat12) {
	eq := a.endEquations(m)
	for i, row := range eq {
		if row < 0 {
			continue
		}
		for j, col := range eq {
			if col >= 0 && col <= row {
				k.add(row, col, g[i][j])
			}
		}
	}
}

// scatterPanel adds shear·area·form·form'.
func (a *Assembled) scatterPanel(k *skyline, p Panel, s panelShape) {
	for i, ni := range p.Corners {
		for di := range 3 {
			row := a.equation[6*ni+di]
			if row < 0 {
				continue
			}
			for j, nj := range p.Corners {
				for dj := range 3 {
					if col := a.equation[6*nj+dj]; col >= 0 && col <= row {
						k.add(row, col, p.Shear*s.area*s.form[i][di]*s.form[j][dj])
					}
				}
			}
		}
	}
}

// factor factors k, sets spins aside, and names a mechanism if there is one.
func (a *Assembled) factor(k *skyline) {
	a.stiff = k
	motion := k.factor(func(m freeMotion) bool {
		if a.movesNodes(m) {
			return false
		}
		a.spins = append(a.spins, m)
		return true
	})
	if motion != nil {
		named := a.name(*motion)
		a.free = &named
	}
}

// stillLimit is the share of rotation times size below which a displacement
// counts as none.
const stillLimit = 1e-6 // judgement

// movesNodes tells a true mechanism from a rotation in place, such as a leg
// spinning about its own axis between hinges.
func (a *Assembled) movesNodes(m freeMotion) bool {
	move, turn := 0.0, 0.0
	for i, eq := range a.equation {
		if eq < 0 {
			continue
		}
		if v := math.Abs(m.shape[eq]); DOF(i%6) < RX {
			move = max(move, v)
		} else {
			turn = max(turn, v)
		}
	}
	size := 0.0
	for _, e := range a.elements {
		size = max(size, e.length)
	}
	return move > stillLimit*turn*size
}

// name picks the freedom that moves most: a displacement if any node moves,
// the first in order among equals.
func (a *Assembled) name(m freeMotion) Motion {
	var best Motion
	most := 0.0
	from, to := UX, UZ
	if !a.movesNodes(m) {
		from, to = RX, RZ
	}
	for n := range a.named {
		for d := from; d <= to; d++ {
			if eq := a.equation[6*n+int(d)]; eq >= 0 && math.Abs(m.shape[eq]) > most*(1+stillLimit) {
				most = math.Abs(m.shape[eq])
				best = Motion{Node: n, DOF: d}
			}
		}
	}
	return best
}
