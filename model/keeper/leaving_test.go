package keeper_test

import (
	"context"
	"testing"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/sick"
)

// A case that ends with a death takes the fish out of the stock in the same change:
// one undo opens the case and brings the number back, one redo does both again.
func TestADeathClosesTheCaseAndLeavesTheStock(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	group, _, err := k.Arrive(ctx, tank, keeper.Newcomers{Species: "danio-rerio", Count: 6, What: "Danios"})
	must(t, err)
	id, err := k.OpenCase(ctx, tank, keeper.Who{Fish: group}, sick.One)
	must(t, err)
	stands := func(count int, open bool) {
		t.Helper()
		stock, err := k.Stock(ctx, tank)
		must(t, err)
		x, err := k.Case(ctx, tank, id)
		must(t, err)
		if len(stock) != 1 || stock[0].Count != count || x.Case.Open() != open {
			t.Errorf("%d groups, %d of the first, the case is open: %v; want %d, %v", len(stock), stock[0].Count, x.Case.Open(), count, open)
		}
	}
	refusedField(t, k.CloseCase(ctx, tank, id, keeper.Died, "", &keeper.Departure{Fish: group, Count: 7, What: "Danios"}), "count")
	refusedField(t, k.CloseCase(ctx, tank, id, keeper.Well, "", &keeper.Departure{Fish: group, Count: 1, What: "Danios"}), "why")
	stands(6, true)
	must(t, k.CloseCase(ctx, tank, id, keeper.Died, "In the morning.", &keeper.Departure{Fish: group, Count: 1, What: "Danios"}))
	stands(5, false)
	l, err := k.Ledger(ctx, tank, keeper.LedgerFilter{Kind: journal.FishOut})
	must(t, err)
	if l.Len() != 1 || l.Entry(0).Sick != id {
		t.Errorf("%d entries of the death, of case %q", l.Len(), l.Entry(0).Sick)
	} else if r, ok := l.Entry(0).Get(journal.NameReason); !ok || r.Measure.Number != string(keeper.WhyDied) {
		t.Errorf("the reason is %q", r.Measure.Number)
	}
	_, _, err = k.Undo(ctx, tank)
	must(t, err)
	stands(6, true)
	_, _, err = k.Redo(ctx, tank)
	must(t, err)
	stands(5, false)
}

// The daybook of a fish has the entries that only changed its number, under
// whatever words: who came without a name is found by the tie.
func TestTheDaybookOfAFishHasItsNumbers(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	danios, came, err := k.Arrive(ctx, tank, keeper.Newcomers{Species: "danio-rerio", Count: 6, What: "six from the shop"})
	must(t, err)
	other, _, err := k.Arrive(ctx, tank, keeper.Newcomers{Species: "corydoras-panda", Count: 6, What: "six more"})
	must(t, err)
	left, err := k.Depart(ctx, tank, keeper.Departure{Fish: danios, Count: 1, Why: keeper.WhyLost, What: "one less"})
	must(t, err)
	of := func(id string) (out []string) {
		l, err := k.Ledger(ctx, tank, keeper.LedgerFilter{Fish: id})
		must(t, err)
		for i := range l.Len() {
			out = append(out, l.Entry(i).ID)
		}
		return out
	}
	if got := of(danios); len(got) != 2 || got[0] != left || got[1] != came {
		t.Errorf("the danios have %v, want %v", got, []string{left, came})
	}
	if got := of(other); len(got) != 1 {
		t.Errorf("the corydoras have %v", got)
	}
}

// A purchase of two kinds is one change.
func TestAPurchaseIsOneChange(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	var asks []keeper.BagAsk
	for _, code := range []fish.Code{"danio-rerio", "corydoras-panda"} {
		a := danios()
		a.Name, a.Species, a.Count = string(code), string(code), quantity.Of(6, "piece", 6)
		asks = append(asks, a)
	}
	count := func(want int) {
		t.Helper()
		bags, err := k.Bags(ctx, tank)
		must(t, err)
		if len(bags) != want {
			t.Errorf("%d bags, want %d", len(bags), want)
		}
	}
	bad := asks[1]
	bad.Species = "nobody"
	if _, err := k.OpenBags(ctx, tank, []keeper.BagAsk{asks[0], bad}); err == nil {
		t.Error("an unknown kind comes home")
	}
	count(0)
	_, err := k.OpenBags(ctx, tank, asks)
	must(t, err)
	count(2)
	_, _, err = k.Undo(ctx, tank)
	must(t, err)
	count(0)
	_, _, err = k.Redo(ctx, tank)
	must(t, err)
	count(2)
}
