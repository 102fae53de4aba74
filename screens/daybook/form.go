package daybook

import (
	"errors"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// asked is one value that a kind of entry asks for.
type asked struct {
	name    string
	label   working.Key
	kind    quantity.Kind
	purpose i18n.Purpose
	species bool // a nitrogen compound: the basis is asked
}

// asks lists, by kind of entry, what is asked; all of it may stay empty.
var asks = map[journal.Kind][]asked{
	journal.Fed: {{journal.NameFeed, "page.day.amount", quantity.KindMass, i18n.Food, false}},
	journal.Changed: {{journal.NameVolume, "page.day.volume", quantity.KindVolume, i18n.Tank, false}, {journal.NameDose, "page.day.dose", quantity.KindVolume, i18n.Dose, false},
		{journal.NameTemperature, "page.day.new_water", quantity.KindTemperature, i18n.General, false}},
	journal.Dosed:       {{journal.NameDose, "page.day.dose", quantity.KindVolume, i18n.Dose, false}},
	journal.FishIn:      {{journal.NameCount, "page.day.fish", quantity.KindCount, i18n.General, false}, {journal.NameLength, "page.day.length", quantity.KindLength, i18n.Fish, false}},
	journal.FishOut:     {{journal.NameCount, "page.day.fish", quantity.KindCount, i18n.General, false}},
	journal.PowerCut:    {{journal.NameDuration, "page.day.lasted", quantity.KindTime, i18n.General, false}},
	journal.Temperature: {{journal.NameTemperature, "page.fill.reading", quantity.KindTemperature, i18n.General, false}},
	journal.Tested: {{journal.NameAmmonia, "page.day.ammonia", quantity.KindConcentration, i18n.General, true},
		{journal.NameNitrite, "page.day.nitrite", quantity.KindConcentration, i18n.General, true},
		{journal.NameNitrate, "page.day.nitrate", quantity.KindConcentration, i18n.General, true},
		{journal.NamePH, "page.day.ph", quantity.KindPH, i18n.General, false}, {journal.NameKH, "page.day.kh", quantity.KindHardness, i18n.Carbonate, false},
		{journal.NameTemperature, "page.day.temperature", quantity.KindTemperature, i18n.General, false}},
}

// form is the boxes of one entry.
type form struct {
	id       string // of the entry; empty until it is written
	panel    *parts.Column
	pictures *nav.Pictured
	deps     nav.Deps
	from     journal.Entry
	asks     []asked
	boxes    map[string]*parts.Field
	basis    string
	choice   *parts.Choice
	when     *parts.Field
	note     *parts.Field
	column   *parts.Column
	onEnter  func()
}

const whenLayout = "2006-01-02 15:04" // ISO 8601, with a space for the eye

func newForm(d nav.Deps, e journal.Entry, now time.Time) *form {
	f := &form{deps: d, from: e, asks: asks[e.Kind], boxes: map[string]*parts.Field{}, basis: string(quantity.AsN)}
	w := d.Present.W
	box := func(id, label, text, unit string) *parts.Field {
		b := parts.NewField(parts.FieldSpec{ID: id, Label: label, Text: text, Unit: unit})
		b.OnEnter = func() {
			if f.onEnter != nil {
				f.onEnter()
			}
		}
		return b
	}
	var rows, row []fyne.CanvasObject
	species := false
	for _, a := range f.asks {
		text, unit := "", w.Unit(w.DefaultUnit(a.kind, a.purpose))
		if r, ok := e.Get(a.name); ok && r.Qualifier == journal.Plain {
			text, unit = strings.Replace(r.Measure.Number, ".", string(w.Decimal()), 1), w.Unit(r.Measure.Unit)
			if r.Measure.Basis != quantity.BasisNone {
				f.basis = string(r.Measure.Basis)
			}
		}
		species = species || a.species
		f.boxes[a.name] = box(a.name, w.T(a.label, nil), text, unit)
		if row = append(row, f.boxes[a.name]); len(row) == 3 {
			rows, row = append(rows, parts.NewRow(row...)), nil
		}
	}
	if species {
		f.choice = parts.NewChoice(f.basisSpec(), func(code string) { f.basis = code; f.choice.Set(f.basisSpec()) })
		row = append(row, f.choice)
	}
	if len(row) > 0 {
		rows = append(rows, parts.NewRow(row...))
	}
	at := now.Format(whenLayout)
	if t, err := e.At.Parse(); err == nil {
		at = t.Format(whenLayout)
	}
	f.when = box("when", w.T("page.day.when", nil), at, "")
	f.note = box("note", w.T("page.day.words", nil), e.Note, "")
	rows = append(rows, f.note, f.when)
	f.column = parts.NewColumn(8, rows...)
	return f
}

func (f *form) basisSpec() parts.ChoiceSpec {
	w := f.deps.Present.W
	return parts.ChoiceSpec{ID: "basis", Label: w.T("page.fill.basis", nil), Chosen: f.basis, Options: []parts.Option{
		{Code: string(quantity.AsN), Label: w.T("page.fill.basis_n", nil)}, {Code: string(quantity.AsIon), Label: w.T("page.fill.basis_ion", nil)}}}
}

// focus goes to the first box.
func (f *form) focus(c fyne.Canvas) {
	if c == nil {
		return
	}
	if len(f.asks) > 0 {
		c.Focus(f.boxes[f.asks[0].name].Focusable())
		return
	}
	c.Focus(f.note.Focusable())
}

// entry reads the boxes; what cannot be read is said below its box and nothing
// is given back.
func (f *form) entry() (journal.Entry, bool) {
	w, e, ok := f.deps.Present.W, f.from, true
	e.Readings = nil
	say := func(b *parts.Field, words string) {
		s := b.Spec()
		s.Error = words
		b.Set(s)
		ok = ok && words == ""
	}
	kept := map[string]bool{}
	for _, a := range f.asks {
		b := f.boxes[a.name]
		kept[a.name] = true
		old, had := f.from.Get(a.name)
		if strings.TrimSpace(b.Text()) == "" {
			if had && old.Qualifier != journal.Plain { // 'not detected' is not a number to be typed over by nothing
				e.Readings = append(e.Readings, old)
			}
			say(b, "")
			continue
		}
		reading := w.Reading(a.kind, a.purpose)
		if had && old.Qualifier == journal.Plain {
			reading.Unit = old.Measure.Unit
		}
		m, err := quantity.Parse(b.Text(), a.kind, reading)
		if err != nil {
			words, _ := w.Problem(err)
			say(b, words)
			continue
		}
		if a.species {
			m.Basis = quantity.Basis(f.basis)
		}
		r := journal.Reading{Name: a.name, Measure: m}
		words := ""
		if err := r.Check(); err != nil {
			words, _ = w.Problem(err)
		}
		say(b, words)
		e.Readings = append(e.Readings, r)
	}
	for _, r := range f.from.Readings { // what this form does not ask stays
		if !kept[r.Name] {
			e.Readings = append(e.Readings, r)
		}
	}
	e.Note = strings.TrimSpace(f.note.Text())
	t, err := time.Parse(whenLayout, strings.TrimSpace(strings.Replace(f.when.Text(), "T", " ", 1)))
	if err != nil {
		say(f.when, w.T("refuse.journal.time", nil))
		return e, false
	}
	say(f.when, "")
	e.At = journal.CivilOf(t)
	return e, ok
}

// refuse says at its box what the keeper did not take.
func (f *form) refuse(err error) bool {
	var r *working.Refusal
	if !errors.As(err, &r) {
		return false
	}
	b := f.note
	switch {
	case r.Field == "at":
		b = f.when
	case f.boxes[r.Field] != nil:
		b = f.boxes[r.Field]
	}
	s := b.Spec()
	s.Error = f.deps.Present.W.Refusal(r)
	b.Set(s)
	return true
}
