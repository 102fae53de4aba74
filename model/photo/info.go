package photo

import "example.org/driploop/model/journal"

// Place is where a picture was taken, in degrees of WGS 84, north and east
// positive.
type Place struct{ Latitude, Longitude float64 }

// Info is what a picture's header tells.
type Info struct {
	Format Format
	// Width and Height are the pixels as they lie in the file.
	Width, Height int
	// Orientation is 1 to 8 as in EXIF (tag 0x0112); 1 where none is told, and in
	// HEIC, whose own turns the decoder makes and which Width and Height follow.
	// Source: JEITA CP-3451C (EXIF 2.3), 4.6.4.
	Orientation int
	// Taken is the time of the camera's clock, empty where it told none.
	Taken journal.Civil
	// Zone is that clock's offset from UTC, "+01:00", empty where it is not told.
	Zone  string
	Place *Place // nil where it is not told

	taken string // as EXIF writes it, to the second
}

// Upright gives the sides of the picture as it is to be seen.
func (i Info) Upright() (width, height int) {
	if i.Orientation >= 5 {
		return i.Height, i.Width
	}
	return i.Width, i.Height
}
