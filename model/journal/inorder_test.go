package journal

import (
	"slices"
	"testing"
)

// Every name that a reading can have is in the order, and nothing is lost or made twice.
func TestReadingsInOrder(t *testing.T) {
	var e Entry
	for _, n := range slices.Sorted(slices.Values(append(Tests(), NameVolume, NameDose, NameFeed, NameCount, NameDuration, NameLength, NameReason, NameState, NameLeft, NamePart, NameWhat))) {
		e.Readings = append(e.Readings, Reading{Name: n})
	}
	e.Readings = append(e.Readings, Reading{Name: "another"})
	before := slices.Clone(e.Readings)
	got := e.InOrder()
	var names []string
	for _, r := range got {
		names = append(names, r.Name)
	}
	if !slices.Equal(e.Readings, before) || len(got) != len(before) || names[len(names)-1] != "another" {
		t.Errorf("in order: %v", names)
	}
	for i, n := range names[:len(names)-1] {
		if n != order[i] {
			t.Errorf("place %d: %s, want %s", i, n, order[i])
		}
	}
	// The three of the nitrogen cycle follow one another as they arise.
	if a := slices.Index(names, NameAmmonia); names[a+1] != NameNitrite || names[a+2] != NameNitrate {
		t.Errorf("the cycle: %v", names)
	}
}
