package fish

import (
	"context"
	"errors"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// form is a panel of boxes about the stock. What a box cannot be is said below it
// and nothing is lost.
type form struct {
	page     *Page
	boxes    map[string]*parts.Field // by the field that a refusal names
	order    []string
	column   *parts.Column
	pictures *nav.Pictured
	wrong    bool
}

func (p *Page) newForm() *form { return &form{page: p, boxes: map[string]*parts.Field{}} }

// box makes the box of a field.
func (f *form) box(field string, label working.Key, value string) *parts.Field {
	spec := parts.FieldSpec{ID: field, Label: f.page.t(label), Text: value}
	if field == "note" { // words take several lines
		spec.Lines, spec.Sends, spec.Hint = 3, true, f.page.t("page.entry.note_hint")
	}
	b := parts.NewField(spec)
	f.boxes[field], f.order = b, append(f.order, field)
	return b
}

// length makes a box for a length of a fish, in the person's unit.
func (f *form) length(label working.Key) *parts.Field {
	w := f.page.deps.Present.W
	b := f.box("length", label, "")
	s := b.Spec()
	s.Unit, s.Hint = w.Unit(w.DefaultUnit(quantity.KindLength, i18n.Fish)), f.page.t("page.stock.length_hint")
	b.Set(s)
	return b
}

// when makes a box for the time, filled in with now.
func (f *form) when() *parts.Field {
	b := f.box("at", "page.day.when", f.page.deps.Now().Format(i18n.WhenLayout))
	s := b.Spec()
	s.Hint = f.page.t("page.entry.when_hint")
	b.Set(s)
	b.OnStep = func(days int) {
		if t, ok := f.page.deps.Present.W.ReadWhen(b.Text(), f.page.deps.Now()); ok {
			b.Type(t.AddDate(0, 0, days).Format(i18n.WhenLayout))
		}
	}
	return b
}

// say writes below a box what is wrong with it; what was typed stays.
func (f *form) say(field, words string) {
	nav.Fault(f.boxes[field], words)
	f.wrong = f.wrong || words != ""
}

func (f *form) typed(field string) string {
	if b := f.boxes[field]; b != nil {
		return strings.TrimSpace(b.Text())
	}
	return ""
}

// number reads a whole number; has is false for an empty box.
func (f *form) number(field string) (n int, has bool) {
	w, text := f.page.deps.Present.W, f.typed(field)
	f.say(field, "")
	if text == "" {
		return 0, false
	}
	m, err := quantity.Parse(text, quantity.KindCount, w.Reading(quantity.KindCount, i18n.General))
	v, err2 := m.Value()
	if err = errors.Join(err, err2); err == nil && v.X != float64(int(v.X)) {
		err = working.Refuse(field, "refuse.whole_number")
	}
	if err != nil {
		words, ok := w.Problem(err)
		if !ok {
			words = w.T("refuse.not_a_number", nil)
		}
		f.say(field, words)
		return 0, false
	}
	return int(v.X), true
}

// need is number for a box that may not stay empty.
func (f *form) need(field string) int {
	n, has := f.number(field)
	if !has && f.boxes[field].Spec().Error == "" {
		f.say(field, f.page.t("refuse.missing"))
	}
	return n
}

// maybe is number for what may not be known.
func (f *form) maybe(field string) *int {
	if n, has := f.number(field); has {
		return &n
	}
	return nil
}

// measure reads the length.
func (f *form) measure() quantity.Measure {
	w, text := f.page.deps.Present.W, f.typed("length")
	f.say("length", "")
	if text == "" {
		return quantity.Measure{}
	}
	m, err := quantity.Parse(text, quantity.KindLength, w.Reading(quantity.KindLength, i18n.Fish))
	if err != nil {
		words, _ := w.Problem(err)
		f.say("length", words)
	}
	return m
}

// at reads the time.
func (f *form) at() journal.Civil {
	t, ok := f.page.deps.Present.W.ReadWhen(f.typed("at"), f.page.deps.Now())
	f.say("at", "")
	if !ok {
		f.say("at", f.page.t("page.entry.when_wrong"))
	}
	return journal.CivilOf(t)
}

// refuse says at its box what the keeper did not take.
func (f *form) refuse(err error) bool {
	var r *working.Refusal
	words, ok := f.page.deps.Present.W.Problem(err)
	if nav.Retired(err) || !errors.As(err, &r) || !ok {
		return false
	}
	field := r.Field
	if f.boxes[field] == nil {
		field = f.order[0]
	}
	f.say(field, words)
	f.toFault()
	return true
}

func (f *form) toFault() {
	var boxes []*parts.Field
	for _, field := range f.order {
		boxes = append(boxes, f.boxes[field])
	}
	nav.ToFault(f.page.deps, boxes...)
}

// show opens the panel. keep reads the boxes and gives the change to make, which
// gives back the entry that it wrote; nil where something was wrong.
func (f *form) show(title string, keep func() func(context.Context) (string, error), said working.Key, content ...fyne.CanvasObject) {
	p := f.page
	var shut func()
	save := func() {
		f.wrong = false
		job := keep()
		if f.wrong {
			f.toFault()
			return
		}
		var entry string
		p.deps.Work(func(ctx context.Context) (err error) { entry, err = job(ctx); return err }, func(err error) {
			if err != nil {
				if !f.refuse(err) {
					p.deps.Fail(err)
				}
				return
			}
			shut()
			p.done(said)
			if f.pictures != nil && entry != "" {
				if waiting := f.pictures.Waiting(); len(waiting) > 0 {
					p.deps.Pictures(p.tank, keeper.AddOptions{Entry: entry}, waiting, nil)
				}
			}
		})
	}
	for _, b := range f.boxes {
		b.OnEnter = save
	}
	if f.pictures != nil {
		content = append(content, f.pictures.Object())
	}
	f.column = parts.NewColumn(10, content...)
	p.panel = f
	shut = p.deps.Dialog(title, f.column, parts.NewFlow(p.deps.Button("keep", "page.day.write", parts.Primary, save),
		p.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
	if c := p.deps.Canvas(); c != nil && len(f.order) > 0 {
		c.Focus(f.boxes[f.order[0]].Focusable())
	}
}

// choice makes a choice that remembers what is chosen.
func choice(spec parts.ChoiceSpec, then func(code string)) *parts.Choice {
	var c *parts.Choice
	c = parts.NewChoice(spec, func(code string) {
		s := c.Spec()
		s.Chosen = code
		c.Set(s)
		if then != nil {
			then(code)
		}
	})
	return c
}

func itoa(n int) string { return strconv.Itoa(n) }
