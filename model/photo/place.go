package photo

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/jpeg"
	"slices"

	"example.org/driploop/model/working"
)

// PlaceKept is the problem of a format from which the place cannot be taken
// without touching the pixels.
const PlaceKept working.Key = "photo.problem.place_kept"

// WithoutPlace gives a copy of a picture that tells nothing of where it was
// taken. The pixels are bit for bit those of data; of what stands beside them
// only orientation, time and colour profile are copied, so that no corner of the
// file (maker's notes, texts, a second picture, what hangs on behind) can tell
// after all. It does so for JPEG, PNG, WebP and HEIC. Errors: *Problem with
// PlaceKept for TIFF, GIF, BMP and a file laid out in a way that is not known,
// which Shared makes anew; as Inspect for what is no picture.
func WithoutPlace(data []byte) ([]byte, error) {
	info, err := Inspect(data, Usual())
	if err != nil {
		return nil, err
	}
	switch info.Format {
	case JPEG:
		return plainJPEG(data, info)
	case PNG:
		return plainPNG(data, info)
	case WebP:
		return plainWebP(data, info)
	case HEIC:
		return plainHEIC(data, info)
	}
	return nil, errPlace(string(info.Format))
}

func errPlace(why string) error { return problem(PlaceKept, errors.New(why)) }

// shareQuality is that of a picture made anew for others, of 100. // judgement
const shareQuality = 92

// Shared gives a copy to hand on, without place: that of WithoutPlace where
// there is one, else the picture made anew as JPEG, anew being true. Errors: as
// Decode; the picture is then to be left out.
func (d *Decoder) Shared(ctx context.Context, data []byte) (out []byte, f Format, anew bool, err error) {
	if out, err = WithoutPlace(data); err == nil {
		return out, formatOf(data), false, nil
	}
	if p := ProblemOf(err); p == nil || p.Code != PlaceKept {
		return nil, "", false, err
	}
	var img image.Image
	if img, _, err = d.Decode(ctx, data, 0); err != nil {
		return nil, "", false, err
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: shareQuality}); err != nil {
		return nil, "", false, problem(Unreadable, err)
	}
	return b.Bytes(), JPEG, true, nil
}

// plainJPEG keeps what is needed to decode, JFIF, the colour profile and the
// colour transform, and ends with the picture: a second one, a film or texts may
// hang on behind. Source: ISO/IEC 10918-1, annex B.
func plainJPEG(data []byte, info Info) ([]byte, error) {
	out := append(make([]byte, 0, len(data)), data[:2]...)
	exif := plainExif(info)
	told := exif == nil
	at := 2
	for {
		if at+2 > len(data) || data[at] != 0xff {
			return nil, errPlace("a segment is cut short")
		}
		kind := data[at+1]
		switch {
		case kind == 0xff: // filling
			at++
			continue
		case kind == 0xd9: // end of image
			return append(out, data[at:at+2]...), nil
		case kind == 0x01 || kind >= 0xd0 && kind <= 0xd7: // without a length
			out = append(out, data[at:at+2]...)
			at += 2
			continue
		}
		if at+4 > len(data) {
			return nil, errPlace("a segment is cut short")
		}
		n := int(binary.BigEndian.Uint16(data[at+2:])) + 2
		if n < 4 || at+n > len(data) {
			return nil, errPlace("a segment is cut short")
		}
		segment := data[at : at+n]
		if !told && kind != 0xe0 {
			out = appendSegment(out, 0xe1, append([]byte("Exif\x00\x00"), exif...))
			told = true
		}
		if keepSegment(kind, segment[4:]) {
			out = append(out, segment...)
		}
		at += n
		if kind == 0xda { // start of scan: what follows is coded picture
			end := scanEnd(data, at)
			out = append(out, data[at:end]...)
			at = end
		}
	}
}

func appendSegment(b []byte, kind byte, body []byte) []byte {
	b = append(b, 0xff, kind)
	return append(binary.BigEndian.AppendUint16(b, uint16(len(body)+2)), body...)
}

func keepSegment(kind byte, body []byte) bool {
	switch {
	case kind == 0xe0:
		return bytes.HasPrefix(body, []byte("JFIF\x00")) && len(body) <= 14 // without a small picture in it
	case kind == 0xe2:
		return bytes.HasPrefix(body, []byte("ICC_PROFILE\x00"))
	case kind == 0xee:
		return bytes.HasPrefix(body, []byte("Adobe"))
	}
	return kind < 0xe0 // neither application data, comment nor extension
}

// scanEnd finds where coded picture ends: at the next marker that is neither a
// stuffed zero, a restart nor filling.
func scanEnd(data []byte, at int) int {
	for ; at+1 < len(data); at++ {
		if next := data[at+1]; data[at] == 0xff && next != 0 && next != 0xff && (next < 0xd0 || next > 0xd7) {
			return at
		}
	}
	return len(data)
}

// pngKept are the chunks that a picture is made of or shown with.
// Source: W3C PNG (third edition), 11.2 and 11.3.
var pngKept = []string{"IHDR", "PLTE", "tRNS", "IDAT", "IEND", "gAMA", "cHRM", "sRGB", "iCCP", "cICP", "sBIT", "bKGD", "pHYs", "acTL", "fcTL", "fdAT"}

func plainPNG(data []byte, info Info) ([]byte, error) {
	out := append(make([]byte, 0, len(data)), data[:8]...)
	exif := plainExif(info)
	for at := 8; ; {
		if at+12 > len(data) {
			return nil, errPlace("a chunk is cut short")
		}
		n := int64(binary.BigEndian.Uint32(data[at:])) + 12
		if int64(at)+n > int64(len(data)) {
			return nil, errPlace("a chunk is cut short")
		}
		chunk := data[at : at+int(n)]
		name := string(chunk[4:8])
		if slices.Contains(pngKept, name) {
			out = append(out, chunk...)
		}
		switch {
		case name == "IEND":
			return out, nil
		case name == "IHDR" && exif != nil:
			out = appendChunk(out, "eXIf", exif)
		}
		at += int(n)
	}
}

func appendChunk(b []byte, name string, body []byte) []byte {
	b = binary.BigEndian.AppendUint32(b, uint32(len(body)))
	from := len(b)
	b = append(append(b, name...), body...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[from:]))
}

// Flags of a WebP's VP8X chunk. Source: RFC 9649, 2.7.
const (
	webpHasExif = 0x08
	webpHasXMP  = 0x04
)

var webpKept = []string{"VP8 ", "VP8L", "VP8X", "ALPH", "ANIM", "ANMF", "ICCP"}

func plainWebP(data []byte, info Info) ([]byte, error) {
	out := append(make([]byte, 0, len(data)), data[:12]...)
	exif := plainExif(info)
	end := min(int64(binary.LittleEndian.Uint32(data[4:]))+8, int64(len(data)))
	extended := -1
	for at := int64(12); at+8 <= end; {
		n := int64(binary.LittleEndian.Uint32(data[at+4:])) + 8
		n += n % 2
		if at+n > end {
			if at+n != end+1 { // the last byte of filling may be left out
				return nil, errPlace("a chunk is cut short")
			}
			n--
		}
		name := string(data[at : at+4])
		if name == "VP8X" && n >= 18 {
			extended = len(out)
		}
		if slices.Contains(webpKept, name) {
			out = append(out, data[at:at+n]...)
		}
		at += n
	}
	if extended >= 0 {
		out[extended+8] &^= webpHasExif | webpHasXMP
		if exif != nil {
			out[extended+8] |= webpHasExif
			out = append(append(out, "EXIF"...), binary.LittleEndian.AppendUint32(nil, uint32(len(exif)))...)
			out = append(out, exif...)
			out = append(out, make([]byte, len(exif)%2)...)
		}
	}
	binary.LittleEndian.PutUint32(out[4:], uint32(len(out)-8))
	return out, nil
}
