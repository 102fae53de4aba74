package keeper

import (
	"context"
	"path/filepath"
	"slices"
	"time"

	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// CopyKind says why a copy of the daybook was made.
type CopyKind string

// The kinds.
const (
	CopyDaily CopyKind = "daily" // by the program, once a day; taken away in time
	CopyKept  CopyKind = "kept"  // asked for, or made before an upgrade or a large change
	CopyAside CopyKind = "aside" // set aside when one went back to another
)

// Copy is a copy of the daybook in its own folder: the database, without the
// pictures, which are kept as long as any copy names them.
type Copy struct {
	Path string
	Kind CopyKind
	At   time.Time // in the zone of the wall clock
	Size int64     // bytes
	// Sound reports whether it was read and found in order; Held is what it holds.
	Sound bool
	Held  store.Held
}

// CopiesIn lists and checks the copies of a data folder, the newest first, whether
// or not the daybook in it can be opened. Errors: *store.OpError; ctx's.
func CopiesIn(ctx context.Context, dir string, zone *time.Location) ([]Copy, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	snaps, err := store.Snapshots(dir)
	if err != nil {
		return nil, err
	}
	aside, err := store.Aside(dir)
	if err != nil {
		return nil, err
	}
	var out []Copy
	for _, i := range snaps {
		kind := CopyKept
		if i.Daily {
			kind = CopyDaily
		}
		out = append(out, Copy{Path: i.Path, Kind: kind, At: i.At.In(zone), Size: i.Size})
	}
	for _, i := range aside {
		out = append(out, Copy{Path: i.Path, Kind: CopyAside, At: i.At.In(zone), Size: i.Size})
	}
	slices.SortStableFunc(out, func(a, b Copy) int { return b.At.Compare(a.At) })
	for i := range out {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		held, err := store.Look(ctx, out[i].Path)
		out[i].Held, out[i].Sound = held, err == nil
	}
	return out, nil
}

// Copies lists and checks the copies of this daybook.
func (k *Keeper) Copies(ctx context.Context) ([]Copy, error) {
	return CopiesIn(ctx, k.Dir(), k.now().Location())
}

// DailyCopy makes today's copy unless there is one, and takes away daily copies
// that have had their time: see store.Rotation. A daybook without a tank is not
// copied. It returns the path, "" when nothing was made. Errors: as Snapshot's.
func (k *Keeper) DailyCopy(ctx context.Context) (string, error) {
	if k.ReadOnly() != nil {
		return "", nil
	}
	rows, err := k.st.Load(ctx, "tank", nil, "")
	if err != nil || len(rows) == 0 {
		return "", err
	}
	return k.st.Daily(ctx)
}

// BackPreview is what going back to a copy would mean.
type BackPreview struct {
	Copy        Copy
	Now         store.Held // what the daybook holds
	Differences []store.Difference
	Unknown     bool // another program wrote over the daybook: nothing tells what it holds
}

// copyAt finds a copy by its path, or by its name. Only what this program put into
// the data folder is ever opened: a database from elsewhere is a stranger's.
// Errors: *working.Refusal.
func copyAt(ctx context.Context, dir, path string, zone *time.Location) (Copy, error) {
	all, err := CopiesIn(ctx, dir, zone)
	if err != nil {
		return Copy{}, err
	}
	abs, _ := filepath.Abs(path) // a path that cannot be made whole is none of ours
	for _, c := range all {
		if c.Path == abs || CopyName(c) == filepath.ToSlash(path) {
			if !c.Sound {
				return c, working.Refuse("copy", "refuse.keeper.copy_damaged")
			}
			return c, nil
		}
	}
	return Copy{}, working.Refuse("copy", "refuse.keeper.no_copy")
}

// CopyName is a short name of a copy: that of its file, with its folder where all
// files have one name.
func CopyName(c Copy) string {
	if c.Kind == CopyAside {
		return store.AsideFolder + "/" + filepath.Base(filepath.Dir(c.Path))
	}
	return filepath.Base(c.Path)
}

// PreviewBack says what going back to the copy at path would lose and gain.
// Errors: *working.Refusal when it is no copy of this daybook, or damaged;
// *store.OpError.
func (k *Keeper) PreviewBack(ctx context.Context, path string) (BackPreview, error) {
	c, err := copyAt(ctx, k.Dir(), path, k.now().Location())
	if err != nil {
		return BackPreview{}, err
	}
	p := BackPreview{Copy: c}
	if gone := k.st.Gone(); gone != nil && gone.Reason == store.ReasonOverwritten {
		p.Unknown = true
		return p, nil
	}
	if p.Now, err = k.st.Holds(ctx); err != nil {
		return BackPreview{}, err
	}
	p.Differences, err = k.st.Compare(ctx, c.Path)
	return p, err
}

// GoBack puts the copy at path in the place of the daybook and returns the path of
// what was set aside, to which one can go back in the same way. Pictures are not
// touched. Errors: as PreviewBack's; *store.OpenError.
func (k *Keeper) GoBack(ctx context.Context, path string) (string, error) {
	c, err := copyAt(ctx, k.Dir(), path, k.now().Location())
	if err != nil {
		return "", err
	}
	aside, err := k.st.GoBack(ctx, c.Path, store.Options{Now: k.now})
	k.anew()
	return aside, err
}

// Rescue puts the copy at path, or the newest sound one where path is empty, in the
// place of a daybook that cannot be opened, and returns it and the folder where
// what stood there is kept. The folder must not be open. Errors: *working.Refusal
// when there is no such copy or it is damaged; *store.OpenError.
func Rescue(ctx context.Context, dir, path string, now func() time.Time) (Copy, string, error) {
	if path == "" {
		info, _, ok := store.Good(ctx, dir)
		if !ok {
			return Copy{}, "", working.Refuse("copy", "refuse.keeper.no_copy")
		}
		path = info.Path
	}
	c, err := copyAt(ctx, dir, path, now().Location())
	if err != nil {
		return c, "", err
	}
	aside, err := store.Restore(ctx, dir, c.Path, store.Options{Now: now})
	return c, aside, err
}

// Fresh reports whether there was no daybook in the folder when it was opened,
// though there are copies of one: it was taken away.
func (k *Keeper) Fresh(ctx context.Context) bool {
	if !k.st.Fresh() {
		return false
	}
	_, _, ok := store.Good(ctx, k.Dir())
	return ok
}
