package working

import (
	"slices"

	"example.org/driploop/model/quantity"
)

// Strength says how a result may be worded.
type Strength string

// The strengths.
const (
	Robust      Strength = "robust"        // show the number
	Ranged      Strength = "range"         // show the number with its range
	RuleOfThumb Strength = "rule_of_thumb" // show as advice only
)

// Given is an input of a calculation.
type Given struct {
	Symbol string           `json:"symbol"`
	Name   Key              `json:"name"`
	Value  quantity.Value   `json:"value"`
	Typed  quantity.Measure `json:"typed,omitzero"` // as the person gave it, if they did
	Source SourceID         `json:"source,omitempty"`
}

// Step is one equation with its value. Formula is written in symbols, readable
// as plain text: "V = L·W·h".
type Step struct {
	Symbol  string         `json:"symbol"`
	Name    Key            `json:"name"`
	Formula string         `json:"formula"`
	Value   quantity.Value `json:"value"`
	Source  SourceID       `json:"source,omitempty"`
}

// Spread is the range a result may be expected in, and why.
type Spread struct {
	Low  quantity.Value `json:"low"`
	High quantity.Value `json:"high"`
	Why  Key            `json:"why,omitempty"`
}

// Limit is the range in which a formula holds for one input. An unknown end is open.
type Limit struct {
	Name Key            `json:"name"`
	Low  quantity.Value `json:"low,omitzero"`
	High quantity.Value `json:"high,omitzero"`
}

// Trail is one worked calculation. Fill it with its methods; the last step's
// value is the result unless Result is set.
type Trail struct {
	Ask      Key        `json:"ask"`
	Givens   []Given    `json:"givens,omitempty"`
	Steps    []Step     `json:"steps,omitempty"`
	Result   Step       `json:"result"`
	Spread   *Spread    `json:"spread,omitempty"`
	Strength Strength   `json:"strength"`
	Valid    []Limit    `json:"valid,omitempty"`
	Sources  []SourceID `json:"sources,omitempty"`
	Assumes  []Key      `json:"assumes,omitempty"`
}

// New starts the trail that answers ask. It is Robust until said otherwise.
func New(ask Key) *Trail { return &Trail{Ask: ask, Strength: Robust} }

// Given records an input.
func (t *Trail) Given(symbol string, name Key, v quantity.Value) *Trail {
	t.Givens = append(t.Givens, Given{Symbol: symbol, Name: name, Value: v})
	return t
}

// Constant records an input that comes from a source, not from the person.
func (t *Trail) Constant(symbol string, name Key, v quantity.Value, src SourceID) *Trail {
	t.Givens = append(t.Givens, Given{Symbol: symbol, Name: name, Value: v, Source: src})
	return t.Cites(src)
}

// Step records an equation and its value; src may be empty for plain algebra.
func (t *Trail) Step(symbol string, name Key, formula string, v quantity.Value, src SourceID) *Trail {
	s := Step{Symbol: symbol, Name: name, Formula: formula, Value: v, Source: src}
	t.Steps = append(t.Steps, s)
	t.Result = s
	if src != "" {
		t.Cites(src)
	}
	return t
}

// Cites adds sources, each once.
func (t *Trail) Cites(ids ...SourceID) *Trail {
	for _, id := range ids {
		if !slices.Contains(t.Sources, id) {
			t.Sources = append(t.Sources, id)
		}
	}
	return t
}

// Assume adds assumptions, each once.
func (t *Trail) Assume(keys ...Key) *Trail {
	for _, k := range keys {
		if !slices.Contains(t.Assumes, k) {
			t.Assumes = append(t.Assumes, k)
		}
	}
	return t
}

// Within records the range the formula holds in for one input.
func (t *Trail) Within(name Key, low, high quantity.Value) *Trail {
	t.Valid = append(t.Valid, Limit{name, low, high})
	return t
}

// Between gives the result a spread and the strength Ranged, unless it is a
// rule of thumb already.
func (t *Trail) Between(low, high quantity.Value, why Key) *Trail {
	t.Spread = &Spread{low, high, why}
	if t.Strength == Robust {
		t.Strength = Ranged
	}
	return t
}

// As sets the strength.
func (t *Trail) As(s Strength) *Trail {
	t.Strength = s
	return t
}

// Finite reports whether every number in the trail is one.
func (t *Trail) Finite() bool {
	for _, g := range t.Givens {
		if !quantity.Finite(g.Value.X) {
			return false
		}
	}
	for _, s := range t.Steps {
		if !quantity.Finite(s.Value.X) {
			return false
		}
	}
	if t.Spread != nil && !(quantity.Finite(t.Spread.Low.X) && quantity.Finite(t.Spread.High.X)) {
		return false
	}
	return quantity.Finite(t.Result.Value.X)
}
