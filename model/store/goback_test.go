package store

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.org/driploop/model/drill"
)

// TestDaily: one copy a day, by the wall clock; what a person had copied stays.
func TestDaily(t *testing.T) {
	zone := time.FixedZone("", 11*3600)
	at := time.Date(2026, 11, 25, 0, 30, 0, 0, zone) // still the 24th by UTC
	o := Options{Now: func() time.Time { return at }}
	dir := t.TempDir()
	s, err := Open(t.Context(), dir, o)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	addTank(t, s, "t1")
	own, err := s.Snapshot(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	made := 0
	for day := range 40 {
		for range 3 {
			path, err := s.Daily(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			if path != "" {
				made++
			}
			at = at.Add(5 * time.Hour)
		}
		at = time.Date(2026, 11, 26+day, 0, 30, 0, 0, zone)
	}
	if made != 40 {
		t.Errorf("%d copies in 40 days", made)
	}
	all, err := Snapshots(dir)
	if err != nil || len(all) > 1+KeepDays+KeepWeeks+KeepMonths || len(all) < 1+KeepDays+2 {
		t.Fatalf("%d left, %v", len(all), err)
	}
	if _, err := os.Stat(own); err != nil {
		t.Errorf("the copy that was asked for: %v", err)
	}
}

// TestGoBack (D2-09): the daybook is what the snapshot holds, row for row; going
// back to what was set aside brings everything back; undo goes on.
func TestGoBack(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	fill(t, s)
	before := dump(t, s.db)
	snap, err := s.Snapshot(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for n := range 20 {
		if err := s.Apply(t.Context(), entryChange("t1", 100+n)); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := s.Undo(t.Context(), "t1"); err != nil {
		t.Fatal(err)
	}
	after := dump(t, s.db)
	diff, err := s.Compare(t.Context(), snap)
	if err != nil || len(diff) != 2 || diff[0] != (Difference{Table: "entry", Lost: 19}) || diff[1] != (Difference{Table: "entry_value", Lost: 38}) {
		t.Errorf("compared: %+v, %v", diff, err)
	}
	aside, err := s.GoBack(t.Context(), snap, options)
	if err != nil {
		t.Fatal(err)
	}
	if got := dump(t, s.db); got != before {
		t.Errorf("gone back:\n%s\nwant\n%s", got, before)
	}
	if _, err := s.Undo(t.Context(), "t1"); err != nil {
		t.Errorf("undo after going back: %v", err)
	}
	if _, err := s.Redo(t.Context(), "t1"); err != nil {
		t.Errorf("redo after going back: %v", err)
	}
	list, err := Aside(dir)
	if err != nil || len(list) != 1 || list[0].Path != aside {
		t.Fatalf("aside: %+v, %v", list, err)
	}
	if _, err := s.GoBack(t.Context(), aside, options); err != nil {
		t.Fatal(err)
	}
	if got := dump(t, s.db); got != after {
		t.Error("going back to what was set aside is not what there was")
	}
	mustClose(t, s)
	s = open(t, dir)
	if got := dump(t, s.db); got != after {
		t.Error("after a restart it is something else")
	}
	if got := number0(t, s, "PRAGMA synchronous"); got != 2 {
		t.Errorf("synchronous %d", got)
	}
}

func number0(t testing.TB, s *Store, q string) int64 {
	t.Helper()
	n, err := number(t.Context(), s.db, q)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// TestGoBackToAnOlderSchema upgrades what comes back.
func TestGoBackToAnOlderSchema(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	fill(t, s)
	snap, err := s.Snapshot(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	mustClose(t, s)
	o := options
	o.migrations = withSecond()
	if s, err = Open(t.Context(), dir, o); err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if diff, err := s.Compare(t.Context(), snap); err != nil || len(diff) != 0 {
		t.Errorf("compared: %+v, %v", diff, err)
	}
	if _, err := s.GoBack(t.Context(), snap, o); err != nil {
		t.Fatal(err)
	}
	if r, err := s.Verify(t.Context()); err != nil || !r.OK() || r.Version != newest+1 || r.Rows["later"] != 3 {
		t.Errorf("%+v, %v", r, err)
	}
}

// TestGoBackRefuses what is no sound copy, and changes nothing.
func TestGoBackRefuses(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	fill(t, s)
	before := dump(t, s.db)
	bad := filepath.Join(t.TempDir(), "bad.db")
	writeFile(t, bad, []byte("this is no database, whatever its name says, and never was"))
	for _, path := range []string{bad, filepath.Join(dir, "none.db"), t.TempDir()} {
		var oe *OpenError
		if _, err := s.GoBack(t.Context(), path, options); !errors.As(err, &oe) || oe.Code != CodeSnapshot {
			t.Errorf("%s: %v", path, err)
		}
	}
	if got := dump(t, s.db); got != before {
		t.Error("something changed")
	}
	if list, err := Aside(dir); err != nil || len(list) != 0 {
		t.Errorf("set aside %v, %v", list, err)
	}
}

// TestKilledWhileGoingBack (D2-09): the old daybook or the new one, whole.
func TestKilledWhileGoingBack(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	addTank(t, s, "t1")
	for n := range 200 {
		if err := s.Apply(context.Background(), entryChange("t1", n+1)); err != nil {
			t.Fatal(err)
		}
	}
	few := dump(t, s.db)
	if _, err := s.Snapshot(t.Context()); err != nil {
		t.Fatal(err)
	}
	for n := range 400 {
		if err := s.Apply(context.Background(), entryChange("t1", n+201)); err != nil {
			t.Fatal(err)
		}
	}
	many := dump(t, s.db)
	mustClose(t, s)
	data := readFile(t, filepath.Join(dir, FileName))
	random := rand.New(rand.NewPCG(11, 12))
	old, fresh := 0, 0
	for range upgradeKills {
		p := start(t, "goback", dir)
		if said := p.line(); said != "open" {
			t.Fatalf("child said %q", said)
		}
		time.Sleep(time.Duration(random.IntN(60_000)) * time.Microsecond)
		p.kill(t)
		s := open(t, dir)
		switch dump(t, s.db) {
		case many:
			old++
		case few:
			fresh++
		default:
			t.Fatal("it is neither what there was nor what it was to be")
		}
		mustClose(t, s)
		writeFile(t, filepath.Join(dir, FileName), data)
	}
	drill.Tally(t, "D2-09", fmt.Sprintf("kills while going back: %d left the old, %d the new", old, fresh), upgradeKills, 0)
}
