package keeper_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
)

// Whose key signed a profile is told beside the profiles taken before: the first
// of a shop, the same again, a namesake with another key, a namesake without one.
func TestWhoSignedAProfile(t *testing.T) {
	ctx := context.Background()
	shop := func(name string) (string, func()) {
		k := open(t, t.TempDir(), noon())
		must(t, k.SetShop(ctx, slip.Shop{Name: name, Address: "1 High St"}, map[string]string{"en": "Come back"}))
		id, err := k.StartTank(ctx, "Shelf", quantity.Metric)
		must(t, err)
		path := filepath.Join(t.TempDir(), "a.dlprofile")
		return path, func() { must(t, handOut(k, id, path)) }
	}
	home := open(t, t.TempDir(), noon())
	said := func(path string) string {
		t.Helper()
		_, found, err := home.OpenProfile(ctx, path)
		must(t, err)
		return string(found[0].Code)
	}
	first, save := shop("Corner shop")
	save()
	if got := said(first); got != "find.slip.signed_first" {
		t.Errorf("the first time: %s", got)
	}
	p, _, err := home.OpenProfile(ctx, first)
	must(t, err)
	id, err := home.TakeProfile(ctx, p)
	must(t, err)
	h, ok, err := home.HandedBy(ctx, id)
	if err != nil || !ok || h.Shop.Address != "1 High St" || h.Notes["en"] != "Come back" || h.Thumbprint != p.Signature.Thumbprint || !h.At.Equal(noon().now()) {
		t.Errorf("%+v, %v, %v", h, ok, err)
	}
	save()
	if got := said(first); got != "find.slip.signed_same" {
		t.Errorf("the same shop again: %s", got)
	}
	other, save := shop("corner SHOP")
	save()
	if got := said(other); got != "find.slip.signed_other" {
		t.Errorf("a namesake: %s", got)
	}
	p.Signature = slip.Signature{}
	path := filepath.Join(t.TempDir(), "plain.dlprofile")
	plain(t, path, p)
	if got := said(path); got != "find.slip.unsigned_before" {
		t.Errorf("a namesake without a key: %s", got)
	}
	p.Shop.Name = "Another"
	plain(t, path, p)
	if got := said(path); got != "find.slip.unsigned" {
		t.Errorf("without a key: %s", got)
	}
	// What is undone was never taken.
	_, _, err = home.Undo(ctx, "")
	must(t, err)
	if got := said(first); got != "find.slip.signed_first" {
		t.Errorf("after taking it back: %s", got)
	}
}

// handOut makes a starter profile of a tank and writes it.
func handOut(k *keeper.Keeper, tank, path string) error {
	ctx := context.Background()
	b, err := k.Brief(ctx, tank)
	if err != nil {
		return err
	}
	id, err := k.DraftFrom(ctx, tank, b.Tank.Name)
	if err != nil {
		return err
	}
	_, err = k.HandOutFile(ctx, id, path, "")
	return err
}

// plain writes a profile that nobody signed.
func plain(t *testing.T, path string, p slip.Profile) {
	t.Helper()
	var b bytes.Buffer
	must(t, slip.WriteProfile(&b, p, nil))
	must(t, os.WriteFile(path, b.Bytes(), 0o600))
}

// What a later version added to a profile goes on with it: from the tank that was taken
// of it, by way of a profile in work, to the next file.
func TestLaterIsHandedOn(t *testing.T) {
	ctx := context.Background()
	k := open(t, t.TempDir(), noon())
	defer k.Close()
	later := slip.Later{Members: map[string]string{"mood": `{"calm":2.50}`}, Answers: []string{`{"field":"tank.colour","kind":"colour","value":"red"}`}}
	id, err := k.TakeProfile(ctx, slip.Profile{Units: "us", Tank: "Hall", Later: later})
	if err != nil {
		t.Fatal(err)
	}
	draft, err := k.DraftFrom(ctx, id, "Copy")
	if err != nil {
		t.Fatal(err)
	}
	copied, err := k.DraftFrom(ctx, draft, "Copy of it")
	if err != nil {
		t.Fatal(err)
	}
	for _, from := range []string{id, draft, copied} {
		path := filepath.Join(t.TempDir(), "x.dlprofile")
		if err := k.SaveProfile(ctx, from, path); err != nil {
			t.Fatal(err)
		}
		p, _, err := k.OpenProfile(ctx, path)
		if err != nil || p.Later.Members["mood"] != later.Members["mood"] || !slices.Equal(p.Later.Answers, later.Answers) {
			t.Errorf("handed on: %+v, %v", p.Later, err)
		}
	}
}
