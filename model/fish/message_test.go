package fish

import (
	"regexp"
	"slices"
	"testing"

	"github.com/BurntSushi/toml"
	"pgregory.net/rapid"

	"example.org/driploop/model/working"
)

var hole = regexp.MustCompile(`\{\{\.([A-Za-z0-9]+)\}\}`)

func messages(t testing.TB, lang string) map[string]string {
	t.Helper()
	m := map[string]string{}
	if _, err := toml.DecodeFile("../../i18n/messages/fish."+lang+".toml", &m); err != nil {
		t.Fatal(err)
	}
	return m
}

func holes(text string) []string {
	var out []string
	for _, m := range hole.FindAllStringSubmatch(text, -1) {
		if !slices.Contains(out, m[1]) {
			out = append(out, m[1])
		}
	}
	slices.Sort(out)
	return out
}

// Every animal has a name in both languages, and no two have the same.
func TestNames(t *testing.T) {
	for _, lang := range []string{"en", "es"} {
		m := map[string]string{}
		if _, err := toml.DecodeFile("../../i18n/messages/species."+lang+".toml", &m); err != nil {
			t.Fatal(err)
		}
		seen := map[string]bool{}
		for _, a := range All() {
			n := m[string(a.Code.Name())]
			if n == "" || seen[n] {
				t.Errorf("%s: %s is called %q", lang, a.Code, n)
			}
			seen[n] = true
		}
		if len(m) != len(All()) {
			t.Errorf("%s: %d names for %d animals", lang, len(m), len(All()))
		}
	}
}

// filled holds a finding against its message: it brings what is asked for, and no
// more, all of it known.
func filled(t rapid.TB, say map[string]string, f working.Finding) {
	t.Helper()
	var brings []string
	for n, v := range f.Values {
		brings = append(brings, n)
		if !v.Known() || v.X != v.X {
			t.Fatalf("%s: %s is %v", f.Code, n, v)
		}
	}
	for n := range f.Words {
		brings = append(brings, n)
	}
	slices.Sort(brings)
	if text, ok := say[string(f.Code)]; !ok || !slices.Equal(brings, holes(text)) {
		t.Fatalf("%s brings %v, its message is %q", f.Code, brings, text)
	}
}

// Findings of any stock are filled.
func TestFindingsAreFilled(t *testing.T) {
	say := messages(t, "en")
	rapid.Check(t, func(t *rapid.T) {
		h := drawHome(t)
		h.Fishless, h.Salted = rapid.Bool().Draw(t, "fishless"), rapid.Bool().Draw(t, "salted")
		got, err := Judge(h, drawLots(t, 1, 6))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range got.Findings {
			filled(t, say, f)
		}
		for _, c := range got.Clashes {
			filled(t, say, *c.Finding)
			filled(t, say, *c.Cure)
		}
	})
}
