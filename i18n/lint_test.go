package i18n

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"

	goi18n "github.com/nicksnyder/go-i18n/v2/i18n"
	"golang.org/x/text/language"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// categories are the plural forms a language asks for. Source: Unicode CLDR 41.
var categories = map[string][]string{
	"en": {"one", "other"}, "de": {"one", "other"}, "nl": {"one", "other"}, "sv": {"one", "other"}, "tr": {"one", "other"}, "hu": {"one", "other"},
	"es": {"one", "many", "other"}, "fr": {"one", "many", "other"}, "it": {"one", "many", "other"}, "pt": {"one", "many", "other"},
	"ro": {"one", "few", "other"}, "ja": {"other"}, "zh": {"other"}, "ko": {"other"},
	"cs": {"one", "few", "many", "other"}, "pl": {"one", "few", "many", "other"}, "uk": {"one", "few", "many", "other"},
}

// formsOf are the plural forms that a language asks for: those of CLDR above, else,
// for a language that nobody has looked up, those that the library chooses for numbers.
func formsOf(t *testing.T, lang string) []string {
	t.Helper()
	if known, ok := categories[baseOf(lang)]; ok {
		return known
	}
	return chosen(t, lang)
}

// chosen are the plural forms that the library chooses in a language for the numbers
// to 200, large ones and such with a decimal.
func chosen(t *testing.T, lang string) []string {
	t.Helper()
	tag := language.Make(lang)
	b := goi18n.NewBundle(tag)
	if err := b.AddMessages(tag, &goi18n.Message{ID: "x", Zero: "zero", One: "one", Two: "two", Few: "few", Many: "many", Other: "other"}); err != nil {
		t.Fatal(err)
	}
	numbers := []any{"0.5", "1.5", "2.5", "10.5", 1000, 1000000}
	for n := range 201 {
		numbers = append(numbers, n)
	}
	out := map[string]bool{}
	for _, n := range numbers {
		form, err := goi18n.NewLocalizer(b, lang).Localize(&goi18n.LocalizeConfig{MessageID: "x", PluralCount: n})
		if err != nil {
			t.Fatalf("%s, %v: %v", lang, n, err)
		}
		out[form] = true
	}
	return sortedKeys(out)
}

// What the library chooses is what CLDR asks for, in every language of the table.
func TestTheLibraryChoosesTheFormsOfCLDR(t *testing.T) {
	for lang, want := range categories {
		if got := chosen(t, lang); !slices.Equal(got, slices.Sorted(slices.Values(want))) {
			t.Errorf("%s: %v, want %v", lang, got, want)
		}
	}
	if got := chosen(t, "nb"); !slices.Equal(got, []string{"one", "other"}) {
		t.Errorf("a language that is not in the table: %v", got)
	}
}

// catalogue is every message of every language.
type catalogue struct {
	messages map[string]map[string]*goi18n.Message // language, key
	areas    map[string]string
}

// read gathers the catalogue.
func read() catalogue {
	c := catalogue{messages: map[string]map[string]*goi18n.Message{}, areas: in(source).areas}
	for lang := range written() {
		c.messages[lang] = in(lang).messages
	}
	return c
}

// missing lists the keys that a language lacks.
func (c catalogue) missing(lang string) []string { return in(lang).missing() }

func forms(m *goi18n.Message) map[string]string {
	out := map[string]string{}
	for name, text := range map[string]string{"zero": m.Zero, "one": m.One, "two": m.Two, "few": m.Few, "many": m.Many, "other": m.Other} {
		if text != "" {
			out[name] = text
		}
	}
	return out
}

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

// eachMessage visits every message of every language that is shipped, in order.
// Of one still being written the coverage tells.
func eachMessage(visit func(lang, key string, m *goi18n.Message)) int {
	n := 0
	for _, lang := range shipped() {
		for _, key := range sortedKeys(read().messages[lang]) {
			visit(lang, key, read().messages[lang][key])
			n++
		}
	}
	return n
}

// Every message stands in every language that is shipped; of one still being
// written it is told how much is there. No language has a message that English
// does not.
func TestEveryShippedLanguageHasEveryMessage(t *testing.T) {
	c := read()
	for _, lang := range sortedKeys(c.messages) {
		missing := c.missing(lang)
		t.Logf("%-6s %5d of %d messages", lang, len(c.messages[source])-len(missing), len(c.messages[source]))
		if slices.Contains(shipped(), lang) {
			for _, k := range missing {
				t.Errorf("%s.%s.toml lacks %q", c.areas[k], lang, k)
			}
		}
		for _, k := range sortedKeys(c.messages[lang]) {
			if _, ok := c.messages[source][k]; !ok {
				t.Errorf("%s has %q, which English does not", lang, k)
			}
		}
	}
	if len(c.messages) < 2 || len(c.messages[source]) < 300 {
		t.Fatalf("%d languages and %d messages were read, want at least 2 and 300", len(c.messages), len(c.messages[source]))
	}
}

var placeholder = regexp.MustCompile(`\{\{\s*\.([A-Za-z0-9_]+)\s*\}\}`)

// names lists the placeholders of a text.
func names(text string) []string {
	set := map[string]bool{}
	for _, m := range placeholder.FindAllStringSubmatch(text, -1) {
		set[m[1]] = true
	}
	return sortedKeys(set)
}

func TestPlaceholdersAgree(t *testing.T) {
	c := read()
	eachMessage(func(lang, key string, m *goi18n.Message) {
		want := names(m.Other)
		if e, ok := c.messages[source][key]; ok {
			want = names(e.Other)
		}
		for form, text := range forms(m) {
			got := names(text)
			if form == "one" || form == "zero" || form == "two" { // "one day" may leave the number out
				got, want := without(got, "Count"), without(want, "Count")
				if !slices.Equal(got, want) {
					t.Errorf("%s %q (%s): placeholders %v, want %v", lang, key, form, got, want)
				}
				continue
			}
			if !slices.Equal(got, want) {
				t.Errorf("%s %q (%s): placeholders %v, want %v", lang, key, form, got, want)
			}
		}
	})
}

func without(list []string, x string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(s string) bool { return s == x })
}

func TestPluralFormsAreThoseOfTheLanguage(t *testing.T) {
	wanted := map[string][]string{}
	eachMessage(func(lang, key string, m *goi18n.Message) {
		have := forms(m)
		e := read().messages[source][key]
		if len(have) == 1 && (e == nil || len(forms(e)) == 1) {
			return
		}
		want, ok := wanted[lang]
		if !ok {
			want = formsOf(t, lang)
			wanted[lang] = want
		}
		if got := sortedKeys(have); !slices.Equal(got, slices.Sorted(slices.Values(want))) {
			t.Errorf("%s %q: forms %v, want %v", lang, key, got, want)
		}
	})
}

func TestEveryMessageRenders(t *testing.T) {
	samples := []float64{0, 1, 1.5, 2, 3, 5, 11, 21, 100, 1000000}
	n := eachMessage(func(lang, key string, m *goi18n.Message) {
		w := speak(lang, "", quantity.Metric)
		args := Args{}
		for _, name := range names(m.Other) {
			args[name] = "x"
		}
		if len(forms(m)) == 1 {
			if got := w.T(working.Key(key), args); bad(got) {
				t.Errorf("%s %q renders as %q", lang, key, got)
			}
			return
		}
		delete(args, "Count")
		for _, x := range samples {
			if got := w.N(working.Key(key), x, args); bad(got) {
				t.Errorf("%s %q for %g renders as %q", lang, key, x, got)
			}
		}
	})
	if n < 600 {
		t.Fatalf("only %d messages were rendered, want at least 600", n)
	}
}

func bad(s string) bool {
	return s == "" || strings.Contains(s, "{{") || strings.Contains(s, "<no value>") || regexp.MustCompile(`«[a-z]+\.`).MatchString(s)
}

// acting are the keys of texts that tell a person how to act: they keep to the
// rules of controlled English.
var acting = []string{"note.", "step.", "tick."}

var (
	sentenceEnd = regexp.MustCompile(`[.?:;]\s+|[.?:;]$`)
	should      = regexp.MustCompile(`(?i)\bshould\b`)
)

const mostWords = 20

func TestStyle(t *testing.T) {
	eachMessage(func(lang, key string, m *goi18n.Message) {
		for form, text := range forms(m) {
			for _, fault := range faults(lang, key, text) {
				t.Errorf("%s %q (%s): %s: %q", lang, key, form, fault, text)
			}
		}
		if strings.TrimSpace(m.Other) == "" {
			t.Errorf("%s %q is empty", lang, key)
		}
	})
}

// breaksBefore finds a space about a French mark at which a line may break; the Lexique des
// règles typographiques, Imprimerie nationale, has one there that may not.
var breaksBefore = regexp.MustCompile(` [:;?»]|« `)

func faults(lang, key, text string) []string {
	var out []string
	if text != strings.TrimSpace(text) && key != "list.between" {
		out = append(out, "space at an end")
	}
	if strings.ContainsAny(text, "!¡") {
		out = append(out, "exclamation mark")
	}
	if strings.Contains(text, "  ") {
		out = append(out, "two spaces")
	}
	if baseOf(lang) == "fr" && breaksBefore.MatchString(text) {
		out = append(out, "a mark that may begin a line")
	}
	if baseOf(lang) != source || !slices.ContainsFunc(acting, func(p string) bool { return strings.HasPrefix(key, p) }) {
		return out
	}
	if strings.ContainsAny(text, "()") {
		out = append(out, "parentheses")
	}
	if should.MatchString(text) {
		out = append(out, "should")
	}
	for _, s := range sentenceEnd.Split(text, -1) {
		if n := len(strings.Fields(s)); n > mostWords {
			out = append(out, fmt.Sprintf("a sentence of %d words", n))
		}
	}
	return out
}

// The rules find what they are for.
func TestStyleFindsFaults(t *testing.T) {
	long := strings.Repeat("word ", 21) + "end."
	for _, c := range []struct {
		lang, key, text string
		want            int
	}{
		{"en", "note.x", "Unplug the heater. Wait fifteen minutes.", 0},
		{"en", "note.x", "You should wait (a bit) now!", 3},
		{"en", "note.x", long, 1}, {"es", "note.x", long, 0}, {"en", "q.x", " two  spaces", 2}, {"es", "q.x", "¡Hola!", 1},
		{"fr", "q.x", "Attend : l'eau", 1}, {"fr", "q.x", "Attend\u00a0: l'eau", 0}, {"fr", "q.x", "« oui\u00a0»", 1}, {"es", "q.x", "Espera : agua", 0},
	} {
		if got := faults(c.lang, c.key, c.text); len(got) != c.want {
			t.Errorf("%s %q %q: want %d faults, got %v", c.lang, c.key, c.text, c.want, got)
		}
	}
}

// The keys are flat, lower case and dotted; the toolkit's own are as it has them.
func TestKeysAreWellFormed(t *testing.T) {
	form := regexp.MustCompile(`^[a-z]+(\.[a-z0-9_]+)+$`)
	var odd []string
	for k := range read().messages[source] {
		if !form.MatchString(k) && !strings.HasPrefix(k, "fyne.") {
			odd = append(odd, k)
		}
		if i := strings.IndexByte(k, '.'); i > 0 && !slices.Contains(families, k[:i]) {
			odd = append(odd, k+" (its first part is not among the families)")
		}
	}
	sort.Strings(odd)
	for _, k := range odd {
		t.Errorf("key %q", k)
	}
}
