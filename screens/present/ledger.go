package present

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
)

// LedgerHeading is a day above its entries; the year stands there unless it is
// the present one.
func (p Presenter) LedgerHeading(date string, now time.Time) string {
	t, err := dayOf(date)
	if err != nil {
		return date
	}
	if t.Year() == now.Year() {
		return p.W.DayHeading(t)
	}
	return p.W.T("page.ledger.day_of_year", i18n.Args{"Day": p.W.DayHeading(t), "Year": strconv.Itoa(t.Year())})
}

// LedgerDay says what a day of the month strip holds.
func (p Presenter) LedgerDay(t time.Time, c keeper.DayCount) string {
	says := []string{p.W.N("n.entries", float64(c.Entries), nil)}
	if c.Tested {
		says = append(says, p.W.T("page.ledger.day_tested", nil))
	}
	if c.Changed {
		says = append(says, p.W.T("page.ledger.day_changed", nil))
	}
	return p.W.T("page.ledger.day_holds", i18n.Args{"Day": p.W.ShortDate(t), "Holds": p.W.List(says)})
}

// dayLayout is how a day is typed where the person lives, as a layout of package
// time; by default day, month and year with strokes between them.
// Source: Unicode CLDR 48, short dates of each country's languages; where they
// differ, the more usual one.
func (p Presenter) dayLayout() string {
	switch p.W.Region() {
	case "US", "PH", "PR":
		return "1/2/2006"
	case "CN", "JP", "TW":
		return "2006/1/2"
	case "CA", "HU", "KR", "LT", "SE":
		return time.DateOnly
	case "AT", "CH", "CZ", "DE", "DK", "EE", "FI", "IS", "LI", "NO", "PL", "RO", "RU", "SI", "SK", "TR", "UA":
		return "2.1.2006"
	case "CL", "NL":
		return "2-1-2006"
	}
	return "2/1/2006"
}

// TypedDay writes a day as it is typed where the person lives.
func (p Presenter) TypedDay(x float64) string { return civil(x).Format(p.dayLayout()) }

// DayExample is how a date may be typed where the person lives.
func (p Presenter) DayExample() string {
	return time.Date(2026, time.November, 25, 0, 0, 0, 0, time.UTC).Format(p.dayLayout())
}

func (p Presenter) yearFirst() bool { return strings.HasPrefix(p.dayLayout(), "2006") }

func (p Presenter) monthFirst() bool { return strings.HasPrefix(p.dayLayout(), "1") }

var (
	numbered = regexp.MustCompile(`^\s*(\d{1,4})(?:[-/. ]+(\d{1,2}))?(?:[-/. ]+(\d{1,4}))?\s*$`)
)

// ParseDay reads a typed date: 2026-11-25, or day, month and year in the order
// in which they are written where the person lives; without a year it is the
// latest such day that is not to come; 2026-11 is the end of a month and 2026 of
// a year. It reports false for what is no date between the years 1900 and 2999.
func (p Presenter) ParseDay(text string, now time.Time) (string, bool) {
	m := numbered.FindStringSubmatch(text)
	if m == nil {
		return "", false
	}
	n := [3]int{}
	for i, s := range m[1:] {
		n[i], _ = strconv.Atoi(s)
	}
	date := func(y, mo, d int) (string, bool) {
		t := time.Date(y, time.Month(mo), d, 0, 0, 0, 0, time.UTC)
		ok := y >= 1900 && y <= 2999 && t.Year() == y && int(t.Month()) == mo && t.Day() == d
		return t.Format(time.DateOnly), ok
	}
	if len(m[1]) == 4 {
		switch {
		case m[2] == "":
			return date(n[0], 12, 31)
		case m[3] == "":
			if n[1] < 1 || n[1] > 12 {
				return "", false
			}
			return date(n[0], n[1], time.Date(n[0], time.Month(n[1]+1), 0, 0, 0, 0, 0, time.UTC).Day())
		}
		return date(n[0], n[1], n[2])
	}
	if m[2] == "" || len(m[1]) > 2 {
		return "", false
	}
	d, mo, y := n[0], n[1], n[2]
	if p.monthFirst() || p.yearFirst() && m[3] == "" { // 11/25
		d, mo = mo, d
	}
	switch {
	case m[3] == "":
		y = now.Year()
		if s, ok := date(y, mo, d); ok && s > now.Format(time.DateOnly) {
			y--
		}
	case len(m[3]) == 2:
		y += 2000
	case len(m[3]) != 4:
		return "", false
	}
	return date(y, mo, d)
}
