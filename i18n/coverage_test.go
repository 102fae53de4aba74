package i18n

import (
	"flag"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write coverage.md and followed.tsv anew")

// words of three letters and more, placeholders left out.
var wordIn = regexp.MustCompile(`\p{L}{3,}`)

// untranslated lists the messages of a language that read as in English and are
// sentences: a name or a unit may be the same in both.
func untranslated(lang string) []string {
	var out []string
	for key, m := range in(lang).messages {
		e, ok := in(source).messages[key]
		if !ok || m.Other != e.Other || technical(key) || strings.HasPrefix(key, "species.") || strings.HasPrefix(key, "language.") || key == "paper.program" || key == "verb.version" {
			continue
		}
		if len(wordIn.FindAllString(placeholder.ReplaceAllString(m.Other, ""), -1)) > 2 {
			out = append(out, key)
		}
	}
	slices.Sort(out)
	return out
}

// sameShare is the most of a language's messages that may read as in English:
// names, units, and words that the languages share. Judgement: Dutch and German
// share most, about a twentieth.
const sameShare = 0.08

func TestNothingIsLeftUntranslated(t *testing.T) {
	for _, lang := range shipped() {
		if baseOf(lang) == source {
			continue
		}
		for _, key := range untranslated(lang) {
			t.Errorf("%s %q reads as in English: %q", lang, key, in(lang).messages[key].Other)
		}
		same := 0
		for key, m := range in(lang).messages {
			if e, ok := in(source).messages[key]; ok && m.Other == e.Other {
				same++
			}
		}
		if share := float64(same) / float64(len(in(source).messages)); share > sameShare {
			t.Errorf("%s: %.0f %% of the messages read as in English", lang, share*100)
		}
	}
	if got := untranslated("en"); len(got) < 1000 {
		t.Errorf("of English itself only %d messages are found to be English", len(got))
	}
}

// coverage is the table of coverage.md: the languages that are shipped, with what
// there is of each.
func coverage() string {
	var b strings.Builder
	b.WriteString("# Languages\n\nWritten by `go test ./i18n -run Coverage -update`; a test fails when it is stale. `go test -v -run Coverage ./i18n` shows the languages being written too.\n\n")
	b.WriteString("| language | | messages | safety notes reviewed | by |\n|---|---|---|---|---|\n")
	langs := slices.Clone(shipped())
	slices.Sort(langs)
	for _, lang := range langs {
		b.WriteString(row(lang))
	}
	return b.String()
}

func row(lang string) string {
	total := len(in(source).messages)
	have := total - len(in(lang).missing())
	reviewed, by := 0, map[string]bool{}
	for _, id := range noteIDs() {
		if NoteReviewed(lang, id) {
			reviewed++
			if r := reviews(lang)[id]; r.By != "" {
				by[r.By] = true
			}
		}
	}
	messages := fmt.Sprintf("%d %%", have*100/total)
	who := strings.Join(sortedKeys(by), "; ")
	switch {
	case lang == source:
		messages, who = "the source", "not needed"
	case baseOf(lang) == source:
		messages, who = "an overlay: what differs", "not needed"
	}
	return fmt.Sprintf("| %s | %s | %s | %d of %d | %s |\n", lang, NameOf(lang), messages, reviewed, len(noteIDs()), who)
}

func TestCoverageIsToldAsItIs(t *testing.T) {
	for _, lang := range sortedKeys(written()) {
		if !slices.Contains(shipped(), lang) {
			t.Logf("being written: %s%d messages, %d read as in English", row(lang), len(in(lang).messages), len(untranslated(lang)))
		}
	}
	want := coverage()
	if *update {
		if err := os.WriteFile("coverage.md", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile("coverage.md")
	if err != nil || string(got) != want {
		t.Errorf("coverage.md is stale: go test ./i18n -run Coverage -update\n%v\n%s", err, want)
	}
	for _, lang := range shipped() {
		if missing := in(lang).missing(); len(missing) > 0 {
			t.Errorf("%s is shipped and lacks %d messages", lang, len(missing))
		}
	}
}
