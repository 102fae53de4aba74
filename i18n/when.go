package i18n

import (
	"strconv"
	"strings"
	"time"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"example.org/driploop/model/working"
)

// WhenLayout writes a date and time into a box, as ReadWhen reads it from everybody:
// ISO 8601, with a space for the eye.
const WhenLayout = "2006-01-02 15:04"

// ReadWhen reads a date and time as this person writes them: 2026-11-20,
// 20 November, a weekday (the last one of it), today, yesterday and the day
// before, each with or without a time of day, or a time of day alone. What is
// left out is taken from now: the day, the time. The result counts in now's
// location. It reports false for text that is none of these; two numbers with a
// stroke between them are none, for they mean two days.
func (w *Words) ReadWhen(text string, now time.Time) (time.Time, bool) {
	if t, ok := w.readWhen(text, now); ok {
		return t, true
	}
	if plain, ok := w.asShown(text); ok { // 2026年11月20日
		return w.readWhen(plain, now)
	}
	return time.Time{}, false
}

func (w *Words) readWhen(text string, now time.Time) (time.Time, bool) {
	r := whenReader{w: w, now: now, year: now.Year(), month: now.Month(), day: now.Day(), hour: now.Hour(), minute: now.Minute()}
	words := strings.Fields(fold(strings.NewReplacer(",", " ", "·", " ").Replace(text)))
	if len(words) == 0 || len(text) > 80 { // a date is short; anything longer is a mistake
		return time.Time{}, false
	}
	for i := 0; i < len(words); {
		n := r.take(words[i:])
		if n == 0 {
			return time.Time{}, false
		}
		i += n
	}
	t := time.Date(r.year, r.month, r.day, r.hour, r.minute, 0, 0, now.Location())
	return t, t.Day() == r.day && t.Year() >= 1900 && t.Year() <= 2999
}

// fold writes text in small letters without accents.
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return unicode.ToLower(r)
	}, norm.NFD.String(s))
}

// whenReader puts a date together word by word; each part may come once.
type whenReader struct {
	w            *Words
	now          time.Time
	year         int
	month        time.Month
	day          int
	hour, minute int
	dated, timed bool
}

// take reads what words begin with and says how many it took, 0 for none.
func (r *whenReader) take(words []string) int {
	for _, try := range []func([]string) int{r.phrase, r.iso, r.named, r.clock} {
		if n := try(words); n > 0 {
			return n
		}
	}
	return 0
}

func (r *whenReader) set(t time.Time) bool {
	if r.dated {
		return false
	}
	r.dated = true
	r.year, r.month, r.day = t.Date()
	return true
}

// phrase reads today, yesterday and weekdays in the person's language.
func (r *whenReader) phrase(words []string) int {
	for _, p := range []struct {
		key  working.Key
		back int
	}{{"date.word.before_yesterday", 2}, {"date.word.yesterday", 1}, {"date.word.today", 0}} {
		for _, said := range strings.Split(r.w.T(p.key, nil), ",") {
			parts := strings.Fields(fold(said))
			if begins(words, parts) && r.set(r.now.AddDate(0, 0, -p.back)) {
				return len(parts)
			}
		}
	}
	for d := time.Sunday; d <= time.Saturday; d++ {
		if words[0] == fold(r.w.Weekday(d)) {
			back := (int(r.now.Weekday()) - int(d) + 7) % 7
			if r.set(r.now.AddDate(0, 0, -back)) {
				return 1
			}
		}
	}
	return 0
}

func begins(words, parts []string) bool {
	if len(parts) == 0 || len(parts) > len(words) {
		return false
	}
	for i, p := range parts {
		if words[i] != p {
			return false
		}
	}
	return true
}

// iso reads 2026-11-20, with strokes or points too, and 2026-11-20t08:10.
func (r *whenReader) iso(words []string) int {
	date, clock, both := strings.Cut(words[0], "t")
	if both && r.timed {
		return 0
	}
	for _, layout := range []string{"2006-1-2", "2006/1/2", "2006.1.2"} {
		t, err := time.Parse(layout, date)
		if err != nil {
			continue
		}
		if both && r.clock([]string{clock}) == 0 || !r.set(t) {
			return 0
		}
		return 1
	}
	return 0
}

// named reads 20 november 2026, 20 de noviembre, november 20.
func (r *whenReader) named(words []string) int {
	var month time.Month
	day, year, n := 0, 0, 0
	for ; n < len(words); n++ {
		word := strings.TrimSuffix(words[n], ".")
		if m, ok := r.monthOf(word); ok && month == 0 {
			month = m
			continue
		}
		if word == "de" && n > 0 { // of Spanish and Portuguese
			continue
		}
		x, err := strconv.Atoi(word)
		switch {
		case day == 0 && word == fold(r.w.T(firstDay, nil)):
			day = 1
		case err != nil:
			goto done
		case day == 0 && x >= 1 && x <= 31:
			day = x
		case year == 0 && day > 0 && month > 0 && x >= 1900:
			year = x
		default:
			goto done
		}
	}
done:
	if month == 0 || day == 0 {
		return 0
	}
	if year == 0 {
		year = r.now.Year()
		if time.Date(year, month, day, 0, 0, 0, 0, r.now.Location()).After(r.now) { // the last such day
			year--
		}
	}
	t := time.Date(year, month, day, 0, 0, 0, 0, r.now.Location())
	if t.Day() != day || !r.set(t) {
		return 0
	}
	return n
}

func (r *whenReader) monthOf(word string) (time.Month, bool) {
	for m := time.January; m <= time.December; m++ {
		for _, name := range []string{r.w.Month(m), r.w.T(months[m-1]+".short", nil), r.w.T(months[m-1]+".alone", nil)} {
			if word == strings.TrimSuffix(fold(name), ".") {
				return m, true
			}
		}
	}
	return 0, false
}

// halves are the words for the halves of the day: those that everybody knows, and
// those of the language.
func (r *whenReader) halves() map[string][]string {
	out := map[string][]string{}
	for h, key := range map[string]working.Key{"am": "time.am", "pm": "time.pm"} {
		own := strings.NewReplacer(".", "", " ", "").Replace(strings.Join(strings.Fields(fold(r.w.T(key, Args{"Clock": ""}))), ""))
		out[h] = []string{h}
		if own != "" && own != h {
			out[h] = append(out[h], own)
		}
	}
	return out
}

// clock reads 8:10, 08:10, 8:10 pm.
func (r *whenReader) clock(words []string) int {
	if r.timed {
		return 0
	}
	text, n := words[0], 1
	half := ""
	for h, said := range r.halves() {
		for _, word := range said {
			switch {
			case strings.HasSuffix(text, word):
				text, half = strings.TrimSuffix(text, word), h
			case strings.HasPrefix(text, word):
				text, half = strings.TrimPrefix(text, word), h
			case len(words) > 1 && strings.ReplaceAll(words[1], ".", "") == word:
				half, n = h, 2
			case len(words) > 2 && strings.ReplaceAll(words[1]+words[2], ".", "") == word: // p. m.
				half, n = h, 3
			}
		}
	}
	hour, minute, ok := strings.Cut(text, ":")
	if !ok && half == "" {
		return 0
	}
	h, err1 := strconv.Atoi(hour)
	m := 0
	var err2 error
	if ok {
		m, err2 = strconv.Atoi(minute)
		if len(minute) != 2 {
			return 0
		}
	}
	switch {
	case err1 != nil || err2 != nil || h < 0 || h > 23 || m < 0 || m > 59 || half != "" && (h < 1 || h > 12):
		return 0
	case half == "pm" && h < 12:
		h += 12
	case half == "am" && h == 12:
		h = 0
	}
	r.hour, r.minute, r.timed = h, m, true
	return n
}
