package daybook

import (
	"context"
	"errors"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// form is the boxes of one entry: what is usual first, what is rarer under 'More'.
type form struct {
	id       string // of the entry; empty until it is written
	panel    *parts.Column
	pictures *nav.Pictured
	deps     nav.Deps
	tank     string
	from     journal.Entry
	asks     []asked
	boxes    map[string]*parts.Field
	picks    map[string]*parts.Choice // words out of a few
	tests    []*testBox
	factor   quantity.Ratio // from conductivity to dissolved solids
	when     *whenBox
	note     *parts.Field
	live     *live
	more     *parts.Column
	rare     []*parts.Field // that stand under 'More'
	opener   *parts.Button
	column   *parts.Column
	onEnter  func()
	first    fyne.Focusable
	// remindAt is when to be reminded to test again; set as the entry is kept.
	remindAt journal.Civil
}

func newForm(d nav.Deps, tank string, e journal.Entry, now time.Time) *form {
	f := &form{deps: d, tank: tank, from: e, asks: asks[e.Kind], boxes: map[string]*parts.Field{}, picks: map[string]*parts.Choice{}}
	var err error
	if f.factor, _, err = d.Keeper.SolidsFactor(context.Background()); err != nil {
		d.Fail(err)
	}
	f.when = newWhenBox(d, e, now, f.enter)
	f.when.changed = f.changed
	f.note = f.noteBox()
	var main, more []fyne.CanvasObject
	filled := false // something under 'More' has a value already
	if ofTest(e.Kind) {
		main, more, filled = f.testRows()
	}
	m, r, has := f.askRows()
	main, more, filled = append(main, m...), append(more, r...), filled || has
	if e.Kind == journal.Fed && e.ID == "" {
		main = append(main, f.ration()...)
	}
	if noteFirst[e.Kind] || len(main) == 0 {
		main = append(main, f.note)
	} else {
		more, filled = append(more, f.note), filled || e.Note != ""
		f.rare = append(f.rare, f.note)
	}
	if e.Kind == journal.Tested {
		f.live = newLive(f)
		main = append(main, f.live.column)
	}
	main = append(main, f.when.row)
	if len(more) > 0 {
		f.more = parts.NewColumn(8, more...)
		f.opener = parts.NewButton(parts.ButtonSpec{ID: "more-fields", Label: f.t("page.entry.more"), Kind: parts.Quiet, Disclosure: parts.Shut}, f.turn)
		main = append(main, f.opener, f.more)
		f.more.Hide()
		if filled {
			f.turn()
		}
	}
	if f.first == nil {
		f.first = f.note.Focusable()
	}
	f.column = parts.NewColumn(8, main...)
	f.changed()
	return f
}

// ration says what a meal is, in pinches where one was weighed; nothing where
// there is no ration, or nobody who is fed one.
func (f *form) ration() []fyne.CanvasObject {
	v, err := f.deps.Keeper.Feeding(context.Background(), f.tank)
	if err != nil || v.Refused != nil || v.Ration.Meal <= 0 {
		return nil
	}
	n := f.deps.Present.Feeding(v).Number
	words := f.deps.Present.W.T("page.feed.ration_hint", i18n.Args{"Meal": n.Value})
	return []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: words, Role: parts.Note})}
}

func (f *form) t(k working.Key) string { return f.deps.Present.W.T(k, nil) }

// turn opens or shuts 'More'.
func (f *form) turn() {
	s := f.opener.Spec()
	if f.more.Visible() {
		f.more.Hide()
		s.Disclosure = parts.Shut
	} else {
		f.more.Show()
		s.Disclosure = parts.Opened
	}
	f.opener.Set(s)
	if f.column != nil {
		f.column.Reflow()
	}
}

func (f *form) enter() {
	if f.onEnter != nil {
		f.onEnter()
	}
}

// changed judges anew what has been typed.
func (f *form) changed() {
	if f.live != nil {
		f.live.judge()
	}
}

func (f *form) box(id string, label working.Key, text, unit string) *parts.Field {
	b := parts.NewField(parts.FieldSpec{ID: id, Label: f.t(label), Text: text, Unit: unit})
	b.OnEnter = f.enter
	b.OnChanged = func(string) { f.changed() }
	return b
}

// noteBox is the box for words, of as many lines as the kind is likely to need.
func (f *form) noteBox() *parts.Field {
	lines := 2
	if noteFirst[f.from.Kind] {
		lines = 4
	}
	b := parts.NewField(parts.FieldSpec{ID: "note", Label: f.t(noteLabel(f.from.Kind)), Text: f.from.Note, Hint: f.t("page.entry.note_hint"), Lines: lines, Sends: true})
	b.OnEnter = f.enter
	b.OnChanged = func(string) { f.changed() }
	return b
}

// askRows lays out what the kind asks, three in a row; filled reports whether
// something rare has a value.
func (f *form) askRows() (main, more []fyne.CanvasObject, filled bool) {
	var row, rare []fyne.CanvasObject
	for _, a := range f.asks {
		o, focus := f.ask(a)
		_, has := f.from.Get(a.name)
		if a.more {
			f.rare = append(f.rare, f.boxes[a.name])
			rare, filled = append(rare, o), filled || has
			continue
		}
		row = append(row, o)
		if f.first == nil {
			f.first = focus
		}
	}
	line := func(os []fyne.CanvasObject) []fyne.CanvasObject {
		if len(os) == 0 {
			return nil
		}
		for len(os) < 2 { // a lone box stays a box
			os = append(os, parts.NewText(parts.TextSpec{}))
		}
		return []fyne.CanvasObject{parts.NewRow(os...)}
	}
	return line(row), line(rare), filled
}

// ask makes the box or the choice of one value.
func (f *form) ask(a asked) (fyne.CanvasObject, fyne.Focusable) {
	w := f.deps.Present.W
	r, had := f.from.Get(a.name)
	codes, word := journal.Vocabulary(a.name)
	if word && len(codes) > 0 {
		spec := parts.ChoiceSpec{ID: a.name, Label: f.t(a.label), Placeholder: f.t("page.entry.not_said")}
		spec.Options = append(spec.Options, parts.Option{Code: "", Label: f.t("page.entry.not_said")})
		for _, c := range codes {
			spec.Options = append(spec.Options, parts.Option{Code: c, Label: f.deps.Present.Said(a.name, c)})
		}
		if had {
			spec.Chosen = r.Measure.Number
		}
		c := parts.NewChoice(spec, nil)
		f.picks[a.name] = c
		return c, c
	}
	text, unit := "", ""
	if !word {
		unit = w.Unit(w.DefaultUnit(a.kind, a.purpose))
	}
	if had && !word && f.from.ID == "" { // a proposal: in the person's own unit
		r.Measure = ours(w, r.Measure, w.DefaultUnit(a.kind, a.purpose))
		f.replace(r)
	}
	if had && r.Qualifier == journal.Plain {
		text = r.Measure.Number
		if !word {
			text, unit = strings.Replace(text, ".", string(w.Decimal()), 1), w.Unit(r.Measure.Unit)
		}
	}
	b := f.box(a.name, a.label, text, unit)
	f.boxes[a.name] = b
	return b, b.Focusable()
}

// focus goes to the first box.
func (f *form) focus(c fyne.Canvas) {
	if c != nil {
		c.Focus(f.first)
	}
}

// put types values into the boxes, as another panel worked them out.
func (f *form) put(rs []journal.Reading) {
	w := f.deps.Present.W
	for _, r := range rs {
		if b := f.boxes[r.Name]; b != nil {
			s := b.Spec()
			s.Text, s.Unit, s.Error = strings.Replace(r.Measure.Number, ".", string(w.Decimal()), 1), w.Unit(r.Measure.Unit), ""
			b.Set(s)
			f.replace(r)
		}
	}
}

// replace puts a reading in the place of the one of its name.
func (f *form) replace(r journal.Reading) {
	kept := make([]journal.Reading, 0, len(f.from.Readings)+1)
	for _, old := range f.from.Readings {
		if old.Name != r.Name {
			kept = append(kept, old)
		}
	}
	f.from.Readings = append(kept, r)
}

// ours gives a proposed measure in a unit of the person's where its own is foreign
// to them, in a round figure.
func ours(w *i18n.Words, m quantity.Measure, unit quantity.UnitCode) quantity.Measure {
	u, ok := quantity.UnitOf(unit)
	v, err := m.Value()
	if !ok || err != nil || v.Kind != u.Kind || !w.Foreign(m.Unit) {
		return m
	}
	return quantity.Of(v.In(u), unit, 3)
}

// wrong says below a box what was refused, or with no words that all is well, and
// reports which. What was typed stays in the box either way.
func wrong(b *parts.Field, words string) bool {
	nav.Fault(b, words)
	return words == ""
}

// entry reads the boxes; what cannot be read is said below its box and nothing
// is given back.
func (f *form) entry() (journal.Entry, bool) {
	e, ok := f.from, true
	e.Readings = nil
	kept := map[string]bool{}
	for _, a := range f.asks {
		kept[a.name] = true
		r, has, words := f.read(a)
		if b := f.boxes[a.name]; b != nil {
			ok = wrong(b, words) && ok
		}
		if has {
			e.Readings = append(e.Readings, r)
		}
	}
	for _, b := range f.tests {
		kept[b.ask.name] = true
		r, has, words := b.read()
		ok = wrong(b.field, words) && ok
		if has {
			e.Readings = append(e.Readings, r)
		}
	}
	for _, r := range f.from.Readings { // what this form does not ask stays
		if !kept[r.Name] {
			e.Readings = append(e.Readings, r)
		}
	}
	e.Note = strings.TrimSpace(f.note.Text())
	at, zone, good := f.when.read()
	if !good {
		return e, false
	}
	e.At = at
	if e.ID == "" || at != f.from.At {
		e.Zone = zone
	}
	if f.from.ID != "" && f.from.Zone != "" {
		e.Zone = f.from.Zone // where it was written, it stays
	}
	return e, ok
}

// toFault goes to the first box that was refused, under 'More' too.
func (f *form) toFault() {
	var boxes []*parts.Field
	for _, t := range f.tests {
		boxes = append(boxes, t.field)
	}
	for _, a := range f.asks {
		boxes = append(boxes, f.boxes[a.name])
	}
	boxes = append(boxes, f.note, f.when.field)
	for _, b := range boxes {
		if b != nil && b.Spec().Error != "" && slices.Contains(f.rare, b) && !f.more.Visible() {
			f.turn()
		}
	}
	nav.ToFault(f.deps, boxes...)
}

// read is one value as it now stands; words say what is wrong with it.
func (f *form) read(a asked) (r journal.Reading, has bool, words string) {
	w := f.deps.Present.W
	if c := f.picks[a.name]; c != nil {
		code := c.Spec().Chosen
		return journal.Said(a.name, code), code != "", ""
	}
	text := strings.TrimSpace(f.boxes[a.name].Text())
	old, had := f.from.Get(a.name)
	if text == "" {
		return old, had && old.Qualifier != journal.Plain, "" // 'not detected' is not a number to be typed over by nothing
	}
	if _, word := journal.Vocabulary(a.name); word {
		r = journal.Said(a.name, text)
	} else {
		unit := w.DefaultUnit(a.kind, a.purpose)
		if had && old.Qualifier == journal.Plain {
			unit = old.Measure.Unit
		}
		m, err := f.parse(text, a, unit)
		if err != nil {
			words, _ = w.Problem(err)
			return r, false, words
		}
		r = journal.Reading{Name: a.name, Measure: m}
	}
	if err := r.Check(); err != nil {
		words, _ = w.Problem(err)
	}
	return r, true, words
}

// parse reads a number in the unit it is typed with, or else in unit. A dose may
// be weighed as well as measured out, dissolved solids given as conductivity.
func (f *form) parse(text string, a asked, unit quantity.UnitCode) (quantity.Measure, error) {
	w := f.deps.Present.W
	kind := a.kind
	if u, ok := quantity.UnitOf(unit); ok {
		kind = u.Kind
	}
	reading := w.Reading(kind, a.purpose)
	reading.Unit = unit
	m, err := quantity.Parse(text, kind, reading)
	if err == nil {
		return m, nil
	}
	for _, k := range journal.KindsOf(a.name) {
		if k == kind {
			continue
		}
		if other, err2 := quantity.Parse(text, k, w.Reading(k, i18n.Dose)); err2 == nil {
			return other, nil
		}
	}
	return quantity.Measure{}, err
}

// draft is what can be read so far, without a word on the rest.
func (f *form) draft() (journal.Entry, bool) {
	e := f.from
	e.Readings = nil
	for _, b := range f.tests {
		if r, has, words := b.read(); has && words == "" {
			e.Readings = append(e.Readings, r)
		}
	}
	at, zone, ok := f.when.peek()
	e.At = at
	if e.Zone == "" {
		e.Zone = zone
	}
	return e, ok && len(e.Readings) > 0
}

// refuse says at its box what the keeper did not take.
func (f *form) refuse(err error) bool {
	var r *working.Refusal
	if nav.Retired(err) || !errors.As(err, &r) {
		return false
	}
	b := f.note
	switch {
	case r.Field == "at":
		b = f.when.field
	case f.boxes[r.Field] != nil:
		b = f.boxes[r.Field]
	}
	for _, t := range f.tests {
		if t.ask.name == r.Field {
			b = t.field
		}
	}
	wrong(b, f.deps.Present.W.Refusal(r))
	f.toFault()
	return true
}

// offered is what a test may ask, with the kits of the person.
func (f *form) offered() []keeper.Asked {
	list, err := f.deps.Keeper.TestForm(context.Background(), f.tank)
	if err != nil {
		f.deps.Fail(err)
	}
	return list
}
