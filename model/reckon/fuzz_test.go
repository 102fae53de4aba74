package reckon

import (
	"bytes"
	"encoding/json"
	"testing"

	"example.org/driploop/model/quantity"
)

// FuzzReckon feeds every calculation anything: no panic, no error that is not a
// refusal, no output that is not JSON, no NaN.
func FuzzReckon(f *testing.F) {
	names := Names()
	for i, n := range names {
		c, _ := Get(n)
		f.Add(uint8(i), c.Example())
		f.Add(uint8(i), bytes.Replace(c.Example(), []byte(`"value": `), []byte(`"value": -`), 1))
		f.Add(uint8(i), bytes.Replace(c.Example(), []byte(`"value": `), []byte(`"value": 1e300`), 1))
	}
	f.Add(uint8(0), []byte(`{"a":{"b":[{}]},"a":1e999}`))
	f.Add(uint8(0), []byte(`{"":1}`))
	f.Fuzz(func(t *testing.T, which uint8, input []byte) {
		c, _ := Get(names[int(which)%len(names)])
		a, err := c.Run(input)
		if err != nil {
			t.Fatalf("%s: %v on %s", c.Name(), err, input)
		}
		raw, err := a.JSON(Text{})
		if err != nil || !json.Valid(raw) {
			t.Fatalf("%s: %v on %s", c.Name(), err, input)
		}
		switch {
		case a.Refused == nil && a.Figure != nil && !quantity.Finite(a.Figure.Value.X):
			t.Errorf("%s gives no number on %s", c.Name(), input)
		case a.Refused != nil && a.Refused.Code == "refuse.reckon.no_number":
			t.Errorf("%s leads to no number on %s", c.Name(), input)
		case a.Refused != nil && (a.Refused.Field == "" || a.Refused.Code == ""):
			t.Errorf("%s refuses without a field or a code on %s", c.Name(), input)
		}
	})
}
