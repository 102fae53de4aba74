package present

import (
	"sort"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// Profile writes a starter profile in full, line by line, before anything of it
// is taken: whose it is, every answer, the notes in the person's language, and
// what was found while reading.
func (p Presenter) Profile(f slip.Profile, findings []working.Finding) []string {
	w := p.W
	out := []string{w.T("page.start.profile_tank", i18n.Args{"Name": f.Tank})}
	for _, s := range []string{f.Shop.Name, f.Shop.Address, f.Shop.Hours} {
		if s != "" {
			out = append(out, s)
		}
	}
	for _, x := range findings {
		out = append(out, p.Say(x))
	}
	for _, id := range f.Fields() {
		if field, ok := care.FieldOf(id); ok {
			out = append(out, w.T("page.start.profile_line", i18n.Args{"Field": w.T(field.Label(), nil), "Value": p.answer(field, f.Answers[id])}))
		}
	}
	return append(out, p.notes(f.Notes)...)
}

// notes are the shop's notes in the person's language, or in all there are.
func (p Presenter) notes(by map[string]string) []string {
	if n, ok := by[p.W.Language()]; ok {
		return []string{n}
	}
	var langs, out []string
	for l := range by {
		langs = append(langs, l)
	}
	sort.Strings(langs)
	for _, l := range langs {
		out = append(out, by[l])
	}
	return out
}

// answer writes what stands in a field.
func (p Presenter) answer(f *care.Field, a care.Answer) string {
	switch {
	case !a.Measure.IsZero():
		return p.W.Measure(a.Measure)
	case a.Choice != "":
		return p.option(f, a.Choice)
	}
	return a.Words
}
