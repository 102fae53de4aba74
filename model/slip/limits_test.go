package slip

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/working"
)

// padded is a good profile whose file is n bytes long, by a part of noise.
func padded(n int) []byte {
	p := piece{name: "a", data: []byte{'x'}}
	p.data = append(p.data, noise(n-len(with(p).bytes()), 1)...)
	return with(p).bytes()
}

// unpacking is a good profile whose parts unpack to n bytes.
func unpacking(n int) []byte {
	left := n - len(goodProfile)
	var ps []piece
	for i := 0; left > 0; i++ {
		// Half noise, half zeros: packed well below MaxFile, far from MaxRatio.
		data := make([]byte, min(left, 8_000_000))
		copy(data, noise(len(data)/5, int64(i)))
		ps = append(ps, piece{name: fmt.Sprint(i), method: deflated, data: data})
		left -= len(data)
	}
	// The manifest counts too; its length does not depend on what the parts hold.
	first := len(with(ps...).pieces[0].data)
	last := &ps[len(ps)-1]
	last.data = last.data[:len(last.data)-first]
	return with(ps...).bytes()
}

// swelling is a good profile with a part that unpacks to exactly MaxRatio times
// its packed size and by more.
func swelling(t *testing.T, by int) []byte {
	t.Helper()
	for k := 2000; k < 4000; k++ {
		head := noise(k, 7)
		packed := len(deflate(append(head, make([]byte, 100*k)...)))
		for range 20 {
			data := append(bytes.Clone(head), make([]byte, MaxRatio*packed+by-k)...)
			n := len(deflate(data))
			if n == packed {
				return with(piece{name: "a", method: deflated, data: data}).bytes()
			}
			packed = n
		}
	}
	t.Fatal("no part of the ratio was found")
	return nil
}

func nested(depth int) string {
	n := depth - 1 // the body itself is one
	return `{"units":"us","x":` + strings.Repeat("[", n) + strings.Repeat("]", n) + `}`
}

// Each limit holds at its value and one below, and refuses one above. Source: the
// limits are this project's own, see limits.go.
func TestLimitsAtTheirBoundaries(t *testing.T) {
	zero := func(n int) string { return strings.Repeat("z", n) }
	part := func(name string) []byte { return with(file(name, "x")).bytes() }
	tried := 0
	for _, c := range []struct {
		name string
		at   int // what is allowed
		make func(n int) []byte
		want working.Key
	}{
		{"bytes of the file", MaxFile, padded, CodeTooBig},
		{"parts", MaxParts, func(n int) []byte { return with(fill(n-2, func(i int) string { return fmt.Sprint(i) })...).bytes() }, CodeParts},
		{"bytes unpacked", MaxUnpacked, unpacking, CodeUnpacked},
		{"ratio", 0, func(n int) []byte { return swelling(t, n) }, CodeRatio},
		{"depth of a name", MaxDepth, func(n int) []byte { return part(strings.Repeat("a/", n-1) + "x") }, CodeDepth},
		{"bytes of a name", MaxName, func(n int) []byte { return part(zero(n)) }, CodeNameLong},
		{"bytes of a name beyond ASCII", MaxName, func(n int) []byte {
			p := file(zero(n-98)+strings.Repeat("ñ", 49), "x")
			p.flags = flagUTF8
			return with(p).bytes()
		}, CodeNameLong},
		{"depth of JSON", MaxJSONDepth, func(n int) []byte { return saying(nested(n)) }, CodeJSONDepth},
		{"bytes of JSON", MaxJSON, func(n int) []byte { return saying(`{"units":"us"}` + strings.Repeat("\n", n-14)) }, CodeJSONSize},
		{"values of JSON", MaxJSONValues, func(n int) []byte {
			return saying(`{"units":"us","x":[1` + strings.Repeat(",1", n-4) + `]}`) // the object, two members, a list of n-3
		}, CodeJSONValues},
		{"bytes of a note", MaxString, func(n int) []byte { return saying(`{"units":"us","notes":{"en":"` + zero(n) + `"}}`) }, CodeString},
		{"bytes of a note beyond ASCII", MaxString, func(n int) []byte {
			return saying(`{"units":"us","notes":{"es":"` + zero(n-9998) + strings.Repeat("ñ", 4999) + `"}}`)
		}, CodeString},
		{"bytes of an unknown text", MaxString, func(n int) []byte { return saying(`{"units":"us","x":"` + zero(n) + `"}`) }, CodeString},
		{"bytes of a key", MaxString, func(n int) []byte { return saying(`{"units":"us","` + zero(n) + `":1}`) }, CodeString},
		{"runes of the tank's name", MaxTankName, func(n int) []byte { return saying(`{"units":"us","tank":"` + strings.Repeat("ñ", n) + `"}`) }, CodeLong},
		{"runes of the shop's name", MaxShopName, func(n int) []byte { return saying(`{"units":"us","shop":{"name":"` + strings.Repeat("ñ", n) + `"}}`) }, CodeLong},
		{"runes of the address", MaxAddress, func(n int) []byte {
			return saying(`{"units":"us","shop":{"address":"` + strings.Repeat("ñ", n) + `"}}`)
		}, CodeLong},
		{"runes of the hours", MaxHours, func(n int) []byte { return saying(`{"units":"us","shop":{"hours":"` + strings.Repeat("ñ", n) + `"}}`) }, CodeLong},
		{"digits of a measure", MaxNumber, func(n int) []byte {
			return saying(answer("dose.amount", "measure", "5."+strings.Repeat("0", n-2), "ml"))
		}, CodeAnswer},
		{"runes of words", 120, func(n int) []byte { return saying(answer("fish.kind", "words", strings.Repeat("ñ", n), "")) }, CodeAnswer},
		{"version", maxVersion, func(n int) []byte { return sayingIn(n, `{"units":"us"}`) }, CodeNumber},
	} {
		for _, by := range []int{-1, 0, 1} {
			want := working.Key("")
			if by > 0 {
				want = c.want
			}
			b := c.make(c.at + by)
			_, _, err := read(b)
			if got := codeOf(t, err); got != want {
				t.Errorf("%s, %d%+d: got %q (%v), want %q", c.name, c.at, by, got, err, want)
			}
			tried++
		}
	}
	drill.Tally(t, "D2-21", "files at a limit, one below and one above", tried, 0)
}

// A size below or above what is there is found, whatever it is.
func TestSizeThatIsNotTheFiles(t *testing.T) {
	b := with().bytes()
	for _, n := range []int64{-1, 0, 1, 21, 22, int64(len(b)) - 1, int64(len(b)) + 1, int64(len(b)) + 1000, MaxFile, MaxFile + 1, 1 << 62} {
		if _, _, err := ReadProfile(bytes.NewReader(b), n); codeOf(t, err) == "" {
			t.Errorf("a size of %d for %d bytes was accepted", n, len(b))
		}
	}
}

// failing gives an error of the disk after a number of bytes.
type failing struct {
	b    []byte
	from int64
}

func (f failing) ReadAt(p []byte, off int64) (int, error) {
	if off+int64(len(p)) > f.from {
		return 0, io.ErrClosedPipe
	}
	return bytes.NewReader(f.b).ReadAt(p, off)
}

func TestDiskThatFails(t *testing.T) {
	b := altered(func(p *piece) { p.method = deflated })
	n := 0
	for from := range int64(len(b)) {
		if _, _, err := ReadProfile(failing{b, from}, int64(len(b))); codeOf(t, err) != CodeUnreadable {
			t.Fatalf("failing beyond %d: %v, want %s", from, err, CodeUnreadable)
		}
		n++
	}
	if n < 100 {
		t.Fatalf("only %d places failed", n)
	}
}

// What is unpacked is counted as it comes, whatever the directory claimed.
func TestUnpackedBytesAreCounted(t *testing.T) {
	b := with(piece{name: "a", method: deflated, data: make([]byte, 1000)})
	for _, by := range []int64{-1, 0, 1} {
		raw := b.bytes()
		parts, err := directory(bytes.NewReader(raw), int64(len(raw)), slipLimits)
		if err != nil {
			t.Fatal(err)
		}
		u := newUnpacker(bytes.NewReader(raw), slipLimits)
		u.left = 1000 + by
		want := working.Key("")
		if by < 0 {
			want = CodeUnpacked
		}
		if _, err := u.part(parts[2], nil); codeOf(t, err) != want {
			t.Errorf("1000 bytes with %d left: %v, want %q", 1000+by, err, want)
		}
	}
}
