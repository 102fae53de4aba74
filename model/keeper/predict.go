package keeper

import (
	"math"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// PredictedReading is what a test after a change should show of one thing.
type PredictedReading struct {
	Name  string // of the reading
	Basis quantity.Basis
	Now   quantity.Value
	Tap   quantity.Value
	After quantity.Value
	Low   quantity.Value
	High  quantity.Value
	Trail *working.Trail
}

// How far readings may be off where no kit says: a quarter for colours, common
// practice, no source; the share of a change by a tenth of itself, judgement.
const (
	colourOff = 0.25
	shareOff  = 0.10
)

// mixes are the readings that mix as they are: by mass. pH does not; see water.MixPH.
var mixes = []string{journal.NameAmmonia, journal.NameNitrite, journal.NameNitrate, journal.NameKH, journal.NameGH, journal.NamePhosphate, journal.NameTDS}

// predictAll says what a test should show after a share is changed, from the
// latest readings up to entry i and the tap's own. What was not measured of either
// water is left out, pH and KH of both together.
func (j *judge) predictAll(i int, share, off quantity.Ratio) []PredictedReading {
	var out []PredictedReading
	for _, name := range mixes {
		n, ok := j.last[name]
		tap, known := j.tap(i, name)
		if !ok || n > i || !known {
			continue
		}
		if p, ok := predictOne(name, j.read(j.entries[n], name), tap, share, off); ok {
			out = append(out, p)
		}
	}
	if p, ok := j.predictPH(i, share); ok {
		out = append(out, p)
	}
	return out
}

// predictOne mixes one reading. The tap's is brought to the tank's basis.
func predictOne(name string, now, tap water.Reading, share, off quantity.Ratio) (PredictedReading, bool) {
	if !now.Known() || !tap.Known() || now.Beyond || tap.Beyond || now.Value.Kind != tap.Value.Kind {
		return PredictedReading{}, false
	}
	in := care.StepOn(tap.Value, name, tap.Basis, now.Basis)
	p, tr, err := water.Predict(water.Mixing{
		Change: water.Change{Now: quantity.Concentration(now.Value.X), Incoming: quantity.Concentration(in.X), Fraction: share},
		NowOff: spreadOf(now), IncomingOff: spreadOf(tap), FractionOff: min(0.5, off)})
	if err != nil {
		return PredictedReading{}, false
	}
	v := func(c quantity.Concentration) quantity.Value {
		return quantity.Value{Kind: now.Value.Kind, X: float64(c)}
	}
	return PredictedReading{Name: name, Basis: now.Basis, Now: now.Value, Tap: in, After: v(p.After), Low: v(p.Low), High: v(p.High), Trail: tr}, true
}

// spreadOf is how far a reading may be off: half a step of its kit, the longer one of
// a card, a quarter of a colour card's reading.
func spreadOf(r water.Reading) quantity.Concentration {
	off := max(r.Below.X, r.Above.X)
	if off == 0 && r.Resolution.Known() {
		off = r.Resolution.X / 2
	}
	if r.Value.Kind == quantity.KindConcentration {
		off = math.Max(off, r.Value.X*colourOff)
	}
	return quantity.Concentration(off)
}

// predictPH mixes alkalinity and dissolved carbon; the range is that of the kits.
func (j *judge) predictPH(i int, share quantity.Ratio) (PredictedReading, bool) {
	var p water.WaterPair
	t := water.Tests{}
	warm := quantity.Temperature(25)
	var half float64
	for name, at := range map[string]*water.Reading{journal.NamePH: &t.PH, journal.NameKH: &t.KH, journal.NameTemperature: &t.Temperature} {
		if n, ok := j.last[name]; ok && n <= i {
			*at = j.read(j.entries[n], name)
		}
	}
	half = 0.1 // of a card that steps by 0.2, as usual. Judgement.
	if t.PH.Above.Known() {
		half = max(t.PH.Below.X, t.PH.Above.X)
	}
	if t.Temperature.Known() {
		warm = quantity.Temperature(t.Temperature.Value.X)
	}
	j.pairOf(i, t, &p)
	if p.TankPH == nil || p.NewPH == nil {
		return PredictedReading{}, false
	}
	m, tr, err := water.MixPH(*p.TankPH, *p.NewPH, share, warm)
	if err != nil {
		return PredictedReading{}, false
	}
	return PredictedReading{Name: journal.NamePH, Now: p.TankPH.PH.Value(), Tap: p.NewPH.PH.Value(), After: m.PH.Value(),
		Low: (m.PH - quantity.PH(half)).Value(), High: (m.PH + quantity.PH(half)).Value(), Trail: tr}, true
}

// predictedWithin is how soon after a change a test still confirms it: later, what
// the tank itself makes and uses counts for more. Judgement.
const predictedWithin = 24 * time.Hour

// predictions sets the test at entry i against what the change before it should
// have made of the one before that.
func (j *judge) predictions(i int) []working.Finding {
	if len(j.changes) == 0 {
		return nil
	}
	c := j.changes[len(j.changes)-1]
	at, ok1 := j.entries[c].Instant()
	now, ok2 := j.entries[i].Instant()
	share, ok3 := j.shareKnown(j.entries[c])
	if !ok1 || !ok2 || !ok3 || now.Sub(at) > predictedWithin {
		return nil
	}
	var out []working.Finding
	for _, name := range mixes {
		got := j.read(j.entries[i], name)
		n, ok := j.last[name]
		if !got.Known() || got.Beyond || !ok || n > c {
			continue // not tested before the change, or again since
		}
		if k := len(j.changes) - 2; k >= 0 && j.changes[k] > n {
			continue // more than one change in between
		}
		tap, known := j.tap(c, name)
		if !known {
			continue
		}
		p, ok := predictOne(name, j.read(j.entries[n], name), tap, share, share*shareOff)
		if !ok {
			continue
		}
		x := care.StepOn(got.Value, name, got.Basis, p.Basis)
		off := float64(spreadOf(water.Reading{Value: x, Resolution: care.StepOn(got.Resolution, name, got.Basis, p.Basis),
			Below: care.StepOn(got.Below, name, got.Basis, p.Basis), Above: care.StepOn(got.Above, name, got.Basis, p.Basis)}))
		f := working.Find(working.Steady, "find.keeper.predicted")
		if x.X+off < p.Low.X || x.X-off > p.High.X {
			f = working.Find(working.Wait, "find.keeper.predicted_off")
		}
		f = f.Word("Test", testNames[name].Name())
		for of, v := range map[string]quantity.Value{"Expected": p.After, "Low": p.Low, "High": p.High, "Measured": x} {
			switch {
			case name == journal.NameAmmonia: // told as nitrogen by its name
				v = care.StepOn(v, name, p.Basis, quantity.AsN)
			case p.Basis == quantity.AsN:
				f = f.On(of, p.Basis)
			}
			f = f.With(of, v)
		}
		out = append(out, f)
	}
	return out
}
