package present

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// storeCodes are the constants Code... of package store.
func storeCodes(t *testing.T) []string {
	t.Helper()
	f, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", "..", "model", "store", "errors.go"), nil, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	ast.Inspect(f, func(n ast.Node) bool {
		if v, ok := n.(*ast.ValueSpec); ok && strings.HasPrefix(v.Names[0].Name, "Code") {
			code, err := strconv.Unquote(v.Values[0].(*ast.BasicLit).Value)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, code)
		}
		return true
	})
	if len(out) < 18 {
		t.Fatalf("%d codes of the store, want at least 18", len(out))
	}
	return out
}

// Every code of the store has a text of its own that says what happened, what was
// kept and what to do: two sentences at least, no gap, no code.
func TestStoreProblemsHaveWords(t *testing.T) {
	for _, lang := range i18n.Languages() {
		w := i18n.Speak(lang, "", quantity.Metric)
		seen := map[string]string{}
		for _, code := range storeCodes(t) {
			if !w.Has(working.Key("err.store." + code)) {
				t.Errorf("%s: no text for %s", lang, code)
			}
			for _, err := range []error{
				&store.OpenError{Code: code, Path: "/data/x", Name: "synchronous", Wanted: "2", Got: "1", PID: 4711},
				fmt.Errorf("while saving: %w", &store.OpError{Code: code, Op: "apply"}),
			} {
				text, ok := StoreProblem(w, err)
				var op *store.OpError
				if errors.As(err, &op) && !ofOp(code) {
					if io := w.T("err.store.io", nil); text != io {
						t.Errorf("%s %s from a change: %q, want %q", lang, code, text, io)
					}
					continue
				}
				if !ok || strings.Count(text, ". ")+strings.Count(strings.TrimSuffix(text, "。"), "。") < 1 || strings.ContainsAny(text, "{}«") || strings.Contains(text, "err.store") {
					t.Errorf("%s %s: %q", lang, code, text)
				}
				if other, twice := seen[text]; twice && other != code {
					t.Errorf("%s: %s and %s say the same: %q", lang, code, other, text)
				}
				seen[text] = code
			}
		}
	}
}

func TestStoreProblemsNameWhatTheyAreAbout(t *testing.T) {
	w := i18n.Speak("en", "", quantity.Metric)
	for _, c := range []struct {
		err  error
		want string
	}{
		{&store.OpenError{Code: store.CodeLocked, Path: "/data/x", PID: 4711}, "/data/x"},
		{&store.OpenError{Code: store.CodeLocked, Path: "/data/x", PID: 4711}, "4711"},
		{&store.OpenError{Code: store.CodeLocked, Path: "/data/x", PID: 31026}, "process 31026."},
		{&store.OpenError{Code: store.CodeLocked, Path: filepath.Join("/data/x", store.LockName), PID: 31026}, "in " + filepath.FromSlash("/data/x") + " is"},
		{&store.OpenError{Code: store.CodeLocked, Path: "/data/x"}, "another program"},
		{&store.OpenError{Code: store.CodeNewer, Got: "9", Wanted: "1"}, "Its format is 9, this version knows 1."},
		{&store.OpenError{Code: "of_tomorrow"}, "failed"},
		{&store.ConflictError{Table: "entry"}, "changed elsewhere"},
		{store.ErrNothing, "nothing"},
	} {
		if got, ok := StoreProblem(w, c.err); !ok || !strings.Contains(got, c.want) {
			t.Errorf("%v: got %q, want %q in it", c.err, got, c.want)
		}
	}
	for _, err := range []error{errors.New("other"), nil} {
		if got, ok := StoreProblem(w, err); ok {
			t.Errorf("%v is told as %q", err, got)
		}
	}
}
