package i18n

import (
	"math"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func TestLanguages(t *testing.T) {
	if !slices.Contains(Languages(), "en") {
		t.Fatalf("Languages() = %v, want English in it", Languages())
	}
	for _, l := range Languages() {
		if n := len(in(l).missing()); n != 0 {
			t.Errorf("%s is offered and lacks %d messages", l, n)
		}
	}
	if w := Speak("tlh", "US", quantity.US); w.Language() != "en" {
		t.Errorf("a language that is not offered: got %q, want English", w.Language())
	}
	if w := Speak("en", "not a region", "furlongs"); w.Region() != "" || w.System() != quantity.Metric {
		t.Errorf("unknown region and system: got %q, %q", w.Region(), w.System())
	}
}

func TestMissingMessageShowsItself(t *testing.T) {
	w := Speak("en", "US", quantity.US)
	if got := w.T("q.there_is_none", nil); got != "«q.there_is_none»" {
		t.Errorf("a missing message: got %q", got)
	}
	if !slices.Contains(Missing(), "en q.there_is_none") {
		t.Error("the missing message was not recorded")
	}
	if got := w.T("refuse.below", Args{"Low": "1 L"}); got != "At least 1 L. You typed «Value»." {
		t.Errorf("an unfilled placeholder: got %q", got)
	}
	if !slices.Contains(Missing(), "en refuse.below") {
		t.Error("the unfilled placeholder was not recorded")
	}
	if got := speak("es", "", quantity.Metric).T("q.there_is_none", nil); got != "«q.there_is_none»" {
		t.Errorf("a missing message in Spanish: got %q", got)
	}
}

// Text that a person typed is never taken for a template.
func TestArgumentsAreNotTemplates(t *testing.T) {
	w := Speak("en", "US", quantity.US)
	got := w.T("working.typed", Args{"Typed": "{{.Secret}} <b>"})
	if got != "You gave {{.Secret}} <b>." {
		t.Errorf("got %q", got)
	}
}

// A sentence that ends with an abbreviation has one full stop; dots that a person
// typed stay.
func TestOneFullStop(t *testing.T) {
	w := Speak("en", "US", quantity.US)
	for typed, want := range map[string]string{"1:55 p. m.": "You gave 1:55 p. m.", "5 gal": "You gave 5 gal.", "...": "You gave ....", "": "You gave ."} {
		if got := w.T("working.typed", Args{"Typed": typed}); got != want {
			t.Errorf("%q: got %q, want %q", typed, got, want)
		}
	}
}

func TestNumbers(t *testing.T) {
	en, es, mx := Speak("en", "US", quantity.US), speak("es", "ES", quantity.Metric), speak("es", "MX", quantity.Metric)
	for _, c := range []struct {
		w    *Words
		x    float64
		sig  int
		want string
	}{
		{en, 24.54, 3, "24.5"}, {es, 24.54, 3, "24,5"}, {mx, 24.54, 3, "24.5"},
		{en, 25, 3, "25"}, {en, 25.04, 3, "25"}, {en, 1234, 3, "1230"}, {en, 12345, 3, "12\u00a0300"},
		{es, 1234567, 7, "1\u00a0234\u00a0567"}, {en, 0.00394, 3, "0.00394"}, {en, 0, 3, "0"}, {en, -2.5, 3, "−2.5"},
		{en, 999.6, 3, "1000"}, {en, 0.0000123, 3, "1.23×10⁻⁵"}, {es, 1.5e15, 3, "1,5×10¹⁵"}, {en, math.Copysign(0, -1), 3, "0"},
		{en, nan(), 3, "–"}, {en, -inf(), 3, "–"}, {en, 5, 0, "5"}, {en, 1.0 / 3, 99, "0.333333333333333"},
	} {
		if got := c.w.Number(c.x, c.sig); got != c.want {
			t.Errorf("%s-%s Number(%g, %d): want %q, got %q", c.w.lang, c.w.region, c.x, c.sig, c.want, got)
		}
	}
}

// Source: CLDR decimal symbols.
func TestDecimalMarks(t *testing.T) {
	for lang, want := range map[string]rune{"en": '.', "en-US": '.', "en-GB": '.', "es": ',', "es-ES": ',', "es-MX": '.', "es-US": '.', "es-AR": ','} {
		l, r, _ := strings.Cut(lang, "-")
		if got := speak(l, r, quantity.Metric).Decimal(); got != want {
			t.Errorf("%s: want %q, got %q", lang, want, got)
		}
	}
}

// Source: CLDR currency patterns and symbols; ISO 4217 minor units.
func TestMoney(t *testing.T) {
	for _, c := range []struct {
		lang, region, code string
		x                  float64
		want               string
	}{
		{"en", "US", "USD", 12.5, "$12.50"}, {"en", "GB", "GBP", 12.5, "£12.50"}, {"en", "US", "JPY", 1200, "¥1200"},
		{"es", "ES", "EUR", 12.5, "12,50\u00a0€"}, {"es", "MX", "MXN", 12345.5, "$12\u00a0345.50"},
		{"de", "DE", "EUR", 12.5, "12,50\u00a0€"}, {"pl", "PL", "PLN", 10, "10,00\u00a0zł"}, {"ja", "JP", "JPY", 1200, "￥1200"}, {"zh", "CN", "CNY", 12.5, "￥12.50"},
		{"en", "US", "USD", -3, "−$3.00"}, {"en", "US", "XXQ", 3, "XXQ\u00a03.00"}, {"en", "US", "USD", nan(), "–"},
	} {
		if got := speak(c.lang, c.region, quantity.Metric).Money(c.x, c.code); got != c.want {
			t.Errorf("%s-%s Money(%g %s): want %q, got %q", c.lang, c.region, c.x, c.code, c.want, got)
		}
	}
}

// Source: CLDR plural rules; the form follows the digits shown.
func TestPlurals(t *testing.T) {
	en, es := Speak("en", "US", quantity.US), speak("es", "ES", quantity.Metric)
	for _, c := range []struct {
		w    *Words
		x    float64
		want string
	}{
		{en, 0, "0 days"}, {en, 1, "1 day"}, {en, 1.5, "1.5 days"}, {en, 2, "2 days"}, {en, 21, "21 days"}, {en, 1e6, "1\u00a0000\u00a0000 days"},
		{en, 1.001, "1 day"}, {en, 1234, "1234 days"}, {en, nan(), "– days"},
		{es, 0, "0 días"}, {es, 1, "1 día"}, {es, 1.5, "1,5 días"}, {es, 21, "21 días"},
	} {
		if got := c.w.N("n.days", c.x, nil); got != c.want {
			t.Errorf("%s N(%g): want %q, got %q", c.w.lang, c.x, c.want, got)
		}
	}
}

func TestListsAndPercent(t *testing.T) {
	en, es := Speak("en", "US", quantity.US), speak("es", "ES", quantity.Metric)
	for _, c := range []struct{ got, want string }{
		{en.List(nil), ""}, {en.List([]string{"a"}), "a"}, {en.List([]string{"a", "b"}), "a and b"}, {en.List([]string{"a", "b", "c"}), "a, b and c"},
		{es.List([]string{"a", "b"}), "a y b"}, {en.Either([]string{"a", "b"}), "a or b"},
		{en.Percent(0.253), "25.3%"}, {es.Percent(0.253), "25,3\u00a0%"},
	} {
		if c.got != c.want {
			t.Errorf("want %q, got %q", c.want, c.got)
		}
	}
}

func TestDates(t *testing.T) {
	d := time.Date(2026, time.November, 25, 17, 5, 0, 0, time.FixedZone("", 5*3600))
	us, gb, es := Speak("en", "US", quantity.US), Speak("en", "GB", quantity.Metric), speak("es", "ES", quantity.Metric)
	for _, c := range []struct{ got, want string }{
		{us.DayHeading(d), "Wednesday 25 November"}, {es.DayHeading(d), "miércoles 25 de noviembre"},
		{us.Date(d), "25 November 2026"}, {es.Date(d), "25 de noviembre de 2026"},
		{us.ShortDate(d), "25 Nov 2026"}, {es.ShortDate(d), "25 nov 2026"}, {es.MonthHeading(d), "noviembre de 2026"},
		{us.Time(d), "5:05\u00a0pm"}, {gb.Time(d), "17:05"}, {es.Time(d), "17:05"}, {us.Time(d.Add(7 * time.Hour)), "12:05\u00a0am"},
		{us.Time(d.Add(-5 * time.Hour)), "12:05\u00a0pm"},
		{gb.DateTime(d), "25 November 2026, 17:05"},
		{es.Weekday(time.Sunday), "domingo"}, {us.ShortWeekday(time.Saturday), "Sat"}, {es.Month(time.January), "enero"}, {es.Month(time.December), "diciembre"},
	} {
		if c.got != c.want {
			t.Errorf("want %q, got %q", c.want, c.got)
		}
	}
	if us.FirstWeekday() != time.Sunday || es.FirstWeekday() != time.Monday {
		t.Errorf("weeks start on %v in the US and on %v in Spain", us.FirstWeekday(), es.FirstWeekday())
	}
}

func TestWordsAreSafeForGoroutines(t *testing.T) {
	w := Speak("en", "US", quantity.US)
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for range 50 {
				if got := w.N("n.fish", 2, nil); got != "2 fish" {
					t.Errorf("got %q", got)
				}
			}
		})
	}
	wg.Wait()
}

// Source: POSIX locale names, BCP 47; US units only in the United States.
func TestFromLocale(t *testing.T) {
	const es = "es"
	for name, want := range map[string][3]string{
		"en_US.UTF-8": {"en-US", "US", "us"}, "en_GB.UTF-8": {"en", "GB", "metric"}, "es_MX.UTF-8": {es, "MX", "metric"}, "es-US": {es, "US", "us"},
		"de_DE@euro": {"de", "DE", "metric"}, "zh_CN.UTF-8": {"zh", "CN", "metric"}, "pt_BR": {"pt", "BR", "metric"}, "sv_SE": {"en", "SE", "metric"}, "C": {"en", "", "metric"}, "C.UTF-8": {"en", "", "metric"}, "POSIX": {"en", "", "metric"}, "": {"en", "", "metric"},
		"en.UTF-8": {"en", "", "metric"}, "en-US": {"en-US", "US", "us"}, "../../etc": {"en", "", "metric"}, "es_419": {es, "", "metric"},
	} {
		for whole, written := range map[string]string{"es_MX.UTF-8": "es-MX", "es-US": "es-US", "es_419": "es-419", "sv_SE": "sv"} {
			if name == whole && Offered(written) { // added since
				want[0] = written
			}
		}
		l, r, u := FromLocale(name)
		if got := [3]string{l, r, string(u)}; got != want {
			t.Errorf("%q: want %v, got %v", name, want, got)
		}
	}
}

func TestSystemReadsTheEnvironmentInOrder(t *testing.T) {
	t.Setenv("LC_ALL", "")
	t.Setenv("LC_MESSAGES", "en_GB.UTF-8")
	t.Setenv("LANG", "en_US.UTF-8")
	if _, r, u := System(); r != "GB" || u != quantity.Metric {
		t.Errorf("LC_MESSAGES before LANG: got %s, %s", r, u)
	}
	t.Setenv("LC_ALL", "en_US.UTF-8")
	if _, r, u := System(); r != "US" || u != quantity.US {
		t.Errorf("LC_ALL before all: got %s, %s", r, u)
	}
}

func BenchmarkT(b *testing.B) {
	w := Speak("en", "US", quantity.US)
	v := quantity.Litres(57).Value()
	for b.Loop() {
		w.T("refuse.below", Args{"Low": v, "Value": v})
	}
}

func BenchmarkSpeak(b *testing.B) {
	for b.Loop() {
		Speak("en", "US", quantity.US)
	}
}

// A message that says pH is not told it again by the value.
func TestPHIsSaidOnce(t *testing.T) {
	w := Speak("en", "GB", quantity.Metric)
	v := func(x float64) quantity.Value { return quantity.Value{Kind: quantity.KindPH, X: x} }
	for _, c := range []struct {
		key  working.Key
		args Args
		want string
	}{
		{"find.fish.ph_set", Args{"Now": v(7.5), "A": "Neon tetra", "Low": v(5), "High": v(7)}, "The water is at pH 7.5. Neon tetra wants 5 to 7."},
		{"find.fish.ph_set", Args{"Now": quantity.Measure{Number: "7.50", Unit: "ph"}, "A": "Neon tetra", "Low": v(5), "High": v(7)}, "The water is at pH 7.50. Neon tetra wants 5 to 7."},
		{"page.start.profile_line", Args{"Field": "Tap", "Value": v(7.2)}, "Tap: pH 7.2"},
	} {
		if got := strings.ReplaceAll(w.T(c.key, c.args), noBreak, " "); got != c.want {
			t.Errorf("%s: %q, want %q", c.key, got, c.want)
		}
	}
}

// What follows a colon goes on in small letters in Romance and Slavic languages: DRAE's
// Ortografía 2010, 5.4.1; for Polish and Ukrainian from memory. Letters that stand for a thing and names keep their capitals, and so do
// English and German.
func TestALabelBehindAColonStartsSmall(t *testing.T) {
	for _, c := range []struct{ lang, key, name, label, want string }{
		{"es", "find.fish.capacity_steady", "Rule", "q.fish.check_pump_off", "esto: oxígeno"},
		{"fr", "find.care.stand_steady", "Check", "q.load.sag_now", " : flèche"},
		{"it", "find.care.stand_steady", "Check", "q.load.check_tip_force", ": ribaltamento"},
		{"pt", "find.sick.governs", "Sign", "sign.popeye", ": um ou os dois"},
		{"pl", "find.fish.capacity_steady", "Rule", "q.fish.check_pump_off", ": tlen"},
		{"pl", "find.care.stand_steady", "Check", "q.load.sag_now", ": ugięcie"},
		{"uk", "find.fish.capacity_steady", "Rule", "q.fish.check_pump_off", ": кисень"},
		{"uk", "find.sick.governs", "Sign", "sign.popeye", ": витріщені"},
		{"fr", "find.care.stand_steady", "Check", "q.care.ph", " : pH"},
		{"es", "find.care.waits_for", "Step", "step.rinse", ": Enjuague"},
		{"de", "find.fish.capacity_steady", "Rule", "q.fish.check_pump_off", "Sauerstoff"},
	} {
		w := Speak(c.lang, "", quantity.Metric)
		got := w.T(working.Key(c.key), Args{"Use": "9", "Level": "x", c.name: working.Key(c.label)})
		if !strings.Contains(strings.ReplaceAll(got, noBreak, " "), c.want) {
			t.Errorf("%s: %q has no %q", c.lang, got, c.want)
		}
	}
	w := Speak("es", "", quantity.Metric)
	for text, want := range map[string]string{"KH del grifo": "KH del grifo", "CO2": "CO2", "Óxido": "óxido", "": "", "A": "a"} {
		if got := w.startsLow(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// Turkish keeps the dot of i in its capital: the alphabet of the Turkish language law of
// 1928 has both I and İ.
func TestARowStartsWithACapital(t *testing.T) {
	for _, c := range []struct{ lang, text, want string }{
		{"pl", "różnicówka", "Różnicówka"}, {"pl", "Żwir", "Żwir"}, {"fr", "épuisette", "Épuisette"},
		{"tr", "iskele", "İskele"}, {"en", "iron", "Iron"}, {"en", "pH kit", "pH kit"}, {"zh", "漏电保护器", "漏电保护器"}, {"en", "", ""},
	} {
		if got := Speak(c.lang, "", quantity.Metric).StartsHigh(c.text); got != c.want {
			t.Errorf("%s: %q, want %q", c.lang, got, c.want)
		}
	}
}
