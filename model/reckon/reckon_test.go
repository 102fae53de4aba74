package reckon

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.org/driploop/model/working"
)

var schemas = map[string]*jsonschema.Schema{}

// compiled is the schema of a calculation, of its input or its output.
func compiled(t *testing.T, c *Calculation, part string) *jsonschema.Schema {
	t.Helper()
	if s := schemas[c.Name()+part]; s != nil {
		return s
	}
	raw, err := c.Schema()
	if err != nil {
		t.Fatalf("%s: %v", c.Name(), err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(raw))
	if err != nil {
		t.Fatalf("%s: %v", c.Name(), err)
	}
	k := jsonschema.NewCompiler()
	k.AssertFormat()
	if err := k.AddResource(schemaID(c.Name()), doc); err != nil {
		t.Fatalf("%s: %v", c.Name(), err)
	}
	s, err := k.Compile(schemaID(c.Name()) + "#/$defs/" + part)
	if err != nil {
		t.Fatalf("%s: %v", c.Name(), err)
	}
	schemas[c.Name()+part] = s
	return s
}

func valid(t *testing.T, s *jsonschema.Schema, what string, raw []byte) {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(raw))
	if err != nil {
		t.Fatalf("%s is no JSON: %v\n%s", what, err, raw)
	}
	if err := s.Validate(doc); err != nil {
		t.Errorf("%s does not fit its schema: %v\n%.2000s", what, err, raw)
	}
}

func answer(t *testing.T, c *Calculation, input []byte) (*Answer, []byte) {
	t.Helper()
	a, err := c.Run(input)
	if err != nil {
		t.Fatalf("%s: %v", c.Name(), err)
	}
	raw, err := a.JSON(Text{})
	if err != nil {
		t.Fatalf("%s: %v", c.Name(), err)
	}
	return a, raw
}

// each visits every calculation.
func each(t *testing.T, visit func(t *testing.T, c *Calculation)) {
	t.Helper()
	names := Names()
	if len(names) < 80 {
		t.Fatalf("%d calculations, want at least 80", len(names))
	}
	for _, n := range names {
		c, ok := Get(n)
		if !ok || c.Name() != n {
			t.Fatalf("%s is not found under its name", n)
		}
		t.Run(n, func(t *testing.T) { visit(t, c) })
	}
}

func TestExamplesAndOutputsFitTheirSchemas(t *testing.T) {
	each(t, func(t *testing.T, c *Calculation) {
		valid(t, compiled(t, c, "input"), "the example of "+c.Name(), c.Example())
		a, raw := answer(t, c, c.Example())
		if a.Refused != nil {
			t.Fatalf("%s refuses its example: %s %s", c.Name(), a.Refused.Field, a.Refused.Code)
		}
		valid(t, compiled(t, c, "output"), "the output of "+c.Name(), raw)
	})
}

func refusedAs(t *testing.T, c *Calculation, input string, code working.Key, field string) {
	t.Helper()
	a, raw := answer(t, c, []byte(input))
	switch {
	case a.Refused == nil:
		t.Errorf("%s takes %.300s", c.Name(), input)
	case a.Refused.Code != code || field != "" && a.Refused.Field != field:
		t.Errorf("%s refuses %.300s as %s at %q, want %s at %q", c.Name(), input, a.Refused.Code, a.Refused.Field, code, field)
	default:
		valid(t, compiled(t, c, "output"), "the refusal of "+c.Name(), raw)
	}
	if a.Refused != nil && (a.Figure != nil || a.values != nil || len(a.Trails)+len(a.Findings)+len(a.Checks) > 0) {
		t.Errorf("%s: a number comes with its refusal", c.Name())
	}
}

func TestUnknownFieldsAndWhatStandsBehindAreRefused(t *testing.T) {
	each(t, func(t *testing.T, c *Calculation) {
		example := strings.TrimSpace(string(c.Example()))
		more := strings.TrimSuffix(example, "}") + `, "unheard_of": 1}`
		if example == "{}" {
			more = `{"unheard_of": 1}`
		}
		refusedAs(t, c, more, "refuse.reckon.unknown_field", "unheard_of")
		refusedAs(t, c, example+" {}", "refuse.reckon.trailing", "$")
		refusedAs(t, c, example+"x", "refuse.reckon.trailing", "$")
		refusedAs(t, c, "", "refuse.reckon.not_json", "$")
		refusedAs(t, c, "[]", "refuse.reckon.want_object", "$")
		refusedAs(t, c, "null", "refuse.reckon.want_object", "$")
		refusedAs(t, c, strings.TrimSuffix(example, "}"), "refuse.reckon.not_json", "")
	})
}

// leaf is a place in an example.
type leaf struct {
	path string
	set  func(any) // replaces what stands there
	cut  func()    // takes the field out; nil in a list
	was  any
}

// leaves lists every field of an example with its path, containers too.
func leaves(doc any) []leaf {
	var out []leaf
	var walk func(path string, v any)
	walk = func(path string, v any) {
		switch x := v.(type) {
		case map[string]any:
			for _, name := range slices.Sorted(maps.Keys(x)) {
				was := x[name]
				at := below(path, name)
				out = append(out, leaf{at, func(y any) { x[name] = y }, func() { delete(x, name) }, was})
				walk(at, was)
			}
		case []any:
			for i, was := range x {
				at := path + "[" + strconv.Itoa(i) + "]"
				out = append(out, leaf{at, func(y any) { x[i] = y }, nil, was})
				walk(at, was)
			}
		}
	}
	walk(whole, doc)
	return out
}

func decoded(t *testing.T, raw []byte) any {
	t.Helper()
	var doc any
	d := json.NewDecoder(bytes.NewReader(raw))
	d.UseNumber()
	if err := d.Decode(&doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

func encoded(t *testing.T, doc any) string {
	t.Helper()
	raw, err := json.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	return string(raw)
}

// Every number of every example in turn is no number, too large a number, a text.
func TestNumbersThatAreNoneAreRefusedByTheirPath(t *testing.T) {
	tried := 0
	each(t, func(t *testing.T, c *Calculation) {
		for i := range leaves(decoded(t, c.Example())) {
			doc := decoded(t, c.Example())
			l := leaves(doc)[i]
			if _, ok := l.was.(json.Number); !ok {
				continue
			}
			tried++
			l.set("@")
			mark := encoded(t, doc)
			for _, bad := range []string{"NaN", "Infinity", "-Infinity", "+1", "0x10", "1.", ".5", "01"} {
				refusedAs(t, c, strings.Replace(mark, `"@"`, bad, 1), "refuse.reckon.not_json", "")
			}
			refusedAs(t, c, strings.Replace(mark, `"@"`, "1e999", 1), "refuse.not_a_number", l.path)
			refusedAs(t, c, mark, "refuse.reckon.want_number", l.path)
			refusedAs(t, c, strings.Replace(mark, `"@"`, "null", 1), "refuse.reckon.want_number", l.path)
		}
	})
	if tried < 250 {
		t.Errorf("%d numbers were tried, want at least 250", tried)
	}
}
