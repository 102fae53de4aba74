package slip

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/drill"
)

// Profiles, visit slips and replies out of chance, as they are written, follow their
// schemas, and damaged ones are refused, by ajv as by the validator of every other
// test. Source: ajv, at the time of the drill.
func TestSchemasByAnotherValidator(t *testing.T) {
	count := drill.Count(20, 500)
	profiles, visits, replies := rapid.Custom(someProfile), rapid.Custom(someVisit), rapid.Custom(someReply)
	var texts []drill.Text
	refused := 0
	add := func(schema, about string, body []byte) {
		good := follows(schema, body) == nil
		if !good {
			refused++
		}
		texts = append(texts, drill.Text{Schema: schema, About: about, Body: string(body), Good: good})
	}
	chance := rand.New(rand.NewPCG(6, 5))
	for n := range count {
		var slips [3][]byte
		var err error
		slips[0] = write(t, profiles.Example(n))
		if slips[1], err = writeVisit(visits.Example(n), nil); err != nil {
			t.Fatal(err)
		}
		if slips[2], err = writeReply(replies.Example(n), nil); err != nil {
			t.Fatal(err)
		}
		for i, part := range []string{partProfile, partVisit, partReply} {
			parts := unzip(t, slips[i])
			for _, name := range []string{partManifest, part} {
				schema := strings.TrimSuffix(name, ".json")
				about := fmt.Sprintf("number %d", n)
				add(schema, about, parts[name])
				if !texts[len(texts)-1].Good {
					t.Errorf("%s, %s is not as its schema says", schema, about)
				}
				add(schema, about+", damaged", damaged(t, chance, parts[name]))
			}
		}
	}
	for _, r := range profileRows {
		add("profile", r.name, []byte(r.body))
	}
	if refused < len(texts)/6 {
		t.Errorf("only %d of %d texts are refused", refused, len(texts))
	}
	if drill.Listed() {
		drill.Schemas(t, "../..", texts)
	}
}

// damaged is a JSON text in which one thing, anywhere, is not what it was: left out, of
// another type, empty, too long, or below nought.
func damaged(t *testing.T, chance *rand.Rand, text []byte) []byte {
	t.Helper()
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	var whole any
	if err := d.Decode(&whole); err != nil {
		t.Fatal(err)
	}
	var spots []func() // each does a damage
	other := func(v any) any {
		all := []any{json.Number("-1"), json.Number("2.5"), "", strings.Repeat("a", 3000), "a\u202eb", true, []any{}, map[string]any{}, nil}
		if _, ok := v.(json.Number); ok {
			all = all[2:]
		}
		return all[chance.IntN(len(all))]
	}
	var walk func(v any)
	walk = func(v any) {
		switch v := v.(type) {
		case map[string]any:
			var names []string
			for name := range v {
				names = append(names, name)
			}
			slices.Sort(names)
			for _, name := range names {
				spots = append(spots, func() { delete(v, name) }, func() { v[name] = other(v[name]) })
				walk(v[name])
			}
		case []any:
			for i := range v {
				spots = append(spots, func() { v[i] = other(v[i]) })
				walk(v[i])
			}
		}
	}
	walk(whole)
	if len(spots) > 0 {
		spots[chance.IntN(len(spots))]()
	}
	out, err := json.Marshal(whole)
	if err != nil {
		t.Fatal(err)
	}
	return out
}
