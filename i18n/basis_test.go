package i18n

import (
	"strings"
	"testing"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// A finding says on which basis a value is where it was told so.
func TestAFindingSaysTheBasis(t *testing.T) {
	f := working.Find(working.Act, "find.water.nitrite_act").With("Nitrite", quantity.Value{Kind: quantity.KindConcentration, X: 5}).On("Nitrite", quantity.AsN)
	for lang, want := range map[string]string{"en": "Nitrite is 5 mg/L as nitrogen. It keeps", "de": "Nitrit: 5 mg/L als Stickstoff. Es hindert"} {
		got := strings.ReplaceAll(Speak(lang, "", quantity.Metric).Finding(f), "\u00a0", " ")
		if !strings.EqualFold(got[:len(want)], want) {
			t.Errorf("%s: %q", lang, got)
		}
	}
}
