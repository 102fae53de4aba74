package keeper

import (
	"context"
	"io"
	"slices"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
)

// TraceUnionised is the name of the un-ionised part of ammonia, which no kit
// shows: it is computed from ammonia, pH and temperature.
const TraceUnionised = "unionised"

// TraceNames lists what can be drawn over time, in the order in which it is: the
// names of readings and TraceUnionised.
func TraceNames() []string {
	return []string{journal.NameAmmonia, TraceUnionised, journal.NameNitrite, journal.NameNitrate, journal.NamePH, journal.NameKH, journal.NameGH,
		journal.NameTemperature, journal.NameOxygen, journal.NameChlorine, journal.NamePhosphate, journal.NameTDS, journal.NameVolume, journal.NameFeed, journal.NameDose}
}

// TracePoint is one value in the course of time.
type TracePoint struct {
	Entry string
	At    journal.Civil
	X     float64 // At as seconds of a clock without a zone, from 1970
	Y     float64 // in the unit of the trace
	// Qualifier tells a value that is none: NotDetected has what the kit can see
	// as its Y, OverRange the last colour of its card.
	Qualifier journal.Qualifier
}

// Trace is one thing in the course of time, in the tank's own water.
type Trace struct {
	Name  string
	Kind  quantity.Kind
	Basis quantity.Basis // of a nitrogen compound
	// Sums says that each value is an amount by itself, such as water changed, and
	// nothing that goes on between two of them.
	Sums   bool
	Points []TracePoint // earliest first
	Zones  []water.Zone // how values are judged
}

// Event is an entry that is marked on charts.
type Event struct {
	Entry string
	Kind  journal.Kind
	At    journal.Civil
	X     float64
	Case  bool // it belongs to a case
}

// Traces is what was measured in a tank over a span of days.
type Traces struct {
	Traces []Trace
	Events []Event // earliest first
	// First and Last are the days of the earliest and the latest entry of the tank.
	First, Last string
}

// eventful are the kinds of entries that are marked.
var eventful = map[journal.Kind]bool{journal.Changed: true, journal.Dosed: true, journal.FishIn: true, journal.FishOut: true, journal.PowerCut: true}

// carriedOver is how long a pH or a temperature stands for a test that lacks it,
// when what is un-ionised is computed. // judgement: over a day both move little in a tank
const carriedOver = 24 * time.Hour

// Traces gives what was measured in a tank from first to last, civil dates both
// included, empty for no bound: every thing of names that has a value in the
// span, one after another for each kind of quantity it was given in. A value that cannot be read, or cannot be judged, is left out. Errors:
// those of an unknown tank; *store.OpError.
func (k *Keeper) Traces(ctx context.Context, tank string, names []string, first, last string) (Traces, error) {
	j, err := k.judge(ctx, tank)
	if err != nil {
		return Traces{}, err
	}
	return j.traces(names, first, last), nil
}

// traces is Traces of what is judged.
func (j *judge) traces(names []string, first, last string) Traces {
	var out Traces
	if n := len(j.entries); n > 0 {
		out.First, out.Last = j.entries[0].At.Day(), j.entries[n-1].At.Day()
	}
	type course struct {
		name string
		kind quantity.Kind // doses in grams are one course, those in millilitres another
	}
	made, kinds := map[course]*Trace{}, map[string][]quantity.Kind{}
	wanted := map[string]bool{}
	for _, n := range names {
		wanted[n] = true
	}
	add := func(name string, e *journal.Entry, y float64, q journal.Qualifier, kind quantity.Kind, basis quantity.Basis) {
		if !wanted[name] || !quantity.Finite(y) {
			return
		}
		x, ok := civilSeconds(e.At)
		if !ok {
			return
		}
		of := course{name, kind}
		t := made[of]
		if t == nil {
			t = &Trace{Name: name, Kind: kind, Basis: basis, Sums: sums[name], Zones: testNames[name].Zones()}
			if name == TraceUnionised {
				t.Zones = water.NH3Zones(j.line)
			}
			made[of], kinds[name] = t, append(kinds[name], kind)
		}
		t.Points = append(t.Points, TracePoint{e.ID, e.At, x, y, q})
	}
	var ph, temp lately
	for i := range j.entries {
		e := &j.entries[i]
		if last != "" && e.At.Day() > last {
			break
		}
		in := first == "" || e.At.Day() >= first
		if in && (eventful[e.Kind] || e.Sick != "") {
			if x, ok := civilSeconds(e.At); ok {
				out.Events = append(out.Events, Event{e.ID, e.Kind, e.At, x, e.Sick != ""})
			}
		}
		for n := range e.Readings {
			r := &e.Readings[n]
			if sums[r.Name] {
				if in && sumOf[r.Name][e.Kind] {
					if v, ok := r.Value(); ok {
						add(r.Name, e, v.X, journal.Plain, v.Kind, quantity.BasisNone)
					}
				}
				continue
			}
			x, known := testNames[r.Name]
			if !known || !e.Kind.OfTank() {
				continue
			}
			w := j.read(*e, r.Name)
			y, limit, detected, err := x.Judged(w)
			if err != nil {
				continue
			}
			q := r.Qualifier
			if !detected && q == journal.Plain {
				q = journal.NotDetected // a nought on a card that shows no less than its first colour
			}
			if q == journal.NotDetected {
				y = limit
			}
			switch {
			case r.Name == journal.NamePH && q == journal.Plain:
				ph = lately{y, w.At}
			case r.Name == journal.NameTemperature && q == journal.Plain:
				temp = lately{y, w.At}
			}
			if in {
				if told, err := j.kits[r.Kit].Shown(r.Measure).Value(); q == journal.Plain && err == nil && told.Kind == w.Value.Kind { // for the eye, as the kit tells it
					is := w
					is.Value = told
					if shown, _, _, err := x.Judged(is); err == nil {
						y = shown
					}
				}
				add(r.Name, e, y, q, x.Kind(), x.JudgedBasis())
			}
		}
		if in && wanted[TraceUnionised] {
			if y, q, ok := j.unionised(e, ph, temp); ok {
				add(TraceUnionised, e, y, q, quantity.KindConcentration, quantity.AsN)
			}
		}
	}
	for _, n := range names {
		for _, k := range kinds[n] {
			out.Traces = append(out.Traces, *made[course{n, k}])
		}
	}
	return out
}

// sums are the readings that are amounts, sumOf the kinds of entries in which
// they are what a chart shows.
var (
	sums  = map[string]bool{journal.NameVolume: true, journal.NameFeed: true, journal.NameDose: true}
	sumOf = map[string]map[journal.Kind]bool{
		journal.NameVolume: {journal.Changed: true},
		journal.NameFeed:   {journal.Fed: true},
		journal.NameDose:   {journal.Dosed: true, journal.Changed: true},
	}
)

// lately is a value and when it was read.
type lately struct {
	y  float64
	at time.Time
}

func (l lately) holds(at time.Time) bool {
	d := at.Sub(l.at)
	return !l.at.IsZero() && d >= -time.Minute && d <= carriedOver
}

// unionised is what of an entry's ammonia is NH3, mg/L as nitrogen.
func (j *judge) unionised(e *journal.Entry, ph, temp lately) (float64, journal.Qualifier, bool) {
	r, ok := e.Get(journal.NameAmmonia)
	at, known := e.Instant()
	if !ok || !known || !e.Kind.OfTank() || r.Qualifier == journal.OverRange || !ph.holds(at) || !temp.holds(at) {
		return 0, "", false
	}
	tan, limit, detected, err := water.TestAmmonia.Judged(j.read(*e, journal.NameAmmonia))
	if err != nil {
		return 0, "", false
	}
	q := journal.Plain
	if !detected || r.Qualifier == journal.NotDetected {
		tan, q = limit, journal.NotDetected
	}
	a, _, err := water.UnionisedAmmonia(quantity.Concentration(tan), quantity.Temperature(temp.y), quantity.PH(ph.y))
	if err != nil {
		return 0, "", false // outside the range of the formula
	}
	return float64(a.AsN), q, true
}

// civilSeconds counts the seconds of a clock on the wall from 1970, so that a day
// is a day however clocks are set.
func civilSeconds(c journal.Civil) (float64, bool) {
	t, err := c.Parse()
	return float64(t.Unix()), err == nil
}

// WriteTraces writes the entries behind Traces as journal.WriteCSV describes, each
// with no more than its readings of names. TraceUnionised, which no entry holds, comes
// beside the ammonia it is reckoned from, as the chart draws it. Errors: as Traces,
// and of w.
func (k *Keeper) WriteTraces(ctx context.Context, tank string, names []string, first, last string, w io.Writer) error {
	reckoned := map[string]journal.Reading{}
	if slices.Contains(names, TraceUnionised) {
		tr, err := k.Traces(ctx, tank, []string{TraceUnionised}, first, last)
		if err != nil {
			return err
		}
		for _, t := range tr.Traces {
			for _, p := range t.Points {
				m := quantity.Of(quantity.Concentration(p.Y).Value().In(quantity.MustUnit("mg/l")), "mg/l", 3)
				m.Basis = t.Basis
				reckoned[p.Entry] = journal.Reading{Name: TraceUnionised, Measure: m, Qualifier: p.Qualifier}
			}
		}
		if !slices.Contains(names, journal.NameAmmonia) {
			names = append(slices.Clone(names), journal.NameAmmonia)
		}
	}
	es, err := k.Measured(ctx, tank, names, first, last)
	if err != nil {
		return err
	}
	for i := range es {
		if r, ok := reckoned[es[i].ID]; ok {
			es[i].Readings = append(slices.Clip(es[i].Readings), r)
		}
	}
	return journal.WriteCSV(w, es)
}

// Measured gives the entries from first to last, bounds as those of Traces, that
// have a reading of names, each with no more than those; earliest first.
func (k *Keeper) Measured(ctx context.Context, tank string, names []string, first, last string) ([]journal.Entry, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return nil, err
	}
	var out []journal.Entry
	for i := range r.Entries {
		e := r.Entries[i]
		if first != "" && e.At.Day() < first || len(e.Readings) == 0 {
			continue
		}
		if last != "" && e.At.Day() > last {
			break
		}
		var own []journal.Reading
		for _, x := range e.Readings {
			_, test := testNames[x.Name]
			if slices.Contains(names, x.Name) && (test && e.Kind.OfTank() || sumOf[x.Name][e.Kind]) {
				own = append(own, x)
			}
		}
		if len(own) > 0 {
			e.Readings = own
			out = append(out, e)
		}
	}
	return out, nil
}

// DayStart gives the beginning of a civil date, 2026-11-25, in seconds as those
// of TracePoint.X; 0 for what is none.
func DayStart(date string) float64 {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return 0
	}
	return float64(t.Unix())
}
