package keeper

import (
	"context"
	"slices"
	"sort"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
)

// The journals of all tanks are read once and then kept up to date: after a change only
// the entries that it touched are read again. What was handed out is never
// changed, so that whoever looks at it sees one moment.

// mostPatched is how many entries are read again one by one; a larger change,
// such as an archive taken, has the whole journal read anew. // judgement
const mostPatched = 2000

// entries is the tank's entries that are not in the bin, earliest first. The
// caller has locked k.
func (k *Keeper) entries(ctx context.Context, tank string) ([]journal.Entry, error) {
	if k.books == nil {
		if err := k.readBooks(ctx); err != nil {
			return nil, err
		}
	}
	return slices.Clip(k.books[tank]), nil
}

// entryColumns and valueColumns are what an entry is made of, in the order in
// which fillEntry and fillReading take them.
var (
	entryColumns = []string{"id", "kind", "at", "zone", "seq", "note", "step", "edited", "sick", "tank", "reply"}
	valueColumns = []string{"entry", "name", "text", "unit", "basis", "qualifier", "kit"}
)

// same keeps one copy of the texts that come again and again.
type same map[string]string

func (s same) text(v any) string {
	t, _ := v.(string)
	if t == "" {
		return ""
	}
	if one, ok := s[t]; ok {
		return one
	}
	s[t] = t
	return t
}

func (s same) entry(v []any) journal.Entry {
	seq, _ := v[4].(int64)
	return journal.Entry{ID: text(v[0]), Kind: journal.Kind(s.text(v[1])), At: journal.Civil(text(v[2])), Zone: s.text(v[3]), Seq: seq,
		Note: text(v[5]), Step: s.text(v[6]), Edited: text(v[7]), Sick: s.text(v[8]), Reply: s.text(v[10])}
}

func (s same) reading(v []any) journal.Reading {
	return journal.Reading{Name: s.text(v[1]), Qualifier: journal.Qualifier(s.text(v[5])), Kit: s.text(v[6]),
		Measure: quantity.Measure{Number: s.text(v[2]), Unit: quantity.UnitCode(s.text(v[3])), Basis: quantity.Basis(s.text(v[4]))}}
}

// readBooks reads the journals of all tanks in one go: entries and readings both
// come in the order of the entries' keys, in which the engine holds them, and run
// side by side.
func (k *Keeper) readBooks(ctx context.Context) error {
	s := same{}
	var all []journal.Entry
	var tanks []string
	err := k.st.Each(ctx, store.Query{Table: "entry", Columns: append(slices.Clone(entryColumns), "deleted"), Order: "id"}, func(v []any) error {
		if v[11] == nil {
			all, tanks = append(all, s.entry(v)), append(tanks, s.text(v[9]))
		}
		return nil
	})
	if err != nil {
		return err
	}
	var readings []journal.Reading
	ends := make([]int, 0, len(all)) // of each entry's readings
	err = k.st.Each(ctx, store.Query{Table: "entry_value", Columns: valueColumns, Order: "entry, name"}, func(v []any) error {
		id := text(v[0])
		for len(ends) < len(all) && all[len(ends)].ID < id {
			ends = append(ends, len(readings))
		}
		if n := len(ends); n < len(all) && all[n].ID == id {
			readings = append(readings, s.reading(v))
		}
		return nil
	})
	if err != nil {
		return err
	}
	for len(ends) < len(all) {
		ends = append(ends, len(readings))
	}
	count := map[string]int{}
	for _, t := range tanks {
		count[t]++
	}
	books := make(map[string][]journal.Entry, len(count))
	for t, n := range count {
		books[t] = make([]journal.Entry, 0, n)
	}
	from := 0
	for i := range all {
		if ends[i] > from {
			all[i].Readings = readings[from:ends[i]:ends[i]]
		}
		from = ends[i]
		books[tanks[i]] = append(books[tanks[i]], all[i])
	}
	for _, es := range books {
		journal.Sort(es)
	}
	k.books = books
	return nil
}

// follow brings the journals that are held up to date with a change that was
// made, or taken back. The caller has locked k.
func (k *Keeper) follow(ctx context.Context, ops []store.Op) {
	touched := map[string]bool{}
	for _, o := range ops {
		for _, r := range []store.Row{o.Before, o.After} {
			if r == nil {
				continue
			}
			switch o.Table {
			case "entry":
				touched[text(r["id"])] = true
			case "entry_value":
				touched[text(r["entry"])] = true
			case "photo":
				k.pictures = map[string]*pictures{}
			case "kit":
				k.cards = nil
			}
		}
	}
	if len(touched) == 0 || k.books == nil {
		return
	}
	if len(touched) > mostPatched {
		k.books = nil
		return
	}
	fresh, err := k.readAgain(ctx, touched)
	if err != nil { // the change stands; the next look reads all and tells of the failure
		k.books = nil
		return
	}
	for tank := range fresh {
		if _, ok := k.books[tank]; !ok {
			k.books[tank] = nil
		}
	}
	for tank, es := range k.books {
		k.books[tank] = patched(es, touched, fresh[tank])
	}
}

// readAgain reads the entries of some ids that are not in the bin, by tank.
func (k *Keeper) readAgain(ctx context.Context, ids map[string]bool) (map[string][]journal.Entry, error) {
	among := make([]string, 0, len(ids))
	for id := range ids {
		among = append(among, id)
	}
	s, readings := same{}, map[string][]journal.Reading{}
	err := k.st.Each(ctx, store.Query{Table: "entry_value", Columns: valueColumns, Column: "entry", Among: among, Order: "entry, name"}, func(v []any) error {
		id := text(v[0])
		readings[id] = append(readings[id], s.reading(v))
		return nil
	})
	if err != nil {
		return nil, err
	}
	out := map[string][]journal.Entry{}
	err = k.st.Each(ctx, store.Query{Table: "entry", Columns: entryColumns, Where: map[string]any{"deleted": nil}, Column: "id", Among: among}, func(v []any) error {
		e := s.entry(v)
		e.Readings = readings[e.ID]
		out[text(v[9])] = append(out[text(v[9])], e)
		return nil
	})
	for _, es := range out {
		journal.Sort(es)
	}
	return out, err
}

// patched is es without the touched entries and with fresh ones at their places.
func patched(es []journal.Entry, touched map[string]bool, fresh []journal.Entry) []journal.Entry {
	gone := 0
	for i := range es {
		if touched[es[i].ID] {
			gone++
		}
	}
	if gone == 0 && len(fresh) == 0 {
		return es
	}
	if n := len(es); gone == 0 && (n == 0 || before(&es[n-1], &fresh[0])) {
		return append(es, fresh...) // who holds es was given no room to write here
	}
	out := make([]journal.Entry, 0, len(es)-gone+len(fresh)+64) // room for the next few
	at := 0
	for i := range fresh {
		to := at + sort.Search(len(es)-at, func(j int) bool { return before(&fresh[i], &es[at+j]) })
		out = without(out, es[at:to], touched)
		out, at = append(out, fresh[i]), to
	}
	return without(out, es[at:], touched)
}

func without(out, es []journal.Entry, touched map[string]bool) []journal.Entry {
	for i := range es {
		if !touched[es[i].ID] {
			out = append(out, es[i])
		}
	}
	return out
}

// before tells the order of the journal: by civil time, then by insertion.
func before(a, b *journal.Entry) bool {
	if a.At != b.At {
		return a.At < b.At
	}
	return a.Seq < b.Seq
}
