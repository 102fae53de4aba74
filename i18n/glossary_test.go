package i18n

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
)

// term is a word of the trade in one glossary file; the form is told at the top of
// glossary/en.toml.
type term struct {
	Meaning string   `toml:"meaning"`
	Check   *bool    `toml:"check"`
	Say     string   `toml:"say"`
	Stems   []string `toml:"stems"`
	Except  []string `toml:"except"`
}

func glossary(t *testing.T, lang string) map[string]term {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join("glossary", lang+".toml"))
	if base := baseOf(lang); os.IsNotExist(err) && base != lang {
		return glossary(t, base) // an overlay without words of its own says those of its base
	}
	if err != nil {
		t.Errorf("%s has no glossary: %v", lang, err)
		return nil
	}
	var out map[string]term
	meta, err := toml.Decode(string(raw), &out)
	if err != nil || len(meta.Undecoded()) > 0 {
		t.Errorf("glossary/%s.toml: %v %v", lang, err, meta.Undecoded())
	}
	return out
}

// strays lists the messages of lang whose English has a term that they do not have.
func strays(source, words map[string]term, lang string) []string {
	var out []string
	for _, name := range sortedKeys(source) {
		of, by := source[name], words[name]
		if by.Say == "" || len(by.Stems) == 0 {
			out = append(out, "the glossary of "+lang+" does not say "+name)
			continue
		}
		if of.Check != nil && !*of.Check {
			continue
		}
		has := regexp.MustCompile(`(?i)(^|[^A-Za-z-])` + regexp.QuoteMeta(name) + `(s|es)?($|[^A-Za-z-])`)
		for key, m := range in("en").messages {
			theirs, ok := in(lang).messages[key]
			ours := placeholder.ReplaceAllString(m.Other, "") // {{.Socket}} is filled in, not said
			if !ok || slices.Contains(by.Except, key) || slices.Contains(of.Except, key) || !has.MatchString(ours) {
				continue
			}
			low := strings.ToLower(theirs.Other)
			if !slices.ContainsFunc(by.Stems, func(s string) bool { return strings.Contains(low, strings.ToLower(s)) }) {
				out = append(out, lang+" "+key+": "+name+" is none of "+strings.Join(by.Stems, ", ")+" in "+theirs.Other)
			}
		}
	}
	for name := range words {
		if _, ok := source[name]; !ok {
			out = append(out, "the glossary of "+lang+" has "+name+", which English does not")
		}
	}
	slices.Sort(out)
	return out
}

// The messages of a shipped language say the trade's words as its glossary does.
func TestMessagesObeyTheGlossary(t *testing.T) {
	source := glossary(t, "en")
	if len(source) < 30 {
		t.Fatalf("%d terms, want at least 30", len(source))
	}
	for name, of := range source {
		if of.Meaning == "" {
			t.Errorf("%s has no meaning", name)
		}
	}
	for _, lang := range shipped() {
		if baseOf(lang) == "en" {
			continue
		}
		for _, s := range strays(source, glossary(t, lang), lang) {
			t.Error(s)
		}
	}
	// It finds a message that goes its own way.
	wrong := map[string]term{"heater": {Say: "estufa", Stems: []string{"estufa"}}}
	if got := strays(map[string]term{"heater": {Meaning: "x"}}, wrong, "es"); len(got) < 10 {
		t.Errorf("a wrong word is found in %d messages only", len(got))
	}
}
