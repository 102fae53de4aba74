package fish

import (
	"cmp"
	"slices"
	"strconv"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/model/working"
)

// Home is the tank that animals live in. What is not known is nil: a rule that
// needs it is left out and said so, never answered from a guess.
type Home struct {
	Tank    quantity.Volume  `json:"tank"`              // by its label, 5 L to 20 000 L
	Net     *quantity.Volume `json:"net,omitempty"`     // water in it; missing is netShare of Tank
	Length  *quantity.Length `json:"length,omitempty"`  // longest way to swim, 5 cm to 10 m
	Width   *quantity.Length `json:"width,omitempty"`   // front to back
	Surface *quantity.Area   `json:"surface,omitempty"` // of the water; missing is Length times Width
	Water   Water            `json:"water,omitzero"`
	Age     *quantity.Time   `json:"age,omitempty"`   // since it was filled
	Media   *quantity.Area   `json:"media,omitempty"` // surface of the filter's media
	// Fishless says that its filter is matured without fish now.
	Fishless bool `json:"fishless,omitempty"`
	// Salted says that its water is brackish.
	Salted bool `json:"salted,omitempty"`
}

// netShare is the water in a furnished tank over the volume on its label.
// Source: common practice, no source.
const netShare = 0.85

// HomeOf is the home that a measured tank makes.
func HomeOf(t tank.Tank, label quantity.Volume, f tank.Full) Home {
	inner := func(x quantity.Length) *quantity.Length { y := x - 2*t.Wall; return &y }
	h := Home{Tank: label, Net: &f.Net, Surface: &f.Surface, Length: inner(t.Length)}
	if t.Width > 0 {
		h.Width = inner(t.Width)
	}
	return h
}

// net is the water in the tank.
func (h Home) net() quantity.Volume {
	if h.Net != nil {
		return *h.Net
	}
	return h.Tank * netShare
}

// surface is the water's surface; false when no size is known.
func (h Home) surface() (quantity.Area, bool) {
	switch {
	case h.Surface != nil:
		return *h.Surface, true
	case h.Length != nil && h.Width != nil:
		return quantity.Area(float64(*h.Length) * float64(*h.Width)), true
	}
	return 0, false
}

// The limits of what is taken for a tank. // judgement
const (
	leastTank, mostTank     = 0.005, 20.0 // m³
	leastLength, mostLength = 0.05, 10.0  // m
	leastArea, mostArea     = 0.002, 50.0 // m²
	mostMedia               = 10_000.0    // m²
	mostAge                 = 100 * 365.25 * day
	day                     = 86400.0 // s
)

// Accept refuses a home that no animal's could be. Errors: *working.Refusal.
func (h Home) Accept() error {
	v, l, a := func(x float64) quantity.Value { return quantity.Volume(x).Value() }, func(x float64) quantity.Value { return quantity.Length(x).Value() },
		func(x float64) quantity.Value { return quantity.Area(x).Value() }
	if err := working.InRange("tank", "q.fish.tank", h.Tank.Value(), v(leastTank), v(mostTank)); err != nil {
		return err
	}
	if h.Net != nil {
		if err := working.InRange("net", "q.fish.net", h.Net.Value(), v(leastTank/5), (h.Tank * 1.2).Value()); err != nil { // labels round down
			return err
		}
	}
	for _, x := range []struct {
		field string
		name  working.Key
		is    *quantity.Length
	}{{"length", "q.fish.tank_length", h.Length}, {"width", "q.fish.tank_width", h.Width}} {
		if x.is != nil {
			if err := working.InRange(x.field, x.name, x.is.Value(), l(leastLength), l(mostLength)); err != nil {
				return err
			}
		}
	}
	if h.Surface != nil {
		if err := working.InRange("surface", "q.fish.surface", h.Surface.Value(), a(leastArea), a(mostArea)); err != nil {
			return err
		}
	}
	if h.Media != nil {
		if err := working.InRange("media", "q.fish.media", h.Media.Value(), a(0.01), a(mostMedia)); err != nil {
			return err
		}
	}
	if h.Age != nil {
		if err := working.InRange("age", "q.fish.age", h.Age.Value(), quantity.Time(0).Value(), quantity.Time(mostAge).Value()); err != nil {
			return err
		}
	}
	return h.Water.Accept()
}

// Accept refuses water in which nothing of the catalogue lives.
func (w Water) Accept() error {
	if w.Temperature != nil {
		if err := working.InRange("temperature", "q.fish.temperature", w.Temperature.Value(), quantity.Temperature(0).Value(), quantity.Temperature(40).Value()); err != nil {
			return err
		}
	}
	if w.PH != nil {
		if err := working.InRange("ph", "q.fish.ph", w.PH.Value(), quantity.PH(3).Value(), quantity.PH(11).Value()); err != nil {
			return err
		}
	}
	if w.GH != nil {
		return working.InRange("gh", "q.fish.gh", w.GH.Value(), quantity.Hardness(0).Value(), quantity.Hardness(60*degree).Value())
	}
	return nil
}

// Lot is a number of animals of one kind.
type Lot struct {
	Code    Code             `json:"code"`
	Count   int              `json:"count"`             // 1 to MaxCount
	Males   *int             `json:"males,omitempty"`   // of them; missing is not known
	Length  *quantity.Length `json:"length,omitempty"`  // today's, total; missing: not known, taken as adult
	Planned bool             `json:"planned,omitempty"` // not in the tank yet
}

// MaxCount is the most animals of one kind. MaxLots is the most lots.
const (
	MaxCount = 10000
	MaxLots  = 200
)

// acceptLots refuses stock with an unknown kind, a count or sexes that cannot be,
// or a length that no animal of the kind has.
func acceptLots(field string, lots []Lot) error {
	if n := quantity.Count(len(lots)); n > MaxLots {
		return working.Outside(field, "q.fish.lots", n.Value(), quantity.Count(0).Value(), quantity.Count(MaxLots).Value())
	}
	for i, l := range lots {
		at := field + "[" + strconv.Itoa(i) + "]."
		a, err := Get(l.Code)
		if err != nil {
			return working.Refuse(at+"code", "refuse.fish.unknown")
		}
		if l.Count < 1 || l.Count > MaxCount {
			return working.Outside(at+"count", "q.fish.count", quantity.Count(l.Count).Value(), quantity.Count(1).Value(), quantity.Count(MaxCount).Value())
		}
		if l.Males != nil && (*l.Males < 0 || *l.Males > l.Count) {
			return working.Outside(at+"males", "q.fish.males", quantity.Count(*l.Males).Value(), quantity.Count(0).Value(), quantity.Count(l.Count).Value())
		}
		if l.Length != nil {
			if err := working.InRange(at+"length", "q.fish.length", l.Length.Value(), quantity.Length(leastToday).Value(), (a.Length * mostOfAdult).Value()); err != nil {
				return err
			}
		}
	}
	return nil
}

// Lengths that are taken for today's: from fry to a giant of its kind. // judgement
const (
	leastToday  = 0.003 // m
	mostOfAdult = 1.5
)

// kind is all of one kind, from all its lots.
type kind struct {
	*Animal
	count        int
	males        int     // -1 when it is not known of all
	small, large float64 // today's lengths, cm; adult where not known
	today        bool    // some length is known
	planned      bool    // some are planned
	at           int     // place among the kinds
	hard         int     // clashes with others that are a no, counted on the way
}

// kindsOf gathers lots by kind, in the order of their codes, so that the order in
// which they were given does not matter.
func kindsOf(lots []Lot) []kind {
	var out []kind
	for _, l := range lots {
		a := load().by[l.Code]
		i := slices.IndexFunc(out, func(k kind) bool { return k.Animal == a })
		if i < 0 {
			out = append(out, kind{Animal: a, small: 1e9})
			i = len(out) - 1
		}
		k := &out[i]
		k.count += l.Count
		switch {
		case l.Males == nil:
			k.males = -1
		case k.males >= 0:
			k.males += *l.Males
		}
		cm := a.cm
		if l.Length != nil {
			cm, k.today = float64(*l.Length)*100, true
		}
		k.small, k.large, k.planned = min(k.small, cm), max(k.large, cm), k.planned || l.Planned
	}
	slices.SortFunc(out, func(x, y kind) int { return cmp.Compare(x.Code, y.Code) })
	return out
}
