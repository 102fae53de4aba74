package slip

import (
	"bytes"
	"crypto/ed25519"
	"fmt"
	"image/color"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
)

// usualVisit is the visit slip of a careful keeper over some days: every field of the
// tank answered, two weighed meals a day, six readings every third day with the kits
// that showed them and a note, a water change a week, a fish that looks wrong and a
// question.
func usualVisit(t *testing.T, days int) Visit {
	t.Helper()
	r := rand.New(rand.NewPCG(1, 2))
	v := Visit{Version: Version, MadeBy: Maker{"Driploop", "v0.5.0"}, ID: "0193a8b2-7c1d-7e55-9f10-0123456789ab", Label: "Tank in the hall", Made: "2026-11-30T09:00", Zone: "+01:00", Language: "en",
		Units: quantity.Metric, Region: "ES", From: "2026-08-01", To: "2026-11-30", Private: []Private{Notes}, Net: quantity.Measure{Number: "54.1", Unit: "l"}, Stand: "steady",
		Facts: map[care.FieldID]care.Answer{}, Questions: []string{"Is it the water, or does the filter need cleaning more often?"}}
	for _, f := range care.Fields() {
		a := care.Answer{Origin: care.FromProfile}
		switch {
		case !VisitFact(f.ID) || IsPrice(f.ID):
			continue
		case f.Type == care.TypeChoice:
			a.Choice = f.Options[0]
		case f.Type == care.TypeMeasure:
			a.Measure = quantity.Measure{Number: fmt.Sprint(10 + r.IntN(80)), Unit: quantity.UnitsOf(f.Kind)[0].Code}
		}
		if checkAnswer(partVisit, "facts", f.ID, a) == nil {
			v.Facts[f.ID] = a
		}
	}
	for i, s := range []string{"paracheirodon-innesi", "corydoras-paleatus", "neocaridina-davidi"} {
		v.Stock = append(v.Stock, Animal{Species: s, Count: 8 + i, Since: "2026-09-01"})
	}
	v.Case = &VisitCase{About: "Old Grey", Species: "corydoras-paleatus", Many: "one", Opened: "2026-11-20T18:00",
		Signs: []VisitSign{{"clamped_fins", "2026-11-20T18:00", ""}, {"gasping_surface", "2026-11-22T18:10", "2026-11-24T08:00"}}}
	first := time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC).AddDate(0, 0, -days)
	for d := range days {
		entry := func(kind journal.Kind, hour int, rs ...journal.Reading) VisitEntry {
			at := first.AddDate(0, 0, d).Add(time.Duration(hour*60+r.IntN(50)) * time.Minute)
			return VisitEntry{Entry: journal.Entry{Kind: kind, At: journal.CivilOf(at), Zone: "+01:00", Readings: rs}}
		}
		measure := func(name, number string, unit quantity.UnitCode, basis quantity.Basis) journal.Reading {
			return journal.Reading{Name: name, Measure: quantity.Measure{Number: number, Unit: unit, Basis: basis}}
		}
		fed := func(hour int) VisitEntry {
			return entry(journal.Fed, hour, measure(journal.NameFeed, fmt.Sprintf("0.%d", 10+r.IntN(20)), "g", ""))
		}
		v.Entries = append(v.Entries, fed(0), fed(10))
		if d%3 == 0 {
			e := entry(journal.Tested, 5, measure(journal.NamePH, fmt.Sprintf("%.1f", 6.5+r.Float64()), "ph", ""),
				measure(journal.NameTemperature, fmt.Sprintf("%.1f", 24+2*r.Float64()), "degc", ""), measure(journal.NameKH, fmt.Sprint(3+r.IntN(3)), "dkh", ""))
			e.Kits = map[string]string{}
			for _, n := range []string{journal.NameAmmonia, journal.NameNitrite, journal.NameNitrate} {
				e.Readings = append(e.Readings, measure(n, fmt.Sprintf("%.2f", 3*r.Float64()), "mg/l", quantity.AsIon))
				e.Kits[n] = "Drops, " + n
			}
			e.Note = fmt.Sprintf("Tested in the evening, %d bubbles a minute.", r.IntN(1000))
			v.Entries = append(v.Entries, e)
		}
		if d%7 == 0 {
			v.Entries = append(v.Entries, entry(journal.Changed, 6, measure(journal.NameVolume, fmt.Sprint(10+r.IntN(10)), "l", "")))
		}
	}
	return v
}

// usualReply is what a shop answers: its own test, advice in two languages, a round and
// a change of the plan.
func usualReply() Reply {
	return Reply{Version: Version, MadeBy: Maker{"Driploop", "v0.5.0"}, ID: "0193a8b2-7c1d-7e55-9f10-0123456789ab", Visit: "0193a8b2-7c1d-7e55-9f10-0123456789ac", Made: "2026-11-30T09:00", Zone: "+01:00",
		Shop: Shop{"The shop at the corner", "1 High Street\nTown", "9 to 6"},
		Test: &ShopTest{At: "2026-11-30T08:50", Zone: "+01:00", Readings: []journal.Reading{{Name: journal.NameNitrite, Measure: quantity.Measure{Number: "0.3", Unit: "mg/l", Basis: quantity.AsN}},
			{Name: journal.NamePH, Measure: quantity.Measure{Number: "7.1", Unit: "ph"}}}},
		Advice: map[string]string{"en": "Feed every other day until nitrite stays away. Change a third of the water twice a week, with water of the same temperature, and bring a sample again after ten days.",
			"es": "Da de comer cada dos días hasta que el nitrito desaparezca. Cambia un tercio del agua dos veces por semana."},
		Rounds: []ProposedRound{{Code: rounds.Test, Rule: "FREQ=DAILY", Why: "Until nitrite stays away."}},
		Plan:   []ProposedAnimals{{Change: PlanHold, Species: "paracheirodon-innesi", Why: "Not before the water is steady."}}}
}

// How many codes usual slips take: what the format's description says of them.
func TestUsualSlipsFitASheet(t *testing.T) {
	for days, want := range map[int]int{14: 2, 30: 3, 90: 4} {
		b, err := writeVisit(usualVisit(t, days), sheetKey)
		if err != nil {
			t.Fatal(err)
		}
		codes, err := Codes(b)
		t.Logf("%d days: %d bytes, deflated %d", days, len(b), len(squeezed(t, b)))
		if err != nil || len(codes) != want {
			t.Errorf("%d days take %d codes, want %d: %v", days, len(codes), want, err)
		}
	}
	b, err := writeReply(usualReply(), sheetKey)
	if err != nil {
		t.Fatal(err)
	}
	if codes, err := Codes(b); err != nil || len(codes) != 1 {
		t.Errorf("a reply takes %d codes: %v", len(codes), err)
	}
	// A year of it is too long, which is said rather than cut.
	if b, err = writeVisit(usualVisit(t, 365), sheetKey); err != nil {
		t.Fatal(err)
	}
	if codes, err := Codes(b); codeOf(t, err) != CodeSheetLong {
		t.Errorf("a year takes %d codes: %v", len(codes), err)
	}
}

// Codes of different sheets do not make one: two visits, a visit and a profile, a visit
// and the same visit signed by somebody else, a reply and its visit. What was gathered
// before stays, and a repeated, missing or shortened code makes nothing up.
func TestSheetsOfSlipsAreNotMixed(t *testing.T) {
	codes := func(b []byte, err error) []string {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		out, err := Codes(b)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	v := usualVisit(t, 14)
	mine := codes(writeVisit(v, sheetKey))
	other := v
	other.ID = "another"
	for what, texts := range map[string][]string{"another visit": codes(writeVisit(other, sheetKey)), "another's signature": codes(writeVisit(v, ed25519.NewKeyFromSeed(make([]byte, ed25519.SeedSize)))),
		"not signed": codes(writeVisit(v, nil)), "a profile": codes(write(t, Profile{Units: "us", Tank: "a"}), nil), "a reply": codes(writeReply(usualReply(), sheetKey))} {
		for _, text := range texts {
			var s Sheet
			if err := s.Add(mine[0]); err != nil {
				t.Fatal(err)
			}
			if err := s.Add(text); codeOf(t, err) != CodeSheetMixed {
				t.Errorf("%s among the codes of a visit: %v", what, err)
			}
			for range 3 { // the same code in several pictures
				if err := s.Add(mine[0]); err != nil {
					t.Errorf("%s, then the same code again: %v", what, err)
				}
			}
			if have, of := s.Have(); have != 1 || of != len(mine) {
				t.Errorf("%s: %d of %d", what, have, of)
			}
			if _, err := s.File(); codeOf(t, err) != CodeSheetParts {
				t.Errorf("%s, with one code missing: %v", what, err)
			}
			for _, m := range mine[1:] {
				if err := s.Add(m); err != nil {
					t.Errorf("%s, then its own: %v", what, err)
				}
			}
			file, err := s.File()
			if err != nil {
				t.Fatal(err)
			}
			if format, err := FormatOf(bytes.NewReader(file), int64(len(file))); err != nil || format != FormatVisit {
				t.Errorf("%s: the sheet is a %q, %v", what, format, err)
			}
		}
	}
	for n := range mine[1] {
		var s Sheet
		if err := s.Add(mine[0]); err != nil {
			t.Fatal(err)
		}
		if err := s.Add(mine[1][:n]); err != nil {
			if c := codeOf(t, err); c != CodeSheetDamaged && c != CodeSheetOther {
				t.Errorf("a code cut after %d characters: %v", n, err)
			}
			continue
		}
		if _, err := s.File(); codeOf(t, err) != CodeSheetDamaged {
			t.Errorf("a code cut after %d characters makes a file: %v", n, err)
		}
	}
}

// A visit on paper leaves its pictures, their marks and places behind, and says how many.
func TestWithoutPictures(t *testing.T) {
	v := usualVisit(t, 14)
	v.Private = []Private{Places, Notes}
	v.Pictures = []VisitPicture{{JPEG: paint(20, 10, color.White), OfCase: true, Place: &photo.Place{Latitude: 40, Longitude: 3}}, {JPEG: paint(20, 11, color.White), Caption: "left flank"}}
	p := v.WithoutPictures()
	if len(p.Pictures) != 0 || p.Apart != 2 || len(p.Private) != 1 || p.Private[0] != Notes || len(v.Pictures) != 2 || len(v.Private) != 2 {
		t.Errorf("without pictures: %d, %d apart, private %v; before: %d, %v", len(p.Pictures), p.Apart, p.Private, len(v.Pictures), v.Private)
	}
	b, err := writeVisit(p, sheetKey)
	if err != nil {
		t.Fatal(err)
	}
	got, _, err := readVisit(b)
	if err != nil || got.Apart != 2 || !strings.Contains(string(unzip(t, b)[partVisit]), `"pictures_apart": 2`) {
		t.Errorf("read %d apart, %v", got.Apart, err)
	}
	if again := got.WithoutPictures(); again.Apart != 2 {
		t.Errorf("on paper once more: %d apart", again.Apart)
	}
}
