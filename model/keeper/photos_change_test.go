package keeper

import (
	"bytes"
	"context"
	"errors"
	"image/jpeg"
	"os"
	"reflect"
	"testing"
	"time"

	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Everything that can be done to a picture can be taken back and done again.
func TestPhotoChangesCanBeUndone(t *testing.T) {
	k, tank := withTank(t)
	ctx := context.Background()
	a := mustAdd(t, k, tank, AddOptions{}, source(t, 1, "2026:11:20 08:00:00"))
	id := a.Photos[0]
	var mark string
	arrow := photo.Mark{Kind: photo.Arrow, Points: []photo.Point{{X: 100, Y: 200}, {X: 300, Y: 400}}, Words: "here"}
	steps := []struct {
		label working.Key
		do    func() error
		seen  func(Photo) bool
	}{
		{"undo.photo_turn", func() error { return k.TurnPhoto(ctx, tank, id, -1) }, func(p Photo) bool { return p.Turned == 3 }},
		{"undo.photo_caption", func() error { return k.CaptionPhoto(ctx, tank, id, " left side ") }, func(p Photo) bool { return p.Caption == "left side" }},
		{"undo.photo_white", func() error {
			return k.SetWhite(ctx, tank, id, &photo.Patch{Centre: photo.Point{X: 10, Y: 20}, Radius: 15})
		}, func(p Photo) bool { return p.White != nil && p.White.Centre == photo.Point{X: 10, Y: 20} }},
		{"undo.mark_add", func() (err error) { mark, err = k.AddMark(ctx, tank, id, arrow); return err }, func(p Photo) bool {
			return len(p.Marks) == 1 && reflect.DeepEqual(p.Marks[0].Points, arrow.Points) && p.Marks[0].Words == "here"
		}},
		{"undo.mark_change", func() error {
			m := arrow
			m.ID, m.Words = mark, "there"
			return k.ChangeMark(ctx, tank, id, m)
		}, func(p Photo) bool { return len(p.Marks) == 1 && p.Marks[0].Words == "there" }},
		{"undo.mark_remove", func() error { return k.RemoveMark(ctx, tank, id, mark) }, func(p Photo) bool { return len(p.Marks) == 0 }},
		{"undo.photo_move", func() error { return k.MovePhoto(ctx, tank, id, "") }, func(p Photo) bool { return p.Entry == "" }},
	}
	for _, s := range steps {
		before, err := k.Photo(ctx, tank, id)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.do(); err != nil {
			t.Fatalf("%s: %v", s.label, err)
		}
		after, err := k.Photo(ctx, tank, id)
		if err != nil || !s.seen(after) {
			t.Fatalf("%s: %+v %v", s.label, after, err)
		}
		label, _, err := k.Undo(ctx, tank)
		if err != nil || label != s.label {
			t.Fatalf("undo says %s, want %s (%v)", label, s.label, err)
		}
		if back, err := k.Photo(ctx, tank, id); err != nil || !reflect.DeepEqual(back, before) {
			t.Errorf("%s taken back: %+v, want %+v", s.label, back, before)
		}
		if _, _, err := k.Redo(ctx, tank); err != nil {
			t.Fatal(err)
		}
		if again, err := k.Photo(ctx, tank, id); err != nil || !reflect.DeepEqual(again, after) {
			t.Errorf("%s done again: %+v, want %+v", s.label, again, after)
		}
	}
	if err := k.DeletePhoto(ctx, tank, id); err != nil || len(mustPhotos(t, k, tank, PhotoFilter{})) != 0 {
		t.Fatalf("in the bin: %v", err)
	}
	if label, _, err := k.Undo(ctx, tank); err != nil || label != "undo.photo_delete" || len(mustPhotos(t, k, tank, PhotoFilter{})) != 1 {
		t.Errorf("%s %v", label, err)
	}
}

// Marks and the white patch stay where they were put on the fish, however the
// picture is turned after.
func TestMarksTurnWithTheirPicture(t *testing.T) {
	k, tank := withTank(t)
	ctx := context.Background()
	id := mustAdd(t, k, tank, AddOptions{}, source(t, 1, "")).Photos[0]
	if err := k.TurnPhoto(ctx, tank, id, 1); err != nil {
		t.Fatal(err)
	}
	known := photo.Mark{Kind: photo.Known, Points: []photo.Point{{X: 250, Y: 0}, {X: 250, Y: 1000}}, Measure: quantity.Measure{Number: "1.5", Unit: "in"}}
	if _, err := k.AddMark(ctx, tank, id, known); err != nil {
		t.Fatal(err)
	}
	if err := k.SetWhite(ctx, tank, id, &photo.Patch{Centre: photo.Point{X: 100, Y: 300}, Radius: 15}); err != nil {
		t.Fatal(err)
	}
	for q, want := range [][3]photo.Point{{{X: 250, Y: 0}, {X: 250, Y: 1000}, {X: 100, Y: 300}}, {{X: 1000, Y: 250}, {X: 0, Y: 250}, {X: 700, Y: 100}},
		{{X: 750, Y: 1000}, {X: 750, Y: 0}, {X: 900, Y: 700}}, {{X: 0, Y: 750}, {X: 1000, Y: 750}, {X: 300, Y: 900}}} {
		p, err := k.Photo(ctx, tank, id)
		if err != nil || len(p.Marks) != 1 || p.White == nil {
			t.Fatalf("%+v %v", p, err)
		}
		if got := [3]photo.Point{p.Marks[0].Points[0], p.Marks[0].Points[1], p.White.Centre}; got != want {
			t.Errorf("after %d more quarters: %v, want %v", q, got, want)
		}
		if p.Marks[0].Measure != known.Measure {
			t.Errorf("measure %+v", p.Marks[0].Measure)
		}
		w, h := p.Shown()
		if img, err := k.Picture(ctx, id, 0); err != nil || img.Rect.Dx() != w || img.Rect.Dy() != h {
			t.Errorf("picture %v, shown as %d x %d, %v", img.Rect, w, h, err)
		}
		if th, err := k.ThumbOf(ctx, p, 16); err != nil || (th.Bounds().Dx() > th.Bounds().Dy()) != (w > h) {
			t.Errorf("small picture %v, %v", th.Bounds(), err)
		}
		if err := k.TurnPhoto(ctx, tank, id, 1); err != nil {
			t.Fatal(err)
		}
	}
}

// What is not there is refused, and says so.
func TestPhotoRefusals(t *testing.T) {
	k, tank := withTank(t)
	ctx := context.Background()
	id := mustAdd(t, k, tank, AddOptions{}, source(t, 1, "")).Photos[0]
	other, err := k.StartTank(ctx, "Other", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	long := string(bytes.Repeat([]byte("a"), photo.MostWords+1))
	for want, err := range map[working.Key]error{
		"refuse.photo.none":       k.TurnPhoto(ctx, other, id, 1),
		"refuse.photo.words_long": k.CaptionPhoto(ctx, tank, id, long),
		"refuse.keeper.no_entry":  k.MovePhoto(ctx, tank, id, "none"),
		"refuse.photo.no_fish":    k.PhotoFish(ctx, tank, id, "none"),
		"refuse.photo.no_mark":    k.RemoveMark(ctx, tank, id, "none"),
		"refuse.photo.patch":      k.SetWhite(ctx, tank, id, &photo.Patch{}),
		"refuse.photo.side":       func() error { _, err := k.Thumb(ctx, mustPhotos(t, k, tank, PhotoFilter{})[0].Hash, 5); return err }(),
		photo.NotHeld:             func() error { _, err := k.Thumb(ctx, "../../x", 64); return err }(),
	} {
		var r *working.Refusal
		if !errors.As(err, &r) || r.Code != want {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

// A small picture that is lost is made again, and other sides as they are asked
// for; of an original that has changed none is made.
func TestThumbsAreMadeAgain(t *testing.T) {
	k, tank := withTank(t)
	ctx := context.Background()
	id := mustAdd(t, k, tank, AddOptions{}, source(t, 1, "")).Photos[0]
	p, err := k.Photo(ctx, tank, id)
	if err != nil {
		t.Fatal(err)
	}
	first, err := k.Thumb(ctx, p.Hash, photo.ThumbSide)
	if err != nil {
		t.Fatal(err)
	}
	if err := k.st.DropThumbs(ctx, []string{p.Hash}); err != nil {
		t.Fatal(err)
	}
	if again, err := k.Thumb(ctx, p.Hash, photo.ThumbSide); err != nil || !bytes.Equal(again, first) {
		t.Errorf("made again it differs (%v)", err)
	}
	small, err := k.Thumb(ctx, p.Hash, 16)
	if err != nil {
		t.Fatal(err)
	}
	if c, err := jpeg.DecodeConfig(bytes.NewReader(small)); err != nil || c.Width != 16 || c.Height != 12 {
		t.Errorf("%+v %v", c, err)
	}
	path, err := k.OriginalPath(p.Hash)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte("other"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := k.Picture(ctx, id, 0); photo.ProblemOf(err) == nil || photo.ProblemOf(err).Code != photo.Changed {
		t.Errorf("%v, want %s", err, photo.Changed)
	}
	if again, err := k.Thumb(ctx, p.Hash, photo.ThumbSide); err != nil || !bytes.Equal(again, first) {
		t.Errorf("the small picture is gone with it: %v", err)
	}
}

// A picture whose adding was undone is kept for its redo, however old; one that
// nothing names goes after its time.
func TestSweepKeepsWhatHistoryNames(t *testing.T) {
	k, tank := withTank(t)
	ctx := context.Background()
	id := mustAdd(t, k, tank, AddOptions{}, source(t, 1, "")).Photos[0]
	p, err := k.Photo(ctx, tank, id)
	if err != nil {
		t.Fatal(err)
	}
	orphan, err := k.Originals().Put([]byte("no row"))
	if err != nil {
		t.Fatal(err)
	}
	long := k.now().Add(-2 * photo.OrphanAge)
	for _, h := range []string{p.Hash, orphan} {
		path, err := k.OriginalPath(h)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(path, time.Time{}, long); err != nil {
			t.Fatal(err)
		}
	}
	if _, _, err := k.Undo(ctx, tank); err != nil {
		t.Fatal(err)
	}
	if n, err := k.SweepPhotos(ctx); err != nil || n != 1 {
		t.Errorf("%d swept, %v, want the orphan alone", n, err)
	}
	if _, _, err := k.Redo(ctx, tank); err != nil {
		t.Fatal(err)
	}
	if _, err := k.Picture(ctx, id, 0); err != nil {
		t.Errorf("after the redo: %v", err)
	}
}

// Several pictures get their fish in one step, which one undo takes back; those
// without a fish can be asked for.
func TestFishOfSeveralPictures(t *testing.T) {
	ctx := context.Background()
	k, tank := withTank(t)
	id, err := k.AddFish(ctx, tank, Fish{Name: "Stripe", Count: 1})
	if err != nil {
		t.Fatal(err)
	}
	a := mustAdd(t, k, tank, AddOptions{}, source(t, 1, "2026:11:20 08:00:00"), source(t, 2, "2026:11:20 08:30:00"), source(t, 3, "2026:11:20 09:00:00"))
	if err := k.PhotosFish(ctx, tank, a.Photos[:2], id); err != nil {
		t.Fatal(err)
	}
	if with, without := mustPhotos(t, k, tank, PhotoFilter{Fish: id}), mustPhotos(t, k, tank, PhotoFilter{NoFish: true}); len(with) != 2 || len(without) != 1 || without[0].ID != a.Photos[2] {
		t.Errorf("%d with the fish, %+v without", len(with), without)
	}
	if k.PhotosFish(ctx, tank, a.Photos, "nobody") == nil || k.PhotosFish(ctx, tank, []string{a.Photos[2], "nothing"}, id) == nil {
		t.Error("a fish or a picture that is not there was taken")
	}
	if label, values, err := k.Undo(ctx, tank); err != nil || label != "undo.photos_fish" || values["Number"] != "2" {
		t.Errorf("%s %v %v", label, values, err)
	}
	if without := mustPhotos(t, k, tank, PhotoFilter{NoFish: true}); len(without) != 3 {
		t.Errorf("undone: %d without a fish", len(without))
	}
	if err := k.PhotosFish(ctx, tank, a.Photos, ""); err != nil { // nothing to change
		t.Error(err)
	}
}
