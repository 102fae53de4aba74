package intake

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/working"
)

// dateForm is a date of figures: year first, or the year last or missing a century.
// What stands behind it is a time.
var dateForm = regexp.MustCompile(`^(\d{1,4})[-/. ]\s?(\d{1,2})[-/. ]\s?(\d{1,4})\.?(?:[T ,]+(.*))?$`)

// clockForm is a time of day, with an offset from UTC where one is given.
var clockForm = regexp.MustCompile(`^(\d{1,2})[:.h](\d{2})(?:[:.]\d{2}(?:[.,]\d+)?)?\s*([AaPp]\.?\s?[Mm]\.?)?\s*(Z|[+-]\d{2}:?\d{2})?$`)

// dated are the three figures of a date as they stand, and the text of its time.
type dated struct {
	a, b, c int
	digits  int // of the first
	clock   string
}

// figures reads a date as figures; it reports false for what is none.
func figures(s string) (dated, bool) {
	m := dateForm.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return dated{}, false
	}
	d := dated{digits: len(m[1]), clock: strings.TrimSpace(m[4])}
	d.a, _ = strconv.Atoi(m[1]) // digits by the form
	d.b, _ = strconv.Atoi(m[2])
	d.c, _ = strconv.Atoi(m[3])
	return d, d.digits == 4 || d.digits <= 2 && (len(m[3]) == 4 || len(m[3]) == 2)
}

// day puts the figures in order.
func (d dated) day(o Order) (year, month, day int) {
	switch {
	case d.digits == 4:
		return d.a, d.b, d.c
	case o == MonthFirst:
		return century(d.c), d.a, d.b
	}
	return century(d.c), d.b, d.a
}

// century reads a year of two figures: 80 to 99 are of the last century. // judgement
func century(y int) int {
	switch {
	case y >= 100:
		return y
	case y >= 80:
		return 1900 + y
	}
	return 2000 + y
}

// dateFigures gives the largest first and second figure of dates that do not begin
// with the year: more than twelve is no month.
func (s *Sheet) dateFigures(p Plan) (first, second int) {
	i := s.find(p, Date)
	for _, r := range s.Rows {
		// What is a date in neither order tells nothing.
		if d, ok := figures(cell(r, i)); ok && d.digits != 4 && min(d.a, d.b) <= 12 && max(d.a, d.b) <= 31 {
			first, second = max(first, d.a), max(second, d.b)
		}
	}
	return first, second
}

// Doubt gives a date of the table that can be read in two ways when none of them
// decides which, with both readings; it reports false when there is no doubt.
func (s *Sheet) Doubt(p Plan) (text string, dayFirst, monthFirst time.Time, doubt bool) {
	if first, second := s.dateFigures(p); first > 12 || second > 12 {
		return "", time.Time{}, time.Time{}, false
	}
	i := s.find(p, Date)
	for _, r := range s.Rows {
		d, ok := figures(cell(r, i))
		if !ok || d.digits == 4 || d.a == d.b || min(d.a, d.b) == 0 || max(d.a, d.b) > 12 {
			continue
		}
		at := func(o Order) time.Time {
			y, m, day := d.day(o)
			return time.Date(y, time.Month(m), day, 0, 0, 0, 0, time.UTC)
		}
		return cell(r, i), at(DayFirst), at(MonthFirst), true
	}
	return "", time.Time{}, time.Time{}, false
}

// noon is the time of an entry whose table tells only the day. // judgement
const noonHour = 12

// when reads the date and time of a row. The zone is that of the wall clock at that
// time, unless the row has its own.
func when(date, clock string, o Order, zone *time.Location) (journal.Civil, string, error) {
	bad := func() (journal.Civil, string, error) { return "", "", working.Refuse("at", "refuse.intake.date") }
	d, ok := figures(date)
	if !ok {
		return bad()
	}
	y, m, day := d.day(o)
	if clock == "" {
		clock = d.clock
	}
	hour, minute, offset := noonHour, 0, ""
	if clock != "" {
		c := clockForm.FindStringSubmatch(clock)
		if c == nil {
			return "", "", working.Refuse("at", "refuse.intake.clock")
		}
		hour, _ = strconv.Atoi(c[1])
		minute, _ = strconv.Atoi(c[2])
		if half := strings.ToLower(c[3]); half != "" {
			if hour < 1 || hour > 12 {
				return "", "", working.Refuse("at", "refuse.intake.clock")
			}
			hour %= 12
			if half[0] == 'p' {
				hour += 12
			}
		}
		offset = c[4]
	}
	t := time.Date(y, time.Month(m), day, hour, minute, 0, 0, time.UTC)
	if t.Year() != y || int(t.Month()) != m || t.Day() != day || t.Hour() != hour || t.Minute() != minute {
		return bad() // the 31st of a short month, 25 o'clock
	}
	at := journal.CivilOf(t)
	if _, err := at.Parse(); err != nil {
		return bad()
	}
	switch {
	case offset == "Z":
		offset = "+00:00"
	case offset != "" && !strings.Contains(offset, ":"):
		offset = offset[:3] + ":" + offset[3:]
	case offset == "":
		offset = journal.ZoneOf(time.Date(y, time.Month(m), day, hour, minute, 0, 0, zone))
	}
	if _, err := time.Parse("-07:00", offset); err != nil {
		return bad()
	}
	return at, offset, nil
}
