package present

import (
	"testing"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/quantity"
)

func TestDaysAsTyped(t *testing.T) {
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	for _, c := range []struct{ region, text, want string }{
		{"ES", "25/11/2026", "2026-11-25"}, {"ES", "5.3.19", "2019-03-05"}, {"ES", "24 12", "2025-12-24"}, {"ES", "25-11", "2026-11-25"},
		{"US", "11/25/2026", "2026-11-25"}, {"US", "3/5", "2026-03-05"}, {"US", "25/11/2026", ""},
		{"ES", "2024-02-29", "2024-02-29"}, {"ES", "2023-02-29", ""}, {"ES", "2024-02", "2024-02-29"}, {"US", "2019", "2019-12-31"},
		{"ES", "", ""}, {"ES", "yesterday", ""}, {"ES", "12", ""}, {"ES", "1/1/1899", ""}, {"ES", "2024-13", ""}, {"ES", "1/2/3/4", ""},
	} {
		p := Presenter{W: i18n.Speak("en", c.region, quantity.Metric)}
		if got, ok := p.ParseDay(c.text, now); ok != (c.want != "") || ok && got != c.want {
			t.Errorf("%s %q: expected %q, got %q, %v", c.region, c.text, c.want, got, ok)
		}
		if got, ok := p.ParseDay(p.DayExample(), now); !ok || got != "2026-11-25" {
			t.Errorf("%s: the example reads as %q", c.region, got)
		}
	}
}

// A day is written as people write it there, and what is written can be read back.
// Source: Unicode CLDR 48, short dates of de-DE, nl-NL, nl-BE, pl-PL, tr-TR, uk-UA,
// fr-FR, it-IT, pt-BR, es-ES, en-US, en-CA, ja-JP and zh-CN, without leading zeros
// and with the whole year.
func TestDaysAsWritten(t *testing.T) {
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	day := time.Date(2026, 11, 5, 0, 0, 0, 0, time.UTC)
	for region, want := range map[string]string{"DE": "5.11.2026", "PL": "5.11.2026", "TR": "5.11.2026", "UA": "5.11.2026", "NL": "5-11-2026", "BE": "5/11/2026",
		"FR": "5/11/2026", "IT": "5/11/2026", "BR": "5/11/2026", "ES": "5/11/2026", "US": "11/5/2026", "CA": "2026-11-05", "JP": "2026/11/5", "CN": "2026/11/5", "": "5/11/2026"} {
		p := Presenter{W: i18n.Speak("en", region, quantity.Metric)}
		got := p.TypedDay(float64(day.Unix()))
		if got != want {
			t.Errorf("%s: expected %q, got %q", region, want, got)
		}
		if back, ok := p.ParseDay(got, now); !ok || back != "2026-11-05" {
			t.Errorf("%s: %q reads as %q, %v", region, got, back, ok)
		}
	}
}
