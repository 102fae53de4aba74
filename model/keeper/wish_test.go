package keeper_test

import (
	"context"
	"testing"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
)

const (
	danio = fish.Code("danio-rerio")
	neon  = fish.Code("paracheirodon-innesi")
	pleco = fish.Code("hypostomus-plecostomus")
)

// A wish is kept, grows when its kind is wished for again, and each change of it
// can be taken back.
func TestWishesComeAndGo(t *testing.T) {
	ctx := context.Background()
	k, _, tank := started(t)
	two, none := 2, 0
	id, err := k.AddWish(ctx, tank, keeper.Wish{Species: danio, Count: 6, Males: &two})
	must(t, err)
	again, err := k.AddWish(ctx, tank, keeper.Wish{Species: danio, Count: 2, Males: &none})
	must(t, err)
	_, err = k.AddWish(ctx, tank, keeper.Wish{Species: neon, Count: 10})
	must(t, err)
	ws, err := k.Wishes(ctx, tank)
	must(t, err)
	if id != again || len(ws) != 2 || ws[0].Count != 8 || ws[0].Males == nil || *ws[0].Males != 2 || ws[1].Males != nil || ws[0].Added.IsZero() {
		t.Fatalf("wishes are %+v", ws)
	}
	must(t, k.SetWish(ctx, tank, keeper.Wish{ID: id, Species: neon, Count: 7}))
	must(t, k.RemoveWish(ctx, tank, ws[1].ID))
	if ws, _ = k.Wishes(ctx, tank); len(ws) != 1 || ws[0].Species != danio || ws[0].Count != 7 || ws[0].Males != nil {
		t.Errorf("wishes are %+v", ws)
	}
	for _, want := range []string{"undo.wish_remove", "undo.wish_set", "undo.wish_add", "undo.wish_add", "undo.wish_add"} {
		label, values, err := k.Undo(ctx, tank)
		if err != nil || string(label) != want || values["Species"] == "" {
			t.Errorf("undo said %s %v, %v, want %s", label, values, err, want)
		}
	}
	if ws, _ = k.Wishes(ctx, tank); len(ws) != 0 {
		t.Errorf("after all was undone there are %+v", ws)
	}
}

func TestWishesThatCannotBe(t *testing.T) {
	ctx := context.Background()
	k, _, tank := started(t)
	three, less := 3, -1
	for _, c := range []struct {
		w    keeper.Wish
		code string
	}{
		{keeper.Wish{Species: "a-fish-of-dreams", Count: 1}, "refuse.fish.unknown"},
		{keeper.Wish{Species: danio}, "refuse.outside"},
		{keeper.Wish{Species: danio, Count: fish.MaxCount + 1}, "refuse.outside"},
		{keeper.Wish{Species: danio, Count: 2, Males: &three}, "refuse.outside"},
		{keeper.Wish{Species: danio, Count: 2, Males: &less}, "refuse.outside"},
	} {
		_, err := k.AddWish(ctx, tank, c.w)
		refused(t, err, working.Key(c.code))
	}
	id, err := k.AddWish(ctx, tank, keeper.Wish{Species: danio, Count: fish.MaxCount})
	must(t, err)
	_, err = k.AddWish(ctx, tank, keeper.Wish{Species: danio, Count: 1})
	refused(t, err, "refuse.outside")
	refused(t, k.SetWish(ctx, tank, keeper.Wish{ID: id}), "refuse.outside")
	refused(t, k.SetWish(ctx, tank, keeper.Wish{ID: "x", Count: 1}), "refuse.keeper.no_wish")
	refused(t, k.RemoveWish(ctx, tank, "x"), "refuse.keeper.no_wish")
	for i, a := range fish.All()[:keeper.MaxWishes] {
		_, err := k.AddWish(ctx, tank, keeper.Wish{Species: a.Code, Count: 1})
		if i < keeper.MaxWishes-2 && a.Code != danio {
			must(t, err)
		}
	}
	_, err = k.AddWish(ctx, tank, keeper.Wish{Species: fish.All()[keeper.MaxWishes+1].Code, Count: 1})
	refused(t, err, "refuse.keeper.wishes")
	if ws, _ := k.Wishes(ctx, tank); len(ws) != keeper.MaxWishes {
		t.Errorf("%d wishes are kept", len(ws))
	}
}

// What came home is wished for no more, in the same change; what was born is no
// purchase.
func TestArrivalsGrantWishes(t *testing.T) {
	ctx := context.Background()
	k, _, tank := started(t)
	wished := func() int {
		t.Helper()
		ws, err := k.Wishes(ctx, tank)
		must(t, err)
		n := 0
		for _, w := range ws {
			n += w.Count
		}
		return n
	}
	males := 4
	_, err := k.AddWish(ctx, tank, keeper.Wish{Species: danio, Count: 6, Males: &males})
	must(t, err)
	_, _, err = k.Arrive(ctx, tank, keeper.Newcomers{Species: string(danio), Count: 3, Born: true})
	must(t, err)
	if n := wished(); n != 6 {
		t.Errorf("%d are wished for after a birth", n)
	}
	id, _, err := k.Arrive(ctx, tank, keeper.Newcomers{Species: string(danio), Count: 3})
	must(t, err)
	ws, _ := k.Wishes(ctx, tank)
	if len(ws) != 1 || ws[0].Count != 3 || ws[0].Males != nil {
		t.Errorf("half came: %+v", ws)
	}
	_, _, err = k.Arrive(ctx, tank, keeper.Newcomers{Fish: id, Count: 5})
	must(t, err)
	if n := wished(); n != 0 {
		t.Errorf("%d are wished for after all came", n)
	}
	_, _, err = k.Undo(ctx, tank)
	must(t, err)
	if n := wished(); n != 3 {
		t.Errorf("%d are wished for after taking it back", n)
	}
}
