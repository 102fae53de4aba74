package i18n

import (
	"fmt"
	"regexp"
	"strings"
	"sync"
	"time"

	"example.org/driploop/model/working"
)

// asShown turns a date written as this language shows it, where no spaces part its
// words, into one that the reader of words takes: day, month, year. The rest of the
// text stays. It reports false where there is none.
func (w *Words) asShown(text string) (string, bool) {
	folded := fold(text)
	for _, form := range w.shownForms() {
		m := form.FindStringSubmatchIndex(folded)
		if m == nil {
			continue
		}
		part := func(name string) string {
			if i := form.SubexpIndex(name); i >= 0 && m[2*i] >= 0 {
				return folded[m[2*i]:m[2*i+1]]
			}
			return ""
		}
		for month := time.January; month <= time.December; month++ {
			if fold(w.Month(month)) == part("Month") || fold(w.T(months[month-1]+".short", nil)) == part("Month") {
				date := fmt.Sprint(part("Day"), " ", fold(w.Month(month)), " ", part("Year"))
				return folded[:m[0]] + " " + date + " " + folded[m[1]:], true
			}
		}
	}
	return "", false
}

var formsShown sync.Map // language to []*regexp.Regexp

// shownForms are the forms of a date of this language as expressions.
func (w *Words) shownForms() []*regexp.Regexp {
	if known, ok := formsShown.Load(w.lang); ok {
		return known.([]*regexp.Regexp)
	}
	var names, days []string
	for m := time.December; m >= time.January; m-- { // 12月 before 2月
		names = append(names, regexp.QuoteMeta(fold(w.Month(m))), regexp.QuoteMeta(fold(w.T(months[m-1]+".short", nil))))
	}
	for d := time.Sunday; d <= time.Saturday; d++ {
		days = append(days, regexp.QuoteMeta(fold(w.Weekday(d))))
	}
	month := "(?P<Month>" + strings.Join(names, "|") + ")"
	fill := strings.NewReplacer("{{year}}", `(?P<Year>\d{4})`, "{{month}}", month, "{{mon}}", month, "{{day}}", `(?P<Day>\d{1,2}|`+regexp.QuoteMeta(fold(w.T(firstDay, nil)))+`)`,
		"{{weekday}}", "(?:"+strings.Join(days, "|")+")?", " ", `\s*`)
	var out []*regexp.Regexp
	for _, key := range []working.Key{"date.long", "date.short", "date.heading"} {
		form := w.T(key, Args{"Weekday": "{{weekday}}", "Day": "{{day}}", "Month": "{{month}}", "Mon": "{{mon}}", "Year": "{{year}}"})
		form = strings.ReplaceAll(strings.ReplaceAll(regexp.QuoteMeta(fold(form)), `\{\{`, "{{"), `\}\}`, "}}")
		if e, err := regexp.Compile(fill.Replace(form)); err == nil {
			out = append(out, e)
		}
	}
	formsShown.Store(w.lang, out)
	return out
}
