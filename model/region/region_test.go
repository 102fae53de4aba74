package region

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/working"
)

// Against what public summaries say of these countries: mains by the IEC world
// plugs listing, papers and weeks by Unicode CLDR, the European emergency number
// by Directive (EU) 2018/1972, Art. 109.
func TestCountries(t *testing.T) {
	for _, c := range []struct {
		code      string
		volts     float64
		word      working.Key
		emergency string
		letter    bool
		week      time.Weekday
		twelve    bool
	}{
		{"US", 120, "word.care.gfci", "911", true, time.Sunday, true},
		{"CA", 120, "word.care.gfci", "911", true, time.Sunday, true},
		{"GB", 230, "word.care.rcd", "999", false, time.Monday, false},
		{"DE", 230, "word.care.rcd", "112", false, time.Monday, false},
		{"JP", 100, "word.care.rcd", "119", false, time.Sunday, false},
		{"CN", 220, "word.care.rcd", "120", false, time.Monday, false},
		{"BR", 127, "word.care.rcd", "192", false, time.Sunday, false},
		{"AU", 230, "word.care.rcd", "000", false, time.Monday, true},
		{"", 230, "word.care.rcd", "", false, time.Monday, false},
		{"XX", 230, "word.care.rcd", "", false, time.Monday, false},
	} {
		r := Region{c.code}
		if r.Mains().X != c.volts || r.Protection() != c.word || r.Emergency().Number != c.emergency || r.Letter() != c.letter || r.FirstWeekday() != c.week || r.TwelveHours() != c.twelve {
			t.Errorf("%q: %g V, %s, %q, letter %v, %s, twelve %v", c.code, r.Mains().X, r.Protection(), r.Emergency().Number, r.Letter(), r.FirstWeekday(), r.TwelveHours())
		}
	}
}

// The rows hang together: the American switch goes with the lower mains, a number
// has digits only, and every member of the Union answers to 112.
func TestRowsHangTogether(t *testing.T) {
	if n := len(Codes()); n < 50 {
		t.Fatalf("%d countries, want at least 50", n)
	}
	for _, code := range Codes() {
		r := Region{code}
		if len(code) != 2 || code != strings.ToUpper(code) {
			t.Errorf("%q is no ISO 3166-1 alpha-2 code", code)
		}
		if v := r.Mains().X; v < 100 || v > 240 || r.Protection() == "word.care.gfci" && v > 127 {
			t.Errorf("%s: %g V with %s", code, v, r.Protection())
		}
		e := r.Emergency()
		if strings.Trim(e.Number, "0123456789") != "" || e.Rule != "" && e.Number == "" {
			t.Errorf("%s: emergency %q by %q", code, e.Number, e.Rule)
		}
		if strings.Contains(e.Rule, "2018/1972") && e.Number != "112" {
			t.Errorf("%s is in the Union and answers to %s", code, e.Number)
		}
		if len(r.Currency()) != 3 {
			t.Errorf("%s pays in %q", code, r.Currency())
		}
	}
}

// A row that cannot be read is found, not passed over.
func TestReadRefuses(t *testing.T) {
	head := "code,volts,protection,socket,emergency,rule,paper,week,clock,water,currency\n"
	good := "US,120,gfci,receptacle,911,,letter,sun,12,both,USD\n"
	if rows, err := read(head + good); err != nil || len(rows) != 1 {
		t.Fatalf("%v, %v", rows, err)
	}
	for _, bad := range []string{"120,much", "gfci,fuse", "receptacle,hole", "sun,someday", "both,wine", "911,,911"} {
		from, to, _ := strings.Cut(bad, ",")
		if _, err := read(head + strings.Replace(good, from, to, 1)); err == nil {
			t.Errorf("%s for %s was taken", to, from)
		}
	}
	if !slices.IsSorted(Codes()) {
		t.Error("the codes are in no order")
	}
}
