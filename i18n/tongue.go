package i18n

import (
	"golang.org/x/text/cases"
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
