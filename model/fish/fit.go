package fish

import "slices"

// Fit is how a first group of a kind stands to a tank with its stock.
type Fit struct {
	Animal *Animal `json:"-"`
	Code   Code    `json:"code"`
	// Count is the group that was judged: as many as its kind lives in, or what those
	// that are there lack of that, at least one.
	Count   int     `json:"count"`
	Verdict Verdict `json:"verdict"` // steady fits, wait takes care, no does not
	// Clash is the gravest that the kind has part in, nil where it has none. Clashes
	// among the others are left to Judge.
	Clash *Clash `json:"clash,omitempty"`
	// Crowd is what there is room for says by itself: wait beyond 70 % of what the
	// tank carries, no beyond all of it.
	Crowd Verdict `json:"crowd"`
	Room  Room    `json:"room"` // without its working
}

// Fits says of every kind of the catalogue, in its order, how it stands to a tank
// with a stock. That the filter matures without animals now bars none of them: they
// come after it. Errors: *working.Refusal, as Judge and CapacityOf.
func Fits(h Home, lots []Lot) ([]Fit, error) {
	kinds, ls, _, err := capacityInput(h, lots)
	if err != nil {
		return nil, err
	}
	out := make([]Fit, 0, len(load().list))
	for _, a := range load().list {
		out = append(out, fitOf(h, kinds, ls, a))
	}
	return out, nil
}

// FitOf is Fits of one kind. Errors: as Fits, and of an unknown code.
func FitOf(h Home, lots []Lot, code Code) (Fit, error) {
	a, err := Get(code)
	if err != nil {
		return Fit{}, err
	}
	kinds, ls, _, err := capacityInput(h, lots)
	if err != nil {
		return Fit{}, err
	}
	return fitOf(h, kinds, ls, a), nil
}

func fitOf(h Home, kinds []kind, ls []limit, a *Animal) Fit {
	f := Fit{Animal: a, Code: a.Code, Count: a.MinGroup}
	f.Room, _ = roomFor(h, kinds, ls, a)
	h.Fishless = false // that it has to wait for the filter is said once, of all
	j := &judge{home: h, kinds: append(make([]kind, 0, len(kinds)+1), kinds...)}
	at := slices.IndexFunc(j.kinds, func(k kind) bool { return k.Animal == a })
	if at < 0 {
		at = len(j.kinds)
		j.kinds = append(j.kinds, firstGroup(a, a.MinGroup))
	} else {
		k := &j.kinds[at]
		f.Count = max(1, a.MinGroup-k.count)
		k.count, k.large = k.count+f.Count, max(k.large, a.cm)
	}
	for i := range j.kinds {
		j.kinds[i].at = i
	}
	j.about(&j.kinds[at])
	if order := j.order(); len(order) > 0 && j.worst > Steady {
		c := j.explain(j.notes[order[0]])
		f.Clash = &c
	}
	switch {
	case f.Count > f.Room.Most:
		f.Crowd = No
	case f.Count > f.Room.Comfortable:
		f.Crowd = Wait
	}
	f.Verdict = max(j.worst, f.Crowd)
	return f
}

// about goes through the rules that one kind has part in.
func (j *judge) about(k *kind) {
	j.byItself(k)
	j.rivals(k)
	all := make([]*kind, 0, len(j.kinds))
	for i := range j.kinds {
		o := &j.kinds[i]
		all = append(all, o)
		if o != k {
			j.pair(k, o)
			j.pair(o, k)
			j.bothWays(o, k)
		}
	}
	for i := range bandRules {
		r := &bandRules[i]
		j.set(r, k)
		for _, o := range all {
			if o != k {
				j.band(r, []*kind{k, o})
			}
		}
		// What all share may be too narrow though each pair of them gets by: that is
		// its part where it is at one end.
		whole := judge{home: j.home, kinds: j.kinds}
		whole.band(r, all)
		for _, n := range whole.notes {
			if n.a == k || n.b == k {
				j.note(n)
			}
		}
	}
}

// Lot is the group that was judged, still to come.
func (f Fit) Lot() Lot {
	l := Lot{Code: f.Code, Count: f.Count, Planned: true}
	if k := firstGroup(f.Animal, f.Count); k.males > 0 {
		l.Males = &k.males
	}
	return l
}
