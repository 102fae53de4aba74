package keeper

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"image"
	"image/jpeg"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/photo"
)

// large is a JPEG of that size with edges, soft light and noise.
func large(b *testing.B, w, h int) []byte {
	b.Helper()
	m := image.NewYCbCr(image.Rect(0, 0, w, h), image.YCbCrSubsampleRatio420)
	row := make([]float64, w)
	for x := range row {
		row[x] = 110 + 60*math.Sin(float64(x)/float64(w)*9)
	}
	seed := uint32(1)
	for y := range h {
		down := 40 * math.Cos(float64(y)/float64(h)*7)
		for x := range w {
			seed = seed*1664525 + 1013904223
			m.Y[y*m.YStride+x] = byte(row[x] + down + float64(seed>>28) - 8)
		}
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = byte(100+i%m.CStride*50/m.CStride), 140
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, m, &jpeg.Options{Quality: 90}); err != nil {
		b.Fatal(err)
	}
	return out.Bytes()
}

// numbered is the same picture as another file.
func numbered(jpg []byte, n int) []byte {
	c := binary.BigEndian.AppendUint32([]byte("\xff\xd8\xff\xfe\x00\x06"), uint32(n))
	return append(c, jpg[2:]...)
}

// peak is the most memory the process has held, in MB, since forget; 0 where the
// system does not tell.
func peak() float64 {
	raw, _ := os.ReadFile("/proc/self/status")
	for _, line := range strings.Split(string(raw), "\n") {
		if f := strings.Fields(line); len(f) == 3 && f[0] == "VmHWM:" {
			kb, _ := strconv.ParseFloat(f[1], 64)
			return kb / 1024
		}
	}
	return 0
}

func forget() {
	debug.FreeOSMemory()
	_ = os.WriteFile("/proc/self/clear_refs", []byte("5"), 0)
}

// BenchmarkAddPhotos adds 100 pictures of 12 megapixels, four of them of 48,
// beside a loop of vipsthumbnail over the same files: it wants at most 2.5 times
// as long, and 400 MB at most, files kept and rows written.
func BenchmarkAddPhotos(b *testing.B) {
	vips, err := exec.LookPath("vipsthumbnail")
	if err != nil {
		b.Fatalf("vipsthumbnail is needed as the reference: %v", err)
	}
	dir := b.TempDir()
	const n = 100
	for size, every := range map[[2]int]bool{{4000, 3000}: false, {8000, 6000}: true} {
		jpg := large(b, size[0], size[1])
		for i := range n {
			if (i%25 == 24) != every {
				continue
			}
			if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%03d.jpg", i)), numbered(jpg, i), 0o600); err != nil {
				b.Fatal(err)
			}
		}
	}
	ours, theirs, most := time.Hour, time.Hour, 0.0
	for b.Loop() {
		k, tank := withTank(b)
		forget()
		start := time.Now()
		a, err := k.AddPhotos(context.Background(), tank, []photo.Source{{Path: dir}}, AddOptions{}, nil)
		ours = min(ours, time.Since(start))
		most = max(most, peak())
		if err != nil || len(a.Photos) != n || len(a.Broken) != 0 {
			b.Fatalf("%d added, %d broken, %v", len(a.Photos), len(a.Broken), err)
		}
		out := b.TempDir()
		start = time.Now()
		for i := range n {
			name := fmt.Sprintf("%03d.jpg", i)
			if said, err := exec.Command(vips, "-s", "512", "-o", filepath.Join(out, name)+"[Q=85]", filepath.Join(dir, name)).CombinedOutput(); err != nil {
				b.Fatalf("%v %s", err, said)
			}
		}
		theirs = min(theirs, time.Since(start))
	}
	b.ReportMetric(ours.Seconds()/theirs.Seconds(), "x-vipsthumbnail")
	b.ReportMetric(ours.Seconds(), "s-ours")
	b.ReportMetric(theirs.Seconds(), "s-vips")
	b.ReportMetric(most, "MB-peak")
}
