package photo

import "encoding/binary"

// Tags of EXIF that a copy without place has. Source: JEITA CP-3451C (EXIF 2.31),
// 4.6.
const (
	tagOrientation = 0x0112
	tagExif        = 0x8769
	tagTaken       = 0x9003
	tagOffset      = 0x9011
	typeASCII      = 2
	typeShort      = 3
	typeLong       = 4
)

// plainExif writes orientation and time, and nothing else, as a TIFF structure;
// nil where there is nothing to tell.
func plainExif(i Info) []byte {
	if i.Orientation <= 1 && i.taken == "" {
		return nil
	}
	var inner []ifdEntry
	if i.taken != "" {
		inner = append(inner, ifdEntry{tagTaken, typeASCII, []byte(i.taken + "\x00")})
		if i.Zone != "" {
			inner = append(inner, ifdEntry{tagOffset, typeASCII, []byte(i.Zone + "\x00")})
		}
	}
	outer := []ifdEntry{{tagOrientation, typeShort, binary.BigEndian.AppendUint16(nil, uint16(max(i.Orientation, 1)))}}
	head := []byte("MM\x00*\x00\x00\x00\x08")
	if len(inner) == 0 {
		return appendIFD(head, outer)
	}
	after := uint32(len(head) + 2 + 2*12 + 4)
	outer = append(outer, ifdEntry{tagExif, typeLong, binary.BigEndian.AppendUint32(nil, after)})
	return appendIFD(appendIFD(head, outer), inner)
}

type ifdEntry struct {
	tag, kind uint16
	value     []byte
}

// appendIFD writes a directory at the end of b, with its longer values behind it.
func appendIFD(b []byte, entries []ifdEntry) []byte {
	be := binary.BigEndian
	far := len(b) + 2 + len(entries)*12 + 4
	b = be.AppendUint16(b, uint16(len(entries)))
	var values []byte
	for _, e := range entries {
		size := map[uint16]int{typeASCII: 1, typeShort: 2, typeLong: 4}[e.kind]
		b = be.AppendUint16(be.AppendUint16(b, e.tag), e.kind)
		b = be.AppendUint32(b, uint32(len(e.value)/size))
		if len(e.value) <= 4 {
			b = append(b, append(e.value, 0, 0, 0, 0)[:4]...)
			continue
		}
		b = be.AppendUint32(b, uint32(far+len(values)))
		values = append(values, e.value...)
		if len(values)%2 == 1 {
			values = append(values, 0)
		}
	}
	return append(append(b, 0, 0, 0, 0), values...)
}
