package slip

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Archive is an archive that was opened: every row of it is in memory, no picture
// is.
type Archive struct {
	ArchiveHead
	// ID tells this archive from any other: the SHA-256 of its manifest.
	ID     string
	Tables map[string][]Row
	// Unknown are tables of a later minor version by name, each row as JSON.
	Unknown   map[string][]string
	Originals []Original
	Bytes     int64 // of all originals

	u    *unpacker
	rows int
	fetch
}

// ReadArchive opens an archive of size bytes: every part but the pictures is
// unpacked and compared with its hash, every row with its description. Pictures
// are compared when Original copies them. The findings name what was left out;
// rows and fields that a later minor version added are kept instead. Errors:
// *Error.
func ReadArchive(r io.ReaderAt, size int64) (*Archive, []working.Finding, error) {
	a, err := readArchive(r, size)
	if err != nil {
		return nil, nil, InArchive(err)
	}
	found := a.found
	if a.more > 0 {
		found = append(found, working.Find(working.Wait, FoundMore).With("Left", quantity.Count(a.more).Value()))
	}
	return a, found, nil
}

func readArchive(r io.ReaderAt, size int64) (*Archive, error) {
	parts, err := directory(r, size, archiveLimits)
	if err != nil {
		return nil, err
	}
	a := &Archive{Tables: map[string][]Row{}, Unknown: map[string][]string{}, u: newUnpacker(r, archiveLimits), fetch: fetch{part: partManifest}}
	byName := make(map[string]entry, len(parts))
	for _, e := range parts {
		byName[e.name] = e
	}
	first, ok := byName[partManifest]
	if !ok {
		return nil, refuse(CodeNoManifest, partManifest)
	}
	data, sum, err := body(a.u, first, archiveLimits.json)
	if err != nil {
		return nil, err
	}
	a.ID = hex.EncodeToString(sum[:])
	list, err := a.manifest(data)
	if err != nil {
		return nil, err
	}
	delete(byName, partManifest)
	for _, l := range list {
		e, ok := byName[l.Name]
		if !ok {
			return nil, refuse(CodeHash, visible(l.Name))
		}
		delete(byName, l.Name)
		if err := a.take(e, l.SHA256); err != nil {
			return nil, err
		}
	}
	for _, e := range parts {
		if _, left := byName[e.name]; left {
			return nil, refuse(CodeHash, e.name)
		}
	}
	for _, t := range archiveTables {
		if _, ok := a.Tables[t.Name]; !ok {
			return nil, refuse(CodeHash, FolderTables+t.Name+tableEnding)
		}
	}
	return a, nil
}

// manifest reads what the archive says of itself and lists.
func (a *Archive) manifest(data []byte) ([]listed, error) {
	m, of, err := a.fetch.manifest(data, FormatArchive, archiveLimits, "minor", "language", "places")
	if err != nil {
		return nil, err
	}
	if m.Version > ArchiveVersion {
		return nil, refuse(CodeArchiveLater, partManifest)
	}
	a.ArchiveHead = ArchiveHead{Version: m.Version, MadeBy: m.MadeBy}
	if _, there := of["minor"]; there {
		minor, err := a.fetch.whole(of, "", "minor", 0, maxVersion)
		if err != nil {
			return nil, err
		}
		a.Minor = int(minor)
	}
	if a.Language, err = a.fetch.text(of, "", "language", MaxName, false); err != nil {
		return nil, err
	}
	if a.Language != "" && !languageForm.MatchString(a.Language) {
		return nil, &Error{Code: CodeLanguage, Part: partManifest, Place: "language"}
	}
	if places, there := of["places"]; there && places.kind != isBool {
		return nil, a.fetch.shape("places")
	}
	a.Places = of["places"].yes
	return m.Parts, nil
}

// take reads one part that the manifest lists.
func (a *Archive) take(e entry, want string) error {
	if name, ok := strings.CutPrefix(e.name, FolderPhotos); ok {
		hash, _, _ := strings.Cut(name, ".")
		if !hashForm.MatchString(hash) || e.unpacked > MaxOriginal {
			return refuse(CodeShape, e.name)
		}
		a.Originals = append(a.Originals, Original{Hash: hash, Bytes: e.unpacked, part: e, sum: want})
		a.Bytes += e.unpacked
		return nil
	}
	name, ok := strings.CutPrefix(e.name, FolderTables)
	if !ok {
		sum, err := a.u.part(e, nil)
		if err == nil && hex.EncodeToString(sum[:]) != want {
			err = refuse(CodeHash, e.name)
		}
		if e.name != PartIndex && !strings.HasPrefix(e.name, FolderCSV) {
			a.leftOut(FoundPart, e.name)
		}
		return err
	}
	data, sum, err := body(a.u, e, MaxTable)
	if err != nil {
		return err
	}
	if hex.EncodeToString(sum[:]) != want {
		return refuse(CodeHash, e.name)
	}
	return a.table(e.name, strings.TrimSuffix(name, tableEnding), data)
}

// table reads the rows of a table.
func (a *Archive) table(part, name string, data []byte) error {
	if !utf8.Valid(data) {
		return refuse(CodeJSON, part)
	}
	a.part = part
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	bad := func(err error) error { return &Error{Code: CodeJSON, Part: part, Err: err} }
	if t, err := d.Token(); err != nil || t != json.Delim('[') {
		return bad(err)
	}
	known, ok := tableNamed(name)
	if !ok {
		a.leftOut(FoundPart, part)
	}
	rows := []Row{}
	for d.More() {
		if a.rows++; a.rows > MaxRows {
			return above(CodeArchiveRows, part, MaxRows)
		}
		if !ok {
			var raw json.RawMessage
			if err := d.Decode(&raw); err != nil {
				return bad(err)
			}
			if s, fits := compact(raw); fits && a.Minor > ArchiveMinor && wordForm.MatchString(name) {
				a.Unknown[name] = append(a.Unknown[name], s)
			}
			continue
		}
		r, err := a.row(d, known)
		if err != nil {
			return err
		}
		rows = append(rows, r)
	}
	if _, err := d.Token(); err != nil {
		return bad(err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return bad(err)
	}
	if ok {
		a.Tables[name] = rows
	}
	return nil
}

func tableNamed(name string) (Table, bool) {
	for _, t := range archiveTables {
		if t.Name == name {
			return t, true
		}
	}
	return Table{}, false
}

// row reads one row and holds it to its table.
func (a *Archive) row(d *json.Decoder, t Table) (Row, error) {
	r := Row{Values: make(map[string]any, len(t.Columns))}
	wrong := func(column string) error { return &Error{Code: CodeArchiveRow, Part: a.part, Place: column} }
	if tok, err := d.Token(); err != nil || tok != json.Delim('{') {
		return r, &Error{Code: CodeJSON, Part: a.part, Err: err}
	}
	for d.More() {
		tok, err := d.Token()
		if err != nil {
			return r, &Error{Code: CodeJSON, Part: a.part, Err: err}
		}
		name, _ := tok.(string)
		var raw json.RawMessage
		if err := d.Decode(&raw); err != nil {
			return r, &Error{Code: CodeJSON, Part: a.part, Err: err}
		}
		_, twice := r.Values[name]
		if _, more := r.More[name]; twice || more {
			return r, &Error{Code: CodeTwice, Part: a.part, Place: visible(name)}
		}
		c, ok := t.column(name)
		if !ok {
			if err := a.keep(&r, name, raw); err != nil {
				return r, err
			}
			continue
		}
		v, fits := c.value(raw)
		if !fits {
			return r, wrong(c.Name)
		}
		if v != nil {
			r.Values[c.Name] = v
		}
	}
	if _, err := d.Token(); err != nil {
		return r, &Error{Code: CodeJSON, Part: a.part, Err: err}
	}
	for _, c := range t.Columns {
		if _, there := r.Values[c.Name]; c.Required && !there {
			return r, wrong(c.Name)
		}
	}
	return r, nil
}

// keep puts by a member that a later minor version added, and leaves out one that
// no version knows.
func (a *Archive) keep(r *Row, name string, raw json.RawMessage) error {
	s, fits := compact(raw)
	if a.Minor <= ArchiveMinor || name == "" || len(name) > MaxName {
		a.leftOut(FoundMember, name)
		return nil
	}
	if !fits {
		return &Error{Code: CodeArchiveRow, Part: a.part, Place: visible(name)}
	}
	if r.More == nil {
		r.More = map[string]string{}
	}
	r.More[name] = s
	return nil
}

// compact writes JSON without spaces; it reports false for more than a row holds.
func compact(raw json.RawMessage) (string, bool) {
	var b bytes.Buffer
	if len(raw) > MaxCell || json.Compact(&b, raw) != nil {
		return "", false
	}
	return b.String(), true
}

func (t Table) column(name string) (Column, bool) {
	for _, c := range t.Columns {
		if c.Name == name {
			return c, true
		}
	}
	return Column{}, false
}

// value reads a value of the column: nil for null, where it may be.
func (c Column) value(raw json.RawMessage) (any, bool) {
	if string(raw) == "null" {
		return nil, !c.Required
	}
	if c.Whole {
		n, err := strconv.ParseInt(string(raw), 10, 64)
		return n, err == nil
	}
	var s string
	if raw[0] != '"' || json.Unmarshal(raw, &s) != nil {
		return nil, false
	}
	return s, c.takes(s)
}

// Original copies a picture to w. Errors: *Error, CodeArchiveLost when the picture is not
// the one its name says; those of w.
func (a *Archive) Original(o Original, w io.Writer) error {
	sum, err := a.u.part(o.part, w)
	if err != nil {
		return InArchive(err)
	}
	if got := hex.EncodeToString(sum[:]); got != o.Hash || got != o.sum {
		return refuse(CodeArchiveLost, o.part.name)
	}
	return nil
}
