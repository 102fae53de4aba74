package keeper

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/working"
)

// An archive that does not fit is refused before a byte is written, with what is
// needed and what is free; one that fits is not longer than was reckoned.
func TestArchiveNeedsRoom(t *testing.T) {
	ctx := context.Background()
	k, err := Open(ctx, t.TempDir(), Options{Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	defer k.Close()
	if _, err := k.MakeExample(ctx, Words{Name: "Kitchen corner", Fish: "Zebra danio", Notice: "Cloudy.", Shown: func(care.NoteID) (string, string, string) { return "shown", "en", "hash" }}); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "all.dlarchive")
	o := ArchiveOptions{Language: "en", Page: plainPage}
	freeSpace = func(at string) (uint64, error) {
		if at != dir {
			t.Errorf("asked for the room of %s, not of %s", at, dir)
		}
		return 400_000, nil
	}
	defer func() { freeSpace = durable.Free }()
	_, err = k.SaveArchive(ctx, path, o, nil)
	var r *working.Refusal
	if !errors.As(err, &r) || r.Code != "refuse.keeper.room_out" || r.Values["Free"].X != 0.4 || r.Accept.High.X < 1 {
		t.Fatalf("%v: %+v", err, r)
	}
	if left, _ := os.ReadDir(dir); len(left) > 0 {
		t.Errorf("it left %v", left)
	}
	freeSpace = durable.Free
	if _, err := k.SaveArchive(ctx, path, o, nil); err != nil {
		t.Fatal(err)
	}
	whole, err := k.whole(ctx)
	if err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(path)
	if err != nil || info.Size() > whole.sizeOf() {
		t.Errorf("%d bytes, reckoned %d, %v", info.Size(), whole.sizeOf(), err)
	}
}
