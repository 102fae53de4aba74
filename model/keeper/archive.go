package keeper

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path"
	"path/filepath"
	"slices"

	"example.org/driploop/model/durable"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
)

// ArchiveOptions of WriteArchive.
type ArchiveOptions struct {
	// Language of the page, a BCP 47 tag.
	Language string
	// WithoutPlace takes where a picture was taken off the rows and the pictures.
	// An archive is the keeper's own, so that it is kept unless this is asked for.
	WithoutPlace bool
	// Page writes index.html, in words. Required.
	Page func(io.Writer, Contents) error
}

// Contents is what a page shows of an archive.
type Contents struct{ Tanks []TankContents }

// TankContents is one tank of it.
type TankContents struct {
	Tank Tank
	// Days is its daybook, the oldest day and entry first; what is in the bin is not
	// shown, though it is in the archive.
	Days []Day
	// Table is the name of the part with its daybook as CSV.
	Table  string
	Photos []PagePhoto
}

// PagePhoto is a picture as a page shows it.
type PagePhoto struct {
	Part    string // its name in the archive, "" where its file is lost
	Entry   string // the entry it belongs to, or ""
	Name    string // of the file it came from
	Taken   journal.Civil
	Caption string
}

// Written tells what WriteArchive put in.
type Written struct {
	Tanks, Entries, Pictures int
	Bytes                    int64 // of pictures
	// Lost names pictures whose file is gone or changed: their rows are in the
	// archive all the same.
	Lost []string
}

// WriteArchive writes the whole daybook: every tank with everything in it, every
// picture bit for bit, tables for people and a page. The same daybook gives the
// same bytes. It is read at one moment; what is changed meanwhile waits for the
// next. progress, which may be nil, is told how many bytes of pictures are done.
// Errors: ctx's; *store.OpError; *slip.Error; those of w and of Page.
func (k *Keeper) WriteArchive(ctx context.Context, w io.Writer, o ArchiveOptions, progress func(done, total int64)) (Written, error) {
	a, err := k.whole(ctx)
	if err != nil {
		return Written{}, err
	}
	return k.writeWhole(ctx, w, a, o, progress)
}

// writeWhole is WriteArchive of what was read.
func (k *Keeper) writeWhole(ctx context.Context, w io.Writer, a *wholeDaybook, o ArchiveOptions, progress func(done, total int64)) (Written, error) {
	out := slip.NewArchiveWriter(w)
	did, parts, err := k.writeOriginals(ctx, out, a, o, progress)
	if err != nil {
		return did, err
	}
	for _, t := range slip.Tables() {
		if err := out.AddTable(t, a.rows[t.Name]); err != nil {
			return did, err
		}
	}
	for _, name := range slices.Sorted(keysOf(a.unknown)) {
		if err := out.AddUnknown(name, a.unknown[name]); err != nil {
			return did, err
		}
	}
	c, err := a.contents(parts)
	if err != nil {
		return did, err
	}
	for _, t := range c.Tanks {
		did.Tanks++
		var b bytes.Buffer
		var all []journal.Entry
		for _, d := range t.Days {
			all = append(all, d.Entries...)
		}
		did.Entries += len(all)
		if err := journal.WriteCSV(&b, all); err != nil {
			return did, err
		}
		if _, err := out.Add(t.Table, &b); err != nil {
			return did, err
		}
	}
	var page bytes.Buffer
	if err := o.Page(&page, c); err != nil {
		return did, err
	}
	if _, err := out.Add(slip.PartIndex, &page); err != nil {
		return did, err
	}
	return did, out.Close(slip.ArchiveHead{MadeBy: maker(), Language: o.Language, Places: !o.WithoutPlace, Minor: a.minor})
}

// keysOf ranges over the keys of a map.
func keysOf[V any](m map[string]V) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// wholeDaybook is every row of it, as an archive writes them.
type wholeDaybook struct {
	rows    map[string][]slip.Row
	unknown map[string][]string
	minor   int             // the later minor version that something in it came from, or 0
	seen    map[string]bool // archives whose unknown tables are here
}

// keptMinor is the name under which the minor version of kept things is noted.
const keptMinor = "minor"

// whole reads the daybook at one moment.
func (k *Keeper) whole(ctx context.Context) (*wholeDaybook, error) {
	names := []string{"kept"}
	for _, t := range slip.Tables() {
		names = append(names, t.Name)
	}
	all, err := k.st.LoadAll(ctx, names)
	if err != nil {
		return nil, err
	}
	return wholeOf(all)
}

func wholeOf(all map[string][]store.Row) (*wholeDaybook, error) {
	a := &wholeDaybook{rows: map[string][]slip.Row{}, unknown: map[string][]string{}, seen: map[string]bool{}}
	more := map[string]map[string]map[string]string{}
	for _, r := range all["kept"] {
		tbl, row, name, value := text(r["tbl"]), text(r["row"]), text(r["name"]), text(r["value"])
		switch {
		case tbl == "" && name == keptMinor:
			var n int
			if err := json.Unmarshal([]byte(value), &n); err != nil {
				return nil, err
			}
			a.minor = max(a.minor, n)
			a.seen[row] = true
		case name == "":
			a.unknown[tbl] = append(a.unknown[tbl], value)
		default:
			if more[tbl] == nil {
				more[tbl] = map[string]map[string]string{}
			}
			if more[tbl][row] == nil {
				more[tbl][row] = map[string]string{}
			}
			more[tbl][row][name] = value
		}
	}
	for _, t := range slip.Tables() {
		for _, r := range all[t.Name] {
			row := slip.Row{Values: make(map[string]any, len(t.Columns))}
			for _, c := range t.Columns {
				if v := r[c.Name]; v != nil {
					row.Values[c.Name] = v
				}
			}
			if m := more[t.Name]; m != nil {
				row.More = m[t.KeyOf(row)]
			}
			a.rows[t.Name] = append(a.rows[t.Name], row)
		}
	}
	return a, nil
}

// contents makes what a page shows; parts are the pictures that are there, by
// hash.
func (a *wholeDaybook) contents(parts map[string]string) (Contents, error) {
	var c Contents
	at := map[string]int{}
	for i, r := range a.rows["tank"] {
		if r.Text("deleted") != "" {
			continue
		}
		at[r.Text("id")] = len(c.Tanks)
		c.Tanks = append(c.Tanks, TankContents{Tank: tankOf(r.Values), Table: path.Join(slip.FolderCSV, fmt.Sprintf("daybook-%02d.csv", i+1))})
	}
	values := map[string][]journal.Reading{}
	for _, r := range a.rows["entry_value"] {
		values[r.Text("entry")] = append(values[r.Text("entry")], readingOf(r.Values))
	}
	entries := make([][]journal.Entry, len(c.Tanks))
	for n, r := range a.rows["entry"] {
		i, ok := at[r.Text("tank")]
		if !ok || r.Text("deleted") != "" {
			continue
		}
		entries[i] = append(entries[i], journal.Entry{ID: r.Text("id"), Kind: journal.Kind(r.Text("kind")), At: journal.Civil(r.Text("at")), Zone: r.Text("zone"),
			Seq: int64(n), Note: r.Text("note"), Step: r.Text("step"), Edited: r.Text("edited"), Readings: values[r.Text("id")]})
	}
	for i := range c.Tanks {
		journal.Sort(entries[i])
		for _, e := range entries[i] {
			days := &c.Tanks[i].Days
			if n := len(*days); n == 0 || (*days)[n-1].Date != e.At.Day() {
				*days = append(*days, Day{Date: e.At.Day()})
			}
			d := &(*days)[len(*days)-1]
			d.Entries = append(d.Entries, e)
		}
	}
	for _, r := range a.rows["photo"] {
		i, ok := at[r.Text("tank")]
		if !ok || r.Text("deleted") != "" {
			continue
		}
		c.Tanks[i].Photos = append(c.Tanks[i].Photos, PagePhoto{Part: parts[r.Text("hash")], Entry: r.Text("entry"), Name: r.Text("name"),
			Taken: journal.Civil(r.Text("taken")), Caption: r.Text("caption")})
	}
	return c, nil
}

// SaveArchive writes the archive to path, whole or not at all, as WriteArchive
// does. Errors: as there; *working.Refusal when the disk has too little room, before
// anything is written; *durable.WriteError.
func (k *Keeper) SaveArchive(ctx context.Context, path string, o ArchiveOptions, progress func(done, total int64)) (Written, error) {
	a, err := k.whole(ctx)
	if err != nil {
		return Written{}, err
	}
	if err := room(filepath.Dir(path), a.sizeOf(), "refuse.keeper.room_out"); err != nil {
		return Written{}, err
	}
	r, w := io.Pipe()
	var did Written
	wrong := make(chan error, 1)
	go func() {
		var err error
		did, err = k.writeWhole(ctx, w, a, o, progress)
		_ = w.CloseWithError(err)
		wrong <- err
	}()
	err = durable.WriteFrom(path, r, -1, archiveMode)
	_ = r.CloseWithError(err) // what is still being written has nowhere to go
	inner := <-wrong
	var we *durable.WriteError
	if errors.As(err, &we) && we.Op == durable.OpRead {
		err = inner // it is not the disk that failed
	}
	return did, err
}

// archiveMode lets only its owner read an archive: it is a whole daybook.
const archiveMode = 0o600
