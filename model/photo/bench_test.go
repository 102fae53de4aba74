package photo

import (
	"bytes"
	"context"
	"image"
	"image/jpeg"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// scene draws a picture with what photographs have: soft light, edges, fine
// detail and noise, the same each time.
func scene(w, h int) *image.YCbCr {
	m := image.NewYCbCr(image.Rect(0, 0, w, h), image.YCbCrSubsampleRatio420)
	seed := uint32(1)
	for y := range h {
		for x := range w {
			seed = seed*1664525 + 1013904223
			v := 110 + 60*math.Sin(float64(x)/float64(w)*9) + 40*math.Cos(float64(y)/float64(h)*7)
			if (x/(w/40+1)+y/(h/30+1))%5 == 0 {
				v -= 50
			}
			v += float64(seed>>28) - 8
			m.Y[y*m.YStride+x] = byte(min(max(v, 0), 255))
		}
	}
	for y := range (h + 1) / 2 {
		for x := range (w + 1) / 2 {
			m.Cb[y*m.CStride+x] = byte(128 + 30*math.Sin(float64(x)/float64(w)*20))
			m.Cr[y*m.CStride+x] = byte(128 + 30*math.Cos(float64(y)/float64(h)*20))
		}
	}
	return m
}

func jpegOf(t testing.TB, img image.Image, quality int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// outside finds a program that a benchmark is measured beside.
func outside(b *testing.B, name string) string {
	b.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		b.Fatalf("%s is needed as the reference: %v", name, err)
	}
	return path
}

// psnr compares two pictures of one size by luminance, in decibels.
func psnr(t testing.TB, a, b image.Image) float64 {
	t.Helper()
	if a.Bounds().Size() != b.Bounds().Size() {
		t.Fatalf("sizes %v and %v", a.Bounds(), b.Bounds())
	}
	x, y := RGBA(a, 0), RGBA(b, 0)
	sum := 0.0
	for i := range x.Pix {
		if i%4 == 3 {
			continue
		}
		d := float64(x.Pix[i]) - float64(y.Pix[i])
		sum += d * d
	}
	return 10 * math.Log10(255*255/(sum/float64(len(x.Pix)/4*3)))
}

// BenchmarkThumb makes the usual small picture of a telephone's, beside
// vipsthumbnail in the same run: the best of each counts, as the machine is
// shared. It wants at most 2 times as long for 12 megapixels and 4 times for 48.
func BenchmarkThumb(b *testing.B) {
	vips := outside(b, "vipsthumbnail")
	for _, c := range []struct {
		name string
		w, h int
	}{{"12MP", 4000, 3000}, {"48MP", 8000, 6000}} {
		b.Run(c.name, func(b *testing.B) {
			dir := b.TempDir()
			data := jpegOf(b, scene(c.w, c.h), 90)
			from, to := filepath.Join(dir, "a.jpg"), filepath.Join(dir, "b.jpg")
			if err := os.WriteFile(from, data, 0o600); err != nil {
				b.Fatal(err)
			}
			d := NewDecoder(Usual())
			ours, theirs := time.Hour, time.Hour
			var last Thumb
			for b.Loop() {
				start := time.Now()
				raw, err := os.ReadFile(from)
				if err != nil {
					b.Fatal(err)
				}
				if last, _, err = d.Thumb(context.Background(), raw, ThumbSide); err != nil {
					b.Fatal(err)
				}
				ours = min(ours, time.Since(start))
				start = time.Now()
				if out, err := exec.Command(vips, "-s", "512", "-o", to+"[Q=85]", from).CombinedOutput(); err != nil {
					b.Fatalf("%v %s", err, out)
				}
				theirs = min(theirs, time.Since(start))
			}
			b.ReportMetric(ours.Seconds()/theirs.Seconds(), "x-vipsthumbnail")
			b.ReportMetric(float64(ours.Milliseconds()), "ms-ours")
			b.ReportMetric(float64(theirs.Milliseconds()), "ms-vips")
			raw, err := os.ReadFile(to)
			if err != nil {
				b.Fatal(err)
			}
			ref, err := jpeg.Decode(bytes.NewReader(raw))
			if err != nil {
				b.Fatal(err)
			}
			img, err := jpeg.Decode(bytes.NewReader(last.JPEG))
			if err != nil {
				b.Fatal(err)
			}
			b.ReportMetric(psnr(b, img, ref), "dB-psnr")
		})
	}
}
