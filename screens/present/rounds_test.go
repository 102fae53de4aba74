package present_test

import (
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/screens/present"
)

// A repetition reads as a person would say it, in either language and clock.
func TestRepeats(t *testing.T) {
	en := present.Presenter{W: i18n.Speak("en", "US", quantity.US)}
	es := present.Presenter{W: i18n.Speak("es", "ES", quantity.Metric)}
	for _, c := range []struct{ rule, start, en, es string }{
		{"FREQ=DAILY", "2026-11-25T08:00", "Every day at 8:00 am.", "Todos los días a las 08:00."},
		{"FREQ=DAILY;INTERVAL=3", "2026-11-25T18:30", "Every 3 days at 6:30 pm.", "Cada 3 días a las 18:30."},
		{"FREQ=WEEKLY;INTERVAL=2;BYDAY=SU,SA", "2026-11-28T10:00", "Every 2 weeks on Sunday and Saturday at 10:00 am.", "Cada 2 semanas, el sábado y el domingo, a las 10:00."},
		{"FREQ=WEEKLY", "2026-11-25T10:00", "Every week on Wednesday at 10:00 am.", "Cada semana, el miércoles, a las 10:00."},
		{"FREQ=MONTHLY;BYMONTHDAY=31", "2026-12-31T10:00", "Every month on day 31 at 10:00 am.", "Cada mes, el día 31, a las 10:00."},
		{"FREQ=MONTHLY;BYMONTHDAY=-1", "2026-11-30T10:00", "Every month on the last day at 10:00 am.", "Cada mes, el último día, a las 10:00."},
		{"FREQ=YEARLY;INTERVAL=2", "2026-11-25T10:00", "Every 2 years on 25 November at 10:00 am.", "Cada 2 años, el 25 de noviembre, a las 10:00."},
		{"FREQ=DAILY;COUNT=1", "2026-11-25T10:00", "Once, on 25 Nov 2026 at 10:00 am.", "Una vez, el 25 nov 2026 a las 10:00."},
		{"FREQ=MONTHLY;BYDAY=1FR", "2026-12-04T10:00", "By rule FREQ=MONTHLY;BYDAY=1FR at 10:00 am.", "Según la regla FREQ=MONTHLY;BYDAY=1FR, a las 10:00."},
	} {
		r := rounds.MustRule(c.rule)
		if got := strings.ReplaceAll(en.Repeats(r, journal.Civil(c.start)), "\u00a0", " "); got != c.en {
			t.Errorf("%s: %q, want %q", c.rule, got, c.en)
		}
		if got := es.Repeats(r, journal.Civil(c.start)); got != c.es {
			t.Errorf("%s: %q, want %q", c.rule, got, c.es)
		}
	}
}

// Every day is a word of its own where the plural of 1 holds 21 too, or where there is none.
// Source: Unicode CLDR plural rules of Ukrainian and Japanese.
func TestRepeatsInEveryUnit(t *testing.T) {
	for _, c := range []struct{ lang, rule, want string }{
		{"uk", "FREQ=DAILY", "Щодня о 08:00."},
		{"uk", "FREQ=DAILY;INTERVAL=21", "Раз на 21 день о 08:00."},
		{"uk", "FREQ=WEEKLY", "Щотижня у середу о 08:00."},
		{"ja", "FREQ=DAILY", "毎日、08:00。"},
		{"ja", "FREQ=DAILY;INTERVAL=2", "2日ごと、08:00。"},
	} {
		p := present.Presenter{W: i18n.Speak(c.lang, "", quantity.Metric)}
		if got := p.Repeats(rounds.MustRule(c.rule), "2026-11-25T08:00"); got != c.want {
			t.Errorf("%s %s: %q, want %q", c.lang, c.rule, got, c.want)
		}
	}
}
