package keeper_test

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"

	"example.org/driploop/model/photo"
	"example.org/driploop/model/slip"
)

// A printed profile is read back from a picture of every kind that the daybook takes:
// from a HEIC, in colour as telephones write it and in grey, and a WebP by encoders that are not ours
// (testdata/photos/README.txt), and from the same picture in the others.
func TestSheetInEveryKindOfPicture(t *testing.T) {
	ctx := context.Background()
	photos, dir := filepath.Join("..", "..", "testdata", "photos"), t.TempDir()
	want, err := os.ReadFile(filepath.Join(photos, "sheet.dlprofile"))
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(filepath.Join(photos, "sheet.webp"))
	if err != nil {
		t.Fatal(err)
	}
	img, err := webp.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	write := func(encode func(io.Writer) error) string {
		t.Helper()
		f, err := os.CreateTemp(dir, "sheet")
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := encode(f); err != nil {
			t.Fatal(err)
		}
		return f.Name()
	}
	var turned image.Image = quarter{img}
	k := open(t, t.TempDir(), noon())
	defer k.Close()
	for _, f := range photo.Formats() {
		var paths []string
		switch f {
		case photo.HEIC:
			paths = []string{filepath.Join(photos, "sheet.heic"), filepath.Join(photos, "sheet-grey.heic")}
		case photo.WebP:
			paths = []string{filepath.Join(photos, "sheet.webp")}
		case photo.JPEG:
			paths = []string{write(func(w io.Writer) error { return jpeg.Encode(w, img, &jpeg.Options{Quality: 70}) }),
				write(func(w io.Writer) error { return jpeg.Encode(w, turned, nil) })}
		case photo.PNG:
			paths = []string{write(func(w io.Writer) error { return png.Encode(w, img) })}
		case photo.GIF:
			paths = []string{write(func(w io.Writer) error { return gif.Encode(w, img, nil) })}
		case photo.BMP:
			paths = []string{write(func(w io.Writer) error { return bmp.Encode(w, img) })}
		case photo.TIFF:
			paths = []string{write(func(w io.Writer) error { return tiff.Encode(w, img, nil) })}
		}
		if len(paths) == 0 {
			t.Errorf("%s was not tried", f)
		}
		for _, path := range paths {
			if !k.ShowsSheet(ctx, path) {
				t.Errorf("%s: no sheet is seen", f)
			}
			var s slip.Sheet
			if err := k.ReadSheet(ctx, &s, path); err != nil {
				t.Errorf("%s: %v", f, err)
				continue
			}
			got, err := s.File()
			if err != nil || !bytes.Equal(got, want) {
				t.Errorf("%s: %d bytes of %d, %v", f, len(got), len(want), err)
				continue
			}
			o, err := k.OpenSheet(ctx, &s)
			if p := o.Profile; err != nil || p.Tank != "Starter 54" || !p.Signature.Signed() {
				t.Errorf("%s: %q, %v", f, o.Profile.Tank, err)
			}
		}
	}
}

// quarter is a picture turned by a quarter, as one that was taken on its side.
type quarter struct{ image.Image }

func (q quarter) Bounds() image.Rectangle {
	b := q.Image.Bounds()
	return image.Rect(0, 0, b.Dy(), b.Dx())
}

func (q quarter) At(x, y int) color.Color { return q.Image.At(y, q.Image.Bounds().Dy()-1-x) }
