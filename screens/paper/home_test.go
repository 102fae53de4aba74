package paper

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// The card tells each bag's time and steps and the cautions, in the reader's
// language and on their paper; with no bag on its way there is none.
func TestHomeComingCard(t *testing.T) {
	ctx := context.Background()
	for _, r := range readers {
		t.Run(r.name, func(t *testing.T) {
			k := r.open(t)
			id := r.example(t, k)
			var none bytes.Buffer
			err := Write(ctx, Home, k, id, r.presenter(), SizeFor(r.region), &none)
			var refused *working.Refusal
			if !errors.As(err, &refused) || refused.Field != "bag" || none.Len() > 0 {
				t.Fatalf("without a bag: %v, %d bytes", err, none.Len())
			}
			for _, way := range []string{care.WayFloat, care.WayDrip} {
				a, err := k.BagDefaults(ctx, id)
				if err != nil {
					t.Fatal(err)
				}
				a.Name, a.Count, a.Way = "Zebra (6)", quantity.Measure{Number: "6", Unit: "piece"}, way
				bag, err := k.OpenBag(ctx, id, a)
				if err != nil {
					t.Fatal(err)
				}
				if err := k.TickBag(ctx, id, bag, care.BagLights, true); err != nil {
					t.Fatal(err)
				}
			}
			in := r.gather(t, k, id)
			if in.Bags, err = k.Bags(ctx, id); err != nil {
				t.Fatal(err)
			}
			text := textOf(document(t, Home, in))
			w := r.presenter().W
			want := []string{w.T("paper.home", nil), "Zebra (6)", w.T("tick.bag.wash", nil), w.T("note.drip_tube.avoid", nil), w.T("note.bag_water.hazard", nil), w.T("note.unplug_first.hazard", nil)}
			for _, v := range in.Bags {
				b := r.presenter().Bag(v, in.made())
				want = append(want, b.Number.Value)
				want = append(want, b.Figures...)
			}
			for _, s := range want {
				if !strings.Contains(text, flat(s)) {
					t.Errorf("the card lacks %q", s)
				}
			}
			var b bytes.Buffer
			if err := Write(ctx, Home, k, id, r.presenter(), SizeFor(r.region), &b); err != nil || b.Len() < 1000 {
				t.Errorf("%v, %d bytes", err, b.Len())
			}
		})
	}
}
