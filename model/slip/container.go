package slip

import (
	"encoding/binary"
	"errors"
	"io"
	"sort"
)

// Marks and sizes of the records of a ZIP. Source: PKWARE APPNOTE 6.3, sections
// 4.3.7, 4.3.9, 4.3.12 and 4.3.16.
const (
	markLocal   = 0x04034b50
	markData    = 0x08074b50
	markCentral = 0x02014b50
	markEnd     = 0x06054b50

	sizeLocal   = 30
	sizeCentral = 46
	sizeEnd     = 22
)

// Flags of a part. Source: APPNOTE 4.4.4.
const (
	flagEncrypted  = 1 << 0
	flagLevel      = 1<<1 | 1<<2 // how hard the packer tried
	flagDescriptor = 1 << 3      // lengths follow the data
	flagStrong     = 1 << 6
	flagUTF8       = 1 << 11
	flagMasked     = 1 << 13
)

// Methods of packing. Source: APPNOTE 4.4.5.
const (
	stored   = 0
	deflated = 8
)

// full is what a length says when the true one stands in a ZIP64 record.
const full32, full16, full8 = 0xffffffff, 0xffff, 0xff

// entry is a part as the directory describes it; its record has been compared
// with the one in front of the data.
type entry struct {
	name             string
	flags, method    uint16
	crc              uint32
	packed, unpacked int64
	head             int64 // where the local record starts
	data             int64 // where the data start
}

// directory reads the list of parts and holds the file to it: local records and
// data lie one behind the other from the first byte to the directory, the
// directory reaches to the end record and that to the end of the file. So there
// is no room for overlaps, gaps, a second archive or anything hidden.
func directory(r io.ReaderAt, size int64, lim limits) ([]entry, error) {
	if size > lim.file {
		return nil, above(CodeTooBig, "", float64(lim.file)/1e6)
	}
	if size < sizeEnd {
		return nil, refuse(CodeNotSlip, "")
	}
	end, err := readAt(r, size-sizeEnd, sizeEnd)
	if err != nil {
		return nil, err
	}
	le := binary.LittleEndian
	if le.Uint32(end) != markEnd {
		return nil, refuse(CodeNotSlip, "")
	}
	here, total := le.Uint16(end[8:]), le.Uint16(end[10:])
	d := ending{total: int64(total), length: int64(le.Uint32(end[12:])), start: int64(le.Uint32(end[16:])), at: size - sizeEnd}
	if le.Uint16(end[4:]) != 0 || le.Uint16(end[6:]) != 0 || here != total || le.Uint16(end[20:]) != 0 {
		if here != full16 && total != full16 {
			return nil, refuse(CodeDamaged, "") // several disks, or a comment
		}
		return nil, refuse(CodeZIP64, "")
	}
	if total == full16 || d.length == full32 || d.start == full32 {
		if !lim.large {
			return nil, refuse(CodeZIP64, "")
		}
		if d, err = largeEnding(r, d); err != nil {
			return nil, err
		}
	}
	switch {
	case d.total > int64(lim.parts):
		return nil, above(CodeParts, "", float64(lim.parts))
	case d.start+d.length != d.at || d.length > int64(lim.parts)*(sizeCentral+full8+full8):
		return nil, refuse(CodeDamaged, "")
	}
	start := d.start
	list, err := readAt(r, start, d.length)
	if err != nil {
		return nil, err
	}
	parts := make([]entry, 0, d.total)
	for range int(d.total) {
		var e entry
		if e, list, err = central(list, lim.large); err != nil {
			return nil, err
		}
		parts = append(parts, e)
	}
	if len(list) != 0 {
		return nil, refuse(CodeDamaged, "")
	}
	if err := checkNames(parts, lim); err != nil {
		return nil, err
	}
	if err := checkSizes(parts, lim); err != nil {
		return nil, err
	}
	return parts, tile(r, parts, start)
}

// central reads one record of the directory and returns the rest of the list.
func central(b []byte, large bool) (entry, []byte, error) {
	var e entry
	if len(b) < sizeCentral {
		return e, nil, refuse(CodeDamaged, "")
	}
	le := binary.LittleEndian
	if le.Uint32(b) != markCentral {
		return e, nil, refuse(CodeDamaged, "")
	}
	nameLen, extraLen, commentLen := int(le.Uint16(b[28:])), int(le.Uint16(b[30:])), int(le.Uint16(b[32:]))
	if len(b) < sizeCentral+nameLen+extraLen+commentLen {
		return e, nil, refuse(CodeDamaged, "")
	}
	e = entry{name: string(b[sizeCentral : sizeCentral+nameLen]), flags: le.Uint16(b[8:]), method: le.Uint16(b[10:]), crc: le.Uint32(b[16:]),
		packed: int64(le.Uint32(b[20:])), unpacked: int64(le.Uint32(b[24:])), head: int64(le.Uint32(b[42:]))}
	extra := b[sizeCentral+nameLen : sizeCentral+nameLen+extraLen]
	if e.packed == full32 || e.unpacked == full32 || e.head == full32 {
		if !large {
			return e, nil, refuse(CodeZIP64, e.name)
		}
		var err error
		if extra, err = e.grow(extra); err != nil {
			return e, nil, err
		}
	}
	switch {
	case e.flags&(flagEncrypted|flagStrong|flagMasked) != 0:
		return e, nil, refuse(CodeEncrypted, e.name)
	case e.method != stored && e.method != deflated:
		return e, nil, refuse(CodeMethod, e.name)
	case e.flags&^(flagLevel|flagDescriptor|flagUTF8) != 0, le.Uint16(b[34:]) != 0, commentLen != 0:
		return e, nil, refuse(CodeDamaged, e.name)
	case e.method == stored && e.packed != e.unpacked:
		return e, nil, refuse(CodeDamaged, e.name)
	}
	if err := plainFile(e.name, b[5], le.Uint32(b[38:])); err != nil {
		return e, nil, err
	}
	if err := extras(e.name, extra); err != nil {
		return e, nil, err
	}
	return e, b[sizeCentral+nameLen+extraLen+commentLen:], nil
}

// plainFile refuses what is marked as a link, a device or a folder by the system
// that made it. Source: APPNOTE 4.4.2 and 4.4.15; POSIX file types.
func plainFile(name string, system byte, attributes uint32) error {
	const (
		dosLabel, dosFolder = 0x08, 0x10
		unix, mac           = 3, 19
		typeMask, typeFile  = 0xf000, 0x8000
	)
	if attributes&(dosLabel|dosFolder) != 0 {
		return refuse(CodeSpecial, name)
	}
	if kind := attributes >> 16 & typeMask; (system == unix || system == mac) && kind != 0 && kind != typeFile {
		return refuse(CodeSpecial, name)
	}
	return nil
}

// extras looks through the extra fields of a record. Times and the like are
// passed over; what gives the part another size, name or nature is refused.
// Source: APPNOTE 4.5.2 and 4.6.
func extras(name string, b []byte) error {
	for len(b) > 0 {
		if len(b) < 4 {
			return refuse(CodeDamaged, name)
		}
		id, n := binary.LittleEndian.Uint16(b), int(binary.LittleEndian.Uint16(b[2:]))
		if len(b) < 4+n {
			return refuse(CodeDamaged, name)
		}
		switch id {
		case 0x0001:
			return refuse(CodeZIP64, name)
		case 0x0017, 0x9901: // strong encryption; AES
			return refuse(CodeEncrypted, name)
		case 0x000d: // Unix, with the target of a link
			return refuse(CodeSpecial, name)
		case 0x7075: // a second name
			return refuse(CodeName, name)
		}
		b = b[4+n:]
	}
	return nil
}

// checkSizes holds what the directory claims against the limits. What is there
// is counted again while it is unpacked.
func checkSizes(parts []entry, lim limits) error {
	var sum int64
	for _, e := range parts {
		if sum += e.unpacked; sum > lim.unpacked {
			return above(CodeUnpacked, e.name, float64(lim.unpacked)/1e6)
		}
		if e.unpacked > lim.ratio*e.packed {
			return above(CodeRatio, e.name, float64(lim.ratio))
		}
	}
	return nil
}

// tile compares each local record with the directory and sees that the parts
// fill the file from its first byte to the directory.
func tile(r io.ReaderAt, parts []entry, end int64) error {
	order := make([]*entry, len(parts))
	for i := range parts {
		order[i] = &parts[i]
	}
	sort.Slice(order, func(i, j int) bool { return order[i].head < order[j].head })
	at := int64(0)
	for _, e := range order {
		if e.head != at {
			return refuse(CodeDamaged, e.name)
		}
		next, err := local(r, e, end)
		if err != nil {
			return err
		}
		at = next
	}
	if at != end {
		return refuse(CodeDamaged, "")
	}
	return nil
}

// local reads the record in front of a part's data and the one behind it, and
// returns where the next part must start.
func local(r io.ReaderAt, e *entry, end int64) (int64, error) {
	damaged := refuse(CodeDamaged, e.name)
	if e.head+sizeLocal > end {
		return 0, damaged
	}
	b, err := readAt(r, e.head, sizeLocal)
	if err != nil {
		return 0, err
	}
	le := binary.LittleEndian
	nameLen, extraLen := int64(le.Uint16(b[26:])), int64(le.Uint16(b[28:]))
	e.data = e.head + sizeLocal + nameLen + extraLen
	next := e.data + e.packed
	if le.Uint32(b) != markLocal || nameLen != int64(len(e.name)) || next > end ||
		le.Uint16(b[6:]) != e.flags || le.Uint16(b[8:]) != e.method {
		return 0, damaged
	}
	rest, err := readAt(r, e.head+sizeLocal, nameLen+extraLen)
	if err != nil {
		return 0, err
	}
	if string(rest[:nameLen]) != e.name {
		return 0, damaged
	}
	if err := extras(e.name, rest[nameLen:]); err != nil {
		return 0, err
	}
	if e.flags&flagDescriptor == 0 {
		if !e.says(b[14:]) {
			return 0, damaged
		}
		return next, nil
	}
	if zero := [12]byte{}; string(b[14:26]) != string(zero[:]) && !e.says(b[14:]) {
		return 0, damaged
	}
	return descriptor(r, e, next, end)
}

// descriptor reads the record behind the data, with its mark or without.
func descriptor(r io.ReaderAt, e *entry, at, end int64) (int64, error) {
	const bare, marked = 12, 16
	n := min(marked, end-at)
	if n < bare {
		return 0, refuse(CodeDamaged, e.name)
	}
	b, err := readAt(r, at, n)
	if err != nil {
		return 0, err
	}
	switch {
	case n == marked && binary.LittleEndian.Uint32(b) == markData && e.says(b[4:]):
		return at + marked, nil
	case e.says(b):
		return at + bare, nil
	}
	return 0, refuse(CodeDamaged, e.name)
}

// says reports whether checksum and sizes in b are those of the directory.
func (e *entry) says(b []byte) bool {
	le := binary.LittleEndian
	return le.Uint32(b) == e.crc && int64(le.Uint32(b[4:])) == e.packed && int64(le.Uint32(b[8:])) == e.unpacked
}

// readAt reads exactly n bytes at off; the caller has seen that n is bounded by
// the file's length.
func readAt(r io.ReaderAt, off, n int64) ([]byte, error) {
	b := make([]byte, n)
	if got, err := r.ReadAt(b, off); got < len(b) {
		if err == nil || errors.Is(err, io.EOF) {
			return nil, refuse(CodeNotSlip, "") // shorter than its size said
		}
		return nil, &Error{Code: CodeUnreadable, Err: err}
	}
	return b, nil
}
