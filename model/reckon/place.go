package reckon

import (
	"reflect"
	"strconv"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// spot is a place in an input that the domain may mean by a field's name.
type spot struct {
	path  string
	value reflect.Value
}

// place returns the path of the field that a refusal means. Of several that are
// called so, it is the first that holds the refused value; a name that stands
// nowhere is left as it is.
func place(s *shape, in reflect.Value, r *working.Refusal) string {
	spots := findSpots(s, in, whole, r.Field)
	if len(spots) == 1 {
		return spots[0].path
	}
	for _, at := range spots {
		if holds(at.value, r.Values["Value"]) {
			return at.path
		}
	}
	if len(spots) > 0 {
		return spots[0].path
	}
	return r.Field
}

func holds(v reflect.Value, refused quantity.Value) bool {
	switch x := v.Interface().(type) {
	case quantity.Value:
		return x == refused
	case valuer:
		return x.Value() == refused
	}
	return v.CanFloat() && v.Float() == refused.X || v.CanInt() && float64(v.Int()) == refused.X
}

// findSpots lists the places below s whose field is called name, in order.
func findSpots(s *shape, v reflect.Value, path, name string) []spot {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return nil
		}
		v = v.Elem()
	}
	var out []spot
	switch s.form {
	case formList:
		for i := range v.Len() {
			out = append(out, findSpots(s.item, v.Index(i), path+"["+strconv.Itoa(i)+"]", name)...)
		}
	case formObject:
		for _, f := range s.fields {
			at, g := below(path, f.name), v.Field(f.index)
			if f.name == name || f.says == name {
				if g.Kind() == reflect.Pointer {
					if g.IsNil() {
						continue
					}
					g = g.Elem()
				}
				out = append(out, spot{at, g})
			}
			out = append(out, findSpots(f.shape, g, at, name)...)
		}
	}
	return out
}
