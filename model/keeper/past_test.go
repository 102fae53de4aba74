package keeper_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

func r(name, number string, unit quantity.UnitCode, basis quantity.Basis) journal.Reading {
	return journal.Reading{Name: name, Measure: quantity.Measure{Number: number, Unit: unit, Basis: basis}}
}

// Every edit keeps how the entry stood; an earlier state comes back as an edit of
// its own; undo takes edits and what they kept back, over a restart as well.
func TestEditsKeepWhatWas(t *testing.T) {
	ctx, c, dir := context.Background(), noon(), t.TempDir()
	k := open(t, dir, c)
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	e, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Fed, Note: "one", Readings: []journal.Reading{r(journal.NameFeed, "0.10", "g", ""), journal.Said(journal.NameWhat, "flake")}})
	must(t, err)
	edit := func(note, feed string) {
		t.Helper()
		x, err := k.Entry(ctx, id, e)
		must(t, err)
		x.Note, x.Readings = note, []journal.Reading{r(journal.NameFeed, feed, "g", "")}
		c.t = c.t.Add(time.Minute)
		must(t, k.EditEntry(ctx, id, x))
	}
	edit("two", "0.20")
	edit("three", "0.30")
	edit("three", "0.30") // says nothing new
	past, err := k.EntryPast(ctx, id, e)
	must(t, err)
	if len(past) != 2 || past[0].Entry.Note != "two" || past[1].Entry.Note != "one" || past[1].N != 1 || len(past[1].Entry.Readings) != 2 {
		t.Fatalf("past: %+v", past)
	}
	if f, _ := past[1].Entry.Get(journal.NameFeed); f.Measure.Number != "0.10" {
		t.Errorf("the digits were not kept: %q", f.Measure.Number)
	}
	if !past[0].Until.Equal(c.t.Add(-time.Minute)) || !past[1].Until.Equal(c.t.Add(-2*time.Minute)) {
		t.Errorf("until %v, %v", past[0].Until, past[1].Until)
	}
	must(t, k.RestorePast(ctx, id, e, 1))
	if x, _ := k.Entry(ctx, id, e); x.Note != "one" || len(x.Readings) != 2 {
		t.Errorf("restored: %+v", x)
	}
	if past, _ = k.EntryPast(ctx, id, e); len(past) != 3 || past[0].Entry.Note != "three" {
		t.Errorf("past after restoring: %+v", past)
	}
	if k.RestorePast(ctx, id, e, 9) == nil {
		t.Error("a state that never was came back")
	}
	must(t, k.Close())
	k = open(t, dir, c)
	defer k.Close()
	for _, want := range []string{"three", "two", "one"} {
		if _, _, err := k.Undo(ctx, id); err != nil {
			t.Fatal(err)
		}
		if x, _ := k.Entry(ctx, id, e); x.Note != want {
			t.Errorf("undo after a restart: %q, want %q", x.Note, want)
		}
	}
	if past, _ = k.EntryPast(ctx, id, e); len(past) != 0 {
		t.Errorf("past after all undone: %+v", past)
	}
	for range 3 {
		if _, _, err := k.Redo(ctx, id); err != nil {
			t.Fatal(err)
		}
	}
	if past, _ = k.EntryPast(ctx, id, e); len(past) != 3 {
		t.Errorf("past after all redone: %+v", past)
	}
}

func TestTheBinGivesBack(t *testing.T) {
	ctx := context.Background()
	k := open(t, t.TempDir(), noon())
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	e, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Temperature, Readings: []journal.Reading{r(journal.NameTemperature, "24.5", "degc", "")}})
	must(t, err)
	if b, err := k.Bin(ctx, id); err != nil || len(b) != 0 {
		t.Fatalf("bin at first: %v, %v", b, err)
	}
	if k.RestoreEntry(ctx, id, e) == nil {
		t.Error("what is not in the bin came out of it")
	}
	must(t, k.DeleteEntry(ctx, id, e))
	b, err := k.Bin(ctx, id)
	must(t, err)
	if len(b) != 1 || b[0].Entry.ID != e || len(b[0].Entry.Readings) != 1 || b[0].Deleted.IsZero() {
		t.Fatalf("bin: %+v", b)
	}
	must(t, k.RestoreEntry(ctx, id, e))
	if _, err := k.Entry(ctx, id, e); err != nil {
		t.Error(err)
	}
	if _, _, err := k.Undo(ctx, id); err != nil {
		t.Fatal(err)
	}
	if b, _ = k.Bin(ctx, id); len(b) != 1 {
		t.Errorf("undo did not put it back into the bin: %+v", b)
	}
}

// Text of any script is kept to the rune; what cannot be kept is refused by field.
func TestHostileNotes(t *testing.T) {
	ctx := context.Background()
	k := open(t, t.TempDir(), noon())
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	for _, note := range []string{"🐟💧 👩‍👩‍👧", "הדג נראה עייף", "سمكة", "\u202egninepo\u202c", "a\nb\tc", strings.Repeat("ñ", journal.MaxNote)} {
		e, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Note, Note: note})
		must(t, err)
		if x, err := k.Entry(ctx, id, e); err != nil || x.Note != note {
			t.Errorf("%.20q came back as %.20q, %v", note, x.Note, err)
		}
	}
	for _, note := range []string{strings.Repeat("x", 1<<20), "a\x00b", "\xff\xfe"} {
		_, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Note, Note: note})
		if field(err) != "note" {
			t.Errorf("%.10q: %v, want a refusal of the note", note, err)
		}
	}
	for _, word := range []string{"", "  ", "a\nb", strings.Repeat("x", 201), "\xff"} {
		_, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Fed, Readings: []journal.Reading{journal.Said(journal.NameWhat, word)}})
		if field(err) != journal.NameWhat {
			t.Errorf("%.10q: %v, want a refusal of the words", word, err)
		}
	}
	if _, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.FishOut, Readings: []journal.Reading{journal.Said(journal.NameReason, "vanished")}}); field(err) != journal.NameReason {
		t.Errorf("a reason that is none of ours: %v", err)
	}
}
