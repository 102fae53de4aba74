package photo

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"example.org/driploop/model/working"
)

// gps is a directory of tags with a place, as a camera writes it.
func gps(secret string) []byte {
	be := binary.BigEndian
	b := []byte("MM\x00*\x00\x00\x00\x08")
	b = appendIFD(b, []ifdEntry{{0x010f, typeASCII, []byte(secret + "\x00")}, {0x8825, typeLong, be.AppendUint32(nil, 8+2+24+4+uint32(len(secret)+2)/2*2)}})
	b = be.AppendUint16(b, 4)
	at := uint32(len(b) + 4*12 + 4)
	entry := func(tag, kind uint16, n uint32, v []byte) {
		b = append(be.AppendUint32(be.AppendUint16(be.AppendUint16(b, tag), kind), n), v...)
	}
	entry(1, typeASCII, 2, []byte("N\x00\x00\x00"))
	entry(2, 5, 3, be.AppendUint32(nil, at))
	entry(3, typeASCII, 2, []byte("E\x00\x00\x00"))
	entry(4, 5, 3, be.AppendUint32(nil, at+24))
	b = append(b, 0, 0, 0, 0)
	for _, n := range []uint32{48, 51, 0, 2, 21, 0} {
		b = be.AppendUint32(be.AppendUint32(b, n), 1)
	}
	return b
}

// samePixels compares whole pictures bit for bit.
func samePixels(t *testing.T, name string, a, b []byte) {
	t.Helper()
	x, _ := decoded(t, a, 0)
	y, _ := decoded(t, b, 0)
	if !bytes.Equal(RGBA(x, 0).Pix, RGBA(y, 0).Pix) {
		t.Errorf("%s: other pixels", name)
	}
}

// A copy has no place, in no corner; time and turn and every pixel are kept; the
// original is as it was.
func TestWithoutPlace(t *testing.T) {
	for _, name := range []string{"fish.jpg", "progressive.jpg", "fish.png", "fish.webp", "fish-turned.heic", "camera-place.jpg", "camera-turned.jpg", "cmyk.jpg", "gray.jpg"} {
		data := held(t, name)
		before := Hash(data)
		out, err := WithoutPlace(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if Hash(data) != before {
			t.Errorf("%s: the original was written to", name)
		}
		was, err := Inspect(data, Usual())
		if err != nil {
			t.Fatal(err)
		}
		is, err := Inspect(out, Usual())
		if err != nil || is.Place != nil {
			t.Errorf("%s: %+v %v", name, is, err)
		}
		was.Place = nil
		if is != was {
			t.Errorf("%s: %+v, want %+v", name, is, was)
		}
		samePixels(t, name, data, out)
		again, err := WithoutPlace(out)
		if err != nil || !bytes.Equal(again, out) {
			t.Errorf("%s: a second time changes it (%v)", name, err)
		}
	}
}

// Whatever a file carries beside its picture, none of it is in the copy.
func TestNothingElseIsCopied(t *testing.T) {
	const secret = "SECRET-51.4779N"
	s := []byte(secret)
	jpg, pic := jpegOf(t, scene(64, 48), 90), pngOf(t, scene(64, 48))
	tags := gps(secret)
	second := withSegments(jpg, exifSegment(tags))
	webp, heic := held(t, "fish.webp"), held(t, "fish-turned.heic")
	inWebP := append(bytes.Clone(webp), append(append([]byte("XMP "), binary.LittleEndian.AppendUint32(nil, uint32(len(s)+1))...), append(s, 0)...)...)
	binary.LittleEndian.PutUint32(inWebP[4:], uint32(len(inWebP)-8))
	if i, err := Inspect(second, Usual()); err != nil || i.Place == nil || i.Place.Latitude != 48.85 || i.Place.Longitude != 2.35 {
		t.Fatalf("the place is not told to begin with: %+v %v", i, err)
	}
	for name, data := range map[string][]byte{
		"JPEG exif":          second,
		"JPEG two exifs":     withSegments(second, exifSegment(tags)),
		"JPEG XMP":           withSegments(jpg, appendSegment(nil, 0xe1, append([]byte("http://ns.adobe.com/xap/1.0/\x00"), s...))),
		"JPEG IPTC":          withSegments(jpg, appendSegment(nil, 0xed, append([]byte("Photoshop 3.0\x00"), s...))),
		"JPEG comment":       withSegments(jpg, appendSegment(nil, 0xfe, s)),
		"JPEG pictures":      withSegments(jpg, appendSegment(nil, 0xe2, append([]byte("MPF\x00"), s...))),
		"JPEG JFIF small":    withSegments(jpg, appendSegment(nil, 0xe0, append([]byte("JFIF\x00\x01\x02\x00\x00\x01\x00\x01\x05\x05"), s...))),
		"JPEG second behind": append(bytes.Clone(jpg), second...),
		"JPEG film behind":   append(bytes.Clone(jpg), box("ftyp", s)...),
		"PNG exif":           slip(pic, 33, appendChunk(nil, "eXIf", tags)),
		"PNG text":           slip(pic, 33, appendChunk(nil, "tEXt", append([]byte("Location\x00"), s...))),
		"PNG own chunk":      slip(pic, 33, appendChunk(nil, "loCa", s)),
		"PNG behind":         append(bytes.Clone(pic), s...),
		"WebP XMP":           inWebP,
		"WebP behind":        append(bytes.Clone(webp), s...),
		"HEIC box behind":    append(bytes.Clone(heic), box("uuid", append(make([]byte, 16), s...))...),
		"HEIC film":          append(bytes.Clone(heic), box("moov", s)...),
		"HEIC second body":   append(bytes.Clone(heic), box("mdat", s)...),
	} {
		out, err := WithoutPlace(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if bytes.Contains(out, s) || bytes.Contains(out, []byte("51.4779")) {
			t.Errorf("%s: what it carried is in the copy", name)
		}
		if i, err := Inspect(out, Usual()); err != nil || i.Place != nil {
			t.Errorf("%s: %+v %v", name, i, err)
		}
		samePixels(t, name, data, out)
	}
}

// slip puts b into data at a place.
func slip(data []byte, at int, b []byte) []byte {
	return append(append(bytes.Clone(data[:at]), b...), data[at:]...)
}

// What cannot be done is said, and the picture made anew or left out.
func TestSharedMakesAnewWhatItMust(t *testing.T) {
	d := NewDecoder(Usual())
	for _, name := range []string{"small.tif", "small.gif", "small.bmp"} {
		data := held(t, name)
		var p *Problem
		if _, err := WithoutPlace(data); !errors.As(err, &p) || p.Code != PlaceKept {
			t.Errorf("%s: %v, want %s", name, err, PlaceKept)
		}
		out, f, anew, err := d.Shared(context.Background(), data)
		if err != nil || f != JPEG || !anew {
			t.Fatalf("%s: %v %v %v", name, f, anew, err)
		}
		a, _ := decoded(t, data, 0)
		b, _ := decoded(t, out, 0)
		if db := psnr(t, a, b); db < 24 { // sharp edges of colour, halved in a JPEG
			t.Errorf("%s: %.1f dB", name, db)
		}
	}
	if out, f, anew, err := d.Shared(context.Background(), held(t, "fish-turned.heic")); err != nil || f != HEIC || anew || len(out) == 0 {
		t.Errorf("HEIC: %v %v %v", f, anew, err)
	}
	broken := held(t, "small.gif")[:900]
	if _, _, _, err := d.Shared(context.Background(), broken); ProblemOf(err) == nil {
		t.Errorf("a broken one: %v", err)
	}
	for _, cut := range []int{1, 2, 3, 5} {
		jpg := jpegOf(t, scene(64, 48), 90)
		if _, err := WithoutPlace(jpg[:len(jpg)*cut/6]); ProblemOf(err) == nil {
			t.Errorf("a JPEG cut at %d/6 gives a copy", cut)
		}
	}
	var r *working.Refusal
	if _, err := WithoutPlace([]byte("text")); !errors.As(err, &r) || r.Code != NotAPicture {
		t.Errorf("text: %v", err)
	}
}

// What another program finds in the copies. Source: exiftool, at the time of the drill.
func TestAnotherProgramFindsNoPlace(t *testing.T) {
	if os.Getenv("DRIPLOOP_DRILL") == "" {
		t.Log("exiftool is asked in the drill")
		return
	}
	dir := t.TempDir()
	for _, name := range []string{"fish.jpg", "fish.png", "fish.webp", "fish-turned.heic", "camera-place.jpg"} {
		out, err := WithoutPlace(held(t, name))
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, out, 0o600); err != nil {
			t.Fatal(err)
		}
		said, err := exec.Command("exiftool", "-a", "-G1", "-warning", "-error", "-DateTimeOriginal", "-gps*", "-location*", path).CombinedOutput()
		if err != nil || strings.Contains(string(said), "GPS") || strings.Contains(string(said), "Error") || strings.Contains(string(said), "Warning") ||
			!strings.Contains(string(said), "Date/Time Original") {
			t.Errorf("%s: %v %s", name, err, said)
		}
	}
}
