package sick

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

const now = journal.Civil("2026-11-25T12:00")

// at makes an entry some hours before noon.
func at(hours int, kind journal.Kind, note string, readings ...journal.Reading) journal.Entry {
	t := noon.Add(-time.Duration(hours) * time.Hour)
	return journal.Entry{ID: fmt.Sprintf("%s%d%s", kind, hours, note), Kind: kind, At: journal.CivilOf(t), Zone: "+00:00", Note: note, Readings: readings}
}

func degrees(x string) journal.Reading {
	return journal.Reading{Name: journal.NameTemperature, Measure: quantity.Measure{Number: x, Unit: "degc"}}
}

func grams(x string) journal.Reading {
	return journal.Reading{Name: journal.NameFeed, Measure: quantity.Measure{Number: x, Unit: "g"}}
}

func said(cs []Change) []working.Key {
	var out []working.Key
	for _, c := range cs {
		out = append(out, c.Finding.Code[len("find.sick.was."):])
	}
	return out
}

func TestChangesOfTheLastDays(t *testing.T) {
	day := 24
	fed := func(grams ...journal.Reading) []journal.Entry {
		var out []journal.Entry
		for i, g := range grams {
			out = append(out, at((len(grams)-i)*day-2, journal.Fed, "", g))
		}
		return out
	}
	for _, c := range []struct {
		name string
		es   []journal.Entry
		want []working.Key
	}{
		{"nothing", nil, nil},
		{"new fish", []journal.Entry{at(5*day, journal.FishIn, "neons")}, []working.Key{"fish_in"}},
		{"new fish, too long ago", []journal.Entry{at(15*day, journal.FishIn, "neons")}, nil},
		{"new fish, on the edge", []journal.Entry{at(14*day, journal.FishIn, "neons")}, []working.Key{"fish_in"}},
		{"not yet", []journal.Entry{at(-3, journal.PowerCut, "")}, nil},
		{"dead fish, power, kit, dose", []journal.Entry{at(9, journal.FishOut, ""), at(8, journal.PowerCut, ""), at(7, journal.Kit, "filter stood"), at(6, journal.Dosed, "")},
			[]working.Key{"dosed", "kit", "power_cut", "fish_out"}},
		{"swing within a day", []journal.Entry{at(40, journal.Temperature, "", degrees("25")), at(30, journal.Tested, "", degrees("22.5"))}, []working.Key{"swing"}},
		{"two degrees are none", []journal.Entry{at(40, journal.Temperature, "", degrees("25")), at(30, journal.Temperature, "", degrees("23"))}, nil},
		{"over more than a day", []journal.Entry{at(40, journal.Temperature, "", degrees("25")), at(15, journal.Temperature, "", degrees("20"))}, nil},
		{"more food", fed(grams("0.1"), grams("0.1"), grams("0.12"), grams("0.3")), []working.Key{"more_food"}},
		{"no habit yet", fed(grams("0.1"), grams("0.1"), grams("0.3")), nil},
		{"half as much again less a crumb", fed(grams("0.1"), grams("0.1"), grams("0.1"), grams("0.149")), nil},
		{"other food", []journal.Entry{at(60, journal.Fed, "Flake"), at(50, journal.Fed, " flake"), at(20, journal.Fed, "frozen cubes")}, []working.Key{"other_food"}},
		{"the first food", []journal.Entry{at(60, journal.Fed, "flake")}, nil},
		{"just changed", []journal.Entry{at(5, journal.Changed, "")}, []working.Key{"changed"}},
		{"changed cold", []journal.Entry{at(9, journal.Temperature, "", degrees("25")), at(5, journal.Changed, "", degrees("18"))}, []working.Key{"odd_water"}},
		{"filled after the last change", []journal.Entry{at(40*day, journal.Changed, ""), at(3*day, journal.Filled, "")}, []working.Key{"filled"}},
		{"no change for long", []journal.Entry{at(20*day, journal.Changed, "")}, []working.Key{"no_change"}},
		{"late by habit", []journal.Entry{at(30*day, journal.Changed, ""), at(26*day, journal.Changed, ""), at(22*day, journal.Changed, ""), at(18*day, journal.Changed, ""), at(14*day, journal.Changed, ""), at(10*day, journal.Changed, "")}, []working.Key{"no_change"}},
		{"not late by habit", []journal.Entry{at(31*day, journal.Changed, ""), at(24*day, journal.Changed, ""), at(17*day, journal.Changed, ""), at(10*day, journal.Changed, "")}, nil},
		{"never changed", []journal.Entry{at(20*day, journal.Filled, ""), at(3, journal.Note, "x")}, []working.Key{"never_changed"}},
	} {
		if got := said(Changes(c.es, now)); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func anyEntries(t *rapid.T) []journal.Entry {
	var es []journal.Entry
	for i := range rapid.IntRange(0, 40).Draw(t, "entries") {
		e := at(rapid.IntRange(-48, 40*24).Draw(t, "hours"), rapid.SampledFrom(journal.Kinds()).Draw(t, "kind"), rapid.SampledFrom([]string{"", "flake", "cubes"}).Draw(t, "note"))
		e.ID, e.Seq = fmt.Sprint(i), int64(i)
		switch e.Kind {
		case journal.Fed:
			e.Readings = []journal.Reading{grams(rapid.SampledFrom([]string{"0.1", "0.2", "0.5", "none"}).Draw(t, "food"))}
		case journal.Temperature, journal.Changed:
			e.Readings = []journal.Reading{degrees(rapid.SampledFrom([]string{"18", "24", "25", "29"}).Draw(t, "degrees"))}
		}
		es = append(es, e)
	}
	return es
}

// Each change names an entry of the window that is there, once, the newest
// first; the order in which entries come does not matter, and notes change nothing.
func TestChangesPointAtEntries(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		es := anyEntries(t)
		got := Changes(es, now)
		seen := map[string]bool{}
		for i, c := range got {
			if c.Entry == "" {
				if c.At != "" || i > 0 && got[i-1].Entry != "" {
					t.Fatalf("%+v stands at %d", c, i)
				}
				continue
			}
			j := slices.IndexFunc(es, func(e journal.Entry) bool { return e.ID == c.Entry })
			if j < 0 || es[j].At != c.At || c.Days < 0 || c.Days > Window || c.At > now {
				t.Fatalf("%+v is no entry of the window", c)
			}
			key := c.Entry + string(c.Finding.Code)
			if seen[key] || i > 0 && got[i-1].Entry != "" && got[i-1].At < c.At {
				t.Fatalf("%+v stands twice or out of order", c)
			}
			seen[key] = true
		}
		for _, e := range es {
			d, err := journal.DaysBetween(e.At, now)
			if _, tells := told[e.Kind]; tells && err == nil && e.At <= now && d <= Window && !slices.ContainsFunc(got, func(c Change) bool { return c.Entry == e.ID }) {
				t.Fatalf("%+v is missing", e)
			}
		}
		turned := slices.Clone(es)
		slices.Reverse(turned)
		if !slices.Equal(said(Changes(turned, now)), said(got)) {
			t.Fatal("the order of entries matters")
		}
		noted := append(slices.Clone(es), at(3, journal.Noticed, "spots"))
		if !slices.Equal(said(Changes(noted, now)), said(got)) {
			t.Fatal("a notice changed what has changed")
		}
	})
}

// What an entry says in words decides what is told of it.
func TestWhatAnEntrySays(t *testing.T) {
	es := []journal.Entry{at(9, journal.FishOut, "", journal.Said(journal.NameReason, "died")), at(8, journal.FishOut, "", journal.Said(journal.NameReason, "sold")),
		at(7, journal.Kit, "", journal.Said(journal.NameState, "failed")), at(6, journal.Fed, "", journal.Said(journal.NameWhat, "Flake")), at(5, journal.Fed, "much", journal.Said(journal.NameWhat, "frozen cubes"))}
	got := Changes(es, now)
	if want := []working.Key{"other_food", "kit_failed", "fish_out", "fish_died"}; !slices.Equal(said(got), want) {
		t.Errorf("%v, want %v", said(got), want)
	}
	if got[0].Finding.Text["Food"] != "frozen cubes" {
		t.Errorf("the food is %q", got[0].Finding.Text["Food"])
	}
}

// By hand: filled 38 days ago and never changed is 38 days, though a picture of years
// ago stands in the daybook.
func TestNeverChangedCountsFromTheFill(t *testing.T) {
	es := []journal.Entry{at(8000*24, journal.Photo, ""), at(38*24, journal.Filled, "")}
	got := Changes(es, now)
	if len(got) != 1 || got[0].Finding.Code != "find.sick.was.never_changed" || got[0].Days != 38 {
		t.Errorf("%+v", got)
	}
}
