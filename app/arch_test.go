package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const module = "example.org/driploop"

// pkg is what go list says of a package.
type pkg struct {
	ImportPath string
	Dir        string
	Name       string
	Doc        string
	Imports    []string
	Deps       []string
	GoFiles    []string
	CgoFiles   []string
	Standard   bool
	DepOnly    bool
}

// short is the path of a package below the module: model/tank.
func (p pkg) short() string { return strings.TrimPrefix(strings.TrimPrefix(p.ImportPath, module), "/") }

// ours lists the packages that p imports from the module.
func (p pkg) ours() []string {
	var out []string
	for _, i := range p.Imports {
		if strings.HasPrefix(i, module+"/") {
			out = append(out, strings.TrimPrefix(i, module+"/"))
		}
	}
	return out
}

// tags are those that the tests are built with: no window system is asked for.
const tags = "ci,migrated_fynedo"

var listed []pkg

// packages lists every package that the program is made of, its dependencies
// too.
func packages(t *testing.T) []pkg {
	t.Helper()
	if listed != nil {
		return listed
	}
	cmd := exec.Command("go", "list", "-deps", "-json=ImportPath,Dir,Name,Doc,Imports,Deps,GoFiles,CgoFiles,Standard,DepOnly",
		"-tags", tags, "./...")
	cmd.Dir = ".."
	var said bytes.Buffer
	cmd.Stderr = &said
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v\n%s", err, said.String())
	}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p pkg
		err := d.Decode(&p)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		listed = append(listed, p)
	}
	return listed
}

// own lists the packages of the module.
func own(t *testing.T) []pkg {
	t.Helper()
	var out []pkg
	for _, p := range packages(t) {
		if p.ImportPath == module || strings.HasPrefix(p.ImportPath, module+"/") {
			out = append(out, p)
		}
	}
	if len(out) < 25 {
		t.Fatalf("%d packages of ours, want at least 25", len(out))
	}
	return out
}

// below says which packages of model a package of model may import.
var below = map[string][]string{
	"quantity": {},
	"working":  {"quantity"},
	"frame":    {},
	"durable":  {},
	"drill":    {},
	"photo":    {"quantity", "working", "durable", "journal"},
	"tank":     {"quantity", "working"},
	"load":     {"quantity", "working", "tank", "frame"},
	"heat":     {"quantity", "working", "tank"},
	"water":    {"quantity", "working"},
	"nitrogen": {"quantity", "working", "water"},
	"fish":     {"quantity", "working", "water", "tank", "heat", "nitrogen"},
	"journal":  {"quantity", "working"},
	"region":   {"quantity", "working"},
	"sick":     {"quantity", "working", "journal"},
	"care":     {"quantity", "working", "tank", "load", "heat", "water", "nitrogen", "fish", "journal", "region"},
	"slip":     {"quantity", "working", "journal", "care", "durable", "photo", "fish", "rounds"},
	"intake":   {"quantity", "working", "journal"},
	"code":     {},
	"claim":    {"durable"},
	"store":    {"durable"},
	"desk":     {"journal"},
	"keeper":   {"quantity", "working", "tank", "load", "heat", "water", "nitrogen", "fish", "journal", "sick", "care", "store", "slip", "intake", "photo", "durable", "rounds", "desk", "code"},
	"rounds":   {"quantity", "working", "journal", "water", "nitrogen"},
	"reckon":   {"quantity", "working", "tank", "load", "heat", "water", "nitrogen", "fish"},
}

// outside says which modules of others a package of model may use; the standard
// library apart.
var outside = map[string][]string{
	"frame":    {"gonum.org/v1/gonum"},
	"nitrogen": {"gonum.org/v1/gonum"},
	"durable":  {"golang.org/x/sys"},
	"claim":    {"golang.org/x/sys"},
	"photo":    {"golang.org/x/image", "github.com/gen2brain/heic", "github.com/bep/imagemeta"},
	"desk":     {"github.com/mattn/go-sqlite3", "github.com/jackc/pgx/v5"},
	"journal":  {"golang.org/x/text"},
	"code":     {"github.com/makiuchi-d/gozxing", "golang.org/x/image"},
	"slip":     {"github.com/santhosh-tekuri/jsonschema/v6", "golang.org/x/text"},
	"store":    {"github.com/mattn/go-sqlite3", "github.com/pressly/goose/v3"},
	"keeper":   {"github.com/google/uuid", "golang.org/x/text"},
	"rounds":   {"github.com/teambition/rrule-go"},
}

func startsWithAny(s string, prefixes ...string) bool {
	return slices.ContainsFunc(prefixes, func(p string) bool { return s == p || strings.HasPrefix(s, p+"/") })
}

// Imports run down only, and in model only as the table allows.
func TestModelImportsOnlyWhatItMay(t *testing.T) {
	standard := map[string]bool{}
	for _, p := range packages(t) {
		standard[p.ImportPath] = p.Standard
	}
	found := 0
	for _, p := range own(t) {
		name, in := strings.CutPrefix(p.short(), "model/")
		if !in {
			continue
		}
		found++
		may, known := below[name]
		if !known {
			t.Errorf("model/%s is not in the table of what it may import", name)
			continue
		}
		for _, i := range p.ours() {
			if !slices.Contains(may, strings.TrimPrefix(i, "model/")) || !strings.HasPrefix(i, "model/") {
				t.Errorf("model/%s imports %s, which it may not", name, i)
			}
		}
		for _, i := range p.Imports {
			if !standard[i] && !strings.HasPrefix(i, module) && i != "C" && !startsWithAny(i, outside[name]...) {
				t.Errorf("model/%s imports %s, which it may not", name, i)
			}
		}
	}
	if found < 13 {
		t.Errorf("%d packages of model, want at least 13", found)
	}
}

// The model knows no toolkit, no words and no pictures, not even through others.
func TestModelKnowsNothingAbove(t *testing.T) {
	for _, p := range own(t) {
		if !startsWithAny(p.short(), "model") {
			continue
		}
		for _, d := range p.Deps {
			if startsWithAny(d, "fyne.io", module+"/i18n", module+"/screens", module+"/assets", module+"/app", "github.com/nicksnyder") {
				t.Errorf("%s depends on %s", p.short(), d)
			}
		}
	}
}

// floors are the folders of the program, the lowest last, with what each may
// import of the others.
var floors = map[string][]string{
	"app":     {"screens", "i18n", "assets", "model"},
	"screens": {"screens", "i18n", "assets", "model"},
	"i18n":    {"i18n", "assets", "model/quantity", "model/region", "model/working"},
	"assets":  {},
	"model":   {"model"},
}

func TestImportsRunDownOnly(t *testing.T) {
	for _, p := range own(t) {
		floor, _, _ := strings.Cut(p.short(), "/")
		may, known := floors[floor]
		if !known {
			t.Errorf("%s is in no folder of the program", p.short())
		}
		for _, i := range p.ours() {
			if !startsWithAny(i, may...) {
				t.Errorf("%s imports %s, which is not below it", p.short(), i)
			}
		}
		for _, i := range p.Imports {
			switch {
			case startsWithAny(i, "database/sql", "github.com/mattn/go-sqlite3", "github.com/pressly/goose/v3", "github.com/jackc/pgx/v5") && p.short() != "model/store" && p.short() != "model/desk":
				t.Errorf("%s imports %s: only model/store and model/desk do", p.short(), i)
			case startsWithAny(i, "fyne.io") && floor == "i18n" && p.short() != "i18n/toolkit":
				t.Errorf("%s imports %s: only i18n/toolkit does", p.short(), i)
			case startsWithAny(i, "fyne.io") && (floor == "assets" || p.short() == "screens/present"):
				t.Errorf("%s imports %s, and may know no toolkit", p.short(), i)
			}
		}
	}
}

// places are the pages that a person can be in. They know each other only by
// route.
var places = []string{"firstfill", "today", "daybook", "fish", "ahead", "counter", "settings", "help", "start", "sick", "photos", "rounds", "charts", "kinds", "plan", "feeding", "homecoming", "visit", "desk"}

// shared may serve every place, and so knows none.
var sharedScreens = []string{"look", "scene", "fauna", "weeks", "elevation", "chart", "picture", "parts", "present", "nav", "paper", "trace", "slips"}

func TestPlacesDoNotKnowEachOther(t *testing.T) {
	found := 0
	for _, p := range own(t) {
		name, in := strings.CutPrefix(p.short(), "screens/")
		place := slices.Contains(places, name)
		if !in || !place && !slices.Contains(sharedScreens, name) {
			continue
		}
		if place {
			found++
		}
		for _, i := range p.ours() {
			if to, ok := strings.CutPrefix(i, "screens/"); ok && (slices.Contains(places, to) || to == "shell") {
				t.Errorf("%s imports %s", p.short(), i)
			}
		}
	}
	if found < 3 {
		t.Errorf("%d places, want at least 3", found)
	}
}

// Just one SQLite is linked.
func TestOneSQLite(t *testing.T) {
	var engines []string
	for _, p := range packages(t) {
		if !p.Standard && !startsWithAny(p.ImportPath, module, "github.com/pressly/goose/v3") &&
			strings.Contains(p.ImportPath, "sqlite") {
			engines = append(engines, p.ImportPath)
		}
	}
	if !slices.Equal(engines, []string{"github.com/mattn/go-sqlite3"}) {
		t.Errorf("SQLite is linked as %v, want github.com/mattn/go-sqlite3 alone", engines)
	}
}

// Every package says what it is, and none is a place for leftovers.
func TestPackagesSayWhatTheyAre(t *testing.T) {
	for _, p := range own(t) {
		switch base := path.Base(p.ImportPath); base {
		case "util", "utils", "common", "helper", "helpers", "misc", "shared":
			t.Errorf("%s is named for nothing", p.short())
		}
		want := "Package " + p.Name + " "
		if p.Name == "main" {
			want = "Command driploop "
		}
		if !strings.HasPrefix(p.Doc, want) {
			t.Errorf("%s has no comment that begins with %q", p.short(), want)
		}
	}
}

// clocks are what tells the present time or waits for it.
var clocks = []string{"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTicker", "NewTimer"}

// The time comes into the model from outside.
func TestModelHasNoClock(t *testing.T) {
	files := 0
	for _, p := range own(t) {
		if !startsWithAny(p.short(), "model") {
			continue
		}
		for _, name := range append(slices.Clone(p.GoFiles), p.CgoFiles...) {
			files++
			set := token.NewFileSet()
			f, err := parser.ParseFile(set, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			timeName := importedAs(f, "time")
			ast.Inspect(f, func(n ast.Node) bool {
				if s, ok := n.(*ast.SelectorExpr); ok && timeName != "" {
					if x, ok := s.X.(*ast.Ident); ok && x.Name == timeName && slices.Contains(clocks, s.Sel.Name) {
						t.Errorf("%s/%s:%d calls time.%s", p.short(), name, set.Position(n.Pos()).Line, s.Sel.Name)
					}
				}
				return true
			})
		}
	}
	if files < 100 {
		t.Errorf("%d files of model, want at least 100", files)
	}
}

// importedAs is the name under which f knows a package, "" when it does not.
func importedAs(f *ast.File, of string) string {
	for _, i := range f.Imports {
		if strings.Trim(i.Path.Value, `"`) == of {
			if i.Name != nil {
				return i.Name.Name
			}
			return path.Base(of)
		}
	}
	return ""
}

// most is how long a file may be: one idea, one file.
const most = 500

func TestFilesAreShort(t *testing.T) {
	n := 0
	err := filepath.WalkDir("..", func(at string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && strings.HasPrefix(d.Name(), ".") && d.Name() != ".." {
			return fs.SkipDir
		}
		if d.IsDir() || filepath.Ext(at) != ".go" {
			return nil
		}
		raw, err := os.ReadFile(at)
		if err != nil {
			return err
		}
		n++
		if lines := bytes.Count(raw, []byte("\n")); lines > most {
			t.Errorf("%s has %d lines, want at most %d", at, lines, most)
		}
		return nil
	})
	if err != nil || n < 200 {
		t.Fatalf("%d files were read (%v), want at least 200", n, err)
	}
}

// folders at the top: five floors, what tests read, and what is made.
var folders = []string{"app", "screens", "i18n", "assets", "model", "testdata", "bin", "out"}

func TestNoOtherFolderAtTheTop(t *testing.T) {
	entries, err := os.ReadDir("..")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if e.IsDir() && !strings.HasPrefix(e.Name(), ".") && !slices.Contains(folders, e.Name()) {
			t.Errorf("the folder %s at the top is not part of the plan", e.Name())
		}
	}
}
