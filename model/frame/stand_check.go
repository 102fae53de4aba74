package frame

import "math"

// Check solves the stand under its weight alone and under its weight with
// each of the four pushes, and finds the factor on the weight at which it
// buckles. A stand with a hanging foot is not pushed: it would rock onto that
// foot, which is the same stand turned round. The error is an [InputError].
func (s *Stand) Check() (*StandResult, error) {
	b, err := s.build()
	if err != nil {
		return nil, err
	}
	a, err := b.Assemble()
	if err != nil {
		return nil, err
	}
	r := &StandResult{}
	still := s.weightCase(b)
	for i, c := range s.cases(b, still) {
		result, err := a.Solve(c)
		if err != nil {
			return nil, err
		}
		if result.Mechanism {
			return b.stuck(result.Free), nil
		}
		if err := b.govern(r, result, i == 0); err != nil {
			return nil, err
		}
	}
	buckling, err := b.Buckling(still, buckleDivisions)
	if err != nil {
		return nil, err
	}
	if buckling.Mechanism {
		return b.stuck(buckling.Free), nil
	}
	r.Buckles, r.BucklingFactor = buckling.Buckles, buckling.Factor
	return r, nil
}

// stuck is the verdict on a mechanism.
func (b *standFrame) stuck(m Motion) *StandResult {
	return &StandResult{Mechanism: true, Free: m.DOF, FreeAt: Vector(b.Nodes[m.Node])}
}

// weightCase puts the weight on the top rails.
func (s *Stand) weightCase(b *standFrame) Case {
	c := Case{Gravity: s.Gravity}
	line := Vector{Z: -s.Weight / (2 * (s.Length + s.Depth))}
	loaded := b.rails[:]
	if s.LoadPath == OnLongRails {
		line = Vector{Z: -s.Weight / (2 * s.Length)}
		loaded = []int{b.rails[0], b.rails[2]}
	}
	for _, m := range loaded {
		c.Lines = append(c.Lines, LineLoad{m, line})
	}
	return c
}

// cases lists the weight alone and then the pushes, each shared by the four
// top corners.
func (s *Stand) cases(b *standFrame, still Case) []Case {
	list := []Case{still}
	if s.Hanging != NoCorner {
		return list
	}
	push := PushShare * s.Weight / 4
	for _, load := range []Vec6{{UX: push}, {UX: -push}, {UY: push}, {UY: -push}} {
		c := still
		for _, n := range b.top {
			c.Nodes = append(c.Nodes, NodeLoad{n, load})
		}
		list = append(list, c)
	}
	return list
}

// govern folds one load case into the governing values.
func (b *standFrame) govern(r *StandResult, one *Result, first bool) error {
	worst := [groupCount]*Worst{&r.Legs, &r.LongRails, &r.ShortRails, &r.LowerRails, &r.Diagonals}
	for i, g := range b.groups {
		along, err := one.Along(i)
		if err != nil {
			return err
		}
		w := worst[g]
		w.Compression = max(w.Compression, along.Compression)
		w.MomentY = max(w.MomentY, math.Abs(along.MomentY.Value))
		w.MomentZ = max(w.MomentZ, math.Abs(along.MomentZ.Value))
		w.Sag = max(w.Sag, along.Sag.Value)
	}
	for _, n := range b.top {
		u := one.Displacements[n]
		r.Drift = max(r.Drift, math.Hypot(u[UX], u[UY]))
	}
	for i := range r.Feet {
		up := one.Reactions[i][UZ]
		if first {
			r.Feet[i] = FootRange{up, up}
		}
		r.Feet[i].Min = min(r.Feet[i].Min, up)
		r.Feet[i].Max = max(r.Feet[i].Max, up)
	}
	for _, q := range one.PanelShear {
		r.PanelShear = max(r.PanelShear, math.Abs(q))
	}
	return nil
}
