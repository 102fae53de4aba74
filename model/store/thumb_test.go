package store

import (
	"bytes"
	"context"
	"errors"
	"testing"
)

// A small picture is kept in place of its like, outside the undo history, and
// what names a hash is found in rows and in the history alike.
func TestThumbs(t *testing.T) {
	ctx, s := context.Background(), open(t, t.TempDir())
	defer mustClose(t, s)
	addTank(t, s, "t1")
	if _, ok, err := s.Thumb(ctx, "h1", 512); ok || err != nil {
		t.Fatalf("one that is not there: %v %v", ok, err)
	}
	for _, jpeg := range []string{"first", "second"} {
		want := Thumb{Hash: "h1", Side: 512, Width: 5, Height: 4, JPEG: []byte(jpeg)}
		if err := s.PutThumb(ctx, want); err != nil {
			t.Fatal(err)
		}
		if got, ok, err := s.Thumb(ctx, "h1", 512); err != nil || !ok || got.Width != 5 || got.Height != 4 || !bytes.Equal(got.JPEG, want.JPEG) {
			t.Errorf("%+v %v %v", got, ok, err)
		}
	}
	if c, err := s.UndoLabel(ctx, "t1"); err == nil && c.Label != "tank.added" {
		t.Errorf("it is in the history as %q", c.Label)
	}
	for _, bad := range []Thumb{{Side: 512, JPEG: []byte("x")}, {Hash: "h", Side: 512}, {Hash: "a\x00b", JPEG: []byte("x")}} {
		var oe *OpError
		if err := s.PutThumb(ctx, bad); !errors.As(err, &oe) || oe.Code != CodeRefused {
			t.Errorf("%+v: %v", bad, err)
		}
	}
	if err := s.DropThumbs(ctx, []string{"h1", "h2"}); err != nil {
		t.Fatal(err)
	}
	if _, ok, err := s.Thumb(ctx, "h1", 512); ok || err != nil {
		t.Errorf("dropped: %v %v", ok, err)
	}

	row := func(id, hash string) Row {
		return Row{"id": id, "tank": "t1", "hash": hash, "format": "jpeg", "bytes": int64(1), "width": int64(1), "height": int64(1), "orientation": int64(1),
			"turned": int64(0), "taken_from": "", "name": "n", "added": "2026-11-25T11:00:00Z"}
	}
	for _, h := range []string{"row", "undone"} {
		if err := s.Apply(ctx, Change{Tank: "t1", Label: "x", At: "2026-11-25T11:00:00Z", Ops: []Op{{Table: "photo", After: row("p-"+h, h)}}}); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := s.Undo(ctx, "t1"); err != nil {
		t.Fatal(err)
	}
	named, err := s.HashesNamed(ctx)
	if err != nil || len(named) != 2 || !named["row"] || !named["undone"] {
		t.Errorf("%v %v", named, err)
	}
}
