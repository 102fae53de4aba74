package keeper

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// snap is a small picture, another for every n, taken at a time by its EXIF
// ("" for none).
func snap(t testing.TB, n int, taken string) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 32, 24))
	for y := range 24 {
		for x := range 32 {
			m.SetRGBA(x, y, color.RGBA{uint8(n * 7), uint8(n >> 5 * 31), uint8(x * 8), 255})
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	if taken == "" {
		return b.Bytes()
	}
	// One directory that points to the next, which holds the time.
	tags := "MM\x00*\x00\x00\x00\x08\x00\x01\x87\x69\x00\x04\x00\x00\x00\x01\x00\x00\x00\x1a\x00\x00\x00\x00" +
		"\x00\x01\x90\x03\x00\x02\x00\x00\x00\x14\x00\x00\x00\x2c\x00\x00\x00\x00" + taken + "\x00"
	body := "Exif\x00\x00" + tags
	segment := "\xff\xe1" + string([]byte{byte((len(body) + 2) >> 8), byte(len(body) + 2)}) + body
	return append([]byte("\xff\xd8"+segment), b.Bytes()[2:]...)
}

func source(t testing.TB, n int, taken string) photo.Source {
	return photo.Source{Name: "p.jpg", Bytes: snap(t, n, taken)}
}

func withTank(t testing.TB) (*Keeper, string) {
	t.Helper()
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.FixedZone("", 3600))
	k, err := Open(context.Background(), t.TempDir(), Options{Now: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = k.Close() })
	id, err := k.StartTank(context.Background(), "Pond", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	return k, id
}

func mustAdd(t testing.TB, k *Keeper, tank string, o AddOptions, s ...photo.Source) Added {
	t.Helper()
	a, err := k.AddPhotos(context.Background(), tank, s, o, nil)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func mustPhotos(t testing.TB, k *Keeper, tank string, f PhotoFilter) []Photo {
	t.Helper()
	ps, err := k.Photos(context.Background(), tank, f)
	if err != nil {
		t.Fatal(err)
	}
	return ps
}

// Pictures land on the days they were taken: with the entry of that hour, or all
// of a day with one new entry; those without a time wait to be asked for.
func TestPhotosLandOnTheirDays(t *testing.T) {
	k, tank := withTank(t)
	ctx := context.Background()
	fed, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Fed, At: "2026-11-20T08:00"})
	if err != nil {
		t.Fatal(err)
	}
	test, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Note, Note: "x", At: "2026-11-20T09:30"})
	if err != nil {
		t.Fatal(err)
	}
	a := mustAdd(t, k, tank, AddOptions{}, source(t, 1, "2026:11:20 08:20:59"), source(t, 2, "2026:11:20 11:30:00"), source(t, 3, "2026:11:20 11:31:00"),
		source(t, 4, "2026:11:20 18:00:00"), source(t, 5, "2026:11:21 23:59:00"), source(t, 6, "2026:11:21 07:00:00"), source(t, 7, ""), source(t, 8, "2031:01:01 00:00:00"))
	if len(a.Photos) != 8 || len(a.Undated) != 2 || a.Linked != 2 || len(a.Entries) != 2 || len(a.Refused)+len(a.Twice)+len(a.Broken) != 0 || a.Cancelled {
		t.Fatalf("%+v", a)
	}
	ps := mustPhotos(t, k, tank, PhotoFilter{})
	entry := map[string]string{}
	for _, p := range ps {
		entry[p.ID] = p.Entry
	}
	if entry[a.Photos[0]] != fed || entry[a.Photos[1]] != test {
		t.Errorf("a picture is not with the entry of its hour: %v", entry)
	}
	if entry[a.Photos[2]] != entry[a.Photos[3]] || entry[a.Photos[2]] == test || entry[a.Photos[4]] != entry[a.Photos[5]] || entry[a.Photos[6]] != "" || entry[a.Photos[7]] != "" {
		t.Errorf("days are mixed: %v", entry)
	}
	e, err := k.Entry(ctx, tank, entry[a.Photos[4]])
	if err != nil || e.Kind != journal.Photo || e.At != "2026-11-21T07:00" {
		t.Errorf("%+v %v, want a photo entry of the day's first", e, err)
	}
	if !slices.IsSortedFunc(ps[:6], func(a, b Photo) int { return strings.Compare(string(a.Taken), string(b.Taken)) }) || ps[6].Taken != "" || ps[7].Taken != "" {
		t.Error("not in order of time, those without one last")
	}
	for f, n := range map[PhotoFilter]int{{From: "2026-11-21"}: 2, {To: "2026-11-20"}: 4, {From: "2026-11-20", To: "2026-11-21"}: 6, {Undated: true}: 2, {Entry: fed}: 1} {
		if got := mustPhotos(t, k, tank, f); len(got) != n {
			t.Errorf("%+v chooses %d, want %d", f, len(got), n)
		}
	}

	// One step for the whole batch.
	label, _, err := k.Undo(ctx, tank)
	if err != nil || label != "undo.photos_add" || len(mustPhotos(t, k, tank, PhotoFilter{})) != 0 {
		t.Fatalf("%s %v", label, err)
	}
	if _, err := k.Entry(ctx, tank, entry[a.Photos[4]]); err == nil {
		t.Error("the entry made for them is still there")
	}
	if _, _, err := k.Redo(ctx, tank); err != nil || len(mustPhotos(t, k, tank, PhotoFilter{})) != 8 {
		t.Fatalf("redo: %v", err)
	}

	// Asked for the time, they go where they belong.
	if err := k.SetPhotoTaken(ctx, tank, Taken{ID: a.Photos[6], At: "2026-11-20T08:10"}, Taken{ID: a.Photos[7], At: "2026-11-22T10:00", From: TakenByFile}); err != nil {
		t.Fatal(err)
	}
	p, err := k.Photo(ctx, tank, a.Photos[6])
	if err != nil || p.Entry != fed || p.TakenFrom != TakenByPerson || p.Zone != "+01:00" {
		t.Errorf("%+v %v", p, err)
	}
	p, err = k.Photo(ctx, tank, a.Photos[7])
	if err != nil || p.Entry == "" || p.TakenFrom != TakenByFile || p.Taken != "2026-11-22T10:00" {
		t.Errorf("%+v %v", p, err)
	}
	for _, bad := range []journal.Civil{"", "2026-13-01T00:00", "2026-11-30T00:00"} {
		var r *working.Refusal
		if err := k.SetPhotoTaken(ctx, tank, Taken{ID: a.Photos[6], At: bad}); !errors.As(err, &r) || r.Field != "at" {
			t.Errorf("time %q: %v", bad, err)
		}
	}
}

// A picture that is there is told, not added again; another tank may have it too;
// from the bin it comes back as a new one.
func TestPhotosAreAddedOnce(t *testing.T) {
	k, tank := withTank(t)
	ctx := context.Background()
	one := source(t, 1, "2026:11:20 08:00:00")
	a := mustAdd(t, k, tank, AddOptions{}, one, one, source(t, 2, ""))
	if len(a.Photos) != 2 || len(a.Twice) != 1 || a.Twice[0].Photo != a.Photos[0] {
		t.Fatalf("%+v", a)
	}
	again := mustAdd(t, k, tank, AddOptions{}, one)
	if len(again.Photos) != 0 || len(again.Twice) != 1 || again.Twice[0].Photo != a.Photos[0] {
		t.Errorf("%+v", again)
	}
	other, err := k.StartTank(ctx, "Other", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	if b := mustAdd(t, k, other, AddOptions{}, one); len(b.Photos) != 1 {
		t.Errorf("in another tank: %+v", b)
	}
	if err := k.DeletePhoto(ctx, tank, a.Photos[0]); err != nil {
		t.Fatal(err)
	}
	if b := mustAdd(t, k, tank, AddOptions{}, one); len(b.Photos) != 1 || b.Photos[0] == a.Photos[0] {
		t.Errorf("after the bin: %+v", b)
	}
}

// TestOriginalsUnchanged (D2-31): what goes in comes out, byte for byte, after
// everything that can be done to a picture; and the file it came from too.
func TestOriginalsUnchanged(t *testing.T) {
	k, tank := withTank(t)
	ctx := context.Background()
	dir := t.TempDir()
	want := map[string]bool{}
	for i := range 200 {
		data := snap(t, i, "2026:11:20 08:00:00")
		want[photo.Hash(data)] = true
		if err := os.WriteFile(filepath.Join(dir, "p"+string(rune('A'+i/26))+string(rune('a'+i%26))+".jpg"), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if len(want) != 200 {
		t.Fatalf("%d different pictures, want 200", len(want))
	}
	a := mustAdd(t, k, tank, AddOptions{}, photo.Source{Path: dir})
	if len(a.Photos) != 200 {
		t.Fatalf("%d added: %+v", len(a.Photos), a.Refused)
	}
	id := a.Photos[0]
	for _, err := range []error{k.TurnPhoto(ctx, tank, id, 1), k.CaptionPhoto(ctx, tank, id, "x"), k.SetWhite(ctx, tank, id, &photo.Patch{Centre: photo.Point{X: 5, Y: 5}, Radius: 9}),
		k.MovePhoto(ctx, tank, id, ""), k.DeletePhoto(ctx, tank, a.Photos[1])} {
		if err != nil {
			t.Fatal(err)
		}
	}
	if _, err := k.Picture(ctx, id, 0); err != nil {
		t.Fatal(err)
	}
	r, err := k.VerifyPhotos(ctx)
	if err != nil || !r.OK() || r.Sound != 200 {
		t.Errorf("%+v %v", r, err)
	}
	files, _ := filepath.Glob(filepath.Join(dir, "*"))
	for _, f := range files {
		raw, err := os.ReadFile(f)
		if err != nil || !want[photo.Hash(raw)] {
			t.Errorf("%s was written to (%v)", f, err)
		}
	}
	for _, p := range mustPhotos(t, k, tank, PhotoFilter{}) {
		if !want[p.Hash] {
			t.Errorf("%s is none of what was added", p.Hash)
		}
	}
	drill.Tally(t, "D2-31", "pictures kept bit for bit", r.Sound, 200-r.Sound)
}

// A damaged picture keeps its place and its bytes; what is no picture is refused
// with its reason, and the rest is added all the same.
func TestBrokenPicturesKeepTheirPlace(t *testing.T) {
	k, tank := withTank(t)
	good := snap(t, 1, "2026:11:20 08:00:00")
	cut := good[:len(good)*2/3]
	a := mustAdd(t, k, tank, AddOptions{}, photo.Source{Name: "cut.jpg", Bytes: cut}, photo.Source{Name: "note.txt", Bytes: []byte("a note")},
		photo.Source{Path: filepath.Join(t.TempDir(), "gone.jpg")}, photo.Source{Path: t.TempDir()}, photo.Source{Name: "e.jpg", Bytes: []byte{}}, photo.Source{Name: "good.jpg", Bytes: good})
	if len(a.Photos) != 2 || len(a.Broken) != 1 || len(a.Refused) != 3 {
		t.Fatalf("%+v", a)
	}
	p, err := k.Photo(context.Background(), tank, a.Broken[0])
	if err != nil || p.Problem != photo.Unreadable || p.Taken != "2026-11-20T08:00" || p.Entry == "" || p.Name != "cut.jpg" {
		t.Errorf("%+v %v", p, err)
	}
	f, err := k.Original(context.Background(), p.ID)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var b bytes.Buffer
	if _, err := b.ReadFrom(f); err != nil || !bytes.Equal(b.Bytes(), cut) {
		t.Errorf("other bytes are kept (%v)", err)
	}
	if _, err := k.Picture(context.Background(), p.ID, 100); photo.ProblemOf(err) == nil {
		t.Errorf("shown: %v", err)
	}
	for i, want := range []working.Key{photo.NotAPicture, photo.Gone, photo.Empty} {
		if a.Refused[i].Problem.Code != want {
			t.Errorf("%s: %s, want %s", a.Refused[i].Name, a.Refused[i].Problem.Code, want)
		}
	}
}

// What is done when the person has had enough is kept, and told.
func TestCancelKeepsWhatIsDone(t *testing.T) {
	k, tank := withTank(t)
	ctx, cancel := context.WithCancel(context.Background())
	var sources []photo.Source
	for i := range 60 {
		sources = append(sources, source(t, i, ""))
	}
	a, err := k.AddPhotos(ctx, tank, sources, AddOptions{}, func(p Progress) {
		if p.Total != 60 || p.Done < 1 || p.Done > 60 || p.Name != "p.jpg" {
			t.Errorf("%+v", p)
		}
		if p.Done == 10 {
			cancel()
		}
	})
	if err != nil || !a.Cancelled || len(a.Photos) < 10 || len(a.Photos) > 12 {
		t.Fatalf("%d added, cancelled %v, %v", len(a.Photos), a.Cancelled, err)
	}
	if got := mustPhotos(t, k, tank, PhotoFilter{}); len(got) != len(a.Photos) {
		t.Errorf("%d in the daybook, %d told", len(got), len(a.Photos))
	}
	b := mustAdd(t, k, tank, AddOptions{}, sources...)
	if len(b.Photos)+len(a.Photos) != 60 || len(b.Twice) != len(a.Photos) {
		t.Errorf("afterwards %d added and %d twice", len(b.Photos), len(b.Twice))
	}
}

// Pictures for a case, a fish, an entry.
func TestPhotosOfACase(t *testing.T) {
	k, tank := withTank(t)
	ctx := context.Background()
	if err := k.st.Apply(ctx, store.Change{Tank: tank, Label: "undo.entry_add", At: stamp(k.now()), Ops: []store.Op{
		{Table: "fish", After: store.Row{"id": "f1", "tank": tank, "name": "Red", "count": int64(1)}},
		{Table: "sick", After: store.Row{"id": "s1", "tank": tank, "about": "Red", "opened": "2026-11-20T07:00", "zone": "+01:00"}}}}); err != nil {
		t.Fatal(err)
	}
	if _, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Fed, At: "2026-11-20T08:00"}); err != nil {
		t.Fatal(err)
	}
	a := mustAdd(t, k, tank, AddOptions{Sick: "s1", Fish: "f1"}, source(t, 1, "2026:11:20 08:00:00"), source(t, 2, "2026:11:20 08:30:00"))
	if a.Linked != 0 || len(a.Entries) != 1 {
		t.Errorf("%+v, want an entry of the case and not the feeding", a)
	}
	b := mustAdd(t, k, tank, AddOptions{Sick: "s1"}, source(t, 3, "2026:11:20 09:00:00"))
	if b.Linked != 1 || len(b.Entries) != 0 {
		t.Errorf("%+v, want the entry of the case", b)
	}
	if got := mustPhotos(t, k, tank, PhotoFilter{Sick: "s1"}); len(got) != 3 {
		t.Errorf("%d of the case, want 3", len(got))
	}
	if got := mustPhotos(t, k, tank, PhotoFilter{Fish: "f1"}); len(got) != 2 {
		t.Errorf("%d of the fish, want 2", len(got))
	}
	for _, o := range []AddOptions{{Sick: "s2"}, {Fish: "f2"}, {Entry: "e"}} {
		var r *working.Refusal
		if _, err := k.AddPhotos(ctx, tank, []photo.Source{source(t, 9, "")}, o, nil); !errors.As(err, &r) {
			t.Errorf("%+v: %v", o, err)
		}
	}
	if err := k.PhotoFish(ctx, tank, b.Photos[0], "f1"); err != nil {
		t.Fatal(err)
	}
	c := mustAdd(t, k, tank, AddOptions{Entry: a.Entries[0]}, source(t, 11, ""))
	if p, err := k.Photo(ctx, tank, c.Photos[0]); err != nil || p.Entry != a.Entries[0] {
		t.Errorf("%+v %v", p, err)
	}
}
