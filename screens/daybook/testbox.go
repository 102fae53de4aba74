package daybook

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
)

// testBox is one line of a water test: the value, what the card shows at a
// choice (its colours, not detected, beyond the card), and which kit it was.
type testBox struct {
	form      *form
	ask       asked
	offered   keeper.Asked
	field     *parts.Field
	card      *parts.Choice
	source    *parts.Choice // nil where there is nothing to choose
	kit       *journal.TestKit
	unit      quantity.UnitCode
	basis     quantity.Basis
	qualifier journal.Qualifier
	was       journal.Reading // of the entry, where it has one
	row       *parts.Row
	headed    bool // the first line of its part of the form
}

// testRows are the lines of what the person measures, and of the rest for 'More'.
func (f *form) testRows() (main, more []fyne.CanvasObject, filled bool) {
	for _, o := range f.offered() {
		a, ok := tests[o.Name]
		if !ok {
			continue
		}
		_, has := f.from.Get(o.Name)
		used := o.Used || has
		b := newTestBox(f, a, o, used && len(main) == 0 || !used && len(more) == 0)
		f.tests = append(f.tests, b)
		f.boxes[o.Name] = b.field
		if used {
			main = append(main, b.row)
			if f.first == nil {
				f.first = b.field.Focusable()
			}
			continue
		}
		more = append(more, b.row)
		f.rare = append(f.rare, b.field)
	}
	kits := parts.NewButton(parts.ButtonSpec{ID: "kits", Label: f.t("page.kits.heading"), Kind: parts.Quiet}, func() { showKits(f.deps, f.rekit) })
	return main, append(more, parts.NewFlow(kits)), false
}

func newTestBox(f *form, a asked, o keeper.Asked, headed bool) *testBox {
	w := f.deps.Present.W
	b := &testBox{headed: headed, form: f, ask: a, offered: o, kit: o.Kit, unit: w.DefaultUnit(a.kind, a.purpose)}
	if journal.HasBasis(a.name) {
		b.basis = quantity.AsN
		if o.Last.Measure.Basis != "" {
			b.basis = o.Last.Measure.Basis
		}
	}
	text := ""
	if r, ok := f.from.Get(a.name); ok {
		b.was = r
		b.kit = b.kitOf(r.Kit)
		b.qualifier, b.basis = r.Qualifier, r.Measure.Basis
		if r.Measure.Unit != "" {
			b.unit = r.Measure.Unit
		}
		if r.Qualifier == journal.Plain {
			text = strings.Replace(r.Measure.Number, ".", string(w.Decimal()), 1)
		}
	} else {
		b.fromKit()
	}
	b.field = parts.NewField(parts.FieldSpec{ID: a.name, Label: f.t(a.label), Text: text, Unit: w.Unit(b.unit)})
	b.field.OnEnter = f.enter
	b.field.OnChanged = func(string) {
		if b.qualifier != journal.Plain && strings.TrimSpace(b.field.Text()) != "" {
			b.qualifier = journal.Plain // a number was seen after all
		}
		if b.chosen() != b.card.Spec().Chosen || b.hint() != b.field.Spec().Hint {
			b.show()
		}
		f.changed()
	}
	b.card = parts.NewChoice(parts.ChoiceSpec{ID: "card-" + a.name}, b.pick)
	b.source = parts.NewChoice(parts.ChoiceSpec{ID: "kit-" + a.name}, b.take)
	b.row = parts.NewRow(b.field, b.card, b.source)
	b.show()
	return b
}

func (b *testBox) kitOf(id string) *journal.TestKit {
	for i := range b.offered.Kits {
		if b.offered.Kits[i].ID == id && id != "" {
			return &b.offered.Kits[i]
		}
	}
	return nil
}

// fromKit takes unit and basis from the kit.
func (b *testBox) fromKit() {
	if b.kit != nil {
		b.unit, b.basis = b.kit.Unit, b.kit.Basis
	}
}

// Codes of the card's choice that are no colours, and of the kit's that are no kits.
const (
	cardNumber = "" // a number is typed
	noKitN     = "-n"
	noKitIon   = "-ion"
	noKit      = "-"
)

// chosen is what the card's choice shows: the qualifier, or the colour that is typed.
func (b *testBox) chosen() string {
	if b.qualifier == journal.Plain && b.kit != nil {
		text := strings.Replace(strings.TrimSpace(b.field.Text()), string(b.form.deps.Present.W.Decimal()), ".", 1)
		if slices.Contains(b.kit.Steps, text) {
			return text
		}
	}
	return string(b.qualifier)
}

// hint says how fine the kit is: the smallest step of one that has steps all alike, and
// between which values the truth lies for one with a card of colours.
func (b *testBox) hint() string {
	w := b.form.deps.Present.W
	switch {
	case b.ask.name == journal.NameTDS: // conductivity is taken too, by a stated factor
		return w.T("page.entry.solids", i18n.Args{"Factor": w.Number(float64(b.form.factor), 2)})
	case b.kit == nil:
		return ""
	case b.kit.HasCard():
		r, has, wrong := b.read()
		if !has || wrong != "" || r.Qualifier != journal.Plain || r.Measure.Basis != b.kit.Basis {
			return ""
		}
		v, err := r.Measure.Value()
		below, above, ok := b.kit.Room(v)
		if err != nil || !ok {
			return ""
		}
		low, high := v, v
		low.X, high.X = v.X-below.X, v.X+above.X
		return w.T("page.photo.between", i18n.Args{"Value": w.Measure(r.Measure), "Range": w.Range(low, high)})
	case b.kit.Resolution != "":
		return w.T("page.entry.steps_of", i18n.Args{"Step": w.Measure(quantity.Measure{Number: b.kit.Resolution, Unit: b.kit.Unit})})
	}
	return ""
}

// show sets the line as the kit and the qualifier ask for.
func (b *testBox) show() {
	w := b.form.deps.Present.W
	card := parts.ChoiceSpec{ID: "card-" + b.ask.name, Label: b.head("page.entry.card"), Placeholder: w.T("page.entry.card_number", nil), Chosen: b.chosen()}
	card.Options = []parts.Option{{Code: cardNumber, Label: w.T("page.entry.card_number", nil)}}
	if b.ask.kind != quantity.KindPH && b.ask.kind != quantity.KindTemperature {
		card.Options = append(card.Options, parts.Option{Code: string(journal.NotDetected), Label: w.T("page.entry.not_detected", nil)})
	}
	card.Options = append(card.Options, parts.Option{Code: string(journal.OverRange), Label: w.T("page.entry.over_range", nil)})
	s := b.field.Spec()
	s.Unit, s.Placeholder, s.Hint = w.Unit(b.unit), "", ""
	if b.kit != nil {
		for _, c := range b.kit.Steps {
			card.Options = append(card.Options, parts.Option{Code: c, Label: w.Measure(quantity.Measure{Number: c, Unit: b.kit.Unit})})
		}
	}
	s.Hint = b.hint()
	if b.qualifier != journal.Plain { // no number, so no unit after the words
		s.Placeholder, s.Unit = w.T(qualifierWords[b.qualifier], nil), ""
	}
	s.Text = b.field.Text()
	b.field.Set(s)
	b.card.Set(card)
	source := parts.ChoiceSpec{ID: "kit-" + b.ask.name, Label: b.head("page.entry.kit"), Chosen: b.sourceCode()}
	for _, k := range b.offered.Kits {
		source.Options = append(source.Options, parts.Option{Code: k.ID, Label: k.Name})
	}
	if journal.HasBasis(b.ask.name) {
		source.Options = append(source.Options, parts.Option{Code: noKitN, Label: w.T("page.fill.basis_n", nil)}, parts.Option{Code: noKitIon, Label: w.T("page.fill.basis_ion", nil)})
	} else {
		source.Options = append(source.Options, parts.Option{Code: noKit, Label: w.T("page.entry.no_kit", nil)})
	}
	b.source.Set(source)
}

// head is the heading of a column of choices: over its first line only.
func (b *testBox) head(label working.Key) string {
	if !b.headed {
		return ""
	}
	return b.form.t(label)
}

func (b *testBox) sourceCode() string {
	switch {
	case b.kit != nil:
		return b.kit.ID
	case b.basis == quantity.AsN:
		return noKitN
	case b.basis == quantity.AsIon:
		return noKitIon
	}
	return noKit
}

// pick takes what the card shows.
func (b *testBox) pick(code string) {
	w := b.form.deps.Present.W
	switch q := journal.Qualifier(code); q {
	case journal.NotDetected, journal.OverRange:
		b.qualifier = q
		b.field.Type("")
	case journal.Plain:
		b.qualifier = q
	default: // a colour
		b.qualifier = journal.Plain
		if b.kit != nil {
			b.unit = b.kit.Unit
		}
		b.field.Type(strings.Replace(code, ".", string(w.Decimal()), 1))
	}
	b.show()
	b.form.changed()
}

// take changes the kit, with its unit and basis.
func (b *testBox) take(code string) {
	w := b.form.deps.Present.W
	b.kit = b.kitOf(code)
	b.was = journal.Reading{}
	switch code {
	case noKitN:
		b.basis = quantity.AsN
	case noKitIon:
		b.basis = quantity.AsIon
	}
	if b.kit == nil {
		b.unit = w.DefaultUnit(b.ask.kind, b.ask.purpose)
	}
	b.fromKit()
	b.show()
	b.form.changed()
}

// read is the value as it now stands; words say what is wrong with it.
func (b *testBox) read() (r journal.Reading, has bool, words string) {
	w := b.form.deps.Present.W
	r = journal.Reading{Name: b.ask.name, Qualifier: b.qualifier, Measure: quantity.Measure{Unit: b.unit, Basis: b.basis}}
	r.Kit = b.was.Kit // a kit that is deleted stays the one that showed it
	if b.kit != nil {
		r.Kit = b.kit.ID
	}
	text := strings.TrimSpace(b.field.Text())
	switch {
	case b.qualifier == journal.OverRange:
		if b.kit != nil {
			if last, ok := b.kit.Last(); ok {
				r.Measure = last
			}
		}
		fallthrough
	case b.qualifier == journal.NotDetected:
		if b.was.Qualifier == b.qualifier && b.was.Name == r.Name {
			r.Measure = b.was.Measure // as it was written
		}
		return r, true, ""
	case text == "":
		return r, false, ""
	}
	m, err := b.form.parse(text, b.ask, b.unit)
	if err != nil {
		words, _ = w.Problem(err)
		return r, false, words
	}
	m.Basis = b.basis
	r.Measure = m
	if err := r.Check(); err != nil {
		words, _ = w.Problem(err)
	}
	return r, true, words
}

// rekit takes kits that were added or changed into the lines.
func (f *form) rekit() {
	byName := map[string]keeper.Asked{}
	for _, o := range f.offered() {
		byName[o.Name] = o
	}
	for _, b := range f.tests {
		b.offered.Kits = byName[b.ask.name].Kits
		switch {
		case b.kit != nil:
			b.kit = b.kitOf(b.kit.ID)
		case strings.TrimSpace(b.field.Text()) == "":
			b.kit = byName[b.ask.name].Kit
			b.fromKit()
		}
		b.show()
	}
	f.changed()
}

var qualifierWords = map[journal.Qualifier]working.Key{journal.NotDetected: "page.entry.not_detected", journal.OverRange: "page.entry.over_range"}
