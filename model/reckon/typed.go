package reckon

import (
	"encoding/json"
	"strconv"
	"strings"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// typed is a quantity of an input with the way in which it was given.
type typed struct {
	value quantity.Value
	as    quantity.Measure
}

// recall tells each input of a working how it was given. It knows an input by its
// value; one that could be either of two that were given otherwise stays as it is.
func recall(trails []*working.Trail, from []typed) {
	for _, t := range trails {
		for i := range t.Givens {
			g := &t.Givens[i]
			if g.Source != "" || !g.Typed.IsZero() || !g.Value.Known() {
				continue
			}
			if as, ok := givenAs(g.Value, from); ok {
				g.Typed = as
			}
		}
	}
}

func givenAs(v quantity.Value, from []typed) (as quantity.Measure, ok bool) {
	for _, x := range from {
		if x.value != v {
			continue
		}
		if ok && x.as != as {
			return quantity.Measure{}, false
		}
		as, ok = x.as, true
	}
	return as, ok
}

// plain writes a number of JSON without a power of ten, with the digits that were
// given where it has none.
func plain(n json.Number) string {
	if !strings.ContainsAny(string(n), "eE") {
		return string(n)
	}
	x, err := n.Float64()
	if err != nil { // numberOf has read it
		return ""
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}
