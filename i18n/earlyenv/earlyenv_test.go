package earlyenv

import (
	"errors"
	"maps"
	"testing"
)

func TestSettle(t *testing.T) {
	type env map[string]string
	for _, c := range []struct{ in, want env }{
		{env{}, env{"LANG": neutral}},
		{env{"LANG": "C"}, env{"LANG": neutral}},
		{env{"LANG": "C.UTF-8"}, env{"LANG": neutral}},
		{env{"LC_ALL": "POSIX", "LANG": "de_DE.UTF-8"}, env{"LC_ALL": neutral, "LANG": "de_DE.UTF-8"}},
		{env{"LANG": "es_ES.UTF-8"}, env{"LANG": "es_ES.UTF-8"}},
		{env{"LC_ALL": "", "LC_MESSAGES": "fr_FR.UTF-8", "LANG": "C"}, env{"LC_ALL": "", "LC_MESSAGES": "fr_FR.UTF-8", "LANG": neutral}},
	} {
		got := maps.Clone(c.in)
		Settle(func(k string) string { return got[k] }, func(k, v string) error { got[k] = v; return nil })
		if !maps.Equal(got, c.want) {
			t.Errorf("%v: want %v, got %v", c.in, c.want, got)
		}
	}
	Settle(func(string) string { return "C" }, func(string, string) error { return errors.New("read only") })
}
