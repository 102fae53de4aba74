package rounds_test

import (
	"bytes"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	ics "github.com/arran4/golang-ical"
	"github.com/teambition/rrule-go"
	"pgregory.net/rapid"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
)

// What another program reads is what was written: rule, floating start, texts,
// exceptions, alarm; lines of at most 75 octets, broken between characters.
func TestCalendarComesBack(t *testing.T) {
	made := time.Date(2026, 11, 25, 12, 0, 0, 0, time.FixedZone("", 3600))
	rapid.Check(t, func(t *rapid.T) {
		text := func(name string) string {
			s := rapid.StringOfN(rapid.OneOf(rapid.SampledFrom([]rune(`\;,:"ñ水🐟 nN`)), rapid.Rune()), 1, 120, -1).Draw(t, name)
			return strings.Map(func(r rune) rune {
				if r < ' ' || r == 0x7f || r == utf8.RuneError {
					return -1
				}
				return r
			}, s)
		}
		e := rounds.Event{ID: "0193-a", First: "2026-11-28T02:30", Rule: rounds.MustRule(rapid.SampledFrom(somewhere).Draw(t, "rule")), Except: []journal.Civil{"2026-12-05T02:30"},
			Summary: "x" + text("summary"), Description: "y" + text("first line") + "\n" + text("second line") + "z", Alarm: "a" + text("alarm")}
		b := rounds.Calendar{Lang: "es", Name: "n" + text("name"), Made: made, Events: []rounds.Event{e}}.ICS()
		if !utf8.Valid(b) || !bytes.HasSuffix(b, []byte("END:VCALENDAR\r\n")) || bytes.Contains(bytes.ReplaceAll(b, []byte("\r\n"), nil), []byte("\n")) {
			t.Fatalf("%q", b)
		}
		for _, l := range strings.Split(string(b), "\r\n") {
			if len(l) > 75 || !utf8.ValidString(l) {
				t.Fatalf("%d octets: %q", len(l), l)
			}
		}
		c, err := ics.ParseCalendar(bytes.NewReader(b))
		if err != nil || len(c.Events()) != 1 {
			t.Fatalf("%v\n%s", err, b)
		}
		got := c.Events()[0]
		value := func(p ics.ComponentProperty) string {
			if v := got.GetProperty(p); v != nil {
				return v.Value
			}
			return ""
		}
		for p, want := range map[ics.ComponentProperty]string{ics.ComponentPropertyUniqueId: e.ID, ics.ComponentPropertyDtStart: "20261128T023000", ics.ComponentPropertyDtstamp: "20261125T110000Z",
			ics.ComponentPropertyExdate: "20261205T023000", ics.ComponentPropertySummary: e.Summary, ics.ComponentPropertyDescription: e.Description} {
			if value(p) != want {
				t.Fatalf("%s is %q, want %q\n%s", p, value(p), want, b)
			}
		}
		if e.Rule.Single() != (value(ics.ComponentPropertyRrule) == "") {
			t.Fatalf("a rule of %s: %q", e.Rule, value(ics.ComponentPropertyRrule))
		}
		if len(got.Alarms()) != 1 {
			t.Fatal("no alarm")
		}
	})
}

// The rule that stands in the file gives the same occurrences to another reader,
// with an end that is floating as its start is.
func TestCalendarRuleIsTheRule(t *testing.T) {
	for _, text := range append(somewhere, "FREQ=DAILY;UNTIL=20261224T000000Z") {
		r := rounds.MustRule(text)
		if r.Single() {
			continue
		}
		first, _ := r.After("2026-11-28T09:00", time.Date(2026, 11, 28, 0, 0, 0, 0, time.UTC))
		b := rounds.Calendar{Lang: "en", Events: []rounds.Event{{ID: "a", First: first, Rule: r}}}.ICS()
		c, err := ics.ParseCalendar(bytes.NewReader(b))
		if err != nil {
			t.Fatal(err)
		}
		rule := c.Events()[0].GetProperty(ics.ComponentPropertyRrule).Value
		if strings.HasSuffix(rule, "Z") {
			t.Errorf("%s ends at an instant", rule)
		}
		o, err := rrule.StrToROption(rule)
		if err != nil {
			t.Fatal(err)
		}
		if o.Dtstart, err = time.Parse("20060102T150405", c.Events()[0].GetProperty(ics.ComponentPropertyDtStart).Value); err != nil {
			t.Fatal(err)
		}
		other, err := rrule.NewRRule(*o)
		if err != nil {
			t.Fatal(err)
		}
		end := o.Dtstart.AddDate(1, 0, 0)
		ours := r.Between(first, o.Dtstart, end)
		theirs := other.Between(o.Dtstart, end, true)
		if len(ours) != len(theirs) || len(ours) == 0 {
			t.Errorf("%s: %d here, %d there", text, len(ours), len(theirs))
		}
	}
}
