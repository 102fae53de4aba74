package photo

import (
	"bytes"
	"math"
	"regexp"
	"strings"
	"time"

	"github.com/bep/imagemeta"

	"example.org/driploop/model/journal"
)

// metaFormats are the formats that tags are read from.
var metaFormats = map[Format]imagemeta.ImageFormat{
	JPEG: imagemeta.JPEG, PNG: imagemeta.PNG, WebP: imagemeta.TIFF, TIFF: imagemeta.TIFF, HEIC: imagemeta.HEIF,
}

// wanted are the tags read: those of the picture itself, not of the small one
// that it may carry.
var wanted = map[string]bool{
	"Orientation": true, "DateTimeOriginal": true, "OffsetTimeOriginal": true, "DateTime": true, "OffsetTime": true, "ModifyDate": true,
	"CreateDate": true, "DateTimeDigitized": true, "OffsetTimeDigitized": true,
	"GPSLatitude": true, "GPSLatitudeRef": true, "GPSLongitude": true, "GPSLongitudeRef": true,
}

// readTags fills in what EXIF tells. Tags that make no sense are left out.
func (i *Info) readTags(data []byte) {
	format, ok := metaFormats[i.Format]
	if !ok {
		return
	}
	if i.Format == WebP {
		data = exifOfWebP(data)
	}
	tags := map[string]any{}
	// What was read before an error counts: a picture cut short keeps its time.
	func() {
		defer func() { _ = recover() }()
		_, _ = imagemeta.Decode(imagemeta.Options{R: bytes.NewReader(data), ImageFormat: format, Sources: imagemeta.EXIF,
			ShouldHandleTag: func(t imagemeta.TagInfo) bool {
				return strings.HasPrefix(t.Namespace, "IFD0") && wanted[t.Tag]
			},
			HandleTag: func(t imagemeta.TagInfo) error {
				if _, had := tags[t.Tag]; !had {
					tags[t.Tag] = t.Value
				}
				return nil
			}})
	}()
	if n, ok := whole(tags["Orientation"]); ok && n >= 1 && n <= 8 && i.Format != HEIC {
		i.Orientation = n
	}
	for _, pair := range [][2]string{{"DateTimeOriginal", "OffsetTimeOriginal"}, {"CreateDate", "OffsetTimeDigitized"},
		{"DateTimeDigitized", "OffsetTimeDigitized"}, {"DateTime", "OffsetTime"}, {"ModifyDate", "OffsetTime"}} {
		if at := civil(tags[pair[0]]); at != "" {
			i.Taken, i.Zone = at, offset(tags[pair[1]])
			i.taken = strings.TrimRight(tags[pair[0]].(string), "\x00 ")
			break
		}
	}
	i.Place = place(tags)
}

func whole(v any) (int, bool) {
	switch v := v.(type) {
	case uint16:
		return int(v), true
	case uint32:
		return int(v), v < 1<<16
	case uint8:
		return int(v), true
	case int16:
		return int(v), true
	case int32:
		return int(v), true
	}
	return 0, false
}

// civil reads a date of EXIF, "2026:11:23 18:40:12"; "" for one that is none.
func civil(v any) journal.Civil {
	s, _ := v.(string)
	t, err := time.Parse("2006:01:02 15:04:05", strings.TrimRight(s, "\x00 "))
	if err != nil {
		return ""
	}
	c := journal.CivilOf(t)
	if _, err := c.Parse(); err != nil {
		return ""
	}
	return c
}

var offsetForm = regexp.MustCompile(`^[+-](0\d|1[0-4]):[0-5]\d$`)

// offset reads an offset from UTC, "" where there is none that makes sense.
func offset(v any) string {
	s, _ := v.(string)
	if s = strings.TrimRight(s, "\x00 "); s == "Z" {
		return "+00:00"
	}
	if !offsetForm.MatchString(s) {
		return ""
	}
	return s
}

// place reads where the picture was taken; nil where it is not told, beyond the
// globe, or at 0°, 0°, which is how cameras write that they do not know.
func place(tags map[string]any) *Place {
	lat, okLat := tags["GPSLatitude"].(float64)
	long, okLong := tags["GPSLongitude"].(float64)
	south, _ := tags["GPSLatitudeRef"].(string)
	west, _ := tags["GPSLongitudeRef"].(string)
	if strings.HasPrefix(south, "S") {
		lat = -lat
	}
	if strings.HasPrefix(west, "W") {
		long = -long
	}
	if !okLat || !okLong || !(math.Abs(lat) <= 90) || !(math.Abs(long) <= 180) || lat == 0 && long == 0 {
		return nil
	}
	return &Place{Latitude: lat, Longitude: long}
}
