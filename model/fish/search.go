package fish

import (
	"slices"
	"strings"
	"unicode"

	"example.org/driploop/model/quantity"
)

// folds are letters of Latin script without their marks; what is not here stays.
// The standard library knows no decomposition, and the names need no more.
var folds = strings.NewReplacer(
	"á", "a", "à", "a", "â", "a", "ä", "a", "ã", "a", "å", "a", "ā", "a", "ă", "a", "ą", "a", "æ", "ae",
	"ç", "c", "ć", "c", "č", "c", "ď", "d", "đ", "d", "é", "e", "è", "e", "ê", "e", "ë", "e", "ē", "e", "ė", "e", "ę", "e", "ě", "e",
	"ğ", "g", "í", "i", "ì", "i", "î", "i", "ï", "i", "ī", "i", "ı", "i", "ł", "l", "ľ", "l", "ñ", "n", "ń", "n", "ň", "n",
	"ó", "o", "ò", "o", "ô", "o", "ö", "o", "õ", "o", "ø", "o", "ō", "o", "ő", "o", "œ", "oe", "ř", "r", "ś", "s", "š", "s", "ş", "s", "ș", "s", "ß", "ss",
	"ť", "t", "ţ", "t", "ț", "t", "ú", "u", "ù", "u", "û", "u", "ü", "u", "ū", "u", "ů", "u", "ű", "u", "ý", "y", "ÿ", "y", "ź", "z", "ż", "z", "ž", "z")

// plainly writes a text in lower case without marks and with single spaces where
// it has anything but letters and digits.
func plainly(text string) string {
	var b strings.Builder
	gap := false
	for _, r := range folds.Replace(strings.ToLower(text)) {
		switch {
		case unicode.Is(unicode.Mn, r), r == '\'', r == '’': // a mark by itself; the apostrophe of a name
		case unicode.IsLetter(r), unicode.IsDigit(r):
			if gap && b.Len() > 0 {
				b.WriteByte(' ')
			}
			gap = false
			b.WriteRune(r)
		default:
			gap = true
		}
	}
	return b.String()
}

// Filter keeps the animals that a person looks for. What is empty or zero does
// not filter.
type Filter struct {
	Text   string          `json:"-"` // every word of it begins a word of one of the names
	Groups []Group         `json:"groups,omitempty"`
	Zones  []Zone          `json:"zones,omitempty"`
	Temper []Temper        `json:"temper,omitempty"`
	Most   quantity.Length `json:"most,omitzero"`  // adult length at most
	Tank   quantity.Volume `json:"tank,omitzero"`  // by its label: of those that this tank is large enough for
	Water  *Water          `json:"water,omitzero"` // of those that this water suits
}

// Water is the water that a tank has; what is not known is nil and does not count.
type Water struct {
	Temperature *quantity.Temperature `json:"temperature,omitempty"`
	PH          *quantity.PH          `json:"ph,omitempty"`
	GH          *quantity.Hardness    `json:"gh,omitempty"`
}

// suits reports whether water is inside the ranges of a.
func (w Water) suits(a *Animal) bool {
	return (w.Temperature == nil || *w.Temperature >= a.TempLow && *w.Temperature <= a.TempHigh) &&
		(w.PH == nil || *w.PH >= a.PHLow && *w.PH <= a.PHHigh) && (w.GH == nil || *w.GH >= a.GHLow && *w.GH <= a.GHHigh)
}

// keeps reports whether everything but the text lets a pass.
func (f Filter) keeps(a *Animal) bool {
	return (len(f.Groups) == 0 || slices.Contains(f.Groups, a.Group)) && (len(f.Zones) == 0 || slices.Contains(f.Zones, a.Zone)) &&
		(len(f.Temper) == 0 || slices.Contains(f.Temper, a.Temper)) && (f.Most == 0 || a.Length <= f.Most) &&
		(f.Tank == 0 || a.LeastTank*labelTank*(1-slack) <= f.Tank) && (f.Water == nil || f.Water.suits(a))
}

// Find lists the animals that a filter keeps, those first whose name begins with
// the text, then by scientific name. Names gives the names of a kind in the
// person's language, or is nil. Marks, case and apostrophes of the text do not
// matter; a text without a letter or digit finds all.
func Find(f Filter, names func(Code) []string) []*Animal {
	words := strings.Fields(plainly(f.Text))
	whole := strings.Join(words, " ")
	type hit struct {
		a    *Animal
		rank int
	}
	var hits []hit
	for _, a := range load().list {
		if !f.keeps(a) {
			continue
		}
		known := append([]string{a.Scientific, a.Common, string(a.Code)}, a.Also...)
		if names != nil {
			known = append(known, names(a.Code)...)
		}
		if rank, ok := rankOf(known, words, whole); ok {
			hits = append(hits, hit{a, rank})
		}
	}
	slices.SortStableFunc(hits, func(x, y hit) int {
		if x.rank != y.rank {
			return x.rank - y.rank
		}
		return strings.Compare(x.a.Scientific+string(x.a.Code), y.a.Scientific+string(y.a.Code))
	})
	out := make([]*Animal, len(hits))
	for i, h := range hits {
		out[i] = h.a
	}
	return out
}

// rankOf is 0 for a name that is the text, 1 for one that begins with it, 2 where
// words of one name begin with its words, 3 where it takes several names.
func rankOf(names, words []string, whole string) (int, bool) {
	if len(words) == 0 {
		return 0, true
	}
	best, found := 4, make([]bool, len(words))
	for _, n := range names {
		n = plainly(n)
		switch {
		case n == whole:
			return 0, true
		case strings.HasPrefix(n, whole):
			best = min(best, 1)
		}
		all := true
		for i, w := range words {
			if strings.HasPrefix(n, w) || strings.Contains(n, " "+w) {
				found[i] = true
			} else {
				all = false
			}
		}
		if all {
			best = min(best, 2)
		}
	}
	if best == 4 && !slices.Contains(found, false) {
		best = 3
	}
	return best, best < 4
}
