package present

import (
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
)

// KindPage is one animal with all that its page shows.
type KindPage struct {
	Code       fish.Code
	Name       string
	Scientific string
	Group      string
	Old        string // old and misused scientific names
	Trade      string // further names of the trade in the person's language
	// Fit is whether it fits the tank, nil without one; Refused says that the tank is
	// too small for it, not only tight.
	Fit     *Verdict
	Refused bool
	Law     string // that the law is to be checked; empty where it is not
	Clashes []Clash
	Room    *Number // how many more fit
	Figures []Line  // each with its sources and how sure it is
	Needs   []string
	Company []Kind
}

// KindPage presents a kind.
func (p Presenter) KindPage(v keeper.KindView) KindPage {
	w, a := p.W, v.Animal
	out := KindPage{Code: a.Code, Name: p.KindName(a.Code), Scientific: a.Scientific, Group: p.GroupName(a.Group)}
	out.names(p, a)
	for _, c := range v.Clashes {
		// The law stands above; a tank too small is what refuses it.
		small := c.Rule == fish.TankSize && c.Verdict == fish.No
		out.Refused = out.Refused || small
		if c.Rule == fish.Law || small || c.Verdict == fish.Steady {
			continue
		}
		out.Clashes = append(out.Clashes, p.Clash(c))
	}
	if a.Has(fish.LawCheck) {
		out.Law = p.Say(working.Find(working.Wait, "find.fish.law").Word("A", a.Code.Name()).Word("Law", fish.LawOf(a.Code)))
	}
	if v.Fit != nil {
		out.Fit = &Verdict{State: v.Fit.Verdict.State(), Word: p.FitWord(v.Fit.Verdict)}
		out.Fit.Title = w.T("page.kind.fit", i18n.Args{"Word": out.Fit.Word, "Group": w.N("n.animals", float64(v.Fit.Count), nil)})
		if why := p.fitWhy(v.Kind); why != "" {
			out.Fit.Lines = append(out.Fit.Lines, why)
		}
		if v.Fit.Clash != nil && v.Fit.Clash.Cure != nil {
			out.Fit.Lines = append(out.Fit.Lines, p.sayAbout(*v.Fit.Clash.Cure))
		}
		out.Room = p.roomNumber(v)
	}
	out.Figures = p.figures(a)
	out.Needs = p.needs(a)
	for _, s := range v.Company {
		out.Company = append(out.Company, p.Suggestion(s))
	}
	return out
}

// names puts the other names of an animal together. Names of the trade that are
// kept for searching are English; they stand on an English page alone.
func (out *KindPage) names(p Presenter, a *fish.Animal) {
	old := a.OldNames()
	out.Old = strings.Join(old, ", ")
	if p.W.Base() != "en" {
		return
	}
	var trade []string
	for _, n := range a.TradeNames() {
		if !strings.EqualFold(n, out.Name) {
			trade = append(trade, n)
		}
	}
	out.Trade = strings.Join(trade, ", ")
}

// roomNumber is how many more fit, with the rule that says so.
func (p Presenter) roomNumber(v keeper.KindView) *Number {
	r := v.Room
	n := &Number{Name: p.W.T("page.kind.room", nil), Value: p.W.Number(float64(r.Most), 6), State: v.Fit.Crowd.State()}
	if r.Most >= manyMore {
		n.Value = p.W.T("page.kinds.much_room", nil)
	}
	n.Beside = p.W.T("page.kind.governs", i18n.Args{"Rule": r.Governing, "Easy": p.W.Number(float64(min(r.Comfortable, r.Most)), 6)})
	switch {
	case v.Fit.Crowd == fish.No:
		n.Word = p.W.T("page.kind.too_few", i18n.Args{"Group": p.W.N("n.animals", float64(v.Fit.Count), nil)})
	case v.Fit.Crowd == fish.Wait:
		n.Word = p.W.State(n.State)
	}
	return n
}

// figures are every figure of an animal with where it comes from.
func (p Presenter) figures(a *fish.Animal) []Line {
	w := p.W
	trade := fish.From{Sources: []working.SourceID{working.Trade}, Sure: fish.SurePractice}
	line := func(name working.Key, value string, from fish.From) Line {
		return Line{Name: w.T(name, nil), Value: value, Note: p.From(from)}
	}
	mass := ""
	if m, t, err := fish.WeightOf(a.Code, a.Length); err == nil {
		mass = w.T("page.kind.about_span", i18n.Args{"Value": w.About(m.Value()), "Low": w.About(t.Spread.Low), "High": w.About(t.Spread.High)})
	}
	rivals := w.T(working.Key("word.kind.rivals."+string(a.Rivalry)), nil)
	return []Line{
		line("page.kind.length", w.About(a.Length.Value()), a.LengthFrom),
		line("page.kind.mass", mass, a.MassFrom),
		line("page.kind.temperature", w.T("page.kind.span", i18n.Args{"Low": w.About(a.TempLow.Value()), "High": w.About(a.TempHigh.Value())}), a.TempFrom),
		line("page.kind.ph", w.Range(a.PHLow.Value(), a.PHHigh.Value()), a.PHFrom),
		line("page.kind.gh", w.T("page.kind.span", i18n.Args{"Low": w.For(a.GHLow.Value(), i18n.Mineral), "High": w.For(a.GHHigh.Value(), i18n.Mineral)}), a.GHFrom),
		line("page.kind.tank", w.About(a.LeastTank.Value()), trade),
		line("page.kind.group", w.N("n.animals", float64(a.MinGroup), nil), trade),
		line("page.kind.zone", p.ZoneName(a.Zone), trade),
		line("page.kind.temper", p.TemperName(a.Temper), trade),
		line("page.kind.rivals", rivals, trade),
		line("page.kind.diet", p.DietName(a.Diet), trade),
		line("page.kind.mouth", w.T(working.Key("word.kind.mouth."+string(a.Mouth)), nil), trade),
		line("page.kind.hardy", w.T(working.Key("word.kind.hardy."+hardy(a.Hardiness)), nil), trade),
	}
}

// hardy names a hardiness of 1 to 5.
func hardy(n int) string {
	return [...]string{"one", "two", "three", "four", "five"}[max(1, min(n, 5))-1]
}

// From says where a figure comes from and how sure it is.
func (p Presenter) From(f fish.From) string {
	sure := p.W.T(working.Key("word.kind.sure."+string(f.Sure)), nil)
	var cites []string
	for _, id := range f.Sources {
		if s, ok := working.LookUp(id); ok && id != working.Trade && id != working.Ours {
			cites = append(cites, s.Cite)
		}
	}
	return list(append([]string{sure}, cites...)...)
}

// needs are the sentences on how an animal is to be kept, the gravest first.
func (p Presenter) needs(a *fish.Animal) []string {
	var out []string
	for _, t := range fish.Traits() {
		if a.Has(t) && t != fish.LawCheck {
			out = append(out, p.TraitText(t))
		}
	}
	if a.NipsFins {
		out = append(out, p.W.T("page.kind.nips", nil))
	}
	if a.LongFins {
		out = append(out, p.W.T("page.kind.long_fins", nil))
	}
	if a.Breeds {
		out = append(out, p.W.T("page.kind.breeds", nil))
	}
	return out
}
