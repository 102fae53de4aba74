package kinds

import (
	"strconv"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
)

// filter is one of the choices above the list.
type filter struct {
	id    string
	label working.Key
}

var filters = []filter{{"by-group", "page.kinds.by_group"}, {"by-size", "page.kinds.by_size"}, {"by-water", "page.kinds.by_water"},
	{"by-zone", "page.kinds.by_zone"}, {"by-temper", "page.kinds.by_temper"}}

// waters are kinds of water that a person may have: middles of what is called so.
// // common practice, no source
var waters = []struct {
	code  string
	label working.Key
	is    func() fish.Water
}{
	{"soft", "page.kinds.water_soft", func() fish.Water { return fish.Water{GH: degrees(5)} }},
	{"hard", "page.kinds.water_hard", func() fish.Water { return fish.Water{GH: degrees(18)} }},
	{"cool", "page.kinds.water_cool", func() fish.Water { return fish.Water{Temperature: celsius(19)} }},
	{"warm", "page.kinds.water_warm", func() fish.Water { return fish.Water{Temperature: celsius(27)} }},
}

func degrees(x float64) *quantity.Hardness {
	h := quantity.Hardness(x * quantity.MustUnit("dgh").Factor)
	return &h
}

func celsius(x float64) *quantity.Temperature {
	t := quantity.Temperature(x)
	return &t
}

// spec is a choice with what it offers.
func (l *List) spec(f filter) parts.ChoiceSpec {
	p := l.deps.Present
	s := parts.ChoiceSpec{ID: f.id, Label: l.t(f.label), Chosen: l.memory.chosen[f.id], Options: []parts.Option{{Label: l.t("page.kinds.any")}}}
	add := func(code, label string) { s.Options = append(s.Options, parts.Option{Code: code, Label: label}) }
	switch f.id {
	case "by-group":
		s.Search = l.t("label.search")
		for _, g := range fish.Groups() {
			add(string(g), p.GroupName(g))
		}
	case "by-size":
		for i, o := range p.SizeOptions() {
			add(strconv.Itoa(i), o.Label)
		}
	case "by-water":
		if l.cat.Home != nil && l.cat.Home.Water != (fish.Water{}) {
			add("here", l.t("page.kinds.water_here"))
		}
		for _, w := range waters {
			add(w.code, l.t(w.label))
		}
	case "by-zone":
		for _, z := range fish.Zones() {
			add(string(z), p.ZoneName(z))
		}
	default:
		for _, t := range fish.Tempers() {
			add(string(t), p.TemperName(t))
		}
	}
	return s
}

// choose filters by a choice; an empty code filters by it no more.
func (l *List) choose(id, code string) {
	l.memory.chosen[id] = code
	for i, f := range filters {
		if f.id == id {
			l.choices[i].Set(l.spec(f))
		}
	}
	l.sift()
	l.look()
}

// sift makes the filter that the choices say.
func (l *List) sift() {
	f := fish.Filter{Text: l.memory.words}
	if g := l.memory.chosen["by-group"]; g != "" {
		f.Groups = []fish.Group{fish.Group(g)}
	}
	if i, err := strconv.Atoi(l.memory.chosen["by-size"]); err == nil {
		f.Most = l.deps.Present.SizeOptions()[i].Most
	}
	switch code := l.memory.chosen["by-water"]; {
	case code == "here" && l.cat.Home != nil:
		w := l.cat.Home.Water
		f.Water = &w
	default:
		for _, x := range waters {
			if x.code == code {
				w := x.is()
				f.Water = &w
			}
		}
	}
	if z := l.memory.chosen["by-zone"]; z != "" {
		f.Zones = []fish.Zone{fish.Zone(z)}
	}
	if t := l.memory.chosen["by-temper"]; t != "" {
		f.Temper = []fish.Temper{fish.Temper(t)}
	}
	l.filter = f
}

// filtered reports whether anything is searched or chosen.
func (l *List) filtered() bool {
	for _, code := range l.memory.chosen {
		if code != "" {
			return true
		}
	}
	return l.filter.Text != ""
}

func (l *List) clearAll() {
	clear(l.memory.chosen)
	s := l.search.Spec()
	s.Text = ""
	l.search.Set(s)
	l.memory.words = ""
	l.sift()
	for i, f := range filters {
		l.choices[i].Set(l.spec(f))
	}
	l.look()
	l.Focus()
}
