package sick

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"example.org/driploop/model/journal"
)

// tenYears is a daybook of eight entries a day.
func tenYears() []journal.Entry {
	var es []journal.Entry
	for d := range 3650 {
		for h := range 8 {
			t := noon.AddDate(0, 0, d-3650).Add(time.Duration(h) * time.Hour)
			e := journal.Entry{ID: fmt.Sprint(d, h), Kind: journal.Fed, At: journal.CivilOf(t), Zone: "+00:00", Seq: int64(d*8 + h), Readings: []journal.Reading{grams("0.1")}}
			switch {
			case h%2 == 1:
				e.Kind, e.Readings = journal.Temperature, []journal.Reading{degrees("25")}
			case h == 4 && d%7 == 0:
				e.Kind, e.Readings = journal.Changed, nil
			}
			es = append(es, e)
		}
	}
	return es
}

// BenchmarkChanges beside one walk over the same entries, the least that
// anything that reads a daybook costs.
func BenchmarkChanges(b *testing.B) {
	es := tenYears()
	b.Run("changes", func(b *testing.B) {
		for b.Loop() {
			Changes(es, now)
		}
	})
	b.Run("one walk", func(b *testing.B) {
		for b.Loop() {
			if slices.ContainsFunc(es, func(e journal.Entry) bool { return e.ID == "" }) {
				b.Fatal("an entry without an id")
			}
		}
	})
}

// Ten years before the window change nothing that is told of it, but for what
// was usual.
func TestOldEntriesTellNothing(t *testing.T) {
	got := said(Changes(tenYears(), now))
	if !slices.Equal(got, said(Changes(tenYears()[3000*8:], now))) {
		t.Errorf("ten years tell %v", got)
	}
}
