package keeper

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"example.org/driploop/model/durable"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// BeginReply begins a reply to a visit slip: from this shop, made now, without any
// proposal yet.
func (k *Keeper) BeginReply(ctx context.Context, v slip.Visit) (slip.Reply, error) {
	shop, _, err := k.Shop(ctx)
	if err != nil {
		return slip.Reply{}, err
	}
	now := k.now()
	return slip.Reply{Version: slip.Version, MadeBy: maker(), ID: k.newID(), Visit: v.ID, Made: journal.CivilOf(now), Zone: journal.ZoneOf(now), Shop: shop}, nil
}

// CheckReply refuses a reply that could not be handed over: "reply" for one that says
// nothing, *slip.Error for what a reply cannot hold.
func CheckReply(r slip.Reply) error {
	if r.Empty() {
		return working.Refuse("reply", "refuse.keeper.reply_empty")
	}
	return r.Check()
}

// WriteReply writes a reply slip to path, whole or not at all, signed with this
// daybook's key. Errors: as CheckReply's; *durable.WriteError.
func (k *Keeper) WriteReply(ctx context.Context, r slip.Reply, path string) error {
	file, err := k.ReplyFile(ctx, r)
	if err != nil {
		return err
	}
	return durable.WriteFile(path, file, profileMode)
}

// ReplyFile is a reply slip as it is handed over, as a file or in the codes of a paper,
// signed with this daybook's key. Errors: as CheckReply's.
func (k *Keeper) ReplyFile(ctx context.Context, r slip.Reply) ([]byte, error) {
	if err := CheckReply(r); err != nil {
		return nil, err
	}
	key, err := k.signer(ctx)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = slip.WriteReply(&b, r, key)
	return b.Bytes(), err
}

// Items of a reply. A round or a change of the plan has its place behind it, counted
// from 1: round.1, plan.1.
const (
	ItemTest   = "test"
	ItemAdvice = "advice"
	itemRound  = "round"
	itemPlan   = "plan"
)

// ItemRound and ItemPlan name the n-th round and change of the plan, from 0.
func ItemRound(n int) string { return fmt.Sprintf("%s.%d", itemRound, n+1) }

// ItemPlan names the n-th change of the plan: see ItemRound.
func ItemPlan(n int) string { return fmt.Sprintf("%s.%d", itemPlan, n+1) }

// ReplyItem is one thing in a reply that can be taken or left.
type ReplyItem struct {
	ID    string
	Round *rounds.Round         // of a round, as it would be taken now
	Plan  *slip.ProposedAnimals // of a change of the plan
	// Taken is when it was taken; the zero time while it was not.
	Taken time.Time
	// Refused says why it cannot be taken here; nil where it can.
	Refused error
}

// ReplyView is a reply beside the tank that it is about.
type ReplyView struct {
	Reply slip.Reply
	// Tank is the tank whose visit slip it answers; empty where that is not known here,
	// so that the person says which.
	Tank  string
	Items []ReplyItem
	// Again is when something of it was first taken; the zero time where nothing was.
	Again time.Time
}

// Open lists the items that can be taken now.
func (v ReplyView) Open() []string {
	var out []string
	for _, x := range v.Items {
		if x.Taken.IsZero() && x.Refused == nil {
			out = append(out, x.ID)
		}
	}
	return out
}

// OpenReply reads the reply slip at path beside the tank whose visit it answers;
// nothing is taken yet. The findings are those of slip.ReadReply; the first says who
// signed it. Errors: *slip.Error.
func (k *Keeper) OpenReply(ctx context.Context, path string) (ReplyView, []working.Finding, error) {
	f, size, err := openSlip(ctx, path)
	if err != nil {
		return ReplyView{}, nil, err
	}
	defer f.Close()
	return k.openReply(ctx, f, size)
}

func (k *Keeper) openReply(ctx context.Context, from io.ReaderAt, size int64) (ReplyView, []working.Finding, error) {
	r, found, err := slip.ReadReply(from, size)
	if err != nil {
		return ReplyView{}, nil, err
	}
	standing, err := k.standing(ctx, r.Shop.Name, r.Signature)
	if err != nil {
		return ReplyView{}, nil, err
	}
	v, err := k.ReplyBeside(ctx, r, "")
	return v, append([]working.Finding{standing}, found...), err
}

// ReplyBeside looks at a reply beside a tank; empty is the one whose visit it answers.
// Refusal: no such tank.
func (k *Keeper) ReplyBeside(ctx context.Context, r slip.Reply, tank string) (ReplyView, error) {
	v := ReplyView{Reply: r}
	own, err := k.visitTank(ctx, r)
	if err != nil {
		return v, err
	}
	if v.Tank = own; own == "" {
		v.Tank = tank
	}
	if v.Tank != "" {
		if _, err := k.tankRow(ctx, v.Tank); err != nil {
			return v, err
		}
	}
	taken := map[string]time.Time{}
	rows, err := k.st.Load(ctx, "reply_taken", map[string]any{"reply": r.ID}, "at, item")
	if err != nil {
		return v, err
	}
	for i, row := range rows {
		at := unstamp(row["at"])
		if taken[text(row["item"])] = at; i == 0 {
			v.Again = at
		}
	}
	var wishes []Wish
	if v.Tank != "" {
		if wishes, err = k.Wishes(ctx, v.Tank); err != nil {
			return v, err
		}
	}
	add := func(x ReplyItem) {
		x.Taken = taken[x.ID]
		v.Items = append(v.Items, x)
	}
	if r.Test != nil {
		add(ReplyItem{ID: ItemTest})
	}
	if len(r.Advice) > 0 {
		add(ReplyItem{ID: ItemAdvice})
	}
	for i := range r.Rounds {
		x := ReplyItem{ID: ItemRound(i)}
		var round rounds.Round
		round, x.Refused = k.proposedRound(r.Rounds[i], k.now())
		x.Round = &round
		add(x)
	}
	for i := range r.Plan {
		x := ReplyItem{ID: ItemPlan(i), Plan: &r.Plan[i]}
		if v.Tank != "" && taken[x.ID].IsZero() {
			_, x.Refused = planned(wishes, r.Plan[i])
		}
		add(x)
	}
	return v, nil
}

// visitTank finds the tank whose visit a reply answers, or something of the reply was
// taken into; empty where neither is known or the tank is gone.
func (k *Keeper) visitTank(ctx context.Context, r slip.Reply) (string, error) {
	for _, at := range []struct{ table, id string }{{"visit", r.Visit}, {"reply", r.ID}} {
		rows, err := k.st.Load(ctx, at.table, map[string]any{"id": at.id}, "")
		if err != nil {
			return "", err
		}
		for _, row := range rows {
			tanks, err := k.st.Load(ctx, "tank", map[string]any{"id": row["tank"], "deleted": nil}, "")
			if err != nil {
				return "", err
			}
			if len(tanks) > 0 {
				return text(row["tank"]), nil
			}
		}
	}
	return "", nil
}

// planned is what is wished for after a change of the plan. Refusals: "species" (not
// of this catalogue), "wish" (nothing of it is wished for, or too much is), "count",
// "males".
func planned(wishes []Wish, p slip.ProposedAnimals) ([]Wish, error) {
	kind := fish.Code(p.Species)
	if _, err := fish.Get(kind); err != nil {
		return nil, working.Refuse("species", "refuse.fish.unknown")
	}
	out := slices.Clone(wishes)
	i := slices.IndexFunc(out, func(w Wish) bool { return w.Species == kind })
	switch {
	case p.Change == slip.PlanHold && i < 0:
		return nil, working.Refuse("wish", "refuse.keeper.reply_no_wish")
	case p.Change == slip.PlanHold:
		w := out[i]
		if p.Count == 0 || p.Count >= w.Count {
			return slices.Delete(out, i, i+1), nil
		}
		if w.Count -= p.Count; w.Males != nil && *w.Males > w.Count {
			w.Males = nil // who is held back is not known by sex
		}
		out[i] = w
		return out, nil
	case i < 0 && len(out) >= MaxWishes:
		return nil, working.Refuse("wish", "refuse.keeper.wishes")
	}
	w := Wish{Species: kind, Count: p.Count, Males: p.Males}
	if i >= 0 {
		was := out[i]
		w.ID, w.Added, w.Count = was.ID, was.Added, was.Count+p.Count
		if w.Males = nil; p.Males != nil && was.Males != nil {
			n := *p.Males + *was.Males
			w.Males = &n
		}
	}
	if err := w.check(); err != nil {
		return nil, err
	}
	if i >= 0 {
		out[i] = w
		return out, nil
	}
	return append(out, w), nil
}

// Took says what taking from a reply wrote.
type Took struct {
	Entry  string // id of the entry with the test, the advice or both; empty without
	Rounds int
	Plan   int // changes of what is wished for
}

// TakeReply takes items of a reply into a tank, as one change: the shop's test and its
// advice as an entry of the daybook that is the shop's, rounds, and changes of what is
// wished for. language is the one in which advice is kept, where the shop gave it.
// Refusals: "reply" (nothing chosen), the item's name (no such item, or taken already),
// "at" (a test of the future), and those of rounds and wishes. Nothing is changed then.
func (k *Keeper) TakeReply(ctx context.Context, tank string, r slip.Reply, items []string, language string) (Took, error) {
	var did Took
	if err := r.Check(); err != nil {
		return did, err
	}
	v, err := k.ReplyBeside(ctx, r, tank)
	if err != nil {
		return did, err
	}
	if v.Tank != tank {
		return did, working.Refuse("tank", "refuse.keeper.reply_tank")
	}
	if _, err := k.tankRow(ctx, tank); err != nil {
		return did, err
	}
	if len(items) == 0 {
		return did, working.Refuse("reply", "refuse.keeper.reply_none")
	}
	for i, id := range items {
		n := slices.IndexFunc(v.Items, func(x ReplyItem) bool { return x.ID == id })
		switch {
		case n < 0 || slices.Contains(items[:i], id):
			return did, working.Refuse(id, "refuse.keeper.reply_item")
		case !v.Items[n].Taken.IsZero():
			return did, working.Refuse(id, "refuse.keeper.reply_taken")
		}
	}
	now := k.now()
	ops, err := k.replyRowOps(ctx, tank, r, now)
	if err != nil {
		return did, err
	}
	more, entry, err := k.saidOps(tank, r, items, language, now)
	if err != nil {
		return did, err
	}
	did.Entry = entry
	ops = append(ops, more...)
	wishes, err := k.Wishes(ctx, tank)
	if err != nil {
		return did, err
	}
	was := slices.Clone(wishes)
	for _, x := range v.Items { // in the order of the reply, whatever was pressed first
		if !slices.Contains(items, x.ID) {
			continue
		}
		switch {
		case x.Round != nil:
			if x.Refused != nil {
				return did, x.Refused
			}
			x.Round.ID = k.newID()
			ops = append(ops, store.Op{Table: "round", After: k.roundRow(tank, *x.Round)})
			did.Rounds++
		case x.Plan != nil:
			if wishes, err = planned(wishes, *x.Plan); err != nil {
				return did, err
			}
			did.Plan++
		}
		ops = append(ops, store.Op{Table: "reply_taken", After: store.Row{"reply": r.ID, "item": x.ID, "at": stamp(now)}})
	}
	ops = append(ops, k.wishOps(tank, was, wishes, now)...)
	return did, k.apply(ctx, store.Change{Tank: tank, Label: "undo.reply_take", At: stamp(now), Ops: ops})
}

// replyRowOps keep the reply itself with the first that is taken of it.
func (k *Keeper) replyRowOps(ctx context.Context, tank string, r slip.Reply, at time.Time) ([]store.Op, error) {
	rows, err := k.st.Load(ctx, "reply", map[string]any{"id": r.ID}, "")
	if err != nil || len(rows) > 0 {
		return nil, err
	}
	return []store.Op{{Table: "reply", After: store.Row{"id": r.ID, "tank": tank, "visit": r.Visit, "name": r.Shop.Name, "address": r.Shop.Address, "hours": r.Shop.Hours,
		"thumbprint": orNil(r.Signature.Thumbprint), "made": string(r.Made), "at": stamp(at)}}}, nil
}

// saidOps write the shop's test and its advice as one entry, or the one that is taken.
func (k *Keeper) saidOps(tank string, r slip.Reply, items []string, language string, now time.Time) ([]store.Op, string, error) {
	test, advice := slices.Contains(items, ItemTest), slices.Contains(items, ItemAdvice)
	if !test && !advice {
		return nil, "", nil
	}
	e := journal.Entry{ID: k.newID(), Kind: journal.Note, At: journal.CivilOf(now), Zone: journal.ZoneOf(now), Reply: r.ID}
	if test {
		e.Kind, e.At, e.Zone, e.Readings = journal.Tested, r.Test.At, r.Test.Zone, r.Test.Readings
	}
	if advice {
		e.Note, _ = AdviceIn(r.Advice, language)
	}
	if err := checkEntry(e, now); err != nil {
		return nil, "", err
	}
	return entryOps(tank, e), e.ID, nil
}

// AdviceIn gives a text by language in the one asked for, or else in one of the same
// base, in English or in the first there is, and says in which.
func AdviceIn(by map[string]string, language string) (text, lang string) {
	base, _, _ := strings.Cut(language, "-")
	langs := slices.Sorted(keysOf(by))
	for _, fits := range []func(string) bool{
		func(l string) bool { return l == language },
		func(l string) bool { b, _, _ := strings.Cut(l, "-"); return b == base },
		func(l string) bool { return l == "en" },
		func(string) bool { return true },
	} {
		if i := slices.IndexFunc(langs, fits); i >= 0 {
			return by[langs[i]], langs[i]
		}
	}
	return "", ""
}

// proposedRound is a proposed round from today on; its ID is empty.
func (k *Keeper) proposedRound(p slip.ProposedRound, now time.Time) (rounds.Round, error) {
	rule, err := rounds.ParseRule(p.Rule)
	r := rounds.Round{Code: p.Code, Title: p.Title, Rule: rule, Start: p.Start, Note: p.Why, FromShop: true}
	if err != nil {
		return r, err
	}
	today := rounds.Wall(now)
	if r.Start == "" {
		r.Start = journal.Civil(today.Format(time.DateOnly) + "T" + usualTime)
	}
	if len([]rune(strings.Join(strings.Fields(r.Note), " "))) > MaxRoundWords { // a shop may say more than fits below a round
		r.Note = string([]rune(strings.Join(strings.Fields(r.Note), " "))[:MaxRoundWords-1]) + "…"
	}
	if r, err = k.checkRound(r); err != nil {
		return r, err
	}
	if at, err := r.Start.Parse(); err == nil && !rule.Single() {
		if at.Before(today) {
			at = today
		}
		r.Start = rounds.Align(rule, r.Start, at)
	}
	return r, nil
}

// usualTime is when a round begins whose shop did not say. Judgement: an evening, when
// people are at home.
const usualTime = "18:00"

// wishOps bring what is wished for from was to now.
func (k *Keeper) wishOps(tank string, was, now []Wish, at time.Time) []store.Op {
	var ops []store.Op
	for _, w := range was {
		i := slices.IndexFunc(now, func(n Wish) bool { return n.ID == w.ID })
		switch {
		case i < 0:
			ops = append(ops, store.Op{Table: "wish", Before: store.Row{"id": w.ID, "deleted": nil}, After: store.Row{"id": w.ID, "deleted": stamp(at)}})
		case now[i].Count != w.Count || malesOf(now[i]) != malesOf(w):
			ops = append(ops, store.Op{Table: "wish", Before: store.Row{"id": w.ID, "count": int64(w.Count), "males": malesOf(w)},
				After: store.Row{"id": w.ID, "count": int64(now[i].Count), "males": malesOf(now[i])}})
		}
	}
	for _, n := range now {
		if n.ID == "" {
			ops = append(ops, store.Op{Table: "wish", After: store.Row{"id": k.newID(), "tank": tank, "species": string(n.Species), "count": int64(n.Count), "males": malesOf(n), "added": stamp(at)}})
		}
	}
	return ops
}

// ReplyFrom tells who made the reply that an entry came from; false for an entry of the
// keeper's own.
func (k *Keeper) ReplyFrom(ctx context.Context, e journal.Entry) (slip.Shop, bool, error) {
	if e.Reply == "" {
		return slip.Shop{}, false, nil
	}
	rows, err := k.st.Load(ctx, "reply", map[string]any{"id": e.Reply}, "")
	if err != nil || len(rows) == 0 {
		return slip.Shop{}, false, err
	}
	return slip.Shop{Name: text(rows[0]["name"]), Address: text(rows[0]["address"]), Hours: text(rows[0]["hours"])}, true, nil
}
