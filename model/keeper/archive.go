package keeper

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
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
