package present

import (
	"maps"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Kind is an animal as a row of the catalogue.
type Kind struct {
	Code       fish.Code
	Name       string
	Scientific string
	Facts      []string // adult length, then how many more there is room for
	State      working.State
	Word       string // of whether it fits; empty without a tank
	Why        string
}

// KindNames are the names of every animal in the languages of the program, for
// searching: a fish is often known by its name in another.
func KindNames() func(fish.Code) []string {
	names := map[fish.Code][]string{}
	for _, lang := range i18n.Languages() {
		w := i18n.Speak(lang, "", quantity.Metric)
		for _, a := range fish.All() {
			names[a.Code] = append(names[a.Code], w.T(a.Code.Name(), nil))
		}
	}
	return func(c fish.Code) []string { return names[c] }
}

// FitWord says whether an animal fits.
func (p Presenter) FitWord(v fish.Verdict) string {
	return p.W.T(working.Key("word.kind.fit."+v.String()), nil)
}

// GroupName, ZoneName, TemperName and DietName name what the trade shelves an
// animal by, where it lives, how it treats others and what it eats.
func (p Presenter) GroupName(g fish.Group) string {
	return p.W.T(working.Key("word.kind.group."+string(g)), nil)
}

// ZoneName: see GroupName.
func (p Presenter) ZoneName(z fish.Zone) string {
	return p.W.T(working.Key("word.kind.zone."+string(z)), nil)
}

// TemperName: see GroupName.
func (p Presenter) TemperName(t fish.Temper) string {
	return p.W.T(working.Key("word.kind.temper."+string(t)), nil)
}

// DietName: see GroupName.
func (p Presenter) DietName(d fish.Diet) string {
	return p.W.T(working.Key("word.kind.diet."+string(d)), nil)
}

// TraitText says what a trait means for who keeps the animal.
func (p Presenter) TraitText(t fish.Trait) string {
	return p.W.T(working.Key("word.kind.trait."+string(t)), nil)
}

// Kind presents an animal of the catalogue.
func (p Presenter) Kind(k keeper.Kind) Kind {
	a := k.Animal
	out := Kind{Code: a.Code, Name: p.KindName(a.Code), Scientific: a.Scientific, Facts: []string{p.W.About(a.Length.Value())}}
	if k.Fit == nil {
		out.Why = p.W.T("page.kinds.needs", i18n.Args{"Group": working.Key("word.kind.group." + string(a.Group)), "Tank": p.W.About(a.LeastTank.Value())})
		if a.Has(fish.NotSmallTanks) {
			out.Why = i18n.Sentences(out.Why, p.TraitText(fish.NotSmallTanks))
		}
		return out
	}
	out.State, out.Word = k.Fit.Verdict.State(), p.FitWord(k.Fit.Verdict)
	out.Facts = append(out.Facts, p.room(k.Fit.Room.Most))
	if k.Here > 0 {
		out.Facts = append(out.Facts, p.W.N("n.here", float64(k.Here), nil))
	}
	if k.Planned > 0 {
		out.Facts = append(out.Facts, p.W.N("n.planned", float64(k.Planned), nil))
	}
	out.Why = p.fitWhy(k)
	return out
}

// room says how many more fit.
func (p Presenter) room(n int) string {
	switch {
	case n <= 0:
		return p.W.T("page.kinds.no_room", nil)
	case n >= manyMore:
		return p.W.T("page.kinds.much_room", nil)
	}
	return p.W.N("n.room_for", float64(n), nil)
}

// manyMore is from how many on it does not matter how many. // judgement
const manyMore = 100

// fitWhy is the one sentence that decides whether a kind fits.
func (p Presenter) fitWhy(k keeper.Kind) string {
	f := k.Fit
	switch {
	case f.Clash != nil && f.Clash.Verdict >= f.Crowd:
		return p.sayAbout(*f.Clash.Finding)
	case f.Crowd == fish.No:
		return p.W.T("page.kinds.crowded", i18n.Args{"Rule": f.Room.Governing, "Group": p.W.N("n.animals", float64(f.Count), nil)})
	case f.Crowd == fish.Wait:
		return p.W.T("page.kinds.tight", i18n.Args{"Rule": f.Room.Governing, "Group": p.W.N("n.animals", float64(f.Count), nil)})
	case k.Animal.MinGroup > 1 && k.Here == 0:
		return p.W.N("n.lives_in_group", float64(k.Animal.MinGroup), nil)
	}
	return ""
}

// Clash is a clash as text: both animals, the number and its limit, a cure.
type Clash struct {
	A, B    fish.Code // B is empty where it is the tank or its own kind
	State   working.State
	Word    string
	Title   string // who with whom
	Rule    string // what it is about, and at which sizes
	Text    string
	Numbers string // the number that clashed against its limit; empty where it is none
	Now     string // that it is milder at today's sizes
	Cure    string
}

// Clash presents a clash.
func (p Presenter) Clash(c fish.Clash) Clash {
	out := Clash{A: c.A, B: c.B, State: c.Verdict.State(), Word: p.verdictWord(c.Verdict), Title: p.KindName(c.A)}
	if c.B != "" {
		out.Title = p.W.T("page.together.pair", i18n.Args{"A": c.A.Name(), "B": c.B.Name()})
	}
	out.Rule = p.W.T(working.Key("word.kind.rule."+string(c.Rule)), nil)
	if c.Rule == fish.Eaten || c.Rule == fish.Aggression {
		sizes := working.Key("page.together.grown")
		if c.Today {
			sizes = "page.together.today"
		}
		out.Rule += " · " + p.W.T(sizes, nil)
	}
	if c.Finding != nil {
		out.Text = p.sayAbout(*c.Finding)
	}
	if c.Cure != nil {
		out.Cure = p.sayAbout(*c.Cure)
	}
	if c.Now != nil {
		out.Now = p.sayAbout(*c.Now)
	}
	if c.Measured.Known() && c.Limit.Known() && c.Measured != c.Limit {
		out.Numbers = p.W.T("page.together.numbers", i18n.Args{"Number": p.rough(c.Measured, c.Limit), "Limit": p.rough(c.Limit, c.Measured)})
	}
	return out
}

// verdictWord is the word beside a verdict on a stock: steady, wait, no.
func (p Presenter) verdictWord(v fish.Verdict) string {
	return p.W.T(working.Key("word.kind.verdict."+v.String()), nil)
}

// Suggestion presents a kind that fits in place of or beside others.
func (p Presenter) Suggestion(s fish.Suggestion) Kind {
	out := Kind{Code: s.Code, Name: p.KindName(s.Code), State: s.Verdict.State(), Word: p.FitWord(s.Verdict)}
	if a, err := fish.Get(s.Code); err == nil {
		out.Scientific, out.Facts = a.Scientific, []string{p.W.About(a.Length.Value())}
	}
	if s.Finding != nil {
		out.Why = p.Say(*s.Finding)
	}
	return out
}

// SizeOption is a length up to which a person looks for animals.
type SizeOption struct {
	Most  quantity.Length
	Label string
}

// SizeOptions are lengths that are round in the person's own units.
func (p Presenter) SizeOptions() []SizeOption {
	unit, steps := 0.01, []float64{3, 5, 8, 12, 20, 40} // judgement
	if p.W.System() != quantity.Metric {
		unit, steps = 0.0254, []float64{1.5, 2, 3, 5, 8, 16}
	}
	var out []SizeOption
	for _, s := range steps {
		l := quantity.Length(s * unit)
		out = append(out, SizeOption{l, p.W.T("page.kinds.up_to", i18n.Args{"Length": l.Value()})})
	}
	return out
}

// Found says how many kinds of all are listed.
func (p Presenter) Found(some, all int) string {
	return p.W.T("page.kinds.found", i18n.Args{"Some": p.W.Number(float64(some), 6), "All": p.W.N("n.kinds", float64(all), nil)})
}

// sayAbout says a finding with its estimates and recommendations in two figures.
func (p Presenter) sayAbout(f working.Finding) string {
	text := maps.Clone(f.Text)
	if text == nil {
		text = map[string]string{}
	}
	for name, v := range f.Values {
		beside := make([]quantity.Value, 0, len(f.Values))
		for _, o := range f.Values {
			beside = append(beside, o)
		}
		if estimated(v.Kind) {
			text[name] = p.rough(v, beside...)
		}
	}
	f.Text = text
	return p.Say(f)
}

// estimated are the kinds of figures that the catalogue knows to two figures.
func estimated(k quantity.Kind) bool {
	switch k {
	case quantity.KindLength, quantity.KindVolume, quantity.KindMass, quantity.KindTemperature, quantity.KindHardness, quantity.KindRatio:
		return true
	}
	return false
}

// rough writes v in two figures, in three where it would look like another one
// beside it.
func (p Presenter) rough(v quantity.Value, beside ...quantity.Value) string {
	if !estimated(v.Kind) {
		return p.W.Quantity(v)
	}
	words := p.W.About(v)
	for _, o := range beside {
		if o.Kind == v.Kind && o.X != v.X && p.W.About(o) == words {
			return p.W.Quantity(v)
		}
	}
	return words
}

// list joins what is not empty.
func list(words ...string) string {
	var out []string
	for _, w := range words {
		if w != "" {
			out = append(out, w)
		}
	}
	return strings.Join(out, " · ")
}
