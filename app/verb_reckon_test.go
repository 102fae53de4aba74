package main

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.org/driploop/i18n"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/reckon"
	"example.org/driploop/model/working"
)

// reckoned runs reckon in a language as a person would.
func reckoned(t *testing.T, lang, input string, args ...string) (code int, out, errs string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	env := envOf("linux", "", nil)
	env.Locale = func() (string, string, quantity.System) { return lang, "", quantity.Metric }
	code, handled := Run(append([]string{"reckon"}, args...), strings.NewReader(input), &stdout, &stderr, env)
	if !handled {
		t.Fatalf("reckon %v is left to the window", args)
	}
	return code, stdout.String(), stderr.String()
}

// texts lists every "text" of an answer.
func texts(v any) []string {
	var out []string
	switch x := v.(type) {
	case map[string]any:
		for name, y := range x {
			if s, ok := y.(string); ok && name == "text" {
				out = append(out, s)
				continue
			}
			if list, ok := y.([]any); ok && name == "text" {
				for _, s := range list {
					out = append(out, s.(string))
				}
				continue
			}
			out = append(out, texts(y)...)
		}
	case []any:
		for _, y := range x {
			out = append(out, texts(y)...)
		}
	}
	return out
}

// gap is a message that is not there, or a placeholder that nothing filled.
var gap = regexp.MustCompile(`«([a-z]+\.[a-z0-9_.]+|[A-Z][A-Za-z0-9]*|\?)»`)

// unsaid lists the messages that were asked for and that no file has.
func unsaid() []string {
	var out []string
	for _, m := range i18n.Missing() {
		lang, key, _ := strings.Cut(m, " ")
		if !i18n.Speak(lang, "", quantity.Metric).Has(working.Key(key)) {
			out = append(out, m)
		}
	}
	return out
}

// Every example goes through the verb in every language: the output fits the
// schema that the verb prints, and every text in it is whole.
func TestEveryCalculationSpeaksEveryLanguage(t *testing.T) {
	said := 0
	for _, name := range reckon.Names() {
		_, example, _ := reckoned(t, "en", "", name, "--example")
		_, raw, _ := reckoned(t, "en", "", name, "--schema")
		doc, err := jsonschema.UnmarshalJSON(strings.NewReader(raw))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		k := jsonschema.NewCompiler()
		if err := k.AddResource("urn:x", doc); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		schema, err := k.Compile("urn:x#/$defs/output")
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for _, lang := range i18n.Languages() {
			code, out, errs := reckoned(t, lang, example, name)
			if code != exitDone || errs != "" {
				t.Errorf("%s %s: code %d, %s", lang, name, code, errs)
				continue
			}
			answer, err := jsonschema.UnmarshalJSON(strings.NewReader(out))
			if err != nil {
				t.Fatalf("%s %s: %v", lang, name, err)
			}
			if err := schema.Validate(answer); err != nil {
				t.Errorf("%s %s: %v", lang, name, err)
			}
			var plain any
			if err := json.Unmarshal([]byte(out), &plain); err != nil {
				t.Fatal(err)
			}
			for _, s := range texts(plain) {
				said++
				if s == "" || gap.MatchString(s) || strings.Contains(s, "{{") || strings.Contains(s, "<no value>") {
					t.Errorf("%s %s says %q", lang, name, s)
				}
			}
		}
	}
	for _, m := range unsaid() {
		t.Errorf("missing: %s", m)
	}
	if said < 1500 {
		t.Errorf("%d texts, want at least 1500", said)
	}
}
