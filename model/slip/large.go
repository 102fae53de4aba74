package slip

import (
	"encoding/binary"
	"io"
)

// Marks and sizes of the records that a ZIP beyond 4 GB, or of 65,535 parts and
// more, has besides. Source: PKWARE APPNOTE 6.3, sections 4.3.14, 4.3.15 and 4.5.3.
const (
	markEnd64   = 0x06064b50
	markLocator = 0x07064b50

	sizeEnd64   = 56
	sizeLocator = 20
	idLarge     = 0x0001
)

// ending is what the end record says: how many parts there are, and where their
// list starts, how long it is and where it must stop.
type ending struct{ total, length, start, at int64 }

// largeEnding reads the records in front of the end record small. Whatever small
// says itself must be what they say too, so that no two readers find two lists.
func largeEnding(r io.ReaderAt, small ending) (ending, error) {
	damaged := refuse(CodeDamaged, "")
	at := small.at - sizeLocator - sizeEnd64
	if at < 0 {
		return ending{}, damaged
	}
	b, err := readAt(r, at, sizeEnd64+sizeLocator)
	if err != nil {
		return ending{}, err
	}
	le := binary.LittleEndian
	end, locator := b[:sizeEnd64], b[sizeEnd64:]
	switch {
	case le.Uint32(end) != markEnd64 || le.Uint32(locator) != markLocator:
		return ending{}, damaged
	case le.Uint64(end[4:]) != sizeEnd64-12 || le.Uint32(end[16:]) != 0 || le.Uint32(end[20:]) != 0 || le.Uint64(end[24:]) != le.Uint64(end[32:]):
		return ending{}, damaged
	case le.Uint32(locator[4:]) != 0 || le.Uint64(locator[8:]) != uint64(at) || le.Uint32(locator[16:]) != 1:
		return ending{}, damaged
	}
	total, length, start := le.Uint64(end[32:]), le.Uint64(end[40:]), le.Uint64(end[48:])
	// No number may be beyond the place where the record itself stands.
	if total > uint64(at) || length > uint64(at) || start > uint64(at) {
		return ending{}, damaged
	}
	large := ending{total: int64(total), length: int64(length), start: int64(start), at: at}
	for _, x := range []struct{ small, full, large int64 }{
		{small.total, full16, large.total}, {small.length, full32, large.length}, {small.start, full32, large.start},
	} {
		if x.small != x.full && x.small != x.large {
			return ending{}, damaged
		}
	}
	return large, nil
}

// grow takes the true lengths and place of a part from its extra fields, where
// its record says that they stand there, and returns the fields that are left.
func (e *entry) grow(extra []byte) ([]byte, error) {
	damaged := refuse(CodeDamaged, e.name)
	if len(extra) < 4 || binary.LittleEndian.Uint16(extra) != idLarge {
		return nil, damaged
	}
	n := int(binary.LittleEndian.Uint16(extra[2:]))
	if len(extra) < 4+n {
		return nil, damaged
	}
	field, rest := extra[4:4+n], extra[4+n:]
	for _, x := range []*int64{&e.unpacked, &e.packed, &e.head} {
		if *x != full32 {
			continue
		}
		if len(field) < 8 {
			return nil, damaged
		}
		v := binary.LittleEndian.Uint64(field)
		if v > MaxArchive {
			return nil, damaged
		}
		*x, field = int64(v), field[8:]
	}
	if len(field) != 0 {
		return nil, damaged
	}
	return rest, nil
}
