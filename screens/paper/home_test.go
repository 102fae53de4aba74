package paper

import (
	"context"
	"testing"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/present"
)

// The card tells each bag's time and steps and the cautions, in the reader's
// language and on their paper; with no bag on its way there is none.
func TestHomeComingCard(t *testing.T) {
	ctx := context.Background()
	eachReader(t, func(t *testing.T, r reader, k *keeper.Keeper, id string) {
		r.refuses(t, Home, k, id, "refuse.keeper.no_bags")
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
		var err error
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
		says(t, r.name, text, want...)
		r.writes(t, Home, k, id)
	})
}

// A bag stands on one page: its heading and what is said before its steps stay with them.
func TestBagStaysTogether(t *testing.T) {
	r := readers[0]
	k := r.open(t)
	in := r.gather(t, k, r.example(t, k))
	f := newFlow(in.Size)
	f.add(f.heading("6 × Panda corydoras"))
	f.bag(&in, present.Bag{Verdict: &present.Verdict{Title: "A long trip"}, Steps: []present.BagStep{{Text: "Lights off"}}})
	for i, b := range f.blocks {
		if b.with != (i+1 < len(f.blocks)) {
			t.Errorf("block %d of %d: stays with the next: %v", i+1, len(f.blocks), b.with)
		}
	}
	if len(f.blocks) != 3 {
		t.Errorf("%d blocks", len(f.blocks))
	}
}
