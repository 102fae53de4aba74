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

// A pH at the head of a sentence keeps its name, though the sentence says pH again
// later; where the sentence has said it, the number stands alone.
func TestAPHIsNamedOnce(t *testing.T) {
	ph := quantity.PH(8.2).Value()
	for key, want := range map[working.Key]string{"find.water.ph_high_watch": "pH 8.2, on the high side", "find.water.ph_high": "pH 8.2. That is", "find.water.ph_fast": "pH moved by 8.2 since"} {
		f := working.Find(working.Wait, key).With("PH", ph).With("Change", ph)
		if got := strings.ReplaceAll(Speak("en", "", quantity.Metric).Finding(f), "\u00a0", " "); !strings.HasPrefix(got, want) {
			t.Errorf("%s: %q", key, got)
		}
	}
}
