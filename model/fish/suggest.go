package fish

import (
	"cmp"
	"slices"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// candidate is a kind that fits, before it is put into a Suggestion.
type candidate struct {
	kind
	verdict Verdict
	use     float64
	alike   int
}

// firstGroup is so many of a kind, adult, as a shop would put them together: a pair
// where they live in pairs, one male where males fight or are few.
func firstGroup(a *Animal, count int) kind {
	k := kind{Animal: a, count: count, small: a.cm, large: a.cm, planned: true}
	switch {
	case isCichlid(a):
		k.males = count / 2
	case a.Rivalry == MaleRivals || a.has(bitSexRatio):
		k.males = 1
	}
	return k
}

// rank tries every kind of the catalogue beside a stock.
func rank(h Home, kinds []kind, ls []limit, like *Animal, most int) []Suggestion {
	var fits []candidate
	with := make([]kind, len(kinds)+1)
	for _, a := range load().list {
		if a.has(bitLaw) || h.below(a, labelTank) || a == like || slices.ContainsFunc(kinds, func(k kind) bool { return k.Animal == a }) {
			continue
		}
		copy(with, kinds)
		k := firstGroup(a, a.MinGroup)
		with[len(kinds)] = k
		use := quick(ls, with)
		if use > 1 {
			continue
		}
		v := verdictOf(h, with)
		if v == No {
			continue
		}
		fits = append(fits, candidate{k, v, use, likeness(a, like)})
	}
	slices.SortFunc(fits, func(x, y candidate) int {
		return cmp.Or(cmp.Compare(x.verdict, y.verdict), cmp.Compare(y.alike, x.alike), cmp.Compare(y.Hardiness, x.Hardiness),
			cmp.Compare(x.use, y.use), cmp.Compare(x.Code, y.Code))
	})
	fits = fits[:min(len(fits), most)]
	out := make([]Suggestion, len(fits))
	for i, c := range fits {
		f := c.reason(like)
		out[i] = Suggestion{Code: c.Code, Count: c.count, Verdict: c.verdict, Use: quantity.Ratio(c.use), Reason: f.Code, Finding: &f}
	}
	return out
}

// likeness counts what two kinds share: group, level, build and size. // judgement
func likeness(a, like *Animal) int {
	if like == nil {
		return 0
	}
	n := 0
	if a.Group == like.Group {
		n += 3
	}
	if a.Zone == like.Zone {
		n += 2
	}
	if a.Build == like.Build {
		n++
	}
	if a.cm < 1.5*like.cm && like.cm < 1.5*a.cm {
		n++
	}
	return n
}

// reason says why a kind is offered.
func (c candidate) reason(like *Animal) working.Finding {
	f := working.Find(c.verdict.State(), "find.fish.fits_hardy")
	switch {
	case like != nil && c.Group == like.Group:
		f.Code = "find.fish.fits_group"
	case like != nil && c.Zone == like.Zone:
		f.Code = "find.fish.fits_level"
	}
	f = f.Word("A", c.Code.Name()).With("Number", ofCount(float64(c.count))).With("Use", ofShare(c.use))
	switch {
	case f.Code == "find.fish.fits_group":
		f = f.Word("B", like.Code.Name())
	case f.Code == "find.fish.fits_level":
		f = f.Word("B", like.Code.Name()).Word("Level", levelWord(c.Zone))
	}
	return f
}
