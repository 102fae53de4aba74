package keeper

import (
	"context"

	"strings"
	"unicode"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/store"
)

// SetNames tells what people call the kinds of the catalogue, so that a kind can be
// told from a person's words; nil leaves the catalogue's own names.
func (k *Keeper) SetNames(names func(fish.Code) []string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.names = names
}

// KindTold is the kind of the catalogue that words name, as one of its names or as
// the only kind that they lead to. It reports false where they leave it open.
func (k *Keeper) KindTold(words string) (fish.Code, bool) {
	k.mu.Lock()
	names := k.names
	k.mu.Unlock()
	if plain(words) == "" {
		return "", false
	}
	found := fish.Find(fish.Filter{Text: words}, names)
	for _, a := range found {
		all := append([]string{a.Scientific, a.Common}, a.Also...)
		if names != nil {
			all = append(all, names(a.Code)...)
		}
		for _, n := range all {
			if plain(n) == plain(words) {
				return a.Code, true
			}
		}
	}
	if len(found) == 1 {
		return found[0].Code, true
	}
	return "", false
}

// plain is words without case and marks between them.
func plain(s string) string {
	return strings.ToLower(strings.Join(strings.FieldsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), " "))
}

// stepStock takes the fish that a step of First fill writes of into the stock, under
// their kind where the words tell it and else under the words.
func (k *Keeper) stepStock(ctx context.Context, tank string, e journal.Entry) ([]store.Op, error) {
	count, ok := e.Get(journal.NameCount)
	v, known := count.Value()
	if e.Kind != journal.FishIn || !ok || !known || v.X < 1 {
		return nil, nil
	}
	a := Newcomers{Count: int(v.X)}
	if code, told := k.KindTold(e.Note); told {
		a.Species = string(code)
	} else if name, err := checkFish(e.Note); err == nil { // words too long for a name stay in the entry
		a.Name = name
	}
	return k.settle(ctx, tank, a, e)
}
