package photo

import (
	"bytes"
	"encoding/binary"
	"image"

	"golang.org/x/image/webp"
)

// decodeWebP decodes a WebP. Lossy ones have luma from 16 to 235 and colour from
// 16 to 240 (Rec. 601), which the decoder leaves as it is, while Go's YCbCr is
// that of JFIF, from 0 to 255: it is stretched here. Source: RFC 6386, 9.2 and
// ITU-R BT.601-7, 2.5.3.
func decodeWebP(r *reader) (image.Image, error) {
	img, err := webp.Decode(r)
	if err != nil {
		return nil, err
	}
	switch m := img.(type) {
	case *image.YCbCr:
		stretchRange(m)
	case *image.NYCbCrA:
		stretchRange(&m.YCbCr)
	}
	return img, nil
}

func stretchRange(m *image.YCbCr) {
	var luma, colour [256]byte
	for v := range luma {
		luma[v] = stretched(v-16, 219, 0)
		colour[v] = stretched(v-128, 224, 128)
	}
	for i, v := range m.Y {
		m.Y[i] = luma[v]
	}
	for i, v := range m.Cb {
		m.Cb[i] = colour[v]
	}
	for i, v := range m.Cr {
		m.Cr[i] = colour[v]
	}
}

// stretched gives zero + v·255/span, rounded and kept to a byte.
func stretched(v, span, zero int) byte {
	x := v*255*2 + span // twice, to round by halves
	if v < 0 {
		x = v*255*2 - span
	}
	return byte(min(max(zero+x/(2*span), 0), 255))
}

// exifOfWebP gives the TIFF structure of a WebP's tags, nil where there is none.
// Many writers begin it as a JPEG's segment begins, which no standard asks for.
func exifOfWebP(data []byte) []byte {
	for at := int64(12); at+8 <= int64(len(data)); {
		n := int64(binary.LittleEndian.Uint32(data[at+4:]))
		end := min(at+8+n, int64(len(data)))
		if string(data[at:at+4]) == "EXIF" {
			return bytes.TrimPrefix(data[at+8:end], []byte("Exif\x00\x00"))
		}
		at += 8 + n + n%2
	}
	return nil
}
