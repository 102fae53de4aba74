package store

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"example.org/driploop/model/drill"
)

// sound makes a folder with n entries and gives the database's bytes.
func sound(t testing.TB, n int) (dir string, data []byte) {
	t.Helper()
	dir = t.TempDir()
	s := open(t, dir)
	addTank(t, s, "t1")
	for i := range n {
		if err := s.Apply(context.Background(), entryChange("t1", i+1)); err != nil {
			t.Fatal(err)
		}
	}
	mustClose(t, s)
	return dir, readFile(t, filepath.Join(dir, FileName))
}

// TestNotOursOrDamaged (D2-08, the single cases).
func TestNotOursOrDamaged(t *testing.T) {
	_, data := sound(t, 20)
	zeroed := func(n int) []byte { return append(make([]byte, n), data[n:]...) }
	flipped := slices.Clone(data)
	flipped[3] ^= 0xff
	cases := []struct {
		name string
		data []byte
		code string
	}{
		{"a text", []byte("Dear diary, today the water was clear.\n"), CodeNotOurs},
		{"a long text", bytes.Repeat([]byte("water "), 2000), CodeNotOurs},
		{"first 4 kB zeroed", zeroed(4096), CodeDamaged},
		{"first 16 bytes zeroed", zeroed(16), CodeDamaged},
		{"one byte of the magic changed", flipped, CodeDamaged},
		{"60 bytes of it", data[:60], CodeDamaged},
		{"5 bytes of it", data[:5], CodeNotOurs}, // could be anything
		{"80 bytes of it", data[:80], CodeDamaged},
		{"one page of it", data[:4096], CodeDamaged},
		{"half of it", data[:len(data)/2], CodeDamaged},
		{"a middle page zeroed", slices.Concat(data[:8192], make([]byte, 4096), data[12288:]), CodeDamaged},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			writeFile(t, filepath.Join(dir, FileName), c.data)
			wantOpenError(t, dir, c.code)
		})
	}
}

func TestFolderInItsPlace(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, FileName), 0o700); err != nil {
		t.Fatal(err)
	}
	wantOpenError(t, dir, CodeNotOurs)
}

// TestLogWithoutDatabase: SQLite would delete such a log.
func TestLogWithoutDatabase(t *testing.T) {
	for _, empty := range []bool{false, true} {
		dir := t.TempDir()
		if empty {
			writeFile(t, filepath.Join(dir, FileName), nil)
		}
		writeFile(t, filepath.Join(dir, FileName+"-wal"), []byte("what is left of a log"))
		wantOpenError(t, dir, CodeDamaged)
	}
}

// TestOtherProgramsDatabase: with another mark, and with none but tables.
func TestOtherProgramsDatabase(t *testing.T) {
	make := func(t *testing.T, statements ...string) string {
		dir := t.TempDir()
		db, err := sql.Open("sqlite3", fileURI(filepath.Join(dir, FileName))+"?mode=rwc")
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range statements {
			if _, err := db.Exec(s); err != nil {
				t.Fatal(err)
			}
		}
		if err := db.Close(); err != nil {
			t.Fatal(err)
		}
		return dir
	}
	wantOpenError(t, make(t, "PRAGMA application_id=42", "CREATE TABLE tank (id)"), CodeNotOurs)
	wantOpenError(t, make(t, "PRAGMA application_id=42"), CodeNotOurs)
	wantOpenError(t, make(t, "CREATE TABLE tank (id)"), CodeNotOurs)
	wantOpenError(t, make(t, "PRAGMA journal_mode=WAL", "CREATE TABLE tank (id)"), CodeNotOurs)
	// Ours by its mark, but the version number does not fit what is in it.
	wantOpenError(t, make(t, fmt.Sprintf("PRAGMA application_id=%d", ApplicationID), "CREATE TABLE tank (id)"), CodeDamaged)
	// Nothing in it that could be lost: taken as a new folder.
	dir := make(t, "PRAGMA user_version=0", "CREATE TABLE x (y)", "DROP TABLE x")
	if s := open(t, dir); !s.Fresh() {
		t.Error("an empty database was not taken as new")
	}
	dir = t.TempDir()
	writeFile(t, filepath.Join(dir, FileName), nil)
	if s := open(t, dir); !s.Fresh() {
		t.Error("a file of 0 bytes was not taken as new")
	}
}

// hangs is how long an image is waited for: no measure of speed, a busy machine has room.
const hangs = time.Minute

// TestDamageAnywhere (D2-08): a byte changed or an end cut off at random gives a
// refusal that leaves the file alone, or a database that can be read or says
// why not. SQLite keeps no checksum of its pages: a letter changed inside a
// text cannot be told.
func TestDamageAnywhere(t *testing.T) {
	_, data := sound(t, 60)
	random := rand.New(rand.NewPCG(7, 8))
	var images [][]byte
	for range flipRounds {
		img := slices.Clone(data)
		img[random.IntN(len(img))] ^= byte(1 + random.IntN(255))
		images = append(images, img)
	}
	for at := range 100 { // every byte of the header
		img := slices.Clone(data)
		img[at] ^= 0xff
		images = append(images, img)
	}
	for range truncateRounds {
		images = append(images, data[:random.IntN(len(data))])
	}
	refused := 0
	for i, img := range images {
		dir := filepath.Join(t.TempDir(), fmt.Sprint(i))
		if err := os.Mkdir(dir, 0o700); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, FileName)
		writeFile(t, path, img)
		before := hashes(t, path)
		ctx, cancel := context.WithTimeout(context.Background(), hangs)
		s, err := Open(ctx, dir, options)
		if err != nil {
			refused++
			var oe *OpenError
			if !errors.As(err, &oe) || oe.Code == CodeMigration || oe.Code == CodeSnapshot {
				t.Errorf("image %d: %v", i, err)
			}
			if oe != nil && (oe.Code == CodeDamaged || oe.Code == CodeNotOurs) && hashes(t, path) != before {
				t.Errorf("image %d: changed by refusal %v", i, err)
			}
		} else {
			for _, tb := range tables {
				if _, err := s.Load(ctx, tb.name, nil, ""); err != nil {
					var pe *OpError
					if !errors.As(err, &pe) {
						t.Errorf("image %d: %v", i, err)
					}
				}
			}
			if _, err := s.Verify(ctx); err != nil {
				var pe *OpError
				if !errors.As(err, &pe) {
					t.Errorf("image %d: %v", i, err)
				}
			}
			_ = s.Close()
		}
		if ctx.Err() != nil {
			t.Errorf("image %d: took more than %v", i, hangs)
		}
		cancel()
		_ = os.RemoveAll(dir)
	}
	if refused < truncateRounds {
		t.Errorf("%d of %d images refused, want at least the %d cut off", refused, len(images), truncateRounds)
	}
	drill.Tally(t, "D2-08", fmt.Sprintf("damaged images, %d refused, the rest harmless", refused), len(images), 0)
}

// TestHotJournal: the change to a write-ahead log cut off in the middle leaves a
// rollback journal, which must be played back before the file is judged.
func TestHotJournal(t *testing.T) {
	dir, _ := sound(t, 10)
	path := filepath.Join(dir, FileName)
	db, err := sql.Open("sqlite3", fileURI(path)+"?mode=rw&_journal_mode=DELETE&_cache_size=5")
	if err != nil {
		t.Fatal(err)
	}
	db.SetMaxOpenConns(1)
	for _, q := range []string{"PRAGMA cache_spill=1", "BEGIN IMMEDIATE", "UPDATE entry SET note = hex(randomblob(3000))"} {
		if _, err := db.Exec(q); err != nil {
			t.Fatal(err)
		}
	}
	// A copy taken in mid-transaction by another program is what a crash leaves.
	crash := t.TempDir()
	copyByOtherProgram(t, path, filepath.Join(crash, FileName))
	copyByOtherProgram(t, path+"-journal", filepath.Join(crash, FileName+"-journal"))
	if _, err := db.Exec("ROLLBACK"); err != nil {
		t.Fatal(err)
	}
	_ = db.Close()
	s := open(t, crash)
	if n := entriesOK(t, s); n != 10 {
		t.Errorf("%d entries, want 10", n)
	}
}
