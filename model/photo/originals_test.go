package photo

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/durable"
)

// An original is kept once, bit for bit, under its SHA-256, and found again.
// SHA-256 of "abc" is that of FIPS 180-4's example.
func TestOriginalsAreKept(t *testing.T) {
	dir := t.TempDir()
	o := OriginalsIn(dir)
	hash, err := o.Put([]byte("abc"))
	if err != nil || hash != "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" {
		t.Fatalf("%s %v", hash, err)
	}
	if again, err := o.Put([]byte("abc")); err != nil || again != hash {
		t.Fatalf("%s %v", again, err)
	}
	path, err := o.Path(hash)
	if err != nil || path != filepath.Join(dir, "photos", "ba", hash[2:]) {
		t.Fatalf("%s %v", path, err)
	}
	if got, err := o.Read(hash, Usual()); err != nil || string(got) != "abc" {
		t.Errorf("%q %v", got, err)
	}
	for _, bad := range []string{"", "..", "../../etc/passwd", strings.Repeat("A", 64), hash[:63], hash + "0", strings.Repeat("../", 21) + "x"} {
		if _, err := o.Path(bad); ProblemOf(err) == nil {
			t.Errorf("%q has a path", bad)
		}
	}
	if _, err := o.Read(strings.Repeat("0", 64), Usual()); ProblemOf(err) == nil || ProblemOf(err).Code != NotHeld {
		t.Errorf("one that is not there: %v", err)
	}
}

// One byte that has changed on the disk is found, a file that has gone too.
func TestVerifyFindsDamage(t *testing.T) {
	o := OriginalsIn(t.TempDir())
	var hashes []string
	for _, s := range []string{"one", "two", "three"} {
		h, err := o.Put([]byte(s))
		if err != nil {
			t.Fatal(err)
		}
		hashes = append(hashes, h)
	}
	r, err := o.Verify(context.Background(), hashes)
	if err != nil || !r.OK() || r.Sound != 3 {
		t.Fatalf("%+v %v", r, err)
	}
	changed, _ := o.Path(hashes[0])
	raw, _ := os.ReadFile(changed)
	raw[1] ^= 1
	if err := os.WriteFile(changed, raw, 0o600); err != nil {
		t.Fatal(err)
	}
	gone, _ := o.Path(hashes[1])
	if err := os.Remove(gone); err != nil {
		t.Fatal(err)
	}
	r, err = o.Verify(context.Background(), hashes)
	if err != nil || r.OK() || r.Sound != 1 || !slices.Equal(r.Changed, hashes[:1]) || !slices.Equal(r.Missing, hashes[1:2]) {
		t.Errorf("%+v %v", r, err)
	}
	if _, err := o.Read(hashes[0], Usual()); ProblemOf(err) == nil || ProblemOf(err).Code != Changed {
		t.Errorf("read all the same: %v", err)
	}
	// Adding it again mends it.
	if _, err := o.Put([]byte("one")); err != nil {
		t.Fatal(err)
	}
	if got, err := o.Read(hashes[0], Usual()); err != nil || string(got) != "one" {
		t.Errorf("mended: %q %v", got, err)
	}
}

// The sweeper takes what is old and named by no one, and nothing else.
func TestSweepTakesOldOrphansOnly(t *testing.T) {
	dir := t.TempDir()
	o := OriginalsIn(dir)
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	put := func(s string, age time.Duration) string {
		h, err := o.Put([]byte(s))
		if err != nil {
			t.Fatal(err)
		}
		p, _ := o.Path(h)
		if err := os.Chtimes(p, now.Add(-age), now.Add(-age)); err != nil {
			t.Fatal(err)
		}
		return h
	}
	used, old, young := put("used", 2*OrphanAge), put("old", OrphanAge+time.Hour), put("young", OrphanAge-time.Hour)
	other := filepath.Join(dir, Folder, old[:2], "notes.txt")
	if err := os.WriteFile(other, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(other, now.Add(-2*OrphanAge), now.Add(-2*OrphanAge)); err != nil {
		t.Fatal(err)
	}
	n, err := o.Sweep(context.Background(), map[string]bool{used: true}, now.Add(-OrphanAge))
	if err != nil || n != 1 {
		t.Fatalf("%d swept, %v", n, err)
	}
	r, err := o.Verify(context.Background(), []string{used, old, young})
	if err != nil || r.Sound != 2 || !slices.Equal(r.Missing, []string{old}) {
		t.Errorf("%+v %v", r, err)
	}
	if _, err := os.Stat(other); err != nil {
		t.Errorf("a file of the person's own: %v", err)
	}
	if n, err := OriginalsIn(t.TempDir()).Sweep(context.Background(), nil, now); n != 0 || err != nil {
		t.Errorf("no folder: %d %v", n, err)
	}
}

// A folder that takes nothing says so and names its path.
func TestPutThatFails(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, Folder), []byte("a file"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := OriginalsIn(dir).Put([]byte("x"))
	var w *durable.WriteError
	if !errors.As(err, &w) || !strings.HasPrefix(w.Path, filepath.Join(dir, Folder)) {
		t.Errorf("%v", err)
	}
}

// FuzzInspect: whatever the bytes, an answer; a time and place that are told can
// be believed; what passes the gate keeps within the limits; a copy without
// place has none.
func FuzzInspect(f *testing.F) {
	for _, name := range []string{"letter-6.jpg", "camera-turned.jpg", "fish.webp", "fish-turned.heic", "small.gif", "small.bmp", "damaged-loop.jpg", "gray.jpg"} {
		f.Add(held(f, name))
	}
	f.Add(withSegments(jpegOf(f, scene(16, 16), 50), exifSegment(gps("x"))))
	f.Add(pngClaiming(10, 10, 8, 0, appendChunk(nil, "eXIf", nested(20))))
	f.Add(nested(20))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<20 {
			return
		}
		l := Usual()
		before := bytes.Clone(data)
		i, err := Inspect(data, l)
		if err != nil {
			if ProblemOf(err) == nil {
				t.Fatalf("%v is no problem", err)
			}
			return
		}
		if i.Width < 1 || i.Height < 1 || int64(i.Width)*int64(i.Height) > l.Pixels || i.Orientation < 1 || i.Orientation > 8 {
			t.Fatalf("%+v", i)
		}
		if _, err := i.Taken.Parse(); i.Taken != "" && err != nil {
			t.Fatalf("time %q", i.Taken)
		}
		if i.Place != nil && (i.Place.Latitude < -90 || i.Place.Latitude > 90 || i.Place.Longitude < -180 || i.Place.Longitude > 180) {
			t.Fatalf("place %v", *i.Place)
		}
		out, err := WithoutPlace(data)
		if !bytes.Equal(before, data) {
			t.Fatal("the original was written to")
		}
		if err != nil {
			return
		}
		is, err := Inspect(out, l)
		if err != nil || is.Place != nil || is.Width != i.Width || is.Height != i.Height || is.Orientation != i.Orientation {
			t.Fatalf("copy %+v %v, want %+v", is, err, i)
		}
	})
}
