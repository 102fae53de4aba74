package i18n

import (
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/quantity"
)

// A Wednesday; 08:10 is 11 hours back.
var wednesday = time.Date(2026, 11, 25, 19, 30, 0, 0, time.FixedZone("", 3600))

func TestDatesAsPeopleWriteThem(t *testing.T) {
	for lang, cases := range map[string]map[string]string{
		"en": {"2026-11-20": "2026-11-20 19:30", "2026-11-20 08:10": "2026-11-20 08:10", "2026-11-20T08:10": "2026-11-20 08:10", "2026/1/5": "2026-01-05 19:30",
			"yesterday": "2026-11-24 19:30", "Yesterday 8:10": "2026-11-24 08:10", "08:10 yesterday": "2026-11-24 08:10", "today": "2026-11-25 19:30",
			"the day before yesterday": "2026-11-23 19:30", "8:10 pm": "2026-11-25 20:10", "8:10PM": "2026-11-25 20:10", "12:05 am": "2026-11-25 00:05",
			"Monday": "2026-11-23 19:30", "wednesday": "2026-11-25 19:30", "thursday 7:00": "2026-11-19 07:00",
			"20 November": "2026-11-20 19:30", "Nov 20 2025": "2025-11-20 19:30", "28 December": "2025-12-28 19:30", "  08:10 ": "2026-11-25 08:10"},
		"es": {"2026-11-20": "2026-11-20 19:30", "ayer": "2026-11-24 19:30", "Ayer 8:10": "2026-11-24 08:10", "anteayer": "2026-11-23 19:30", "hoy": "2026-11-25 19:30",
			"lunes": "2026-11-23 19:30", "miércoles": "2026-11-25 19:30", "miercoles": "2026-11-25 19:30", "sábado 7:00": "2026-11-21 07:00",
			"20 de noviembre": "2026-11-20 19:30", "3 de enero de 2026": "2026-01-03 19:30"},
	} {
		w := Speak(lang, "ES", quantity.Metric)
		for text, want := range cases {
			got, ok := w.ReadWhen(text, wednesday)
			if !ok || got.Format("2006-01-02 15:04") != want {
				t.Errorf("%s %q is %s (%v), want %s", lang, text, got.Format("2006-01-02 15:04"), ok, want)
			}
		}
		for _, text := range []string{"", " ", "2026-02-30", "2026-13-01", "20/11/2026", "5/6", "25:00", "8:1", "tomorrowish", "2026-11-20 2026-11-21", "8:10 9:10",
			"13:00 pm", "31 february", "31 de febrero", "1234567890", "9999-01-01", "1026-01-01", "\u202e2026-11-20", strings.Repeat("1", 1<<16), "yesterday yesterday"} {
			if got, ok := w.ReadWhen(text, wednesday); ok {
				t.Errorf("%s %.20q was read as %v", lang, text, got)
			}
		}
	}
}

// complete lists the languages whose messages are all there, shipped or not yet.
func complete() []string {
	var out []string
	for _, lang := range sortedKeys(written()) {
		if len(in(lang).missing()) == 0 {
			out = append(out, lang)
		}
	}
	return out
}

// A date is read again in every form in which a language shows it.
func TestDatesShownAreReadAgain(t *testing.T) {
	for _, lang := range complete() {
		for _, region := range []string{"US", "DE"} { // twelve hours, and twenty-four
			w := speak(lang, region, quantity.Metric)
			for month := time.January; month <= time.December; month++ {
				day := []int{1, 28}[month%2] // some languages write the first apart
				want := time.Date(2025, month, day, 21, 5, 0, 0, wednesday.Location())
				for form, text := range map[string]string{"long": w.Date(want), "short": w.ShortDate(want), "heading": w.DayHeading(want)} {
					text += " " + w.Time(want)
					got, ok := w.ReadWhen(text, wednesday)
					if form == "heading" && ok && month < wednesday.Month() { // without a year: the last such day
						got = got.AddDate(-1, 0, 0)
					}
					if !ok && form == "heading" && strings.Contains(text, w.Weekday(want.Weekday())) {
						continue // a weekday beside a date says the day twice
					}
					if !ok || !got.Equal(want) {
						t.Errorf("%s %s: %q is read as %v (%v), want %v", lang, form, text, got, ok, want)
					}
				}
			}
		}
	}
}

// The first of a month has a form of its own. Source: Lexique des règles typographiques
// en usage à l'Imprimerie nationale for French, from memory; common practice, no source,
// for Italian and Portuguese.
func TestFirstOfAMonth(t *testing.T) {
	first := time.Date(2025, time.May, 1, 8, 0, 0, 0, time.UTC)
	for lang, want := range map[string]string{"fr": "1er mai 2025", "pt": "1º de maio de 2025", "it": "1º maggio 2025", "en": "1 May 2025", "es": "1 de mayo de 2025"} {
		w := speak(lang, "", quantity.Metric)
		if got := w.Date(first); got != want {
			t.Errorf("%s: %q, want %q", lang, got, want)
		}
	}
}

// What is written in the box is read again as the same minute.
func FuzzWhen(f *testing.F) {
	f.Add("2026-11-20 08:10")
	f.Add("yesterday 8 pm")
	f.Add("20 de noviembre de 2026")
	w := Speak("en", "US", quantity.US)
	f.Fuzz(func(t *testing.T, text string) {
		got, ok := w.ReadWhen(text, wednesday)
		if !ok {
			return
		}
		again, ok := w.ReadWhen(got.Format("2006-01-02 15:04"), wednesday)
		if !ok || !again.Equal(got) {
			t.Errorf("%q is %v, read again %v (%v)", text, got, again, ok)
		}
	})
}
