package keeper

import (
	"context"
	"sync"
	"time"

	"github.com/google/uuid"

	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Options of Open.
type Options struct {
	// Now is the present time, with the zone of the clock on the wall. Required.
	Now func() time.Time
	// Steady reads a clock that nobody sets and that goes on while the machine
	// sleeps, from whatever beginning. Waits are counted by it. nil counts them by
	// what Now tells between two calls.
	Steady func() time.Duration
	// NewID makes keys; nil makes UUIDv7.
	NewID func() string
	// Region is where the mains and the words for them come from.
	Region care.Region
}

// Keeper is the open daybook.
type Keeper struct {
	st    *store.Store
	now   func() time.Time
	newID func() string

	decoder   *photo.Decoder
	originals *photo.Originals
	sweep     sync.Once    // originals that no row names, once in a run
	shelf     sync.RWMutex // read-locked from an original's writing to its row's

	mu      sync.Mutex
	region  care.Region
	names   func(fish.Code) []string // what people call the kinds; nil is not told
	records map[string]*care.Record  // as read; never changed, but dropped
	worked  map[string]*solved       // by tank; holds for the record it was made of
	waits   waits                    // the timers that run: see waits.go

	books    map[string][]journal.Entry // by tank; nil before they are read: see book.go
	pictures map[string]*pictures       // by tank: see ledger.go
	cards    map[string]journal.TestKit // all kits; nil before they are read: see kits.go

	desk deskAt // of the shop: see visitdesk.go
}

// Open opens the data folder. Errors: *store.OpenError.
func Open(ctx context.Context, dir string, o Options) (*Keeper, error) {
	st, err := store.Open(ctx, dir, store.Options{Now: o.Now})
	if err != nil {
		return nil, err
	}
	k := &Keeper{st: st, now: o.Now, newID: o.NewID, region: o.Region, records: map[string]*care.Record{}, worked: map[string]*solved{}}
	k.waits.begin(o)
	k.forget()
	k.decoder, k.originals = photo.NewDecoder(photo.Usual()), photo.OriginalsIn(st.Dir())
	if k.newID == nil {
		k.newID = func() string { return uuid.Must(uuid.NewV7()).String() }
	}
	return k, nil
}

// Close brings everything to rest. Running timers are noted first.
func (k *Keeper) Close() error {
	k.TickTimers(context.Background())
	k.desk.Lock()
	k.desk.shut()
	k.desk.Unlock()
	return k.st.Close()
}

// ReadOnly says why nothing can be changed, nil when it can.
func (k *Keeper) ReadOnly() *store.OpenError { return k.st.ReadOnly() }

// Dir is the data folder.
func (k *Keeper) Dir() string { return k.st.Dir() }

// Verify checks the whole database.
func (k *Keeper) Verify(ctx context.Context) (store.Report, error) { return k.st.Verify(ctx) }

// Snapshot copies the database into the folder of snapshots.
func (k *Keeper) Snapshot(ctx context.Context) (string, error) { return k.st.Snapshot(ctx) }

// SetRegion changes the region that words and mains follow.
func (k *Keeper) SetRegion(r care.Region) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if r == k.region {
		return
	}
	k.region = r
	k.records = map[string]*care.Record{}
}

// Setting reads a setting; ok is false when it was never set.
func (k *Keeper) Setting(ctx context.Context, name string) (string, bool, error) {
	return k.st.Setting(ctx, name)
}

// SetSetting keeps a setting at once.
func (k *Keeper) SetSetting(ctx context.Context, name, value string) error {
	return k.st.SetSetting(ctx, name, value)
}

// Blocked says that a step is not finished yet, and what it waits for.
type Blocked struct {
	Step     care.Step
	Findings []working.Finding
}

// Error implements error for logs.
func (b *Blocked) Error() string {
	s := "keeper: " + string(b.Step) + " waits"
	for _, f := range b.Findings {
		s += " " + string(f.Code)
	}
	return s
}

func stamp(t time.Time) string { return t.UTC().Format(time.RFC3339) }

func unstamp(v any) time.Time {
	s, _ := v.(string)
	t, _ := time.Parse(time.RFC3339, s)
	return t
}

func text(v any) string {
	s, _ := v.(string)
	return s
}

// orNil keeps an empty text as missing.
func orNil(s string) any {
	if s == "" {
		return nil
	}
	return s
}

// Resume goes on writing where the daybook was opened for reading only because
// nothing could be written, once that is possible again, and reports whether it can
// be written. Errors: *store.OpenError.
func (k *Keeper) Resume(ctx context.Context) (bool, error) { return k.st.Resume(ctx) }

// Room tells how many bytes are free on the disk, and how many are needed to go on.
func (k *Keeper) Room() (free, need uint64, err error) { return k.st.Room() }
