package toolkit

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2/lang"

	"example.org/driploop/i18n"
)

// upstream reads the toolkit's own English table from its source in the module cache.
func upstream(t *testing.T) map[string]any {
	t.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "fyne.io/fyne/v2").Output()
	if err != nil {
		t.Fatal(err)
	}
	raw, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(dir)), "lang", "translations", "base.en.json"))
	if err != nil {
		t.Fatal(err)
	}
	keys := map[string]any{}
	if err := json.Unmarshal(raw, &keys); err != nil {
		t.Fatal(err)
	}
	return keys
}

// Source: the toolkit's table of English words, 39 keys in version 2.7.1.
func TestEveryWordOfTheToolkitIsThere(t *testing.T) {
	keys := upstream(t)
	if len(keys) < 39 {
		t.Fatalf("only %d keys were read from the toolkit, want at least 39", len(keys))
	}
	for _, code := range i18n.Languages() {
		table := Table(code)
		for k := range keys {
			if table[k] == "" {
				t.Errorf("%s: no word for the toolkit's %q", code, k)
			}
		}
		for k := range table {
			if _, ok := keys[k]; !ok {
				t.Errorf("%s: the toolkit has no %q", code, k)
			}
		}
	}
}

func TestUseSwitchesThereAndBack(t *testing.T) {
	for _, code := range append(i18n.Languages(), "en") {
		if err := Use(code); err != nil {
			t.Fatal(err)
		}
		table := Table(code)
		if len(table) < 39 {
			t.Fatalf("%s: only %d words", code, len(table))
		}
		for k, want := range table {
			if got := lang.X(k, "not found"); got != want {
				t.Errorf("%s: %q is shown as %q, want %q", code, k, got, want)
			}
		}
	}
	if err := Use("tlh"); err == nil {
		t.Error("a language that is not offered was taken")
	}
}
