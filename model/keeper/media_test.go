package keeper_test

import (
	"context"
	"slices"
	"testing"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
)

// What the filter is filled with is asked once, and the waste of the stock is held
// against it from then on: 0.42 × 0.092 of a hundredth of the mass as nitrogen, over
// 0.2 g a square metre and day. Source: Timmons & Ebeling; Malone & Pfeiffer 2006.
func TestWasteAgainstTheMedia(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	ten := []fish.Lot{{Code: "paracheirodon-innesi", Count: 10}}
	waste := func() (float64, bool) {
		h, err := k.Home(ctx, tank)
		must(t, err)
		x, err := fish.CapacityOf(h.Home, ten)
		must(t, err)
		told := slices.ContainsFunc(x.Findings, func(f working.Finding) bool { return f.Code == "find.fish.capacity_media" })
		i := slices.IndexFunc(x.Checks, func(c working.Check) bool { return c.Name == "q.fish.check_waste" })
		if told == (i >= 0) {
			t.Errorf("judged %v, told that it is not %v", i >= 0, told)
		}
		if i < 0 {
			return 0, false
		}
		return x.Checks[i].Use, true
	}
	if _, ok := waste(); ok {
		t.Error("media that nobody told of are judged")
	}
	set := func(e keeper.Edit) { t.Helper(); must(t, k.Set(ctx, tank, e)) }
	set(keeper.Edit{Field: "filter.media_kind", Option: "rings"})
	if _, ok := waste(); ok {
		t.Error("a kind without its volume is judged")
	}
	set(keeper.Edit{Field: "filter.media_volume", Text: "2 l"})
	neons := 10 * 0.01183 * 29.00 // 3.5 cm ^ 2.688
	want := neons * 0.01 * 0.42 * 0.092 / (0.2 * 2 * 0.37)
	if got, ok := waste(); !ok || !near(got, want, 1e-3) {
		t.Errorf("rings: %g of the media used, want %g", got, want)
	}
	set(keeper.Edit{Field: "filter.media_kind", Option: "surface"})
	if _, ok := waste(); ok {
		t.Error("the volume of what was chosen before is judged")
	}
	set(keeper.Edit{Field: "filter.media", Text: "0.5 m2"})
	if got, ok := waste(); !ok || !near(got, want*2*0.37/0.5, 1e-3) {
		t.Errorf("0.5 m²: %g of the media used", got)
	}
	_, _, err := k.Undo(ctx, tank)
	must(t, err)
	if _, ok := waste(); ok {
		t.Error("undone, and still judged")
	}
}
