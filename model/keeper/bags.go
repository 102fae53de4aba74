package keeper

import (
	"context"
	"encoding/json"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// BagGiven is what was measured of a bag, each as typed; a zero Measure was not.
type BagGiven struct {
	Volume    quantity.Measure `json:"volume,omitzero"`    // of its water
	Temp      quantity.Measure `json:"temp,omitzero"`      // in it
	TankTemp  quantity.Measure `json:"tank_temp,omitzero"` // in the tank
	Hours     quantity.Measure `json:"hours,omitzero"`     // since it was packed
	PH        quantity.Measure `json:"ph,omitzero"`        // in the bag, right after opening a corner
	TankPH    quantity.Measure `json:"tank_ph,omitzero"`
	KH        quantity.Measure `json:"kh,omitzero"`      // in the bag
	Ammonia   quantity.Measure `json:"ammonia,omitzero"` // in the bag, total, with its basis
	Drops     quantity.Measure `json:"drops,omitzero"`   // a second; of a drip
	Doublings quantity.Measure `json:"doublings,omitzero"`
	Males     quantity.Measure `json:"males,omitzero"`  // of them
	Length    quantity.Measure `json:"length,omitzero"` // of one of them
}

// BagAsk is a bag as a person tells of it.
type BagAsk struct {
	Name    string           // what they are called, such as the kind's name
	Species string           // of the catalogue, or empty
	Count   quantity.Measure // how many
	Way     string           // care.WayFloat or care.WayDrip
	BagGiven
}

// Bag is a bag of animals on its way into a tank.
type Bag struct {
	ID     string
	Ask    BagAsk
	Count  int
	Done   map[care.BagStep]time.Time // the steps that are ticked, and when
	Opened journal.Civil
	Zone   string
	Closed journal.Civil // empty while it is on its way
	Entry  string        // what closing it wrote
}

// BagView is a bag as it stands now.
type BagView struct {
	Bag
	Plan    care.BagPlan
	Refused error       // why there is no plan: something was changed since
	Timer   *care.Timer // of the wait that was begun last; nil before
	Now     care.BagStep
	Next    care.BagStep // after Now; empty at the end
}

// Waiting reports whether its timer runs and has time left.
func (v BagView) Waiting(now time.Time) bool {
	return v.Timer != nil && !v.Timer.Ended && v.Timer.Left(now) > 0
}

// Ready reports whether its wait is over and its animals are not in yet.
func (v BagView) Ready(now time.Time) bool {
	return v.Timer != nil && !v.Timer.Ended && v.Timer.Left(now) <= 0
}

// BagDefaults is a bag as it is mostly brought home: the figures of First fill,
// the tank's temperature as it was measured last, a drip that halves the first
// water once.
func (k *Keeper) BagDefaults(ctx context.Context, tank string) (BagAsk, error) {
	a := BagAsk{Way: care.WayFloat}
	err := k.look(ctx, tank, func(r *care.Record, f *care.Facts) {
		take := func(id care.FieldID) quantity.Measure { x, _ := f.Answer(id); return x.Measure }
		a.Volume, a.Temp, a.TankTemp, a.Hours = take("bag.volume"), take("bag.temp"), take("home.tank_temp"), take("bag.hours")
		if _, m, ok := newest(r.Entries, journal.NameTemperature); ok && m.Qualifier == journal.Plain {
			a.TankTemp = m.Measure
		}
		if _, m, ok := newest(r.Entries, journal.NamePH); ok && m.Qualifier == journal.Plain {
			a.TankPH = m.Measure
		}
		// Common practice, no source: two to four drops a second until the water is twice as much.
		a.Drops, a.Doublings = quantity.Measure{Number: "4", Unit: "piece"}, quantity.Measure{Number: "1", Unit: "piece"}
		if _, done := r.Done[care.HomeComing]; !done && r.Bags.Closed+r.Bags.Open == 0 { // the first of all are those of First fill
			if x, _ := f.Answer("fish.kind"); x.Words != "" {
				a.Name = x.Words
				if code, told := k.KindTold(a.Name); told {
					a.Species = string(code)
				}
			}
			a.Count = take("fish.count")
		}
	})
	return a, err
}

// PlanBag works out how a bag is to be brought home. Nothing is kept. Errors:
// *working.Refusal that names the field of BagAsk ("volume", "temp", "tank_temp",
// "hours", "ph", "tank_ph", "kh", "ammonia", "drops", "doublings", "way") and what
// is accepted, or the tank's sizes where they cannot be.
func (k *Keeper) PlanBag(ctx context.Context, tank string, a BagAsk) (care.BagPlan, error) {
	var p care.BagPlan
	var err2 error
	if err := k.look(ctx, tank, func(_ *care.Record, f *care.Facts) { p, err2 = planBag(a, f) }); err != nil {
		return care.BagPlan{}, err
	}
	return p, err2
}

func planBag(a BagAsk, f *care.Facts) (care.BagPlan, error) {
	b, err := a.bag()
	if err != nil {
		return care.BagPlan{}, err
	}
	full, err := f.Full()
	if err != nil {
		return care.BagPlan{}, err
	}
	b.Tank = full.Net
	p, err := b.Plan()
	for from, to := range map[string]string{"bag": "volume", "start": "volume", "bag_temp": "temp", "temperature": "temp", "closed": "hours", "tan": "ammonia", "drops_per_second": "drops"} {
		err = renamed(err, from, to)
	}
	return p, err
}

// bag reads what was typed.
func (a BagAsk) bag() (care.Bag, error) {
	b := care.Bag{Way: a.Way}
	if a.Way != care.WayFloat && a.Way != care.WayDrip {
		return b, working.Refuse("way", "refuse.missing")
	}
	var err error
	read := func(m quantity.Measure, field string, kind quantity.Kind, must bool) (float64, bool) {
		if err != nil {
			return 0, false
		}
		x, ok, e := valueOf(m, field, kind)
		if e == nil && !ok && must {
			e = working.Refuse(field, "refuse.missing")
		}
		err = e
		return x, ok && e == nil
	}
	x, _ := read(a.Volume, "volume", quantity.KindVolume, true)
	b.Water = quantity.Volume(x)
	x, _ = read(a.Temp, "temp", quantity.KindTemperature, true)
	b.From = quantity.Temperature(x)
	x, _ = read(a.TankTemp, "tank_temp", quantity.KindTemperature, true)
	b.To = quantity.Temperature(x)
	x, _ = read(a.Hours, "hours", quantity.KindTime, true)
	b.Closed = quantity.Time(x)
	if x, ok := read(a.PH, "ph", quantity.KindPH, false); ok {
		v := quantity.PH(x)
		b.PH = &v
	}
	if x, ok := read(a.TankPH, "tank_ph", quantity.KindPH, false); ok {
		v := quantity.PH(x)
		b.TankPH = &v
		if err == nil {
			err = working.InRange("tank_ph", "q.water.ph", v.Value(), quantity.PH(3).Value(), quantity.PH(11).Value())
		}
	}
	if x, ok := read(a.KH, "kh", quantity.KindHardness, false); ok {
		v := quantity.Hardness(x)
		b.KH = &v
	}
	if x, ok := read(a.Ammonia, "ammonia", quantity.KindConcentration, false); ok {
		n, ok := quantity.ToN(quantity.Concentration(x), quantity.Ammonia, a.Ammonia.Basis)
		if !ok {
			return b, working.Refuse("ammonia", "refuse.journal.kit_basis")
		}
		b.TAN = &n
	}
	if a.Way == care.WayDrip {
		b.Drops, _ = read(a.Drops, "drops", quantity.KindCount, true)
		x, _ = read(a.Doublings, "doublings", quantity.KindCount, true)
		if b.Doublings = int(x); err == nil && float64(b.Doublings) != x {
			err = working.Refuse("doublings", "refuse.whole_number")
		}
		if err == nil && b.Doublings == 0 {
			err = working.InRange("doublings", "q.water.doublings", quantity.Count(0).Value(), quantity.Count(1).Value(), quantity.Count(4).Value())
		}
	}
	return b, err
}

// check refuses a bag that cannot be, and tells how many are in it.
func (a *BagAsk) check() (int, error) {
	var err error
	if a.Name, err = checkFish(a.Name); err != nil {
		return 0, renamed(err, "fish.name", "name")
	}
	if a.Species != "" {
		if _, err := fish.Get(fish.Code(a.Species)); err != nil {
			return 0, renamed(err, "code", "species")
		}
	}
	count := func(m quantity.Measure, field string, low float64) (int, error) {
		x, ok, err := valueOf(m, field, quantity.KindCount)
		switch {
		case err != nil:
			return 0, err
		case !ok:
			return 0, working.Refuse(field, "refuse.missing")
		case x != float64(int(x)):
			return 0, working.Refuse(field, "refuse.whole_number")
		}
		return int(x), working.InRange(field, "reading.count", quantity.Count(x).Value(), quantity.Count(low).Value(), quantity.Count(MaxFish).Value())
	}
	n, err := count(a.Count, "count", 1)
	if err != nil {
		return 0, err
	}
	if !a.Males.IsZero() {
		m, err := count(a.Males, "males", 0)
		if err == nil && m > n {
			err = working.InRange("males", "reading.count", quantity.Count(m).Value(), quantity.Count(0).Value(), quantity.Count(n).Value())
		}
		if err != nil {
			return 0, err
		}
	}
	return n, lengthOf(a.Species, a.Length)
}

// bagBody is a bag's column of what was given: with the count as typed.
type bagBody struct {
	Count quantity.Measure `json:"count"`
	BagGiven
}

func bagOf(row store.Row) (Bag, error) {
	n, _ := row["count"].(int64)
	b := Bag{ID: text(row["id"]), Count: int(n), Opened: journal.Civil(text(row["opened"])), Zone: text(row["zone"]), Closed: journal.Civil(text(row["closed"])), Entry: text(row["entry"])}
	b.Ask = BagAsk{Name: text(row["name"]), Species: text(row["species"]), Way: text(row["way"])}
	var body bagBody
	if err := json.Unmarshal([]byte(text(row["given"])), &body); err != nil { // JSON by the schema's own check
		return b, err
	}
	b.Ask.Count, b.Ask.BagGiven = body.Count, body.BagGiven
	var done map[care.BagStep]string
	if err := json.Unmarshal([]byte(text(row["steps"])), &done); err != nil {
		return b, err
	}
	b.Done = map[care.BagStep]time.Time{}
	for s, at := range done {
		b.Done[s] = unstamp(at)
	}
	return b, nil
}

// Bags lists the bags of a tank that are on their way, in the order in which they
// were opened, each as it stands now.
func (k *Keeper) Bags(ctx context.Context, tank string) ([]BagView, error) {
	rows, err := k.st.Load(ctx, "bag", map[string]any{"tank": tank, "deleted": nil, "closed": nil}, "opened, id")
	if err != nil {
		return nil, err
	}
	var out []BagView
	err = k.look(ctx, tank, func(r *care.Record, f *care.Facts) {
		for _, row := range rows {
			v, e := bagView(row, r, f)
			if e != nil {
				err = e
				return
			}
			out = append(out, v)
		}
	})
	return out, err
}

func bagView(row store.Row, r *care.Record, f *care.Facts) (BagView, error) {
	b, err := bagOf(row)
	if err != nil {
		return BagView{}, err
	}
	v := BagView{Bag: b}
	v.Plan, v.Refused = planBag(b.Ask, f)
	for i := range r.Timers {
		if r.Timers[i].Bag == b.ID && !r.Timers[i].Ended {
			t := r.Timers[i]
			v.Timer = &t
		}
	}
	if v.Plan.Curve != nil {
		v.Plan.Curve.Timer = v.Timer
	}
	for _, s := range v.Plan.Steps {
		if _, done := b.Done[s]; done {
			continue
		}
		if v.Now == "" {
			v.Now = s
		} else if v.Next == "" {
			v.Next = s
		}
	}
	return v, nil
}

// BagOf reads one bag, also one that is closed. Refusal: there is none ("bag").
func (k *Keeper) BagOf(ctx context.Context, tank, id string) (BagView, error) {
	row, err := k.bagRow(ctx, tank, id)
	if err != nil {
		return BagView{}, err
	}
	var v BagView
	err2 := k.look(ctx, tank, func(r *care.Record, f *care.Facts) { v, err = bagView(row, r, f) })
	if err == nil {
		err = err2
	}
	return v, err
}

// WaitOver is a bag whose wait is over and whose animals are not in yet.
type WaitOver struct{ Tank, Bag, Timer string }

// WaitsOver lists the bags of all tanks whose wait is over, for a notice.
func (k *Keeper) WaitsOver(ctx context.Context) ([]WaitOver, error) {
	rows, err := k.st.Load(ctx, "timer", map[string]any{"ended": nil}, "id")
	if err != nil {
		return nil, err
	}
	var out []WaitOver
	for _, row := range rows {
		if text(row["bag"]) == "" {
			continue
		}
		r, err := k.record(ctx, text(row["tank"]))
		if err != nil {
			continue // the tank is put aside
		}
		for _, t := range r.Timers {
			if t.ID == text(row["id"]) && t.Left(r.Now) <= 0 {
				out = append(out, WaitOver{text(row["tank"]), t.Bag, t.ID})
			}
		}
	}
	return out, nil
}

func (k *Keeper) bagRow(ctx context.Context, tank, id string) (store.Row, error) {
	rows, err := k.st.Load(ctx, "bag", map[string]any{"id": id, "tank": tank, "deleted": nil}, "")
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 {
		return nil, working.Refuse("bag", "refuse.keeper.no_bag")
	}
	return rows[0], nil
}
