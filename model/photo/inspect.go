package photo

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"

	"github.com/bep/imagemeta"
	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"

	"example.org/driploop/model/quantity"
)

// Inspect tells what a file is from its header; no pixel is decoded. What a
// header cannot be trusted with is left at its zero value: a damaged time is no
// time. Errors: *Problem with Empty, TooBig, NotAPicture, TooManyPixels,
// OnePiece or Unreadable; with the last three Info still tells format, time and place.
func Inspect(data []byte, l Limits) (info Info, err error) {
	switch {
	case len(data) == 0:
		return Info{}, problem(Empty, nil)
	case int64(len(data)) > l.Bytes:
		return Info{}, tooBig(l)
	}
	info = Info{Format: formatOf(data), Orientation: 1}
	if info.Format == "" {
		return Info{}, problem(NotAPicture, nil)
	}
	// The readers of headers are others' work, and the bytes are a stranger's.
	defer func() {
		if r := recover(); r != nil {
			err = problem(Unreadable, panicked(r))
		}
	}()
	info.readTags(data)
	c, err := config(info.Format, data)
	if err != nil {
		return info, problem(Unreadable, err)
	}
	info.Width, info.Height = c.Width, c.Height
	switch {
	case c.Width <= 0 || c.Height <= 0:
		return info, problem(Unreadable, nil)
	case int64(c.Width) > l.Pixels/int64(c.Height): // the product could overflow
		p := problem(TooManyPixels, nil)
		p.Values = map[string]quantity.Value{"Most": quantity.Count(l.Pixels / 1_000_000).Value()}
		return info, p
	case info.Format == HEIC && heicPiece(data, info) > l.Budget/heicWeight:
		return info, onePiece(l)
	}
	return info, nil
}

func onePiece(l Limits) *Problem {
	p := problem(OnePiece, nil)
	p.Values = map[string]quantity.Value{"Most": quantity.Count(l.Budget / heicWeight / 1_000_000).Value()}
	return p
}

func tooBig(l Limits) *Problem {
	p := problem(TooBig, nil)
	p.Values = map[string]quantity.Value{"Most": quantity.Count(l.Bytes >> 20).Value()}
	return p
}

// magics are the first bytes of each format. Sources: ISO/IEC 10918-1 B.1.1.3;
// W3C PNG 5.2; GIF89a 17; RFC 9649 2.4; TIFF 6.0 section 2; the file header of
// Windows bitmaps.
var magics = []struct {
	format Format
	at     int
	bytes  string
}{
	{JPEG, 0, "\xff\xd8\xff"},
	{PNG, 0, "\x89PNG\r\n\x1a\n"},
	{GIF, 0, "GIF87a"},
	{GIF, 0, "GIF89a"},
	{TIFF, 0, "II*\x00"},
	{TIFF, 0, "MM\x00*"},
}

// brands of HEIC still pictures. Source: ISO/IEC 23008-12, 10.2 and annex B.4.
var brands = []string{"heic", "heix", "heim", "heis", "mif1", "msf1"}

// formatOf tells the format by content, "" where it is none of ours.
func formatOf(data []byte) Format {
	for _, m := range magics {
		if len(data) >= m.at+len(m.bytes) && string(data[m.at:m.at+len(m.bytes)]) == m.bytes {
			return m.format
		}
	}
	if len(data) < 16 {
		return ""
	}
	if string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP" {
		return WebP
	}
	// Two letters are little to go by: the sizes of the headers must fit too.
	if string(data[:2]) == "BM" && len(data) >= 30 {
		if dib := binary.LittleEndian.Uint32(data[14:]); dib == 40 || dib == 108 || dib == 124 {
			return BMP
		}
	}
	if string(data[4:8]) == "ftyp" {
		end := min(int(binary.BigEndian.Uint32(data)), len(data), 256)
		for at := 8; at+4 <= end; at += 4 {
			if at == 12 { // the minor version
				continue
			}
			for _, b := range brands {
				if string(data[at:at+4]) == b {
					return HEIC
				}
			}
		}
	}
	return ""
}

// config reads width and height. HEIC is read here and not by its decoder,
// which would have to be compiled first.
func config(f Format, data []byte) (image.Config, error) {
	r := bytes.NewReader(data)
	switch f {
	case JPEG:
		return jpeg.DecodeConfig(r)
	case PNG:
		return png.DecodeConfig(r)
	case GIF:
		return gif.DecodeConfig(r)
	case WebP:
		return webp.DecodeConfig(r)
	case BMP:
		return bmp.DecodeConfig(r)
	case TIFF:
		return tiff.DecodeConfig(r)
	}
	got, err := imagemeta.Decode(imagemeta.Options{R: r, ImageFormat: imagemeta.HEIF, Sources: imagemeta.CONFIG})
	return image.Config{Width: got.ImageConfig.Width, Height: got.ImageConfig.Height}, err
}
