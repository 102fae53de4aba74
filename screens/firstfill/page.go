package firstfill

import (
	"context"
	"errors"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/elevation"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// Page is First fill of one tank, open at one step.
type Page struct {
	deps nav.Deps
	tank string
	own  string // where tank is a starter profile: the shop's own tank
	is   bool   // tank is a starter profile in work
	step care.Step

	view  keeper.View
	shown present.Page
	edits map[care.FieldID]string // typed, not kept
	wrong map[care.FieldID]error  // of the edits, why they cannot be kept
	open  bool                    // the working is open
	draft *draft
	low   bool // the page is too low for the leading note in its foot
	told  bool // Carry on was pressed in vain: what is missing stands on top

	root     *fyne.Container
	drawing  *nav.Drawing
	stick    *parts.Dipstick
	scroll   *parts.Scroller
	foot     *parts.Column
	made     widgets
	back, on *parts.Button
}

var _ nav.Page = (*Page)(nil)
var _ nav.Ticker = (*Page)(nil)

// PaintAhead implements nav.Painter.
func (p *Page) PaintAhead() { p.drawing.PaintAhead() }

// New opens a step; an empty one opens where the tank stands.
func New(d nav.Deps, tank string, step care.Step) *Page {
	return open(&Page{deps: d, tank: tank, step: step})
}

// NewDraft opens a step as a starter profile answers it; own is the shop's own tank.
func NewDraft(d nav.Deps, own, profile string, step care.Step) *Page {
	return open(&Page{deps: d, tank: profile, own: own, is: true, step: step})
}

func open(p *Page) *Page {
	d := p.deps
	p.edits, p.wrong = map[care.FieldID]string{}, map[care.FieldID]error{}
	p.made = newWidgets()
	p.drawing = nav.NewDrawing(d, p.tank)
	if p.is {
		p.drawing.OnTapped = func(part scene.ID) {
			if step, ok := elevation.Parts(part); ok {
				p.deps.Go(p.at(step))
			}
		}
	}
	p.stick = parts.NewDipstick(parts.DipstickSpec{Still: d.Still()}, p.select_)
	p.scroll = parts.NewScroller(14)
	p.scroll.Keys = parts.Keys{CarryOn: p.carryOn, Back: p.goBack}
	p.back = parts.NewButton(parts.ButtonSpec{ID: "back"}, p.goBack)
	p.on = parts.NewButton(parts.ButtonSpec{ID: "carry-on", Kind: parts.Primary}, p.carryOn)
	p.foot = parts.NewColumn(footBetween)
	p.root = container.New(&columns{stick: p.stick, fit: p.fit}, p.drawing.FocusView, container.NewPadded(p.stick), p.scroll, parts.NewGround(), p.foot)
	p.load(true)
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Step is the step that is open.
func (p *Page) Step() care.Step { return p.step }

// Refresh implements nav.Page.
func (p *Page) Refresh() { p.load(false) }

// Focus implements nav.Page: the first box of the page, else Carry on.
func (p *Page) Focus() {
	c := p.deps.Canvas()
	if c == nil {
		return
	}
	for _, g := range p.shown.Groups {
		for _, f := range g.Fields {
			if o := p.made.focusable(f.ID); o != nil {
				c.Focus(o)
				return
			}
		}
	}
	for _, t := range p.shown.Ticks {
		if w, ok := p.made.ticks[t.ID]; ok {
			c.Focus(w)
			p.scroll.Top() // the page is entered at its heading, wherever the first tick stands
			return
		}
	}
	c.Focus(p.on)
}

// load reads the step with what is being typed and shows it.
func (p *Page) load(enter bool) {
	ctx := context.Background()
	step := p.step
	if step == "" {
		v, _, err := p.deps.Keeper.FirstFill(ctx, p.tank, care.TankPlace)
		if err != nil {
			p.deps.Fail(err)
			return
		}
		step = v.Current
	}
	edits := make([]keeper.Edit, 0, len(p.edits))
	for id, text := range p.edits {
		edits = append(edits, p.edit(id, text))
	}
	v, wrong, err := p.deps.Keeper.FirstFill(ctx, p.tank, step, edits...)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.step, p.view, p.wrong = step, v, wrong
	p.shown = p.deps.Present.Page(v, wrong)
	p.show()
	if enter {
		p.scroll.Top()
	}
}

// edit is a typed text with the way it is read.
func (p *Page) edit(id care.FieldID, text string) keeper.Edit {
	e := keeper.Edit{Field: id, Text: text}
	for _, g := range p.shown.Groups {
		for _, f := range g.Fields {
			if f.ID == id {
				e.Reading = f.Reading
			}
		}
	}
	for _, k := range p.shown.Kit {
		if k.Cost == id {
			e.Reading = k.Price.Reading
		}
	}
	return e
}

// typed shows what a page would say if the text were kept.
func (p *Page) typed(id care.FieldID, text string) {
	p.edits[id] = text
	p.load(false)
}

// commit keeps a text; one that cannot be read stays in its box.
func (p *Page) commit(id care.FieldID, text string) {
	if _, changed := p.edits[id]; !changed {
		p.edits[id] = text
	}
	e := p.edit(id, text)
	p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.Set(ctx, p.tank, e) }, func(err error) {
		if err != nil && p.readable(err) {
			p.load(false) // the sentence at the field says it
			return
		}
		if p.edits[id] == text {
			delete(p.edits, id)
		}
		p.kept(err)
	})
}

// readable reports whether an error belongs at a field.
func (p *Page) readable(err error) bool {
	_, ok := p.deps.Present.W.Problem(err)
	return ok
}

// choose keeps an option or a tick.
func (p *Page) choose(id care.FieldID, option string) {
	p.deps.Work(func(ctx context.Context) error {
		return p.deps.Keeper.Set(ctx, p.tank, keeper.Edit{Field: id, Option: option})
	}, p.kept)
}

// kept shows the record after a change.
func (p *Page) kept(err error) {
	var blocked *keeper.Blocked
	if err != nil && !errors.As(err, &blocked) {
		p.deps.Fail(err)
	}
	p.deps.Changed()
	p.load(false)
}

// confirm keeps, or takes back, the confirmation of a note or an electrical check:
// with the text that is shown, values and all.
func (p *Page) confirm(note care.NoteID, shown string, yes bool) {
	step := p.step
	_, lang, hash := p.deps.Present.Confirmable(note)
	p.deps.Work(func(ctx context.Context) error {
		if yes {
			return p.deps.Keeper.Acknowledge(ctx, p.tank, step, note, lang, shown, hash)
		}
		return p.deps.Keeper.Withdraw(ctx, p.tank, step, note)
	}, p.kept)
}

func (p *Page) carryOn() {
	if len(p.wrong) > 0 {
		p.tellWhatIsMissing()
		return
	}
	step := p.step
	p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.CarryOn(ctx, p.tank, step) }, func(err error) {
		var blocked *keeper.Blocked
		switch {
		case errors.As(err, &blocked):
			p.tellWhatIsMissing()
		case err != nil:
			p.deps.Fail(err)
		default:
			p.deps.Changed()
			if step == care.HomeComing {
				p.deps.Go(nav.Route{Place: nav.Today, Tank: p.tank})
				return
			}
			p.deps.Go(p.at(p.after(step)))
		}
	})
}

// at is the page of a step; of a starter profile, that of the whole profile where
// the step is none that it answers.
func (p *Page) at(step care.Step) nav.Route {
	switch {
	case p.is && !slip.Marked(step):
		return nav.Route{Place: nav.Counter, Tank: p.own, Profile: p.tank}
	case p.is:
		return nav.Route{Place: nav.Draft, Tank: p.own, Profile: p.tank, Step: step}
	}
	return nav.Route{Place: nav.FirstFill, Tank: p.tank, Step: step}
}

// after is the next step that is still to do, or simply the next.
func (p *Page) after(step care.Step) care.Step {
	v, _, err := p.deps.Keeper.FirstFill(context.Background(), p.tank, step)
	if err != nil {
		return step.Next()
	}
	for _, s := range v.Steps {
		if s.Step.Index() > step.Index() && s.State != care.Finished && (!p.is || s.State != care.Shut) {
			return s.Step
		}
	}
	if p.is {
		return care.HomeComing
	}
	return step.Next()
}

// tellWhatIsMissing puts what the step waits for at the top and goes there: to the
// box that is refused, else to the leading note while it is not confirmed.
func (p *Page) tellWhatIsMissing() {
	p.told = true
	p.load(true)
	c := p.deps.Canvas()
	if c == nil {
		return
	}
	for _, g := range p.shown.Groups {
		for _, f := range g.Fields {
			if f.Error == "" {
				continue
			}
			if o := p.made.focusable(f.ID); o != nil {
				c.Focus(o)
				return
			}
		}
	}
	if p.leads() && !p.shown.Notes[0].Confirmed {
		c.Focus(p.note(p.shown.Notes[0]).Focusable())
	}
}

func (p *Page) goBack() {
	if p.step == care.TankPlace && !p.is {
		p.deps.Go(nav.Route{Place: nav.Start})
		return
	}
	step := p.step.Previous()
	for p.is && !slip.Marked(step) && step != care.TankPlace {
		step = step.Previous()
	}
	if step == p.step { // the first: to the whole profile
		step = care.HomeComing
	}
	p.deps.Go(p.at(step))
}

func (p *Page) select_(index int) {
	if all := care.Steps(); index >= 0 && index < len(all) {
		p.deps.Go(p.at(all[index]))
	}
}

// Tick implements nav.Ticker: waits count down.
func (p *Page) Tick(time.Time) {
	switch {
	case p.step == care.HomeComing && p.view.Page.Curve != nil && p.view.Page.Curve.Timer != nil:
		p.load(false)
	case p.step == care.PowerOn && p.view.Page.State == care.Open:
		p.load(false)
	}
}

// Key acts on a key typed while nothing has the focus.
func (p *Page) Key(ev *fyne.KeyEvent) bool { return p.scroll.Key(ev) }

// Shown is what the page shows, as text.
func (p *Page) Shown() present.Page { return p.shown }
