package nitrogen

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"testing"

	"github.com/BurntSushi/toml"
)

var (
	keyInCode = regexp.MustCompile(`"((?:q|ask|assume|find|refuse|word)\.nitrogen\.[a-z0-9_.]+)"`)
	hole      = regexp.MustCompile(`\{\{\.([A-Za-z0-9]+)\}\}`)
)

func messages(t *testing.T, lang string) map[string]string {
	t.Helper()
	m := map[string]string{}
	if _, err := toml.DecodeFile("../../i18n/messages/nitrogen."+lang+".toml", &m); err != nil {
		t.Fatal(err)
	}
	return m
}

// TestMessages: each key in the code has its words in both languages with the
// same placeholders, findings bring what their words ask for, none lie idle.
func TestMessages(t *testing.T) {
	en, es := messages(t, "en"), messages(t, "es")
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	used := map[string]bool{}
	for _, f := range files {
		if test, _ := filepath.Match("*_test.go", f); test {
			continue
		}
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range keyInCode.FindAllStringSubmatch(string(b), -1) {
			used[m[1]] = true
		}
	}
	for k := range used {
		if en[k] == "" || es[k] == "" || !slices.Equal(hole.FindAllString(en[k], -1), hole.FindAllString(es[k], -1)) {
			t.Errorf("%s: %q, %q", k, en[k], es[k])
		}
	}
	for k := range en {
		if !used[k] {
			t.Errorf("%s is not used", k)
		}
	}
	if len(used) < 40 || len(en) != len(es) {
		t.Errorf("%d keys in the code, %d English and %d Spanish messages", len(used), len(en), len(es))
	}
	// The tank of this start loses its alkalinity: both remarks come.
	s := Start{State: State{Ammonia: 10, EatersA: 1, EatersN: 1, Alkalinity: meq(1)}, Temperature: 26}
	r, _, err := Run(Defaults(), s, nil, 10*days, days/2)
	if err != nil || len(r.Findings) != 2 {
		t.Fatal(r.Findings, err)
	}
	for _, f := range r.Findings {
		asks := hole.FindAllStringSubmatch(en[string(f.Code)], -1)
		if len(asks) != len(f.Values) {
			t.Errorf("%s brings %v for %q", f.Code, f.Values, en[string(f.Code)])
		}
		for _, a := range asks {
			if !f.Values[a[1]].Known() {
				t.Errorf("%s lacks %s", f.Code, a[1])
			}
		}
	}
}
