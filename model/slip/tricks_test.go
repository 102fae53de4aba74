package slip

import (
	"bytes"
	"crypto/ed25519"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"
)

// manifestTricks are files whose manifest, or whose signature, is made to mislead.
func (s shape) manifestTricks() []hostile {
	body := file(s.part, s.good)
	plain := s.listing(1, body)
	raw := func(text string) func() []byte {
		return func() []byte { return archive{pieces: []piece{file(partManifest, text), body}}.bytes() }
	}
	put := func(old, new string) func() []byte {
		if !strings.Contains(plain, old) {
			panic(old)
		}
		return raw(strings.Replace(plain, old, new, 1))
	}
	version := func(text string) func() []byte { return put(`"version":1,`, `"version":`+text+`,`) }
	member := func(text string) func() []byte { return put(`"version":1,`, `"version":1,`+text+`,`) }
	program := func(text string) func() []byte { return put(`"program":"Driploop"`, `"program":"`+text+`"`) }
	listed := func(name, sum string) func() []byte {
		return put(fmt.Sprintf(`{"name":%q,"sha256":%q}`, s.part, hashOf(body.data)), fmt.Sprintf(`{"name":"%s","sha256":%s}`, name, sum))
	}
	sum := `"` + hashOf(body.data) + `"`
	var wide bytes.Buffer
	for _, u := range utf16.Encode([]rune(plain)) {
		wide.Write([]byte{byte(u), byte(u >> 8)})
	}
	other := FormatVisit
	if s.format == FormatVisit {
		other = FormatReply
	}
	signed := func(make func(manifest []byte) string) func() []byte {
		return func() []byte {
			return archive{pieces: []piece{file(partManifest, plain), body, file(partSignature, make([]byte(plain)))}}.bytes()
		}
	}
	return []hostile{
		{"manifest: key twice", member(`"version":1`), CodeTwice},
		{"manifest: key twice, once escaped", member(`"\u0076ersion":2`), CodeTwice},
		{"manifest: key twice in a line", put(`"sha256":`, `"sha256":"","sha256":`), CodeTwice},
		{"manifest: version as a fraction", version("1.0"), CodeNumber},
		{"manifest: version with a power", version("1e0"), CodeNumber},
		{"manifest: version -0", version("-0"), CodeNumber},
		{"manifest: version beyond all", version("1e999"), CodeNumber},
		{"manifest: version of 2^63", version("9223372036854775808"), CodeNumber},
		{"manifest: version of 100,000 digits", version(strings.Repeat("9", 100_000)), CodeNumber},
		{"manifest: version as a text", version(`"1"`), CodeShape},
		{"manifest: version true", version("true"), CodeShape},
		{"manifest: version null", version("null"), CodeShape},
		{"manifest: version NaN", version("NaN"), CodeJSON},
		{"manifest: version Infinity", version("-Infinity"), CodeJSON},
		{"manifest: version in hexadecimal", version("0x1"), CodeJSON},
		{"manifest: version with a nought", version("01"), CodeJSON},
		{"manifest: 10,000 deep", member(`"x":` + strings.Repeat("[", 10_000) + strings.Repeat("]", 10_000)), CodeJSONDepth},
		{"manifest: 100,000 objects deep, never shut", raw(strings.Repeat(`{"x":`, 100_000)), CodeJSONDepth},
		{"manifest: 100,000 values", member(`"x":[1` + strings.Repeat(",1", 100_000) + `]`), CodeJSONValues},
		{"manifest: text of 20 kB", member(`"x":"` + strings.Repeat("x", 20_000) + `"`), CodeString},
		{"manifest: key of 20 kB", member(`"` + strings.Repeat("x", 20_000) + `":1`), CodeString},
		{"manifest: byte order mark", raw("\ufeff" + plain), CodeJSON},
		{"manifest: UTF-16", raw(wide.String()), CodeJSON},
		{"manifest: not UTF-8", program("a\xffb"), CodeJSON},
		{"manifest: zero byte behind it", raw(plain + "\x00"), CodeJSON},
		{"manifest: two of them", raw(plain + plain), CodeJSON},
		{"manifest: format in other letters", put(s.format, strings.ToUpper(s.format)), CodeOther},
		{"manifest: format with a look-alike", put(s.format, strings.Replace(s.format, "o", "о", 1)), CodeOther},
		{"manifest: format with a space", put(s.format, s.format+" "), CodeOther},
		{"manifest: format under another key", put(`"format"`, `"Format"`), CodeOther},
		{"manifest: of another slip", put(s.format, other), CodeOther},
		{"manifest: turned direction in the program", program(`a\u202eb`), CodeText},
		{"manifest: escape in the program", program(`a\u001b[2J`), CodeText},
		{"manifest: program drawn as nothing", program(`\u3164`), CodeText},
		{"manifest: long program", program(strings.Repeat("a", MaxProgram+1)), CodeLong},
		{"manifest: parts as an object", raw(fmt.Sprintf(`{"format":%q,"version":1,"made_by":{},"parts":{}}`, s.format)), CodeShape},
		{"manifest: parts as a text", raw(fmt.Sprintf(`{"format":%q,"version":1,"made_by":{},"parts":"all"}`, s.format)), CodeShape},
		{"manifest: a part as a text", raw(fmt.Sprintf(`{"format":%q,"version":1,"made_by":{},"parts":[%q]}`, s.format, s.part)), CodeShape},
		{"manifest: maker as a text", raw(fmt.Sprintf(`{"format":%q,"version":1,"made_by":"x","parts":[]}`, s.format)), CodeShape},
		{"manifest: hash as a number", listed(s.part, "1"), CodeShape},
		{"manifest: hash in capitals", listed(s.part, strings.ToUpper(sum)), CodeHash},
		{"manifest: half a hash", listed(s.part, sum[:33]+`"`), CodeHash},
		{"manifest: no hash", listed(s.part, `""`), CodeHash},
		{"manifest: hash with a space", listed(s.part, sum[:65]+` "`), CodeHash},
		{"manifest: name in capitals", listed(strings.ToUpper(s.part), sum), CodeHash},
		{"manifest: name with a dot in front", listed("./"+s.part, sum), CodeHash},
		{"manifest: name with a zero byte", listed(s.part+`\u0000`, sum), CodeHash},
		{"manifest: 1 MB of zeros", func() []byte {
			return archive{pieces: []piece{{name: partManifest, method: deflated, data: make([]byte, 1_000_000)}}}.bytes()
		}, CodeRatio},

		{"signature: nothing", signed(func([]byte) string { return "" }), CodeSignature},
		{"signature: two dots", signed(func([]byte) string { return ".." }), CodeSignature},
		{"signature: of 1 MB", signed(func([]byte) string { return strings.Repeat("a", 1_000_000) }), CodeJSONSize},
		{"signature: of another manifest", signed(func(m []byte) string { return signedBy(trickKey, append(m, ' ')) }), CodeSignature},
		{"signature: with the order of the curve added", signed(func(m []byte) string { return shifted(signedBy(trickKey, m)) }), CodeSignature},
		{"signature: another key named", signed(func(m []byte) string {
			head, sig, _ := strings.Cut(signedBy(trickKey, m), "..")
			raw, _ := base64url.DecodeString(head)
			named := bytes.Replace(raw, []byte(jwkOf(trickKey.Public().(ed25519.PublicKey)).X), []byte(rfcX), 1)
			return base64url.EncodeToString(named) + ".." + sig
		}), CodeSignature},
		{"signature: key that anybody has", signed(func(m []byte) string { return forged(1) }), CodeSignature},
		{"signature: the same, written otherwise", signed(func(m []byte) string { return forgedWritten() }), CodeSignature},
		{"signature twice", func() []byte {
			a := s.with(file(partSignature, "a"), file("Signature.JWS", "b"))
			return a.bytes()
		}, CodeTwins},
		{"signature that the manifest lists", func() []byte { return s.with(file(partSignature, "a.b.c")).bytes() }, CodeSignature},
	}
}

// containerTricks are files that hide one part in another, or whose names change on
// the way to a disk.
func (s shape) containerTricks() []hostile {
	wide := func(name string) func() []byte { return s.named(name, flagUTF8) }
	inside := func(mark string) func() []byte {
		return func() []byte { return s.with(file("a", mark+"rest")).bytes() }
	}
	return []hostile{
		{"wide dots and slash", wide("．．／x"), CodeName},
		{"wide backslash", wide("a＼x"), CodeName},
		{"wide colon", wide("C：x"), CodeName},
		{"wide device", wide("ＮＵＬ"), CodeName},
		{"ligature and letters", func() []byte {
			a, b := file("fig", "x"), file("ﬁg", "x")
			b.flags = flagUTF8
			return s.with(a, b).bytes()
		}, CodeTwins},
		{"Kelvin sign", wide("\u212a"), CodeName},
		{"letter drawn as nothing", wide("a\u3164"), CodeName},
		{"tag characters", wide("a\U000e0041"), CodeName},
		{"isolated direction", wide("a\u2066b\u2069"), CodeName},
		{"line separator", wide("a\u2028b"), CodeName},
		{"device with a space", s.named("con .txt", 0), CodeName},
		{"device for input", s.named("CONIN$", 0), CodeName},
		{"device with a colon", s.named("aux:", 0), CodeName},
		{"three dots", s.named("...", 0), CodeName},
		{"root", s.named("/", 0), CodeName},
		{"xz inside", inside("\xfd7zXZ\x00"), CodeNested},
		{"7z inside", inside("7z\xbc\xaf\x27\x1c"), CodeNested},
		{"RAR inside", inside("Rar!\x1a\x07"), CodeNested},
		{"ZIP in a ZIP in a ZIP", func() []byte {
			b := zeros(40)
			for range 3 {
				p := piece{name: "a", method: deflated, data: b}
				b = archive{pieces: []piece{p}}.bytes()
			}
			return s.with(piece{name: "a", data: b}).bytes()
		}, CodeNested},
		{"400 parts of 1 MB of zeros, at the ratio", func() []byte {
			data := append(noise(11_000, 5), make([]byte, 1_000_000)...)
			var ps []piece
			for i := range 400 {
				ps = append(ps, piece{name: fmt.Sprint(i), method: deflated, data: data})
			}
			return s.with(ps...).bytes()
		}, CodeUnpacked},
		{"a part in the extra field of another", func() []byte {
			hidden := archive{pieces: []piece{file("b", "hidden")}}.bytes()
			hidden = hidden[:len(hidden)-sizeEnd-sizeCentral-1]
			a := s.with(piece{name: "a", data: []byte("x"), lextra: append(le(uint16(0xcafe), uint16(len(hidden))), hidden...)})
			at := len(archive{pieces: a.pieces}.bytes()) - sizeEnd - 3*sizeCentral - len(partManifest) - len(s.part) - 1 - 1 - len(hidden)
			a.pieces = append(a.pieces, piece{name: "b", data: []byte("hidden"), skipLocal: true, head: u32(uint32(at))})
			return a.bytes()
		}, CodeDamaged},
		{"parts that quote the records of the next", func() []byte { return quoting(s) }, CodeDamaged},
		{"two records for one place", func() []byte {
			a := s.with()
			a.pieces = append(a.pieces, piece{name: "b", data: a.pieces[0].data, skipLocal: true, head: u32(0)})
			return a.bytes()
		}, CodeDamaged},
		{"records in front of each other", func() []byte {
			a := s.with(file("a", "x"))
			a.pieces[2].head = u32(0)
			return a.bytes()
		}, CodeDamaged},
		{"encrypted in front of the data alone", s.body1(func(p *piece) { p.flip = flagEncrypted | flagStrong }), CodeDamaged},
		{"deflated in the directory, stored in front", func() []byte {
			b := s.altered(func(p *piece) { p.method = deflated })
			at := bytes.LastIndex(b, le(uint32(markCentral)))
			b[at+10] = 0
			return b
		}, CodeDamaged},
		{"half of a character in a name", s.named("a\xe2\x80", flagUTF8), CodeName},
		{"surrogates in a name", s.named("a\xed\xa0\x80", flagUTF8), CodeName},
		{"name written too long", s.named("a\xc0\xaf", flagUTF8), CodeName},
	}
}

// quoting is a file whose parts overlap: each holds, in a block that is stored, the
// record of the next, so that one kernel is the data of all.
func quoting(s shape) []byte {
	a := s.with()
	plain := noise(60_000, 11) // and no ratio that would tell
	kernel := deflate(plain)
	name := func(i int) string { return fmt.Sprintf("q%02d", i) }
	const n = 20
	sizes, lens := make([]int, n), make([]int, n) // packed, unpacked
	for i := n - 1; i >= 0; i-- {
		sizes[i], lens[i] = len(kernel), len(plain)
		if i < n-1 {
			head := sizeLocal + len(name(i+1))
			sizes[i], lens[i] = 5+head+sizes[i+1], head+lens[i+1]
		}
	}
	var raw []byte
	for i := n - 1; i > 0; i-- { // from the last, each in front of the next
		head := append(le(uint32(markLocal), uint16(20), uint16(0), uint16(deflated), uint16(0), uint16(0x21), uint32(0), uint32(sizes[i]), uint32(lens[i]), uint16(len(name(i))), uint16(0)), name(i)...)
		if i == n-1 {
			raw = append(slices.Clone(head), kernel...)
		} else {
			raw = append(slices.Clone(head), raw...)
		}
		raw = append(le(uint8(0), uint16(len(head)), ^uint16(len(head))), raw...)
	}
	at := uint32(len(archive{pieces: a.pieces}.bytes()) - sizeEnd - 2*sizeCentral - len(partManifest) - len(s.part))
	for i := range n {
		p := piece{name: name(i), method: deflated, raw: raw, crc: u32(0), packed: u32(uint32(sizes[i])), unpacked: u32(uint32(lens[i])), skipLocal: i > 0}
		p.head = u32(at)
		at += uint32(sizeLocal + len(name(i)) + 5)
		a.pieces = append(a.pieces, p)
	}
	return a.bytes()
}

// trickKey signs files whose signature is then tampered with.
var trickKey = ed25519.NewKeyFromSeed(bytes.Repeat([]byte{9}, ed25519.SeedSize))

func signedBy(key ed25519.PrivateKey, manifest []byte) string {
	jws, err := sign(manifest, key)
	if err != nil {
		panic(err)
	}
	return string(jws)
}

// curveOrder is L. Source: RFC 8032, section 5.1.
var curveOrder, _ = new(big.Int).SetString("7237005577332262213973186563042994240857116359379907606001950938285454250989", 10)

// shifted adds the order of the curve to the second half of a signature: the equation
// still holds, and a reader that checks nothing else has two signatures of one text.
func shifted(jws string) string {
	head, text, _ := strings.Cut(jws, "..")
	sig, _ := base64url.DecodeString(text)
	half := slices.Clone(sig[32:])
	slices.Reverse(half)
	out := new(big.Int).Add(new(big.Int).SetBytes(half), curveOrder).FillBytes(make([]byte, 32))
	slices.Reverse(out)
	return head + ".." + base64url.EncodeToString(append(sig[:32:32], out...))
}

// forged is a signature by nobody: the key and the first half are the point of y, the
// second half is nought. For the neutral point, y of 1, it holds for every text.
func forged(y byte) string {
	point := make([]byte, 32)
	point[0] = y
	return forgedOf(point, point)
}

// forgedWritten is the same with the prime added to y.
func forgedWritten() string {
	point := new(big.Int).Add(curvePrime, big.NewInt(1)).FillBytes(make([]byte, 32))
	slices.Reverse(point)
	neutral := make([]byte, 32)
	neutral[0] = 1
	return forgedOf(point, neutral)
}

func forgedOf(key, first []byte) string {
	head := fmt.Sprintf(`{"alg":"EdDSA","jwk":{"crv":"Ed25519","kty":"OKP","x":%q}}`, base64url.EncodeToString(key))
	return base64url.EncodeToString([]byte(head)) + ".." + base64url.EncodeToString(append(slices.Clone(first), make([]byte, 32)...))
}

// The points of small order are of small order, worked out on the curve, and no
// others of the first thousand keys are called weak; the library that verifies would
// take a forged signature of the neutral one. Source: RFC 8032, section 5.1.4.
func TestWeakKeys(t *testing.T) {
	neutral := make([]byte, 32)
	neutral[0] = 1
	if !ed25519.Verify(neutral, []byte("anything"), append(slices.Clone(neutral), make([]byte, 32)...)) {
		t.Error("the forgery does not hold: this guards against nothing")
	}
	p := curvePrime
	mod := func(x *big.Int) *big.Int { return x.Mod(x, p) }
	inverse := func(x *big.Int) *big.Int { return new(big.Int).ModInverse(x, p) }
	d := mod(new(big.Int).Mul(big.NewInt(-121665), inverse(big.NewInt(121666))))
	for name, y := range map[string]*big.Int{"1": big.NewInt(1), "2": new(big.Int).Sub(p, big.NewInt(1)), "4": big.NewInt(0), "8": yOfOrder8, "8 below": new(big.Int).Sub(p, yOfOrder8)} {
		y2 := mod(new(big.Int).Mul(y, y))
		x2 := mod(new(big.Int).Mul(new(big.Int).Sub(y2, big.NewInt(1)), inverse(mod(new(big.Int).Add(new(big.Int).Mul(d, y2), big.NewInt(1))))))
		x := new(big.Int).ModSqrt(x2, p)
		if x == nil {
			t.Fatalf("%s is no point", name)
		}
		px, py := x, new(big.Int).Set(y)
		for range 3 { // eight times the point
			k := mod(new(big.Int).Mul(mod(new(big.Int).Mul(d, mod(new(big.Int).Mul(px, px)))), mod(new(big.Int).Mul(py, py))))
			top := mod(new(big.Int).Mul(big.NewInt(2), mod(new(big.Int).Mul(px, py))))
			side := mod(new(big.Int).Add(new(big.Int).Mul(py, py), new(big.Int).Mul(px, px)))
			px = mod(top.Mul(top, inverse(mod(new(big.Int).Add(big.NewInt(1), k)))))
			py = mod(side.Mul(side, inverse(mod(new(big.Int).Sub(big.NewInt(1), k)))))
		}
		if px.Sign() != 0 || py.Cmp(big.NewInt(1)) != 0 {
			t.Errorf("the point %s is not of small order", name)
		}
		b := y.FillBytes(make([]byte, 32))
		slices.Reverse(b)
		sign := slices.Clone(b)
		sign[31] |= 0x80
		if !weak(b) || !weak(sign) {
			t.Errorf("the point %s is not called weak", name)
		}
	}
	for i := range 1000 {
		seed := bytes.Repeat([]byte{byte(i), byte(i >> 8)}, ed25519.SeedSize/2)
		if weak(ed25519.NewKeyFromSeed(seed).Public().(ed25519.PublicKey)) {
			t.Errorf("the key of seed %d is called weak", i)
		}
	}
}

// Names in the head of a signature are told apart by case: what another reader passes
// over does not count here either. Source: RFC 7515, section 4.
func TestHeadOfASignatureIsReadToTheLetter(t *testing.T) {
	manifest := []byte(`{}`)
	x := jwkOf(trickKey.Public().(ed25519.PublicKey)).X
	for head, want := range map[string]bool{
		`{"alg":"EdDSA","jwk":{"crv":"Ed25519","kty":"OKP","x":"` + x + `"}}`:              true,
		`{"alg":"EdDSA","jwk":{"crv":"Ed25519","kty":"OKP","x":"` + x + `","X":"AAAA"}}`:   true,
		`{"alg":"EdDSA","JWK":{"crv":"Ed25519","kty":"OKP","x":"` + x + `"}}`:              false,
		`{"alg":"none","Alg":"EdDSA","jwk":{"crv":"Ed25519","kty":"OKP","x":"` + x + `"}}`: false,
		`{"alg":"EdDSA","jwk":{"crv":"Ed25519","kty":"OKP","X":"` + x + `"}}`:              false,
		`{"alg":"EdDSA","crit":null,"jwk":{"crv":"Ed25519","kty":"OKP","x":"` + x + `"}}`:  false,
	} {
		h := base64url.EncodeToString([]byte(head))
		jws := h + ".." + base64url.EncodeToString(ed25519.Sign(trickKey, signingInput(h, manifest)))
		s, known, err := verify(manifest, []byte(jws))
		if s.Signed() != want || known != want && err == nil {
			t.Errorf("%s: signed %v, known %v, %v", head, s.Signed(), known, err)
		}
	}
}
