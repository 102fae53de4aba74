package firstfill

import (
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/quantity"
)

// The lead of what a step waits for is said once, whatever colon a language writes: behind a
// no-break space in French (Lexique des règles typographiques), of full width in Chinese
// (GB/T 15834).
func TestWaitsSayTheirLeadOnce(t *testing.T) {
	for lang, lines := range map[string][]string{
		"es": {"Espera a: Soporte.", "Espera a: Agua.", "Otra cosa.", "Espera a: Soporte.\nAgua.\nOtra cosa."},
		"fr": {"Attend\u00a0: Support.", "Attend\u00a0: Eau.", "Autre\u00a0: Eau.", "Attend\u00a0: Support.\nEau.\nAutre\u00a0: Eau."},
		"zh": {"等待：底座。", "等待：水。", "别的。", "等待：底座。\n水。\n别的。"},
		"en": {"No lead.", "Waits for: Water.", "Waits for: Place.", "No lead.\nWaits for: Water.\nWaits for: Place."},
	} {
		w := i18n.Speak(lang, "", quantity.Metric)
		if got, want := strings.Join(shared(w, lines[:3]), "\n"), lines[3]; got != want {
			t.Errorf("%s: got %q, want %q", lang, got, want)
		}
	}
	if got := shared(i18n.Speak("en", "", quantity.Metric), nil); len(got) != 0 {
		t.Errorf("nothing gives %q", got)
	}
}
