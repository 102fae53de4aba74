package keeper

import (
	"context"
	"os"

	"example.org/driploop/model/care"
	"example.org/driploop/model/store"
)

// TakenAway tells that the daybook's file was moved, replaced, deleted or written over
// while it is open; nil while it stands where it was. See store.Store.Gone.
func (k *Keeper) TakenAway() *store.OpError { return k.st.Gone() }

// Returned is what PutBack did.
type Returned struct {
	Snapshot string // what was held, as a copy of its own; "" where the file was back already
	Missing  int    // pictures whose file is not in the folder any more
}

// PutBack puts a daybook that was taken away back where it was and goes on with it. Errors:
// as store.Store.PutBack's.
func (k *Keeper) PutBack(ctx context.Context) (r Returned, err error) {
	if r.Snapshot, err = k.st.PutBack(ctx); err != nil {
		return r, err
	}
	rows, err := k.st.Load(ctx, "photo", nil, "hash")
	if err != nil {
		return r, err
	}
	last := ""
	for _, row := range rows {
		hash := text(row["hash"])
		path, err := k.originals.Path(hash)
		if hash == last || err != nil {
			continue
		}
		last = hash
		if _, err := os.Stat(path); err != nil {
			r.Missing++
		}
	}
	return r, nil
}

// TakeThere goes on with the file that another program wrote over the daybook, and
// returns the folder where a copy of it is kept. Errors: as store.Store.TakeThere's.
func (k *Keeper) TakeThere(ctx context.Context) (string, error) {
	aside, err := k.st.TakeThere(ctx)
	k.anew()
	return aside, err
}

// anew forgets all that was read of the daybook.
func (k *Keeper) anew() {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.records, k.worked = map[string]*care.Record{}, map[string]*solved{}
	k.forget()
}
