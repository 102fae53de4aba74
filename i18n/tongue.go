package i18n

import (
	"slices"
	"strings"

	"golang.org/x/text/cases"
	"golang.org/x/text/collate"
	"golang.org/x/text/language"
	"golang.org/x/text/language/display"

	"example.org/driploop/model/working"
)

// NameOf writes the name of a language in that language itself: Deutsch. Source:
// the message language.CODE where there is one, else Unicode CLDR through
// golang.org/x/text.
func NameOf(lang string) string {
	if lang == Pseudo {
		return pseudo("Pseudo")
	}
	w := speak(lang, "", "")
	if key := working.Key("language." + lang); w.Has(key) {
		return w.T(key, nil)
	}
	tag := language.Make(lang)
	if as, ok := spokenAs[lang]; ok {
		tag = language.Make(as)
	}
	return cases.Title(tag, cases.NoLower).String(display.Self.Name(tag))
}

// spokenAs says which of its kinds a language is written in here.
var spokenAs = map[string]string{"zh": "zh-Hans"}

// NameHere writes the name of a language in the language spoken: German.
func (w *Words) NameHere(lang string) string {
	return display.Languages(w.tag).Name(language.Make(lang))
}

// Country is a country by its code of ISO 3166-1 and its name in the language spoken.
type Country struct{ Code, Name string }

// Countries names countries by their alpha-2 codes, in the order of a dictionary of
// the language spoken. Source: the message region.CODE where there is one, because the
// library's edition of Unicode CLDR is older than some names and spellings, else
// CLDR through golang.org/x/text.
func (w *Words) Countries(codes []string) []Country {
	names := display.Regions(w.tag)
	var out []Country
	for _, c := range codes {
		name := ""
		if key := working.Key("region." + strings.ToLower(c)); w.Has(key) {
			name = w.T(key, nil)
		} else if r, err := language.ParseRegion(c); err == nil && names != nil {
			name = names.Name(r)
		}
		if name == "" {
			name = c
		}
		out = append(out, Country{c, name})
	}
	order := collate.New(w.tag)
	if base, _ := w.tag.Base(); base.String() == "ja" {
		order = collate.New(language.Und) // the library's order for Japanese puts ポー before カ
	}
	slices.SortStableFunc(out, func(a, b Country) int { return order.CompareString(a.Name, b.Name) })
	return out
}
