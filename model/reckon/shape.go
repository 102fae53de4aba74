package reckon

import (
	"reflect"
	"strings"
	"sync"
	"time"
	"unicode"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// form is the kind of JSON that a shape takes.
type form uint8

const (
	formObject   form = iota // an object with fields
	formList                 // a list of item
	formQuantity             // a value with its unit
	formNumber               // a plain number
	formWhole                // a plain whole number
	formFlag                 // true or false
	formChoice               // one of a few texts
	formText                 // any text; only in output, but for codes of sizes
	formMoment               // RFC 3339 time
	formCodes                // a list of findings by their codes; only in output
)

// shape is what JSON a Go type takes and gives.
type shape struct {
	form    form
	typ     reflect.Type
	name    string // of an object: package and type; "" for inputs of one calculation
	fields  []field
	item    *shape
	kinds   []quantity.Kind  // a quantity is of one of these; none is any
	species quantity.Species // a nitrogen compound, whose basis must be given
	basis   quantity.Basis   // the basis that the Go value counts on
	open    bool             // a basis may be given, and need not
	choices []choice
}

// field is a field of an object.
type field struct {
	name     string
	says     string // what the domain's refusals call it, where that differs
	index    int
	required bool
	shape    *shape
	sibling  int // field that keeps the basis as given; -1 for none
}

// choice is a text that stands for a Go value.
type choice struct {
	name  string
	value reflect.Value
}

// rule is what a Go field does not say of itself.
type rule struct {
	name     string
	says     string
	kinds    []quantity.Kind
	species  quantity.Species
	basis    quantity.Basis
	optional bool
	required bool
	open     bool   // a basis may be given: which compound it is shows later
	sibling  string // Go field that keeps the basis as given
	test     string // the reading below is of this test
}

var (
	typeValue   = reflect.TypeFor[quantity.Value]()
	typeMeasure = reflect.TypeFor[quantity.Measure]()
	typeTime    = reflect.TypeFor[time.Time]()
	typeTrail   = reflect.TypeFor[*working.Trail]()
	typeCheck   = reflect.TypeFor[working.Check]()
	typeFinding = reflect.TypeFor[working.Finding]()
)

// valuer is a defined type of package quantity.
type valuer interface{ Value() quantity.Value }

var typeValuer = reflect.TypeFor[valuer]()

// shaper builds shapes; each type once, so that a type may hold itself.
type shaper struct {
	mu     sync.Mutex
	output bool
	known  map[shapeKey]*shape
}

type shapeKey struct {
	typ  reflect.Type
	test string
}

func newShaper(output bool) *shaper { return &shaper{output: output, known: map[shapeKey]*shape{}} }

// whole is the shape of what a calculation takes or gives. It is safe for use by
// several goroutines.
func (s *shaper) whole(t reflect.Type) *shape {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.of(t, rule{})
}

func (s *shaper) of(t reflect.Type, r rule) *shape {
	if t.Kind() == reflect.Pointer {
		return s.of(t.Elem(), r)
	}
	switch {
	case t == typeValue, t == typeMeasure:
		return &shape{form: formQuantity, typ: t, kinds: r.kinds, species: r.species, basis: r.basis, open: r.open}
	case t == typeTime:
		return &shape{form: formMoment, typ: t}
	case t.Kind() == reflect.Float64 && t.Implements(typeValuer):
		k := reflect.Zero(t).Interface().(valuer).Value().Kind
		return &shape{form: formQuantity, typ: t, kinds: []quantity.Kind{k}, species: r.species, basis: r.basis}
	case choices[t] != nil:
		return &shape{form: formChoice, typ: t, choices: choices[t]}
	}
	switch t.Kind() {
	case reflect.Float64:
		return &shape{form: formNumber, typ: t}
	case reflect.Int, reflect.Uint8:
		return &shape{form: formWhole, typ: t}
	case reflect.Bool:
		return &shape{form: formFlag, typ: t}
	case reflect.String:
		return &shape{form: formText, typ: t}
	case reflect.Slice:
		if t.Elem() == typeFinding {
			return &shape{form: formCodes, typ: t}
		}
		return &shape{form: formList, typ: t, item: s.of(t.Elem(), r)}
	case reflect.Struct:
		return s.object(t, r)
	}
	panic("reckon: no JSON for " + t.String())
}

func (s *shaper) object(t reflect.Type, r rule) *shape {
	key := shapeKey{t, r.test}
	if have := s.known[key]; have != nil {
		return have
	}
	o := &shape{form: formObject, typ: t, name: objectName(t, r)}
	s.known[key] = o
	for i := range t.NumField() {
		o.fields = append(o.fields, s.fieldsOf(t, i, r)...)
	}
	if keeper := o.sibling(); keeper >= 0 { // its JSON stands inside the quantity
		o.fields = without(o.fields, keeper)
	}
	return o
}

func (o *shape) sibling() int {
	for _, f := range o.fields {
		if f.sibling >= 0 {
			return f.sibling
		}
	}
	return -1
}

func without(fs []field, index int) []field {
	var out []field
	for _, f := range fs {
		if f.index != index {
			out = append(out, f)
		}
	}
	return out
}

// fieldsOf is the field at index i, or none where it does not show in JSON.
func (s *shaper) fieldsOf(t reflect.Type, i int, outer rule) []field {
	g := t.Field(i)
	tag, options, _ := strings.Cut(g.Tag.Get("json"), ",")
	if !g.IsExported() || tag == "-" || s.output && hoisted(g) {
		return nil
	}
	r := ruleOf(t, g, outer)
	f := field{name: tag, says: r.says, index: i, sibling: -1,
		required: r.required || !r.optional && options == "" && g.Type.Kind() != reflect.Pointer}
	if f.name == "" {
		f.name = snake(g.Name)
	}
	if r.name != "" {
		f.name = r.name
	}
	if r.sibling != "" {
		b, ok := t.FieldByName(r.sibling)
		if !ok {
			panic("reckon: no field " + r.sibling + " in " + t.String())
		}
		f.sibling = b.Index[0]
	}
	f.shape = s.of(g.Type, r)
	return []field{f}
}

// hoisted fields leave the values for lists of their own.
func hoisted(g reflect.StructField) bool {
	return g.Type == typeTrail || g.Type == typeCheck || g.Type == reflect.SliceOf(typeCheck) ||
		g.Type == reflect.PointerTo(typeFinding) || g.Type == reflect.SliceOf(typeFinding) && g.Name == "Findings"
}

// objectName names a Go type for the schema; types of this package belong to one
// calculation and have none.
func objectName(t reflect.Type, r rule) string {
	if t.PkgPath() == reflect.TypeFor[shape]().PkgPath() || t.Name() == "" {
		return ""
	}
	if r.test != "" {
		return t.String() + "." + r.test
	}
	return t.String()
}

// snake writes a Go name as a JSON name: SetPoint becomes set_point.
func snake(name string) string {
	var b strings.Builder
	before := rune(0)
	for _, c := range name {
		if unicode.IsUpper(c) && unicode.IsLower(before) {
			b.WriteByte('_')
		}
		b.WriteRune(unicode.ToLower(c))
		before = c
	}
	return b.String()
}
