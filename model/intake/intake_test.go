package intake

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

func usual(k quantity.Kind) quantity.Reading {
	u, _ := k.Base()
	r := quantity.Reading{Unit: u.Code, System: quantity.Metric, Decimal: '.'}
	if k == quantity.KindTemperature {
		r.Unit = "degc"
	}
	if k == quantity.KindConcentration {
		r.Unit = "mg/l"
	}
	return r
}

func hints() Hints {
	value := func(name string) As { return As{Role: Value, Reading: name} }
	return Hints{Heads: map[string]As{"date": {Role: Date}, "datum": {Role: Date}, "time": {Role: Clock}, "note": {Role: Note}, "kind": {Role: Kind}, "temp": value("temperature"),
		"no2": value("nitrite"), "nitrite": value("nitrite"), "ph": value("ph"), "no3": value("nitrate"), "reading": {Role: Name}, "number": {Role: Number}, "unit": {Role: Unit},
		"at": {Role: Date}, "entry": {Role: Entry}, "basis": {Role: BasisOf}, "qualifier": {Role: Qualifier}, "temperature": value("temperature"), "nitrate": value("nitrate"), "step": {Role: Step},
		"volume": value("volume"), "dose": value("dose"), "count": value("count"), "what": value("what")},
		Kinds:      map[string]journal.Kind{"tested": journal.Tested, "fed": journal.Fed, "note": journal.Note, "temperature": journal.Temperature, "waterchange": journal.Changed, "changed": journal.Changed},
		Qualifiers: map[string]journal.Qualifier{"nd": journal.NotDetected, "notdetected": journal.NotDetected, "not_detected": journal.NotDetected, "overrange": journal.OverRange},
		Usual:      usual, Order: DayFirst, Now: time.Date(2026, 11, 25, 12, 0, 0, 0, time.FixedZone("", 3600))}
}

func read(t testing.TB, text string) *Sheet {
	t.Helper()
	s, err := Read(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func check(e journal.Entry) error { return e.Check() }

// one reads a table of one row and gives its entry.
func one(t testing.TB, text string) journal.Entry {
	t.Helper()
	s := read(t, text)
	r := s.Entries(s.Guess(hints()), hints(), check)
	if len(r.Entries) != 1 || r.Lines[0].Err != nil {
		t.Fatalf("%q: %+v", text, r)
	}
	return r.Entries[0]
}

// TestTablesOfManyHands: separators, marks, headings, units and dates as they come.
func TestTablesOfManyHands(t *testing.T) {
	for _, c := range []struct {
		name, text, at, zone string
		kind                 journal.Kind
		readings             string
	}{
		{"commas", "date,temp,note\n2025-03-04,24.5,clear\n", "2025-03-04T12:00", "+01:00", journal.Temperature, "temperature 24.5 degc"},
		{"semicolons and decimal commas", "Datum;Temp;NO2\n04.03.2025 08:10;24,5;0,25\n", "2025-03-04T08:10", "+01:00", journal.Tested, "temperature 24.5 degc, nitrite 0.25 mg/l ion"},
		{"tabs, a mark of order, CRLF", "\ufeffdate\ttime\tno3\r\n3/4/2025\t8:10 pm\t10\r\n", "2025-04-03T20:10", "+01:00", journal.Tested, "nitrate 10 mg/l ion"},
		{"unit in the heading", "date,Temp (°F),NO2-N [ppm]\n2025-12-31,77,0.1\n", "2025-12-31T12:00", "+01:00", journal.Tested, "temperature 77 degf, nitrite 0.1 mg/l n"},
		{"unit in the cell", "date,temp\n2025-12-31,77 °F\n", "2025-12-31T12:00", "+01:00", journal.Temperature, "temperature 77 degf"},
		{"not detected", "date,no2,no3\n2025-12-31,<0.05,n.d.\n", "2025-12-31T12:00", "+01:00", journal.Tested, "nitrite 0.05 mg/l ion not_detected, nitrate 0 mg/l ion not_detected"},
		{"beyond the kit", "date,no3\n2025-12-31,> 100\n", "2025-12-31T12:00", "+01:00", journal.Tested, "nitrate 100 mg/l ion over_range"},
		{"month first by the data", "date,ph\n12/31/2025,7.4\n", "2025-12-31T12:00", "+01:00", journal.Tested, "ph 7.4 ph"},
		{"zone of its own", "date,ph\n2025-12-31T08:10:30-05:00,7.4\n", "2025-12-31T08:10", "-05:00", journal.Tested, "ph 7.4 ph"},
		{"no heading", "2025-12-31,7.4\n", "2025-12-31T12:00", "+01:00", journal.Note, ""},
		{"year of two figures", "date,ph\n31/12/99,7\n", "1999-12-31T12:00", "+01:00", journal.Tested, "ph 7 ph"},
		{"quoted line ends", "date,note\n2025-12-31,\"one\ntwo, three\"\n", "2025-12-31T12:00", "+01:00", journal.Note, ""},
		{"kind in words", "date,kind\n2025-12-31,Water change\n", "2025-12-31T12:00", "+01:00", journal.Changed, ""},
		{"leap day", "date,ph\n29.02.2024,7\n", "2024-02-29T12:00", "+01:00", journal.Tested, "ph 7 ph"},
	} {
		if c.name == "no heading" {
			s := read(t, c.text)
			if p := s.Guess(hints()); p.Columns[0].Role != Date || p.Columns[1].Role != Nothing {
				t.Errorf("%s: %+v", c.name, p)
			}
			continue
		}
		e := one(t, c.text)
		var got []string
		for _, r := range e.Readings {
			got = append(got, strings.TrimSpace(strings.Join([]string{r.Name, r.Measure.Number, string(r.Measure.Unit), string(r.Measure.Basis), string(r.Qualifier)}, " ")))
		}
		for i := range got {
			got[i] = strings.Join(strings.Fields(got[i]), " ")
		}
		if string(e.At) != c.at || e.Zone != c.zone || e.Kind != c.kind || strings.Join(got, ", ") != c.readings {
			t.Errorf("%s: %s %s %s %q", c.name, e.At, e.Zone, e.Kind, got)
		}
	}
}

// TestRowsAreToldOfByLine: each is taken or refused for its own reason; blank lines
// count.
func TestRowsAreToldOfByLine(t *testing.T) {
	s := read(t, "date,ph,temp\n\n2025-01-02,7.4,25\n2025-02-30,7.4,\n2025-01-03,\"1,234\",\n\"2025-01-04\",\"12\",\n2025-01-05 25:00,7,\n2025-01-06,seven,\n2025-01-07,,25 l\n,7,\n")
	r := s.Entries(s.Guess(hints()), hints(), check)
	want := []struct {
		line int
		ok   bool
	}{{3, true}, {4, false}, {5, false}, {6, false}, {7, false}, {8, false}, {9, false}, {10, false}}
	if len(r.Lines) != len(want) || len(r.Entries) != 1 {
		t.Fatalf("%+v", r)
	}
	for i, w := range want {
		if l := r.Lines[i]; l.Line != w.line || (l.Err == nil) != w.ok {
			t.Errorf("row %d: %+v, want line %d, taken %v", i, l, w.line, w.ok)
		}
	}
}

// TestDoubt: a table that never goes past the twelfth tells nothing.
func TestDoubt(t *testing.T) {
	s := read(t, "date,ph\n05/05/2025,7\n03/04/2025,7\n")
	if text, a, b, doubt := s.Doubt(s.Guess(hints())); !doubt || text != "03/04/2025" || a.Month() != time.April || b.Month() != time.March {
		t.Errorf("%q %v %v %v", text, a, b, doubt)
	}
	for _, sure := range []string{"date,ph\n13/04/2025,7\n03/04/2025,7\n", "date,ph\n2025-03-04,7\n", "date,ph\n04/13/2025,7\n03/04/2025,7\n", "date,ph\n05/05/2025,7\n"} {
		s := read(t, sure)
		if _, _, _, doubt := s.Doubt(s.Guess(hints())); doubt {
			t.Errorf("%q is in doubt", sure)
		}
	}
}

// TestOwnExport: what we write comes in as the same entries.
func TestOwnExport(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var entries []journal.Entry
		for i := range rapid.IntRange(1, 8).Draw(t, "entries") {
			e := journal.Entry{ID: strings.Repeat("e", i+1), Kind: journal.Tested, At: journal.CivilOf(time.Date(2020, 1, 1+rapid.IntRange(0, 2000).Draw(t, "day"), 8, 10, 0, 0, time.UTC)), Zone: "-03:30"}
			e.Note = rapid.SampledFrom([]string{"", "=1+1", "a, b; c", "\"quoted\"", "two\nlines", "水 🐟", "'tis"}).Draw(t, "note")
			for _, name := range rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"nitrite", "nitrate", "temperature", "ph"}), 1, 4, rapid.ID).Draw(t, "names") {
				r := journal.Reading{Name: name, Measure: quantity.Measure{Number: "7.25", Unit: "mg/l", Basis: quantity.AsN}}
				switch name {
				case "temperature":
					r.Measure.Number, r.Measure.Unit, r.Measure.Basis = "77.25", "degf", ""
				case "ph":
					r.Measure.Unit, r.Measure.Basis = "ph", ""
				default:
					if rapid.Bool().Draw(t, "none") {
						r.Qualifier = journal.NotDetected
					}
				}
				e.Readings = append(e.Readings, r)
			}
			entries = append(entries, e)
		}
		var b bytes.Buffer
		if err := journal.WriteCSV(&b, entries); err != nil {
			t.Fatal(err)
		}
		s, err := Read(&b)
		if err != nil {
			t.Fatal(err)
		}
		r := s.Entries(s.Guess(hints()), hints(), check)
		if len(r.Entries) != len(entries) {
			t.Fatalf("%d entries went out, %d came in: %+v", len(entries), len(r.Entries), r.Lines)
		}
		for i, e := range r.Entries {
			w := entries[i]
			if e.At != w.At || e.Zone != w.Zone || e.Kind != w.Kind || e.Note != w.Note || len(e.Readings) != len(w.Readings) {
				t.Fatalf("%+v came back as %+v", w, e)
			}
			for j, r := range e.Readings {
				if r.Qualifier != w.Readings[j].Qualifier || r.Measure.Unit != w.Readings[j].Measure.Unit || r.Measure.Basis != w.Readings[j].Measure.Basis ||
					r.Qualifier == journal.Plain && r.Measure.Number != w.Readings[j].Measure.Number {
					t.Fatalf("%+v came back as %+v", w.Readings[j], r)
				}
			}
		}
	})
}

// TestWhatIsNoTable is refused in words.
func TestWhatIsNoTable(t *testing.T) {
	for name, c := range map[string]struct{ text, code string }{
		"nothing":         {"", "refuse.intake.empty"},
		"only spaces":     {" \n\t\n", "refuse.intake.empty"},
		"only a heading":  {"date,ph\n", ""},
		"UTF-16":          {"\xff\xfed\x00a\x00", "refuse.intake.not_utf8"},
		"Latin-1":         {"fecha,d\xeda\n", "refuse.intake.not_utf8"},
		"zero bytes":      {"a,b\x00\n", "refuse.intake.not_text"},
		"too many":        {"date\n" + strings.Repeat("x\n", MaxRows+2), "refuse.intake.rows"},
		"too wide":        {strings.Repeat("a,", MaxColumns+1) + "\n", "refuse.intake.columns"},
		"only commas":     {strings.Repeat(",", MaxBytes-1), "refuse.intake.columns"},
		"a long cell":     {"date\n" + strings.Repeat("x", MaxCell+1), "refuse.intake.cell"},
		"a quote left on": {"date,note\n2025-01-01,\"" + strings.Repeat("x\n", MaxCell), "refuse.intake.cell"},
		"too large":       {strings.Repeat("x", MaxBytes+1), "refuse.intake.too_big"},
	} {
		_, err := Read(strings.NewReader(c.text))
		if (err == nil) != (c.code == "") || err != nil && !strings.Contains(err.Error(), c.code) {
			t.Errorf("%s: %v, want %s", name, err, c.code)
		}
	}
}

// FuzzAnyTable: any bytes at all are refused or give entries that the daybook takes,
// with a line for every row.
func FuzzAnyTable(f *testing.F) {
	for _, seed := range []string{"date,ph\n2025-01-02,7\n", "a;b\n\"", "\"\"\"", "=cmd|' /C calc'!A0", "1/1/1,2\n", "date\n00/00/0000", "date,temp\n2025-01-01,NaN\n2025-01-01,1e308\n2025-01-01,-0\n", "entry,at,kind,reading,number\n1,2025-01-01,tested,ph,7\n1,2025-01-01,tested,ph,7\n", "9999-12-31,\u202e7"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := Read(bytes.NewReader(data))
		if err != nil {
			if s != nil {
				t.Fatal("refused, and yet there is a table")
			}
			return
		}
		p := s.Guess(hints())
		r := s.Entries(p, hints(), check)
		if len(r.Lines) != len(s.Rows) {
			t.Fatalf("%d rows, %d lines", len(s.Rows), len(r.Lines))
		}
		for _, l := range r.Lines {
			if (l.Err == nil) != (l.Entry >= 0) || l.Line < 1 {
				t.Fatalf("%+v", l)
			}
		}
		for _, e := range r.Entries {
			if err := e.Check(); err != nil {
				t.Fatalf("%+v: %v", e, err)
			}
		}
	})
}
