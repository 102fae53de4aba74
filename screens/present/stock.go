package present

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// KindName is the name of a kind of the catalogue. One that a later version brought,
// or that was taken out since, goes by its code, which is its scientific name.
func (p Presenter) KindName(c fish.Code) string {
	if p.W.Has(c.Name()) {
		return p.W.T(c.Name(), nil)
	}
	first, size := utf8.DecodeRuneInString(string(c))
	if size == 0 {
		return ""
	}
	return string(unicode.ToUpper(first)) + strings.ReplaceAll(string(c)[size:], "-", " ")
}

// KindNames are the names by which people may look for a kind.
func (p Presenter) KindNames(c fish.Code) []string { return []string{p.KindName(c)} }

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
	Scientific string // with the kind's name before it where the group goes by another
	Code       fish.Code
	Facts      []string // how many
	Lines      []string // length today and adult; since when, of them males
	State      working.State
	Word       string // of the state; empty for a kind that is not known
	// Today and Adult are lengths in millimetres to draw it by; 0 is not known.
	Today, Adult float64
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
	worst := map[fish.Code]fish.Verdict{}
	for _, c := range f.Together.Clashes {
		worst[c.A] = max(worst[c.A], c.Verdict)
		if c.B != "" {
			worst[c.B] = max(worst[c.B], c.Verdict)
		}
	}
	for _, l := range f.Stock {
		r := p.stockRow(l)
		if l.Animal != nil && f.Judged {
			v := worst[l.Animal.Code]
			r.State, r.Word = v.State(), p.W.T(working.Key("page.stock.state."+v.String()), nil)
		}
		out.Rows = append(out.Rows, r)
		n += l.Count
		kind := l.Species
		if kind == "" {
			kind = "=" + strings.ToLower(l.Name)
		}
		kinds[kind] = true
	}
	out.Total = p.W.N("page.stock.total", float64(n), i18n.Args{"Kinds": p.W.N("page.stock.kinds", float64(len(kinds)), nil)})
	if len(f.Lots) > 0 && f.Judged {
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
		out = append(out, p.W.Quantity(x.Value()))
	}
	if x := h.Water.GH; x != nil {
		out = append(out, p.W.T("page.stock.gh", i18n.Args{"GH": p.W.For(x.Value(), i18n.Mineral)}))
	}
	if h.Age != nil {
		out = append(out, p.W.T("page.stock.age", i18n.Args{"Age": p.W.N("n.days", math.Floor(float64(*h.Age)/86400), nil)}))
	}
	return strings.Join(out, " · ")
}

// verdictLines is how many clashes stand in the headline; the page of the verdict
// has them all. Judgement.
const verdictLines = 2

// FitVerdict is whether a stock gets on and how full its tank is, in a few lines.
func (p Presenter) FitVerdict(f keeper.Fit) Verdict {
	v := Verdict{State: f.Verdict().State(), Title: p.W.T(working.Key("page.stock.verdict."+f.Verdict().String()), nil)}
	for _, c := range f.Together.Clashes {
		if c.Verdict != fish.Steady && c.Finding != nil && len(v.Lines) < verdictLines {
			v.Lines = append(v.Lines, p.Say(*c.Finding))
		}
	}
	v.Lines = append(v.Lines, p.W.T("page.stock.full", i18n.Args{"Share": p.W.Percent(float64(f.Capacity.Use)), "Rule": f.Capacity.Governing}))
	if f.Unknown > 0 {
		v.Lines = append(v.Lines, p.W.N("page.stock.not_counted", float64(f.Unknown), nil))
	}
	return v
}

func (p Presenter) stockRow(l keeper.Living) StockRow {
	r := StockRow{ID: l.ID, Name: p.FishName(l.Fish), Code: l.Code(), Facts: []string{p.W.Number(float64(l.Count), 5)}}
	if l.Animal != nil {
		r.Scientific, r.Adult = l.Animal.Scientific, float64(l.Animal.Length)*1000
		if kind := p.KindName(l.Animal.Code); kind != r.Name {
			r.Scientific = p.W.Comma(kind, r.Scientific)
		}
	}
	if l.Today != nil {
		r.Today = float64(*l.Today) * 1000
	}
	if s := p.LengthToday(l); s != "" {
		r.Lines = append(r.Lines, s)
	}
	if since := p.fishSince(l.Fish); len(since) > 0 {
		r.Lines = append(r.Lines, strings.Join(since, " · "))
	}
	return r
}

// fishSince is since when they are here and how many are males.
func (p Presenter) fishSince(f keeper.Fish) []string {
	var out []string
	if f.Since != "" {
		out = append(out, p.W.T("page.stock.since", i18n.Args{"Day": p.CivilDay(f.Since)}))
	}
	if f.Males != nil {
		out = append(out, p.W.N("page.stock.males_of", float64(*f.Males), nil))
	}
	return out
}

func (p Presenter) long(x quantity.Length) string { return p.W.For(x.Value(), i18n.Fish) }

// about is an estimated length: two figures are as sharp as it ever is.
func (p Presenter) about(x quantity.Length) string {
	return p.W.QuantityIn(x.Value(), p.W.DefaultUnit(quantity.KindLength, i18n.Fish), 2)
}

// LengthToday tells how long one of them is by now and how long it grows; empty
// where neither is known.
func (p Presenter) LengthToday(l keeper.Living) string {
	switch {
	case l.Today != nil && l.Animal != nil:
		return p.W.T("page.stock.length_today", i18n.Args{"Today": p.about(*l.Today), "Adult": p.long(l.Animal.Length)})
	case l.Animal != nil:
		return p.W.T("page.stock.length_adult", i18n.Args{"Adult": p.long(l.Animal.Length)})
	}
	return ""
}

// FishFacts are the lines of one fish or group.
func (p Presenter) FishFacts(l keeper.Living, c keeper.GrowthCurve) []Line {
	var out []Line
	line := func(name working.Key, value, note string) {
		out = append(out, Line{Name: p.W.T(name, nil), Value: value, Note: note})
	}
	line("page.stock.how_many", p.W.Number(float64(l.Count), 5), strings.Join(p.fishSince(l.Fish), " · "))
	if l.Today != nil {
		note := p.W.T("page.stock.between", i18n.Args{"Low": p.about(*l.Low), "High": p.about(*l.High)})
		line("page.stock.today", p.about(*l.Today), note)
	}
	if !l.Length.IsZero() {
		line("page.stock.measured", p.W.Typed(l.Length), p.CivilDay(l.LengthAt))
	}
	if l.Animal != nil {
		note := ""
		if !c.Grown.IsZero() {
			note = p.W.T("page.stock.grown", i18n.Args{"Month": p.W.MonthHeading(c.Grown)})
		}
		line("page.stock.adult", p.long(l.Animal.Length), note)
	}
	if l.Source != "" {
		line("page.stock.source", l.Source, l.Price)
	} else if l.Price != "" {
		line("page.stock.price", l.Price, "")
	}
	return out
}

// EarlyLoss says who died or was not seen again soon after animals came in.
func (p Presenter) EarlyLoss(l keeper.EarlyLoss) (title, text string) {
	args := i18n.Args{"Name": p.FishName(l.Fish), "Day": p.CivilDay(l.At)}
	return p.W.N("page.stock.loss", float64(l.Count), args), p.W.N("page.stock.loss_text", float64(l.After), nil)
}

// CameIn says what an entry tells of fish that came in.
func (p Presenter) CameIn(e journal.Entry) string {
	row := p.Entry(e)
	if row.Text == "" {
		return row.Kind
	}
	return row.Text
}

// FishPast is a row of what the daybook tells of a fish: by how much the number
// changed is at the right.
func (p Presenter) FishPast(c keeper.FishChange) Entry {
	e := p.Entry(c.Entry)
	e.Time = p.CivilDay(c.Entry.At)
	if c.Change != 0 {
		e.Note = p.W.Number(float64(c.Change), 5)
		if c.Change > 0 {
			e.Note = "+" + e.Note
		}
	}
	return e
}
