package keeper

import (
	"context"
	"encoding/json"
	"errors"
	"strconv"
	"strings"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/heat"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// FeedingBasis is what of the ration is judgement, as a person typed it; a zero
// Measure is the usual value.
type FeedingBasis struct {
	Share   quantity.Measure `json:"share,omitzero"`   // dry food a day over body mass
	Protein quantity.Measure `json:"protein,omitzero"` // in the food, by its label
	Fasting Weekdays         `json:"fasting,omitzero"` // without food; none leaves the usual rule
}

// Weekdays are days of the week, by time.Weekday.
type Weekdays [7]bool

// List lists the days, Monday first.
func (w Weekdays) List() []time.Weekday {
	var out []time.Weekday
	for _, d := range slip.Weekdays() {
		if w[d] {
			out = append(out, d)
		}
	}
	return out
}

// WeekdaysOf marks the days listed.
func WeekdaysOf(days []time.Weekday) Weekdays {
	var w Weekdays
	for _, d := range days {
		w[d] = true
	}
	return w
}

// Feeding is how a tank is fed, as it stands now.
type Feeding struct {
	Basis FeedingBasis
	// FromShop holds while the basis is that of a starter profile.
	FromShop bool
	Ration   fish.Ration
	Trail    *working.Trail
	Refused  error // why there is no ration: no animals, or water too cold or warm
	Home     Home
	Kinds    []FedKind
	Unknown  []string // animals of the stock that the catalogue does not have: not in the ration
	Meals    []Meal   // the last meals, the newest first
	Pinches  []Pinch
	Pinch    *Pinch // in which the ration is told; nil while none was weighed
	Filter   *heat.MediaResult
	Young    bool      // the filter is not known to keep up
	Days     []FeedDay // up to today, the oldest first
	Fasted   string    // the latest day of the record without food, empty where there is none of late
	System   quantity.System
	Today    time.Weekday
}

// FedKind is one lot of the stock with what it eats.
type FedKind struct {
	Living Living
	fish.KindRation
	Foods []working.Finding
}

// Meal is an entry of feeding.
type Meal struct {
	Entry string
	At    journal.Civil
	Feed  quantity.Measure // as typed; zero where it was not weighed
	Food  string
	Left  string // of the words for what was left over, or empty
}

// FeedDay is what was given on a civil day.
type FeedDay struct {
	Date  string
	Given quantity.Mass // of what was weighed
	Meals int
	Some  bool // not every meal was weighed
}

const (
	mealsShown = 8
	// FeedDays is how many days Feeding.Days holds: four weeks.
	FeedDays = 28
)

// plates tells how a meal ended from the word of the daybook.
var plates = map[string]fish.Plate{"none": fish.CleanFloor, "some": fish.Leftovers, "much": fish.Leftovers}

// FeedingBasisOf is what was typed of the ration of a tank, else what the shop
// proposed whose profile it began with.
func (k *Keeper) FeedingBasisOf(ctx context.Context, tank string) (FeedingBasis, error) {
	b, _, err := k.feedingBasis(ctx, tank)
	return b, err
}

func (k *Keeper) feedingBasis(ctx context.Context, tank string) (b FeedingBasis, fromShop bool, err error) {
	d, drafted, err := k.draft(ctx, tank)
	if err != nil || drafted {
		return d.feeding, false, err
	}
	r, err := k.record(ctx, tank)
	if err != nil {
		return b, false, err
	}
	if b = basisIn(r); b != (FeedingBasis{}) {
		return b, false, nil
	}
	if b, err = k.basisBefore(ctx, tank); err != nil || b != (FeedingBasis{}) {
		return b, false, err
	}
	h, handed, err := k.HandedBy(ctx, tank)
	return h.Feeding, handed && h.Feeding != (FeedingBasis{}), err
}

// basisIn is what the answers of a tank say.
func basisIn(r *care.Record) FeedingBasis {
	b := FeedingBasis{Share: r.Answers[care.FeedShare].Measure, Protein: r.Answers[care.FeedProtein].Measure}
	for _, n := range strings.Fields(r.Answers[care.FeedFasting].Words) {
		if d, err := strconv.Atoi(n); err == nil && d >= 0 && d < len(b.Fasting) {
			b.Fasting[d] = true
		}
	}
	return b
}

// settingFeeding and a tank's id name what its ration was reckoned from up to
// version 0.3.0, which kept it among the settings.
const settingFeeding = "feeding."

func (k *Keeper) basisBefore(ctx context.Context, tank string) (FeedingBasis, error) {
	var b FeedingBasis
	s, ok, err := k.Setting(ctx, settingFeeding+tank)
	if err == nil && ok && s != "" {
		err = json.Unmarshal([]byte(s), &b)
	}
	return b, err
}

// SetFeedingBasis keeps what the ration of a tank is reckoned from, as a change of
// the tank; what is empty goes back to what the shop proposed where all is, else to
// the usual values. Refusals: "share" outside 0.1 to 10 %, "protein" outside 10 to 70 %.
func (k *Keeper) SetFeedingBasis(ctx context.Context, tank string, b FeedingBasis) error {
	probe := fish.Feeding{Lots: []fish.Lot{{Code: fish.All()[0].Code, Count: 1}}, Temperature: 25, Net: quantity.Litres(50)}
	if err := b.into(&probe); err != nil {
		return err
	}
	if _, _, err := fish.RationOf(probe); err != nil {
		return err
	}
	if d, ok, err := k.draft(ctx, tank); err != nil || ok {
		typed, err2 := json.Marshal(b)
		if err = errors.Join(err, err2); err == nil {
			err = k.setDraft(ctx, tank, d, store.Row{"feeding": string(typed)}, "undo.draft_feeding")
		}
		return err
	}
	if err := k.takeUpBasis(ctx, tank); err != nil {
		return err
	}
	return k.putBasis(ctx, tank, b)
}

func (k *Keeper) putBasis(ctx context.Context, tank string, b FeedingBasis) error {
	r, err := k.record(ctx, tank)
	if err != nil {
		return err
	}
	var days []string
	for _, d := range b.Fasting.List() {
		days = append(days, strconv.Itoa(int(d)))
	}
	set := map[care.FieldID]care.Answer{care.FeedShare: {Measure: b.Share}, care.FeedProtein: {Measure: b.Protein}, care.FeedFasting: {Words: strings.Join(days, " ")}}
	for id, a := range set {
		if !a.IsZero() {
			a.Origin = care.FromPerson
		}
		set[id] = a
	}
	named := care.FeedFasting
	switch was := basisIn(r); {
	case was.Share != b.Share:
		named = care.FeedShare
	case was.Protein != b.Protein:
		named = care.FeedProtein
	}
	return k.putAll(ctx, tank, r, named, set, k.now())
}

// takeUpBasis makes an answer of what an earlier version kept as a setting.
func (k *Keeper) takeUpBasis(ctx context.Context, tank string) error {
	before, err := k.basisBefore(ctx, tank)
	if err != nil || before == (FeedingBasis{}) {
		return err
	}
	r, err := k.record(ctx, tank)
	if err != nil {
		return err
	}
	if basisIn(r) == (FeedingBasis{}) {
		if err := k.putBasis(ctx, tank, before); err != nil {
			return err
		}
	}
	return k.SetSetting(ctx, settingFeeding+tank, "")
}

func (b FeedingBasis) into(in *fish.Feeding) error {
	if n := len(b.Fasting.List()); n > 0 {
		in.Fasting = &n
	}
	if x, ok, err := valueOf(b.Share, "share", quantity.KindRatio); err != nil {
		return err
	} else if ok {
		v := quantity.Ratio(x)
		in.Share = &v
	}
	x, ok, err := valueOf(b.Protein, "protein", quantity.KindRatio)
	if ok {
		v := quantity.Ratio(x)
		in.Protein = &v
	}
	return err
}

// Feeding works out the ration of a tank from its stock, its temperature and how
// the last meals ended, and what that food means for water and filter. Where
// there is no ration, Refused says why and the rest is still told. Errors: the
// tank is gone, or its sizes cannot be.
func (k *Keeper) Feeding(ctx context.Context, tank string) (Feeding, error) {
	out := Feeding{}
	stock, err := k.Stock(ctx, tank)
	if err != nil {
		return out, err
	}
	if out.Home, err = k.Home(ctx, tank); err != nil {
		return out, err
	}
	if out.Basis, out.FromShop, err = k.feedingBasis(ctx, tank); err != nil {
		return out, err
	}
	if out.Pinches, err = k.Pinches(ctx); err != nil {
		return out, err
	}
	r, err := k.record(ctx, tank)
	if err != nil {
		return out, err
	}
	out.System = r.System
	in := fish.Feeding{Lots: Lots(stock), Temperature: 25, Net: *out.Home.Net}
	if t := out.Home.Water.Temperature; t != nil {
		in.Temperature = *t
	}
	now := k.now()
	out.Today = now.Weekday()
	in.Last = out.look(r.Entries, now)
	out.Pinch = pinchFor(out.Pinches, out.Meals)
	if out.Pinch != nil {
		if v, err := out.Pinch.Twenty.Value(); err == nil {
			m := quantity.Mass(v.X)
			in.Twenty = &m
		}
	}
	out.Young = rounds.Young(r.Entries, journal.CivilOf(now))
	if out.Refused = out.Basis.into(&in); out.Refused == nil {
		out.Ration, out.Trail, out.Refused = fish.RationOf(in)
	}
	n := 0
	for _, l := range stock {
		if _, ok := l.Lot(); !ok {
			out.Unknown = append(out.Unknown, l.Name)
			continue
		}
		f := FedKind{Living: l}
		if out.Refused == nil {
			f.KindRation = out.Ration.Kinds[n]
		}
		f.Foods = fish.FoodsOf(l.Animal, f.Growth)
		out.Kinds = append(out.Kinds, f)
		n++
	}
	if out.Refused == nil {
		protein := fish.UsualProtein
		if in.Protein != nil {
			protein = *in.Protein
		}
		if m, err := heat.MediaArea(out.Ration.Day, protein, in.Temperature, out.Young); err == nil {
			out.Filter = &m
		}
	}
	return out, nil
}

// look reads the meals of the record, and returns how the last ones ended.
func (f *Feeding) look(entries []journal.Entry, now time.Time) []fish.Plate {
	today := rounds.Wall(now)
	byDay := map[string]int{}
	for i := range FeedDays {
		d := today.AddDate(0, 0, i-FeedDays+1).Format("2006-01-02")
		byDay[d] = i
		f.Days = append(f.Days, FeedDay{Date: d})
	}
	first := ""
	var ends []fish.Plate
	for _, e := range entries {
		if e.Kind != journal.Fed {
			continue
		}
		if first == "" {
			first = e.At.Day()
		}
		m := Meal{Entry: e.ID, At: e.At}
		if r, ok := e.Get(journal.NameLeft); ok {
			m.Left = r.Measure.Number
			if p, ok := plates[m.Left]; ok {
				ends = append(ends, p)
			}
		}
		if r, ok := e.Get(journal.NameWhat); ok {
			m.Food = r.Measure.Number
		}
		mass, weighed := quantity.Mass(0), false
		if r, ok := e.Get(journal.NameFeed); ok {
			if v, ok := r.Value(); ok && v.Kind == quantity.KindMass {
				m.Feed, mass, weighed = r.Measure, quantity.Mass(v.X), true
			}
		}
		f.Meals = append([]Meal{m}, f.Meals...)
		if len(f.Meals) > mealsShown {
			f.Meals = f.Meals[:mealsShown]
		}
		if i, ok := byDay[e.At.Day()]; ok {
			f.Days[i].Meals++
			f.Days[i].Given += mass
			f.Days[i].Some = f.Days[i].Some || !weighed
		}
	}
	for i := len(f.Days) - 2; i >= 0 && first != "" && f.Days[i].Date > first; i-- {
		if f.Days[i].Meals == 0 {
			f.Fasted = f.Days[i].Date
			break
		}
	}
	return ends
}

// pinchFor is the pinch of the food that was given last, else the one weighed last.
func pinchFor(all []Pinch, meals []Meal) *Pinch {
	for _, m := range meals {
		for i := range all {
			if m.Food != "" && strings.EqualFold(m.Food, all[i].Food) {
				return &all[i]
			}
		}
	}
	if len(all) > 0 {
		return &all[0]
	}
	return nil
}

// meal is the ration of one meal as a reading; false where there is none.
func (f Feeding) meal() (journal.Reading, bool) {
	if f.Refused != nil || f.Ration.Meal <= 0 {
		return journal.Reading{}, false
	}
	unit := quantity.UnitCode("g")
	if f.Ration.Meal.Value().X < 1e-6 {
		unit = "mg"
	}
	return journal.Reading{Name: journal.NameFeed, Measure: quantity.Of(f.Ration.Meal.Value().In(quantity.MustUnit(unit)), unit, 2)}, true
}
