package photo

import "time"

// Limits are what a picture may ask for.
type Limits struct {
	Bytes  int64         // largest file
	Pixels int64         // most pixels of one picture, all its sides multiplied
	Budget int64         // most pixels of all pictures under way at once
	Time   time.Duration // longest time for one picture, from its first pixel on; six times that for HEIC
}

// Usual are the limits of the program: 40 MB, 64 megapixels, 10 seconds. A
// telephone's largest pictures (48 megapixels, about 12 MB) are well within.
// // judgement
func Usual() Limits {
	return Limits{Bytes: 40 << 20, Pixels: 64_000_000, Budget: 64_000_000, Time: 10 * time.Second}
}

// Sides of small pictures, in pixels of the longer side. // judgement
const (
	ThumbSide = 512  // kept for every picture as it is added
	LeastSide = 16   // smallest that can be asked for
	MostSide  = 4096 // largest that can be asked for
)

// Format is what a file is by its content.
type Format string

// The formats that can be shown.
const (
	JPEG Format = "jpeg"
	PNG  Format = "png"
	GIF  Format = "gif" // its first frame
	WebP Format = "webp"
	BMP  Format = "bmp"
	TIFF Format = "tiff"
	HEIC Format = "heic"
)

// Formats lists the formats, those of telephones first.
func Formats() []Format { return []Format{JPEG, HEIC, PNG, WebP, TIFF, GIF, BMP} }

// Extension is the usual ending of a file's name, with its dot.
func (f Format) Extension() string {
	if f == JPEG {
		return ".jpg"
	}
	return "." + string(f)
}
