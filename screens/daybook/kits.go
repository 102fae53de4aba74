package daybook

import (
	"context"
	"errors"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// ShowKits shows the person's test kits: what each measures, in which unit, how
// finely, and the colours of its card.
func ShowKits(d nav.Deps) { showKits(d, func() {}) }

// showKits is ShowKits that says when it is shut.
func showKits(d nav.Deps, then func()) {
	w := d.Present.W
	column := parts.NewColumn(8)
	var fill func()
	open := func(k journal.TestKit) { editKit(d, k, func() { fill(); then() }) }
	fill = func() {
		kits, err := d.Keeper.Kits(context.Background())
		if err != nil {
			d.Fail(err)
			return
		}
		out := []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: w.T("page.kits.purpose", nil), Role: parts.SoftBody})}
		if len(kits) == 0 {
			out = append(out, parts.NewText(parts.TextSpec{Text: w.T("page.kits.empty", nil)}))
		}
		for _, k := range kits {
			out = append(out, parts.NewEntryRow(parts.EntryRowSpec{ID: k.ID, Kind: k.Name, Text: kitText(w, k)}, func() { open(k) }))
		}
		if row := kitsUndo(d, func() { fill(); then() }); row != nil {
			out = append(out, row)
		}
		column.Set(out...)
	}
	fill()
	var shut func()
	add := parts.NewButton(parts.ButtonSpec{ID: "add-kit", Label: w.T("page.kits.add", nil)}, func() {
		open(journal.TestKit{Reading: journal.NameAmmonia, Basis: quantity.AsN})
	})
	shut = d.Dialog(w.T("page.kits.heading", nil), column, parts.NewFlow(add, parts.NewButton(parts.ButtonSpec{ID: "close", Label: w.T("label.close", nil)}, func() { shut() })))
	if c := d.Canvas(); c != nil {
		c.Focus(add)
	}
}

// kitsUndo takes back the latest change of a kit, or makes it again: kits belong
// to no tank, so the bar's own undo does not reach them. nil where there is none.
func kitsUndo(d nav.Deps, then func()) fyne.CanvasObject {
	w, ctx := d.Present.W, context.Background()
	var out []fyne.CanvasObject
	for _, x := range []struct {
		id    string
		word  working.Key
		label func(context.Context, string) (working.Key, map[string]string, bool)
		step  func(context.Context, string) (working.Key, map[string]string, error)
	}{{"undo-kit", "page.kits.undo", d.Keeper.UndoLabel, d.Keeper.Undo}, {"redo-kit", "page.kits.redo", d.Keeper.RedoLabel, d.Keeper.Redo}} {
		label, values, ok := x.label(ctx, "")
		if !ok || !slices.Contains(kitChanges, label) {
			continue
		}
		what := w.T(x.word, i18n.Args{"What": d.Present.UndoName(label, values)})
		out = append(out, parts.NewButton(parts.ButtonSpec{ID: x.id, Label: what, Kind: parts.Quiet}, func() {
			d.Work(func(ctx context.Context) error { _, _, err := x.step(ctx, ""); return err }, func(err error) {
				if err != nil {
					d.Fail(err)
					return
				}
				d.Changed()
				then()
			})
		}))
	}
	if len(out) == 0 {
		return nil
	}
	return parts.NewFlow(out...)
}

// kitChanges are the labels of what can be undone of kits.
var kitChanges = []working.Key{"undo.kit_add", "undo.kit_change", "undo.kit_delete"}

// kitText is what a kit measures and how, in a line.
func kitText(w *i18n.Words, k journal.TestKit) string {
	out := w.T(working.Key("reading."+k.Reading), nil)
	out = w.Comma(out, w.Unit(k.Unit))
	if k.Basis != quantity.BasisNone {
		out += " " + w.T(working.Key("word.basis."+string(k.Basis)), nil)
	}
	if k.Resolution != "" && !k.HasCard() {
		out += " · " + w.T("page.entry.steps_of", i18n.Args{"Step": w.Measure(quantity.Measure{Number: k.Resolution, Unit: k.Unit})})
	}
	if len(k.Steps) > 0 {
		var steps []string
		for _, s := range k.Steps {
			steps = append(steps, strings.Replace(s, ".", string(w.Decimal()), 1))
		}
		out += " · " + strings.Join(steps, "; ")
	}
	return out
}

// kitForm is the boxes of one kit.
type kitForm struct {
	d          nav.Deps
	kit        journal.TestKit
	name       *parts.Field
	reading    *parts.Choice
	unit       *parts.Choice
	basis      *parts.Choice
	resolution *parts.Field
	steps      *parts.Field
	column     *parts.Column
}

// editKit opens the form of a kit, new where it has no id yet.
func editKit(d nav.Deps, k journal.TestKit, then func()) {
	w := d.Present.W
	f := &kitForm{d: d, kit: k}
	var shut func()
	done := func(said working.Key) func(error) {
		return func(err error) {
			if err != nil {
				if !f.refuse(err) {
					d.Fail(err)
				}
				return
			}
			shut()
			nav.Did(d, "", said, then)
		}
	}
	save := func() {
		k := f.read()
		d.Work(func(ctx context.Context) error {
			if k.ID != "" {
				return d.Keeper.ChangeKit(ctx, k)
			}
			_, err := d.Keeper.AddKit(ctx, k)
			return err
		}, done("page.kits.kept"))
	}
	field := func(id string, label, hint working.Key, text string) *parts.Field {
		b := parts.NewField(parts.FieldSpec{ID: "kit-" + id, Label: w.T(label, nil), Text: text})
		if hint != "" {
			s := b.Spec()
			s.Hint = w.T(hint, nil)
			b.Set(s)
		}
		b.OnEnter = save
		return b
	}
	decimal := string(w.Decimal())
	local := func(s string) string { return strings.Replace(s, ".", decimal, 1) }
	var steps []string
	for _, s := range k.Steps {
		steps = append(steps, local(s))
	}
	f.name = field("name", "page.kits.name", "page.kits.name_hint", k.Name)
	f.resolution = field("resolution", "page.kits.resolution", "page.kits.resolution_hint", local(k.Resolution))
	f.steps = field("steps", "page.kits.steps", "page.kits.steps_hint", strings.Join(steps, "; "))
	f.reading = parts.NewChoice(parts.ChoiceSpec{ID: "kit-reading"}, func(code string) {
		if code != f.kit.Reading {
			f.kit.Reading, f.kit.Unit, f.kit.Basis = code, "", ""
			f.show()
		}
	})
	f.unit = parts.NewChoice(parts.ChoiceSpec{ID: "kit-unit"}, func(code string) { f.kit.Unit = quantity.UnitCode(code) })
	f.basis = parts.NewChoice(parts.ChoiceSpec{ID: "kit-basis"}, func(code string) { f.kit.Basis = quantity.Basis(code) })
	f.column = parts.NewColumn(8)
	f.show()
	buttons := []fyne.CanvasObject{parts.NewButton(parts.ButtonSpec{ID: "keep", Label: w.T("page.day.keep", nil), Kind: parts.Primary}, save),
		parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: w.T("label.cancel", nil)}, func() { shut() })}
	title := working.Key("page.kits.add")
	if k.ID != "" {
		title = "page.kits.change"
		buttons = append(buttons, parts.NewButton(parts.ButtonSpec{ID: "delete", Label: w.T("page.day.delete", nil)}, func() {
			d.Work(func(ctx context.Context) error { return d.Keeper.DeleteKit(ctx, k.ID) }, done("page.kits.deleted"))
		}))
	}
	shut = d.Dialog(w.T(title, nil), f.column, parts.NewFlow(buttons...))
	if c := d.Canvas(); c != nil {
		c.Focus(f.name.Focusable())
	}
}

// show sets the choices as the reading asks for.
func (f *kitForm) show() {
	w := f.d.Present.W
	r := parts.ChoiceSpec{ID: "kit-reading", Label: w.T("page.kits.reading", nil), Chosen: f.kit.Reading}
	for _, name := range journal.Tests() {
		r.Options = append(r.Options, parts.Option{Code: name, Label: w.T(tests[name].label, nil)})
	}
	f.reading.Set(r)
	a := tests[f.kit.Reading]
	if f.kit.Unit == "" {
		f.kit.Unit = w.DefaultUnit(a.kind, a.purpose)
	}
	u := parts.ChoiceSpec{ID: "kit-unit", Label: w.T("page.kits.unit", nil), Chosen: string(f.kit.Unit)}
	seen := map[string]bool{}
	for _, k := range journal.KindsOf(f.kit.Reading) {
		for _, x := range quantity.UnitsOf(k) {
			label := w.Unit(x.Code)
			if label == "" {
				label = w.T(a.label, nil)
			}
			if seen[label] && x.Code != f.kit.Unit {
				continue
			}
			seen[label] = true
			u.Options = append(u.Options, parts.Option{Code: string(x.Code), Label: label})
		}
	}
	f.unit.Set(u)
	row := []fyne.CanvasObject{f.reading, f.unit}
	if journal.HasBasis(f.kit.Reading) {
		if f.kit.Basis == "" {
			f.kit.Basis = quantity.AsN
		}
		f.basis.Set(parts.ChoiceSpec{ID: "kit-basis", Label: w.T("page.fill.basis", nil), Chosen: string(f.kit.Basis), Options: []parts.Option{
			{Code: string(quantity.AsN), Label: w.T("page.fill.basis_n", nil)}, {Code: string(quantity.AsIon), Label: w.T("page.fill.basis_ion", nil)}}})
		row = append(row, f.basis)
	}
	f.column.Set(f.name, parts.NewRow(row...), f.resolution, f.steps)
}

// read is the kit as it now stands. Numbers that cannot be read are left to the
// keeper to refuse.
func (f *kitForm) read() journal.TestKit {
	w := f.d.Present.W
	k := f.kit
	k.Name = f.name.Text()
	reading := quantity.Reading{Unit: "one", Decimal: w.Decimal()}
	plain := func(s string) string {
		if m, err := quantity.Parse(s, quantity.KindRatio, reading); err == nil && m.Unit == "one" {
			return m.Number
		}
		return s
	}
	if k.Resolution = strings.TrimSpace(f.resolution.Text()); k.Resolution != "" {
		k.Resolution = plain(k.Resolution)
	}
	k.Steps = nil
	for _, s := range strings.FieldsFunc(f.steps.Text(), func(r rune) bool { return r == ';' || r == ' ' || r == '\t' || r == '/' }) {
		k.Steps = append(k.Steps, plain(s))
	}
	return k
}

// refuse says at its box what the keeper did not take.
func (f *kitForm) refuse(err error) bool {
	var r *working.Refusal
	if !errors.As(err, &r) {
		return false
	}
	b := map[string]*parts.Field{"resolution": f.resolution, "steps": f.steps}[r.Field]
	if b == nil {
		b = f.name
	}
	for _, x := range []*parts.Field{f.name, f.resolution, f.steps} {
		words := ""
		if x == b {
			words = f.d.Present.W.Refusal(r)
		}
		wrong(x, words)
	}
	return nav.ToFault(f.d, f.name, f.resolution, f.steps)
}
