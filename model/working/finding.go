package working

import (
	"maps"
	"sort"

	"example.org/driploop/model/quantity"
)

// State is the verdict on one thing. It is shown as a shape and a word, never as
// a colour alone.
type State uint8

// The three states, mildest first.
const (
	Steady State = iota // in order
	Wait                // not yet, or with care
	Act                 // do something now
)

// String returns the stable name of s.
func (s State) String() string {
	switch s {
	case Steady:
		return "steady"
	case Wait:
		return "wait"
	}
	return "act"
}

// MarshalText writes the stable name.
func (s State) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Worst returns the gravest of the given states.
func Worst(states ...State) State {
	w := Steady
	for _, s := range states {
		if s > w {
			w = s
		}
	}
	return w
}

// Finding is something to tell a person. Values fill the message's placeholders
// by name; Words are further messages put in; Text is a person's own words.
type Finding struct {
	Code   Key                       `json:"code"`
	State  State                     `json:"state"`
	Values map[string]quantity.Value `json:"values,omitempty"`
	Words  map[string]Key            `json:"words,omitempty"`
	Text   map[string]string         `json:"text,omitempty"`
	// Bases says on which basis a value of a nitrogen compound is, where it is to be
	// said beside it.
	Bases map[string]quantity.Basis `json:"bases,omitempty"`
}

// Find makes a finding without values.
func Find(s State, code Key) Finding { return Finding{Code: code, State: s} }

// With adds a value for the placeholder name.
func (f Finding) With(name string, v quantity.Value) Finding {
	f.Values = with(f.Values, name, v)
	return f
}

// On says beside the value of a name on which basis it is.
func (f Finding) On(name string, b quantity.Basis) Finding {
	f.Bases = with(f.Bases, name, b)
	return f
}

// Word adds another message for the placeholder name.
func (f Finding) Word(name string, k Key) Finding {
	f.Words = with(f.Words, name, k)
	return f
}

// Say adds a person's own words for the placeholder name.
func (f Finding) Say(name, text string) Finding {
	f.Text = with(f.Text, name, text)
	return f
}

// with gives a copy of m that also has v for a name: findings share nothing.
func with[V any](m map[string]V, name string, v V) map[string]V {
	out := make(map[string]V, len(m)+1)
	maps.Copy(out, m)
	out[name] = v
	return out
}

// WorstOf returns the gravest state among findings.
func WorstOf(fs []Finding) State {
	w := Steady
	for _, f := range fs {
		w = Worst(w, f.State)
	}
	return w
}

// Check is one limit that was looked at: how much of what is allowed is used.
type Check struct {
	Name     Key            `json:"name"`
	Use      float64        `json:"use"` // demand ÷ capacity, 1 is the limit
	Demand   quantity.Value `json:"demand,omitzero"`
	Capacity quantity.Value `json:"capacity,omitzero"`
	State    State          `json:"state"`
	Trail    *Trail         `json:"working,omitempty"`
	Finding  *Finding       `json:"finding,omitempty"` // what to say of it, if anything
}

// Graded gives c the state that its use deserves: steady up to wait, wait up to
// one, act beyond.
func Graded(c Check, wait float64) Check {
	switch {
	case !(c.Use <= 1): // NaN counts as beyond
		c.State = Act
	case c.Use > wait:
		c.State = Wait
	default:
		c.State = Steady
	}
	return c
}

// Governing sorts checks so that the gravest comes first: by state, then by use.
func Governing(cs []Check) []Check {
	out := append([]Check(nil), cs...)
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].State != out[j].State {
			return out[i].State > out[j].State
		}
		return out[i].Use > out[j].Use
	})
	return out
}

// Refusal is an input that a calculation does not accept: which, why, and what
// would be accepted. No number comes with it.
type Refusal struct {
	Field  string                    `json:"field"`
	Code   Key                       `json:"code"`
	Values map[string]quantity.Value `json:"values,omitempty"`
	Accept Limit                     `json:"accept,omitzero"`
}

// Error implements error for logs; people read the message for Code.
func (r *Refusal) Error() string { return "refused: " + r.Field + ": " + string(r.Code) }

// Refuse makes a refusal of a field.
func Refuse(field string, code Key) *Refusal { return &Refusal{Field: field, Code: code} }

// Outside makes the refusal of a field whose value is outside low..high.
func Outside(field string, name Key, v, low, high quantity.Value) *Refusal {
	return &Refusal{Field: field, Code: "refuse.outside", Values: map[string]quantity.Value{"Value": v},
		Accept: Limit{Name: name, Low: low, High: high}}
}

// InRange refuses v of a field when it is not a number or lies outside
// low..high (all of one kind); it returns nil when v is accepted.
func InRange(field string, name Key, v, low, high quantity.Value) error {
	if !quantity.Finite(v.X) {
		return Refuse(field, "refuse.not_a_number")
	}
	if v.X < low.X || v.X > high.X {
		return Outside(field, name, v, low, high)
	}
	return nil
}
