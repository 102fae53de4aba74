package keeper

import (
	"context"
	"errors"
	"path/filepath"
	"strconv"
	"sync"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// AddOptions say where added pictures belong; all may be empty.
type AddOptions struct {
	Entry string // all go with this entry
	Fish  string // all show this fish
	Sick  string // they belong to this case: entries made for them are of it
}

// Progress of AddPhotos: of Total files Done are looked at; Name is the latest.
type Progress struct {
	Done, Total int
	Name        string
}

// RefusedPhoto is a file that was not taken.
type RefusedPhoto struct {
	Name    string
	Problem *photo.Problem
}

// TwicePhoto is a file that is in the tank's daybook already, or came twice in
// one batch: Photo is the one that is there.
type TwicePhoto struct {
	Name  string
	Photo string
}

// UndatedPhoto is a picture that tells no time of its own, or one later than
// tomorrow. It is with no entry until SetPhotoTaken, unless one was given, or a
// case: then it goes with what is written for the case today.
type UndatedPhoto struct {
	Photo string
	Name  string
	File  journal.Civil // when its file was last written, to be offered; empty when not known
	Zone  string
}

// Added is what AddPhotos did.
type Added struct {
	Photos    []string // keys of the pictures, in order of the sources
	Entries   []string // entries made for them
	Linked    int      // pictures that went with an entry that was there
	Undated   []UndatedPhoto
	Twice     []TwicePhoto
	Refused   []RefusedPhoto
	Broken    []string // of Photos, those that cannot be shown
	Passed    int      // files of a folder that are no pictures
	Cut       bool     // a folder had more than photo.FolderFiles
	Cancelled bool     // ctx ended first; what is told here was added
}

// workers is how many pictures are taken in at once. // judgement
const workers = 2

// AddPhotos takes pictures into the daybook of a tank: files, bytes, and folders
// with what is in them. Each original is kept bit for bit and is on the disk
// before its row is written; all rows are one step of the history. A picture
// goes with the entry nearest to the time it was taken, at most two hours away,
// or else with one new entry for its day. One that is damaged keeps its place.
// progress may be nil; it is called from other goroutines, one call at a time.
// When ctx ends, what is done by then is kept. Refusals: a tank, entry, fish or
// case that is not there. Errors: *store.OpError, *durable.WriteError; nothing is
// then in the daybook.
func (k *Keeper) AddPhotos(ctx context.Context, tank string, sources []photo.Source, o AddOptions, progress func(Progress)) (Added, error) {
	if err := k.mayAdd(ctx, tank, o); err != nil {
		return Added{}, err
	}
	k.sweep.Do(func() { _, _ = k.SweepPhotos(ctx) }) // what stays is met again in the next run
	files, cut, err := photo.Expand(ctx, sources)
	if err != nil {
		return Added{Cancelled: true}, nil // the person has had enough before anything began
	}
	k.shelf.RLock()
	defer k.shelf.RUnlock()
	taken, err := k.takeIn(ctx, files, progress)
	if err != nil {
		return Added{}, err
	}
	out := Added{Cut: cut, Cancelled: ctx.Err() != nil}
	// What is on the disk is written down even when the person has had enough.
	return k.writeDown(context.WithoutCancel(ctx), tank, taken, o, out)
}

func (k *Keeper) mayAdd(ctx context.Context, tank string, o AddOptions) error {
	if why := k.ReadOnly(); why != nil {
		return why
	}
	if gone := k.TakenAway(); gone != nil { // no picture into a folder that is not there
		return gone
	}
	if err := k.InUse(ctx, tank); err != nil {
		return err
	}
	if o.Entry != "" {
		if _, err := k.Entry(ctx, tank, o.Entry); err != nil {
			return err
		}
	}
	if o.Sick != "" {
		rows, err := k.st.Load(ctx, "sick", map[string]any{"tank": tank, "id": o.Sick, "deleted": nil}, "")
		if err != nil {
			return err
		}
		if len(rows) == 0 {
			return working.Refuse("sick", "refuse.photo.no_sick")
		}
	}
	return k.fishHere(ctx, tank, o.Fish)
}

// arrival is one file that was looked at.
type arrival struct {
	name    string
	loose   bool
	done    bool // false where ctx ended before
	hash    string
	bytes   int
	info    photo.Info
	changed time.Time
	problem *photo.Problem
}

// takeIn reads, checks and keeps the files, and makes their small pictures. Only
// what the disk or the database refuses is an error.
func (k *Keeper) takeIn(ctx context.Context, files []photo.Source, progress func(Progress)) ([]arrival, error) {
	out := make([]arrival, len(files))
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	var (
		mu    sync.Mutex
		next  int
		ready int
		first error
		wait  sync.WaitGroup
	)
	for range min(workers, len(files)) {
		wait.Go(func() {
			for {
				mu.Lock()
				i := next
				next++
				mu.Unlock()
				if i >= len(files) || ctx.Err() != nil {
					return
				}
				a, err := k.takeOne(ctx, files[i])
				mu.Lock()
				out[i] = a
				if err != nil {
					if first == nil && !a.done && !errors.Is(err, context.Canceled) && !errors.Is(err, context.DeadlineExceeded) {
						first = err
					}
					stop()
				}
				ready++
				if progress != nil && err == nil {
					progress(Progress{Done: ready, Total: len(files), Name: a.name})
				}
				mu.Unlock()
			}
		})
	}
	wait.Wait()
	return out, first
}

func (k *Keeper) takeOne(ctx context.Context, s photo.Source) (arrival, error) {
	a := arrival{name: s.Base(), loose: s.Loose}
	limits := k.decoder.Limits()
	data, changed, err := s.Read(limits)
	if err == nil {
		a.changed, a.bytes = changed, len(data)
		a.info, err = photo.Inspect(data, limits)
	}
	if p := photo.ProblemOf(err); p != nil && !p.Kept() {
		a.problem, a.done = p, true
		return a, nil
	}
	a.problem = photo.ProblemOf(err)
	if a.hash, err = k.originals.Put(data); err != nil {
		return a, err
	}
	if a.problem == nil {
		if err := k.firstThumb(ctx, a.hash, data); err != nil {
			p := photo.ProblemOf(err)
			if p == nil || !p.Kept() {
				return a, err
			}
			a.problem = p
		}
	}
	a.done = true
	return a, nil
}

// firstThumb makes the usual small picture unless it is there.
func (k *Keeper) firstThumb(ctx context.Context, hash string, data []byte) error {
	if _, ok, err := k.st.Thumb(ctx, hash, photo.ThumbSide); err != nil || ok {
		return err
	}
	t, _, err := k.decoder.Thumb(ctx, data, photo.ThumbSide)
	if err != nil {
		return err
	}
	return k.st.PutThumb(ctx, store.Thumb{Hash: hash, Side: photo.ThumbSide, Width: t.Width, Height: t.Height, JPEG: t.JPEG})
}

// writeDown writes the rows of what was taken in, as one step.
func (k *Keeper) writeDown(ctx context.Context, tank string, taken []arrival, o AddOptions, out Added) (Added, error) {
	now := k.now()
	held, err := k.photosByHash(ctx, tank)
	if err != nil {
		return Added{}, err
	}
	var placed []*placing
	var ops []store.Op
	for _, a := range taken {
		switch {
		case !a.done:
			continue
		case a.hash == "" && a.loose && a.problem.Code == photo.NotAPicture:
			out.Passed++
			continue
		case a.hash == "":
			out.Refused = append(out.Refused, RefusedPhoto{a.name, a.problem})
			continue
		}
		if id, twice := held[a.hash]; twice {
			out.Twice = append(out.Twice, TwicePhoto{a.name, id})
			continue
		}
		id := k.newID()
		held[a.hash] = id
		row := photoRow(id, tank, a, o, now)
		ops = append(ops, store.Op{Table: "photo", After: row})
		out.Photos = append(out.Photos, id)
		if a.problem != nil {
			out.Broken = append(out.Broken, id)
		}
		if at := text(row["taken"]); at != "" {
			placed = append(placed, &placing{at: journal.Civil(at), zone: text(row["zone"]), row: row})
			continue
		}
		u := UndatedPhoto{Photo: id, Name: a.name}
		if !a.changed.IsZero() {
			local := a.changed.In(now.Location())
			u.File, u.Zone = journal.CivilOf(local), journal.ZoneOf(local)
		}
		out.Undated = append(out.Undated, u)
		if o.Sick != "" { // it is looked at today, whenever it was taken
			placed = append(placed, &placing{at: journal.CivilOf(now), zone: journal.ZoneOf(now), row: row})
		}
	}
	if len(ops) == 0 {
		return out, nil
	}
	if o.Entry == "" {
		entries, linked, err := k.place(ctx, tank, o.Sick, placed, now)
		if err != nil {
			return Added{}, err
		}
		for _, e := range entries {
			out.Entries = append(out.Entries, text(e.After["id"]))
		}
		out.Linked = linked
		ops = append(entries, ops...) // a row comes before what refers to it
	} else {
		out.Linked = len(out.Photos)
	}
	return out, k.apply(ctx, store.Change{Tank: tank, Label: "undo.photos_add", Values: map[string]string{"Number": strconv.Itoa(len(out.Photos))}, At: stamp(now), Ops: ops})
}

// photosByHash gives the pictures of a tank that are not in the bin, by hash.
func (k *Keeper) photosByHash(ctx context.Context, tank string) (map[string]string, error) {
	rows, err := k.st.Load(ctx, "photo", map[string]any{"tank": tank, "deleted": nil}, "")
	if err != nil {
		return nil, err
	}
	out := make(map[string]string, len(rows))
	for _, r := range rows {
		out[text(r["hash"])] = text(r["id"])
	}
	return out, nil
}

// MostPhotoName is the longest name of a file that is kept, in runes; the end of
// a longer one is, as it tells the format. // judgement
const MostPhotoName = 200

func photoRow(id, tank string, a arrival, o AddOptions, now time.Time) store.Row {
	i := a.info
	row := store.Row{"id": id, "tank": tank, "entry": orNil(o.Entry), "fish": orNil(o.Fish), "hash": a.hash, "format": string(i.Format),
		"bytes": int64(a.bytes), "width": int64(i.Width), "height": int64(i.Height), "orientation": int64(max(i.Orientation, 1)), "turned": int64(0),
		"taken_from": string(TakenUnknown), "name": plainName(a.name), "added": stamp(now)}
	// A camera whose clock runs ahead of the world has not told the time.
	if i.Taken != "" && i.Taken <= journal.CivilOf(now.AddDate(0, 0, 1)) {
		row["taken"], row["zone"], row["taken_from"] = string(i.Taken), orNil(i.Zone), string(TakenByCamera)
	}
	if i.Place != nil {
		row["latitude"], row["longitude"] = degrees(i.Place.Latitude), degrees(i.Place.Longitude)
	}
	if a.problem != nil {
		row["problem"] = string(a.problem.Code)
	}
	return row
}

// degrees writes an angle to 1e-6 degrees, a tenth of a metre.
func degrees(x float64) string { return strconv.FormatFloat(x, 'f', 6, 64) }

// plainName keeps a file's name as text that the store takes.
func plainName(s string) string {
	rs := make([]rune, 0, len(s))
	for _, r := range filepath.Base(s) {
		if r != 0 {
			rs = append(rs, r)
		}
	}
	return string(rs[max(len(rs)-MostPhotoName, 0):])
}
