package shell_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/shell"
)

// painted is a picture of a pale fish over gravel, w by h pixels, lit by a lamp
// that takes a share of the blue; a white plate leans at the left.
func painted(w, h, seed int, blue float64) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			u, v := float64(x)/float64(w), float64(y)/float64(h)
			c := [3]float64{60 + 40*v, 110 + 50*v, 120 + 60*v}
			if v > 0.8 {
				k := float64((x*7 + y*13 + seed*31) % 37)
				c = [3]float64{150 + k, 130 + k, 100 + k}
			}
			dx, dy := (u-0.55)/0.22, (v-0.45)/0.13
			if dx*dx+dy*dy < 1 || u > 0.72 && u < 0.85 && abs(v-0.45) < (u-0.72)*0.9 {
				c = [3]float64{225, 170 + 40*dy, 70}
			}
			if u > 0.06 && u < 0.2 && v > 0.35 && v < 0.75 {
				c = [3]float64{225, 225, 225}
			}
			m.SetRGBA(x, y, color.RGBA{uint8(c[0]), uint8(c[1]), uint8(c[2] * blue), 255})
		}
	}
	return m
}

func abs(x float64) float64 { return max(x, -x) }

// files writes n pictures into a folder.
func files(t testing.TB, n int) []string {
	t.Helper()
	dir := t.TempDir()
	var out []string
	for i := range n {
		var b bytes.Buffer
		w, h := 640, 480
		if i == 1 {
			w, h = 480, 640
		}
		if err := jpeg.Encode(&b, painted(w, h, i, 1-0.1*float64(i%4)), nil); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, fmt.Sprintf("fish-%d.jpg", i))
		if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		out = append(out, path)
	}
	return out
}

// shoot writes what the window shows where DRIPLOOP_SHOTS says, for the eye.
func (s stage) shoot(t *testing.T, name string) {
	t.Helper()
	dir := os.Getenv("DRIPLOOP_SHOTS")
	if dir == "" {
		return
	}
	var b bytes.Buffer
	if err := png.Encode(&b, s.w.Canvas().Capture()); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name+".png"), b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
}

func (s stage) key(names ...fyne.KeyName) {
	for _, n := range names {
		s.w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: n})
	}
}

// texts is every text shown.
func (s stage) texts() string {
	var all []string
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		switch x := o.(type) {
		case *canvas.Text:
			all = append(all, x.Text)
		case *fyne.Container:
			for _, c := range x.Objects {
				walk(c)
			}
		case fyne.Widget:
			for _, c := range rendered(x) {
				walk(c)
			}
		}
	}
	walk(s.w.Canvas().Content())
	for _, o := range s.w.Canvas().Overlays().List() {
		walk(o)
	}
	return strings.Join(all, "\n")
}

func spanish() shell.Prefs {
	p := english()
	p.Lang, p.Region, p.Units = "es", "ES", quantity.Metric
	return p
}

// pictured is an example tank with n pictures, each with its time.
func pictured(t *testing.T, p shell.Prefs, n int) (stage, string, []string) {
	t.Helper()
	s := open(t, p)
	id, err := s.Example(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	s.Go(nav.Route{Place: nav.Photos, Tank: id})
	s.Dropped(files(t, n))
	for _, o := range s.w.Canvas().Overlays().List() {
		s.w.Canvas().Overlays().Remove(o)
	}
	photos, err := s.k.Photos(context.Background(), id, keeper.PhotoFilter{})
	if err != nil || len(photos) != n {
		t.Fatalf("%d pictures: %v", len(photos), err)
	}
	var ids []string
	for i, x := range photos {
		at := journal.Civil(fmt.Sprintf("2026-%02d-%02dT18:%02d", 9+i%3, 3+i, i))
		if err := s.k.SetPhotoTaken(context.Background(), id, keeper.Taken{ID: x.ID, At: at}); err != nil {
			t.Fatal(err)
		}
		ids = append(ids, x.ID)
	}
	s.Page().Refresh()
	return s, id, ids
}

func TestPicturesInBothLanguages(t *testing.T) {
	for name, p := range map[string]shell.Prefs{"en": english(), "es": spanish()} {
		t.Run(name, func(t *testing.T) {
			s, id, ids := pictured(t, p, 6)
			s.shoot(t, "wall-"+name)
			s.Go(nav.Route{Place: nav.Photos, Tank: id, Photos: strings.Join(ids[:2], ",")})
			s.shoot(t, "two-"+name)
			other := map[string][]string{"en": {"Marcas", "Acercar", "Fotos"}, "es": {"Marks", "Nearer", "Pictures", "Move together", "Caption"}}[name]
			for _, w := range other {
				if text := s.texts(); strings.Contains(text, w) {
					t.Errorf("the page says %q", w)
				}
			}
			s.Go(nav.Route{Place: nav.Photos, Tank: id})
			s.Dropped([]string{"/nowhere/a.jpg", files(t, 1)[0]})
			s.shoot(t, "added-"+name)
			if len(s.w.Canvas().Overlays().List()) == 0 {
				t.Error("nothing is told of a file that is not there")
			}
		})
	}
}
