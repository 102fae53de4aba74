package assets

import (
	"encoding/binary"
	"math"
)

// SRGB is a colour profile of the sRGB colours, as the bytes of an ICC profile of
// version 2.4: three primaries, a white and one curve for all three.
//
// Source: layout of tags and header, ICC.1:2001-04; primaries as IEC 61966-2-1 gives
// them, adapted to D50 by the Bradford matrix; curve, IEC 61966-2-1.
func SRGB() []byte {
	const points = 1024 // of the curve; the values between are interpolated
	curve := append([]byte("curv\x00\x00\x00\x00"), number32(points)...)
	for i := range points {
		curve = binary.BigEndian.AppendUint16(curve, uint16(math.Round(linearOf(float64(i)/(points-1))*65535)))
	}
	const name, rights = "sRGB", "No rights reserved"
	described := append([]byte("desc\x00\x00\x00\x00"), number32(uint32(len(name)+1))...)
	described = append(described, name+"\x00"...)
	described = append(described, make([]byte, 4+4+2+1+67)...) // the name in two more scripts: none
	tags := []struct {
		sign string
		data []byte
	}{
		{"desc", described},
		{"cprt", []byte("text\x00\x00\x00\x00" + rights + "\x00")},
		{"wtpt", xyz(white)},
		{"rXYZ", xyz([3]float64{0.43607, 0.22249, 0.01392})},
		{"gXYZ", xyz([3]float64{0.38515, 0.71687, 0.09708})},
		{"bXYZ", xyz([3]float64{0.14307, 0.06061, 0.71410})},
		{"rTRC", curve}, {"gTRC", nil}, {"bTRC", nil}, // the same curve
	}
	const header = 128
	table, body := number32(uint32(len(tags))), []byte(nil)
	start, length := uint32(0), uint32(0)
	for _, t := range tags {
		if t.data != nil {
			start, length = uint32(header+4+12*len(tags)+len(body)), uint32(len(t.data))
			body = append(body, t.data...)
			for len(body)%4 > 0 {
				body = append(body, 0)
			}
		}
		table = append(append(append(table, t.sign...), number32(start)...), number32(length)...)
	}
	out := number32(uint32(header + len(table) + len(body)))
	out = append(out, "\x00\x00\x00\x00\x02\x40\x00\x00mntrRGB XYZ "...) // version, a display, colours, space between profiles
	for _, v := range []uint16{2026, 1, 1, 0, 0, 0} {                    // of the profile, not of the document
		out = binary.BigEndian.AppendUint16(out, v)
	}
	out = append(out, "acsp"...)
	out = append(out, make([]byte, 4+4+4+4+8+4)...) // platform, flags, maker, model, attributes, intent: perceptual
	out = append(out, xyz(white)[8:]...)
	out = append(out, make([]byte, header-len(out))...)
	return append(append(out, table...), body...)
}

// white is D50, to which profiles are adapted. Source: ICC.1:2001-04.
var white = [3]float64{0.9642, 1, 0.8249}

// linearOf undoes the curve of sRGB for a share of full light. Source: IEC 61966-2-1.
func linearOf(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

func number32(v uint32) []byte { return binary.BigEndian.AppendUint32(nil, v) }

// xyz is the data of a tag with one colour.
func xyz(c [3]float64) []byte {
	out := []byte("XYZ \x00\x00\x00\x00")
	for _, v := range c {
		out = binary.BigEndian.AppendUint32(out, uint32(int32(math.Round(v*65536))))
	}
	return out
}
