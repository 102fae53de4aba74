package slip

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.org/driploop/model/care"
)

func schemaFile(name string) string {
	return filepath.Join("..", "..", "assets", "schema", name+".schema.json")
}

func loadJSON(name string) (any, error) {
	raw, err := os.ReadFile(schemaFile(name))
	if err != nil {
		return nil, err
	}
	return jsonschema.UnmarshalJSON(bytes.NewReader(raw))
}

var schemas = sync.OnceValues(func() (map[string]*jsonschema.Schema, error) {
	out := map[string]*jsonschema.Schema{}
	for _, name := range []string{"manifest", "profile", "visit", "reply"} {
		doc, err := loadJSON(name)
		if err != nil {
			return nil, err
		}
		c := jsonschema.NewCompiler()
		c.DefaultDraft(jsonschema.Draft2020)
		c.AssertFormat()
		if err := c.AddResource(name, doc); err != nil {
			return nil, err
		}
		if out[name], err = c.Compile(name); err != nil {
			return nil, err
		}
	}
	return out, nil
})

func follows(name string, data []byte) error {
	all, err := schemas()
	if err != nil {
		return err
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		return err
	}
	return all[name].Validate(doc)
}

func validate(t interface {
	Fatalf(string, ...any)
}, name string, data []byte) {
	if err := follows(name, data); err != nil {
		t.Fatalf("%s.schema.json: %v\n%s", name, err, data)
	}
}

// profileRows are bodies of a profile, and whether reader and schema take them.
var profileRows = []struct {
	name, body string
	good       bool
}{
	{"good", goodProfile, true},
	{"smallest", `{"units":"us"}`, true},
	{"unknown member", `{"units":"us","x":1}`, true},
	{"unknown field", `{"units":"us","answers":[{"field":"x.y","kind":"choice","value":"z"}]}`, true},
	{"no units", `{}`, false},
	{"region", `{"units":"us","region":"usa"}`, false},
	{"list", `[]`, false},
	{"long name", `{"units":"us","tank":"` + string(bytes.Repeat([]byte("a"), 61)) + `"}`, false},
	{"turned direction", `{"units":"us","tank":"a\u202eb"}`, false},
	{"zero byte", `{"units":"us","tank":"a\u0000b"}`, false},
	{"lines in an address", `{"units":"us","shop":{"address":"a\nb"}}`, true},
	{"lines in a name", `{"units":"us","shop":{"name":"a\nb"}}`, false},
	{"language", `{"units":"us","notes":{"e":"x"}}`, false},
	{"number not as a text", `{"units":"us","answers":[{"field":"tank.length","kind":"measure","value":60,"unit":"cm"}]}`, false},
	{"edition", `{"units":"us","edition":3}`, true},
	{"edition 0", `{"units":"us","edition":0}`, false},
	{"plan", `{"units":"us","plan":[{"code":"test","rule":"FREQ=WEEKLY;BYDAY=SA","at":"10:00","note":"both tests"}]}`, true},
	{"round of a later version", `{"units":"us","plan":[{"code":"hum","rule":"FREQ=WEEKLY","at":"10:00"}]}`, true},
	{"round without a rule", `{"units":"us","plan":[{"code":"test","at":"10:00"}]}`, false},
	{"round at noon", `{"units":"us","plan":[{"code":"test","rule":"FREQ=WEEKLY","at":"noon"}]}`, false},
	{"feeding", `{"units":"us","feeding":{"share":{"value":"1.5","unit":"percent"},"fasting":["SU"],"x":1}}`, true},
	{"fasting on a word", `{"units":"us","feeding":{"fasting":["Sunday"]}}`, false},
	{"feeding as a list", `{"units":"us","feeding":[]}`, false},
	{"share as a number", `{"units":"us","feeding":{"share":1.5}}`, false},
	{"marks", `{"units":"us","marks":["stand_floor","x"]}`, true},
	{"mark as a number", `{"units":"us","marks":[1]}`, false},
	{"power of ten", answer("tank.length", "measure", "6e1", "cm"), false},
	{"kind", answer("tank.shape", "picture", "box", ""), false},
	{"option with a unit", answer("tank.shape", "choice", "box", "cm"), false},
	{"empty value", answer("tank.shape", "choice", "", ""), false},
}

// The schemas take what the reader takes and refuse what it refuses for its form.
func TestSchemasAgreeWithTheReader(t *testing.T) {
	for _, r := range profileRows {
		err := follows("profile", []byte(r.body))
		if (err == nil) != r.good {
			t.Errorf("%s: the schema says %v, want good %v", r.name, err, r.good)
		}
		if _, _, err := read(saying(r.body)); (err == nil) != r.good {
			t.Errorf("%s: the reader says %v, want good %v", r.name, err, r.good)
		}
	}
	if err := follows("manifest", []byte(`{"format":"driploop-profile","version":1.5,"made_by":{"program":"x","version":"1"},"parts":[]}`)); err == nil {
		t.Error("the manifest's schema takes version 1.5")
	}
}

// The schema lists exactly the fields that a shop may answer.
func TestSchemaListsTheFields(t *testing.T) {
	doc, err := loadJSON("profile")
	if err != nil {
		t.Fatal(err)
	}
	defs, _ := doc.(map[string]any)["$defs"].(map[string]any)
	field, _ := defs["field"].(map[string]any)
	list, _ := field["enum"].([]any)
	var got, want []string
	for _, x := range list {
		s, _ := x.(string)
		got = append(got, s)
	}
	for _, f := range care.Fields() {
		if Settable(f.ID) {
			want = append(want, string(f.ID))
		}
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) || len(want) < 80 {
		t.Errorf("the schema lists %d fields\n%v\nthe program takes %d\n%v", len(got), got, len(want), want)
	}
}
