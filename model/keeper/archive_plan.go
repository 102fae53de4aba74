package keeper

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"maps"
	"os"

	"github.com/google/uuid"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// Arrival says what becomes of a tank of an archive.
type Arrival string

// The arrivals.
const (
	Arrives Arrival = "new"     // is not here yet: it keeps its keys
	Further Arrival = "further" // one of its keys is here, but is not the same: it becomes a tank beside it
	Here    Arrival = "here"    // is here already, just so
)

// Incoming is a tank of an archive.
type Incoming struct {
	Name               string
	Arrival            Arrival
	Entries, Pictures  int
	First, Last        string // civil days of its first and last entry, or ""
	Removed            bool   // it was put aside when the archive was made
	id, as, likeItsOwn string
}

// ArchivePreview is what an archive holds, before anything is taken.
type ArchivePreview struct {
	Path     string
	Size     int64 // of the file, bytes
	MadeBy   slip.Maker
	Places   bool // it tells where pictures were taken
	Tanks    []Incoming
	Pictures int
	Bytes    int64 // of pictures
	// Undoable reports whether taking it is one step that can be undone; else a copy
	// of the daybook is made first.
	Undoable bool
	Findings []working.Finding
}

// Taking counts the tanks that taking would add.
func (p ArchivePreview) Taking() int {
	n := 0
	for _, t := range p.Tanks {
		if t.Arrival != Here {
			n++
		}
	}
	return n
}

// ReadArchive looks into the archive at path and says what would become of each of
// its tanks; nothing is taken yet, and no picture is unpacked. Errors: *slip.Error.
func (k *Keeper) ReadArchive(ctx context.Context, path string) (ArchivePreview, error) {
	f, a, p, err := k.openArchive(ctx, path)
	if err != nil {
		return ArchivePreview{}, err
	}
	defer f.Close()
	plan, err := k.planArchive(ctx, a)
	if err != nil {
		return ArchivePreview{}, err
	}
	p.Tanks, p.Undoable = plan.tanks, plan.changes <= MostUndone
	return p, nil
}

// openArchive opens the file and reads all but the pictures.
func (k *Keeper) openArchive(ctx context.Context, path string) (*os.File, *slip.Archive, ArchivePreview, error) {
	p := ArchivePreview{Path: path}
	if err := ctx.Err(); err != nil {
		return nil, nil, p, err
	}
	if err := plainFile(os.Stat(path)); err != nil {
		return nil, nil, p, slip.InArchive(err)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, nil, p, slip.InArchive(&slip.Error{Code: slip.CodeUnreadable, Err: err})
	}
	info, err := f.Stat()
	if err := plainFile(info, err); err != nil {
		_ = f.Close()
		return nil, nil, p, slip.InArchive(err)
	}
	a, found, err := slip.ReadArchive(&stoppableAt{ctx, f}, info.Size())
	if err != nil {
		_ = f.Close()
		if ctx.Err() != nil {
			return nil, nil, p, ctx.Err()
		}
		return nil, nil, p, err
	}
	p.Size, p.MadeBy, p.Places, p.Pictures, p.Bytes, p.Findings = info.Size(), a.MadeBy, a.Places, len(a.Originals), a.Bytes, found
	return f, a, p, nil
}

// stoppableAt is a file whose reading ends with its context.
type stoppableAt struct {
	ctx context.Context
	f   *os.File
}

func (s *stoppableAt) ReadAt(p []byte, off int64) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.f.ReadAt(p, off)
}

// archivePlan is what taking an archive would write.
type archivePlan struct {
	tanks   []Incoming
	take    map[string]bool              // tanks, by their key in the archive
	keys    map[string]map[string]string // the key each row gets, by table and key in the archive
	skip    map[string]map[string]bool   // kits that are here already
	owner   map[string]map[string]string // tank of a row, by table and key
	changes int                          // rows
	again   bool                         // what it holds of later versions is here
}

// planArchive decides for each tank and each row. What it makes of a given archive
// depends only on that and on what is here, so that the same archive taken twice
// meets its own rows again.
func (k *Keeper) planArchive(ctx context.Context, a *slip.Archive) (*archivePlan, error) {
	here, err := k.whole(ctx)
	if err != nil {
		return nil, err
	}
	theirs, err := fingerprints(a.Tables)
	if err != nil {
		return nil, err
	}
	ours, err := fingerprints(here.rows)
	if err != nil {
		return nil, err
	}
	p := &archivePlan{take: map[string]bool{}, keys: map[string]map[string]string{}, skip: map[string]map[string]bool{}, owner: theirs.owner, again: here.seen[a.ID]}
	p.describe(a, theirs, ours)
	p.rename(a, here, theirs)
	for _, t := range slip.Tables() {
		for _, r := range a.Tables[t.Name] {
			if p.takes(t, r) {
				p.changes++
			}
		}
	}
	return p, p.check(a)
}

// describe says what becomes of each tank.
func (p *archivePlan) describe(a *slip.Archive, theirs, ours prints) {
	at := map[string]int{}
	for _, r := range a.Tables["tank"] {
		t := Incoming{Name: r.Text("name"), Removed: r.Text("deleted") != "", id: r.Text("id")}
		t.as, t.Arrival = t.id, Arrives
		t.likeItsOwn = derive(theirs.tank[t.id], t.id)
		if print, taken := ours.tank[t.id]; taken {
			switch _, again := ours.tank[t.likeItsOwn]; {
			case print == theirs.tank[t.id] || again:
				t.Arrival = Here
			default:
				t.Arrival, t.as = Further, t.likeItsOwn
			}
		}
		p.take[t.id] = t.Arrival != Here
		at[t.id] = len(p.tanks)
		p.tanks = append(p.tanks, t)
	}
	for _, r := range a.Tables["entry"] {
		i, ok := at[r.Text("tank")]
		if !ok || r.Text("deleted") != "" {
			continue
		}
		t := &p.tanks[i]
		t.Entries++
		day := journal.Civil(r.Text("at")).Day()
		if t.First == "" || day < t.First {
			t.First = day
		}
		t.Last = max(t.Last, day)
	}
	for _, r := range a.Tables["photo"] {
		if i, ok := at[r.Text("tank")]; ok && r.Text("deleted") == "" {
			p.tanks[i].Pictures++
		}
	}
}

// rename gives every row its key: its own where that is free, else one made of it.
func (p *archivePlan) rename(a *slip.Archive, here *wholeDaybook, theirs prints) {
	as := map[string]string{}
	for _, t := range p.tanks {
		as[t.id] = t.as
	}
	for _, t := range slip.Tables() {
		own, ok := ownKey(t)
		if !ok {
			continue
		}
		taken := map[string]string{}
		for _, r := range here.rows[t.Name] {
			taken[r.Text(own)] = t.KeyOf(r) + string(encoded(t, r))
		}
		p.keys[t.Name], p.skip[t.Name] = map[string]string{}, map[string]bool{}
		for _, r := range a.Tables[t.Name] {
			key := r.Text(own)
			tank, owned := p.owner[t.Name][key]
			p.keys[t.Name][key] = key
			was, there := taken[key]
			switch {
			case t.Name == "tank":
				p.keys[t.Name][key] = as[key]
			case !owned: // a kit
				if there && was == t.KeyOf(r)+string(encoded(t, r)) {
					p.skip[t.Name][key] = true
				} else if there {
					print := sha256.Sum256(encoded(t, r))
					p.keys[t.Name][key] = derive(hex.EncodeToString(print[:]), key)
					_, again := taken[p.keys[t.Name][key]]
					p.skip[t.Name][key] = again
				}
			case as[tank] != tank || there && p.take[tank]:
				p.keys[t.Name][key] = derive(theirs.tank[tank], key)
			}
		}
	}
}

// takes reports whether a row is written.
func (p *archivePlan) takes(t slip.Table, r slip.Row) bool {
	if t.Name == "tank" {
		return p.take[r.Text("id")]
	}
	c, ok := t.Parent()
	if !ok {
		own, _ := ownKey(t)
		return !p.skip[t.Name][r.Text(own)]
	}
	tank := r.Text(c.Name)
	if c.Of != "tank" {
		tank = p.owner[c.Of][tank]
	}
	return p.take[tank]
}

// check refuses an archive with a row that refers to one it does not hold: it may
// not reach for a row of this daybook.
func (p *archivePlan) check(a *slip.Archive) error {
	for _, t := range slip.Tables() {
		for _, r := range a.Tables[t.Name] {
			for _, c := range t.Columns {
				if c.Of == "" || r.Text(c.Name) == "" {
					continue
				}
				if _, ok := p.keys[c.Of][r.Text(c.Name)]; !ok {
					return &slip.Error{Code: slip.CodeArchiveRow, Part: t.Name, Place: c.Name}
				}
			}
		}
	}
	return nil
}

// ownKey is the column that is the table's own key, where others refer to it.
func ownKey(t slip.Table) (string, bool) {
	for _, c := range t.Columns {
		if c.Key && c.Of == t.Name {
			return c.Name, true
		}
	}
	return "", false
}

// prints tells daybooks apart: a hash of everything of a tank, and whose each row
// is.
type prints struct {
	tank  map[string]string
	owner map[string]map[string]string
}

func fingerprints(tables map[string][]slip.Row) (prints, error) {
	p := prints{tank: map[string]string{}, owner: map[string]map[string]string{}}
	sums := map[string]*bytes.Buffer{}
	for _, t := range slip.Tables() {
		own, keyed := ownKey(t)
		p.owner[t.Name] = map[string]string{}
		parent, owned := t.Parent()
		for _, r := range tables[t.Name] {
			tank := ""
			switch {
			case t.Name == "tank":
				tank = r.Text("id")
				sums[tank] = &bytes.Buffer{}
			case !owned:
				continue
			case parent.Of == "tank":
				tank = r.Text(parent.Name)
			default:
				tank = p.owner[parent.Of][r.Text(parent.Name)]
			}
			if keyed {
				p.owner[t.Name][r.Text(own)] = tank
			}
			if b, ok := sums[tank]; ok {
				print := sha256.Sum256(append([]byte(t.Name+"\n"), encoded(t, r)...))
				b.Write(print[:])
			}
		}
	}
	for tank, b := range sums {
		print := sha256.Sum256(b.Bytes())
		p.tank[tank] = hex.EncodeToString(print[:])
	}
	return p, nil
}

// ticking are the columns that a running wait writes by itself: they make no tank
// another one.
var ticking = []string{"elapsed_ms", "last_seen", "detail"}

func encoded(t slip.Table, r slip.Row) []byte {
	if t.Name == "timer" {
		steady := slip.Row{Values: maps.Clone(r.Values), More: r.More}
		for _, name := range ticking {
			delete(steady.Values, name)
		}
		r = steady
	}
	b, err := t.Encode(r)
	if err != nil { // strings and whole numbers have no such fault
		return nil
	}
	return b
}

// derive makes a key out of a key and of what it belongs to.
func derive(print, key string) string {
	return uuid.NewSHA1(uuid.NameSpaceOID, []byte("driploop:"+print+":"+key)).String()
}
