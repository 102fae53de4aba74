package firstfill

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// draft is a reading being typed, which becomes an entry of the daybook.
type draft struct {
	text   map[string]string
	wrong  map[string]string
	option map[string]string
}

func (p *Page) drafts() *draft {
	if p.draft == nil {
		p.draft = &draft{text: map[string]string{}, wrong: map[string]string{}, option: map[string]string{"basis": string(quantity.AsN)}}
	}
	return p.draft
}

// inputs are the readings that a step asks for again and again: the thermometer
// in Settle, the water test before the first fish.
func (p *Page) inputs() []fyne.CanvasObject {
	if p.shown.Shut || p.is {
		return nil
	}
	w := p.deps.Present.W
	switch p.step {
	case care.Settle:
		f := p.draftField(journal.NameTemperature, w.T("page.fill.reading", nil), quantity.KindTemperature)
		return []fyne.CanvasObject{p.row("reading", f, p.blank("reading", 0, 1), p.blank("reading", 0, 2)),
			p.draftButton("note-reading", w.T("page.fill.note_it", nil), p.noteTemperature)}
	case care.FirstFish:
		return []fyne.CanvasObject{p.text("test", w.T("page.fill.test", nil), parts.Section),
			p.row("test", p.draftField(journal.NameAmmonia, w.T("page.fill.ammonia", nil), quantity.KindConcentration),
				p.draftField(journal.NameNitrite, w.T("page.fill.nitrite", nil), quantity.KindConcentration), p.basis()),
			p.draftTick(w.T("page.fill.not_detected", nil)),
			p.draftButton("note-test", w.T("page.fill.note_it", nil), p.noteTest)}
	}
	return nil
}

// draftField is a box whose text is kept only when its entry is written.
func (p *Page) draftField(name, label string, kind quantity.Kind) fyne.CanvasObject {
	d, w := p.drafts(), p.deps.Present.W
	spec := parts.FieldSpec{ID: "draft." + name, Label: label, Text: d.text[name], Unit: w.Unit(w.DefaultUnit(kind, i18n.General)), Error: d.wrong[name]}
	f, ok := p.made.rest["draft-"+name].(*parts.Field)
	if !ok {
		f = parts.NewField(spec)
		f.OnChanged = func(text string) { d.text[name] = text; delete(d.wrong, name) }
		f.OnCommit = func(text string) { d.text[name] = text }
		f.OnEnter = p.noteDraft
		p.made.rest["draft-"+name] = f
	}
	f.Set(spec)
	return f
}

func (p *Page) noteDraft() {
	if p.step == care.Settle {
		p.noteTemperature()
		return
	}
	p.noteTest()
}

func (p *Page) draftButton(id, label string, do func()) fyne.CanvasObject {
	b, ok := p.made.rest[id].(*parts.Button)
	if !ok {
		b = parts.NewButton(parts.ButtonSpec{}, do)
		p.made.rest[id] = b
	}
	b.Set(parts.ButtonSpec{ID: id, Label: label})
	return b
}

// draftTick says that neither poison showed, which is not the same as zero.
func (p *Page) draftTick(label string) fyne.CanvasObject {
	d := p.drafts()
	spec := parts.TickSpec{ID: "draft.nothing", Text: label, Done: d.option["nothing"] == care.Ticked}
	t, ok := p.made.rest["draft-nothing"].(*parts.Tick)
	if !ok {
		t = parts.NewTick(spec, func(done bool) {
			d.option["nothing"] = ""
			if done {
				d.option["nothing"] = care.Ticked
			}
			p.load(false)
		})
		p.made.rest["draft-nothing"] = t
	}
	t.Set(spec)
	return t
}

// basis asks what the kit counts: guessed wrongly it is a factor of three.
func (p *Page) basis() fyne.CanvasObject {
	d, w := p.drafts(), p.deps.Present.W
	spec := parts.ChoiceSpec{ID: "draft.basis", Label: w.T("page.fill.basis", nil), Chosen: d.option["basis"], Options: []parts.Option{
		{Code: string(quantity.AsN), Label: w.T("page.fill.basis_n", nil)}, {Code: string(quantity.AsIon), Label: w.T("page.fill.basis_ion", nil)}}}
	c, ok := p.made.rest["draft-basis"].(*parts.Choice)
	if !ok {
		c = parts.NewChoice(spec, func(code string) { d.option["basis"] = code; p.load(false) })
		p.made.rest["draft-basis"] = c
	}
	c.Set(spec)
	return c
}

func (p *Page) noteTemperature() {
	if r, ok := p.read(journal.NameTemperature, quantity.KindTemperature, quantity.BasisNone); ok {
		p.write(journal.Entry{Kind: journal.Temperature, Readings: []journal.Reading{r}})
	}
}

func (p *Page) noteTest() {
	d := p.drafts()
	basis := quantity.Basis(d.option["basis"])
	e := journal.Entry{Kind: journal.Tested}
	for _, name := range []string{journal.NameAmmonia, journal.NameNitrite} {
		if d.option["nothing"] == care.Ticked && d.text[name] == "" {
			e.Readings = append(e.Readings, journal.Reading{Name: name, Qualifier: journal.NotDetected,
				Measure: quantity.Measure{Number: "0", Unit: "mg/l", Basis: basis}})
			continue
		}
		r, ok := p.read(name, quantity.KindConcentration, basis)
		if !ok {
			return
		}
		e.Readings = append(e.Readings, r)
	}
	p.write(e)
}

// read turns a draft's text into a reading, or says at its box what is wrong.
func (p *Page) read(name string, kind quantity.Kind, basis quantity.Basis) (journal.Reading, bool) {
	d, w := p.drafts(), p.deps.Present.W
	m, err := quantity.Parse(d.text[name], kind, w.Reading(kind, i18n.General))
	if err == nil {
		err = journal.Reading{Name: name, Measure: m}.Check()
	}
	if err != nil {
		d.wrong[name], _ = w.Problem(err)
		p.load(false)
		return journal.Reading{}, false
	}
	m.Basis = basis
	return journal.Reading{Name: name, Measure: m}, true
}

func (p *Page) write(e journal.Entry) {
	d := p.drafts()
	e.Step = string(p.step)
	p.deps.Work(func(ctx context.Context) error { _, err := p.deps.Keeper.AddEntry(ctx, p.tank, e); return err }, func(err error) {
		if err == nil {
			d.text, d.wrong = map[string]string{}, map[string]string{}
			delete(d.option, "nothing")
		}
		p.kept(err)
	})
}

// readings lists what the thermometer said, the newest first.
func (p *Page) readings() []fyne.CanvasObject {
	if len(p.shown.Readings) == 0 {
		return nil
	}
	w := p.deps.Present.W
	out := []fyne.CanvasObject{p.text("readings", w.T("page.fill.readings", nil), parts.Section)}
	for i, r := range p.shown.Readings {
		if i == 12 {
			break
		}
		out = append(out, p.line(present.Line{Name: r.When, Value: r.Value + "   " + r.Word}))
	}
	return out
}
