package keeper

import (
	"context"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/store"
)

// NearEntry is how far an entry may be from the time of a picture for the
// picture to go with it. // judgement
const NearEntry = 2 * time.Hour

// placing is a picture whose entry is sought: row is its row, in which the
// entry is set.
type placing struct {
	at   journal.Civil
	zone string
	row  store.Row
}

// place gives every picture an entry: the nearest by the clock on the wall, the
// earlier of two as near, or else one new entry for all of a day. With a case
// only entries of that case count. It returns the entries to be made and how
// many pictures went with one that is there.
func (k *Keeper) place(ctx context.Context, tank, sick string, photos []*placing, now time.Time) (made []store.Op, linked int, err error) {
	where := map[string]any{"tank": tank, "deleted": nil}
	if sick != "" {
		where["sick"] = sick
	}
	rows, err := k.st.Load(ctx, "entry", where, "at, seq")
	if err != nil {
		return nil, 0, err
	}
	byDay := map[string]store.Row{}
	for _, p := range photos {
		if id := nearest(rows, p.at); id != "" {
			p.row["entry"] = id
			linked++
			continue
		}
		e, ok := byDay[p.at.Day()]
		if !ok {
			e = entryOps(tank, journal.Entry{ID: k.newID(), Kind: journal.Photo, At: p.at, Zone: p.zone})[0].After
			if p.zone == "" {
				e["zone"] = journal.ZoneOf(now)
			}
			e["sick"] = orNil(sick)
			byDay[p.at.Day()] = e
			made = append(made, store.Op{Table: "entry", After: e})
		}
		if string(p.at) < text(e["at"]) {
			e["at"] = string(p.at)
		}
		p.row["entry"] = e["id"]
	}
	return made, linked, nil
}

// nearest is the entry nearest to a time, within NearEntry, or "".
func nearest(entries []store.Row, at journal.Civil) string {
	t, err := at.Parse()
	if err != nil {
		return ""
	}
	id, least := "", NearEntry+1
	for _, e := range entries {
		was, err := journal.Civil(text(e["at"])).Parse()
		if err != nil {
			continue
		}
		if d := t.Sub(was).Abs(); d <= NearEntry && d < least {
			id, least = text(e["id"]), d
		}
	}
	return id
}

// SweepPhotos removes originals that neither a row nor the history names and
// that are older than photo.OrphanAge, and returns how many. AddPhotos does it
// once in a run. Errors: *store.OpError, *durable.WriteError.
func (k *Keeper) SweepPhotos(ctx context.Context) (int, error) {
	if why := k.ReadOnly(); why != nil {
		return 0, why
	}
	k.shelf.Lock()
	defer k.shelf.Unlock()
	named, err := k.st.HashesNamed(ctx)
	if err != nil {
		return 0, err
	}
	return k.originals.Sweep(ctx, named, k.now().Add(-photo.OrphanAge))
}
