package reckon

import (
	"encoding/json"
	"reflect"
	"slices"
	"strconv"
	"time"

	"example.org/driploop/model/quantity"
)

// binder puts parts into Go values. It remembers the currency of a price, which
// a quantity.Value does not keep, and how quantities were given.
type binder struct {
	currency string
	typed    []typed
}

func (b *binder) bind(s *shape, p *part, into reflect.Value) *Refused {
	if into.Kind() == reflect.Pointer {
		into.Set(reflect.New(into.Type().Elem()))
		into = into.Elem()
	}
	switch s.form {
	case formObject:
		return b.object(s, p, into)
	case formList:
		return b.list(s, p, into)
	case formQuantity:
		v, _, refused := b.quantity(s, p)
		if refused == nil {
			setQuantity(into, v)
		}
		return refused
	case formNumber, formWhole:
		return b.number(s, p, into)
	case formFlag:
		yes, ok := p.token.(bool)
		if !ok {
			return refuse(p.path, "refuse.reckon.want_flag")
		}
		into.SetBool(yes)
	case formChoice:
		return b.choice(s, p, into)
	case formText, formMoment:
		return b.text(s, p, into)
	}
	return nil
}

func setQuantity(into reflect.Value, v quantity.Value) {
	if into.Type() == typeValue {
		into.Set(reflect.ValueOf(v))
		return
	}
	into.SetFloat(v.X)
}

func isObject(p *part) bool { return p.token == json.Delim('{') }

func (b *binder) object(s *shape, p *part, into reflect.Value) *Refused {
	if !isObject(p) {
		return refuse(p.path, "refuse.reckon.want_object", s.names()...)
	}
	for _, m := range p.members {
		if !slices.ContainsFunc(s.fields, func(f field) bool { return f.name == m.name }) {
			return refuse(m.part.path, "refuse.reckon.unknown_field", s.names()...)
		}
	}
	for _, f := range s.fields {
		i := slices.IndexFunc(p.members, func(m member) bool { return m.name == f.name })
		if i < 0 {
			if f.required {
				return refuse(below(p.path, f.name), "refuse.missing")
			}
			continue
		}
		if f.sibling < 0 {
			if refused := b.bind(f.shape, p.members[i].part, into.Field(f.index)); refused != nil {
				return refused
			}
			continue
		}
		v, basis, refused := b.quantity(f.shape, p.members[i].part)
		if refused != nil {
			return refused
		}
		setQuantity(into.Field(f.index), v)
		into.Field(f.sibling).SetString(string(basis))
	}
	return nil
}

func (s *shape) names() []string {
	var out []string
	for _, f := range s.fields {
		out = append(out, f.name)
	}
	return out
}

func (b *binder) list(s *shape, p *part, into reflect.Value) *Refused {
	if p.token != json.Delim('[') {
		return refuse(p.path, "refuse.reckon.want_list")
	}
	out := reflect.MakeSlice(s.typ, len(p.items), len(p.items))
	for i, item := range p.items {
		if refused := b.bind(s.item, item, out.Index(i)); refused != nil {
			return refused
		}
	}
	into.Set(out)
	return nil
}

// quantity reads {"value": 57, "unit": "l"} and, of a nitrogen compound, its
// basis. The value comes in the base unit and on the basis of the shape; where
// the shape has none it stays on the basis that is returned.
func (b *binder) quantity(s *shape, p *part) (quantity.Value, quantity.Basis, *Refused) {
	none := quantity.Value{}
	units := s.units()
	if !isObject(p) {
		return none, "", refuse(p.path, "refuse.reckon.want_quantity", units...)
	}
	with := []string{"value", "unit"}
	if s.species != "" || s.open {
		with = append(with, "basis")
	}
	var value, unit, basis *part
	for _, m := range p.members {
		switch {
		case m.name == "value":
			value = m.part
		case m.name == "unit":
			unit = m.part
		case m.name == "basis" && len(with) == 3:
			basis = m.part
		default:
			return none, "", refuse(m.part.path, "refuse.reckon.unknown_field", with...)
		}
	}
	if unit == nil {
		return none, "", refuse(below(p.path, "unit"), "refuse.missing", units...)
	}
	code, ok := unit.token.(string)
	u, known := quantity.UnitOf(quantity.UnitCode(code))
	switch {
	case !ok || !known:
		return none, "", refuse(unit.path, "refuse.reckon.unknown_unit", units...)
	case len(s.kinds) > 0 && !slices.Contains(s.kinds, u.Kind):
		return none, "", refuse(unit.path, "refuse.reckon.wrong_unit", units...)
	}
	if value == nil {
		return none, "", refuse(below(p.path, "value"), "refuse.missing")
	}
	x, refused := numberOf(value)
	if refused != nil {
		return none, "", refused
	}
	v := quantity.Value{Kind: u.Kind, X: u.ToBase(x)}
	if !quantity.Finite(v.X) {
		return none, "", refuse(value.path, "refuse.not_a_number")
	}
	if u.Kind == quantity.KindMoney {
		b.currency = code
	}
	on, refused := s.basisOf(p, basis)
	if refused != nil {
		return none, "", refused
	}
	as := quantity.Measure{Number: plain(value.token.(json.Number)), Unit: quantity.UnitCode(code), Basis: on}
	if s.basis == "" || on == s.basis || on == "" {
		b.typed = append(b.typed, typed{v, as})
		return v, on, nil
	}
	perN, _ := s.species.IonPerN()
	if s.basis == quantity.AsN {
		v.X /= perN
	} else {
		v.X *= perN
	}
	b.typed = append(b.typed, typed{v, as})
	return v, s.basis, nil
}

// basisOf is the basis that was given; a nitrogen compound must have one.
func (s *shape) basisOf(p, basis *part) (quantity.Basis, *Refused) {
	accepts := []string{string(quantity.AsN), string(quantity.AsIon)}
	if basis == nil {
		if s.species != "" {
			return "", refuse(below(p.path, "basis"), "refuse.reckon.basis", accepts...)
		}
		return "", nil
	}
	if text, _ := basis.token.(string); slices.Contains(accepts, text) {
		return quantity.Basis(text), nil
	}
	return "", refuse(basis.path, "refuse.reckon.basis", accepts...)
}

// units lists the unit codes that a quantity takes.
func (s *shape) units() []string {
	var out []string
	for _, k := range s.kinds {
		for _, u := range quantity.UnitsOf(k) {
			out = append(out, string(u.Code))
		}
	}
	return out
}

func numberOf(p *part) (float64, *Refused) {
	n, ok := p.token.(json.Number)
	if !ok {
		return 0, refuse(p.path, "refuse.reckon.want_number")
	}
	x, err := strconv.ParseFloat(string(n), 64)
	if err != nil || !quantity.Finite(x) {
		return 0, refuse(p.path, "refuse.not_a_number")
	}
	return x, nil
}

// largestWhole is more than any count here. // judgement
const largestWhole = 1e9

func (b *binder) number(s *shape, p *part, into reflect.Value) *Refused {
	x, refused := numberOf(p)
	if refused != nil {
		return refused
	}
	if s.form == formNumber {
		into.SetFloat(x)
		return nil
	}
	if x != float64(int64(x)) || x > largestWhole || x < -largestWhole {
		return refuse(p.path, "refuse.whole_number")
	}
	into.SetInt(int64(x))
	return nil
}

func (b *binder) choice(s *shape, p *part, into reflect.Value) *Refused {
	text, ok := p.token.(string)
	for _, c := range s.choices {
		if ok && c.name == text {
			into.Set(c.value)
			return nil
		}
	}
	return refuse(p.path, "refuse.unknown", s.choiceNames()...)
}

func (s *shape) choiceNames() []string {
	var out []string
	for _, c := range s.choices {
		out = append(out, c.name)
	}
	return out
}

func (b *binder) text(s *shape, p *part, into reflect.Value) *Refused {
	text, ok := p.token.(string)
	if !ok {
		return refuse(p.path, "refuse.reckon.want_text")
	}
	if s.form == formText {
		into.SetString(text)
		return nil
	}
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return refuse(p.path, "refuse.reckon.want_time")
	}
	into.Set(reflect.ValueOf(t))
	return nil
}
