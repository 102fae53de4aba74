package paper

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
)

// The stocking plan says what to buy now and later, this tank's figures, what to
// ask and never to release animals, in the reader's language; a tank for which
// nothing that fits is wished has none.
func TestStockingPlan(t *testing.T) {
	ctx := context.Background()
	for _, r := range readers {
		t.Run(r.name, func(t *testing.T) {
			k := r.open(t)
			id := r.example(t, k)
			var none bytes.Buffer
			var refused *working.Refusal
			refuses := func() {
				t.Helper()
				if err := Write(ctx, Stocking, k, id, r.presenter(), SizeFor(r.region), &none); !errors.As(err, &refused) || refused.Code != "refuse.keeper.no_plan" || none.Len() > 0 {
					t.Fatalf("without a plan: %v, %d bytes", err, none.Len())
				}
			}
			refuses()
			wish := func(code fish.Code, n int) {
				t.Helper()
				if _, err := k.AddWish(ctx, id, keeper.Wish{Species: code, Count: n}); err != nil {
					t.Fatal(err)
				}
			}
			wish("hypostomus-plecostomus", 1)
			refuses()
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
			for _, s := range want {
				if !strings.Contains(text, flat(s)) {
					t.Errorf("the plan lacks %q", s)
				}
			}
			if strings.Contains(text, "Hypostomus") {
				t.Error("what does not fit is on the slip")
			}
			var b bytes.Buffer
			if err := Write(ctx, Stocking, k, id, r.presenter(), SizeFor(r.region), &b); err != nil || b.Len() < 1000 {
				t.Errorf("%v, %d bytes", err, b.Len())
			}
		})
	}
}
