package slip

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
)

// The formats and their present version.
const (
	FormatProfile = "driploop-profile"
	// Version is the version of the format that this program writes.
	Version = 1
	// maxVersion is the highest version that is believed. // judgement
	maxVersion = 1_000_000
)

// Names of the parts.
const (
	partManifest = "manifest.json"
	partProfile  = "profile.json"
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
	bodies   map[string][]byte // the JSON parts asked for
	fetch    fetch
}

// open unpacks a slip of the format: the manifest, then every part, each compared
// with its hash. Of the parts only the bodies are kept; others are named.
func open(u *unpacker, parts []entry, format string, bodies ...string) (opened, error) {
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
	if o.manifest, err = o.fetch.manifest(data, format, slipLimits); err != nil {
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
		if known(bodies, l.Name) {
			o.bodies[l.Name], sum, err = body(u, e, MaxJSON)
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
	for _, name := range bodies {
		if _, ok := o.bodies[name]; !ok {
			return o, refuse(CodeHash, name)
		}
	}
	return o, nil
}

func known(names []string, name string) bool {
	for _, n := range names {
		if n == name {
			return true
		}
	}
	return false
}

// body unpacks a JSON part into memory.
func body(u *unpacker, e entry, most int64) ([]byte, [sha256.Size]byte, error) {
	if e.unpacked > most {
		return nil, [sha256.Size]byte{}, above(CodeJSONSize, e.name, float64(most)/1e6)
	}
	b := bytes.NewBuffer(make([]byte, 0, e.unpacked))
	sum, err := u.part(e, b)
	return b.Bytes(), sum, err
}

// manifest reads a manifest of the format; others are members of it that the
// caller reads.
func (f *fetch) manifest(data []byte, format string, lim limits, others ...string) (manifest, error) {
	var m manifest
	t, err := parse(f.part, data, lim)
	if err != nil {
		return m, err
	}
	of, err := f.object(t, "", append(others, "format", "version", "made_by", "parts")...)
	if err != nil {
		return m, err
	}
	if t := of["format"]; t.kind != isString || t.text != format {
		return m, &Error{Code: CodeOther, Part: f.part, Place: "format"}
	}
	m.Format = format
	v, err := f.whole(of, "", "version", 1, maxVersion)
	if err != nil {
		return m, err
	}
	m.Version = int(v)
	by, err := f.object(of["made_by"], "made_by", "program", "version")
	if err != nil {
		return m, err
	}
	if m.MadeBy.Program, err = f.text(by, "made_by", "program", MaxProgram, false); err != nil {
		return m, err
	}
	if m.MadeBy.Version, err = f.text(by, "made_by", "version", MaxProgram, false); err != nil {
		return m, err
	}
	if of["parts"].kind != isList {
		return m, f.shape("parts")
	}
	for _, t := range of["parts"].items {
		l, err := f.listed(t)
		if err != nil {
			return m, err
		}
		m.Parts = append(m.Parts, l)
	}
	return m, nil
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
