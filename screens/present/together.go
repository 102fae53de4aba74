package present

import (
	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
)

// GetOn is whether all in a tank get on and have room, as text.
type GetOn struct {
	Head    Verdict
	Stock   []StockLine
	Clashes []Clash // worth doing something about
	Hints   []Clash // worth knowing
	Instead []Instead
	Room    Verdict
	Bars    []Bar // the governing first
	Cross   Bar   // the familiar length rule
	CrossIs string
	Fails   string // where the length rule fails
	Levels  []Bar
	Trails  []*working.Trail // of the bars, in their order
}

// StockLine is one kind of a stock.
type StockLine struct {
	Code  fish.Code
	Name  string
	Count string
	Sizes string // today's and adult
}

// Instead is what would fit in place of a kind.
type Instead struct {
	Of    string
	Kinds []Kind
}

// GetOn presents whether all in a tank get on.
func (p Presenter) GetOn(g keeper.GetOn) GetOn {
	w := p.W
	var out GetOn
	v := g.Verdict()
	out.Head = Verdict{State: v.State(), Word: p.verdictWord(v), Title: p.headline(g)}
	if len(g.Lots) > 0 { // the two verdicts apart: on the company, and on the room
		for _, f := range append(g.Together.Findings[:1:1], g.Capacity.Findings[0]) {
			out.Head.Lines = append(out.Head.Lines, p.Say(f))
		}
	}
	if t := g.Together; t.Today != t.Verdict {
		out.Head.Lines = append(out.Head.Lines, w.T("page.together.by_size", i18n.Args{"Now": p.verdictWord(t.Today), "Grown": p.verdictWord(t.Verdict)}))
	}
	if g.Unknown > 0 {
		out.Head.Lines = append(out.Head.Lines, w.N("n.unknown_animals", float64(g.Unknown), nil))
	}
	for _, l := range g.Lots {
		out.Stock = append(out.Stock, p.stockLine(l))
	}
	for _, c := range g.Together.Clashes {
		if c.Verdict == fish.Steady {
			out.Hints = append(out.Hints, p.Clash(c))
		} else {
			out.Clashes = append(out.Clashes, p.Clash(c))
		}
	}
	for _, i := range g.Instead {
		x := Instead{Of: w.T("page.together.instead_of", i18n.Args{"A": i.Of.Name()})}
		for _, s := range i.Kinds {
			x.Kinds = append(x.Kinds, p.Suggestion(s))
		}
		out.Instead = append(out.Instead, x)
	}
	p.capacity(g.Capacity, &out)
	return out
}

// headline is the verdict in a few words with what it comes from.
func (p Presenter) headline(g keeper.GetOn) string {
	key := working.Key("page.together.head_steady")
	switch {
	case len(g.Lots) == 0:
		key = "page.together.head_empty"
	case g.Together.Verdict == fish.No:
		key = "page.together.head_no"
	case g.Capacity.Verdict == fish.No:
		key = "page.together.head_full"
	case g.Together.Verdict == fish.Wait:
		key = "page.together.head_wait"
	case g.Capacity.Verdict == fish.Wait:
		key = "page.together.head_tight"
	}
	return p.W.T(key, nil)
}

func (p Presenter) stockLine(l fish.Lot) StockLine {
	w := p.W
	s := StockLine{Code: l.Code, Name: p.KindName(l.Code), Count: w.Number(float64(l.Count), 6)}
	a, err := fish.Get(l.Code)
	if err != nil {
		return s
	}
	grown := w.About(a.Length.Value())
	switch {
	case l.Planned:
		s.Sizes = w.T("page.together.planned", i18n.Args{"Grown": grown})
	case l.Length != nil:
		s.Sizes = w.T("page.together.sizes", i18n.Args{"Now": w.About(l.Length.Value()), "Grown": grown})
	default:
		s.Sizes = w.T("page.together.grown_size", i18n.Args{"Grown": grown})
	}
	return s
}

// capacity presents how much of what the tank carries is used.
func (p Presenter) capacity(c fish.Capacity, out *GetOn) {
	w := p.W
	out.Room = Verdict{State: c.Verdict.State(), Word: w.State(c.Verdict.State())}
	for i, f := range c.Findings {
		if i == 0 {
			out.Room.Title = p.Say(f)
		} else {
			out.Room.Lines = append(out.Room.Lines, p.Say(f))
		}
	}
	for _, k := range c.Checks {
		out.Bars = append(out.Bars, p.Bar(k))
		out.Trails = append(out.Trails, k.Trail)
	}
	out.Cross = p.Bar(c.Cross)
	out.Trails = append(out.Trails, c.Cross.Trail)
	out.CrossIs = w.T("page.together.cross", nil)
	if c.Cross.Finding != nil {
		out.Fails = p.sayAbout(*c.Cross.Finding)
	}
	for _, l := range c.Levels {
		out.Levels = append(out.Levels, Bar{Name: p.ZoneName(l.Zone), Percent: w.Percent(float64(l.Share)), Use: float64(l.Share)})
	}
}
