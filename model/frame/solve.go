package frame

import "math"

// Result is the answer of one load case. With Mechanism set, Free names the
// motion and all else is empty.
type Result struct {
	Mechanism bool
	Free      Motion // a freedom that nothing resists; only with Mechanism

	Displacements []Vec6      // by node, global axes: m and rad
	Reactions     []Vec6      // by node, global axes: force of the support on the frame, N and N m; zero where nothing holds
	Ends          []EndForces // by member
	PanelShear    []float64   // by panel: shear force for each metre of edge, N/m

	spans []span // by member, for Along
}

// EndForces are the forces of the nodes on a member's ends in its local axes:
// N and N m. Axial force at the start is positive in compression.
type EndForces struct{ Start, End Vec6 }

// Solve answers one load case. The error is an [InputError], for loads that
// do not fit the frame or answers outside the range of numbers.
func (a *Assembled) Solve(c Case) (*Result, error) {
	if err := a.frame.checkCase(c); err != nil {
		return nil, err
	}
	if a.free != nil {
		return &Result{Mechanism: true, Free: *a.free}, nil
	}
	r := &Result{spans: a.loadedSpans(c)}
	load := make([]float64, a.stiff.size())
	for _, l := range c.Nodes {
		for d, v := range l.Load {
			if eq := a.equation[6*l.Node+d]; eq >= 0 {
				load[eq] += v
			}
		}
	}
	ends := a.lineEnds(r.spans)
	for i, m := range a.frame.Members {
		g := a.elements[i].axes.globalEnds(&ends[i].reduced)
		for j, eq := range a.endEquations(m) {
			if eq >= 0 {
				load[eq] += g[j]
			}
		}
	}
	if spin := a.drivenSpin(load); spin != nil {
		return &Result{Mechanism: true, Free: a.name(*spin)}, nil
	}
	a.stiff.solve(load)
	a.recover(r, load, ends)
	a.react(r, c)
	if !r.finite() {
		return nil, &InputError{ItemFrame, 0, "result", OutOfRange}
	}
	return r, nil
}

// lineEnd is a member's line load as end loads in local axes.
type lineEnd struct {
	reduced [12]float64
	turned  []float64 // what each hinge's rotation carried before elimination
}

// loadedSpans sums line loads and own weight into each member's local axes.
func (a *Assembled) loadedSpans(c Case) []span {
	spans := make([]span, len(a.elements))
	add := func(member int, v Vector) {
		q := a.elements[member].axes.toLocal(v)
		for i := range q {
			spans[member].q[i] += q[i]
		}
	}
	for _, l := range c.Lines {
		add(l.Member, l.Load)
	}
	for i, m := range a.frame.Members {
		spans[i].length = a.elements[i].length
		spans[i].ea = m.Material.E * m.Section.A
		spans[i].eiy = m.Material.E * m.Section.Iy
		spans[i].eiz = m.Material.E * m.Section.Iz
		if w := m.Material.Density * m.Section.A * c.Gravity; w > 0 {
			down := Vector{Z: -w}
			if a.frame.Plane {
				down = Vector{Y: -w}
			}
			add(i, down)
		}
	}
	return spans
}

func (a *Assembled) lineEnds(spans []span) []lineEnd {
	ends := make([]lineEnd, len(spans))
	for i := range spans {
		if spans[i].q == [3]float64{} {
			continue
		}
		l := &ends[i]
		l.reduced = lineForces(spans[i].q, spans[i].length)
		for j := range a.elements[i].hinges {
			h := &a.elements[i].hinges[j]
			l.turned = append(l.turned, l.reduced[h.dof])
			h.reduceLoad(&l.reduced)
		}
	}
	return ends
}

// drivenSpin finds a rotation that nothing resists but a load turns.
func (a *Assembled) drivenSpin(load []float64) *freeMotion {
	if len(a.spins) == 0 {
		return nil
	}
	largest := 0.0
	for _, v := range load {
		largest = max(largest, math.Abs(v))
	}
	for i := range a.spins {
		work, turn := 0.0, 0.0
		for eq, v := range a.spins[i].shape {
			work += v * load[eq]
			turn = max(turn, math.Abs(v))
		}
		if math.Abs(work) > 1e-9*largest*turn { // beyond rounding
			return &a.spins[i]
		}
	}
	return nil
}

// recover reads displacements, end forces and panel shear off the solution.
func (a *Assembled) recover(r *Result, u []float64, ends []lineEnd) {
	r.Displacements = make([]Vec6, len(a.frame.Nodes))
	for i, eq := range a.equation {
		if eq >= 0 {
			r.Displacements[i/6][i%6] = u[eq]
		}
	}
	r.Ends = make([]EndForces, len(a.elements))
	for i, m := range a.frame.Members {
		e, s := &a.elements[i], &r.spans[i]
		var g [12]float64
		copy(g[:6], r.Displacements[m.Start][:])
		copy(g[6:], r.Displacements[m.End][:])
		s.axes = e.axes
		s.u = e.axes.localEnds(&g)
		for d := range 12 {
			s.f[d] = dot(&e.k[d], &s.u) - ends[i].reduced[d]
		}
		copy(r.Ends[i].Start[:], s.f[:6])
		copy(r.Ends[i].End[:], s.f[6:])
		for j := len(e.hinges) - 1; j >= 0; j-- { // last eliminated, first known
			h := &e.hinges[j]
			s.u[h.dof] = dot(&h.row, &s.u)
			if ends[i].turned != nil {
				s.u[h.dof] += ends[i].turned[j] / h.pivot
			}
		}
	}
	for i, p := range a.frame.Panels {
		strain := 0.0
		for c, n := range p.Corners {
			for d := range 3 {
				strain += a.panels[i].form[c][d] * r.Displacements[n][d]
			}
		}
		r.PanelShear = append(r.PanelShear, p.Shear*strain)
	}
}

// react finds the supports' forces from the balance of each held node.
func (a *Assembled) react(r *Result, c Case) {
	balance := make([]Vec6, len(a.frame.Nodes))
	for i, m := range a.frame.Members {
		g := a.elements[i].axes.globalEnds(&r.spans[i].f)
		for d := range 6 {
			balance[m.Start][d] += g[d]
			balance[m.End][d] += g[6+d]
		}
	}
	for i, p := range a.frame.Panels {
		for k, n := range p.Corners {
			for d := range 3 {
				balance[n][d] += r.PanelShear[i] * a.panels[i].area * a.panels[i].form[k][d]
			}
		}
	}
	for _, l := range c.Nodes {
		for d, v := range l.Load {
			balance[l.Node][d] -= v
		}
	}
	r.Reactions = make([]Vec6, len(a.frame.Nodes))
	for _, s := range a.frame.Supports {
		for d := range 6 {
			if s.Fixed[d] || s.Spring[d] > 0 {
				r.Reactions[s.Node][d] = balance[s.Node][d]
			}
		}
	}
}

// finite is the last guard: no accepted input is known to fail it.
func (r *Result) finite() bool {
	for _, list := range [][]Vec6{r.Displacements, r.Reactions} {
		for i := range list {
			if !allFinite(list[i][:]) {
				return false
			}
		}
	}
	for i := range r.spans {
		if !allFinite(r.spans[i].f[:]) || !allFinite(r.spans[i].u[:]) {
			return false
		}
	}
	return allFinite(r.PanelShear)
}

func allFinite(values []float64) bool {
	for _, v := range values {
		if !isFinite(v) {
			return false
		}
	}
	return true
}
