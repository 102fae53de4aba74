package reckon

import (
	"bytes"
	"encoding/json"
	"math"
	"reflect"
	"strconv"
	"time"

	"example.org/driploop/model/quantity"
)

// noCurrency stands where no price was given. Source: ISO 4217, XXX.
const noCurrency = "XXX"

// unitOf is the unit in which a kind leaves: the base unit, but litres and litres
// an hour, which the trade reckons in.
func unitOf(k quantity.Kind, currency string) quantity.Unit {
	switch k {
	case quantity.KindVolume:
		return quantity.MustUnit("l")
	case quantity.KindFlow:
		return quantity.MustUnit("l/h")
	case quantity.KindMoney:
		return quantity.MustUnit(quantity.UnitCode(currency))
	}
	u, _ := k.Base()
	return u
}

// figures is how many significant figures leave.
const figures = 12

func rounded(x float64) float64 {
	if !quantity.Finite(x) {
		return x
	}
	y, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', figures-1, 64), 64)
	if y == 0 || math.IsInf(y, 0) {
		return 0
	}
	return y
}

// amount is a quantity on its way out.
type amount struct {
	Value float64           `json:"value"`
	Unit  quantity.UnitCode `json:"unit"`
	Basis quantity.Basis    `json:"basis,omitempty"`
}

// ordered is an object whose fields keep their order.
type ordered []pair

type pair struct {
	name  string
	value any
}

// MarshalJSON writes the fields in order.
func (o ordered) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, p := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		name, err := json.Marshal(p.name)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(p.value)
		if err != nil {
			return nil, err
		}
		b.Write(name)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// encoder turns Go values into what encoding/json writes; broken says that a
// number was none.
type encoder struct {
	currency string
	broken   bool
}

// amount returns null for what is missing.
func (e *encoder) amount(v quantity.Value, b quantity.Basis) any {
	if !v.Known() {
		return nil
	}
	u := unitOf(v.Kind, e.currency)
	return amount{e.number(u.FromBase(v.X)), u.Code, b}
}

func (e *encoder) number(x float64) float64 {
	if !quantity.Finite(x) {
		e.broken = true
		return 0
	}
	return rounded(x)
}

func (e *encoder) value(s *shape, v reflect.Value) any {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return nil
		}
		v = v.Elem()
	}
	switch s.form {
	case formObject:
		return e.object(s, v)
	case formList:
		out := make([]any, 0, v.Len())
		for i := range v.Len() {
			out = append(out, e.value(s.item, v.Index(i)))
		}
		return out
	case formQuantity:
		return e.quantity(s, v, s.basis)
	case formNumber:
		return e.number(v.Float())
	case formWhole:
		if v.CanInt() {
			return v.Int()
		}
		return v.Uint()
	case formFlag:
		return v.Bool()
	case formChoice:
		for _, c := range s.choices {
			if c.value.Equal(v) {
				return c.name
			}
		}
		return nil
	case formMoment:
		if t := v.Interface().(time.Time); !t.IsZero() {
			return t.Format(time.RFC3339)
		}
		return nil
	case formCodes:
		out := make([]any, 0, v.Len())
		for i := range v.Len() {
			out = append(out, v.Index(i).FieldByName("Code").String())
		}
		return out
	}
	return v.String()
}

func (e *encoder) quantity(s *shape, v reflect.Value, b quantity.Basis) any {
	switch x := v.Interface().(type) {
	case quantity.Value:
		return e.amount(x, b)
	case quantity.Measure:
		n, err := strconv.ParseFloat(x.Number, 64)
		if err != nil {
			return nil
		}
		return amount{e.number(n), x.Unit, x.Basis}
	case valuer:
		return e.amount(x.Value(), b)
	}
	return nil
}

func (e *encoder) object(s *shape, v reflect.Value) any {
	out := make(ordered, 0, len(s.fields))
	for _, f := range s.fields {
		g := v.Field(f.index)
		if f.sibling >= 0 {
			out = append(out, pair{f.name, e.quantity(f.shape, g, quantity.Basis(v.Field(f.sibling).String()))})
			continue
		}
		out = append(out, pair{f.name, e.value(f.shape, g)})
	}
	return out
}
