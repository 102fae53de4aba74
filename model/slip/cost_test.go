package slip

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"io"
	"runtime"
	"testing"
	"time"

	"example.org/driploop/model/drill"
)

// counted counts the bytes that are asked for.
type counted struct {
	*bytes.Reader
	n int64
}

func (c *counted) ReadAt(p []byte, off int64) (int, error) {
	c.n += int64(len(p))
	return c.Reader.ReadAt(p, off)
}

// readAt reads a slip of the shape from anywhere.
func (s shape) readAt(r io.ReaderAt, size int64) (err error) {
	switch s.format {
	case FormatVisit:
		_, _, err = ReadVisit(r, size)
	case FormatReply:
		_, _, err = ReadReply(r, size)
	default:
		_, _, err = ReadProfile(r, size)
	}
	return err
}

// mostRead is how many bytes may be read of a file of size bytes, however it lies about
// itself: it once through, the records of its parts once more, and what a reader takes
// ahead of what it needs.
func mostRead(size int) int64 { return 2*int64(size) + 64<<10 }

// A slip with a large part, cut at every kilobyte, with each kilobyte left out, and
// with each made zeros, is refused; nothing of it is given.
func TestEveryKilobyteCounts(t *testing.T) {
	const kilo = 1000
	tried, lost := 0, 0
	large := noise(drill.Count(60, 300)*kilo, 13)
	archives := shape{format: FormatArchive, read: func(b []byte) (bool, error) {
		a, _, err := ReadArchive(bytes.NewReader(b), int64(len(b)))
		return a != nil, err
	}}
	for _, s := range append([]shape{archives}, shapes...) {
		whole := archived(nil, append(emptyTables(), piece{name: PartIndex, data: large})...).bytes()
		if s.format != FormatArchive {
			whole = s.with(piece{name: "a", data: large}).bytes()
		}
		if _, err := s.read(whole); err != nil {
			t.Fatalf("the whole of %s: %v", s.format, err)
		}
		for at := 0; at < len(whole); at += kilo {
			end := min(at+kilo, len(whole))
			for how, b := range map[string][]byte{"cut": whole[:at], "left out": append(bytes.Clone(whole[:at]), whole[end:]...),
				"zeros": append(append(bytes.Clone(whole[:at]), make([]byte, end-at)...), whole[end:]...)} {
				given, err := s.read(b)
				if codeOf(t, err) == "" || given {
					lost++
					t.Errorf("%s, %s at %d of %d: %v", s.format, how, at, len(whole), err)
				}
				tried++
			}
		}
	}
	drill.Tally(t, "D2-20", "slips cut, shortened or blanked at every kilobyte", tried, lost)
}

// BenchmarkHostile tells the dearest hostile file as a multiple of what it takes to
// hash, once, as many bytes as the largest profile has, in the same run; in milliseconds
// here, of which the trust plan allows a thousand; and the most that one of them has
// allocated, which is above what was in use at once, of 64 MB.
func BenchmarkHostile(b *testing.B) {
	largest := noise(MaxFile, 1)
	var reference, dearest time.Duration
	name, memory := "", uint64(0)
	try := func(what string, h hostile, read func(r io.ReaderAt, size int64) error) {
		data := h.make()
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		from := time.Now()
		err := read(bytes.NewReader(data), int64(len(data)))
		took := time.Since(from)
		runtime.ReadMemStats(&after)
		memory = max(memory, after.TotalAlloc-before.TotalAlloc)
		if took > dearest {
			dearest, name = took, fmt.Sprintf("%s, %s: %v", what, h.name, err)
		}
	}
	for b.Loop() {
		from := time.Now()
		sha256.Sum256(largest)
		reference, dearest = time.Since(from), 0
		for _, s := range shapes {
			for _, h := range s.hostiles() {
				try(s.format, h, s.readAt)
			}
		}
		for _, h := range hostileArchives() {
			try(FormatArchive, h, func(r io.ReaderAt, size int64) error { _, _, err := ReadArchive(r, size); return err })
		}
	}
	b.ReportMetric(dearest.Seconds()/reference.Seconds(), "×hash20MB")
	b.ReportMetric(float64(dearest.Milliseconds()), "ms-dearest")
	b.ReportMetric(float64(memory)/1e6, "MB-allocated")
	b.Log("the dearest is " + name)
}
