package store

import (
	"context"
	"path/filepath"
	"testing"
	"time"
)

// BenchmarkApply makes one entry with two readings durable through Apply, and
// beside it commits one plain row through database/sql with the same settings.
// ratio is the one over the other: what the history, the guards and the
// readings cost on top of a flush of the disk.
func BenchmarkApply(b *testing.B) {
	ctx := context.Background()
	s := open(b, b.TempDir())
	addTank(b, s, "t1")
	bare, err := openFile(ctx, filepath.Join(b.TempDir(), "bare.db"), makeNew)
	if err != nil {
		b.Fatal(err)
	}
	defer bare.Close()
	if _, err := bare.Exec("CREATE TABLE entry (id TEXT PRIMARY KEY, note TEXT) STRICT"); err != nil {
		b.Fatal(err)
	}
	var ours, plain time.Duration
	n := 0
	for b.Loop() {
		n++
		c := entryChange("t1", n)
		start := time.Now()
		if err := s.Apply(ctx, c); err != nil {
			b.Fatal(err)
		}
		ours += time.Since(start)
		start = time.Now()
		tx, err := bare.BeginTx(ctx, nil)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := tx.Exec("INSERT INTO entry VALUES (?, ?)", c.Ops[0].After["id"], c.Ops[0].After["note"]); err != nil {
			b.Fatal(err)
		}
		if err := tx.Commit(); err != nil {
			b.Fatal(err)
		}
		plain += time.Since(start)
	}
	b.ReportMetric(float64(ours.Microseconds())/float64(n), "apply-µs")
	b.ReportMetric(float64(plain.Microseconds())/float64(n), "bare-µs")
	b.ReportMetric(float64(ours)/float64(plain), "ratio")
}
