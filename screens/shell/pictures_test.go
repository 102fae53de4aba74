package shell_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	model "example.org/driploop/model/sick"
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

func spanish() shell.Prefs {
	p := english()
	p.Lang, p.Region, p.Units = "es", "ES", quantity.Metric
	return p
}

// pictured is an example tank with n pictures, each with its time.
func pictured(t *testing.T, p shell.Prefs, n int) (stage, string, []string) {
	t.Helper()
	s := open(t, p)
	id := s.sample(t)
	s.Go(nav.Route{Place: nav.Photos, Tank: id})
	s.Dropped(files(t, n))
	for _, o := range s.w.Canvas().Overlays().List() {
		s.w.Canvas().Overlays().Remove(o)
	}
	photos, err := s.k.Photos(context.Background(), id, keeper.PhotoFilter{Undated: true})
	if err != nil || len(photos) != n { // those of the example have their time
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

// Six files dropped on a case that is open belong to it; so do those dropped on
// an entry whose form is open, written or not.
func TestDroppedWhereOneIs(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	id := s.sample(t)
	sick, err := s.k.OpenCase(ctx, id, keeper.Who{About: "the striped one"}, model.One)
	if err != nil {
		t.Fatal(err)
	}
	own, err := s.k.Photos(ctx, id, keeper.PhotoFilter{})
	if err != nil {
		t.Fatal(err)
	}
	before := len(own)
	s.Go(nav.Route{Place: nav.Sick, Tank: id, Case: sick})
	all := files(t, 6)
	s.Dropped(all)
	s.shoot(t, "case-asked")
	s.hit(t, "as_file", fyne.KeyReturn)
	got, err := s.k.Photos(ctx, id, keeper.PhotoFilter{Sick: sick})
	if err != nil || len(got) != 6 {
		t.Fatalf("the case has %d pictures: %v", len(got), err)
	}
	s.hit(t, "what-to-do", fyne.KeyReturn)
	s.at(t, "picture_"+got[0].ID)
	s.shoot(t, "case")
	s.key(fyne.KeyReturn)
	if r := s.Route(); r.Place != nav.Photos || r.Photos != got[0].ID {
		t.Errorf("a picture of the case opens %v", r)
	}

	// An entry that is not written yet.
	more := files(t, 9)[6:]
	s.Go(nav.Route{Place: nav.Daybook, Tank: id, Write: journal.Note})
	s.Dropped(more[:1])
	s.shoot(t, "form-waiting")
	s.fillIn(t, "note", "it hides")
	s.hit(t, "keep", fyne.KeyReturn)
	days, err := s.k.Days(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	var entry string
	for _, d := range days {
		for _, e := range d.Entries {
			if e.Note == "it hides" {
				entry = e.ID
			}
		}
	}
	if got, err = s.k.Photos(ctx, id, keeper.PhotoFilter{Entry: entry}); err != nil || len(got) != 1 || entry == "" {
		t.Fatalf("the new entry %q has %d pictures: %v", entry, len(got), err)
	}
	// One that is.
	s.Go(nav.Route{Place: nav.Daybook, Tank: id, Entry: entry})
	s.Page().Focus()
	s.Dropped(more[1:])
	s.key(fyne.KeyEscape)
	s.shoot(t, "form-pictures")
	if got, err = s.k.Photos(ctx, id, keeper.PhotoFilter{Entry: entry}); err != nil || len(got) != 3 {
		t.Fatalf("the entry has %d pictures: %v", len(got), err)
	}
	// With nothing open they find their place by their time.
	s.Go(nav.Route{Place: nav.Today, Tank: id})
	s.Dropped(files(t, 12)[9:])
	if got, err = s.k.Photos(ctx, id, keeper.PhotoFilter{}); err != nil || len(got) != 12+before {
		t.Fatalf("%d pictures in all: %v", len(got), err)
	}
}

// Marks, a known length and a length, the white patch, the caption and the bin by
// keyboard alone.
func TestPictureByKeyboard(t *testing.T) {
	s, id, ids := pictured(t, spanish(), 4)
	ctx := context.Background()
	s.key(fyne.KeySpace, fyne.KeyRight, fyne.KeySpace)
	s.shoot(t, "wall-picked")
	s.key(fyne.KeyReturn)
	if r := s.Route(); strings.Count(r.Photos, ",") != 1 {
		t.Fatalf("two picked pictures open %q", r.Photos)
	}
	s.Go(nav.Route{Place: nav.Photos, Tank: id, Photos: ids[0]})
	draw := func(tool string, keys ...fyne.KeyName) {
		s.hit(t, tool, fyne.KeyReturn)
		s.key(fyne.KeySpace)
		s.key(keys...)
	}
	right := func(n int) (out []fyne.KeyName) {
		for range n {
			out = append(out, fyne.KeyRight)
		}
		return out
	}
	draw("tool_circle", append(append([]fyne.KeyName{fyne.KeyReturn}, right(6)...), fyne.KeyReturn)...)
	draw("tool_arrow", append(append([]fyne.KeyName{fyne.KeyUp, fyne.KeyUp, fyne.KeyReturn}, right(9)...), fyne.KeyReturn)...)
	draw("tool_words", fyne.KeyLeft, fyne.KeyReturn)
	s.fillIn(t, "ask", "mancha blanca")
	s.key(fyne.KeyReturn)
	draw("tool_known", append(append([]fyne.KeyName{fyne.KeyDown, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn}, right(20)...), fyne.KeyReturn)...)
	s.fillIn(t, "ask", "4")
	s.shoot(t, "ask-known")
	s.key(fyne.KeyReturn)
	draw("tool_length", append(append([]fyne.KeyName{fyne.KeyUp, fyne.KeyUp, fyne.KeyUp, fyne.KeyUp, fyne.KeyReturn}, right(10)...), fyne.KeyReturn)...)
	x, err := s.k.Photo(ctx, id, ids[0])
	if err != nil || len(x.Marks) != 5 {
		t.Fatalf("%d marks: %v", len(x.Marks), err)
	}
	if text := s.texts(); !strings.Contains(text, "2 cm") && !strings.Contains(text, "20 mm") && !strings.Contains(text, "2,0 cm") {
		t.Errorf("half of 4 cm is not said:\n%s", text)
	}
	s.shoot(t, "marked-es")
	s.hit(t, "white", fyne.KeyReturn)
	s.key(append([]fyne.KeyName{fyne.KeySpace}, []fyne.KeyName{fyne.KeyLeft, fyne.KeyLeft}...)...)
	for range 34 {
		s.key(fyne.KeyLeft)
	}
	s.key(fyne.KeyReturn)
	if x, err = s.k.Photo(ctx, id, ids[0]); err != nil || x.White == nil {
		s.shoot(t, "white-failed")
		t.Fatalf("no white patch: %v", err)
	}
	s.fillIn(t, "caption", "De lado")
	s.w.Canvas().FocusNext()
	if x, err = s.k.Photo(ctx, id, ids[0]); err != nil || x.Caption != "De lado" {
		t.Errorf("the caption is %q: %v", x.Caption, err)
	}
	s.hit(t, "copy", fyne.KeyReturn)
	s.shoot(t, "copied-es")
	s.hit(t, "delete", fyne.KeyReturn)
	if _, err := s.k.Photo(ctx, id, ids[0]); err == nil {
		t.Error("it is not in the bin")
	}
	s.Undo()
	if _, err := s.k.Photo(ctx, id, ids[0]); err != nil {
		t.Errorf("undo does not bring it back: %v", err)
	}
}

// The menu is that of every place of the bar, each with its key.
func TestMenuHasEveryPlace(t *testing.T) {
	s := open(t, english())
	id := s.sample(t)
	s.Go(nav.Route{Place: nav.Photos, Tank: id})
	labels := map[string]bool{}
	for _, m := range s.Menu().Items {
		for _, i := range m.Items {
			labels[i.Label] = i.Shortcut != nil
		}
	}
	for _, want := range []string{"First fill", "Today", "Daybook", "Add pictures", "Paste pictures"} {
		if key, there := labels[want]; !there || !key {
			t.Errorf("%q is in the menu: %v, with a key: %v", want, there, key)
		}
	}
	if n := len(nav.Places()); n < 3 {
		t.Errorf("%d places", n)
	}
}

// On the wall all pictures are picked at once and told which fish they show; those
// without one can be looked at by themselves.
func TestFishOfManyPicturesOnTheWall(t *testing.T) {
	ctx := context.Background()
	s := open(t, english())
	tank := s.sample(t)
	id, err := s.k.AddFish(ctx, tank, keeper.Fish{Name: "Stripe", Count: 1})
	if err != nil {
		t.Fatal(err)
	}
	s.Go(nav.Route{Place: nav.Photos, Tank: tank})
	s.pickOption(t, "album", "-")
	all, err := s.k.Photos(ctx, tank, keeper.PhotoFilter{NoFish: true})
	if err != nil || len(all) < 2 {
		t.Fatalf("%d pictures without a fish, %v", len(all), err)
	}
	s.hit(t, "pick-all", fyne.KeyReturn)
	s.pickOption(t, "set-fish", id)
	got, err := s.k.Photos(ctx, tank, keeper.PhotoFilter{Fish: id})
	if err != nil || len(got) != len(all) {
		t.Fatalf("%d of %d pictures show the fish, %v", len(got), len(all), err)
	}
	if !strings.Contains(s.texts(), "Every picture has its fish.") {
		t.Errorf("%s", s.texts())
	}
	s.Undo()
	if got, _ = s.k.Photos(ctx, tank, keeper.PhotoFilter{Fish: id}); len(got) != 0 {
		t.Errorf("undone: %d pictures show the fish", len(got))
	}
}
