package keeper

import (
	"context"
	"encoding/json"
	"strings"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

func (a BagAsk) row() (store.Row, int, error) {
	n, err := a.check()
	if err != nil {
		return nil, 0, err
	}
	given, err := json.Marshal(bagBody{a.Count, a.BagGiven})
	if err != nil {
		return nil, 0, err
	}
	return store.Row{"name": a.Name, "species": orNil(a.Species), "count": int64(n), "way": a.Way, "given": string(given)}, n, nil
}

func (k *Keeper) bagChange(tank, label, name string, now time.Time, ops ...store.Op) store.Change {
	return store.Change{Tank: tank, Label: label, Values: map[string]string{"Name": name}, At: stamp(now), Ops: ops}
}

// OpenBag adds a bag that came home. Refusals: as PlanBag; a name that is missing
// or overlong ("name"), an unknown kind ("species"), a count outside 1 to MaxFish
// ("count"), more males than animals ("males"), a length ("length").
func (k *Keeper) OpenBag(ctx context.Context, tank string, a BagAsk) (string, error) {
	ids, err := k.OpenBags(ctx, tank, []BagAsk{a})
	if err != nil {
		return "", err
	}
	return ids[0], nil
}

// OpenBags adds the bags of one purchase as one change, and returns their ids; no
// bags are no change. Refusals: as OpenBag, of the first that cannot be.
func (k *Keeper) OpenBags(ctx context.Context, tank string, asks []BagAsk) ([]string, error) {
	now := k.now()
	var ids, names []string
	var ops []store.Op
	for _, a := range asks {
		row, _, err := a.row()
		if err != nil {
			return nil, err
		}
		if _, err := k.PlanBag(ctx, tank, a); err != nil {
			return nil, err
		}
		row["id"], row["tank"], row["steps"] = k.newID(), tank, "{}"
		row["opened"], row["zone"] = string(journal.CivilOf(now)), journal.ZoneOf(now)
		ids, names, ops = append(ids, text(row["id"])), append(names, text(row["name"])), append(ops, store.Op{Table: "bag", After: row})
	}
	if len(ops) == 0 {
		return nil, nil
	}
	return ids, k.apply(ctx, k.bagChange(tank, "undo.bag_open", strings.Join(names, ", "), now, ops...))
}

// openBag is a bag that is on its way. Refusals: there is none, or it is closed.
func (k *Keeper) openBag(ctx context.Context, tank, id string) (BagView, store.Row, error) {
	row, err := k.bagRow(ctx, tank, id)
	if err != nil {
		return BagView{}, nil, err
	}
	if text(row["closed"]) != "" {
		return BagView{}, nil, working.Refuse("bag", "refuse.keeper.bag_closed")
	}
	v, err := k.BagOf(ctx, tank, id)
	return v, row, err
}

// ChangeBag says anew what a bag holds and what was measured. A wait under way
// goes on with the new time; another way ends it. Refusals: as OpenBag, and there
// is no such bag on its way.
func (k *Keeper) ChangeBag(ctx context.Context, tank, id string, a BagAsk) error {
	v, was, err := k.openBag(ctx, tank, id)
	if err != nil {
		return err
	}
	after, _, err := a.row()
	if err != nil {
		return err
	}
	plan, err := k.PlanBag(ctx, tank, a)
	if err != nil {
		return err
	}
	before, same := store.Row{"id": id}, true
	for c, x := range after {
		before[c] = was[c]
		same = same && x == was[c]
	}
	if same {
		return nil
	}
	after["id"] = id
	now := k.now()
	c := k.bagChange(tank, "undo.bag_change", text(after["name"]), now, store.Op{Table: "bag", Before: before, After: after})
	if t := v.Timer; t != nil {
		if t.Kind != timerOf(plan.Way) {
			c.Ops = append(c.Ops, endTimer(*t, now))
		} else if due := t.Started.Add(waitOf(plan)); !due.Equal(t.Started.Add(t.Wait)) {
			c.Ops = append(c.Ops, store.Op{Table: "timer", Before: store.Row{"id": t.ID, "due": stamp(t.Started.Add(t.Wait))}, After: store.Row{"id": t.ID, "due": stamp(due)}})
		}
	}
	return k.apply(ctx, c)
}

func timerOf(w care.BagWay) care.TimerKind {
	if w == care.BagDrips {
		return care.TimerDrip
	}
	return care.TimerFloat
}

func waitOf(p care.BagPlan) time.Duration {
	return time.Duration(float64(p.Wait) * float64(time.Second)).Round(time.Second)
}

// TickBag notes a step of a bag as done now, or takes it back. With the step that
// waits, its timer begins or ends; moving the animals over ends it too. Refusals:
// there is no such bag on its way, or no such step ("step").
func (k *Keeper) TickBag(ctx context.Context, tank, id string, step care.BagStep, done bool) error {
	v, row, err := k.openBag(ctx, tank, id)
	if err != nil {
		return err
	}
	if v.Refused != nil {
		return v.Refused
	}
	known := false
	for _, s := range v.Plan.Steps {
		known = known || s == step
	}
	if !known {
		return working.Refuse("step", "refuse.keeper.bag_step")
	}
	if _, was := v.Done[step]; was == done {
		return nil
	}
	now := k.now()
	if done {
		v.Done[step] = now
	} else {
		delete(v.Done, step)
	}
	steps, err := stepsText(v.Done)
	if err != nil {
		return err
	}
	c := k.bagChange(tank, "undo.bag_step", v.Ask.Name, now, store.Op{Table: "bag", Before: pick(row, "id", "steps"), After: store.Row{"id": id, "steps": steps}})
	if v.Timer != nil && (step.Waits() || step == care.BagMove && done) {
		c.Ops = append(c.Ops, endTimer(*v.Timer, now))
	}
	if wait := waitOf(v.Plan); step.Waits() && done && wait > 0 {
		c.Ops = append(c.Ops, k.timerOp(tank, id, timerOf(v.Plan.Way), wait, now))
	}
	return k.apply(ctx, c)
}

func stepsText(done map[care.BagStep]time.Time) (string, error) {
	out := map[care.BagStep]string{}
	for s, at := range done {
		out[s] = stamp(at)
	}
	b, err := json.Marshal(out)
	return string(b), err
}

// DropBag takes a bag off the list that was never needed, and ends its timer. It
// can be undone. Refusals: there is no such bag on its way.
func (k *Keeper) DropBag(ctx context.Context, tank, id string) error {
	v, _, err := k.openBag(ctx, tank, id)
	if err != nil {
		return err
	}
	now := k.now()
	c := k.bagChange(tank, "undo.bag_drop", v.Ask.Name, now, store.Op{Table: "bag", Before: store.Row{"id": id, "deleted": nil}, After: store.Row{"id": id, "deleted": stamp(now)}})
	if v.Timer != nil {
		c.Ops = append(c.Ops, endTimer(*v.Timer, now))
	}
	return k.apply(ctx, c)
}

// CloseBag says that the animals of a bag are in: one entry of the daybook, and
// they join the stock, as one change. Early lets a wait be cut short. Refusals:
// there is no such bag on its way; the wait is not over and early is not set
// ("early").
func (k *Keeper) CloseBag(ctx context.Context, tank, id string, early bool) error {
	v, _, err := k.openBag(ctx, tank, id)
	if err != nil {
		return err
	}
	now := k.now()
	if v.Waiting(now) && !early {
		return working.Refuse("early", "refuse.keeper.bag_early")
	}
	e := journal.Entry{ID: k.newID(), Kind: journal.HomeComing, At: journal.CivilOf(now), Zone: journal.ZoneOf(now), Note: v.Ask.Name}
	add := func(name string, m quantity.Measure) {
		r := journal.Reading{Name: name, Measure: m}
		if !m.IsZero() && r.Check() == nil {
			e.Readings = append(e.Readings, r)
		}
	}
	add(journal.NameCount, v.Ask.Count)
	add(journal.NameVolume, v.Ask.Volume)
	add(journal.NameTemperature, v.Ask.Temp)
	add(journal.NameLength, v.Ask.Length)
	add(journal.NamePH, v.Ask.PH)
	add(journal.NameKH, v.Ask.KH)
	add(journal.NameAmmonia, v.Ask.Ammonia)
	if v.Timer != nil {
		add(journal.NameDuration, quantity.Of(v.Timer.Passed(now).Round(time.Minute).Minutes(), "min", 3))
	}
	c := k.bagChange(tank, "undo.bag_close", v.Ask.Name, now, entryOps(tank, e)...)
	arrived, err := k.bagArrival(ctx, tank, v, e)
	if err != nil {
		return err
	}
	c.Ops = append(c.Ops, arrived...)
	c.Ops = append(c.Ops, store.Op{Table: "bag", Before: store.Row{"id": id, "closed": nil, "entry": nil}, After: store.Row{"id": id, "closed": string(e.At), "entry": e.ID}})
	if v.Timer != nil {
		c.Ops = append(c.Ops, endTimer(*v.Timer, now))
	}
	return k.apply(ctx, c)
}

// bagArrival takes the animals of a bag into the stock: under their kind, or under
// the name that the person gave them.
func (k *Keeper) bagArrival(ctx context.Context, tank string, v BagView, e journal.Entry) ([]store.Op, error) {
	a := Newcomers{Name: v.Ask.Name, Species: v.Ask.Species, Count: v.Count, Length: v.Ask.Length}
	if code, told := k.KindTold(v.Ask.Name); told && (a.Species == "" || a.Species == string(code)) {
		a.Name, a.Species = "", string(code)
	}
	if x, ok, err := valueOf(v.Ask.Males, "males", quantity.KindCount); err == nil && ok {
		n := int(x)
		a.Males = &n
	}
	return k.settle(ctx, tank, a, e)
}
