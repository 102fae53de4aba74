package paper

import (
	"context"
	"strings"
	"testing"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
)

// The sheet says what to feed on which days, what not to do, the electrical note
// and whom to call, in the reader's language and on their paper; without a time
// away there is none.
func TestNeighbourSheet(t *testing.T) {
	ctx := context.Background()
	eachReader(t, func(t *testing.T, r reader, k *keeper.Keeper, id string) {
		r.refuses(t, Neighbour, k, id, "refuse.rounds.no_time_away")
		if _, err := k.AddAway(ctx, id, keeper.Away{First: "2026-12-20", Last: "2026-12-27", Who: "Ana", Note: "Post, please (box 2)"}, false, ""); err != nil {
			t.Fatal(err)
		}
		in := r.gather(t, k, id)
		var err error
		if in.Neighbour, err = k.Neighbour(ctx, id); err != nil {
			t.Fatal(err)
		}
		if said := in.portion(); strings.Contains(said, "0\u00a0g") {
			t.Errorf("a portion of nothing is told: %q", said)
		}
		w := r.presenter().W
		in.Neighbour.Plan.Portion = 40e-6 // a pinch where none was weighed is not 0 g
		if words := in.portion(); !strings.Contains(words, "40\u00a0"+w.Unit("mg")) {
			t.Errorf("40 mg are told as %q", words)
		}
		text := textOf(document(t, Neighbour, in))
		want := []string{w.T("paper.neighbour", nil), "Ana", "Post, please (box 2)", in.portion(), w.T("paper.visit.call_vet", nil), w.T("paper.visit.nothing", nil)}
		for _, key := range []working.Key{"paper.visit.not_feed", "paper.visit.not_change", "paper.visit.not_filter", "paper.visit.not_product", "paper.visit.not_hands", "paper.visit.look_fish", "paper.visit.look_floor"} {
			want = append(want, w.T(key, nil))
		}
		says(t, r.name, text, want...)
		if n := strings.Count(text, flat(w.T("paper.visit.fed", nil))); n == 0 {
			t.Error("no column of boxes")
		}
		for _, size := range Sizes() { // eight days are one page, in type no smaller than that of other notes
			in.Size = size
			ps, _ := pages(Neighbour, &in)
			if len(ps) != 1 {
				t.Errorf("%s: %d pages", size.Code, len(ps))
			}
		}
		r.writes(t, Neighbour, k, id)
	})
}
