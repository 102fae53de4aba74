package slip

import (
	"archive/zip"
	"bytes"
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
)

// body of a profile, as written.
type written struct {
	Units   quantity.System   `json:"units"`
	Region  string            `json:"region,omitempty"`
	Tank    string            `json:"tank,omitempty"`
	Shop    *Shop             `json:"shop,omitempty"`
	Answers []any             `json:"answers"`
	Notes   map[string]string `json:"notes,omitempty"`
	Edition int               `json:"edition,omitempty"`
	Plan    []Round           `json:"plan,omitempty"`
	Feeding *writtenFeeding   `json:"feeding,omitempty"`
	Marks   []care.Step       `json:"marks,omitempty"`
}

type writtenAnswer struct {
	Field care.FieldID      `json:"field"`
	Kind  string            `json:"kind"`
	Value string            `json:"value"`
	Unit  quantity.UnitCode `json:"unit,omitempty"`
	Basis quantity.Basis    `json:"basis,omitempty"`
}

// WriteProfile writes p so that the same profile gives the same bytes: answers
// sorted by field, notes by language, parts stored, no time of day. It is signed
// with the key, unless that is nil; whose signature p bore does not matter. Errors:
// *Error when p holds what a profile cannot; those of w.
func WriteProfile(w io.Writer, p Profile, key ed25519.PrivateKey) error {
	profile, err := p.body()
	if err != nil {
		return err
	}
	return pack(w, manifest{Format: FormatProfile, Version: Version, MadeBy: p.MadeBy}, []part{{partProfile, profile}}, key)
}

// Print tells profiles apart by what they say, whoever made or signed them and
// whichever edition they are: the SHA-256 of their JSON in lower-case hexadecimal
// digits. Errors: as WriteProfile's.
func (p Profile) Print() (string, error) {
	p.Edition = 0
	b, err := p.body()
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:]), err
}

// body writes profile.json.
func (p Profile) body() ([]byte, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	out := written{Units: p.Units, Region: p.Region, Tank: p.Tank, Answers: []any{}, Notes: p.Notes,
		Edition: p.Edition, Plan: p.Plan, Feeding: p.Feeding.written(), Marks: p.Marks}
	if p.Shop != (Shop{}) {
		out.Shop = &p.Shop
	}
	for _, a := range writtenAnswers(p.Answers) {
		out.Answers = append(out.Answers, a)
	}
	later := p.Later.unknown()
	for _, raw := range later.Answers {
		out.Answers = append(out.Answers, json.RawMessage(raw))
	}
	b, err := withMore(out, later.Members)
	if err == nil && len(b) > MaxJSON { // notes in very many languages
		return nil, above(CodeJSONSize, partProfile, MaxJSON/1e6)
	}
	return b, err
}

func writtenAnswers(as map[care.FieldID]care.Answer) []writtenAnswer {
	var out []writtenAnswer
	for _, id := range sorted(as) {
		a := as[id]
		line := writtenAnswer{Field: id}
		switch {
		case !a.Measure.IsZero():
			line.Kind, line.Value, line.Unit, line.Basis = kindMeasure, a.Measure.Number, a.Measure.Unit, a.Measure.Basis
		case a.Choice != "":
			line.Kind, line.Value = kindChoice, a.Choice
		default:
			line.Kind, line.Value = kindWords, a.Words
		}
		out = append(out, line)
	}
	return out
}

func encode(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(v)
	return b.Bytes(), err
}

// part is one part to be written.
type part struct {
	name string
	data []byte
}

// noTime stands for the time of every part: the earliest that a ZIP can say.
// Source: APPNOTE 4.4.6, MS-DOS date and time.
var noTime = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

// pack writes manifest and parts. Parts are stored as they are: what a packer
// makes of the same bytes can differ from one version of it to the next.
func pack(w io.Writer, m manifest, parts []part, key ed25519.PrivateKey) error {
	for _, p := range parts {
		sum := sha256.Sum256(p.data)
		m.Parts = append(m.Parts, listed{p.name, hex.EncodeToString(sum[:])})
	}
	list, err := encode(m)
	if err != nil {
		return err
	}
	all := append([]part{{partManifest, list}}, parts...)
	if key != nil {
		jws, err := sign(list, key)
		if err != nil {
			return err
		}
		all = append(all, part{partSignature, jws})
	}
	z := zip.NewWriter(w)
	for _, p := range all {
		f, err := z.CreateHeader(&zip.FileHeader{Name: p.name, Method: zip.Store, Modified: noTime})
		if err != nil {
			return err
		}
		if _, err := f.Write(p.data); err != nil {
			return err
		}
	}
	return z.Close()
}
