package photo

import (
	"archive/zip"
	"bytes"
	"compress/zlib"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"image/png"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/working"
)

// kind is a file that someone could hand us.
type kind struct {
	name  string
	data  []byte
	want  []working.Key // one of these problems; none: it has to be shown
	large bool          // it may take memory, as it is a picture
}

func pngOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// pngClaiming is a PNG whose header claims a size and a kind of pixel.
func pngClaiming(w, h uint32, depth, colour byte, chunks ...[]byte) []byte {
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)
	out := appendChunk([]byte("\x89PNG\r\n\x1a\n"), "IHDR", append(head, depth, colour, 0, 0, 0))
	for _, c := range chunks {
		out = append(out, c...)
	}
	return appendChunk(out, "IEND", nil)
}

// zeros is n zero bytes, deflated: a bomb of a thousand to one.
func zeros(n int) []byte {
	var b bytes.Buffer
	w := zlib.NewWriter(&b)
	_, _ = w.Write(make([]byte, n))
	_ = w.Close()
	return b.Bytes()
}

// withSegments puts segments behind the start of a JPEG.
func withSegments(jpg []byte, segments ...[]byte) []byte {
	out := append([]byte{}, jpg[:2]...)
	for _, s := range segments {
		out = append(out, s...)
	}
	return append(out, jpg[2:]...)
}

func exifSegment(tiff []byte) []byte {
	return appendSegment(nil, 0xe1, append([]byte("Exif\x00\x00"), tiff...))
}

// sized writes other sides into a JPEG's frame header.
func sized(jpg []byte, w, h uint16) []byte {
	out := bytes.Clone(jpg)
	for at := 2; at+9 < len(out); at += 2 + int(binary.BigEndian.Uint16(out[at+2:])) {
		if m := out[at+1]; m == 0xc0 || m == 0xc2 {
			binary.BigEndian.PutUint16(out[at+5:], h)
			binary.BigEndian.PutUint16(out[at+7:], w)
			break
		}
	}
	return out
}

// nested is EXIF whose directories point to each other, n deep and round again.
func nested(n int) []byte {
	be := binary.BigEndian
	b := []byte("MM\x00*\x00\x00\x00\x08")
	for i := range n {
		next := uint32(8 + (i+1)%n*18)
		b = be.AppendUint16(b, 1)
		b = be.AppendUint16(be.AppendUint16(b, tagExif), typeLong)
		b = be.AppendUint32(be.AppendUint32(b, 1), next)
		b = be.AppendUint32(b, next)
	}
	return b
}

// manyFrames is a GIF of n frames.
func manyFrames(t testing.TB, n int) []byte {
	g := &gif.GIF{}
	for range n {
		g.Image = append(g.Image, image.NewPaletted(image.Rect(0, 0, 1, 1), color.Palette{color.Black, color.White}))
		g.Delay = append(g.Delay, 1)
	}
	var b bytes.Buffer
	if err := gif.EncodeAll(&b, g); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func tiffOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := tiff.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func hostile(t testing.TB) []kind {
	small := scene(64, 48)
	jpg, pic := jpegOf(t, small, 90), pngOf(t, small)
	var bitmap bytes.Buffer
	if err := bmp.Encode(&bitmap, small); err != nil {
		t.Fatal(err)
	}
	var zipped bytes.Buffer
	z := zip.NewWriter(&zipped)
	if w, err := z.Create("a.txt"); err != nil {
		t.Fatal(err)
	} else if _, err := w.Write([]byte("hello")); err != nil {
		t.Fatal(err)
	}
	_ = z.Close()
	heic := held(t, "fish-plain.heic")
	deep := image.NewNRGBA64(image.Rect(0, 0, 40, 30))
	paletted := image.NewPaletted(image.Rect(0, 0, 40, 30), color.Palette{color.Black, color.Transparent})
	screen := func(w, h uint16) []byte {
		b := binary.LittleEndian.AppendUint16([]byte("GIF89a"), w)
		b = append(binary.LittleEndian.AppendUint16(b, h), 0x80, 0, 0, 0, 0, 0, 255, 255, 255)
		return append(b, ',', 0, 0, 0, 0, 1, 0, 1, 0, 0, 2, 1, 0, 0, ';')
	}
	pixels, damaged, none := []working.Key{TooManyPixels}, []working.Key{Unreadable}, []working.Key{NotAPicture}
	either := []working.Key{Unreadable, TooManyPixels}
	change := func(b []byte, at int, to ...byte) []byte {
		b = bytes.Clone(b)
		copy(b[at:], to)
		return b
	}
	out := []kind{
		{name: "no byte", want: []working.Key{Empty}},
		{name: "one byte", data: []byte{0xff}, want: none},
		{name: "start of image only", data: []byte("\xff\xd8\xff"), want: damaged},
		{name: "text", data: []byte("a note, not a picture"), want: none},
		{name: "text named BM", data: []byte("BMW and more text than a header of a bitmap has"), want: none},
		{name: "SVG", data: []byte(`<svg xmlns="http://www.w3.org/2000/svg"><script>x</script></svg>`), want: none},
		{name: "PDF", data: []byte("%PDF-1.7\n"), want: none},
		{name: "zip", data: zipped.Bytes(), want: none},
		{name: "program", data: []byte("\x7fELF\x02\x01\x01" + string(make([]byte, 64))), want: none},
		{name: "film", data: []byte("\x00\x00\x00\x18ftypisom\x00\x00\x02\x00isommp42"), want: none},
		{name: "AVIF", data: []byte("\x00\x00\x00\x14ftypavif\x00\x00\x00\x00avif"), want: none},
		{name: "RIFF sound", data: []byte("RIFF\x24\x00\x00\x00WAVEfmt \x10\x00\x00\x00"), want: none},
		{name: "zeros", data: make([]byte, 4096), want: none},
		{name: "GIF of 34 bytes, 65535 square", data: screen(65535, 65535), want: pixels},
		{name: "GIF of no size", data: screen(0, 0), want: damaged},
		{name: "GIF frame off its screen", data: change(screen(4, 4), 20, 9), want: damaged},
		{name: "GIF of 50,000 frames", data: manyFrames(t, 50_000)},
		{name: "PNG of 2^31 sides", data: pngClaiming(1<<31-1, 1<<31-1, 8, 2), want: either},
		{name: "PNG of 2^32 sides", data: pngClaiming(1<<32-1, 1<<32-1, 8, 2), want: either},
		{name: "PNG 64 million wide", data: pngClaiming(64_000_001, 1, 8, 2), want: pixels},
		{name: "PNG of no width", data: pngClaiming(0, 5, 8, 2), want: damaged},
		{name: "PNG without pixels", data: pngClaiming(100, 100, 8, 2), want: damaged},
		{name: "PNG of depth 3", data: pngClaiming(100, 100, 3, 2), want: damaged},
		{name: "PNG of colour 5", data: pngClaiming(100, 100, 8, 5), want: damaged},
		{name: "PNG palette missing", data: pngClaiming(10, 10, 8, 3, appendChunk(nil, "IDAT", zeros(200))), want: damaged},
		{name: "PNG IDAT bomb", data: pngClaiming(10, 10, 8, 2, appendChunk(nil, "IDAT", zeros(64<<20))), want: damaged},
		{name: "PNG zTXt bomb", data: pngClaiming(10, 10, 8, 0, appendChunk(nil, "zTXt", append([]byte("Raw profile type iptc\x00\x00"), zeros(64<<20)...)), appendChunk(nil, "IDAT", zeros(110)))},
		{name: "PNG iCCP bomb", data: pngClaiming(10, 10, 8, 0, appendChunk(nil, "iCCP", append([]byte("x\x00\x00"), zeros(64<<20)...)), appendChunk(nil, "IDAT", zeros(110)))},
		{name: "PNG exif loop", data: pngClaiming(10, 10, 8, 0, appendChunk(nil, "eXIf", nested(20)), appendChunk(nil, "IDAT", zeros(110)))},
		{name: "PNG wrong sum", data: change(pic, 29, 1, 2, 3, 4), want: damaged},
		{name: "PNG chunk length lies", data: change(pic, 8, 0xff), want: damaged},
		{name: "PNG with a zip behind", data: append(bytes.Clone(pic), zipped.Bytes()...)},
		{name: "PNG 16 bits a channel", data: pngOf(t, deep)},
		{name: "PNG palette with holes", data: pngOf(t, paletted)},
		{name: "PNG see-through", data: pngOf(t, image.NewNRGBA(image.Rect(0, 0, 9, 9)))},
		{name: "PNG grey of 1 pixel", data: pngOf(t, image.NewGray(image.Rect(0, 0, 1, 1)))},
		{name: "PNG 20,000 by 1", data: pngOf(t, image.NewGray(image.Rect(0, 0, 20_000, 1)))},
		{name: "PNG 1 by 20,000", data: pngOf(t, image.NewGray(image.Rect(0, 0, 1, 20_000)))},
		{name: "JPEG of 65535 square", data: sized(jpg, 65535, 65535), want: pixels},
		{name: "JPEG above 100 megapixels", data: sized(jpg, 12_000, 9_000), want: pixels},
		{name: "JPEG one row too many", data: sized(jpg, 8000, 8001), want: pixels},
		{name: "JPEG 64 megapixels, data of 3,000", data: sized(jpg, 8000, 8000), want: damaged, large: true},
		{name: "JPEG of no height", data: sized(jpg, 64, 0), want: damaged},
		{name: "JPEG with a zip behind", data: append(bytes.Clone(jpg), zipped.Bytes()...)},
		{name: "zip with a JPEG behind", data: append(zipped.Bytes(), jpg...), want: none},
		{name: "JPEG inside GIF's name", data: append([]byte("GIF89a"), jpg...), want: either},
		{name: "JPEG twice", data: append(bytes.Clone(jpg), jpg...)},
		{name: "JPEG exif 20 deep", data: withSegments(jpg, exifSegment(nested(20)))},
		{name: "JPEG exif round itself", data: withSegments(jpg, exifSegment(nested(1)))},
		{name: "JPEG exif 3,000 deep", data: withSegments(jpg, exifSegment(nested(3000)))},
		{name: "JPEG exif points outside", data: withSegments(jpg, exifSegment([]byte("MM\x00*\x7f\xff\xff\xff")))},
		{name: "JPEG exif of 65535 entries", data: withSegments(jpg, exifSegment([]byte("MM\x00*\x00\x00\x00\x08\xff\xff")))},
		{name: "JPEG exif empty", data: withSegments(jpg, exifSegment(nil))},
		{name: "JPEG exif neither order", data: withSegments(jpg, exifSegment([]byte("XX\x00*\x00\x00\x00\x08")))},
		{name: "JPEG segment length 0", data: withSegments(jpg, []byte{0xff, 0xe1, 0, 0}), want: damaged},
		{name: "JPEG segment longer than the file", data: []byte("\xff\xd8\xff\xe1\xff\xff"), want: damaged},
		{name: "JPEG 500 comments", data: withSegments(jpg, bytes.Repeat(appendSegment(nil, 0xfe, make([]byte, 60_000)), 500)), large: true},
		{name: "JPEG XMP of a million brackets", data: withSegments(jpg, appendSegment(nil, 0xe1, append([]byte("http://ns.adobe.com/xap/1.0/\x00"), bytes.Repeat([]byte("<a>"), 20_000)...)))},
		{name: "JPEG scans for ever", data: append(bytes.Clone(jpg[:len(jpg)-2]), bytes.Repeat([]byte{0xff, 0xd0}, 100_000)...), want: damaged},
		{name: "progressive", data: held(t, "progressive.jpg")},
		{name: "CMYK", data: held(t, "cmyk.jpg")},
		{name: "exif loop found in the wild", data: held(t, "damaged-loop.jpg")},
		{name: "exif tag of 4 GB", data: held(t, "damaged-huge-tag.jpg"), want: damaged},
		{name: "exif count of 2^32", data: held(t, "damaged-count.jpg"), want: damaged},
		{name: "WebP empty", data: []byte("RIFF\x04\x00\x00\x00WEBP\x00\x00\x00\x00"), want: damaged},
		{name: "WebP 16,384 square", data: append([]byte("RIFF\x1a\x00\x00\x00WEBPVP8L\x0d\x00\x00\x00\x2f\xff\xff\xff\x0f"), make([]byte, 16)...), want: pixels},
		{name: "WebP canvas of 2^24", data: append([]byte("RIFF\x16\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x00\x00\x00\x00\xff\xff\xff\xff\xff\xff"), make([]byte, 16)...), want: either},
		{name: "TIFF without directory", data: []byte("II*\x00\x08\x00\x00\x00" + string(make([]byte, 20))), want: damaged},
		{name: "TIFF directory in itself", data: []byte("II*\x00\x00\x00\x00\x00" + string(make([]byte, 20))), want: damaged},
		{name: "TIFF directory outside", data: []byte("II*\x00\xff\xff\xff\xff" + string(make([]byte, 20))), want: damaged},
		{name: "TIFF of 16 bits", data: tiffOf(t, deep)},
		{name: "BMP of 2^31", data: change(bitmap.Bytes(), 18, 0xff, 0xff, 0xff, 0x7f, 0xff, 0xff, 0xff, 0x7f), want: either},
		{name: "BMP of negative width", data: change(bitmap.Bytes(), 18, 0xff, 0xff, 0xff, 0xff), want: damaged},
		{name: "BMP upside down", data: change(bitmap.Bytes(), 22, 0xd0, 0xff, 0xff, 0xff)},
		{name: "BMP cut after its header", data: bitmap.Bytes()[:54], want: damaged},
		{name: "HEIC head only", data: []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), want: damaged},
		{name: "HEIC box of no length", data: append([]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), "\x00\x00\x00\x00meta\x00\x00\x00\x00"...), want: damaged},
		{name: "HEIC box of 2^63", data: append([]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), "\x00\x00\x00\x01meta\x7f\xff\xff\xff\xff\xff\xff\xff"...), want: damaged},
		{name: "HEIC boxes 2,000 deep", data: append([]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), bytes.Repeat([]byte("\x00\x00\x40\x00meta\x00\x00\x00\x00"), 2000)...), want: damaged},
		{name: "HEIC coded picture zeroed", data: append(bytes.Clone(heic[:len(heic)-3000]), make([]byte, 3000)...), want: []working.Key{Unreadable, ""}},
	}
	for o := range 11 {
		tags := appendIFD([]byte("MM\x00*\x00\x00\x00\x08"), []ifdEntry{{tagOrientation, typeShort, []byte{0, byte(o)}}})
		out = append(out, kind{name: fmt.Sprintf("orientation %d", o), data: withSegments(jpg, exifSegment(tags))})
	}
	for _, f := range []struct {
		name string
		data []byte
		lax  bool // the decoder shows what there is
	}{{"JPEG", jpg, false}, {"progressive JPEG", held(t, "progressive.jpg"), true}, {"PNG", pic, false}, {"WebP", held(t, "fish.webp"), true}, {"GIF", held(t, "small.gif"), false},
		{"BMP", bitmap.Bytes(), false}, {"TIFF", held(t, "small.tif"), false}} {
		for i := 1; i < 64; i++ {
			k := kind{name: fmt.Sprintf("%s cut at %d/64", f.name, i), data: f.data[:len(f.data)*i/64], want: []working.Key{Unreadable, NotAPicture}}
			if f.lax {
				k.want = append(k.want, "")
			}
			out = append(out, k)
		}
	}
	for i := 4; i < 64; i += 12 {
		out = append(out, kind{name: fmt.Sprintf("HEIC cut at %d/64", i), data: heic[:len(heic)*i/64], want: []working.Key{Unreadable}})
	}
	return out
}

// TestHostilePictures (D2-30): each is refused for what it is, or shown; nothing
// falls over, and what the header tells is refused before it costs memory.
func TestHostilePictures(t *testing.T) {
	kinds := hostile(t)
	if len(kinds) < 80 {
		t.Fatalf("%d kinds, want at least 80", len(kinds))
	}
	d := NewDecoder(Usual())
	var before, after runtime.MemStats
	for _, k := range kinds {
		runtime.ReadMemStats(&before)
		th, _, err := d.Thumb(context.Background(), k.data, 64)
		runtime.ReadMemStats(&after)
		var code working.Key
		if p := ProblemOf(err); p != nil {
			code = p.Code
		} else if err != nil {
			t.Errorf("%s: %v is no problem of a picture", k.name, err)
			continue
		}
		taken := len(k.want) == 0 && code == ""
		for _, w := range k.want {
			taken = taken || w == code
		}
		if !taken {
			t.Errorf("%s: %v, want %v", k.name, err, k.want)
		}
		if err == nil && (len(th.JPEG) == 0 || th.Width < 1 || th.Height < 1 || max(th.Width, th.Height) > 64) {
			t.Errorf("%s: a small picture of %d x %d, %d bytes", k.name, th.Width, th.Height, len(th.JPEG))
		}
		if cost := after.TotalAlloc - before.TotalAlloc; !k.large && cost > 64<<20 && formatOf(k.data) != HEIC {
			t.Errorf("%s: took %d MB", k.name, cost>>20)
		}
	}
	drill.Tally(t, "D2-30", "hostile pictures", len(kinds), 0)
}

// A path that is no file of a picture is told as such, at once.
func TestHostilePaths(t *testing.T) {
	dir := t.TempDir()
	big := filepath.Join(dir, "big.jpg")
	if err := os.WriteFile(big, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(big, Usual().Bytes+1); err != nil {
		t.Fatal(err)
	}
	empty := filepath.Join(dir, "empty.jpg")
	if err := os.WriteFile(empty, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		path string
		want working.Key
	}{
		{dir, NotAFile}, {filepath.Join(dir, "none.jpg"), Gone}, {big, TooBig}, {empty, Empty}, {filepath.Join(dir, "a\x00b"), Gone},
		{filepath.Join(dir, string(bytes.Repeat([]byte("n"), 5000))), Gone},
	} {
		_, _, err := Source{Path: c.path}.Read(Usual())
		if p := ProblemOf(err); p == nil || p.Code != c.want {
			t.Errorf("%.60q: %v, want %s", c.path, err, c.want)
		}
	}
	var refusal *working.Refusal
	if _, _, err := (Source{Path: big}).Read(Usual()); !errors.As(err, &refusal) || refusal.Values["Most"].X != 40 {
		t.Errorf("a file too big: %+v, want a refusal that names 40", refusal)
	}
}

// The header gate stands at the limit itself.
func TestLimitsAtTheirEdge(t *testing.T) {
	l := Limits{Bytes: 100, Pixels: 64_000_000, Budget: 1, Time: 1}
	for _, c := range []struct {
		n    int
		want working.Key
	}{{99, NotAPicture}, {100, NotAPicture}, {101, TooBig}} {
		if _, err := Inspect(make([]byte, c.n), l); ProblemOf(err) == nil || ProblemOf(err).Code != c.want {
			t.Errorf("%d bytes: %v, want %s", c.n, err, c.want)
		}
	}
	for _, c := range []struct {
		w, h uint32
		ok   bool
	}{{8000, 8000, true}, {7999, 8000, true}, {8000, 8001, false}, {64_000_000, 1, true}, {1, 64_000_000, true}, {64_000_001, 1, false}} {
		i, err := Inspect(pngClaiming(c.w, c.h, 8, 0), Usual())
		if (err == nil) != c.ok || i.Width != int(c.w) || i.Format != PNG {
			t.Errorf("%d x %d: %+v %v", c.w, c.h, i, err)
		}
	}
}
