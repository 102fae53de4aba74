package reckon

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.org/driploop/model/quantity"
)

// requires reports whether the field at a path must be there.
func (s *shape) requires(path string) bool {
	at := s
	for _, name := range strings.Split(path, ".") {
		name, _, _ = strings.Cut(name, "[")
		for at.form == formList {
			at = at.item
		}
		if at.form == formQuantity {
			return name != "basis" || at.species != ""
		}
		for _, f := range at.fields {
			if f.name == name {
				if path == name || strings.HasSuffix(path, "."+name) && !strings.Contains(strings.SplitN(path, name, 2)[1], ".") {
					return f.required
				}
				at = f.shape
				break
			}
		}
	}
	return false
}

// Every field of every example in turn is cut out, given twice, or of another kind.
func TestFieldsAreHeldToTheirShape(t *testing.T) {
	cut, units := 0, 0
	each(t, func(t *testing.T, c *Calculation) {
		in := compiled(t, c, "input")
		n := len(leaves(decoded(t, c.Example())))
		for i := range n {
			doc := decoded(t, c.Example())
			l := leaves(doc)[i]
			if l.cut == nil {
				continue
			}
			if c.input().requires(l.path) {
				cut++
				l.cut()
				code := "refuse.missing"
				if strings.HasSuffix(l.path, ".basis") {
					code = "refuse.reckon.basis"
				}
				text := encoded(t, doc)
				a, _ := answer(t, c, []byte(text))
				if a.Refused == nil || a.Refused.Field != l.path || string(a.Refused.Code) != code {
					t.Errorf("%s without %s: %+v, want %s", c.Name(), l.path, a.Refused, code)
				}
				unfit(t, in, c, text)
				l.set(l.was)
			}
			if unit, ok := l.was.(string); ok && strings.HasSuffix(l.path, ".unit") {
				units++
				l.set("v") // no calculation is about volts
				text := encoded(t, doc)
				if open := slices.Contains(ofAnyTest, c.Name()); open && strings.HasSuffix(l.path, ".value.unit") {
					// The kind is that of the test, which only the domain knows.
					refusedAs(t, c, text, "refuse.water.reading_kind", strings.TrimSuffix(l.path, ".unit"))
				} else {
					refusedAs(t, c, text, "refuse.reckon.wrong_unit", l.path)
					unfit(t, in, c, text)
				}
				l.set(strings.ToUpper(unit) + "!")
				refusedAs(t, c, encoded(t, doc), "refuse.reckon.unknown_unit", l.path)
				l.set(unit)
			}
			switch was := l.was.(type) {
			case map[string]any:
				if _, quantity := was["unit"]; quantity {
					l.set(json.Number("1"))
					text := encoded(t, doc)
					refusedAs(t, c, text, "refuse.reckon.want_quantity", l.path)
					unfit(t, in, c, text)
				}
			case bool:
				l.set("true")
				text := encoded(t, doc)
				refusedAs(t, c, text, "refuse.reckon.want_flag", l.path)
				unfit(t, in, c, text)
			}
		}
	})
	if cut < 400 || units < 250 {
		t.Errorf("%d fields were cut and %d units changed, want at least 400 and 250", cut, units)
	}
}

// unfit holds the schema to what the reading refuses.
func unfit(t *testing.T, s *jsonschema.Schema, c *Calculation, text string) {
	t.Helper()
	if s.Validate(decoded(t, []byte(text))) == nil {
		t.Errorf("%s: the schema takes %.300s", c.Name(), text)
	}
}

func TestHostileInputsAreRefused(t *testing.T) {
	c, _ := Get("water.density")
	deep := strings.Repeat(`{"temperature":`, 40) + "1" + strings.Repeat("}", 40)
	lists := strings.Repeat("[", 100000)
	for _, x := range []struct{ input, code, field string }{
		{`{"temperature": {"value": 25, "unit": "degc"}, "temperature": {"value": 26, "unit": "degc"}}`, "refuse.reckon.twice", "temperature"},
		{`{"temperature": {"value": 25, "value": 26, "unit": "degc"}}`, "refuse.reckon.twice", "temperature.value"},
		{`{"Temperature": {"value": 25, "unit": "degc"}}`, "refuse.reckon.unknown_field", "Temperature"},
		{`{"temperature": {"value": 25, "unit": "degc", "basis": "n"}}`, "refuse.reckon.unknown_field", "temperature.basis"},
		{`{"temperature": {"value": 25}}`, "refuse.missing", "temperature.unit"},
		{`{"temperature": {"unit": "degc"}}`, "refuse.missing", "temperature.value"},
		{`{"temperature": 25}`, "refuse.reckon.want_quantity", "temperature"},
		{`{"temperature": "25 °C"}`, "refuse.reckon.want_quantity", "temperature"},
		{`{"temperature": null}`, "refuse.reckon.want_quantity", "temperature"},
		{`{"temperature": {"value": 25, "unit": "k_diff"}}`, "refuse.reckon.wrong_unit", "temperature.unit"},
		{`{"temperature": {"value": 25, "unit": 7}}`, "refuse.reckon.unknown_unit", "temperature.unit"},
		{`{"temperature": {"value": 1.7e308, "unit": "degf"}}`, "refuse.outside", "temperature"},
		{`{"temperature": {"value": 41, "unit": "degc"}}`, "refuse.outside", "temperature"},
		{deep, "refuse.reckon.too_deep", ""},
		{lists, "refuse.reckon.too_deep", ""},
		{strings.Repeat(" ", MaxInput+1), "refuse.reckon.too_large", "$"},
		{"{\"temperature\xff\": 1}", "refuse.reckon.not_json", "$"},
		{`{"temperature" 1}`, "refuse.reckon.not_json", "temperature"},
		{`{"temperature": {"value": 25, "unit": "degc"},}`, "refuse.reckon.not_json", "$"},
		{`{"temperature": {"value": 25, "unit": "degc"}}{`, "refuse.reckon.trailing", "$"},
		{`{"` + strings.Repeat("ä", 1000) + `": 1}`, "refuse.reckon.unknown_field", strings.Repeat("ä", 30) + "…"},
	} {
		a, _ := answer(t, c, []byte(x.input))
		if a.Refused == nil || string(a.Refused.Code) != x.code || x.field != "" && a.Refused.Field != x.field {
			t.Errorf("%.200s: got %+v, want %s at %s", x.input, a.Refused, x.code, x.field)
		}
	}
}

func TestARefusalSaysWhatIsAccepted(t *testing.T) {
	c, _ := Get("tank.nearest")
	raw := strings.Replace(string(c.Example()), `"glass"`, `"tin"`, 1)
	a, out := answer(t, c, []byte(raw))
	if a.Refused == nil || a.Refused.Field != "tank.material" || !strings.Contains(string(out), `"acrylic"`) {
		t.Errorf("want tank.material with its choices, got %s", out)
	}
	a, out = answer(t, c, []byte(strings.Replace(string(c.Example()), `"value": 20,`, `"value": 2025,`, 1)))
	if a.Refused == nil || a.Refused.Field != "tank.length" || a.Refused.Accept.High.X != 5 {
		t.Errorf("want tank.length up to 5 m, got %s", out)
	}
	c, _ = Get("water.ammonia")
	a, out = answer(t, c, []byte(strings.Replace(string(c.Example()), `, "basis": "n"`, "", 1)))
	if a.Refused == nil || a.Refused.Field != "tan.basis" || len(a.Refused.Accepts) != 2 {
		t.Errorf("want tan.basis with both, got %s", out)
	}
}

// The basis of a nitrogen compound is converted, never guessed.
func TestBasesAreConverted(t *testing.T) {
	c, _ := Get("water.ammonia")
	asN, _ := answer(t, c, c.Example())
	perN, _ := quantity.Ammonium.IonPerN()
	ion := strings.Replace(string(c.Example()), `"value": 0.5, "unit": "mg/l", "basis": "n"`, fmt.Sprintf(`"value": %v, "unit": "mg/l", "basis": "ion"`, 0.5*perN), 1)
	asIon, _ := answer(t, c, []byte(ion))
	if asIon.Refused != nil || !near(asN.Figure.Value.X, asIon.Figure.Value.X) {
		t.Errorf("0.5 mg/L as nitrogen gives %+v and the same as the ion %+v", asN.Figure, asIon.Figure)
	}
	c, _ = Get("water.nitrite_chloride")
	ionHere, _ := answer(t, c, c.Example())
	nHere, _ := answer(t, c, []byte(strings.Replace(string(c.Example()), `"ion"`, `"n"`, 1)))
	ratio := (nHere.Trails[0].Steps[0].Value.X) / ionHere.Trails[0].Steps[0].Value.X
	if want, _ := quantity.Nitrite.IonPerN(); !near(ratio, want) {
		t.Errorf("nitrite as nitrogen needs %g times the chloride, want %g (molar masses)", ratio, want)
	}
}

func near(a, b float64) bool { return a == b || (a-b)/b < 1e-9 && (b-a)/b < 1e-9 }

func TestMoneyKeepsItsCurrency(t *testing.T) {
	c, _ := Get("power.cost")
	_, out := answer(t, c, c.Example())
	if !strings.Contains(string(out), `"unit": "EUR"`) {
		t.Errorf("no euros in %s", out)
	}
}

// A domain's refusal names a place in the input: every quantity of every example
// in turn is absurd.
func TestRefusalsOfTheDomainNameAPath(t *testing.T) {
	refusals := 0
	each(t, func(t *testing.T, c *Calculation) {
		for i := range leaves(decoded(t, c.Example())) {
			for _, absurd := range []json.Number{"1e15", "-1e15", "0"} {
				doc := decoded(t, c.Example())
				l := leaves(doc)[i]
				if _, ok := l.was.(json.Number); !ok {
					continue
				}
				l.set(absurd)
				a, _ := answer(t, c, []byte(encoded(t, doc)))
				if a.Refused == nil {
					continue
				}
				refusals++
				if a.Refused.Code == "refuse.reckon.no_number" {
					t.Errorf("%s with %s = %s leads to no number", c.Name(), l.path, absurd)
				}
				if !c.input().has(a.Refused.Field) {
					t.Errorf("%s with %s = %s refuses %q (%s), which is no path of its input", c.Name(), l.path, absurd, a.Refused.Field, a.Refused.Code)
				}
			}
		}
	})
	if refusals < 500 {
		t.Errorf("%d refusals, want at least 500", refusals)
	}
}

// has reports whether a path, lists without their index, is one of the input.
func (s *shape) has(path string) bool {
	if path == whole {
		return true
	}
	name, rest, deeper := strings.Cut(path, ".")
	name, _, _ = strings.Cut(name, "[")
	at := s
	for at.form == formList {
		at = at.item
	}
	for _, f := range at.fields {
		if f.name == name {
			return !deeper || f.shape.has(rest)
		}
	}
	return at.form == formQuantity && !deeper && (name == "value" || name == "unit" || name == "basis")
}

// ofAnyTest take readings of whichever test they name.
var ofAnyTest = []string{"water.jump", "water.trend", "water.doubt", "water.course"}
