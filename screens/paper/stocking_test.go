package paper

import (
	"context"
	"strings"
	"testing"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
)

// The stocking plan says what to buy now and later, this tank's figures, what to
// ask and never to release animals, in the reader's language; a tank for which
// nothing that fits is wished has none.
func TestStockingPlan(t *testing.T) {
	ctx := context.Background()
	eachReader(t, func(t *testing.T, r reader, k *keeper.Keeper, id string) {
		r.refuses(t, Stocking, k, id, "refuse.keeper.no_plan")
		wish := func(code fish.Code, n int) {
			t.Helper()
			if _, err := k.AddWish(ctx, id, keeper.Wish{Species: code, Count: n}); err != nil {
				t.Fatal(err)
			}
		}
		wish("hypostomus-plecostomus", 1)
		r.refuses(t, Stocking, k, id, "refuse.keeper.no_plan")
		wish("danio-rerio", 6)
		in := r.gather(t, k, id)
		if err := in.gatherStocking(ctx, k, id); err != nil {
			t.Fatal(err)
		}
		text, w := textOf(document(t, Stocking, in)), in.Presenter.W
		want := []string{w.T("paper.stocking", nil), "Danio rerio", w.T("paper.stocking.volume", nil), in.Stocking.Done, w.T("paper.stocking.ask_origin", nil), w.T("paper.stocking.carry_bag", nil), w.T("page.plan.care", nil)}
		for _, s := range in.Stocking.Steps {
			want = append(want, s.Title, s.When)
			for _, a := range s.Animals {
				want = append(want, a.Text, a.Size)
			}
		}
		says(t, r.name, text, want...)
		if strings.Contains(text, "Hypostomus") {
			t.Error("what does not fit is on the slip")
		}
		r.writes(t, Stocking, k, id)
	})
}
