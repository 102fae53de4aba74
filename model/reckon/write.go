package reckon

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Text gives an answer words, for a caller that has some. With none of them the
// fields "text" stay away.
type Text struct {
	Figure  func(Figure) string
	Finding func(working.Finding) string
	Check   func(working.Check) string
	Refusal func(*working.Refusal) string
	Trail   func(*working.Trail) []string
}

type answerJSON struct {
	Name     string             `json:"name"`
	Result   *float64           `json:"result"`
	Unit     *quantity.UnitCode `json:"unit"`
	Of       *working.Key       `json:"of"`
	Spread   *spreadJSON        `json:"spread"`
	Text     string             `json:"text,omitempty"`
	Values   any                `json:"values"`
	Working  []trailJSON        `json:"working"`
	Sources  []working.Source   `json:"sources"`
	Findings []findingJSON      `json:"findings"`
	Checks   []checkJSON        `json:"checks"`
	Refused  *refusedJSON       `json:"refused"`
}

type spreadJSON struct {
	Low  any         `json:"low"`
	High any         `json:"high"`
	Why  working.Key `json:"why"`
}

type limitJSON struct {
	Name working.Key `json:"name"`
	Low  any         `json:"low"`
	High any         `json:"high"`
}

type givenJSON struct {
	Symbol string           `json:"symbol"`
	Name   working.Key      `json:"name"`
	Value  any              `json:"value"`
	Typed  quantity.Measure `json:"typed,omitzero"`
	Source working.SourceID `json:"source,omitempty"`
}

type stepJSON struct {
	Symbol  string           `json:"symbol"`
	Name    working.Key      `json:"name"`
	Formula string           `json:"formula"`
	Value   any              `json:"value"`
	Source  working.SourceID `json:"source,omitempty"`
}

type trailJSON struct {
	Ask      working.Key        `json:"ask"`
	Givens   []givenJSON        `json:"givens"`
	Steps    []stepJSON         `json:"steps"`
	Result   any                `json:"result"`
	Spread   *spreadJSON        `json:"spread"`
	Strength working.Strength   `json:"strength"`
	Valid    []limitJSON        `json:"valid"`
	Assumes  []working.Key      `json:"assumes"`
	Sources  []working.SourceID `json:"sources"`
	Text     []string           `json:"text,omitempty"`
}

type findingJSON struct {
	Code   working.Key            `json:"code"`
	State  working.State          `json:"state"`
	Values ordered                `json:"values"`
	Words  map[string]working.Key `json:"words"`
	Said   map[string]string      `json:"said"`
	Text   string                 `json:"text,omitempty"`
}

type checkJSON struct {
	Name     working.Key   `json:"name"`
	State    working.State `json:"state"`
	Use      float64       `json:"use"`
	Demand   any           `json:"demand"`
	Capacity any           `json:"capacity"`
	Finding  *findingJSON  `json:"finding"`
	Text     string        `json:"text,omitempty"`
}

type refusedJSON struct {
	Field   string      `json:"field"`
	Code    working.Key `json:"code"`
	Values  ordered     `json:"values"`
	Accept  *limitJSON  `json:"accept"`
	Accepts []string    `json:"accepts"`
	Text    string      `json:"text,omitempty"`
}

// JSON writes the answer, with words where t has them.
func (a *Answer) JSON(t Text) ([]byte, error) {
	w := writer{encoder{currency: a.currency}, t}
	out := answerJSON{Name: a.Name, Values: a.values, Working: []trailJSON{}, Sources: []working.Source{}, Findings: []findingJSON{}, Checks: []checkJSON{}}
	if f := a.Figure; f != nil && f.Value.Known() {
		u := unitOf(f.Value.Kind, a.currency)
		x := w.number(u.FromBase(f.Value.X))
		out.Result, out.Unit, out.Spread = &x, &u.Code, w.spread(f.Spread)
		if f.Of != "" {
			out.Of = &f.Of
		}
		if t.Figure != nil {
			out.Text = t.Figure(*f)
		}
	}
	cited := map[working.SourceID]bool{}
	for _, tr := range a.Trails {
		out.Working = append(out.Working, w.trail(tr))
		for _, id := range tr.Sources {
			cited[id] = true
		}
	}
	for _, id := range slices.Sorted(maps.Keys(cited)) {
		if s, ok := working.LookUp(id); ok {
			out.Sources = append(out.Sources, s)
		}
	}
	for _, f := range a.Findings {
		out.Findings = append(out.Findings, w.finding(f))
	}
	for _, c := range a.Checks {
		out.Checks = append(out.Checks, w.check(c))
	}
	out.Refused = w.refused(a.Refused)
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(out)
	return b.Bytes(), err
}

type writer struct {
	encoder
	text Text
}

func (w *writer) spread(s *working.Spread) *spreadJSON {
	if s == nil {
		return nil
	}
	return &spreadJSON{w.amount(s.Low, ""), w.amount(s.High, ""), s.Why}
}

// limit leaves an open end as null.
func (w *writer) limit(l working.Limit) limitJSON {
	end := func(v quantity.Value) any {
		if !quantity.Finite(v.X) {
			return nil
		}
		return w.amount(v, "")
	}
	return limitJSON{l.Name, end(l.Low), end(l.High)}
}

func (w *writer) trail(t *working.Trail) trailJSON {
	out := trailJSON{Ask: t.Ask, Givens: []givenJSON{}, Steps: []stepJSON{}, Result: w.amount(t.Result.Value, ""), Spread: w.spread(t.Spread),
		Strength: t.Strength, Valid: []limitJSON{}, Assumes: append([]working.Key{}, t.Assumes...), Sources: append([]working.SourceID{}, t.Sources...)}
	for _, g := range t.Givens {
		out.Givens = append(out.Givens, givenJSON{g.Symbol, g.Name, w.amount(g.Value, ""), g.Typed, g.Source})
	}
	for _, s := range t.Steps {
		out.Steps = append(out.Steps, stepJSON{s.Symbol, s.Name, s.Formula, w.amount(s.Value, ""), s.Source})
	}
	for _, l := range t.Valid {
		out.Valid = append(out.Valid, w.limit(l))
	}
	if w.text.Trail != nil {
		out.Text = w.text.Trail(t)
	}
	return out
}

func (w *writer) named(values map[string]quantity.Value) ordered {
	out := ordered{}
	for _, name := range slices.Sorted(maps.Keys(values)) {
		v := values[name]
		if !quantity.Finite(v.X) {
			v = quantity.Value{}
		}
		out = append(out, pair{name, w.amount(v, "")})
	}
	return out
}

func (w *writer) finding(f working.Finding) findingJSON {
	out := findingJSON{Code: f.Code, State: f.State, Values: w.named(f.Values), Words: f.Words, Said: f.Text}
	if out.Words == nil {
		out.Words = map[string]working.Key{}
	}
	if out.Said == nil {
		out.Said = map[string]string{}
	}
	if w.text.Finding != nil {
		out.Text = w.text.Finding(f)
	}
	return out
}

func (w *writer) check(c working.Check) checkJSON {
	out := checkJSON{Name: c.Name, State: c.State, Use: w.number(c.Use), Demand: w.amount(c.Demand, ""), Capacity: w.amount(c.Capacity, "")}
	if c.Finding != nil {
		f := w.finding(*c.Finding)
		out.Finding = &f
	}
	if w.text.Check != nil {
		out.Text = w.text.Check(c)
	}
	return out
}

func (w *writer) refused(r *Refused) *refusedJSON {
	if r == nil {
		return nil
	}
	out := &refusedJSON{Field: r.Field, Code: r.Code, Values: w.named(r.Values), Accepts: append([]string{}, r.Accepts...)}
	if r.Accept.Low.Known() || r.Accept.High.Known() {
		l := w.limit(r.Accept)
		out.Accept = &l
	}
	if w.text.Refusal != nil {
		out.Text = w.text.Refusal(r.Refusal)
	}
	return out
}
