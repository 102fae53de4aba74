package photo

import (
	"bytes"
	"context"
	"image"
	"image/jpeg"

	"example.org/driploop/model/working"
)

// Thumb is a small picture as JPEG, upright, without any tags.
type Thumb struct {
	JPEG          []byte
	Width, Height int
}

// quality of small pictures, of 100. // judgement
const quality = 85

// Thumb makes the small picture of a file: its longer side is side pixels, or
// less where the picture is smaller. Errors: as Decode; *working.Refusal for a
// side outside LeastSide to MostSide.
func (d *Decoder) Thumb(ctx context.Context, data []byte, side int) (Thumb, Info, error) {
	if side < LeastSide || side > MostSide {
		return Thumb{}, Info{}, working.Refuse("side", "refuse.photo.side")
	}
	img, info, err := d.Decode(ctx, data, side)
	if err != nil {
		return Thumb{}, info, err
	}
	t, err := Encode(img)
	return t, info, err
}

// Encode writes a picture as a small one's JPEG. Errors: a picture of no size.
func Encode(img image.Image) (Thumb, error) {
	var b bytes.Buffer
	b.Grow(64 << 10)
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
		return Thumb{}, problem(Unreadable, err)
	}
	return Thumb{JPEG: b.Bytes(), Width: img.Bounds().Dx(), Height: img.Bounds().Dy()}, nil
}
