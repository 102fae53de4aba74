package i18n

import (
	"slices"
	"testing"

	"example.org/driploop/model/quantity"
)

// A country is found where a reader of the language looks for it. Source of names
// and orders: Unicode CLDR, territory names and collation, read from its charts.
func TestCountriesAreNamedAndSorted(t *testing.T) {
	for lang, want := range map[string][]string{
		"de": {"DE Deutschland", "AT Österreich", "PL Polen", "TR Türkei"}, // ö is sorted as o
		"es": {"DE Alemania", "AT Austria", "PL Polonia", "TR Turquía"},
		"tr": {"DE Almanya", "AT Avusturya", "PL Polonya", "TR Türkiye"},
		"en": {"AT Austria", "DE Germany", "PL Poland", "TR Türkiye"}, // the name since 2022
		"ja": {"AT オーストリア", "DE ドイツ", "TR トルコ", "PL ポーランド"},
	} {
		var got []string
		for _, c := range Speak(lang, "", quantity.Metric).Countries([]string{"TR", "PL", "DE", "AT"}) {
			got = append(got, c.Code+" "+c.Name)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", lang, got, want)
		}
	}
}
