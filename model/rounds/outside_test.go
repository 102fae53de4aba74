package rounds_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
)

// readers reads a calendar with another program's parser and counts, by another
// one's rules, what it lists: start, and each occurrence of the first year.
const readers = `
import sys, datetime
from icalendar import Calendar
from dateutil.rrule import rrulestr
for e in Calendar.from_ical(sys.stdin.buffer.read()).walk('VEVENT'):
    start = e['DTSTART'].dt
    assert start.tzinfo is None, 'a zone'
    rule = e['RRULE'].to_ical().decode()
    end = start + datetime.timedelta(days=365)
    print(e['UID'], '|', str(e['SUMMARY']), '|', ' '.join(d.strftime('%Y-%m-%dT%H:%M') for d in rrulestr(rule, dtstart=start).between(start, end, inc=True)))
`

// Another reader finds the same events at the same civil times, with the texts as
// they were: icalendar and dateutil of Python. Run by make drill; a sample of the
// same, without them, is TestCalendarRuleIsTheRule.
func TestCalendarByAnotherReader(t *testing.T) {
	c := rounds.Calendar{Lang: "es", Name: "Rutinas; uno, dos", Made: time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)}
	want := ""
	for i, text := range somewhere {
		r := rounds.MustRule(text)
		if r.Single() {
			continue
		}
		at := time.Date(2026, 11, 28, 2, 30, 0, 0, time.UTC)
		first, _ := r.After(journal.CivilOf(at), at)
		e := rounds.Event{ID: fmt.Sprint("event-", i), First: first, Rule: r, Summary: fmt.Sprintf("Cañón %d: a, b; c \\ «水» %s", i, strings.Repeat("largo ", 20)), Alarm: "x"}
		c.Events = append(c.Events, e)
		begin, _ := first.Parse()
		var times []string
		for _, d := range r.Between(first, begin, begin.AddDate(0, 0, 365)) {
			times = append(times, string(d))
		}
		want += fmt.Sprintf("%s | %s | %s\n", e.ID, e.Summary, strings.Join(times, " "))
	}
	b := c.ICS()
	if os.Getenv("DRIPLOOP_DRILL") != "1" {
		if bytes.Count(b, []byte("BEGIN:VEVENT")) != len(c.Events) {
			t.Errorf("%d events were written, want %d", bytes.Count(b, []byte("BEGIN:VEVENT")), len(c.Events))
		}
		return
	}
	cmd := exec.Command("/usr/bin/python3", "-c", readers)
	cmd.Stdin = bytes.NewReader(b)
	cmd.Env = append(os.Environ(), "PYTHONIOENCODING=utf-8")
	out, err := cmd.CombinedOutput()
	if err != nil || string(out) != want {
		t.Errorf("%v\n got %s\nwant %s", err, out, want)
	}
}
