package present

import (
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

// What was typed is told digit for digit, what was worked out with three figures.
func TestAnEntryTellsNoMoreFiguresThanMean(t *testing.T) {
	p := Presenter{W: i18n.Speak("en", "GB", quantity.Metric)}
	for number, want := range map[string]string{"30.2737": "30.3 L", "30.25": "30.25 L", "0.001234": "0.001234 L", "0.00123456": "1.23 mL", "12.500000": "12.500000 L", "123456": "123 456 L"} {
		e := journal.Entry{Kind: journal.Filled, At: "2026-11-25T08:10", Readings: []journal.Reading{{Name: journal.NameVolume, Measure: quantity.Measure{Number: number, Unit: "l"}}}}
		if got := strings.ReplaceAll(p.Entry(e).Text, "\u00a0", " "); got != want {
			t.Errorf("%s: %q, want %q", number, got, want)
		}
		if got := strings.ReplaceAll(p.value(e.Readings[0]), "\u00a0", " "); got != want {
			t.Errorf("%s in an archive: %q, want %q", number, got, want)
		}
	}
}

// What a kit could not tell stands behind a colon: it agrees with no name, of whatever gender and number.
func TestNotDetectedAgreesWithNoName(t *testing.T) {
	e := journal.Entry{Kind: journal.Tested, Readings: []journal.Reading{
		{Name: journal.NameNitrite, Qualifier: journal.NotDetected, Measure: quantity.Measure{Unit: "mg/l", Basis: quantity.AsIon}},
		{Name: journal.NameNitrate, Measure: quantity.Measure{Number: "10", Unit: "mg/l", Basis: quantity.AsIon}}}}
	for lang, want := range map[string]string{"fr": "nitrites : non détecté · nitrates 10 mg/L en ion", "it": "nitriti: non rilevato · nitrati 10 mg/L come ione",
		"en": "nitrite: not detected · nitrate 10 mg/L as the ion"} {
		p := Presenter{W: i18n.Speak(lang, "", quantity.Metric)}
		if got := strings.ReplaceAll(p.Entry(e).Text, "\u00a0", " "); got != want {
			t.Errorf("%s: %q, want %q", lang, got, want)
		}
	}
}
