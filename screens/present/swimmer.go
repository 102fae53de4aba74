package present

import (
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/quantity"
)

// Swimmer tells in a few lines what an animal of the drawing is: its name and how
// many there are, how long they are, and how many more than most are not drawn.
func (p Presenter) Swimmer(w care.Swimmer, most int) []string {
	name := w.Name
	if name == "" {
		name = p.W.T("page.stock.unnamed", nil)
		if a, err := fish.Get(w.Code); err == nil {
			name = p.KindName(a.Code)
		}
	}
	args := i18n.Args{"Name": name, "Number": p.W.Quantity(quantity.Count(w.Count).Value())}
	out := []string{p.W.T("page.swim.lot", args)}
	if w.Planned {
		out[0] = p.W.T("page.swim.planned", args)
	}
	var lines []string
	long := func(x quantity.Length) string { return p.W.For(x.Value(), i18n.Fish) }
	switch {
	case w.Adult > 0 && w.Length < w.Adult && !w.Planned:
		lines = append(lines, p.W.T("page.stock.length_today", i18n.Args{"Today": long(w.Length), "Adult": long(w.Adult)}))
	case w.Adult > 0:
		lines = append(lines, p.W.T("page.stock.length_adult", i18n.Args{"Adult": long(w.Adult)}))
	case w.Length > 0:
		lines = append(lines, p.W.T("page.swim.length", i18n.Args{"Length": long(w.Length)}))
	}
	if w.Count > most {
		lines = append(lines, p.W.N("page.swim.more", float64(w.Count-most), nil))
	}
	if len(lines) > 0 {
		out = append(out, strings.Join(lines, " · "))
	}
	return out
}
