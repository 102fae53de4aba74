package keeper

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// childTask names what a child of the drills with full disks does, and childFrom a
// data folder that it reads.
const (
	childTask = "DRIPLOOP_TEST_FULL"
	childFrom = "DRIPLOOP_TEST_FROM"
)

// fullChild does it and says what came of it.
func fullChild(task string) {
	dir, widen, ok := drill.Narrow()
	if !ok {
		return
	}
	said := ""
	if task == "photos" {
		said = photosOnFullDisk(dir, widen)
	} else {
		said = exportToFullDisk(os.Getenv(childFrom), dir, task == "export-unasked", widen)
	}
	fmt.Println(said)
}

// isFull reports whether an error says that the disk is full.
func isFull(err error) bool {
	var op *store.OpError
	var open *store.OpenError
	var r *working.Refusal
	return durable.IsNoSpace(err) || errors.As(err, &op) && op.Code == store.CodeNoSpace || errors.As(err, &open) && open.Code == store.CodeNoSpace ||
		errors.As(err, &r) && strings.HasPrefix(string(r.Code), "refuse.keeper.room")
}

// padded is a picture of more than 40 kB that no other has the bytes of.
func padded(jpg []byte, n int) []byte {
	const pad = 40_000
	c := append([]byte("\xff\xd8\xff\xfe"), byte((pad+2)>>8), byte((pad+2)&0xff))
	return append(append(c, make([]byte, pad)...), numbered(jpg, n)[2:]...)
}

// photosOnFullDisk adds pictures until the disk is full, makes room and goes on.
func photosOnFullDisk(dir string, widen func()) string {
	ctx := context.Background()
	ballast := filepath.Join(dir, "ballast")
	_ = os.WriteFile(ballast, make([]byte, 200<<10), 0o600) // what is not written is room left
	k, err := Open(ctx, dir, Options{Now: time.Now})
	if err != nil {
		return "too_small"
	}
	tank, err := k.StartTank(ctx, "Pond", quantity.Metric)
	if err != nil {
		_ = k.Close()
		return "too_small"
	}
	jpg, err := letterPicture()
	if err != nil {
		return err.Error()
	}
	told, full := 0, false
	add := func(n int) bool {
		a, err := k.AddPhotos(ctx, tank, []photo.Source{{Name: "a.jpg", Bytes: padded(jpg, n)}, {Name: "b.jpg", Bytes: padded(jpg, n+1)}}, AddOptions{}, nil)
		if err == nil {
			told += len(a.Photos)
			return true
		}
		full = full || isFull(err)
		if !isFull(err) {
			fmt.Println("said", err)
		}
		return false
	}
	for n := 0; n < 1000 && add(2*n); n++ {
	}
	_ = os.Remove(ballast)
	widen()
	resumed := add(5000)
	_ = k.Close()
	if k, err = Open(ctx, dir, Options{Now: time.Now}); err != nil {
		if isFull(err) {
			return fmt.Sprintf("kept %d, full %v, resumed %v", told, full, resumed) // too full to open, which the store's own drill tries
		}
		return "lost: " + err.Error()
	}
	defer k.Close()
	ps, err := k.Photos(ctx, tank, PhotoFilter{})
	if err != nil || len(ps) < told {
		return fmt.Sprintf("lost: %d of %d, %v", len(ps), told, err)
	}
	if r, err := k.VerifyPhotos(ctx); err != nil || !r.OK() {
		return fmt.Sprintf("lost: %+v, %v", r, err)
	}
	if r, err := k.Verify(ctx); err != nil || !r.OK() {
		return fmt.Sprintf("lost: %+v, %v", r, err)
	}
	return fmt.Sprintf("kept %d, full %v, resumed %v", told, full, resumed)
}

// exportToFullDisk saves an archive to a narrow folder; unasked, the disk does not say
// beforehand that it is too small.
func exportToFullDisk(from, dir string, unasked bool, widen func()) string {
	ctx := context.Background()
	if unasked {
		freeSpace = func(string) (uint64, error) { return 1 << 40, nil }
	}
	k, err := Open(ctx, from, Options{Now: time.Now})
	if err != nil {
		return err.Error()
	}
	defer k.Close()
	path := filepath.Join(dir, "all.dlarchive")
	old := []byte("an archive of yesterday")
	if err := os.WriteFile(path, old, 0o600); err != nil {
		return err.Error()
	}
	o := ArchiveOptions{Language: "en", Page: plainPage}
	_, err = k.SaveArchive(ctx, path, o, nil)
	switch {
	case err == nil:
		if p, err := k.ReadArchive(ctx, path); err != nil {
			return fmt.Sprintf("lost: %+v, %v", p, err)
		}
		return "written"
	case !isFull(err):
		return "lost: " + err.Error()
	}
	held, _ := os.ReadFile(path)
	left, _ := filepath.Glob(filepath.Join(dir, "*"))
	hidden, _ := filepath.Glob(filepath.Join(dir, ".*"))
	if string(held) != string(old) || len(left) != 1 || len(hidden) != 0 {
		return fmt.Sprintf("lost: %d bytes of the old one, %v, %v", len(held), left, hidden)
	}
	widen()
	return "full"
}

// TestFullDisks (D2-04): pictures on disks of many sizes, and archives to them: what
// was told as kept is there, a full disk is told as one, nothing half stays, and it
// goes on when there is room.
func TestFullDisks(t *testing.T) {
	from := t.TempDir()
	k, err := Open(t.Context(), from, Options{Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	tank, err := k.StartTank(t.Context(), "Pond", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	jpg, err := letterPicture()
	if err != nil {
		t.Fatal(err)
	}
	var sources []photo.Source
	for n := range 60 {
		sources = append(sources, photo.Source{Name: "p.jpg", Bytes: padded(jpg, n)})
	}
	if _, err := k.AddPhotos(t.Context(), tank, sources, AddOptions{}, nil); err != nil {
		t.Fatal(err)
	}
	if err := k.Close(); err != nil {
		t.Fatal(err)
	}
	sizes := drill.Count(3, 124)
	for _, task := range []string{"photos", "export", "export-unasked"} {
		kept, full := 0, 0
		for n := range sizes {
			bytes := 256<<10 + n*(8<<20-256<<10)/sizes
			said := drill.Run(t, t.TempDir(), strconv.Itoa(bytes), childTask+"="+task, childFrom+"="+from)
			switch {
			case strings.HasPrefix(said, "kept "):
				kept++
				if strings.Contains(said, "full true") {
					full++
				}
				if !strings.Contains(said, "resumed true") {
					t.Errorf("%s on %d bytes: %s", task, bytes, said)
				}
			case said == "written":
				kept++
			case said == "full":
				full++
			case said == "too_small":
			default:
				t.Errorf("%s on %d bytes: %s", task, bytes, said)
			}
		}
		if kept == 0 || full == 0 {
			t.Errorf("%s: %d disks kept it and %d filled up: the drill shows too little", task, kept, full)
		}
		drill.Tally(t, "D2-04", map[string]string{"photos": "disks that fill up with pictures", "export": "disks that an archive goes to, asked for their room",
			"export-unasked": "disks that fill up with an archive"}[task], sizes, 0)
	}
}
