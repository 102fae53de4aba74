package photo

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"testing"

	"example.org/driploop/model/journal"
)

func held(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "photos", name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func decoded(t testing.TB, data []byte, side int) (image.Image, Info) {
	t.Helper()
	img, info, err := NewDecoder(Usual()).Decode(context.Background(), data, side)
	if err != nil {
		t.Fatal(err)
	}
	return img, info
}

// What the files hold is as exiftool 12.57 tells it.
func TestInspectTellsWhatOthersTell(t *testing.T) {
	for _, c := range []struct {
		name        string
		format      Format
		w, h, turn  int
		taken       journal.Civil
		zone        string
		lat, long   float64
		placeIsTold bool
	}{
		{"fish.jpg", JPEG, 640, 480, 6, "2026-03-29T02:30", "+01:00", 41.5, -2.25, true},
		{"fish.png", PNG, 640, 480, 6, "2026-03-29T02:30", "+01:00", 41.5, -2.25, true},
		{"fish.webp", WebP, 640, 480, 6, "2026-03-29T02:30", "+01:00", 41.5, -2.25, true},
		{"progressive.jpg", JPEG, 640, 480, 6, "2026-03-29T02:30", "+01:00", 41.5, -2.25, true},
		{"fish-turned.heic", HEIC, 480, 640, 1, "2026-03-29T02:30", "+01:00", 41.5, -2.25, true},
		{"fish-plain.heic", HEIC, 640, 480, 1, "", "", 0, 0, false},
		{"camera-place.jpg", JPEG, 500, 375, 1, "2003-11-23T18:07", "", 39.915556, 116.390833, true},
		{"camera-turned.jpg", JPEG, 205, 102, 6, "2014-09-01T15:03", "", 59.332547, 18.064942, true},
		{"camera-place-as-text.jpg", JPEG, 205, 102, 1, "2014-04-26T19:09", "", 52.013889, 11.002778, true},
		{"cmyk.jpg", JPEG, 160, 120, 1, "", "", 0, 0, false},
		{"full.jpg", JPEG, 160, 120, 1, "", "", 0, 0, false},
		{"gray.jpg", JPEG, 160, 120, 1, "", "", 0, 0, false},
		{"deep.png", PNG, 160, 120, 1, "", "", 0, 0, false},
		{"small.tif", TIFF, 160, 120, 1, "", "", 0, 0, false},
		{"small.gif", GIF, 160, 120, 1, "", "", 0, 0, false},
		{"small.bmp", BMP, 77, 58, 1, "", "", 0, 0, false},
	} {
		i, err := Inspect(held(t, c.name), Usual())
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if i.Format != c.format || i.Width != c.w || i.Height != c.h || i.Orientation != c.turn || i.Taken != c.taken || i.Zone != c.zone {
			t.Errorf("%s: %+v, want %+v", c.name, i, c)
		}
		switch {
		case (i.Place != nil) != c.placeIsTold:
			t.Errorf("%s: place %v", c.name, i.Place)
		case i.Place != nil && (math.Abs(i.Place.Latitude-c.lat) > 2e-6 || math.Abs(i.Place.Longitude-c.long) > 2e-6):
			t.Errorf("%s: place %v, want %v %v", c.name, *i.Place, c.lat, c.long)
		}
	}
}

func near(a color.Color, want [3]int, by int) bool {
	r, g, b, _ := a.RGBA()
	for i, v := range []uint32{r, g, b} {
		if d := int(v>>8) - want[i]; d > by || d < -by {
			return false
		}
	}
	return true
}

// The corners of the drawing lie where a person who looks at the upright picture
// has them.
func TestPicturesAreUpright(t *testing.T) {
	red, green, blue, yellow := [3]int{255, 0, 0}, [3]int{0, 200, 0}, [3]int{0, 0, 255}, [3]int{255, 255, 0}
	asFile, clockwise := [4][3]int{red, green, blue, yellow}, [4][3]int{blue, red, yellow, green}
	for _, c := range []struct {
		name    string
		corners [4][3]int // upper left, upper right, lower left, lower right
		by      int
	}{
		{"fish.jpg", clockwise, 20}, {"fish.png", clockwise, 20}, {"fish.webp", clockwise, 45}, {"progressive.jpg", clockwise, 30},
		{"fish-turned.heic", clockwise, 40}, {"fish-plain.heic", asFile, 40}, {"cmyk.jpg", asFile, 60}, {"full.jpg", asFile, 30},
		{"deep.png", asFile, 5}, {"small.tif", asFile, 20}, {"small.gif", asFile, 20}, {"small.bmp", asFile, 60},
	} {
		for _, side := range []int{0, 512, 100, 60} {
			img, info := decoded(t, held(t, c.name), side)
			w, h := info.Upright()
			w, h = fit(w, h, side)
			b := img.Bounds()
			if b.Dx() != w || b.Dy() != h {
				t.Fatalf("%s at %d: %v, want %d x %d", c.name, side, b, w, h)
			}
			in := max(min(w, h)/25, 1)
			for i, at := range []image.Point{{in, in}, {w - 1 - in, in}, {in, h - 1 - in}, {w - 1 - in, h - 1 - in}} {
				if got := img.At(b.Min.X+at.X, b.Min.Y+at.Y); !near(got, c.corners[i], c.by) {
					t.Errorf("%s at %d: corner %d is %v, want %v", c.name, side, i, got, c.corners[i])
				}
			}
		}
	}
}

// The letter F in the eight orientations is one picture.
func TestEightOrientationsAreOne(t *testing.T) {
	first, _ := decoded(t, held(t, "letter-1.jpg"), 0)
	for i := 2; i <= 8; i++ {
		img, info := decoded(t, held(t, "letter-"+string(rune('0'+i))+".jpg"), 0)
		if info.Orientation != i {
			t.Errorf("letter %d: orientation %d", i, info.Orientation)
		}
		if db := psnr(t, first, img); db < 30 {
			t.Errorf("letter %d is %.1f dB from the first", i, db)
		}
	}
}

// Damaged tags lose the tags, not the picture.
func TestDamagedTagsAreNoTags(t *testing.T) {
	for _, name := range []string{"damaged-loop.jpg", "damaged-huge-tag.jpg", "damaged-count.jpg"} {
		i, err := Inspect(held(t, name), Usual())
		p := ProblemOf(err)
		if err != nil && (p == nil || p.Code != Unreadable) {
			t.Errorf("%s: %v", name, err)
		}
		if i.Format != JPEG {
			t.Errorf("%s is told as %q", name, i.Format)
		}
	}
}

// HEIC and its small picture come out of the engine as other formats do.
func TestHEICLooksLikeItsSource(t *testing.T) {
	a, _ := decoded(t, held(t, "fish.jpg"), 320)
	b, _ := decoded(t, held(t, "fish-turned.heic"), 320)
	if db := psnr(t, a, b); db < 30 {
		t.Errorf("%.1f dB between the JPEG and the HEIC made of it", db)
	}
	// The very first row and pixel, which the engine leaves wrong.
	c, _ := decoded(t, held(t, "fish-plain.heic"), 0)
	for x, want := range map[int][3]int{0: {255, 0, 0}, 3: {255, 0, 0}, 60: {40, 110, 180}, 400: {40, 110, 180}} {
		if got := c.At(x, 0); !near(got, want, 25) {
			t.Errorf("pixel %d of the first row is %v, want %v", x, got, want)
		}
	}
	th, _, err := NewDecoder(Usual()).Thumb(context.Background(), held(t, "fish-turned.heic"), 320)
	if err != nil || th.Width != 240 || th.Height != 320 || !bytes.HasPrefix(th.JPEG, []byte("\xff\xd8")) {
		t.Errorf("small picture %d x %d, %v", th.Width, th.Height, err)
	}
}
