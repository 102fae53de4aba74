package slip

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io"
	"strconv"
)

// archiveManifest is the manifest of an archive as written.
type archiveManifest struct {
	Format   string   `json:"format"`
	Version  int      `json:"version"`
	Minor    int      `json:"minor"`
	MadeBy   Maker    `json:"made_by"`
	Language string   `json:"language"`
	Places   bool     `json:"places"`
	Parts    []listed `json:"parts"`
}

// ArchiveWriter writes an archive part by part, so that pictures never lie in
// memory together. The same parts in the same order give the same bytes: there is
// no time of day in it, and nothing is packed.
type ArchiveWriter struct {
	z     *zip.Writer
	parts []listed
	rows  int
}

// NewArchiveWriter begins an archive.
func NewArchiveWriter(w io.Writer) *ArchiveWriter { return &ArchiveWriter{z: zip.NewWriter(w)} }

// PhotoName is the name of the part of a picture.
func PhotoName(hash, format string) string {
	if !wordForm.MatchString(format) {
		format = "bin"
	}
	return FolderPhotos + hash + "." + format
}

// Add writes a part and returns the SHA-256 of what was written. Errors: those of
// r and of the file.
func (a *ArchiveWriter) Add(name string, r io.Reader) (string, error) {
	if len(a.parts)+2 > MaxArchiveParts {
		return "", above(CodeParts, name, MaxArchiveParts)
	}
	f, err := a.z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Store, Modified: noTime})
	if err != nil {
		return "", err
	}
	sum := sha256.New()
	if _, err := io.Copy(io.MultiWriter(f, sum), r); err != nil {
		return "", err
	}
	hash := hex.EncodeToString(sum.Sum(nil))
	a.parts = append(a.parts, listed{name, hash})
	return hash, nil
}

// AddTable writes the rows of a table, one a line. Errors: *Error when there are
// more than an archive holds; those of the file.
func (a *ArchiveWriter) AddTable(t Table, rows []Row) error {
	var b bytes.Buffer
	b.WriteString("[")
	for i, r := range rows {
		if i > 0 {
			b.WriteString(",")
		}
		b.WriteString("\n")
		if err := t.write(&b, r); err != nil {
			return err
		}
	}
	b.WriteString("\n]\n")
	return a.table(t.Name, len(rows), b.Bytes())
}

// AddUnknown writes a table that a later version brought, as it came.
func (a *ArchiveWriter) AddUnknown(name string, rows []string) error {
	var b bytes.Buffer
	b.WriteString("[")
	for i, r := range rows {
		if i > 0 {
			b.WriteString(",")
		}
		b.WriteString("\n" + r)
	}
	b.WriteString("\n]\n")
	return a.table(name, len(rows), b.Bytes())
}

func (a *ArchiveWriter) table(name string, rows int, data []byte) error {
	part := FolderTables + name + tableEnding
	if a.rows += rows; a.rows > MaxRows {
		return above(CodeArchiveRows, part, MaxRows)
	}
	if len(data) > MaxTable {
		return above(CodeJSONSize, part, MaxTable/1e6)
	}
	_, err := a.Add(part, bytes.NewReader(data))
	return err
}

// write writes one row: its columns in order, those that are NULL left out, and
// then what a later version has added.
func (t Table) write(b *bytes.Buffer, r Row) error {
	sep := "{"
	member := func(name string) {
		b.WriteString(sep)
		b.WriteString(strconv.Quote(name))
		b.WriteString(":")
		sep = ","
	}
	for _, c := range t.Columns {
		switch v := r.Values[c.Name].(type) {
		case string:
			member(c.Name)
			if err := quote(b, v); err != nil {
				return err
			}
		case int64:
			member(c.Name)
			b.WriteString(strconv.FormatInt(v, 10))
		}
	}
	for _, name := range sorted(r.More) {
		b.WriteString(sep)
		sep = ","
		if err := quote(b, name); err != nil {
			return err
		}
		b.WriteString(":" + r.More[name])
	}
	if sep == "{" {
		b.WriteString(sep)
	}
	b.WriteString("}")
	return nil
}

// quote writes a JSON string that keeps < > & as they are.
func quote(b *bytes.Buffer, s string) error {
	e := json.NewEncoder(b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		return err
	}
	b.Truncate(b.Len() - 1) // the encoder ends a line
	return nil
}

// Close writes the manifest and the end of the archive.
func (a *ArchiveWriter) Close(h ArchiveHead) error {
	list, err := encode(archiveManifest{FormatArchive, ArchiveVersion, max(h.Minor, ArchiveMinor), h.MadeBy, h.Language, h.Places, a.parts})
	if err != nil {
		return err
	}
	f, err := a.z.CreateHeader(&zip.FileHeader{Name: partManifest, Method: zip.Store, Modified: noTime})
	if err != nil {
		return err
	}
	if _, err := f.Write(list); err != nil {
		return err
	}
	return a.z.Close()
}

// Encode writes one row as JSON.
func (t Table) Encode(r Row) ([]byte, error) {
	var b bytes.Buffer
	err := t.write(&b, r)
	return b.Bytes(), err
}
