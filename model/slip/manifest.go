package slip

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"io"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// The formats and their present version.
const (
	FormatProfile = "driploop-profile"
	FormatVisit   = "driploop-visit"
	FormatReply   = "driploop-reply"
	// Version is the version of the formats that this program writes.
	Version = 1
	// maxVersion is the highest version that is believed. // judgement
	maxVersion = 1_000_000
)

// Names of the parts.
const (
	partManifest = "manifest.json"
	partProfile  = "profile.json"
	partVisit    = "visit.json"
	partReply    = "reply.json"
)

// manifest is the list of what a slip holds.
type manifest struct {
	Format  string   `json:"format"`
	Version int      `json:"version"`
	MadeBy  Maker    `json:"made_by"`
	Parts   []listed `json:"parts"`
}

// listed is one part in the manifest.
type listed struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"` // 64 lower-case hexadecimal digits
}

// opened is a slip whose every part is the one that its manifest lists.
type opened struct {
	manifest manifest
	signed   Signature
	bodies   map[string][]byte // the parts that were kept
	shown    map[string]bool   // pictures that the body speaks of
	fetch    fetch
}

// keep says how many bytes a part may have that is to be kept; 0 for one that is not
// known.
type keep func(name string) int64

// only keeps one JSON part.
func only(part string) keep {
	return func(name string) int64 {
		if name == part {
			return MaxJSON
		}
		return 0
	}
}

// open unpacks a slip of the format: the manifest, then every part, each compared
// with its hash. The part with the body must be there; others are kept as asked for,
// and named where not.
func open(u *unpacker, parts []entry, format, part string, keep keep) (opened, error) {
	o := opened{bodies: map[string][]byte{}, fetch: fetch{part: partManifest}}
	byName := make(map[string]entry, len(parts))
	for _, e := range parts {
		byName[e.name] = e
	}
	first, ok := byName[partManifest]
	if !ok {
		return o, refuse(CodeNoManifest, partManifest)
	}
	data, _, err := body(u, first, MaxJSON)
	if err != nil {
		return o, err
	}
	if o.manifest, _, err = o.fetch.manifest(data, format, slipLimits); err != nil {
		return o, err
	}
	delete(byName, partManifest)
	if e, ok := byName[partSignature]; ok {
		jws, _, err := body(u, e, maxSignature)
		if err != nil {
			return o, err
		}
		var known bool
		if o.signed, known, err = verify(data, jws); err != nil {
			return o, err
		}
		if !known {
			o.fetch.leftOut(FoundSignature, partSignature)
		}
		delete(byName, partSignature)
	}
	for _, l := range o.manifest.Parts {
		e, ok := byName[l.Name]
		if !ok {
			return o, refuse(CodeHash, visible(l.Name))
		}
		delete(byName, l.Name)
		var sum [sha256.Size]byte
		if most := keep(l.Name); most > 0 {
			o.bodies[l.Name], sum, err = body(u, e, most)
		} else {
			o.fetch.leftOut(FoundPart, l.Name)
			sum, err = u.part(e, nil)
		}
		if err != nil {
			return o, err
		}
		if hex.EncodeToString(sum[:]) != l.SHA256 {
			return o, refuse(CodeHash, l.Name)
		}
	}
	for _, e := range parts { // in order, so that the same file gives the same refusal
		if _, left := byName[e.name]; left {
			return o, refuse(CodeHash, e.name)
		}
	}
	if _, ok := o.bodies[part]; !ok {
		return o, refuse(CodeHash, part)
	}
	return o, nil
}

// findings are what the reading left out; a slip of a later version says so first.
func (o *opened) findings() []working.Finding {
	found := o.fetch.found
	if v := o.manifest.Version; v > Version {
		newer := working.Find(working.Wait, FoundNewer).With("Version", quantity.Count(v).Value())
		found = append([]working.Finding{newer}, found...)
	}
	if o.fetch.more > 0 {
		found = append(found, working.Find(working.Wait, FoundMore).With("Left", quantity.Count(o.fetch.more).Value()))
	}
	return found
}

// body unpacks a part into memory.
func body(u *unpacker, e entry, most int64) ([]byte, [sha256.Size]byte, error) {
	if e.unpacked > most {
		code := CodeJSONSize
		if isPicture(e.name) {
			code = CodePicture
		}
		return nil, [sha256.Size]byte{}, above(code, e.name, float64(most)/1e6)
	}
	b := bytes.NewBuffer(make([]byte, 0, e.unpacked))
	sum, err := u.part(e, b)
	return b.Bytes(), sum, err
}

// manifest reads a manifest of the format, and gives its members beside it; others
// are those that the caller reads.
func (f *fetch) manifest(data []byte, format string, lim limits, others ...string) (manifest, map[string]tree, error) {
	var m manifest
	t, err := parse(f.part, data, lim)
	if err != nil {
		return m, nil, err
	}
	of, err := f.object(t, "", append(others, "format", "version", "made_by", "parts")...)
	if err == nil {
		err = f.known(&m, of, format)
	}
	return m, of, err
}

// known reads the members that every manifest has.
func (f *fetch) known(m *manifest, of map[string]tree, format string) error {
	if t := of["format"]; t.kind != isString || t.text != format {
		return &Error{Code: CodeOther, Part: f.part, Place: "format"}
	}
	m.Format = format
	v, err := f.whole(of, "", "version", 1, maxVersion)
	if err != nil {
		return err
	}
	m.Version = int(v)
	by, err := f.object(of["made_by"], "made_by", "program", "version")
	if err != nil {
		return err
	}
	if m.MadeBy.Program, err = f.text(by, "made_by", "program", MaxProgram, false); err != nil {
		return err
	}
	if m.MadeBy.Version, err = f.text(by, "made_by", "version", MaxProgram, false); err != nil {
		return err
	}
	if of["parts"].kind != isList {
		return f.shape("parts")
	}
	for _, t := range of["parts"].items {
		l, err := f.listed(t)
		if err != nil {
			return err
		}
		m.Parts = append(m.Parts, l)
	}
	return nil
}

// listed reads one line of the manifest. A part listed twice is found to be
// missing the second time.
func (f *fetch) listed(t tree) (listed, error) {
	of, err := f.object(t, "parts", "name", "sha256")
	if err != nil {
		return listed{}, err
	}
	name, sum := of["name"], of["sha256"]
	if name.kind != isString || sum.kind != isString {
		return listed{}, f.shape("parts")
	}
	return listed{name.text, sum.text}, nil
}

// FormatOf tells which slip a file of size bytes is, by its manifest alone: one of
// FormatProfile, FormatVisit and FormatReply. Errors: *Error, CodeOther for another
// file.
func FormatOf(r io.ReaderAt, size int64) (string, error) {
	parts, err := directory(r, size, visitLimits)
	if err != nil {
		return "", err
	}
	for _, e := range parts {
		if e.name != partManifest {
			continue
		}
		data, _, err := body(newUnpacker(r, visitLimits), e, MaxJSON)
		if err != nil {
			return "", err
		}
		t, err := parse(partManifest, data, slipLimits)
		if err != nil {
			return "", err
		}
		for _, m := range t.members {
			if m.name == "format" && m.value.kind == isString && (m.value.text == FormatProfile || m.value.text == FormatVisit || m.value.text == FormatReply) {
				return m.value.text, nil
			}
		}
		return "", &Error{Code: CodeOther, Part: partManifest, Place: "format"}
	}
	return "", refuse(CodeNoManifest, partManifest)
}
