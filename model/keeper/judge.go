package keeper

import (
	"context"
	"maps"
	"slices"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/nitrogen"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// Judgement is what a water test says: the gravest state, what was found, and
// what to do in order.
type Judgement struct {
	State    working.State
	Findings []working.Finding
	// Advice is how much water to change now and what that takes; nil where the test
	// does not ask for a change, and for all but the latest test.
	Advice *ChangeAdvice
	// Trails are the workings of values that were not measured but reckoned from what
	// was, such as dissolved solids from conductivity; and how far what a kit shows may
	// be off.
	Trails []*working.Trail
}

// Judge interprets every water test of a tank, each with what was known at its
// time; by entry. The latest one also tells courses and how much to change.
func (k *Keeper) Judge(ctx context.Context, tank string) (map[string]Judgement, error) {
	return k.judgeThose(ctx, tank, func(string) bool { return true })
}

// JudgeOf interprets some water tests as Judge does, without the work for the
// others; entries that are none, and unknown ones, are passed over.
func (k *Keeper) JudgeOf(ctx context.Context, tank string, entries ...string) (map[string]Judgement, error) {
	wanted := make(map[string]bool, len(entries))
	for _, id := range entries {
		wanted[id] = true
	}
	return k.judgeThose(ctx, tank, func(id string) bool { return wanted[id] })
}

func (k *Keeper) judgeThose(ctx context.Context, tank string, wanted func(id string) bool) (map[string]Judgement, error) {
	j, err := k.judge(ctx, tank)
	if err != nil {
		return nil, err
	}
	return j.those(wanted), nil
}

// those judges the tests that are wanted.
func (j *judge) those(wanted func(id string) bool) map[string]Judgement {
	out := map[string]Judgement{}
	last := len(j.entries) - 1
	for last >= 0 && j.entries[last].Kind != journal.Tested {
		last--
	}
	for i := range j.entries {
		if e := &j.entries[i]; e.Kind == journal.Tested && wanted(e.ID) {
			out[e.ID] = j.visit(i, i == last)
		}
	}
	return out
}

// JudgeDraft interprets a water test that is still being typed, in the place that
// its time gives it. Nothing is kept. An entry that is being edited stands in for
// itself. Readings that cannot be read are left out. Refusal: a time that is none.
func (k *Keeper) JudgeDraft(ctx context.Context, tank string, e journal.Entry) (Judgement, error) {
	if _, err := e.At.Parse(); err != nil {
		return Judgement{}, working.Refuse("at", "refuse.journal.time")
	}
	j, err := k.judge(ctx, tank)
	if err != nil {
		return Judgement{}, err
	}
	e.Kind = journal.Tested
	if e.Zone == "" {
		e.Zone = journal.ZoneOf(k.now())
	}
	at := 0
	var es []journal.Entry
	for _, x := range j.entries {
		if x.ID == e.ID && e.ID != "" {
			continue
		}
		if x.At <= e.At {
			at = len(es) + 1
		}
		es = append(es, x)
	}
	j.entries = append(es[:at:at], append([]journal.Entry{e}, es[at:]...)...)
	j.last = nil
	for i := range at {
		j.note(i)
	}
	return j.visit(at, true), nil
}

// judge holds what judging the tests of one tank needs. Visits are asked for from
// the earliest to the latest.
type judge struct {
	entries []journal.Entry
	kits    map[string]journal.TestKit
	line    quantity.Concentration // of an emergency; 0 is the usual one
	net     quantity.Volume        // 0 is not known
	factor  quantity.Ratio         // from conductivity to dissolved solids
	facts   judgeFacts
	noted   int            // entries before it are in last
	last    map[string]int // the latest entry that measured a thing in the tank's water, by reading
	tests   []int          // water tests so far
	changes []int          // water changes so far
	taps    []int          // tests of the tap water so far
	filled  journal.Civil  // when the tank was filled last
	proven  bool           // a test has shown that the filter does its work
	// emergency says that the latest test calls for a large change that was not made yet;
	// noteAll sets it.
	emergency bool
}

func (k *Keeper) judge(ctx context.Context, tank string) (*judge, error) {
	j, err := k.judgeAnywhere(ctx)
	if err != nil {
		return nil, err
	}
	return j, k.look(ctx, tank, func(r *care.Record, f *care.Facts) {
		j.entries = r.Entries
		if full, err := f.Full(); err == nil {
			j.net = full.Net
		}
		j.facts = judgeFactsOf(f)
	})
}

// judgeAnywhere is what judging needs whose ever the water is.
func (k *Keeper) judgeAnywhere(ctx context.Context) (*judge, error) {
	typed, err := k.EmergencyLine(ctx)
	if err != nil {
		return nil, err
	}
	line, err := emergencyOf(typed)
	if err != nil && line == 0 {
		return nil, err
	} // a line that can be read and not be used gets a finding of its own
	kits, err := k.kits(ctx)
	if err != nil {
		return nil, err
	}
	factor, _, err := k.SolidsFactor(ctx)
	if err != nil {
		return nil, err
	}
	return &judge{kits: kits, line: line, factor: factor}, nil
}

// note takes entry i into what is known before the next.
func (j *judge) note(i int) {
	if j.last == nil {
		j.last, j.noted, j.tests, j.changes, j.taps, j.filled, j.proven = map[string]int{}, 0, nil, nil, nil, "", false
	}
	e := &j.entries[i]
	if e.Kind.OfTank() {
		for _, r := range e.Readings {
			j.last[r.Name] = i
		}
	}
	switch e.Kind {
	case journal.Tested:
		j.tests = append(j.tests, i)
		j.proven = j.proven || j.proves(i)
	case journal.TapTested:
		j.taps = append(j.taps, i)
	case journal.Filled:
		j.filled = e.At
	case journal.Changed:
		j.changes = append(j.changes, i)
	}
	j.noted = i + 1
}

// visit judges the test at entry i.
func (j *judge) visit(i int, latest bool) Judgement {
	for n := j.noted; n < i; n++ {
		j.note(n)
	}
	t := j.testsOf(i)
	if n := len(j.tests); n > 0 {
		before := j.testsOf(j.tests[n-1])
		t.Earlier = &before
	}
	fs := water.Interpret(t)
	extra := j.doubts(i)
	extra = append(extra, j.predictions(i)...)
	if latest {
		extra = append(extra, j.courses(i)...)
	}
	out := Judgement{}
	if latest {
		out.Advice = j.advise(t)
	}
	out.Findings = j.shown(i, merge(fs, extra, out.Advice))
	out.State = working.WorstOf(out.Findings)
	for _, name := range journal.Tests() {
		if tr, ok := testNames[name].Told(j.read(j.entries[i], name)); ok {
			out.Trails = append(out.Trails, tr)
		}
	}
	if r, ok := j.entries[i].Get(journal.NameTDS); ok {
		if v, ok := r.Value(); ok && v.Kind == quantity.KindConductivity {
			if _, t, err := water.SolidsOf(quantity.Conductivity(v.X), j.factor); err == nil {
				out.Trails = append(out.Trails, t)
			}
		}
	}
	return out
}

// shown writes what was read from a kit no finer than the kit can tell, where a
// finding repeats the figure. The finding itself came from what was typed.
func (j *judge) shown(i int, fs []working.Finding) []working.Finding {
	for _, r := range j.entries[i].Readings {
		kit, ok := j.kits[r.Kit]
		if !ok || r.Qualifier != journal.Plain {
			continue
		}
		typed, err := r.Measure.Value()
		told, err2 := kit.Shown(r.Measure).Value()
		if err != nil || err2 != nil || typed == told {
			continue
		}
		for n, f := range fs {
			for name, v := range f.Values {
				if v != typed {
					continue
				}
				f.Values = maps.Clone(f.Values)
				f.Values[name] = told
				fs[n] = f
			}
		}
	}
	return fs
}

// merge puts what asks for something first, the gravest leading, with what the
// record adds; then the advice in its order, how much to change in the place of
// the bare share; last what is in order and what was not measured.
func merge(fs, extra []working.Finding, a *ChangeAdvice) []working.Finding {
	var graver, advice, steady, missing []working.Finding
	for _, f := range append(slices.Clone(fs), extra...) {
		switch {
		case f.Code == "find.water.do.change_share" && a != nil:
			advice = append(advice, a.Findings()...)
		case isAdvice(f):
			advice = append(advice, f)
		case f.Code == "find.water.not_measured":
			missing = append(missing, f)
		case f.State == working.Steady:
			steady = append(steady, f)
		default:
			graver = append(graver, f)
		}
	}
	slices.SortStableFunc(graver, func(a, b working.Finding) int { return int(b.State) - int(a.State) })
	return slices.Concat(graver, advice, steady, missing)
}

func isAdvice(f working.Finding) bool {
	const does = "find.water.do."
	return len(f.Code) > len(does) && f.Code[:len(does)] == does
}

var testNames = map[string]water.Test{
	journal.NameAmmonia: water.TestAmmonia, journal.NameNitrite: water.TestNitrite, journal.NameNitrate: water.TestNitrate, journal.NamePH: water.TestPH,
	journal.NameKH: water.TestKH, journal.NameGH: water.TestGH, journal.NameTemperature: water.TestTemperature, journal.NameChlorine: water.TestChlorine,
	journal.NameOxygen: water.TestOxygen, journal.NamePhosphate: water.TestPhosphate, journal.NameTDS: water.TestTDS,
}

// read is a reading as the judgement takes it: with what the kit that showed it can
// tell, and conductivity as dissolved solids. Missing where there is
// none that can be read.
func (j *judge) read(e journal.Entry, name string) water.Reading {
	out := care.ReadingOf(j.kits, e, name)
	if out.Value.Kind == quantity.KindConductivity {
		out.Value = j.solids(out.Value)
		for _, d := range []*quantity.Value{&out.Resolution, &out.Below, &out.Above} {
			if d.Known() {
				*d = j.solids(*d)
			}
		}
	}
	if out.Resolution.Known() && out.Resolution.Kind != out.Value.Kind && out.Resolution.Kind != quantity.KindTempDiff {
		out.Resolution, out.Below, out.Above = quantity.Value{}, quantity.Value{}, quantity.Value{}
	}
	return out
}

func (j *judge) solids(v quantity.Value) quantity.Value {
	if v.Kind != quantity.KindConductivity {
		return v
	}
	s, _, err := water.SolidsOf(quantity.Conductivity(v.X), j.factor)
	if err != nil {
		return quantity.Value{}
	}
	return s.Value()
}

// testsOf gathers the readings of entry i; temperature and pH, without which
// ammonia cannot be judged, come from the latest entry before it where it has none.
func (j *judge) testsOf(i int) water.Tests {
	e := j.entries[i]
	own := func(name string) water.Reading { return j.read(e, name) }
	before := func(name string) water.Reading {
		if x := own(name); x.Value.Known() {
			return x
		}
		if n, ok := j.last[name]; ok && n < i {
			return j.read(j.entries[n], name)
		}
		return water.Reading{}
	}
	t := water.Tests{Ammonia: own(journal.NameAmmonia), Nitrite: own(journal.NameNitrite), Nitrate: own(journal.NameNitrate),
		PH: before(journal.NamePH), KH: own(journal.NameKH), GH: own(journal.NameGH), Temperature: before(journal.NameTemperature),
		Oxygen: own(journal.NameOxygen), Chlorine: own(journal.NameChlorine), Phosphate: own(journal.NamePhosphate), TDS: own(journal.NameTDS),
		Emergency: j.line, Mature: j.mature(i)}
	t.TapNitrate, _ = j.tap(i, journal.NameNitrate)
	return t
}

// tap is what the tap water held by its latest test up to entry i.
func (j *judge) tap(i int, name string) (water.Reading, bool) {
	for n := len(j.taps) - 1; n >= 0; n-- {
		if j.taps[n] > i {
			continue
		}
		if r := j.read(j.entries[j.taps[n]], name); r.Known() {
			return r, true
		}
	}
	return water.Reading{}, false
}

// A filter counts as mature once the tank has run for six weeks and an earlier
// test, four weeks in, found neither ammonia nor nitrite worth a word.
// Common practice, no source: six weeks are the end of the usual span.
const (
	matureDays = 42
	provenDays = 28
)

func (j *judge) mature(i int) bool { return j.proven && j.sinceFill(i) >= matureDays }

// sinceFill counts the days from the fill to entry i, 0 where it is not known.
func (j *judge) sinceFill(i int) int {
	d, err := journal.DaysBetween(j.filled, j.entries[i].At)
	if j.filled == "" || err != nil {
		return 0
	}
	return d
}

// proves reports whether the test at entry i shows a filter that does its work.
func (j *judge) proves(i int) bool {
	e := j.entries[i]
	a, b := j.read(e, journal.NameAmmonia), j.read(e, journal.NameNitrite)
	if !a.Known() || !b.Known() || j.sinceFill(i) < provenDays {
		return false
	}
	return working.WorstOf(water.Interpret(water.Tests{Ammonia: a, Nitrite: b, Mature: true, PH: j.read(e, journal.NamePH), Temperature: j.read(e, journal.NameTemperature)})) == working.Steady
}

// protein is taken of a food whose tin nobody read, the same as for the first
// fish. Source: the reference run for fish-in starts.
const protein = quantity.Ratio(0.45)

// between is what happened in the tank between two entries.
func (j *judge) between(from, to int) water.Between {
	var b water.Between
	kept := quantity.Ratio(1)
	var feed float64
	weighed := true
	for _, e := range j.entries[from+1 : to] {
		switch e.Kind {
		case journal.Changed:
			kept *= 1 - j.share(e)
		case journal.Fed:
			r, ok := e.Get(journal.NameFeed)
			v, ok2 := r.Value()
			if !ok || !ok2 {
				weighed = false
				continue
			}
			feed += v.X * 1000 // g
		}
	}
	b.Changed = 1 - kept
	a, ok1 := j.entries[from].Instant()
	z, ok2 := j.entries[to].Instant()
	days := z.Sub(a).Hours() / 24
	if ok1 && ok2 && days > 0 && weighed && feed > 0 && j.net > 0 {
		if l, _, err := nitrogen.LoadOf(quantity.MassRate(feed/max(1, days)), protein, j.net); err == nil {
			b.Load = l.Rate
		}
	}
	return b
}

// share is the part of the water that an entry changed; all of it where that was
// not written down, so that nothing is concluded from it.
func (j *judge) share(e journal.Entry) quantity.Ratio {
	f, ok := j.shareKnown(e)
	if !ok {
		return 1
	}
	return f
}

func (j *judge) shareKnown(e journal.Entry) (quantity.Ratio, bool) {
	r, ok := e.Get(journal.NameVolume)
	v, ok2 := r.Value()
	if !ok || !ok2 || j.net <= 0 {
		return 0, false
	}
	return min(1, quantity.Ratio(v.X)/quantity.Ratio(j.net)), true
}

// doubts points out readings that the record does not explain.
func (j *judge) doubts(i int) []working.Finding {
	var out []working.Finding
	for _, name := range journal.Tests() {
		n, ok := j.last[name]
		if !ok || n >= i {
			continue
		}
		a, z := j.read(j.entries[n], name), j.read(j.entries[i], name)
		if !a.Known() || !z.Known() {
			continue
		}
		if f, ok := water.Doubt(testNames[name], a, z, j.between(n, i)); ok {
			out = append(out, f)
		}
	}
	return out
}

// courseDays is how far back a course is drawn from. Judgement.
const courseDays = 21

// courses says where readings go, with this test as the last.
func (j *judge) courses(i int) []working.Finding {
	var out []working.Finding
	for _, name := range journal.Tests() {
		if _, ok := j.entries[i].Get(name); !ok || name == journal.NameTemperature {
			continue
		}
		var rs []water.Reading
		for n := i; n >= 0; n-- {
			if d, err := journal.DaysBetween(j.entries[n].At, j.entries[i].At); err != nil || d > courseDays {
				break
			}
			if j.entries[n].Kind != journal.Tested {
				continue
			}
			if r := j.read(j.entries[n], name); r.Known() {
				rs = append(rs, r)
			}
		}
		if f, ok := water.Course(testNames[name], rs); ok {
			out = append(out, f)
		}
	}
	return out
}
