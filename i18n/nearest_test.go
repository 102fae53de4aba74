package i18n

import (
	"testing"

	"example.org/driploop/model/quantity"
)

// The nearest text: that of the language, of the language elsewhere, English, the
// first. Which language counts as near is CLDR's, by golang.org/x/text.
func TestNearest(t *testing.T) {
	for _, c := range []struct {
		speaks      string
		has         []string
		text, other string
	}{
		{"es", []string{"en", "es"}, "es", ""},
		{"es", []string{"en", "es-MX"}, "es-MX", ""},
		{"es", []string{"de", "en", "fr"}, "en", "en"},
		{"es", []string{"zh-Hant", "de"}, "de", "de"},
		{"en", []string{"en-GB"}, "en-GB", ""},
		{"en", []string{"pl"}, "pl", "pl"},
		{"en", nil, "", ""},
	} {
		texts := map[string]string{"xx": ""}
		for _, l := range c.has {
			texts[l] = l
		}
		text, other := Speak(c.speaks, "", quantity.Metric).Nearest(texts)
		if text != c.text || other != c.other {
			t.Errorf("%s of %v: %q in %q, want %q in %q", c.speaks, c.has, text, other, c.text, c.other)
		}
	}
}
