package reckon

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"

	"example.org/driploop/model/working"
)

// Calculation is one calculation by its name.
type Calculation struct {
	name    string
	example string
	input   func() *shape // worked out on first use: the window starts without
	output  func() *shape
	begin   func() reflect.Value // an addressable input with its defaults
	run     func(in reflect.Value) (reflect.Value, error)
}

var (
	calculations = map[string]*Calculation{}
	inputs       = newShaper(false)
	outputs      = newShaper(true)
)

// add registers a calculation with a worked example. Name and example are ours,
// so that a mistake in them is a fault of the program and panics.
func add[I, O any](name string, f func(I) (O, error), example string) {
	addFrom(name, func() I { var in I; return in }, f, example)
}

// addFrom is add for an input that starts with defaults.
func addFrom[I, O any](name string, begin func() I, f func(I) (O, error), example string) {
	if calculations[name] != nil {
		panic("reckon: " + name + " stands twice")
	}
	calculations[name] = &Calculation{name: name, example: example,
		input:  sync.OnceValue(func() *shape { return inputs.whole(reflect.TypeFor[I]()) }),
		output: sync.OnceValue(func() *shape { return outputs.whole(unwrapped(reflect.TypeFor[O]())) }),
		begin: func() reflect.Value {
			in := reflect.New(reflect.TypeFor[I]()).Elem()
			in.Set(reflect.ValueOf(begin()))
			return in
		},
		run: func(in reflect.Value) (reflect.Value, error) {
			out, err := f(in.Interface().(I))
			return reflect.ValueOf(out), err
		}}
}

// of is the result of a calculation that gives one value and its working.
type of[T any] struct {
	Value T
	Trail *working.Trail
}

func traced[T any](v T, t *working.Trail, err error) (of[T], error) { return of[T]{v, t}, err }

// unwrapped is what the values are made of: of an of[T] whose T is a structure,
// the structure.
func unwrapped(t reflect.Type) reflect.Type {
	if isOf(t) && t.Field(0).Type.Kind() == reflect.Struct && t.Field(0).Type != typeValue {
		return t.Field(0).Type
	}
	return t
}

func isOf(t reflect.Type) bool {
	return t.Kind() == reflect.Struct && t.PkgPath() == reflect.TypeFor[Calculation]().PkgPath() && strings.HasPrefix(t.Name(), "of[")
}

// list is the result of a calculation that gives several alike.
type list[T any] struct{ Items []T }

// nothing is the input of a calculation that needs none.
type nothing struct{}

// Names lists the calculations in alphabetical order.
func Names() []string {
	out := make([]string, 0, len(calculations))
	for name := range calculations {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}

// Get returns the calculation of a name.
func Get(name string) (*Calculation, bool) {
	c, ok := calculations[name]
	return c, ok
}

// Name is the dotted name.
func (c *Calculation) Name() string { return c.name }

// Example is an input that shows every field a person will need.
func (c *Calculation) Example() []byte { return []byte(c.example + "\n") }

// Run reads an input, calculates and returns the answer. An input that is not
// taken is an Answer with Refused, not an error; an error is a fault of the
// program.
func (c *Calculation) Run(input []byte) (*Answer, error) {
	b := &binder{currency: noCurrency}
	a := &Answer{Name: c.name, currency: noCurrency}
	p, refused := read(input)
	if refused != nil {
		a.Refused = refused
		return a, nil
	}
	in := c.begin()
	refused = b.bind(c.input(), p, in)
	a.currency = b.currency
	if refused != nil {
		a.Refused = refused
		return a, nil
	}
	out, err := c.run(in)
	if err != nil {
		var r *working.Refusal
		if errors.As(err, &r) {
			a.Refused = c.placed(r, in)
			return a, nil
		}
		return nil, fmt.Errorf("reckon: %s: %w", c.name, err)
	}
	a.fill(c.output(), out)
	recall(a.Trails, b.typed)
	return a, nil
}

// placed names the field of a refusal by its path in the input.
func (c *Calculation) placed(r *working.Refusal, in reflect.Value) *Refused {
	copied := *r
	if !strings.ContainsAny(r.Field, ".[") { // else it is a path already
		copied.Field = place(c.input(), in, r)
	}
	return &Refused{Refusal: &copied}
}
