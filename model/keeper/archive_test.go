package keeper

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
)

func still() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.FixedZone("", 3600)) }

func openAt(t testing.TB, dir string) *Keeper {
	t.Helper()
	k, err := Open(context.Background(), dir, Options{Now: still})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = k.Close() })
	return k
}

// maker of a daybook out of chance.
type chance struct {
	*rand.Rand
	k   *Keeper
	ids int
	ops []store.Op
}

func (c *chance) id() string { c.ids++; return fmt.Sprintf("%08x-%04d", c.Uint32(), c.ids) }

// words are what people and makers of trouble type.
var typed = []string{"", "clear water", "Días de lluvia, ñandú", "水 と 魚", "<script>alert(1)</script> & \"quotes\"", "=1+1", "line\nline", "a\u202eb", "\u2028", "tab\there", "{}", "😀"}

func (c *chance) words() string { return typed[c.IntN(len(typed))] }
func (c *chance) maybe(v any) any {
	if c.IntN(2) == 0 {
		return nil
	}
	return v
}
func (c *chance) one(of []string) any {
	if len(of) == 0 {
		return nil
	}
	return c.maybe(of[c.IntN(len(of))])
}
func (c *chance) at() string {
	return still().AddDate(0, 0, -c.IntN(3000)).Add(time.Duration(c.IntN(1440)) * time.Minute).UTC().Format(time.RFC3339)
}
func (c *chance) civil() string { return c.at()[:16] }
func (c *chance) add(table string, r store.Row) {
	c.ops = append(c.ops, store.Op{Table: table, After: r})
}

// picture keeps the bytes of a picture and returns its hash.
func (c *chance) picture(t testing.TB) (string, int64) {
	t.Helper()
	data := make([]byte, 200+c.IntN(20_000))
	for i := range data {
		data[i] = byte(c.Uint32())
	}
	copy(data, "\xff\xd8\xff\xe0")
	hash, err := c.k.originals.Put(data)
	if err != nil {
		t.Fatal(err)
	}
	return hash, int64(len(data))
}

// daybook fills a data folder with rows in every table.
func daybook(t testing.TB, k *Keeper, seed uint64, tanks int) {
	t.Helper()
	c := &chance{Rand: rand.New(rand.NewPCG(seed, 77)), k: k}
	var kits []string
	for range c.IntN(3) {
		kits = append(kits, c.id())
		c.add("kit", store.Row{"id": kits[len(kits)-1], "name": c.words(), "reading": "nitrite", "unit": "mg/l", "basis": c.maybe("ion"), "steps": `["0", "0.25"]`, "deleted": c.maybe(c.at())})
	}
	for range tanks {
		c.tank(t, kits)
	}
	if err := k.apply(context.Background(), store.Change{Label: "undo.tank_start", At: stamp(still()), Ops: c.ops}); err != nil {
		t.Fatal(err)
	}
}

func (c *chance) tank(t testing.TB, kits []string) {
	tank := c.id()
	origin := []string{"own", "profile", "example"}[c.IntN(3)]
	c.add("tank", store.Row{"id": tank, "name": "T " + c.words(), "origin": origin, "created": c.at(), "deleted": c.maybe(c.at())})
	c.add("answer", store.Row{"tank": tank, "field": "tank.system", "kind": "choice", "text": "metric", "origin": "person", "at": c.at()})
	c.add("done", store.Row{"tank": tank, "step": "rinse", "at": c.at(), "basis": `{"a": "b"}`})
	c.add("ack", store.Row{"id": c.id(), "tank": tank, "step": "rinse", "note": "n", "lang": "es", "shown": c.words(), "source_hash": "ab", "at": c.at()})
	var fish, cases, entries []string
	for range c.IntN(3) {
		fish = append(fish, c.id())
		c.add("fish", store.Row{"id": fish[len(fish)-1], "tank": tank, "name": c.words(), "count": int64(c.IntN(9)), "since": c.maybe("2026-01-02")})
	}
	for range c.IntN(3) {
		id := c.id()
		cases = append(cases, id)
		c.add("sick", store.Row{"id": id, "tank": tank, "fish": c.one(fish), "about": c.words(), "opened": c.civil(), "zone": "+01:00", "note": c.maybe(c.words())})
		c.add("sick_sign", store.Row{"sick": id, "sign": "clamped", "seen": c.civil(), "gone": c.maybe(c.civil())})
	}
	var replies []string
	for range c.IntN(3) {
		visit, id := c.id(), c.id()
		replies = append(replies, id)
		c.add("visit", store.Row{"id": visit, "tank": tank, "label": c.words(), "first": "2026-08-01", "last": "2026-08-14", "sick": c.one(cases), "at": c.at()})
		c.add("reply", store.Row{"id": id, "tank": tank, "visit": visit, "name": c.words(), "address": c.words(), "hours": c.words(), "thumbprint": c.maybe("ab"), "made": c.civil(), "at": c.at()})
		c.add("reply_taken", store.Row{"reply": id, "item": "advice", "at": c.at()})
	}
	for range c.IntN(12) {
		id := c.id()
		entries = append(entries, id)
		kind := journal.Kinds()[c.IntN(len(journal.Kinds()))]
		c.add("entry", store.Row{"id": id, "tank": tank, "kind": string(kind), "at": c.civil(), "zone": "-03:30", "note": c.maybe(c.words()),
			"deleted": c.maybe(c.at()), "edited": c.maybe(c.at()), "sick": c.one(cases), "reply": c.one(replies)})
		for i, name := range []string{"nitrite", "nitrate", "temperature"}[:c.IntN(4)] {
			c.add("entry_value", store.Row{"entry": id, "name": name, "text": fmt.Sprint(i, ".5"), "unit": "mg/l", "basis": c.maybe("n"), "qualifier": []string{"", "not_detected", "over_range"}[c.IntN(3)], "kit": c.one(kits)})
		}
		for n := range c.IntN(3) {
			c.add("entry_past", store.Row{"entry": id, "n": int64(n + 1), "at": c.at(), "was": `{"note":"was"}`})
		}
	}
	for range c.IntN(3) {
		hash, n := c.picture(t)
		id := c.id()
		c.add("photo", store.Row{"id": id, "tank": tank, "entry": c.one(entries), "fish": c.one(fish), "hash": hash, "format": "jpeg", "bytes": n, "width": int64(4000), "height": int64(3000),
			"orientation": int64(6), "turned": int64(1), "taken": c.maybe(c.civil()), "taken_from": "exif", "latitude": c.maybe("40.4"), "longitude": c.maybe("-3.7"), "name": "IMG 1.JPG", "caption": c.maybe(c.words()), "added": c.at()})
		c.add("mark", store.Row{"id": c.id(), "photo": id, "kind": "ring", "points": "[[1,2],[3,4]]", "words": c.maybe(c.words())})
	}
	round := c.id()
	c.add("round", store.Row{"id": round, "tank": tank, "code": "test", "rule": "FREQ=WEEKLY", "start": c.civil()})
	c.add("round_done", store.Row{"round": round, "due": c.civil(), "state": "done", "entry": c.one(entries), "at": c.at()})
	c.add("away", store.Row{"id": c.id(), "tank": tank, "first": "2026-08-01", "last": "2026-08-14", "who": c.maybe("Ana")})
	c.add("timer", store.Row{"id": c.id(), "tank": tank, "kind": "acclimate", "started": c.at(), "ended": c.at(), "elapsed_ms": int64(90_000), "last_seen": c.at()})
}

func plainPage(w io.Writer, c Contents) error {
	_, err := fmt.Fprintf(w, "%d", len(c.Tanks))
	return err
}

func archive(t testing.TB, k *Keeper) []byte {
	t.Helper()
	var b bytes.Buffer
	if _, err := k.WriteArchive(t.Context(), &b, ArchiveOptions{Language: "en", Page: plainPage}, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func onDisk(t testing.TB, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "a.dlarchive")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// drills is how many random daybooks go out, in and out again: D2-50.
func drills() int { return drill.Count(25, 500) }

// texts are the tables and the manifest of an archive as its schemas describe them, and
// damaged ones: a key that is a path, a kind that is a number, a manifest of no version.
func texts(t *testing.T, data []byte, about string) []drill.Text {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	tables, manifest := map[string][]map[string]any{}, map[string]any{}
	for _, f := range z.File {
		name, isTable := strings.CutPrefix(strings.TrimSuffix(f.Name, ".json"), slip.FolderTables)
		if !isTable && f.Name != "manifest.json" {
			continue
		}
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		d := json.NewDecoder(r)
		d.UseNumber()
		if isTable {
			var rows []map[string]any
			err = d.Decode(&rows)
			tables[name] = rows
		} else {
			err = d.Decode(&manifest)
		}
		if err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
	}
	if len(tables["tank"]) == 0 || len(manifest) == 0 {
		t.Fatalf("%s: no tank or no manifest", about)
	}
	var out []drill.Text
	add := func(schema, about string, v any, good bool) {
		b, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, drill.Text{Schema: schema, About: about, Body: string(b), Good: good})
	}
	add("archive", about, tables, true)
	add("archive-manifest", about, manifest, true)
	tables["tank"][0]["id"] = "../tank"
	add("archive", about+", a path", tables, false)
	tables["tank"][0]["id"] = "tank"
	if entries := tables["entry"]; len(entries) > 0 {
		entries[0]["kind"] = 5
		add("archive", about+", a kind", tables, false)
	}
	delete(manifest, "version")
	add("archive-manifest", about+", no version", manifest, false)
	return out
}

// TestArchiveRoundTrip (D2-50): out, into an empty folder and out again gives the
// same bytes, with every picture; undone, nothing is left. In the drill ajv takes every
// archive by its schemas, and none that is damaged.
func TestArchiveRoundTrip(t *testing.T) {
	pictures := 0
	var judged []drill.Text
	for n := range drills() {
		from, to := openAt(t, t.TempDir()), openAt(t, t.TempDir())
		daybook(t, from, uint64(n), 1+n%3)
		first := archive(t, from)
		judged = append(judged, texts(t, first, fmt.Sprintf("daybook %d", n))...)
		path := onDisk(t, first)
		p, err := to.ReadArchive(t.Context(), path)
		if err != nil || p.Taking() != 1+n%3 || !p.Undoable {
			t.Fatalf("daybook %d: preview %+v, %v", n, p, err)
		}
		did, err := to.TakeArchive(t.Context(), path, nil)
		if err != nil || did.Lost > 0 {
			t.Fatalf("daybook %d: %+v, %v", n, did, err)
		}
		pictures += did.Pictures
		if second := archive(t, to); !bytes.Equal(first, second) {
			t.Fatalf("daybook %d: %d bytes went out, %d other bytes came back", n, len(first), len(second))
		}
		if _, err := to.TakeArchive(t.Context(), path, nil); err == nil {
			t.Fatalf("daybook %d: taken twice", n)
		}
		if n%5 == 0 {
			if _, _, err := to.Undo(t.Context(), ""); err != nil {
				t.Fatalf("daybook %d: undo: %v", n, err)
			}
			if r, err := to.Verify(t.Context()); err != nil || r.Rows["tank"]+r.Rows["entry"]+r.Rows["photo"]+r.Rows["kit"] != 0 {
				t.Fatalf("daybook %d: after undo: %+v, %v", n, r, err)
			}
			if _, _, err := to.Redo(t.Context(), ""); err != nil {
				t.Fatalf("daybook %d: redo: %v", n, err)
			}
		}
		_, _ = from.Close(), to.Close()
	}
	if pictures < drills()/2 {
		t.Errorf("only %d pictures went through", pictures)
	}
	if drill.Listed() {
		drill.Schemas(t, "../..", judged)
	}
	drill.Tally(t, "D2-50", fmt.Sprintf("daybooks out, in and out again, %d pictures", pictures), drills(), 0)
}

// TestArchiveIntoAFullDaybook: what is here stays as it is; a tank that is here
// but differs comes in beside it, once.
func TestArchiveIntoAFullDaybook(t *testing.T) {
	k := openAt(t, t.TempDir())
	daybook(t, k, 3, 2)
	path := onDisk(t, archive(t, k))
	p, err := k.ReadArchive(t.Context(), path)
	if err != nil || p.Taking() != 0 || p.Tanks[0].Arrival != Here {
		t.Fatalf("its own archive: %+v, %v", p, err)
	}
	tank := p.Tanks[0].id
	if err := k.apply(t.Context(), store.Change{Tank: tank, Label: "undo.tank_rename", At: stamp(still()), Ops: []store.Op{
		{Table: "away", After: store.Row{"id": "more", "tank": tank, "first": "2026-09-01", "last": "2026-09-02"}}}}); err != nil {
		t.Fatal(err)
	}
	before, err := k.Verify(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if p, err = k.ReadArchive(t.Context(), path); err != nil || p.Taking() != 1 || p.Tanks[0].Arrival != Further || p.Tanks[1].Arrival != Here {
		t.Fatalf("after a change: %+v, %v", p, err)
	}
	if _, err := k.TakeArchive(t.Context(), path, nil); err != nil {
		t.Fatal(err)
	}
	after, err := k.Verify(t.Context())
	if err != nil || !after.OK() || after.Rows["tank"] != before.Rows["tank"]+1 || after.Rows["kit"] != before.Rows["kit"] {
		t.Fatalf("%v then %v, %v", before.Rows, after.Rows, err)
	}
	if p, err = k.ReadArchive(t.Context(), path); err != nil || p.Taking() != 0 {
		t.Errorf("the same archive again: %+v, %v", p, err)
	}
}

// TestArchiveOfALaterVersion: what a later minor version added goes in and comes
// out again.
func TestArchiveOfALaterVersion(t *testing.T) {
	from, to := openAt(t, t.TempDir()), openAt(t, t.TempDir())
	daybook(t, from, 1, 1)
	whole, err := from.whole(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	write := func(minor int) []byte {
		var b bytes.Buffer
		w := slip.NewArchiveWriter(&b)
		for _, table := range slip.Tables() {
			rows := whole.rows[table.Name]
			if table.Name == "tank" || table.Name == "done" {
				rows[0].More = map[string]string{"colour": `{"hex":"#123456"}`, "rating": `5`}
			}
			if err := w.AddTable(table, rows); err != nil {
				t.Fatal(err)
			}
		}
		if err := w.AddUnknown("plant", []string{`{"id":"p1"}`, `{"id":"p2"}`}); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(slip.ArchiveHead{Minor: minor}); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	path := onDisk(t, write(slip.ArchiveMinor+3))
	if _, err := to.TakeArchive(t.Context(), path, nil); err != nil {
		t.Fatal(err)
	}
	got, _, err := slip.ReadArchive(bytes.NewReader(archive(t, to)), int64(len(archive(t, to))))
	if err != nil || got.Minor != slip.ArchiveMinor+3 || got.Tables["tank"][0].More["rating"] != "5" || got.Tables["done"][0].More["colour"] != `{"hex":"#123456"}` ||
		len(got.Unknown["plant"]) != 2 || got.Unknown["plant"][1] != `{"id":"p2"}` {
		t.Errorf("%+v, %v", got, err)
	}
	// In an archive of our own version the same is named and left out.
	_, found, err := slip.ReadArchive(bytes.NewReader(write(0)), int64(len(write(0))))
	if err != nil || len(found) != 5 {
		t.Errorf("%v, %v", found, err)
	}
}

// TestArchiveTablesAreTheStores holds the tables of an archive against those of
// the database.
func TestArchiveTablesAreTheStores(t *testing.T) {
	have := store.Tables()
	for _, table := range slip.Tables() {
		for _, c := range table.Columns {
			found := false
			for _, s := range have[table.Name] {
				found = found || s == store.ColumnInfo{Name: c.Name, Whole: c.Whole, Required: c.Required, Key: c.Key}
			}
			if !found {
				t.Errorf("%s.%s is another column in the database", table.Name, c.Name)
			}
		}
		for _, s := range have[table.Name] {
			if !slicesHas(table.Columns, s.Name) && table.Name+"."+s.Name != "entry.seq" {
				t.Errorf("%s.%s is in no archive", table.Name, s.Name)
			}
		}
		delete(have, table.Name)
	}
	delete(have, "kept")
	for name := range have {
		t.Errorf("table %s is in no archive", name)
	}
}

func slicesHas(cs []slip.Column, name string) bool {
	for _, c := range cs {
		if c.Name == name {
			return true
		}
	}
	return false
}

// TestArchiveOfLostPictures: the rest is taken, and the loss is told.
func TestArchiveOfLostPictures(t *testing.T) {
	from, to := openAt(t, t.TempDir()), openAt(t, t.TempDir())
	daybook(t, from, 8, 3)
	rows, err := from.st.Load(t.Context(), "photo", nil, "id")
	if err != nil || len(rows) < 3 {
		t.Fatalf("%d pictures, %v", len(rows), err)
	}
	lost, err := from.originals.Path(text(rows[0]["hash"]))
	if err != nil {
		t.Fatal(err)
	}
	changed, err := from.originals.Path(text(rows[1]["hash"]))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(lost); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(changed, []byte("something else"), 0o600); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	did, err := from.WriteArchive(t.Context(), &b, ArchiveOptions{Page: plainPage}, nil)
	if err != nil || len(did.Lost) != 2 {
		t.Fatalf("%+v, %v", did, err)
	}
	took, err := to.TakeArchive(t.Context(), onDisk(t, b.Bytes()), nil)
	if err != nil || took.Lost != 1 || took.Pictures != len(rows)-2 {
		t.Errorf("%+v, %v", took, err)
	}
}
