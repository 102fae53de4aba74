package slip

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"runtime"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
	"github.com/santhosh-tekuri/jsonschema/v6"
)

// emptyTables are the parts of an archive without a row.
func emptyTables() []piece {
	var ps []piece
	for _, t := range archiveTables {
		ps = append(ps, file(FolderTables+t.Name+tableEnding, "[]"))
	}
	return ps
}

// archived wraps parts into an archive whose manifest lists them truly.
func archived(change func(*archiveManifest), ps ...piece) archive {
	m := archiveManifest{Format: FormatArchive, Version: ArchiveVersion, MadeBy: Maker{"Driploop", "devel"}, Language: "en", Places: true, Parts: []listed{}}
	for _, p := range ps {
		sum := sha256.Sum256(p.data)
		m.Parts = append(m.Parts, listed{p.name, hex.EncodeToString(sum[:])})
	}
	if change != nil {
		change(&m)
	}
	list, err := json.Marshal(m)
	if err != nil {
		panic(err)
	}
	return archive{pieces: append(append([]piece{}, ps...), file(partManifest, string(list)))}
}

// withTable is an archive whose table of that name holds rows as given.
func withTable(name, rows string) []byte {
	ps := emptyTables()
	for i := range ps {
		if ps[i].name == FolderTables+name+tableEnding {
			ps[i].data = []byte(rows)
		}
	}
	return archived(nil, ps...).bytes()
}

const goodTank = `{"id":"t1","name":"Hall","origin":"own","created":"2026-01-01T00:00:00Z"}`

func entryWith(member, value string) []byte {
	row := map[string]string{"id": `"e1"`, "tank": `"t1"`, "kind": `"note"`, "at": `"2026-01-01T08:10"`, "zone": `"+01:00"`}
	row[member] = value
	var ms []string
	for k, v := range row {
		ms = append(ms, `"`+k+`":`+v)
	}
	return withTable("entry", "[{"+strings.Join(ms, ",")+"}]")
}

// hostileArchives are archives made to harm, mislead or break whoever takes them.
func hostileArchives() []hostile {
	picture := []byte("\xff\xd8\xff\xe0 a picture")
	sum := sha256.Sum256(picture)
	hash := hex.EncodeToString(sum[:])
	entry := func(member, value string) func() []byte { return func() []byte { return entryWith(member, value) } }
	tank := func(rows string) func() []byte { return func() []byte { return withTable("tank", rows) } }
	extra := func(p piece) func() []byte {
		return func() []byte { return archived(nil, append(emptyTables(), p)...).bytes() }
	}
	said := func(change func(*archiveManifest)) func() []byte {
		return func() []byte { return archived(change, emptyTables()...).bytes() }
	}
	return []hostile{
		{"a profile", func() []byte { return with().bytes() }, CodeArchiveOther},
		{"later version", said(func(m *archiveManifest) { m.Version = ArchiveVersion + 1 }), CodeArchiveLater},
		{"version 0", said(func(m *archiveManifest) { m.Version = 0 }), CodeArchiveDamaged},
		{"minor -1", said(func(m *archiveManifest) { m.Minor = -1 }), CodeArchiveDamaged},
		{"no language", said(func(m *archiveManifest) { m.Language = "<script>" }), CodeArchiveDamaged},
		{"a table missing", func() []byte { return archived(nil, emptyTables()[1:]...).bytes() }, CodeArchiveHash},
		{"a part not listed", func() []byte {
			a := archived(nil, emptyTables()...)
			a.pieces = append(a.pieces, file("x", "x"))
			return a.bytes()
		}, CodeArchiveHash},
		{"a table changed", func() []byte {
			return bytes.Replace(archived(nil, emptyTables()...).bytes(), []byte("[]"), []byte("{}"), 1)
		}, CodeArchiveDamaged},
		{"picture with another name", extra(piece{name: FolderPhotos + "../" + hash + ".jpg", data: picture}), CodeArchiveForm},
		{"picture without a hash", extra(piece{name: FolderPhotos + "cat.jpg", data: picture}), CodeArchiveDamaged},
		{"picture that is a link", extra(piece{name: FolderPhotos + hash + ".jpg", data: picture, system: 3, attr: 0o120777 << 16}), CodeArchiveForm},
		{"picture of 1 GB", extra(piece{name: FolderPhotos + hash + ".jpg", method: deflated, raw: zeros(1000), crc: u32(0), unpacked: u32(1_000_000_000)}), CodeArchiveForm},
		{"page that is an archive", extra(piece{name: PartIndex, data: with().bytes()}), CodeArchiveForm},
		{"absolute name", extra(file("/etc/x", "x")), CodeArchiveForm},
		{"encrypted", extra(piece{name: "x", data: []byte("x"), flags: flagEncrypted}), CodeArchiveLocked},
		{"table that is no list", tank(`{"id":"t1"}`), CodeArchiveDamaged},
		{"row that is no object", tank(`[1]`), CodeArchiveDamaged},
		{"list cut short", tank(`[` + goodTank), CodeArchiveDamaged},
		{"something behind the list", tank(`[] []`), CodeArchiveDamaged},
		{"not UTF-8", tank("[{\"id\":\"t\xff\"}]"), CodeArchiveDamaged},
		{"member twice", tank(`[{"id":"t1","id":"t2","name":"x","origin":"own","created":"x"}]`), CodeArchiveDamaged},
		{"member missing", tank(`[{"id":"t1"}]`), CodeArchiveRow},
		{"null where it may not be", tank(strings.Replace("["+goodTank+"]", `"Hall"`, "null", 1)), CodeArchiveRow},
		{"number for a text", tank(strings.Replace("["+goodTank+"]", `"Hall"`, "7", 1)), CodeArchiveRow},
		{"key that is a path", tank(strings.Replace("["+goodTank+"]", "t1", "../t1", 1)), CodeArchiveRow},
		{"key of nothing", tank(strings.Replace("["+goodTank+"]", "t1", "", 1)), CodeArchiveRow},
		{"name of 2 MB", tank(strings.Replace("["+goodTank+"]", "Hall", strings.Repeat("x", 2<<20), 1)), CodeArchiveRow},
		{"zero byte in a name", tank(strings.Replace("["+goodTank+"]", "Hall", `\u0000`, 1)), CodeArchiveRow},
		{"10,000 deep", tank(`[{"x":` + strings.Repeat("[", 20_000) + strings.Repeat("]", 20_000) + `}]`), CodeArchiveDamaged},
		{"date of no calendar", entry("at", `"2026-02-30T08:10"`), CodeArchiveRow},
		{"year 0000", entry("at", `"0000-01-01T08:10"`), CodeArchiveRow},
		{"year 9999", entry("at", `"9999-01-01T08:10"`), CodeArchiveRow},
		{"kind that is HTML", entry("kind", `"<b>"`), CodeArchiveRow},
		{"hash that is a path", func() []byte {
			return withTable("photo", `[{"id":"p","tank":"t1","hash":"../../x","format":"jpeg","bytes":1,"width":1,"height":1,"orientation":1,"turned":0,"taken_from":"","name":"","added":""}]`)
		}, CodeArchiveRow},
		{"format that is a path", func() []byte {
			return withTable("photo", `[{"id":"p","tank":"t1","hash":"`+hash+`","format":"../x","bytes":1,"width":1,"height":1,"orientation":1,"turned":0,"taken_from":"","name":"","added":""}]`)
		}, CodeArchiveRow},
		{"number that is a fraction", func() []byte {
			return withTable("entry_past", `[{"entry":"e","n":1.5,"at":"x","was":"{}"}]`)
		}, CodeArchiveRow},
		{"number beyond all", func() []byte {
			return withTable("entry_past", `[{"entry":"e","n":1e308,"at":"x","was":"{}"}]`)
		}, CodeArchiveRow},
		{"history that is no JSON", func() []byte {
			return withTable("entry_past", `[{"entry":"e","n":1,"at":"x","was":"{"}]`)
		}, CodeArchiveRow},
		{"more rows than an archive holds", tank("[" + strings.Repeat("{},", MaxRows) + "{}]"), CodeArchiveRow},
	}
}

// Every hostile archive is refused with its reason, and costs little.
func TestHostileArchivesAreRefused(t *testing.T) {
	const most = 64 << 20
	hs := hostileArchives()
	whole := archived(nil, emptyTables()...).bytes()
	for i := 1; i < 64; i++ {
		cut := whole[:len(whole)*i/64]
		hs = append(hs, hostile{fmt.Sprintf("cut at %d/64", i), func() []byte { return cut }, CodeArchiveOther})
	}
	for _, h := range hs {
		b := h.make()
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		a, _, err := ReadArchive(bytes.NewReader(b), int64(len(b)))
		runtime.ReadMemStats(&after)
		if got := codeOf(t, err); got != h.want {
			t.Errorf("%s: got %q (%v), want %q", h.name, got, err, h.want)
		}
		if err != nil && a != nil {
			t.Errorf("%s: refused, and yet something was read", h.name)
		}
		if n := after.TotalAlloc - before.TotalAlloc; n > most {
			t.Errorf("%s: %d bytes were allocated, want at most %d", h.name, n, most)
		}
	}
	drill.Tally(t, "D2-20", "hostile archives", len(hs), 0)
	if len(hs) < 100 {
		t.Errorf("only %d kinds", len(hs))
	}
	if a, found, err := ReadArchive(bytes.NewReader(whole), int64(len(whole))); err != nil || len(found) != 0 || a.Language != "en" {
		t.Fatalf("the good one: %v, %v", found, err)
	}
}

// The schemas say what the reader takes: the same tables, columns and types.
func TestArchiveSchemasAgreeWithTheReader(t *testing.T) {
	compile := func(name string) *jsonschema.Schema {
		c := jsonschema.NewCompiler()
		s, err := c.Compile("../../assets/schema/" + name)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	raw, err := os.ReadFile("../../assets/schema/archive.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	var s struct {
		Defs map[string]struct {
			Required   []string                   `json:"required"`
			Properties map[string]json.RawMessage `json:"properties"`
		} `json:"$defs"`
	}
	if err := json.Unmarshal(raw, &s); err != nil {
		t.Fatal(err)
	}
	if len(s.Defs) != len(archiveTables) {
		t.Errorf("%d tables in the schema, %d here", len(s.Defs), len(archiveTables))
	}
	for _, table := range archiveTables {
		d := s.Defs[table.Name]
		required := 0
		for _, c := range table.Columns {
			p, ok := d.Properties[c.Name]
			if !ok || c.Whole != strings.Contains(string(p), `"integer"`) {
				t.Errorf("%s.%s: the schema has %s", table.Name, c.Name, p)
			}
			if c.Required {
				required++
			}
		}
		if len(d.Properties) != len(table.Columns) || len(d.Required) != required {
			t.Errorf("%s: %d members, %d required in the schema; %d and %d here", table.Name, len(d.Properties), len(d.Required), len(table.Columns), required)
		}
	}
	rows, manifest := compile("archive.schema.json"), compile("archive-manifest.schema.json")
	valid := func(s *jsonschema.Schema, text string) error {
		v, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		return s.Validate(v)
	}
	if err := valid(rows, `{"tank":[`+goodTank+`]}`); err != nil {
		t.Error(err)
	}
	if valid(rows, `{"tank":[{"id":"../t"}]}`) == nil {
		t.Error("the schema takes a key that is a path")
	}
	a := archived(nil, emptyTables()...)
	if err := valid(manifest, string(a.pieces[len(a.pieces)-1].data)); err != nil {
		t.Error(err)
	}
	if valid(manifest, `{"format":"driploop-profile","version":1,"minor":0,"made_by":{"program":"","version":""},"parts":[]}`) == nil {
		t.Error("the schema takes a profile")
	}
}

// FuzzArchive: any bytes at all are refused, or give rows that are as described.
func FuzzArchive(f *testing.F) {
	f.Add(archived(nil, emptyTables()...).bytes())
	f.Add(withTable("tank", "["+goodTank+"]"))
	f.Add(entryWith("note", `"x"`))
	f.Fuzz(func(t *testing.T, b []byte) {
		a, _, err := ReadArchive(bytes.NewReader(b), int64(len(b)))
		if err != nil {
			return
		}
		for _, table := range archiveTables {
			for _, r := range a.Tables[table.Name] {
				for _, c := range table.Columns {
					if s, ok := r.Values[c.Name].(string); ok && !c.takes(s) {
						t.Fatalf("%s.%s is %q", table.Name, c.Name, s)
					}
				}
			}
		}
	})
}

// FuzzRows puts any text where the rows of a table stand, with a true hash.
func FuzzRows(f *testing.F) {
	for i := range archiveTables {
		f.Add(uint8(i), "[]")
	}
	f.Add(uint8(0), "["+goodTank+"]")
	f.Fuzz(func(t *testing.T, which uint8, rows string) {
		table := archiveTables[int(which)%len(archiveTables)]
		b := withTable(table.Name, rows)
		a, _, err := ReadArchive(bytes.NewReader(b), int64(len(b)))
		if err != nil {
			if codeOf(t, err) == "" {
				t.Fatalf("refused with %v", err)
			}
			return
		}
		if !json.Valid([]byte(rows)) {
			t.Fatalf("%q was read", rows)
		}
		for _, r := range a.Tables[table.Name] {
			for _, c := range table.Columns {
				if s, ok := r.Values[c.Name].(string); ok && !c.takes(s) {
					t.Fatalf("%s.%s is %q", table.Name, c.Name, s)
				}
			}
		}
	})
}
