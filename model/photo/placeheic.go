package photo

import (
	"encoding/binary"
	"strings"
)

// plainHEIC blanks, where they lie, the tags of a HEIC and all else that is no
// coded picture, so that no offset in the file changes. Source: ISO/IEC 14496-12
// (boxes, iinf, iloc) and ISO/IEC 23008-12 (items).
func plainHEIC(data []byte, info Info) ([]byte, error) {
	out := append([]byte(nil), data...)
	items := map[uint32]string{}
	var extents []extent
	var bodies []span
	err := eachBox(out, 0, len(out), func(name string, b span) error {
		switch name {
		case "ftyp", "free", "skip":
			return nil
		case "mdat":
			bodies = append(bodies, b)
			return nil
		case "meta":
			return readMeta(out, b, items, &extents)
		}
		// A film, texts, boxes of a maker: none is needed for the picture.
		copy(out[b.name:], "free")
		clear(out[b.from:b.to])
		return nil
	})
	if err != nil {
		return nil, err
	}
	kept := make([]bool, len(out))
	var tags []extent
	for _, e := range extents {
		kind := items[e.item]
		switch {
		case e.inMeta && isPixels(kind): // how parts are put together
		case e.inMeta:
			return nil, errPlace("tags lie in the description of the items")
		case e.from < 0 || e.to > len(out) || e.from > e.to:
			return nil, errPlace("an item lies outside the file")
		case kind == "Exif":
			tags = append(tags, e)
		case isPixels(kind):
			for i := e.from; i < e.to; i++ {
				kept[i] = true
			}
		}
	}
	for _, b := range bodies {
		for i := b.from; i < b.to; i++ {
			if !kept[i] {
				out[i] = 0
			}
		}
	}
	// Tags may lie outside the bodies too.
	for _, e := range extents {
		if !isPixels(items[e.item]) && !e.inMeta {
			clear(out[e.from:e.to])
		}
	}
	info.Orientation = 1 // turns stand in the item's properties
	exif := plainExif(info)
	for _, e := range tags {
		// Four bytes say how far the TIFF structure is off. Source: ISO/IEC 23008-12, A.2.1.
		if exif != nil && e.to-e.from >= len(exif)+4 {
			copy(out[e.from+4:], exif)
		}
	}
	return out, nil
}

// isPixels reports whether an item is a picture or made of pictures.
func isPixels(kind string) bool {
	switch kind {
	case "hvc1", "hev1", "lhv1", "av01", "avc1", "jpeg", "j2k1", "grid", "iovl", "iden", "tmap":
		return true
	}
	return false
}

type span struct{ name, from, to int }

type extent struct {
	item     uint32
	inMeta   bool // from and to count within the meta box's own data
	from, to int
}

// eachBox visits the boxes between two places.
func eachBox(b []byte, from, to int, visit func(name string, s span) error) error {
	for from+8 <= to {
		size, head := uint64(binary.BigEndian.Uint32(b[from:])), 8
		switch {
		case size == 1 && from+16 <= to:
			size, head = binary.BigEndian.Uint64(b[from+8:]), 16
		case size == 0:
			size = uint64(to - from)
		}
		if size < uint64(head) || size > uint64(to-from) {
			return errPlace("a box is cut short")
		}
		if err := visit(string(b[from+4:from+8]), span{from + 4, from + head, from + int(size)}); err != nil {
			return err
		}
		from += int(size)
	}
	return nil
}

// readMeta reads which items there are and where they lie.
func readMeta(b []byte, meta span, items map[uint32]string, extents *[]extent) error {
	return eachBox(b, meta.from+4, meta.to, func(name string, s span) error {
		r := &fields{b: b[s.from:s.to]}
		switch name {
		case "iinf":
			version := r.number(4) >> 24
			if version == 0 {
				r.number(2)
			} else {
				r.number(4)
			}
			return eachBox(b, s.from+r.at, s.to, func(name string, s span) error {
				r := &fields{b: b[s.from:s.to]}
				version := r.number(4) >> 24
				if name != "infe" || version < 2 {
					return errPlace("items are listed in a way that is not known")
				}
				id := uint32(r.number(map[uint64]int{2: 2, 3: 4}[version]))
				r.number(2)
				items[id] = string(r.bytes(4))
				return r.err
			})
		case "iloc":
			return readLocations(r, extents)
		case "hdlr", "pitm", "iprp", "iref", "dinf", "grpl", "idat":
			return nil
		}
		clear(b[s.from:s.to]) // texts and the like
		copy(b[s.name:], "free")
		return nil
	})
}

func readLocations(r *fields, extents *[]extent) error {
	version := r.number(4) >> 24
	sizes := r.number(2)
	offset, length, base, index := int(sizes>>12), int(sizes>>8&15), int(sizes>>4&15), int(sizes&15)
	wide := 2
	if version >= 2 {
		wide = 4
	}
	if version == 0 {
		index = 0
	}
	for range r.number(wide) {
		id := uint32(r.number(wide))
		method := uint64(0)
		if version >= 1 {
			method = r.number(2) & 15
		}
		r.number(2)
		start := r.number(base)
		for range r.number(2) {
			r.number(index)
			from := start + r.number(offset)
			n := r.number(length)
			if r.err != nil {
				return r.err
			}
			if method > 1 || from > 1<<40 || n > 1<<40 {
				return errPlace("an item lies outside the file")
			}
			*extents = append(*extents, extent{id, method == 1, int(from), int(from + n)})
		}
		if r.err != nil {
			return r.err
		}
	}
	return nil
}

// fields reads numbers one after another.
type fields struct {
	b   []byte
	at  int
	err error
}

func (f *fields) bytes(n int) []byte {
	if f.err != nil || n < 0 || f.at+n > len(f.b) {
		if f.err == nil {
			f.err = errPlace("a box is cut short")
		}
		return nil
	}
	f.at += n
	return f.b[f.at-n : f.at]
}

func (f *fields) number(n int) uint64 {
	if !strings.ContainsRune("\x00\x02\x04\x08", rune(n)) {
		f.err = errPlace("a number of a size that is not known")
		return 0
	}
	var x uint64
	for _, c := range f.bytes(n) {
		x = x<<8 | uint64(c)
	}
	return x
}
