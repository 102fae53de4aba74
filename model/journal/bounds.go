package journal

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// KindsOf lists the kinds of quantity that a reading may be given in, the usual
// one first; none for a name that is not known or is a word.
func KindsOf(name string) []quantity.Kind {
	var ks []quantity.Kind
	for _, b := range bounds[name] {
		ks = append(ks, b.kind)
	}
	return ks
}

// bound is what is believable of a reading, in the base unit of its kind.
type bound struct {
	kind      quantity.Kind
	low, high float64
	whole     bool
}

// bounds of the readings. Judgement: beyond them it is a slip of the hand, not
// an aquarium. A dose may be a volume or a mass.
var bounds = map[string][]bound{
	NameTemperature: {{kind: quantity.KindTemperature, low: 0, high: 45}},
	NameAmmonia:     {{kind: quantity.KindConcentration, high: 1000}},
	NameNitrite:     {{kind: quantity.KindConcentration, high: 1000}},
	NameNitrate:     {{kind: quantity.KindConcentration, high: 5000}},
	NamePH:          {{kind: quantity.KindPH, low: 3, high: 11}},
	NameKH:          {{kind: quantity.KindHardness, high: 1500}},
	NameGH:          {{kind: quantity.KindHardness, high: 2500}},
	NameVolume:      {{kind: quantity.KindVolume, high: 10}},
	NameDose:        {{kind: quantity.KindVolume, high: 0.1}, {kind: quantity.KindMass, high: 10}},
	NameFeed:        {{kind: quantity.KindMass, high: 1}},
	NameCount:       {{kind: quantity.KindCount, low: 1, high: 10000, whole: true}},
	NameDuration:    {{kind: quantity.KindTime, high: 60 * 86400}},
	NameLength:      {{kind: quantity.KindLength, low: 0.002, high: 3}},
	NameChlorine:    {{kind: quantity.KindConcentration, high: 20}},
	NameOxygen:      {{kind: quantity.KindConcentration, high: 40}},
	NamePhosphate:   {{kind: quantity.KindConcentration, high: 100}},
	NameTDS:         {{kind: quantity.KindConcentration, high: 50000}, {kind: quantity.KindConductivity, high: 80000}},
}

// Check refuses a reading that is no number, of another kind than its name
// means, or beyond belief.
func (r Reading) Check() error {
	if _, word := vocabulary[r.Name]; word {
		return r.checkWord()
	}
	if r.Qualifier != Plain {
		return nil
	}
	v, err := r.Measure.Value()
	if err != nil {
		return working.Refuse(r.Name, "refuse.not_a_number")
	}
	for _, b := range bounds[r.Name] {
		if b.kind != v.Kind {
			continue
		}
		if b.whole && v.X != float64(int64(v.X)) {
			return working.Refuse(r.Name, "refuse.whole_number")
		}
		return working.InRange(r.Name, working.Key("reading."+r.Name), v, quantity.Value{Kind: b.kind, X: b.low}, quantity.Value{Kind: b.kind, X: b.high})
	}
	return working.Refuse(r.Name, "refuse.journal.reading")
}
