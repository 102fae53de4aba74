package reckon

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/driploop/model/heat"
	"example.org/driploop/model/load"
	"example.org/driploop/model/nitrogen"
	"example.org/driploop/model/tank"
	"example.org/driploop/model/water"
)

// vocabulary are exported functions that calculate nothing: lists of choices,
// names and kinds of tests, makers of inputs that JSON states outright.
var vocabulary = []string{
	"tank.Shapes", "tank.Materials", "tank.Stones", "tank.Substrates", "load.Boards", "load.LegMaterials", "load.FloorConditions", "load.GlassConditions",
	"nitrogen.Ways", "heat.MediaKinds", "water.AllTests", "water.Name", "water.Kind", "water.Known", "water.LiquidLabel",
	"water.Told",                                                         // the working beside a judgement
	"water.Zones", "water.NH3Zones", "water.Judged", "water.JudgedBasis", // the lines of the judgement, for drawing
	"tank.Check", // of what goes in: every calculation on a tank begins with it
	"load.Governing", "water.AcceptSolidsFactor",
	"fish.All", "fish.Has", "fish.Swims", "fish.IsFish", "fish.HomeOf", "fish.State", "fish.String", // of what the calculations take and give
	"fish.LawOf", "fish.FoodsOf", "fish.OldNames", "fish.TradeNames", "fish.Traits", "fish.OfKind", // words about a kind or a rule
}

// parsed reads the Go files of a folder without its tests.
func parsed(t *testing.T, folder string) []*ast.File {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil || len(paths) == 0 {
		t.Fatalf("%s: no Go files (%v)", folder, err)
	}
	var out []*ast.File
	for _, p := range paths {
		if strings.HasSuffix(p, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), p, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, f)
	}
	return out
}

// Every exported function and method of the six packages is used here.
func TestEveryCalculationHasAName(t *testing.T) {
	used := map[string]bool{}
	for _, f := range parsed(t, ".") {
		ast.Inspect(f, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok {
				used[s.Sel.Name] = true
				if x, ok := s.X.(*ast.Ident); ok {
					used[x.Name+"."+s.Sel.Name] = true
				}
			}
			return true
		})
	}
	found := 0
	for _, pkg := range []string{"tank", "load", "heat", "water", "nitrogen", "fish"} {
		for _, f := range parsed(t, filepath.Join("..", pkg)) {
			for _, d := range f.Decls {
				fn, ok := d.(*ast.FuncDecl)
				if !ok || !fn.Name.IsExported() {
					continue
				}
				name := pkg + "." + fn.Name.Name
				if slices.Contains(vocabulary, name) {
					continue
				}
				found++
				if fn.Recv == nil && !used[name] || fn.Recv != nil && !used[fn.Name.Name] {
					t.Errorf("%s has no calculation", name)
				}
			}
		}
	}
	if found < 80 {
		t.Errorf("%d functions were looked for, want at least 80", found)
	}
}

// A rule is for a field that is there; a field renamed leaves no rule behind.
func TestEveryRuleIsForAField(t *testing.T) {
	types := map[string]reflect.Type{}
	var note func(reflect.Type)
	note = func(x reflect.Type) {
		switch x.Kind() {
		case reflect.Pointer, reflect.Slice:
			note(x.Elem())
		case reflect.Struct:
			if _, have := types[x.String()]; have {
				return
			}
			types[x.String()] = x
			for i := range x.NumField() {
				note(x.Field(i).Type)
			}
		}
	}
	for _, c := range calculations {
		note(c.input().typ)
		note(c.output().typ)
	}
	for _, name := range slices.Sorted(maps.Keys(rules)) {
		i := strings.LastIndex(name, ".")
		x, ok := types[name[:i]]
		if ok {
			_, ok = x.FieldByName(name[i+1:])
		}
		if !ok {
			t.Errorf("no calculation has the field %s", name)
		}
	}
}

// Names of types in inputs that are plain text, where only the domain knows which.
var freeTexts = []string{"code"}

func TestInputsTakeChoicesNotText(t *testing.T) {
	seen := map[*shape]bool{}
	var walk func(name string, s *shape)
	walk = func(name string, s *shape) {
		if s.form == formText && !slices.Contains(freeTexts, name) {
			t.Errorf("%s takes any text", name)
		}
		if s.form == formCodes {
			t.Errorf("%s takes findings", name)
		}
		if seen[s] {
			return
		}
		seen[s] = true
		if s.item != nil {
			walk(name, s.item)
		}
		for _, f := range s.fields {
			walk(f.name, f.shape)
		}
	}
	each(t, func(t *testing.T, c *Calculation) { walk("", c.input()) })
}

// Spot checks that names lead to the calculation they promise.
func TestNamesLeadToTheirCalculation(t *testing.T) {
	for name, want := range map[string]reflect.Type{
		"stand.check": reflect.TypeFor[load.StandInput](), "heater.size": reflect.TypeFor[heat.HeaterInput](), "water.treat": reflect.TypeFor[water.Treatment](),
		"nitrogen.maturing": reflect.TypeFor[nitrogen.Plan](), "tank.net_volume": reflect.TypeFor[set](),
	} {
		if c, ok := Get(name); !ok || c.input().typ != want {
			t.Errorf("%s takes %v, want %v", name, c.input().typ, want)
		}
	}
	c, _ := Get("tank.net_volume")
	a, _ := answer(t, c, c.Example())
	var in set
	in.Tank = tank.Tank{Shape: tank.Box, Material: tank.Glass, Rim: tank.Framed, Sizes: tank.Measured, Length: 20 * 0.0254, Width: 10 * 0.0254, Height: 12 * 0.0254, Wall: 0.005, Bottom: 0.005}
	in.Contents = tank.Contents{Substrate: tank.Gravel, SubstrateFront: 0.04, SubstrateBack: 0.06, Rocks: []tank.Rock{{Kind: tank.Granite, Mass: 2}}, Equipment: 1.5, AirGap: 0.03}
	in.Water = 25
	f, err := in.measure()
	if err != nil || !near(a.Figure.Value.X, float64(f.Net)) {
		t.Errorf("tank.net_volume by JSON gives %+v, by Go %v (%v)", a.Figure, f.Net, err)
	}
}
