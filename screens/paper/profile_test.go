package paper

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2/theme"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/drill"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// counter is a shop with a profile: usual, or with notes that take several codes.
func counter(t *testing.T, long bool) (*keeper.Keeper, string) {
	t.Helper()
	ctx := context.Background()
	k, err := keeper.Open(ctx, t.TempDir(), keeper.Options{Now: func() time.Time { return time.Date(2026, 11, 25, 9, 10, 0, 0, time.FixedZone("", 3600)) },
		Region: care.Region{Code: "ES"}})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := k.Close(); err != nil {
			t.Error(err)
		}
	})
	if err := k.SetShop(ctx, slip.Shop{Name: "The shop at the corner", Address: "1 High Street\nTown", Hours: "9 to 6"}, map[string]string{"en": "Bring a sample of your water.", "es": "Trae una muestra de tu agua."}); err != nil {
		t.Fatal(err)
	}
	id, err := k.StartProfile(ctx, "Starter 54", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	for _, step := range care.Steps() {
		if slip.Marked(step) {
			if err := k.CarryOn(ctx, id, step); err != nil {
				t.Fatal(err)
			}
		}
	}
	if long {
		var b strings.Builder
		for i := range 130 {
			fmt.Fprintf(&b, "%d: %x. ", i, i*i*i*7919)
		}
		if err := k.SetProfileNotes(ctx, id, map[string]string{"en": b.String()}); err != nil {
			t.Fatal(err)
		}
	}
	return k, id
}

// dpi of a print, as an office printer and a camera make of it.
const dpi = 150

// printed is the first pages of a sheet as pixels: by our own rasteriser, and by
// pdftoppm.
func printed(t *testing.T, k *keeper.Keeper, id string, size Size) map[string][]image.Image {
	t.Helper()
	ctx := context.Background()
	r, err := k.PrepareHandOut(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	p := present.Presenter{W: i18n.Speak("en", "ES", quantity.Metric), Region: care.Region{Code: "ES"}}
	var b bytes.Buffer
	if err := WriteProfile(ctx, k, id, r, []string{""}, p, size, &b); err != nil {
		t.Fatal(err)
	}
	in, err := Gather(ctx, k, id, p, size)
	if err != nil {
		t.Fatal(err)
	}
	if in.Handed, err = handedOf(ctx, k, id, r, in.Presenter); err != nil {
		t.Fatal(err)
	}
	ps, _ := pages(Profile, &in)
	out := map[string][]image.Image{}
	var raster scene.Raster
	for _, q := range ps {
		img := image.NewRGBA(image.Rect(0, 0, int(size.W*dpi/25.4), int(size.H*dpi/25.4)))
		for i := range img.Pix {
			img.Pix[i] = 255
		}
		raster.Draw(img, q.scene, scene.Transform{Scale: dpi / 25.4, Point: dpi / 96.0}, look.PaletteOf(theme.VariantLight))
		out["our own"] = append(out["our own"], img)
	}
	if out["pdftoppm"] = shots(t, b.Bytes()); len(out["pdftoppm"]) != len(ps) {
		t.Fatalf("%d pages of %d", len(out["pdftoppm"]), len(ps))
	}
	return out
}

// shots is a document as pictures of its pages, by pdftoppm.
func shots(t *testing.T, document []byte) []image.Image {
	t.Helper()
	dir := t.TempDir()
	file := filepath.Join(dir, "sheet.pdf")
	if err := os.WriteFile(file, document, 0o600); err != nil {
		t.Fatal(err)
	}
	if said, err := exec.Command("pdftoppm", "-r", fmt.Sprint(dpi), "-gray", "-png", file, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
		t.Fatalf("pdftoppm: %v\n%s", err, said)
	}
	names, err := filepath.Glob(filepath.Join(dir, "page*.png"))
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(names)
	var out []image.Image
	for _, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, img)
	}
	return out
}

// photographed writes a picture, as a camera does, as JPEG or as PNG.
func photographed(t *testing.T, img image.Image, ending string) string {
	t.Helper()
	var b bytes.Buffer
	var err error
	if ending == ".jpg" {
		err = jpeg.Encode(&b, img, &jpeg.Options{Quality: 80})
	} else {
		err = png.Encode(&b, img)
	}
	path := filepath.Join(t.TempDir(), "picture"+ending)
	if err == nil {
		err = os.WriteFile(path, b.Bytes(), 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// A sheet that was printed at 150 dpi and photographed gives the very file that was
// handed out, with its signature: as scanned, and by a camera held askew and at a
// slant, in uneven light, with noise and out of focus.
func TestProfileSheetIsReadBack(t *testing.T) {
	ctx := context.Background()
	home, err := keeper.Open(ctx, t.TempDir(), keeper.Options{Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	defer home.Close()
	r := rand.New(rand.NewPCG(6, 5))
	for _, c := range []struct {
		name  string
		long  bool
		codes int
		size  Size
		shots []drill.Shot
	}{
		{"usual", false, 1, A4, []drill.Shot{{}, {Turn: 4, Scale: 1.3, Slant: 0.1, Dark: 0.5, Noise: 4, Seed: 1}, {Turn: 180, Blur: 1, Dark: 0.3, Noise: 4, Seed: 2}}},
		{"usual, by anybody", false, 1, A4, []drill.Shot{drill.AnyShot(r), drill.AnyShot(r), drill.AnyShot(r)}},
		{"usual", false, 1, Letter, []drill.Shot{{Turn: -7, Scale: 1.1, Slant: 0.06, Blur: 1, Dark: 0.4, Noise: 4, Seed: 3}}},
		{"long notes", true, 2, A4, []drill.Shot{{Turn: 2, Scale: 1.5, Slant: 0.06, Dark: 0.4, Noise: 4, Seed: 4}}},
	} {
		k, id := counter(t, c.long)
		r, err := k.PrepareHandOut(ctx, id)
		if err != nil {
			t.Fatal(err)
		}
		for how, imgs := range printed(t, k, id, c.size) {
			for i, shot := range c.shots {
				ending := []string{".png", ".jpg"}[i%2]
				var s slip.Sheet
				if err := home.ReadSheet(ctx, &s, photographed(t, shot.Of(imgs[0]), ending)); err != nil {
					t.Errorf("%s on %s by %s, shot %d: %v", c.name, c.size.Code, how, i, err)
					continue
				}
				have, of := s.Have()
				file, err := s.File()
				if err != nil || of != c.codes || !bytes.Equal(file, r.File) {
					t.Errorf("%s on %s by %s, shot %d: %d of %d codes, want %d, %v", c.name, c.size.Code, how, i, have, of, c.codes, err)
					continue
				}
				o, err := home.OpenSheet(ctx, &s)
				p, found := o.Profile, o.Found
				if err != nil || p.Signature != r.Profile.Signature || !p.Signature.Signed() || found[0].Code != "find.slip.signed_first" {
					t.Errorf("%s on %s by %s, shot %d: %v %v", c.name, c.size.Code, how, i, found, err)
				}
			}
		}
	}
}

// A page without codes is refused with the reason, and so is a file that is no
// picture; a picture that shows a sheet is told from one that does not.
func TestProfileSheetRefuses(t *testing.T) {
	ctx := context.Background()
	k, id := counter(t, false)
	imgs := printed(t, k, id, A4)["our own"]
	if len(imgs) < 2 {
		t.Fatalf("%d pages", len(imgs))
	}
	with, without := photographed(t, imgs[0], ".png"), photographed(t, imgs[1], ".png")
	words := filepath.Join(t.TempDir(), "words.jpg")
	if err := os.WriteFile(words, []byte("no picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	w := i18n.Speak("en", "US", quantity.US)
	for path, want := range map[string]string{without: "There is no code of a starter profile, visit slip or reply in this picture", words: "", filepath.Join(t.TempDir(), "none.jpg"): "cannot be read"} {
		var s slip.Sheet
		err := k.ReadSheet(ctx, &s, path)
		said, ok := w.Problem(err)
		if err == nil || !strings.Contains(said, want) || want != "" && !ok {
			t.Errorf("%s: %v, told as %q", filepath.Base(path), err, said)
		}
		if k.ShowsSheet(ctx, path) {
			t.Errorf("%s shows a sheet", filepath.Base(path))
		}
	}
	if !k.ShowsSheet(ctx, with) {
		t.Error("the sheet is not seen")
	}
}

// Ten families: each has its own sheet in one document, with its name or a line.
func TestSheetsForFamilies(t *testing.T) {
	ctx := context.Background()
	k, id := counter(t, false)
	r, err := k.PrepareHandOut(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	labels := make([]string, 10)
	labels[3] = "Family Four"
	p := present.Presenter{W: i18n.Speak("es", "ES", quantity.Metric), Region: care.Region{Code: "ES"}}
	in, err := Gather(ctx, k, id, p, A4)
	if err != nil {
		t.Fatal(err)
	}
	if in.Handed, err = handedOf(ctx, k, id, r, p); err != nil {
		t.Fatal(err)
	}
	all, size := in.sheets(labels)
	one, _ := in.sheets(labels[:1])
	if len(all) != 10*len(one) || len(one) < 2 || len(one) > 3 {
		t.Errorf("%d pages for ten, %d for one", len(all), len(one))
	}
	for i := range labels {
		var b bytes.Buffer
		if err := in.bind(&b, Profile, all[i*len(one):(i+1)*len(one)], size, false); err != nil {
			t.Fatal(err)
		}
		said := textOf(b.Bytes())
		if strings.Contains(said, "Family Four") != (i == 3) {
			t.Errorf("sheet %d: %s", i+1, said)
		}
		for _, want := range []string{"The shop at the corner", "1 High Street", "Edición 1", "Trae una muestra de tu agua."} {
			if !strings.Contains(said, want) {
				t.Errorf("sheet %d does not say %q", i+1, want)
			}
		}
	}
}
