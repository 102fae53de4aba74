package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"time"

	"example.org/driploop/model/durable"
)

// The parts of a snapshot that a test lets fail in turn.
var (
	vacuumInto = func(ctx context.Context, q querier, path string) error {
		_, err := q.ExecContext(ctx, "VACUUM INTO ?", path)
		return err
	}
	checkFile = check
	publish   = durable.Publish
)

// Snapshot writes a copy of the database into the folder of snapshots and
// returns its path. The copy is made by SQLite under a temporary name, checked,
// compared with the original by its number of rows, flushed, and only then given
// its name, which carries the time (UTC) and the schema version. Errors:
// *OpError (CodeSnapshot when the copy is no good; CodeGone, see PutBack).
func (s *Store) Snapshot(ctx context.Context) (string, error) {
	if err := s.inPlace("snapshot"); err != nil {
		return "", err // a folder that was moved must not be made anew beside
	}
	if why := s.ReadOnly(); waits(why) {
		return "", &OpError{Code: CodeReadOnly, Op: "snapshot", Err: why}
	}
	return s.snapshot(ctx, "")
}

// Daily makes the day's copy: a snapshot unless one was made by Daily on the same
// civil day, and then takes away those that Rotation does not keep. It returns the
// path of the copy, "" when there was one. What a person or an upgrade had copied
// is never taken away. Errors: as Snapshot's; *durable.WriteError.
func (s *Store) Daily(ctx context.Context) (string, error) {
	if err := s.inPlace("snapshot"); err != nil {
		return "", err
	}
	now := s.now()
	all, err := Snapshots(s.dir)
	if err != nil {
		return "", err
	}
	for _, i := range all {
		if i.Daily && dayOf(i.At.In(now.Location())) == dayOf(now) {
			return "", nil
		}
	}
	path, err := s.snapshot(ctx, dailyMark)
	if err != nil {
		return "", err
	}
	return path, s.rotate(now.Location())
}

// rotate removes the daily copies that Rotation does not keep.
func (s *Store) rotate(zone *time.Location) error {
	all, err := Snapshots(s.dir)
	if err != nil {
		return err
	}
	var daily []SnapshotInfo
	var at []time.Time
	for _, i := range all {
		if i.Daily {
			daily, at = append(daily, i), append(at, i.At.In(zone))
		}
	}
	for n, keep := range Rotation(at) {
		if !keep {
			if err := os.Remove(daily[n].Path); err != nil {
				return &durable.WriteError{Op: durable.OpRemove, Path: daily[n].Path, Err: err}
			}
		}
	}
	return nil
}

// dailyMark stands in the names of copies made by Daily.
const dailyMark = "-daily"

func (s *Store) snapshot(ctx context.Context, mark string) (string, error) {
	const op = "snapshot"
	folder := filepath.Join(s.dir, SnapshotFolder)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", opError(op, "", err)
	}
	if err := durable.SyncDir(s.dir); err != nil {
		return "", opError(op, "", err)
	}
	// The only connection is held throughout: no change slips in between the
	// copy and the count it is compared with.
	conn, err := s.db.Conn(ctx)
	if err != nil {
		return "", opError(op, "", err)
	}
	defer conn.Close()
	version, err := number(ctx, conn, "PRAGMA user_version")
	if err != nil {
		return "", opError(op, "", err)
	}
	path := freeName(folder, s.now().UTC(), int(version), mark)
	temp := filepath.Join(folder, durable.TempPrefix+filepath.Base(path))
	if err := copyTo(ctx, conn, temp, int(version)); err != nil {
		_ = os.Remove(temp)
		_ = os.Remove(temp + "-journal")
		return "", opError(op, "", err)
	}
	if err := publish(temp, path); err != nil {
		return "", opError(op, "", err)
	}
	return path, nil
}

// copyTo makes the copy and checks it.
func copyTo(ctx context.Context, conn querier, temp string, version int) error {
	if err := vacuumInto(ctx, conn, temp); err != nil {
		return err
	}
	bad := func(err error) error { return &OpError{Code: CodeSnapshot, Op: "snapshot", Err: err} }
	got, err := checkFile(ctx, temp, asIs)
	if err != nil {
		return bad(err)
	}
	if got != version {
		return bad(fmt.Errorf("schema version %d, want %d", got, version))
	}
	want, err := counts(ctx, conn)
	if err != nil {
		return err
	}
	db, err := openFile(ctx, temp, asIs)
	if err != nil {
		return bad(err)
	}
	defer db.Close()
	have, err := counts(ctx, db)
	if err != nil {
		return bad(err)
	}
	for name, n := range want {
		if have[name] != n {
			return bad(fmt.Errorf("table %s has %d rows, want %d", name, have[name], n))
		}
	}
	return nil
}

// stamp is how a snapshot's name writes its time.
const stamp = "20060102T150405Z"

var snapshotName = regexp.MustCompile(`^driploop-(\d{8}T\d{6}Z)-v(\d{4})(-daily)?(?:-(\d+))?\.db$`)

// freeName gives a name that is not taken yet.
func freeName(folder string, at time.Time, version int, mark string) string {
	base := filepath.Join(folder, fmt.Sprintf("driploop-%s-v%04d%s", at.Format(stamp), version, mark))
	path := base + ".db"
	for n := 2; ; n++ {
		if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
			return path
		}
		path = base + "-" + strconv.Itoa(n) + ".db"
	}
}

// SnapshotInfo is what a snapshot's name and size tell.
type SnapshotInfo struct {
	Path    string
	At      time.Time // UTC, as the clock stood when it was made
	Version int       // schema version
	Size    int64     // bytes
	Daily   bool      // made by Daily, and taken away by it in time
}

// Snapshots lists the snapshots of a data folder, newest first. It needs no
// open Store: it is for when there cannot be one.
func Snapshots(dir string) ([]SnapshotInfo, error) {
	folder := filepath.Join(dir, SnapshotFolder)
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, opError("snapshot", "", err)
	}
	var out []SnapshotInfo
	for _, e := range entries {
		m := snapshotName.FindStringSubmatch(e.Name())
		info, err := e.Info()
		if m == nil || err != nil || !info.Mode().IsRegular() {
			continue
		}
		at, err := time.Parse(stamp, m[1])
		if err != nil {
			continue
		}
		version, _ := strconv.Atoi(m[2]) // four digits
		out = append(out, SnapshotInfo{Path: filepath.Join(folder, e.Name()), At: at, Version: version, Size: info.Size(), Daily: m[3] != ""})
	}
	slices.SortFunc(out, func(a, b SnapshotInfo) int {
		if c := b.At.Compare(a.At); c != 0 {
			return c
		}
		// Within one second: the one with the higher number behind it is later.
		if len(a.Path) != len(b.Path) {
			return len(b.Path) - len(a.Path)
		}
		if a.Path > b.Path {
			return -1
		}
		return 1
	})
	return out, nil
}
