package reckon

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

const (
	robust = working.Robust
	ranged = working.Ranged
	thumb  = working.RuleOfThumb
)

// strengths says how sure the main working of each calculation may be. Robust:
// definitions, algebra, laws of physics and published equations of water. Ranged:
// a model with a spread. Rule of thumb: shown as advice.
// Source: the choice of each is judgement, from what the sources claim for their figures.
var strengths = map[string]working.Strength{
	// Equilibria, saturation, stoichiometry and the algebra of mixing.
	"water.density": robust, "water.oxygen": robust, "water.ammonia": robust, "water.ammonia_fraction": robust, "water.ammonia_limit": robust,
	"water.carbonate": robust, "water.ph_of_co2": robust, "water.mix_ph": robust, "water.open_bag": robust, "water.way_home": robust, "water.air_co2": robust,
	"water.blend": robust, "water.hot_share": robust, "water.change": robust, "water.change_count": robust, "water.change_share": robust,
	"water.change_temperature": robust, "water.coldest_new_water": robust, "water.largest_change": robust, "water.flow_through": robust,
	"water.replaced": robust, "water.steady_cycle": robust, "water.tds_shift": robust, "water.evaporation": robust, "water.dose": robust,
	"water.treat": robust, "water.drip": robust, "water.drip_stages": robust, "water.drip_constant": robust, "water.drip_constant_time": robust, "water.drip_filling": robust,
	"water.chloride": robust, "nitrogen.ammonia_dose": robust,
	"heat.blend": robust, "heat.change": robust, "heat.largest_change": robust, "power.cost": robust, "power.plugs": robust,
	"filter.head_loss": robust,
	"heater.check":     robust, // the watts that are plugged in; what they do has workings of its own
	"stand.check":      robust, // statics and code values; what is unknown of the stand is a finding
	// Models with a spread.
	"water.volume_by_buckets": ranged, "water.volume_by_drop": ranged, "water.predict": ranged, "water.solids": ranged,
	"water.share_changed": robust, "water.top_up": robust,
	"water.co2":            ranged, // robust in itself; what a kit's pH leaves open is its spread
	"water.air_pressure":   ranged, // weather
	"water.dechlorinate":   ranged, // between the paths of the reaction
	"water.label_strength": ranged, "water.ammonia_criteria": ranged, "water.fish_oxygen": ranged, "nitrogen.run": ranged, "nitrogen.load": ranged,
	"tank.net_volume": ranged, "tank.full_mass": ranged, "heat.loss": ranged, "heat.power_cut": ranged, "heater.size": ranged, "heater.warm_up": ranged,
	"filter.media": ranged, "filter.operating_point": ranged,
	"glass.check": robust, // here of the bottom, by Roark; the panes have a spread
	// Advice.
	"water.gentle_share": thumb,
	"water.power_cut":    thumb, "water.float": thumb, "water.transport": thumb, "water.gentle_change": thumb, "water.nitrite_chloride": thumb,
	"nitrogen.maturing": thumb, "filter.flow": thumb, "filter.turnover": thumb, "filter.media_surface": thumb, "lift.advice": thumb, "floor.check": thumb,
	"fish.capacity": thumb, "fish.room": thumb, "fish.plan": thumb, "fish.growth": thumb, "fish.ration": thumb, "fish.weight": ranged, "fish.pinch": robust,
}

// plainly are the calculations that have no working, and why.
var plainly = map[string]string{
	"fish.animal": "looked up", "fish.find": "a list", "fish.together": "findings, each with the number that clashed", "fish.fits": "a list, with reasons", "fish.fit": "findings; its room is fish.room", "fish.fit_all": "a list of fish.fit", "fish.gate": "looked up in the tests, with the finding",
	"board.strength": "looked up", "glass.allowable": "looked up", "heater.sizes": "a list", "nitrogen.figures": "a list, with sources", "tank.material": "looked up",
	"tank.nearest": "looked up", "tank.nominal": "looked up", "tank.nominals": "a list, with sources", "tank.stone": "looked up", "tank.substrate": "looked up",
	"tank.usual_thickness": "looked up", "water.hardness_class": "looked up", "water.tap_ranges": "a list, with sources",
	"water.interpret": "findings", "water.jump": "findings", "water.trend": "findings", "water.doubt": "findings", "water.course": "findings", "nitrogen.readings": "findings",
	"nitrogen.new_tank": "a state to begin with", "nitrogen.schedule": "a plan", "tank.load": "the same figures in another shape, from tank.full_mass",
	"tank.bags": "a count, from tank.full_mass", "tank.outline": "sizes of a shape", "nitrogen.compare": "nitrogen.maturing, way by way",
	"water.float_curve": "the points of water.float", "water.drops_of_flow": "a change of unit", "water.flow_of_drops": "a change of unit",
	"tank.water_density": "the formula of water.density", "heat.capacity": "a step of heat.power_cut", "joists.span": "a limit that floor.check shows",
}

// noSpread are workings that are said to be ranged and have no range of their own.
var noSpread = map[working.Key]string{"ask.nitrogen.run": "a course over time; nitrogen.maturing gives its range"}

// Every result opens into its question, inputs, equations, sources and assumptions,
// and is worded as surely as it may be.
func TestEveryResultShowsItsWorking(t *testing.T) {
	trails, typed, given := 0, 0, 0
	each(t, func(t *testing.T, c *Calculation) {
		a, raw := answer(t, c, c.Example())
		want, calculates := strengths[c.Name()]
		if _, plain := plainly[c.Name()]; plain == calculates {
			t.Fatalf("%s is to have a working or a reason for none", c.Name())
		}
		if !calculates {
			if len(a.Trails) > 0 {
				t.Errorf("%s has a working after all", c.Name())
			}
			return
		}
		if len(a.Trails) == 0 {
			t.Fatalf("%s has no working", c.Name())
		}
		if got := a.Trails[0].Strength; got != want {
			t.Errorf("%s is %s, want %s", c.Name(), got, want)
		}
		if a.Figure == nil || !a.Figure.Value.Known() || a.Figure.Of == "" {
			t.Errorf("%s has no figure with a name: %+v", c.Name(), a.Figure)
		}
		for _, tr := range a.Trails {
			trails++
			complete(t, c.Name(), tr)
			for _, g := range tr.Givens {
				if g.Source == "" {
					given++
				}
				if !g.Typed.IsZero() {
					typed++
					converts(t, c.Name(), g)
				}
			}
			for _, id := range tr.Sources {
				if s, _ := working.LookUp(id); !strings.Contains(string(raw), `"origin": "`+string(s.Origin)+`"`) || !strings.Contains(string(raw), `"id": "`+string(id)+`"`) {
					t.Errorf("%s: source %s is not shown with its origin", c.Name(), id)
				}
			}
		}
	})
	for _, name := range slices.Concat(slices.Collect(maps.Keys(strengths)), slices.Collect(maps.Keys(plainly))) {
		if _, ok := Get(name); !ok {
			t.Errorf("no calculation %s", name)
		}
	}
	if trails < 75 || typed < 150 {
		t.Errorf("%d workings, %d inputs as they were given, want at least 75 and 150", trails, typed)
	}
	t.Logf("%d calculations with a working, %d without; %d workings; of %d inputs %d are shown as they were given, the others come from an earlier step",
		len(strengths), len(plainly), trails, given, typed)
}

// sizeOfChange needs no input: it is a limit of practice.
const sizeOfChange working.Key = "ask.water.change_size"

var (
	wordIn    = regexp.MustCompile(`[a-z]{3,}`)
	subscript = regexp.MustCompile(`_\w+`)
	functions = []string{"min", "max", "exp", "log", "sin", "cos", "tan", "arctan", "erf"}
)

func complete(t *testing.T, name string, tr *working.Trail) {
	t.Helper()
	what := name + ", " + string(tr.Ask)
	switch {
	case !strings.HasPrefix(string(tr.Ask), "ask."):
		t.Errorf("%s: no question", what)
	case len(tr.Givens) == 0 && tr.Ask != sizeOfChange:
		t.Errorf("%s: no inputs", what)
	case len(tr.Steps) == 0 || !tr.Result.Value.Known() || !tr.Finite():
		t.Errorf("%s: no steps, or no result: %+v", what, tr.Result)
	case len(tr.Sources) == 0:
		t.Errorf("%s: no sources", what)
	case tr.Strength == ranged && tr.Spread == nil && noSpread[tr.Ask] == "":
		t.Errorf("%s: a range without its ends", what)
	case tr.Strength == robust && tr.Spread != nil:
		t.Errorf("%s: robust, and yet a range", what)
	}
	for _, s := range tr.Steps {
		if s.Symbol == "" || s.Name == "" || s.Formula == "" {
			t.Errorf("%s: step %+v has no symbol, name or equation", what, s)
		}
		// An equation is read in every language.
		for _, word := range wordIn.FindAllString(subscript.ReplaceAllString(s.Formula, ""), -1) {
			if !slices.Contains(functions, word) {
				t.Errorf("%s: step %s says %q in words: %s", what, s.Symbol, word, s.Formula)
			}
		}
		if s.Source != "" && !slices.Contains(tr.Sources, s.Source) {
			t.Errorf("%s: step %s relies on %s, which is not among the sources", what, s.Symbol, s.Source)
		}
	}
	for _, g := range tr.Givens {
		if g.Symbol == "" || g.Name == "" || !g.Value.Known() {
			t.Errorf("%s: input %+v has no symbol, name or value", what, g)
		}
	}
	for _, id := range tr.Sources {
		if s, ok := working.LookUp(id); !ok || s.Cite == "" || s.Origin == "" {
			t.Errorf("%s: source %s is not in the register with its origin", what, id)
		}
	}
	for _, l := range tr.Valid {
		if l.Name == "" || !l.Low.Known() && !l.High.Known() {
			t.Errorf("%s: a valid range without ends: %+v", what, l)
		}
	}
	if s := tr.Spread; s != nil && (s.Low.Kind != tr.Result.Value.Kind || s.Low.X > s.High.X || tr.Result.Value.X < s.Low.X-1e-9 || tr.Result.Value.X > s.High.X+1e-9) {
		t.Errorf("%s: %g is not in its range %g to %g", what, tr.Result.Value.X, s.Low.X, s.High.X)
	}
}

// converts fails unless what was typed is the value that was calculated with.
func converts(t *testing.T, name string, g working.Given) {
	t.Helper()
	v, err := g.Typed.Value()
	if err != nil {
		t.Errorf("%s, %s: typed %+v: %v", name, g.Name, g.Typed, err)
		return
	}
	if g.Typed.Basis == quantity.BasisNone && v != g.Value {
		t.Errorf("%s, %s: typed %+v is not %+v", name, g.Name, g.Typed, g.Value)
	}
}

// A nitrogen compound given as the ion is shown as it was given, and converted.
func TestInputsAreShownAsGiven(t *testing.T) {
	c, _ := Get("water.ammonia")
	a, _ := answer(t, c, []byte(`{"tan": {"value": 5e-1, "unit": "mg/l", "basis": "ion"}, "temperature": {"value": 77.0, "unit": "degf"}, "ph": {"value": 7.6, "unit": "ph"}}`))
	want := map[quantity.Kind]quantity.Measure{
		quantity.KindConcentration: {Number: "0.5", Unit: "mg/l", Basis: quantity.AsIon},
		quantity.KindTemperature:   {Number: "77.0", Unit: "degf"},
		quantity.KindPH:            {Number: "7.6", Unit: "ph"},
	}
	for _, g := range a.Trails[0].Givens {
		if g.Typed != want[g.Value.Kind] {
			t.Errorf("%s: %+v, want %+v", g.Name, g.Typed, want[g.Value.Kind])
		}
	}
	// 50 cm and 500 mm are one length told in two ways: which of them is the input is not known.
	if as, ok := givenAs(quantity.Length(0.5).Value(), []typed{{quantity.Length(0.5).Value(), quantity.Measure{Number: "50", Unit: "cm"}},
		{quantity.Length(0.5).Value(), quantity.Measure{Number: "500", Unit: "mm"}}}); ok {
		t.Errorf("two ways of telling give %+v", as)
	}
}
