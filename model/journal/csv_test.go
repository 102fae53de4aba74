package journal_test

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

// Rows, quoting and line ends. Source: RFC 4180 sections 2.1 to 2.7.
func TestCSV(t *testing.T) {
	var b bytes.Buffer
	err := journal.WriteCSV(&b, []journal.Entry{
		{ID: "a", Kind: journal.Tested, At: "2026-11-25T08:10", Zone: "+01:00", Note: `says "fine", still`, Readings: []journal.Reading{
			{Name: journal.NameNitrite, Measure: quantity.Measure{Number: "0", Unit: "mg/l", Basis: quantity.AsIon}, Qualifier: journal.NotDetected},
			{Name: journal.NameTemperature, Measure: quantity.Measure{Number: "77.10", Unit: "degf"}}}},
		{ID: "b", Kind: journal.Note, At: "2026-11-25T09:00", Zone: "+01:00", Note: `=HYPERLINK("x")`},
	})
	want := "entry,at,kind,step,reading,number,unit,basis,qualifier,note\r\n" +
		"a,2026-11-25T08:10+01:00,tested,,nitrite,,mg/l,ion,not_detected,\"says \"\"fine\"\", still\"\r\n" +
		"a,2026-11-25T08:10+01:00,tested,,temperature,77.10,degf,,,\r\n" +
		"b,2026-11-25T09:00+01:00,note,,,,,,,\"'=HYPERLINK(\"\"x\"\")\"\r\n"
	if got := b.String(); err != nil || got != want {
		t.Errorf("%v\nwant %q\ngot  %q", err, want, got)
	}
}

// Any note comes back as one cell that is no formula, but for the line ends,
// which are those of the format.
func TestCSVOfAnyNote(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		note := rapid.StringOf(rapid.OneOf(rapid.SampledFrom([]rune("=+-@\t\r\n\",;'")), rapid.Rune())).Draw(t, "note")
		var b bytes.Buffer
		if err := journal.WriteCSV(&b, []journal.Entry{{ID: "a", Kind: journal.Note, Note: note}}); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil || len(rows) != 2 {
			t.Fatalf("%d rows, %v", len(rows), err)
		}
		got := rows[1][len(journal.Columns())-1]
		plain := func(s string) string { return strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\r", "") }
		if got != "" && strings.ContainsAny(got[:1], "=+-@\t\r") || plain(strings.TrimPrefix(got, "'")) != plain(strings.TrimPrefix(note, "'")) {
			t.Fatalf("%q became %q", note, got)
		}
	})
}
