package i18n

import (
	"bufio"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/driploop/model/quantity"
)

// families are the first parts of keys: what a string in the code begins with if
// it is meant to be a message. A new family is added here.
var families = []string{
	// of the model
	"q", "ask", "assume", "find", "refuse", "word", "why", "note", "step", "tick", "tickname", "kit", "field", "option", "carry", "use",
	"stepfor", "group", "entry", "reading", "undo", "sign", "photo", "round", "species",
	// of the program
	"page", "label", "menu", "msg", "err", "n", "nav", "help", "paper", "verb", "example", "region",
	// shared
	"state", "signal", "parse", "origin", "strength", "working", "limit", "quantity", "list", "date", "time", "weekday", "month",
	"language", "system", "unit", "fyne",
}

// shared are messages taken by their whole family or kept complete as a
// vocabulary, with the reason; all other messages must be named in the code.
var shared = map[string]string{
	"fyne.":     "taken whole by the toolkit overlay",
	"unit.":     "one for each unit, found by its code",
	"state.":    "one for each state, found by its name",
	"origin.":   "one for each origin, found by its name",
	"strength.": "one for each strength, found by its name",
	"language.": "one for each language, found by its code",
	"system.":   "one for each system of units, found by its name",
	"signal.":   "one for each signal word, found by its name",
	"label.":    "vocabulary of buttons, kept complete",
	"nav.":      "names of the places",
	"n.":        "vocabulary of counts, kept complete",
	"working.":  "headings of the working",
	"refuse.":   "refusals that any package may use",
}

var keyForm = regexp.MustCompile(`^([a-z]+)(\.[a-z0-9_]+)+$`)

func isKey(s string) bool {
	m := keyForm.FindStringSubmatch(s)
	return m != nil && slices.Contains(families, m[1])
}

const root = ".."

// sources parses the Go files under the given folders, tests left out.
func sources(t *testing.T, visit func(path string, file *ast.File), folders ...string) int {
	t.Helper()
	n := 0
	for _, folder := range folders {
		err := filepath.WalkDir(filepath.Join(root, folder), func(path string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return nil
			}
			f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			rel, err := filepath.Rel(root, path)
			if err != nil {
				return err
			}
			n++
			visit(filepath.ToSlash(rel), f)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return n
}

func literal(e ast.Expr) (string, bool) {
	l, ok := e.(*ast.BasicLit)
	if !ok || l.Kind != token.STRING {
		return "", false
	}
	s, err := strconv.Unquote(l.Value)
	return s, err == nil
}

// spoken is what the code says about keys: whole ones, and the beginnings and
// endings of those it puts together.
type spoken struct {
	keys     map[string]string // key to a file that names it
	prefixes map[string]string
	suffixes map[string]bool
}

func speech(t *testing.T) spoken {
	s := spoken{map[string]string{}, map[string]string{}, map[string]bool{}}
	n := sources(t, func(path string, f *ast.File) {
		notKeys := map[ast.Expr]bool{}
		ast.Inspect(f, func(node ast.Node) bool {
			switch x := node.(type) {
			case *ast.CallExpr:
				// FieldID("tank.length") and the like name things, not messages.
				if typeNamed(x.Fun, "ID") {
					for _, a := range x.Args {
						notKeys[a] = true
					}
				}
			case *ast.CompositeLit: // []FieldID{...}, map[FieldID]Answer{...}
				for _, e := range x.Elts {
					pair, keyed := e.(*ast.KeyValueExpr)
					if kind, ok := x.Type.(*ast.MapType); ok && keyed && typeNamed(kind.Key, "ID") {
						notKeys[pair.Key] = true
					}
					if kind, ok := x.Type.(*ast.ArrayType); ok && typeNamed(kind.Elt, "ID") {
						notKeys[e] = true
					}
				}
			case *ast.KeyValueExpr:
				if k, ok := x.Key.(*ast.Ident); ok && k.Name == "ID" {
					notKeys[x.Value] = true
				}
			case *ast.BinaryExpr:
				if notKeys[x] {
					notKeys[x.X] = true // "kit." + item + ".have" is a sum of sums
					return true
				}
				if x.Op != token.ADD {
					return true
				}
				if left, ok := literal(x.X); ok {
					if family, _, dotted := strings.Cut(left, "."); dotted && slices.Contains(families, family) {
						s.prefixes[left] = path
						notKeys[x.X] = true
					}
				}
				if right, ok := literal(x.Y); ok && (strings.HasPrefix(right, ".") || strings.HasPrefix(right, "_")) {
					s.suffixes[right] = true
				}
			case *ast.BasicLit:
				if text, ok := literal(x); ok && !notKeys[x] && isKey(text) {
					s.keys[text] = path
				}
			}
			return true
		})
	}, "model", "screens", "app", "i18n")
	if n < 20 {
		t.Fatalf("only %d Go files were read, want at least 20", n)
	}
	return s
}

// typeNamed reports whether e is a name, with or without its package, that ends so.
func typeNamed(e ast.Expr, end string) bool { return strings.HasSuffix(nameOfExpr(e), end) }

func nameOfExpr(e ast.Expr) string {
	switch f := e.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	}
	return ""
}

func TestEveryKeyInTheCodeIsAMessage(t *testing.T) {
	s := speech(t)
	english := read().messages[source]
	for _, k := range sortedKeys(s.keys) {
		if _, ok := english[k]; !ok && !s.names(k) {
			t.Errorf("%s says %q, which has no message", s.keys[k], k)
		}
	}
	for _, p := range sortedKeys(s.prefixes) {
		if !slices.ContainsFunc(sortedKeys(english), func(k string) bool { return strings.HasPrefix(k, p) }) {
			t.Errorf("%s puts keys together from %q, and no message begins so", s.prefixes[p], p)
		}
	}
}

func TestEveryMessageIsUsed(t *testing.T) {
	s := speech(t)
	for _, k := range sortedKeys(read().messages[source]) {
		if !s.uses(k) {
			t.Errorf("%s.en.toml: no code uses %q", read().areas[k], k)
		}
	}
}

// names reports whether k is no key but a name: the code of a unit, or what the
// code puts behind a beginning to make a key ("field." and the name of a field).
func (s spoken) names(k string) bool {
	if _, ok := quantity.UnitOf(quantity.UnitCode(k)); ok {
		return true
	}
	for p := range s.prefixes {
		if _, ok := read().messages[source][p+k]; ok {
			return true
		}
	}
	return false
}

func (s spoken) uses(key string) bool {
	if _, ok := s.keys[key]; ok {
		return true
	}
	for p := range shared {
		if strings.HasPrefix(key, p) {
			return true
		}
	}
	for p := range s.prefixes {
		if strings.HasPrefix(key, p) {
			return true
		}
	}
	for end := range s.suffixes {
		if _, ok := s.keys[strings.TrimSuffix(key, end)]; ok && strings.HasSuffix(key, end) {
			return true
		}
	}
	return false
}

// wordy is what text for people looks like: two words, or a word that starts
// with a capital letter.
var wordy = regexp.MustCompile(`\pL{2,} +\pL|\p{Lu}\pL{2,}`)

// forLogs are calls whose text no person reads on a page.
var forLogs = map[string]bool{"New": true, "Errorf": true, "panic": true, "LogError": true, "Fatal": true, "Fatalf": true, "MustCompile": true}

// allowed reads the literals that stand in screens or app for a reason:
// PATH "literal" # reason.
func allowed(t *testing.T) map[string]bool {
	t.Helper()
	f, err := os.Open(filepath.Join(root, "testdata", "i18n", "literals.txt"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	out := map[string]bool{}
	scan := bufio.NewScanner(f)
	for scan.Scan() {
		line := strings.TrimSpace(scan.Text())
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		entry, reason, ok := strings.Cut(line, " # ")
		if !ok || strings.TrimSpace(reason) == "" {
			t.Fatalf("literals.txt: %q gives no reason", line)
		}
		out[strings.TrimSpace(entry)] = true
	}
	if err := scan.Err(); err != nil {
		t.Fatal(err)
	}
	return out
}

// fileName is a name of a file; it names no word.
var fileName = regexp.MustCompile(`^[\w./%-]+\.[a-z0-9]{2,5}$`)

// wordyLiterals lists the literals of a file that look like text for people. By
// the custom of Go, text that begins with the name of its package and a colon is
// an error for logs.
func wordyLiterals(f *ast.File) []string {
	skip := map[ast.Node]bool{}
	var out []string
	ast.Inspect(f, func(node ast.Node) bool {
		switch x := node.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.Field:
			if x.Tag != nil {
				skip[x.Tag] = true
			}
		case *ast.CompositeLit: // the names of placeholders are not words for people
			for _, e := range x.Elts {
				if kv, ok := e.(*ast.KeyValueExpr); ok && keyedByPlaceholder(x.Type) {
					skip[kv.Key] = true
				}
			}
		case *ast.IndexExpr:
			skip[x.Index] = true
		case *ast.CallExpr:
			if forLogs[nameOfExpr(x.Fun)] {
				return false
			}
			if s, ok := x.Fun.(*ast.SelectorExpr); ok && len(x.Args) == 2 && placeholderSetters[s.Sel.Name] {
				skip[x.Args[0]] = true
			}
		case *ast.BasicLit:
			if text, ok := literal(x); ok && !skip[x] && wordy.MatchString(text) &&
				!fileName.MatchString(text) && !strings.HasPrefix(text, f.Name.Name+": ") {
				out = append(out, strconv.Quote(text))
			}
		}
		return true
	})
	return out
}

// placeholderSetters fill a placeholder of a finding by its name.
var placeholderSetters = map[string]bool{"Say": true, "With": true, "Word": true}

// keyedByPlaceholder reports whether a literal of that type is keyed by the names
// of placeholders: i18n.Args, or a map from a name to a key or a value.
func keyedByPlaceholder(t ast.Expr) bool {
	switch x := t.(type) {
	case *ast.SelectorExpr:
		return x.Sel.Name == "Args"
	case *ast.Ident:
		return x.Name == "Args"
	case *ast.MapType:
		s, ok := x.Value.(*ast.SelectorExpr)
		return ok && (s.Sel.Name == "Key" || s.Sel.Name == "Value")
	}
	return false
}

// Nothing a person reads stands in the code of the screens and the program.
func TestNoTextForPeopleInTheCode(t *testing.T) {
	ok, used := allowed(t), map[string]bool{}
	n := sources(t, func(path string, f *ast.File) {
		for _, text := range wordyLiterals(f) {
			entry := path + " " + text
			used[entry] = true
			if !ok[entry] {
				t.Errorf("%s holds the text %s: it belongs into a message file, or with a reason into testdata/i18n/literals.txt", path, text)
			}
		}
	}, "screens", "app")
	for entry := range ok {
		if !used[entry] {
			t.Errorf("literals.txt allows %s, which is not in the code", entry)
		}
	}
	if n < 3 {
		t.Fatalf("only %d files of screens and app were read", n)
	}
}

func TestWordyLiteralsAreFound(t *testing.T) {
	src := `package x
import "fmt Not This"
type s struct { A int ` + "`json:\"Not This\"`" + ` }
func f() { label("Tank size"); label("two words"); label("look.paper"); label("x: Not this"); label("Not-This.ttf"); label("%s %d"); panic("Not this"); label("mm") }`
	f, err := parser.ParseFile(token.NewFileSet(), "x.go", src, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	if got := wordyLiterals(f); !slices.Equal(got, []string{`"Tank size"`, `"two words"`}) {
		t.Errorf("got %v", got)
	}
}
