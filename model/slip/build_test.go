package slip

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"hash/crc32"
	"strings"
	"testing"

	"example.org/driploop/model/working"
)

// piece is one part of a ZIP made by hand, so that any record can lie. A nil
// pointer says the truth.
type piece struct {
	name      string
	data      []byte // unpacked
	method    uint16
	flags     uint16
	raw       []byte // packed, instead of what data pack to
	local     string // the name in the local record, if another
	extra     []byte // in the directory
	lextra    []byte // in the local record
	comment   string
	system    byte // that made it: 0 MS-DOS, 3 Unix
	attr      uint32
	crc       *uint32
	packed    *uint32 // as claimed in both records
	unpacked  *uint32
	dirSize   *uint32 // as claimed in the directory only
	locSize   *uint32 // as claimed in the local record only
	head      *uint32 // where the directory says that the local record is
	tail      []byte  // instead of a true descriptor
	gap       []byte  // bytes behind the part
	flip      uint16  // flags that differ in front of the data
	skipLocal bool    // a directory record only
	disk      uint16
}

// archive is a whole ZIP; the fields lie in the end record.
type archive struct {
	before  []byte
	pieces  []piece
	after   []byte // behind the directory
	comment string
	claim   int // of the number of parts is off by this
	onDisk  *uint16
	length  *uint32
	start   *uint32
	disk    uint16
}

func u32(x uint32) *uint32 { return &x }

func le(parts ...any) []byte {
	var b bytes.Buffer
	for _, p := range parts {
		if err := binary.Write(&b, binary.LittleEndian, p); err != nil {
			panic(err)
		}
	}
	return b.Bytes()
}

func deflate(data []byte) []byte {
	var b bytes.Buffer
	w, err := flate.NewWriter(&b, flate.BestCompression)
	if err != nil {
		panic(err)
	}
	if _, err := w.Write(data); err != nil {
		panic(err)
	}
	if err := w.Close(); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func or(p *uint32, otherwise uint32) uint32 {
	if p != nil {
		return *p
	}
	return otherwise
}

func (a archive) bytes() []byte {
	var out, dir bytes.Buffer
	out.Write(a.before)
	for _, p := range a.pieces {
		raw := p.raw
		if raw == nil {
			raw = p.data
			if p.method == deflated {
				raw = deflate(p.data)
			}
		}
		crc, packed, unpacked := or(p.crc, crc32.ChecksumIEEE(p.data)), or(p.packed, uint32(len(raw))), or(p.unpacked, uint32(len(p.data)))
		head := uint32(out.Len())
		if !p.skipLocal {
			name := p.name
			if p.local != "" {
				name = p.local
			}
			lc, lp, lu := crc, packed, or(p.locSize, unpacked)
			if p.flags&flagDescriptor != 0 {
				lc, lp, lu = 0, 0, 0
			}
			out.Write(le(uint32(markLocal), uint16(20), p.flags^p.flip, p.method, uint16(0), uint16(0x21), lc, lp, lu, uint16(len(name)), uint16(len(p.lextra))))
			out.WriteString(name)
			out.Write(p.lextra)
			out.Write(raw)
			switch {
			case p.tail != nil:
				out.Write(p.tail)
			case p.flags&flagDescriptor != 0:
				out.Write(le(uint32(markData), crc, packed, unpacked))
			}
			out.Write(p.gap)
		}
		dir.Write(le(uint32(markCentral), uint8(20), p.system, uint16(20), p.flags, p.method, uint16(0), uint16(0x21), crc, packed, or(p.dirSize, unpacked),
			uint16(len(p.name)), uint16(len(p.extra)), uint16(len(p.comment)), p.disk, uint16(0), p.attr, or(p.head, head)))
		dir.WriteString(p.name)
		dir.Write(p.extra)
		dir.WriteString(p.comment)
	}
	start := uint32(out.Len())
	out.Write(dir.Bytes())
	out.Write(a.after)
	n := uint16(len(a.pieces) + a.claim)
	here := n
	if a.onDisk != nil {
		here = *a.onDisk
	}
	out.Write(le(uint32(markEnd), a.disk, uint16(0), here, n, or(a.length, uint32(dir.Len())), or(a.start, start), uint16(len(a.comment))))
	out.WriteString(a.comment)
	return out.Bytes()
}

const goodProfile = `{"units":"us","region":"US","tank":"Starter 10","shop":{"name":"Corner shop"},"answers":[{"field":"tank.nominal","kind":"choice","value":"us_10"},{"field":"dose.amount","kind":"measure","value":"5.0","unit":"ml"}],"notes":{"en":"Feed sparingly."}}`

func hashOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// shape is one of the slips as it is built by hand: its format, the part with its
// body, a good body that says "Starter 10", and how it is read; read reports whether
// anything was given beside an error.
type shape struct {
	format, part, good string
	read               func(b []byte) (given bool, err error)
}

var profiles = shape{FormatProfile, partProfile, goodProfile, func(b []byte) (bool, error) {
	p, found, err := read(b)
	return p.Version != 0 || p.Answers != nil || found != nil, err
}}

// listing is a manifest of the given parts.
func (s shape) listing(version int, parts ...piece) string {
	var lines []string
	for _, p := range parts {
		lines = append(lines, fmt.Sprintf(`{"name":%q,"sha256":%q}`, p.name, hashOf(p.data)))
	}
	return fmt.Sprintf(`{"format":%q,"version":%d,"made_by":{"program":"Driploop","version":"1"},"parts":[%s]}`, s.format, version, strings.Join(lines, ","))
}

func file(name, text string) piece { return piece{name: name, data: []byte(text)} }

// with is a good slip with more parts, all listed.
func (s shape) with(more ...piece) archive { return s.holding(1, s.good, more...) }

// holding is a slip of a version whose body is text, with more parts, all listed.
func (s shape) holding(version int, text string, more ...piece) archive {
	parts := append([]piece{file(s.part, text)}, more...)
	return archive{pieces: append([]piece{file(partManifest, s.listing(version, parts...))}, parts...)}
}

// saying is a slip whose body is text.
func (s shape) saying(text string) []byte { return s.sayingIn(1, text) }

func (s shape) sayingIn(version int, text string) []byte { return s.holding(version, text).bytes() }

// altered is a good slip with its body's record changed.
func (s shape) altered(change func(*piece)) []byte {
	a := s.with()
	change(&a.pieces[1])
	return a.bytes()
}

// The same of a profile.
func with(more ...piece) archive               { return profiles.with(more...) }
func saying(text string) []byte                { return profiles.saying(text) }
func sayingIn(version int, text string) []byte { return profiles.sayingIn(version, text) }
func altered(change func(*piece)) []byte       { return profiles.altered(change) }

func read(b []byte) (Profile, []working.Finding, error) {
	return ReadProfile(bytes.NewReader(b), int64(len(b)))
}

// codeOf gives the code of a refusal, "" for none; any other error fails the test.
func codeOf(t *testing.T, err error) working.Key {
	t.Helper()
	if err == nil {
		return ""
	}
	var e *Error
	if !errors.As(err, &e) {
		t.Fatalf("the error is %T %v, want *slip.Error", err, err)
	}
	return e.Code
}

// The builder itself tells the truth when nothing is changed.
func TestBuiltFilesAreGood(t *testing.T) {
	for name, b := range map[string][]byte{
		"stored": with().bytes(), "deflated": altered(func(p *piece) { p.method = deflated }),
		"descriptor": altered(func(p *piece) { p.flags = flagDescriptor }),
		"bare descriptor": altered(func(p *piece) {
			p.flags = flagDescriptor
			p.tail = le(crc32.ChecksumIEEE(p.data), uint32(len(p.data)), uint32(len(p.data)))
		}),
		"time stamp": altered(func(p *piece) {
			p.extra, p.lextra = le(uint16(0x5455), uint16(1), uint8(0)), le(uint16(0x5455), uint16(1), uint8(0))
		}),
		"Unix file":    altered(func(p *piece) { p.system, p.attr = 3, 0o100644<<16 }),
		"another part": with(file("notes/año.txt", "x")).bytes(),
	} {
		if name == "another part" {
			a := with(file("notes/año.txt", "x"))
			a.pieces[2].flags = flagUTF8
			b = a.bytes()
		}
		p, _, err := read(b)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if p.Tank != "Starter 10" || len(p.Answers) != 2 || p.Answers["dose.amount"].Measure.Number != "5.0" {
			t.Errorf("%s: read %+v", name, p)
		}
	}
}
