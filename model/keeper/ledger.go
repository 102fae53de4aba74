package keeper

import (
	"context"
	"slices"
	"sort"
	"strings"
	"unicode"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/store"
)

// LedgerFilter chooses entries of the daybook; empty fields choose all.
type LedgerFilter struct {
	Kind journal.Kind
	// Fish is the id of a fish: entries of its cases, with a picture of it, that
	// changed its number or measured it, or that name it.
	Fish string
	// Text is what to look for in notes, in words typed with readings and in what
	// stands below pictures: each of its words, at the beginning of a word. Accents
	// and case make no difference.
	Text string
}

// Any reports whether the filter leaves anything out.
func (f LedgerFilter) Any() bool { return f != LedgerFilter{} }

// Ledger is the entries that a filter chose, the newest first, as they stood at
// one moment. It may be read by several goroutines.
type Ledger struct {
	entries  []journal.Entry // of the whole tank, earliest first
	chosen   []int32         // in entries, newest first
	pictures *pictures
}

// DayCount is what a day of the ledger holds.
type DayCount struct {
	Date            string // 2026-11-25
	Entries         int
	Tested, Changed bool
}

// Picture is a picture as a row of the ledger shows it.
type Picture struct {
	ID, Hash string
	Turned   int
	Caption  string
}

// pictures are the pictures of a tank by entry.
type pictures struct {
	of   map[string][]Picture
	fish map[string][]string // entries with a picture of a fish
}

// Ledger lists the daybook of a tank through a filter. It reads no more than
// what changed since the last time, so it may be asked on every key typed.
// Errors: those of an unknown tank; *store.OpError.
func (k *Keeper) Ledger(ctx context.Context, tank string, f LedgerFilter) (*Ledger, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return nil, err
	}
	l := &Ledger{entries: r.Entries}
	if l.pictures, err = k.picturesOf(ctx, tank); err != nil {
		return nil, err
	}
	takes := []func(*journal.Entry) bool{}
	if f.Kind != "" {
		takes = append(takes, func(e *journal.Entry) bool { return e.Kind == f.Kind })
	}
	if f.Fish != "" {
		of, err := k.ofFish(ctx, tank, f.Fish, l.pictures)
		if err != nil {
			return nil, err
		}
		takes = append(takes, of)
	}
	if strings.TrimSpace(f.Text) != "" {
		holds, err := k.holding(ctx, f.Text, l)
		if err != nil {
			return nil, err
		}
		takes = append(takes, holds)
	}
	l.chosen = make([]int32, 0, len(l.entries))
entries:
	for i := len(l.entries) - 1; i >= 0; i-- {
		for _, take := range takes {
			if !take(&l.entries[i]) {
				continue entries
			}
		}
		l.chosen = append(l.chosen, int32(i))
	}
	return l, nil
}

// ofFish chooses the entries about a fish.
func (k *Keeper) ofFish(ctx context.Context, tank, fish string, p *pictures) (func(*journal.Entry) bool, error) {
	row, err := k.fishRow(ctx, tank, fish)
	if err != nil {
		return nil, err
	}
	cases := map[string]bool{}
	if err := k.st.Each(ctx, store.Query{Table: "sick", Columns: []string{"id"}, Where: map[string]any{"tank": tank, "fish": fish, "deleted": nil}}, func(v []any) error {
		cases[text(v[0])] = true
		return nil
	}); err != nil {
		return nil, err
	}
	shown := map[string]bool{}
	for _, id := range p.fish[fish] {
		shown[id] = true
	}
	tied, err := k.tiedTo(ctx, "fish", fish)
	if err != nil {
		return nil, err
	}
	for _, t := range tied {
		shown[t.entry] = true
	}
	name := journal.Folded(text(row["name"]))
	return func(e *journal.Entry) bool {
		return e.Sick != "" && cases[e.Sick] || shown[e.ID] || saysWord(e, name, func(text, name string) bool { return wholeWord(text, name) })
	}, nil
}

// holding chooses the entries in whose words a text is found: by the index of
// words, beside it letter by letter where a script has no gaps between words, and
// below pictures and in readings that are words, which the index does not hold.
func (k *Keeper) holding(ctx context.Context, typed string, l *Ledger) (func(*journal.Entry) bool, error) {
	words := strings.Fields(journal.Folded(typed))
	whole := slices.ContainsFunc(words, unbroken)
	found := map[int64]bool{}
	if !whole {
		seqs, err := k.st.SearchEntries(ctx, typed)
		if err != nil {
			return nil, err
		}
		for _, n := range seqs {
			found[n] = true
		}
	}
	all := func(text string) bool {
		for _, w := range words {
			if whole && !strings.Contains(text, w) || !whole && !beginsWord(text, w) {
				return false
			}
		}
		return true
	}
	captioned := map[string]bool{}
	for id, of := range l.pictures.of {
		for _, p := range of {
			if p.Caption != "" && all(journal.Folded(p.Caption)) {
				captioned[id] = true
			}
		}
	}
	return func(e *journal.Entry) bool {
		if found[e.Seq] || captioned[e.ID] {
			return true
		}
		if whole && e.Note != "" && all(journal.Folded(e.Note)) {
			return true
		}
		for i := range e.Readings {
			if r := &e.Readings[i]; r.Measure.Unit == "" && r.Name == journal.NameWhat && all(journal.Folded(r.Measure.Number)) {
				return true
			}
		}
		return false
	}, nil
}

// saysWord reports whether the note or a word of the readings has w.
func saysWord(e *journal.Entry, w string, has func(text, w string) bool) bool {
	if w == "" {
		return false
	}
	if e.Note != "" && has(journal.Folded(e.Note), w) {
		return true
	}
	for i := range e.Readings {
		if e.Readings[i].Name == journal.NameWhat && has(journal.Folded(e.Readings[i].Measure.Number), w) {
			return true
		}
	}
	return false
}

// unbroken reports whether a word is of a script that is written without gaps
// between words, in which nothing tells where one begins.
func unbroken(w string) bool {
	return strings.ContainsFunc(w, func(r rune) bool {
		return unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul, unicode.Thai, unicode.Lao, unicode.Khmer, unicode.Myanmar)
	})
}

func letter(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) }

// beginsWord reports whether w stands in text at the beginning of a word.
func beginsWord(text, w string) bool {
	for at := 0; ; {
		i := strings.Index(text[at:], w)
		if i < 0 {
			return false
		}
		i += at
		if last := strings.TrimRightFunc(text[:i], letter); len(last) == i {
			return true
		}
		at = i + len(w)
	}
}

// wholeWord reports whether w stands in text with no letter before or behind it.
func wholeWord(text, w string) bool {
	for at := 0; ; {
		i := strings.Index(text[at:], w)
		if i < 0 {
			return false
		}
		i += at
		end := i + len(w)
		if len(strings.TrimRightFunc(text[:i], letter)) == i && len(strings.TrimLeftFunc(text[end:], letter)) == len(text)-end {
			return true
		}
		at = end
	}
}

// picturesOf is the pictures of a tank, read once until one of them changes.
func (k *Keeper) picturesOf(ctx context.Context, tank string) (*pictures, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if p, ok := k.pictures[tank]; ok {
		return p, nil
	}
	p := &pictures{of: map[string][]Picture{}, fish: map[string][]string{}}
	err := k.st.Each(ctx, store.Query{Table: "photo", Columns: []string{"id", "entry", "fish", "hash", "turned", "caption"},
		Where: map[string]any{"tank": tank, "deleted": nil}, Order: "taken, added, id"}, func(v []any) error {
		entry, fish := text(v[1]), text(v[2])
		turned, _ := v[4].(int64)
		if entry != "" {
			p.of[entry] = append(p.of[entry], Picture{ID: text(v[0]), Hash: text(v[3]), Turned: int(turned), Caption: text(v[5])})
			if fish != "" {
				p.fish[fish] = append(p.fish[fish], entry)
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	k.pictures[tank] = p
	return p, nil
}

// Len is how many entries were chosen, All how many there are.
func (l *Ledger) Len() int { return len(l.chosen) }

// All is how many entries there are, chosen or not.
func (l *Ledger) All() int { return len(l.entries) }

// Entry is the chosen entry at a place, 0 the newest. Its readings are not to be
// changed.
func (l *Ledger) Entry(i int) journal.Entry { return l.entries[l.chosen[i]] }

// Pictures are those of the chosen entry at a place.
func (l *Ledger) Pictures(i int) []Picture { return l.pictures.of[l.entries[l.chosen[i]].ID] }

// Place finds a chosen entry by its id.
func (l *Ledger) Place(id string) (int, bool) {
	for i, n := range l.chosen {
		if l.entries[n].ID == id {
			return i, true
		}
	}
	return 0, false
}

// Day is the civil date of the chosen entry at a place.
func (l *Ledger) Day(i int) string { return l.entries[l.chosen[i]].At.Day() }

// PlaceOfDay is the place of the newest chosen entry of a day, or where there is
// none of the day, of the nearest earlier one; Len where all are later.
func (l *Ledger) PlaceOfDay(date string) int {
	return sort.Search(len(l.chosen), func(i int) bool { return l.Day(i) <= date })
}

// Kind is that of the chosen entry at a place.
func (l *Ledger) Kind(i int) journal.Kind { return l.entries[l.chosen[i]].Kind }

// Days counts the chosen entries of the days from first to last, both included;
// days without any are left out. Earliest first.
func (l *Ledger) Days(first, last string) []DayCount {
	var out []DayCount
	for i := l.PlaceOfDay(last); i < len(l.chosen) && l.Day(i) >= first; i++ {
		e := &l.entries[l.chosen[i]]
		if n := len(out); n == 0 || out[n-1].Date != e.At.Day() {
			out = append(out, DayCount{Date: e.At.Day()})
		}
		d := &out[len(out)-1]
		d.Entries++
		d.Tested = d.Tested || e.Kind == journal.Tested
		d.Changed = d.Changed || e.Kind == journal.Changed
	}
	slices.Reverse(out)
	return out
}
