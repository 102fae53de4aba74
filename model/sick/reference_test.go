package sick

import (
	"encoding/csv"
	"os"
	"slices"
	"strings"
	"testing"

	"example.org/driploop/model/journal"
)

// reference reads the reference table. Source: see the head of the file.
func reference(t *testing.T) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/health/signs_reference.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// levelOf reads the urgency of the reference: its first words decide.
func levelOf(urgency string) Level {
	starts := func(prefixes ...string) bool {
		return slices.ContainsFunc(prefixes, func(p string) bool { return strings.HasPrefix(urgency, p) })
	}
	switch {
	case starts("emergency"):
		return Emergency
	case strings.HasSuffix(urgency, "else 48 h"): // sooner only in part
		return TwoDays
	case starts("same day", "vet the same", "vet as soon as possible"):
		return SameDay
	case starts("48 h"):
		return TwoDays
	case starts("vet within a week", "vet, not urgent"):
		return Week
	case starts("watch", "weeks"):
		return Watch
	}
	return None
}

// measured are the words of the reference's first checks that a water test answers.
var measured = map[string]string{"ammonia": journal.NameAmmonia, "nitrite": journal.NameNitrite, "temperature": journal.NameTemperature, "pH": journal.NamePH, "nitrate": journal.NameNitrate}

func TestSignsAreThoseOfTheReference(t *testing.T) {
	rows := reference(t)
	if len(rows) != 35 || len(signs) != 35 {
		t.Fatalf("%d signs in the reference and %d here, want 35", len(rows), len(signs))
	}
	for _, row := range rows {
		s, ok := SignOf(SignID(row[0]))
		if !ok {
			t.Errorf("no sign %s", row[0])
			continue
		}
		if want := levelOf(row[4]); s.Level != want {
			t.Errorf("%s is %s, the reference says %q", s.Code, s.Level, row[4])
		}
		for word, test := range measured {
			if strings.Contains(row[2], word) && !slices.Contains(s.Tests, test) {
				t.Errorf("%s: the reference checks %s, the tests are %v", s.Code, word, s.Tests)
			}
		}
		if strings.Contains(row[2], "KH") && !slices.Contains(s.Tests, journal.NameKH) {
			t.Errorf("%s: the reference checks KH, the tests are %v", s.Code, s.Tests)
		}
		if strings.Contains(row[2], "stray") || strings.Contains(row[2], "electric") {
			if !slices.Contains(s.Notes, "stray_current") || s.Acts[0] != "power_off" {
				t.Errorf("%s: electricity is suspected; notes %v, acts %v", s.Code, s.Notes, s.Acts)
			}
		}
		if strings.Contains(row[2], "conditioner") || strings.Contains(row[2], "chlorine") {
			if !slices.Contains(s.Acts, "conditioner") {
				t.Errorf("%s: chlorine is suspected; acts %v", s.Code, s.Acts)
			}
		}
	}
}

// The governing urgency of every sign by itself and of every pair is that of the
// more urgent one, whatever the order of ticking.
func TestTheMostUrgentSignGoverns(t *testing.T) {
	rows := reference(t)
	n := 0
	for _, a := range rows {
		for _, b := range rows {
			want := max(levelOf(a[4]), levelOf(b[4]))
			u := Reckon(Seen{Signs: []Observed{{Sign: SignID(a[0])}, {Sign: SignID(b[0])}}})
			if u.Level != want || u.Signs[0].Level != want || u.State != want.State() || u.Why[0].Words["Sign"] != u.Signs[0].Message() {
				t.Errorf("%s with %s: %s, want %s", a[0], b[0], u.Level, want)
			}
			n++
		}
	}
	if n != 35*35 {
		t.Errorf("%d pairs", n)
	}
}

func TestTableRefusesWhatItDoesNotKnow(t *testing.T) {
	head := "code,group,level,tests,acts,notes,source\n"
	good := "x,skin,watch,ph,calm,,trade\n"
	if _, err := read(head + good); err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{"", "code\n", head, head + good + good, head + "x,wings,watch,ph,calm,,trade\n", head + "x,skin,soon,ph,calm,,trade\n", head + "x,skin,none,ph,calm,,trade\n",
		head + "x,skin,watch,ph,dance,,trade\n", head + "x,skin,watch,ph,calm,,nobody\n", head + "x,skin,watch,,calm,,trade\n", head + "x,skin\n"} {
		if _, err := read(bad); err == nil {
			t.Errorf("the table %q was read", bad)
		}
	}
}
