package present

import (
	"strings"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/model/working"
)

// purposes turns what a field is for into the customary unit of i18n.
var purposes = map[care.Purpose]i18n.Purpose{care.ForTank: i18n.Tank, care.ForBoard: i18n.Board, care.ForDose: i18n.Dose,
	care.ForLabel: i18n.Label, care.ForFish: i18n.Fish, care.ForRoom: i18n.General, care.ForAny: i18n.General}

// Purpose returns the customary-unit purpose of a field.
func Purpose(f *care.Field) i18n.Purpose {
	switch {
	case f.ID == "tank.wall":
		return i18n.Thickness
	case f.ID == "floor.span", f.Kind == quantity.KindArea: // square metres or feet
		return i18n.Room
	case f.ID == "bag.kh":
		return i18n.Carbonate
	}
	return purposes[f.Purpose]
}

func (p Presenter) groups(c care.Page, refused map[care.FieldID]error) []Group {
	var out []Group
	for _, v := range c.Fields {
		title := p.W.T(working.Key("group."+v.Field.Group), nil)
		if n := len(out); n == 0 || out[n-1].Title != title {
			out = append(out, Group{Title: title})
		}
		g := &out[len(out)-1]
		g.Fields = append(g.Fields, p.Field(v, refused[v.Field.ID]))
	}
	return out
}

// Field presents a field; refused is what is wrong with text still being typed.
func (p Presenter) Field(v care.FieldView, refused error) Field {
	f := v.Field
	out := Field{ID: f.ID, Type: f.Type, Label: p.W.T(f.Label(), nil), Proposed: !v.Given, FromShop: v.Answer.Origin == care.FromProfile, Optional: f.Optional}
	switch f.Type {
	case care.TypeMeasure:
		out.Reading = p.W.Reading(f.Kind, Purpose(f))
		if f.Kind == quantity.KindMoney {
			out.Reading.Unit = p.Region.Currency()
		}
		out.Text = p.fieldText(v, &out)
		out.Unit = p.W.Unit(out.Reading.Unit)
	case care.TypeChoice:
		out.Chosen = v.Answer.Choice
		for _, o := range f.Options {
			out.Options = append(out.Options, Option{o, p.option(f, o)})
		}
		if f.ID == "tank.nominal" {
			out.Options = p.nominals(out.Options)
		}
	case care.TypeWords:
		out.Text = v.Answer.Words
	}
	switch {
	case refused != nil:
		out.Error = p.problem(f, refused)
	case v.Refused != nil:
		out.Error = p.problem(f, v.Refused)
	}
	return out
}

// fieldText is the number in the box. What a person typed stands digit for
// digit in its own unit; a proposal is written in theirs.
func (p Presenter) fieldText(v care.FieldView, out *Field) string {
	m := v.Answer.Measure
	if m.IsZero() {
		return ""
	}
	if v.Given && v.Answer.Origin != care.FromProposal {
		out.Reading.Unit = m.Unit
		return strings.Replace(m.Number, ".", string(p.W.Decimal()), 1)
	}
	val, err := m.Value()
	if err != nil {
		return ""
	}
	u, ok := quantity.UnitOf(out.Reading.Unit)
	if !ok || u.Kind != val.Kind {
		return p.W.Number(val.X, 3)
	}
	sig := 3
	if m.Unit == u.Code { // its own unit: as it was proposed
		return strings.Replace(m.Number, ".", string(p.W.Decimal()), 1)
	}
	return p.W.Number(u.FromBase(val.X), sig)
}

// option names a choice; yes, no and not known are the same words everywhere.
func (p Presenter) option(f *care.Field, o string) string {
	if f.ID == "tank.nominal" {
		return p.nominalLabel(o)
	}
	if k := f.OptionLabel(o); p.W.Has(k) {
		return p.W.T(k, nil)
	}
	switch {
	case o == "yes" || o == "no" || o == "unknown":
		return p.W.T(working.Key("option."+o), nil)
	case strings.HasPrefix(string(f.ID), "plug."):
		return p.W.T(working.Key("option.plug."+o), nil)
	}
	return p.W.T(f.OptionLabel(o), nil)
}

// nominals puts the sizes of the person's own system first.
func (p Presenter) nominals(all []Option) []Option {
	us := p.W.System() == quantity.US
	var mine, others []Option
	for _, o := range all {
		own := o.Code == care.Custom
		for _, n := range tank.Nominals() {
			if n.Code == o.Code {
				own = (n.System == quantity.US) == us
			}
		}
		if own {
			mine = append(mine, o)
		} else {
			others = append(others, o)
		}
	}
	return append(mine, others...)
}

// problem says what is wrong with what stands in a field and what is accepted.
func (p Presenter) problem(f *care.Field, err error) string {
	if r, ok := err.(*working.Refusal); ok && r.Code == "refuse.outside" && f.Type == care.TypeMeasure {
		// The range in the unit of the field, as the person will type it.
		unit := p.W.DefaultUnit(f.Kind, Purpose(f))
		return p.W.T("refuse.outside", i18n.Args{"Low": p.in(r.Accept.Low, unit), "High": p.in(r.Accept.High, unit), "Value": p.in(r.Values["Value"], unit)})
	}
	if r, ok := err.(*working.Refusal); ok && r.Code == "refuse.care.empty" {
		unit := p.W.DefaultUnit(f.Kind, Purpose(f))
		return p.W.T(r.Code, i18n.Args{"Low": p.in(r.Accept.Low, unit), "High": p.in(r.Accept.High, unit)})
	}
	if s, ok := p.W.Problem(err); ok {
		return s
	}
	return err.Error()
}

func (p Presenter) in(v quantity.Value, unit quantity.UnitCode) string {
	if u, ok := quantity.UnitOf(unit); ok && u.Kind == v.Kind {
		return p.W.QuantityIn(v, unit, 3)
	}
	return p.W.Quantity(v)
}

func (p Presenter) kitRow(k care.KitItem, refused map[care.FieldID]error) KitRow {
	row := KitRow{ID: k.ID, Have: k.HaveID, Cost: k.Cost, Name: p.W.StartsHigh(p.W.T(k.Name, nil)), Size: p.Say(k.Size), Why: p.Say(k.Why), Owned: k.Have, State: k.State}
	if k.State != working.Steady {
		row.Word = p.W.State(k.State)
	}
	if f, ok := care.FieldOf(k.Cost); ok {
		v := care.FieldView{Field: f, Given: k.Price.Known()}
		if k.Price.Known() {
			v.Answer = care.Answer{Measure: quantity.Of(k.Price.X, p.Region.Currency(), 8), Origin: care.FromPerson}
		}
		row.Price = p.Field(v, refused[k.Cost])
	}
	return row
}

func dayOf(s string) (time.Time, error) { return time.Parse("2006-01-02", s) }
