package rounds_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
)

// Occurrences of the examples that RFC 5545 prints in section 3.8.5.3, each from
// 2 September 1997 09:00 where no other start is given; the first ones are
// listed, or all where the rule ends.
func TestExamplesOfTheStandard(t *testing.T) {
	for _, c := range []struct{ rule, start, want string }{
		{"FREQ=DAILY;COUNT=10", "1997-09-02", "09-02 09-03 09-04 09-05 09-06 09-07 09-08 09-09 09-10 09-11 ."},
		{"FREQ=DAILY;UNTIL=19971224T000000Z", "1997-09-02", "09-02 09-03 09-04"},
		{"FREQ=DAILY;INTERVAL=2", "1997-09-02", "09-02 09-04 09-06 09-08"},
		{"FREQ=DAILY;INTERVAL=10;COUNT=5", "1997-09-02", "09-02 09-12 09-22 10-02 10-12 ."},
		{"FREQ=YEARLY;UNTIL=20000131T140000Z;BYMONTH=1;BYDAY=SU,MO,TU,WE,TH,FR,SA", "1998-01-01", "01-01 01-02 01-03"},
		{"FREQ=DAILY;UNTIL=20000131T140000Z;BYMONTH=1", "1998-01-01", "01-01 01-02 01-03"},
		{"FREQ=WEEKLY;COUNT=10", "1997-09-02", "09-02 09-09 09-16 09-23 09-30 10-07 10-14 10-21 10-28 11-04 ."},
		{"FREQ=WEEKLY;UNTIL=19971224T000000Z", "1997-09-02", "09-02 09-09 09-16 09-23 09-30 10-07 10-14 10-21 10-28 11-04 11-11 11-18 11-25 12-02 12-09 12-16 12-23 ."},
		{"FREQ=WEEKLY;INTERVAL=2;WKST=SU", "1997-09-02", "09-02 09-16 09-30 10-14 10-28 11-11 11-25 12-09 12-23"},
		{"FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH", "1997-09-02", "09-02 09-04 09-09 09-11 09-16 09-18 09-23 09-25 09-30 10-02 ."},
		{"FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH", "1997-09-02", "09-02 09-04 09-09 09-11 09-16 09-18 09-23 09-25 09-30 10-02 ."},
		{"FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR", "1997-09-01", "09-01 09-03 09-05 09-15 09-17 09-19 09-29 10-01 10-03 10-13"},
		{"FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH", "1997-09-02", "09-02 09-04 09-16 09-18 09-30 10-02 10-14 10-16 ."},
		{"FREQ=MONTHLY;COUNT=10;BYDAY=1FR", "1997-09-05", "09-05 10-03 11-07 12-05 01-02 02-06 03-06 04-03 05-01 06-05 ."},
		{"FREQ=MONTHLY;UNTIL=19971224T000000Z;BYDAY=1FR", "1997-09-05", "09-05 10-03 11-07 12-05 ."},
		{"FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU", "1997-09-07", "09-07 09-28 11-02 11-30 01-04 01-25 03-01 03-29 05-03 05-31 ."},
		{"FREQ=MONTHLY;COUNT=6;BYDAY=-2MO", "1997-09-22", "09-22 10-20 11-17 12-22 01-19 02-16 ."},
		{"FREQ=MONTHLY;BYMONTHDAY=-3", "1997-09-28", "09-28 10-29 11-28 12-29 01-29 02-26"},
		{"FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15", "1997-09-02", "09-02 09-15 10-02 10-15 11-02 11-15 12-02 12-15 01-02 01-15 ."},
		{"FREQ=MONTHLY;COUNT=10;BYMONTHDAY=1,-1", "1997-09-30", "09-30 10-01 10-31 11-01 11-30 12-01 12-31 01-01 01-31 02-01 ."},
		{"FREQ=MONTHLY;INTERVAL=18;COUNT=10;BYMONTHDAY=10,11,12,13,14,15", "1997-09-10", "09-10 09-11 09-12 09-13 09-14 09-15 03-10 03-11 03-12 03-13 ."},
		{"FREQ=MONTHLY;INTERVAL=2;BYDAY=TU", "1997-09-02", "09-02 09-09 09-16 09-23 09-30 11-04 11-11 11-18 11-25 01-06"},
		{"FREQ=YEARLY;COUNT=10;BYMONTH=6,7", "1997-06-10", "06-10 07-10 06-10 07-10 06-10 07-10 06-10 07-10 06-10 07-10 ."},
		{"FREQ=YEARLY;INTERVAL=2;COUNT=10;BYMONTH=1,2,3", "1997-03-10", "03-10 01-10 02-10 03-10 01-10 02-10 03-10 01-10 02-10 03-10 ."},
		{"FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200", "1997-01-01", "01-01 04-10 07-19 01-01 04-09 07-18 01-01 04-10 07-19 01-01 ."},
		{"FREQ=YEARLY;BYDAY=20MO", "1997-05-19", "05-19 05-18 05-17"},
		{"FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO", "1997-05-12", "05-12 05-11 05-17"},
		{"FREQ=YEARLY;BYMONTH=3;BYDAY=TH", "1997-03-13", "03-13 03-20 03-27 03-05 03-12 03-19 03-26 03-04 03-11 03-18 03-25"},
		{"FREQ=YEARLY;BYDAY=TH;BYMONTH=6,7,8", "1997-06-05", "06-05 06-12 06-19 06-26 07-03 07-10 07-17 07-24 07-31 08-07 08-14 08-21 08-28 06-04"},
		{"FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13", "1997-09-13", "09-13 10-11 11-08 12-13 01-10 02-07 03-07 04-11 05-09 06-13"},
		{"FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8", "1996-11-05", "11-05 11-07 11-02"},
		{"FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3", "1997-09-04", "09-04 10-07 11-06 ."},
		{"FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2", "1997-09-29", "09-29 10-30 11-27 12-30 01-29 02-26 03-30"},
		{"FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO", "1997-08-05", "08-05 08-10 08-19 08-24 ."},
		{"FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", "1997-08-05", "08-05 08-17 08-19 08-31 ."},
		{"FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5", "2007-01-15", "01-15 01-30 02-15 03-15 03-30 ."},
		{"FREQ=MONTHLY;BYMONTHDAY=31", "1998-01-31", "01-31 03-31 05-31 07-31 08-31 10-31 12-31"}, // 3.3.10: a day that there is not is left out
	} {
		r, err := rounds.ParseRule(c.rule)
		if err != nil {
			t.Errorf("%s: %v", c.rule, err)
			continue
		}
		start := journal.Civil(c.start + "T09:00")
		first, _ := start.Parse()
		var got []string
		for _, d := range r.Between(start, first, first.AddDate(30, 0, 0)) {
			if clock := d[11:]; clock != "09:00" {
				t.Errorf("%s: at %s", c.rule, clock)
			}
			got = append(got, string(d[5:10]))
		}
		want := strings.Fields(c.want)
		if ends := want[len(want)-1] == "."; ends {
			got = append(got, ".")
		} else if len(got) > len(want) {
			got = got[:len(want)]
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s\n got %v\nwant %v", c.rule, got, want)
		}
	}
}

// A rule seen from any day on lists what it lists from its start.
func TestBetweenFromAnywhere(t *testing.T) {
	for _, text := range []string{"FREQ=DAILY;INTERVAL=3", "FREQ=WEEKLY;INTERVAL=2;BYDAY=MO,FR", "FREQ=WEEKLY;INTERVAL=3", "FREQ=MONTHLY;BYMONTHDAY=31", "FREQ=DAILY;COUNT=40", "FREQ=DAILY;BYHOUR=8,18;BYMINUTE=0"} {
		r, start := rounds.MustRule(text), journal.Civil("2026-02-04T08:00")
		first, _ := start.Parse()
		end := first.AddDate(1, 0, 0)
		all := r.Between(start, first, end)
		for d := first; d.Before(end); d = d.AddDate(0, 0, 1) {
			var want []journal.Civil
			for _, c := range all {
				if c >= journal.CivilOf(d) {
					want = append(want, c)
				}
			}
			if got := r.Between(start, d, end); !slices.Equal(got, want) {
				t.Fatalf("%s from %s: %v, want %v", text, d, got, want)
			}
			next, ok := r.After(start, d)
			if ok != (len(want) > 0) && d.AddDate(0, 2, 0).Before(end) || ok && len(want) > 0 && next != want[0] {
				t.Fatalf("%s after %s: %s %v, want %v", text, d, next, ok, want)
			}
		}
	}
}

func TestRulesRefused(t *testing.T) {
	for _, s := range []string{"", "FREQ", "FREQ=HOURLY", "FREQ=MINUTELY;INTERVAL=5", "FREQ=DAILY;BYSECOND=1", "FREQ=DAILY;INTERVAL=0", "FREQ=DAILY;INTERVAL=-1", "FREQ=DAILY;COUNT=0",
		"FREQ=DAILY;COUNT=2;UNTIL=20270101T000000", "FREQ=WEEKLY;BYDAY=XX", "FREQ=MONTHLY;BYMONTHDAY=32", "INTERVAL=2", "FREQ=DAILY;FREQ=DAILY", "FREQ=YEARLY;BYEASTER=1",
		"FREQ=DAILY;DTSTART=19970902T090000", "FREQ=DAILY\nDTSTART:19970902T090000", "FREQ=DAILY;BYHOUR=0,1,2,3,4,5,6,7,8,9,10,11,12", "FREQ=DAILY;X=1", strings.Repeat("FREQ=DAILY;", 60)} {
		if r, err := rounds.ParseRule(s); err == nil {
			t.Errorf("%q was taken for %q", s, r)
		}
	}
	// No 30 February ever: an end, not a hang.
	never := rounds.MustRule("FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30")
	if c, ok := never.After("2026-01-01T08:00", time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)); ok {
		t.Errorf("30 February came on %s", c)
	}
}

// What a person sets is read back as it was set.
func TestPlainRulesComeBack(t *testing.T) {
	for _, p := range []rounds.Plain{{Every: 1, Unit: rounds.Days}, {Every: 3, Unit: rounds.Days}, {Every: 2, Unit: rounds.Weeks, Weekdays: []time.Weekday{time.Monday, time.Sunday}},
		{Every: 1, Unit: rounds.Weeks}, {Every: 6, Unit: rounds.Months, MonthDay: 31}, {Every: 1, Unit: rounds.Months, MonthDay: -1}, {Every: 1, Unit: rounds.Years}, {Every: 1, Unit: rounds.Days, Once: true}} {
		r, err := p.Rule()
		if err != nil {
			t.Fatal(err)
		}
		back, ok := r.Plain()
		if !ok || back.Every != p.Every || back.Unit != p.Unit || back.MonthDay != p.MonthDay || back.Once != p.Once || !slices.Equal(back.Weekdays, p.Weekdays) {
			t.Errorf("%+v became %s and %+v", p, r, back)
		}
	}
	for _, s := range []string{"FREQ=MONTHLY;BYDAY=1FR", "FREQ=DAILY;COUNT=10", "FREQ=YEARLY;BYMONTH=6,7", "FREQ=WEEKLY;INTERVAL=2;WKST=SU;BYDAY=TU"} {
		if p, ok := rounds.MustRule(s).Plain(); ok {
			t.Errorf("%s was taken for %+v", s, p)
		}
	}
}
