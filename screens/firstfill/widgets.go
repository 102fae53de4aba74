package firstfill

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// widgets are the parts of a page by what they show, made once and set again,
// so that what has the focus keeps it while everything around it changes.
type widgets struct {
	fields  map[care.FieldID]*parts.Field
	choices map[care.FieldID]*parts.Choice
	ticks   map[care.FieldID]*parts.Tick
	bars    []*parts.Bar
	notes   map[care.NoteID]*parts.Safety
	kit     map[string]*parts.KitRow
	rows    map[string]*parts.Row
	lines   map[string]*parts.Figure
	texts   map[string]*parts.Text
	number  *parts.Number
	working *parts.Working
	shop    fyne.CanvasObject // who handed the profile over, nil where nobody did
	rest    map[string]fyne.CanvasObject
}

func newWidgets() widgets {
	return widgets{fields: map[care.FieldID]*parts.Field{}, choices: map[care.FieldID]*parts.Choice{}, ticks: map[care.FieldID]*parts.Tick{},
		notes: map[care.NoteID]*parts.Safety{}, kit: map[string]*parts.KitRow{}, rows: map[string]*parts.Row{}, lines: map[string]*parts.Figure{},
		texts: map[string]*parts.Text{}, rest: map[string]fyne.CanvasObject{}}
}

// focusable is what takes the focus for a field, nil when it is not on the page.
func (w *widgets) focusable(id care.FieldID) fyne.Focusable {
	if f, ok := w.fields[id]; ok {
		return f.Focusable()
	}
	if c, ok := w.choices[id]; ok {
		return c
	}
	return nil
}

// text gives the text kept under a name.
func (p *Page) text(name, words string, role parts.Role) fyne.CanvasObject {
	spec := parts.TextSpec{Text: words, Role: role}
	t, ok := p.made.texts[name]
	if !ok {
		t = parts.NewText(spec)
		p.made.texts[name] = t
	}
	t.Set(spec)
	return t
}

// field gives the box or the choice of a field.
func (p *Page) field(f present.Field) fyne.CanvasObject {
	if f.Type == care.TypeChoice {
		spec := parts.ChoiceSpec{ID: string(f.ID), Label: f.Label, Chosen: f.Chosen, Error: f.Error, Proposed: f.Proposed,
			Search: p.deps.Present.W.T("label.search", nil)}
		if f.FromShop {
			spec.Mark = p.deps.Present.W.T("page.fill.from_shop", nil)
		}
		for _, o := range f.Options {
			spec.Options = append(spec.Options, parts.Option{Code: o.Code, Label: o.Label})
		}
		c, ok := p.made.choices[f.ID]
		if !ok {
			id := f.ID
			c = parts.NewChoice(spec, func(code string) { p.choose(id, code) })
			p.made.choices[f.ID] = c
		}
		c.Set(spec)
		return c
	}
	spec := parts.FieldSpec{ID: string(f.ID), Label: f.Label, Text: f.Text, Unit: f.Unit, Error: f.Error, Proposed: f.Proposed}
	if f.FromShop {
		spec.Mark = p.deps.Present.W.T("page.fill.from_shop", nil)
	}
	w, ok := p.made.fields[f.ID]
	if _, typing := p.edits[f.ID]; typing && ok {
		spec.Text = w.Spec().Text // what is being typed is the box's own until it is kept
	}
	if !ok {
		id := f.ID
		w = parts.NewField(spec)
		w.OnChanged = func(text string) { p.typed(id, text) }
		w.OnCommit = func(text string) { p.commit(id, text) }
		p.made.fields[f.ID] = w
	}
	w.Set(spec)
	return w
}

// row sets up to three parts side by side under a name.
func (p *Page) row(name string, os ...fyne.CanvasObject) fyne.CanvasObject {
	r, ok := p.made.rows[name]
	if !ok {
		r = parts.NewRow(os...)
		p.made.rows[name] = r
	}
	r.Set(os...)
	return r
}

// line gives a further figure.
func (p *Page) line(l present.Line) fyne.CanvasObject {
	spec := parts.FigureSpec{Name: l.Name, Value: l.Value, Note: l.Note}
	f, ok := p.made.lines[l.Name]
	if !ok {
		f = parts.NewFigure(spec)
		p.made.lines[l.Name] = f
	}
	f.Set(spec)
	return f
}

// tick gives a tick, or an electrical check that is kept with its text.
func (p *Page) tick(t present.Tick) fyne.CanvasObject {
	spec := parts.TickSpec{ID: string(t.ID), Text: t.Text, Done: t.Set}
	if !t.Ready && !t.Set {
		spec.Barred = t.Reason
	}
	w, ok := p.made.ticks[t.ID]
	if !ok {
		w = parts.NewTick(spec, nil)
		p.made.ticks[t.ID] = w
	}
	w.OnToggled = func(done bool) {
		if t.Confirm {
			p.confirm(care.NoteID(t.ID), t.Text, done)
			return
		}
		option := ""
		if done {
			option = care.Ticked
		}
		p.choose(t.ID, option)
	}
	w.Set(spec)
	return w
}
