package slip

import (
	"bytes"
	"compress/flate"
	"fmt"
	"hash/crc32"
	"math/rand"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/working"
)

// zeros is a stream that unpacks to mb times 1,000,000 zeros: one block made
// once and repeated, as each ends on a byte.
func zeros(mb int) []byte {
	var b bytes.Buffer
	w, err := flate.NewWriter(&b, flate.BestCompression)
	if err != nil {
		panic(err)
	}
	block := make([]byte, 1_000_000)
	step := func() []byte {
		from := b.Len()
		if _, err := w.Write(block); err != nil {
			panic(err)
		}
		if err := w.Flush(); err != nil {
			panic(err)
		}
		return append([]byte(nil), b.Bytes()[from:]...)
	}
	first, next := step(), step()
	out := append(first, bytes.Repeat(next, mb-1)...)
	return append(out, deflate(nil)...)
}

func noise(n int, seed int64) []byte {
	b := make([]byte, n)
	rand.New(rand.NewSource(seed)).Read(b)
	return b
}

type hostile struct {
	name string
	make func() []byte
	want working.Key
}

func (s shape) named(name string, flags uint16) func() []byte {
	return func() []byte {
		p := file(name, "x")
		p.flags = flags
		return s.with(p).bytes()
	}
}

func (s shape) body1(change func(*piece)) func() []byte {
	return func() []byte { return s.altered(change) }
}

func fill(n int, name func(int) string) []piece {
	var ps []piece
	for i := range n {
		ps = append(ps, file(name(i), "x"))
	}
	return ps
}

// hostiles are files made to harm or mislead whoever opens them.
func (s shape) hostiles() []hostile {
	hs := []hostile{
		// names
		{"climbing name", s.named("../x", 0), CodeName},
		{"climbing inside", s.named("a/../../x", 0), CodeName},
		{"here name", s.named("./x", 0), CodeName},
		{"absolute name", s.named("/etc/x", 0), CodeName},
		{"drive", s.named("C:x", 0), CodeName},
		{"drive and path", s.named(`C:\x`, 0), CodeName},
		{"network path", s.named(`\\host\share\x`, 0), CodeName},
		{"backslash", s.named(`a\x`, 0), CodeName},
		{"zero byte", s.named("a\x00.txt", 0), CodeName},
		{"control character", s.named("a\x1b[2J", 0), CodeName},
		{"new line", s.named("a\nb", 0), CodeName},
		{"trailing dot", s.named("a.", 0), CodeName},
		{"trailing space", s.named("a ", 0), CodeName},
		{"trailing dot in a folder", s.named("a./b", 0), CodeName},
		{"leading space", s.named(" a", 0), CodeName},
		{"empty name", s.named("", 0), CodeName},
		{"empty name inside", s.named("a//b", 0), CodeName},
		{"device", s.named("NUL", 0), CodeName},
		{"device with an ending", s.named("con.txt", 0), CodeName},
		{"device in a folder", s.named("a/Lpt9.tar.gz", 0), CodeName},
		{"device with a superscript", s.named("com¹", flagUTF8), CodeName},
		{"stream", s.named("a:b", 0), CodeName},
		{"wildcard", s.named("a*", 0), CodeName},
		{"turned direction", s.named("a\u202egpj.exe", flagUTF8), CodeName},
		{"invisible space", s.named("a\u200bb", flagUTF8), CodeName},
		{"not in normal form", s.named("an\u0303o", flagUTF8), CodeName},
		{"not UTF-8", s.named("a\xff", flagUTF8), CodeName},
		{"alphabet not said", s.named("año", 0), CodeName},
		{"folder", s.named("a/", 0), CodeSpecial},
		{"10,000 deep", s.named(strings.Repeat("a/", 10_000)+"x", 0), CodeNameLong},
		{"five deep", s.named("a/b/c/d/e", 0), CodeDepth},
		{"twice", func() []byte { return s.with(file("a", "x"), file("a", "x")).bytes() }, CodeTwins},
		{"profile twice", func() []byte { return s.with(file(s.part, s.good)).bytes() }, CodeTwins},
		{"manifest twice", func() []byte { return s.with(file(partManifest, "{}")).bytes() }, CodeTwins},
		{"twins in case", func() []byte { return s.with(file("a", "x"), file("A", "x")).bytes() }, CodeTwins},
		{"twins in case of a profile", func() []byte { return s.with(file(strings.ToUpper(s.part), "{}")).bytes() }, CodeTwins},
		{"twins in width", func() []byte {
			a, b := file("a1", "x"), file("a１", "x")
			b.flags = flagUTF8
			return s.with(a, b).bytes()
		}, CodeTwins},
		{"twins ss and ß", func() []byte {
			a, b := file("ss", "x"), file("ß", "x")
			b.flags = flagUTF8
			return s.with(a, b).bytes()
		}, CodeTwins},
		{"file and folder of one name", func() []byte { return s.with(file("a", "x"), file("A/b", "x")).bytes() }, CodeTwins},
		{"another name in front of the data", s.body1(func(p *piece) { p.local = strings.ToUpper(s.part) }), CodeDamaged},
		{"a longer name in front of the data", s.body1(func(p *piece) { p.local = "../" + s.part }), CodeDamaged},
		{"a second name", s.body1(func(p *piece) { p.extra = le(uint16(0x7075), uint16(6), uint8(1), uint32(0), uint8('x')) }), CodeName},

		// what is no plain file
		{"symbolic link", s.body1(func(p *piece) { p.system, p.attr = 3, 0o120777<<16 }), CodeSpecial},
		{"device file", s.body1(func(p *piece) { p.system, p.attr = 3, 0o020666<<16 }), CodeSpecial},
		{"block device", s.body1(func(p *piece) { p.system, p.attr = 3, 0o060666<<16 }), CodeSpecial},
		{"pipe", s.body1(func(p *piece) { p.system, p.attr = 3, 0o010666<<16 }), CodeSpecial},
		{"socket", s.body1(func(p *piece) { p.system, p.attr = 19, 0o140666<<16 }), CodeSpecial},
		{"folder by its mode", s.body1(func(p *piece) { p.system, p.attr = 3, 0o040755<<16 }), CodeSpecial},
		{"folder by its attribute", s.body1(func(p *piece) { p.attr = 0x10 }), CodeSpecial},
		{"disk label", s.body1(func(p *piece) { p.attr = 0x08 }), CodeSpecial},
		{"hard link", s.body1(func(p *piece) { p.extra = append(le(uint16(0x000d), uint16(18)), make([]byte, 18)...) }), CodeSpecial},
		{"hard link in front of the data", s.body1(func(p *piece) { p.lextra = append(le(uint16(0x000d), uint16(18)), make([]byte, 18)...) }), CodeSpecial},

		// encryption and packing
		{"encrypted", s.body1(func(p *piece) { p.flags = flagEncrypted }), CodeEncrypted},
		{"strongly encrypted", s.body1(func(p *piece) { p.flags = flagStrong }), CodeEncrypted},
		{"masked", s.body1(func(p *piece) { p.flags = flagMasked }), CodeEncrypted},
		{"AES", s.body1(func(p *piece) { p.extra = append(le(uint16(0x9901), uint16(7)), make([]byte, 7)...) }), CodeEncrypted},
		{"method 99", s.body1(func(p *piece) { p.method, p.raw = 99, p.data }), CodeMethod},
		{"method bzip2", s.body1(func(p *piece) { p.method, p.raw = 12, p.data }), CodeMethod},
		{"method deflate64", s.body1(func(p *piece) { p.method, p.raw = 9, p.data }), CodeMethod},
		{"unknown flag", s.body1(func(p *piece) { p.flags = 1 << 5 }), CodeDamaged},
		{"ZIP inside", func() []byte { return s.with(piece{name: "a.bin", data: s.with().bytes()}).bytes() }, CodeNested},
		{"empty ZIP inside", func() []byte { return s.with(piece{name: "a.bin", data: archive{}.bytes()}).bytes() }, CodeNested},
		{"gzip inside", func() []byte { return s.with(file("a", "\x1f\x8b\x08")).bytes() }, CodeNested},
		{"ZIP as the body", func() []byte { return s.saying(string(s.with().bytes())) }, CodeNested},

		// bombs
		{"100,000 parts", func() []byte {
			return archive{pieces: fill(100_000, func(i int) string { return fmt.Sprintf("%06d", i) })}.bytes()
		}, CodeParts},
		{"65,536 parts claimed as none", func() []byte {
			return archive{pieces: fill(65_536, func(i int) string { return fmt.Sprintf("%06d", i) })}.bytes()
		}, CodeDamaged},
		{"1 GB declared as nothing", func() []byte {
			return s.with(piece{name: "a", method: deflated, raw: zeros(1000), crc: u32(0), unpacked: u32(0)}).bytes()
		}, CodeDamaged},
		{"1 GB declared as 1 MB", func() []byte {
			return s.with(piece{name: "a", method: deflated, raw: zeros(1000), crc: u32(0), unpacked: u32(1_000_000)}).bytes()
		}, CodeDamaged},
		{"1 GB declared truly", func() []byte {
			return s.with(piece{name: "a", method: deflated, raw: zeros(1000), crc: u32(0), unpacked: u32(1_000_000_000)}).bytes()
		}, CodeUnpacked},
		{"ratio of 1,000", func() []byte {
			return s.with(piece{name: "a", method: deflated, raw: zeros(40), data: make([]byte, 40_000_000)}).bytes()
		}, CodeRatio},
		{"one body for many parts", func() []byte {
			a := s.with()
			kernel := piece{name: "k", method: deflated, data: []byte(fmt.Sprintf("%x", noise(45_000, 3)))}
			kernel.raw = deflate(kernel.data)
			a.pieces = append(a.pieces, kernel)
			at := uint32(len(archive{pieces: a.pieces[:2]}.bytes()) - sizeEnd - 2*sizeCentral - len(partManifest) - len(s.part))
			for i := range 400 {
				p := kernel
				p.name, p.skipLocal, p.head = fmt.Sprintf("k%d", i), true, u32(at)
				a.pieces = append(a.pieces, p)
			}
			return a.bytes()
		}, CodeDamaged},
		{"part inside a part", func() []byte {
			inner := archive{pieces: []piece{file("b", "hidden")}}.bytes()
			inner = inner[:len(inner)-sizeEnd-sizeCentral-1]
			a := s.with(piece{name: "a", data: append([]byte("x"), inner...)})
			at := len(archive{pieces: a.pieces}.bytes()) - sizeEnd - 3*sizeCentral - len(partManifest) - len(s.part) - 1 - len(inner)
			a.pieces = append(a.pieces, piece{name: "b", data: []byte("hidden"), skipLocal: true, head: u32(uint32(at))})
			return a.bytes()
		}, CodeDamaged},

		// lies in the records
		{"wrong checksum", s.body1(func(p *piece) { p.crc = u32(1) }), CodeDamaged},
		{"data changed under a true checksum record", func() []byte {
			b := s.with().bytes()
			return bytes.Replace(b, []byte("Starter 10"), []byte("Starter 11"), 1)
		}, CodeDamaged},
		{"sizes swapped in the directory", s.body1(func(p *piece) { p.method = deflated; p.dirSize = u32(uint32(len(p.data)) - 1) }), CodeDamaged},
		{"size in front of the data differs", s.body1(func(p *piece) { p.locSize = u32(1) }), CodeDamaged},
		{"stored with two sizes", s.body1(func(p *piece) { p.unpacked = u32(uint32(len(p.data)) + 1) }), CodeDamaged},
		{"packed size too small", s.body1(func(p *piece) { p.packed, p.unpacked = u32(10), u32(10) }), CodeDamaged},
		{"packed size beyond the file", s.body1(func(p *piece) { p.method = deflated; p.packed = u32(1_000_000) }), CodeDamaged},
		{"stream without its end", s.body1(func(p *piece) {
			var b bytes.Buffer
			w, _ := flate.NewWriter(&b, 9)
			_, _ = w.Write(p.data)
			_ = w.Flush()
			p.method, p.raw = deflated, b.Bytes()
		}), CodeDamaged},
		{"bytes behind the end of a stream", s.body1(func(p *piece) { p.method, p.raw = deflated, append(deflate(p.data), 0) }), CodeDamaged},
		{"stream that is none", s.body1(func(p *piece) { p.method, p.raw = deflated, noise(len(p.data), 1) }), CodeDamaged},
		{"descriptor with another checksum", s.body1(func(p *piece) {
			p.flags = flagDescriptor
			p.tail = le(uint32(markData), uint32(1), uint32(len(p.data)), uint32(len(p.data)))
		}), CodeDamaged},
		{"descriptor with another size", s.body1(func(p *piece) {
			p.flags = flagDescriptor
			p.tail = le(uint32(markData), crc32.ChecksumIEEE(p.data), uint32(len(p.data)), uint32(len(p.data)+1))
		}), CodeDamaged},
		{"descriptor missing", s.body1(func(p *piece) { p.flags, p.tail = flagDescriptor, []byte{} }), CodeDamaged},
		{"extra field longer than its record", s.body1(func(p *piece) { p.extra = le(uint16(0x5455), uint16(100)) }), CodeDamaged},
		{"extra field cut short", s.body1(func(p *piece) { p.lextra = []byte{1} }), CodeDamaged},
		{"comment of a part", s.body1(func(p *piece) { p.comment = "x" }), CodeDamaged},
		{"part on another disk", s.body1(func(p *piece) { p.disk = 1 }), CodeDamaged},
		{"gap between parts", s.body1(func(p *piece) { p.gap = []byte("hidden") }), CodeDamaged},
		{"place beyond the file", s.body1(func(p *piece) { p.head = u32(1_000_000) }), CodeDamaged},
		{"place in the middle", s.body1(func(p *piece) { p.head = u32(5) }), CodeDamaged},
		{"program in front", func() []byte { a := s.with(); a.before = []byte("MZ program"); return a.bytes() }, CodeDamaged},
		{"bytes behind the directory", func() []byte { a := s.with(); a.after = []byte("x"); return a.bytes() }, CodeDamaged},
		{"bytes behind the end", func() []byte { return append(s.with().bytes(), 'x') }, CodeNotSlip},
		{"comment", func() []byte { a := s.with(); a.comment = "x"; return a.bytes() }, CodeNotSlip},
		{"end record hidden in a comment", func() []byte { a := s.with(); a.comment = string(archive{}.bytes()); return a.bytes() }, CodeDamaged},
		{"more parts claimed", func() []byte { a := s.with(); a.claim = 1; return a.bytes() }, CodeDamaged},
		{"fewer parts claimed", func() []byte { a := s.with(file("a", "x")); a.claim = -1; return a.bytes() }, CodeDamaged},
		{"another number of parts on this disk", func() []byte { a := s.with(); n := uint16(1); a.onDisk = &n; return a.bytes() }, CodeDamaged},
		{"bytes in the directory behind its last part", func() []byte {
			a := s.with()
			n := 2*sizeCentral + len(partManifest) + len(s.part)
			a.after, a.length = []byte("x"), u32(uint32(n+1))
			return a.bytes()
		}, CodeDamaged},
		{"other flags in front of the data", s.body1(func(p *piece) { p.flip = flagEncrypted }), CodeDamaged},
		{"second disk", func() []byte { a := s.with(); a.disk = 1; return a.bytes() }, CodeDamaged},
		{"directory of another length", func() []byte { a := s.with(); a.length = u32(10); return a.bytes() }, CodeDamaged},
		{"directory elsewhere", func() []byte { a := s.with(); a.start = u32(0); return a.bytes() }, CodeDamaged},
		{"directory longer than its parts can be", func() []byte {
			return le(uint32(markEnd), uint16(0), uint16(0), uint16(0), uint16(0), uint32(0), uint32(5), uint16(0))
		}, CodeDamaged},

		// ZIP64
		{"ZIP64 size", s.body1(func(p *piece) { p.unpacked, p.packed = u32(full32), u32(full32) }), CodeZIP64},
		{"ZIP64 record beside true sizes", s.body1(func(p *piece) { p.extra = append(le(uint16(1), uint16(8)), make([]byte, 8)...) }), CodeZIP64},
		{"ZIP64 record in front of the data", s.body1(func(p *piece) { p.lextra = append(le(uint16(1), uint16(8)), make([]byte, 8)...) }), CodeZIP64},
		{"ZIP64 place", s.body1(func(p *piece) { p.head = u32(full32) }), CodeZIP64},
		{"ZIP64 directory", func() []byte { a := s.with(); a.start = u32(full32); return a.bytes() }, CodeZIP64},
		{"ZIP64 number of parts", func() []byte { a := s.with(); a.claim = 0xffff - 2; return a.bytes() }, CodeZIP64},
		{"ZIP64 end record", func() []byte {
			a := s.with()
			a.after = append(le(uint32(0x06064b50), uint64(44)), make([]byte, 44+20)...)
			return a.bytes()
		}, CodeDamaged},

		// no slip
		{"nothing", func() []byte { return nil }, CodeNotSlip},
		{"text", func() []byte { return []byte(strings.Repeat("This is a letter. ", 20)) }, CodeNotSlip},
		{"picture", func() []byte { return append([]byte("\xff\xd8\xff\xe0"), noise(4000, 2)...) }, CodeNotSlip},
		{"empty ZIP", func() []byte { return archive{}.bytes() }, CodeNoManifest},
		{"ZIP without a manifest", func() []byte { return archive{pieces: []piece{file(s.part, s.good)}}.bytes() }, CodeNoManifest},
		{"another format", func() []byte {
			return archive{pieces: []piece{file(partManifest, `{"format":"other","version":1}`)}}.bytes()
		}, CodeOther},
		{"manifest without a format", func() []byte { return archive{pieces: []piece{file(partManifest, `{}`)}}.bytes() }, CodeOther},
		{"version 0", func() []byte { return s.sayingIn(0, s.good) }, CodeNumber},
		{"version -1", func() []byte { return s.sayingIn(-1, s.good) }, CodeNumber},
		{"manifest that is a list", func() []byte { return archive{pieces: []piece{file(partManifest, `[]`)}}.bytes() }, CodeShape},

		// the manifest and the parts
		{"part not listed", func() []byte { a := s.with(); a.pieces = append(a.pieces, file("a", "x")); return a.bytes() }, CodeHash},
		{"part listed and not there", func() []byte { a := s.with(file("a", "x")); a.pieces = a.pieces[:2]; return a.bytes() }, CodeHash},
		{"part listed twice", func() []byte {
			p := file(s.part, s.good)
			return archive{pieces: []piece{file(partManifest, s.listing(1, p, p)), p}}.bytes()
		}, CodeHash},
		{"manifest that lists itself", func() []byte {
			p := file(s.part, s.good)
			return archive{pieces: []piece{file(partManifest, s.listing(1, p, file(partManifest, ""))), p}}.bytes()
		}, CodeHash},
		{"profile missing", func() []byte { return archive{pieces: []piece{file(partManifest, s.listing(1))}}.bytes() }, CodeHash},
		{"wrong hash", func() []byte {
			return archive{pieces: []piece{file(partManifest, s.listing(1, file(s.part, "{}"))), file(s.part, s.good)}}.bytes()
		}, CodeHash},
		{"wrong hash of a part that is passed over", func() []byte {
			a := s.with(file("a", "x"))
			a.pieces[2].data = []byte("y")
			return a.bytes()
		}, CodeHash},
		{"manifest of 2 MB", func() []byte {
			return archive{pieces: []piece{file(partManifest, strings.Repeat(" ", 2_000_000))}}.bytes()
		}, CodeJSONSize},
	}
	whole := s.with().bytes()
	for i := 1; i < 64; i++ {
		cut := whole[:len(whole)*i/64]
		hs = append(hs, hostile{fmt.Sprintf("cut at %d/64", i), func() []byte { return cut }, CodeNotSlip})
	}
	return append(append(hs, s.manifestTricks()...), s.containerTricks()...)
}

// shapes are all slips.
var shapes = []shape{profiles, visits, replies}

// Every hostile file is refused with its reason, costs little, by what is allocated and
// by what is read, and leaves nothing behind, neither where the program runs nor among
// temporary files.
func TestHostileFilesAreRefused(t *testing.T) {
	here, temp := t.TempDir(), t.TempDir()
	t.Chdir(here)
	for _, name := range []string{"TMPDIR", "TMP", "TEMP"} {
		t.Setenv(name, temp)
	}
	const least, most = 160, 64 << 20
	for _, s := range shapes {
		hs, seen := s.hostiles(), map[string]bool{}
		for _, h := range hs {
			if seen[h.name] {
				t.Errorf("%q stands twice", h.name)
			}
			seen[h.name] = true
			b := h.make()
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			given, err := s.read(b)
			runtime.ReadMemStats(&after)
			if got := codeOf(t, err); got != h.want {
				t.Errorf("%s, %s: got %q (%v), want %q", s.format, h.name, got, err, h.want)
			}
			if err != nil && given {
				t.Errorf("%s, %s: refused, and yet something was read", s.format, h.name)
			}
			if n := after.TotalAlloc - before.TotalAlloc; n > most {
				t.Errorf("%s, %s: %d bytes were allocated, want at most %d", s.format, h.name, n, most)
			}
			c := &counted{Reader: bytes.NewReader(b)}
			if err := s.readAt(c, int64(len(b))); err == nil || c.n > mostRead(len(b)) {
				t.Errorf("%s, %s: %d bytes were read of %d, %v", s.format, h.name, c.n, len(b), err)
			}
		}
		drill.Tally(t, "D2-20", "hostile files of "+s.format, len(hs), 0)
		if len(hs)-63 < least {
			t.Fatalf("%s: %d kinds beside the truncations, want at least %d", s.format, len(hs)-63, least)
		}
	}
	for _, dir := range []string{here, temp, filepath.Dir(here)} {
		files, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			if dir != filepath.Dir(here) || !f.IsDir() {
				t.Errorf("%s was left in %s", f.Name(), dir)
			}
		}
	}
}
