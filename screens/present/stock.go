package present

import (
	"math"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// KindName is the name of a kind of the catalogue.
func (p Presenter) KindName(c fish.Code) string { return p.W.T(c.Name(), nil) }

// FishName is what a fish or a group goes by: its own name, or that of its kind.
func (p Presenter) FishName(f keeper.Fish) string {
	if f.Name != "" {
		return f.Name
	}
	if a, err := fish.Get(fish.Code(f.Species)); err == nil {
		return p.KindName(a.Code)
	}
	return p.W.T("page.stock.unnamed", nil)
}

// StockRow is a fish or a group that lives in the tank, as text.
type StockRow struct {
	ID         string
	Name       string
	Kind       string // of the catalogue, where the name is another
	Scientific string
	Code       fish.Code
	Count      string
	Since      string
	Length     string // today's, and the adult one
}

// Stock is what lives in a tank, as text.
type Stock struct {
	Rows  []StockRow
	Total string // how many animals of how many kinds
	Tank  string // what is known of the tank
	// Verdict is whether they get on and how full the tank is; nil for an empty one.
	Verdict *Verdict
}

// Stock presents what lives in a tank.
func (p Presenter) Stock(f keeper.Fit) Stock {
	out := Stock{Tank: p.HomeBrief(f.Home)}
	n, kinds := 0, map[string]bool{}
	for _, l := range f.Stock {
		out.Rows = append(out.Rows, p.stockRow(l))
		n += l.Count
		kinds[l.Species+"/"+string(l.Code())] = true
	}
	out.Total = p.W.N("page.stock.total", float64(n), i18n.Args{"Kinds": p.W.N("page.stock.kinds", float64(len(kinds)), nil)})
	if len(f.Lots) > 0 {
		v := p.FitVerdict(f)
		out.Verdict = &v
	}
	return out
}

// HomeBrief is a tank in a line: its water, temperature, pH and hardness, its age.
func (p Presenter) HomeBrief(h keeper.Home) string {
	var out []string
	if h.Net != nil {
		out = append(out, p.W.Quantity(h.Net.Value()))
	}
	if t := h.Water.Temperature; t != nil {
		out = append(out, p.W.Quantity(t.Value()))
	}
	if x := h.Water.PH; x != nil {
		out = append(out, p.W.T("page.stock.ph", i18n.Args{"PH": p.W.Quantity(x.Value())}))
	}
	if x := h.Water.GH; x != nil {
		out = append(out, p.W.T("page.stock.gh", i18n.Args{"GH": p.W.For(x.Value(), i18n.Mineral)}))
	}
	if h.Age != nil {
		out = append(out, p.W.T("page.stock.age", i18n.Args{"Age": p.W.N("n.days", math.Floor(float64(*h.Age)/86400), nil)}))
	}
	return strings.Join(out, " · ")
}

// FitVerdict is whether a stock gets on and how full its tank is, in a few lines.
func (p Presenter) FitVerdict(f keeper.Fit) Verdict {
	v := Verdict{State: f.Verdict().State(), Title: p.W.T(working.Key("page.stock.verdict."+f.Verdict().String()), nil)}
	for _, c := range f.Together.Clashes {
		if c.Verdict != fish.Steady && c.Finding != nil && len(v.Lines) < verdictLines {
			v.Lines = append(v.Lines, p.Say(*c.Finding))
		}
	}
	v.Lines = append(v.Lines, p.W.T("page.stock.full", i18n.Args{"Share": p.W.Percent(float64(f.Capacity.Use)), "Rule": p.W.T(f.Capacity.Governing, nil)}))
	if f.Unknown > 0 {
		v.Lines = append(v.Lines, p.W.N("page.stock.not_counted", float64(f.Unknown), nil))
	}
	return v
}

// verdictLines is how many clashes stand in the headline; the page of the verdict
// has them all. Judgement.
const verdictLines = 2

func (p Presenter) stockRow(l keeper.Living) StockRow {
	r := StockRow{ID: l.ID, Name: p.FishName(l.Fish), Code: l.Code(), Count: p.W.Quantity(quantity.Count(l.Count).Value())}
	if l.Animal != nil {
		r.Scientific = l.Animal.Scientific
		if kind := p.KindName(l.Animal.Code); kind != r.Name {
			r.Kind = kind
		}
	}
	if l.Since != "" {
		r.Since = p.W.T("page.stock.since", i18n.Args{"Day": p.CivilDay(l.Since)})
	}
	r.Length = p.lengthToday(l)
	return r
}

// lengthToday tells how long one of them is by now and how long it grows.
func (p Presenter) lengthToday(l keeper.Living) string {
	long := func(x quantity.Length) string { return p.W.For(x.Value(), i18n.Fish) }
	switch {
	case l.Today != nil && l.Animal != nil:
		return p.W.T("page.stock.length_today", i18n.Args{"Today": long(*l.Today), "Adult": long(l.Animal.Length)})
	case l.Animal != nil:
		return p.W.T("page.stock.length_adult", i18n.Args{"Adult": long(l.Animal.Length)})
	}
	return ""
}
