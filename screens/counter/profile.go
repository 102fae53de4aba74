package counter

import (
	"context"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/elevation"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// Profile is one starter profile: its checks, what it says, and handing it out.
type Profile struct {
	deps    nav.Deps
	tank    string // of the shop's own
	id      string
	root    *fyne.Container
	drawing *nav.Drawing
	scroll  *parts.Scroller
	first   *parts.Button

	work  keeper.ProfileWork
	shown present.ProfileWork
}

var _ nav.Page = (*Profile)(nil)

// NewProfile makes the page of a profile.
func NewProfile(d nav.Deps, tank, id string) *Profile {
	p := &Profile{deps: d, tank: tank, id: id, drawing: nav.NewDrawing(d, id), scroll: parts.NewScroller(12)}
	p.drawing.OnTapped = func(part scene.ID) {
		if step, ok := elevation.Parts(part); ok {
			p.edit(step)
		}
	}
	p.first = p.deps.Button("file", "page.counter.file", parts.Primary, p.file)
	p.scroll.Keys = parts.Keys{Back: p.back}
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Profile) Object() fyne.CanvasObject { return p.root }

// Focus implements nav.Page.
func (p *Profile) Focus() {
	p.deps.Focus(p.first)
}

func (p *Profile) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

func (p *Profile) back() { p.deps.Go(nav.Route{Place: nav.Counter, Tank: p.tank}) }

// edit opens a step of First fill for the profile.
func (p *Profile) edit(step care.Step) {
	p.deps.Go(nav.Route{Place: nav.Draft, Tank: p.tank, Profile: p.id, Step: step})
}

// Refresh implements nav.Page.
func (p *Profile) Refresh() {
	w, err := p.deps.Keeper.ProfileInWork(context.Background(), p.id)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.work, p.shown = w, p.deps.Present.ProfileWork(w)
	p.drawing.Show(w.Picture, true)
	p.scroll.Column().Set(p.content()...)
}

func (p *Profile) content() []fyne.CanvasObject {
	s := p.shown
	out := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(s.Name, parts.Heading), parts.TextOf(s.Under, parts.SoftBody)),
		parts.NewFlow(p.first, p.deps.Button("sheet", "page.counter.sheet", parts.Secondary, func() { p.deps.HandSheets(p.id, []string{""}, p.Refresh) }),
			p.deps.Button("sheets", "page.counter.sheets", parts.Secondary, p.sheets), p.deps.Button("all", "page.counter.all", parts.Quiet, p.back)),
		parts.NewVerdict(parts.VerdictSpec{State: nav.State(s.Check.State), Title: s.Check.Title, Lines: s.Check.Lines})}
	out = append(out, parts.NewDayHeading(p.t("page.counter.says")))
	row := func(id, title, words string, do func()) {
		out = append(out, parts.NewEntryRow(parts.EntryRowSpec{ID: "edit-" + id, Kind: title, Text: words, Even: true, Two: true}, do))
	}
	for _, part := range s.Parts {
		row(string(part.Step), part.Title, part.Text, func() { p.edit(part.Step) })
	}
	row("plan", p.t("page.counter.plan"), either(s.Plan, p.t("page.counter.plan_none")), func() {
		p.deps.Go(nav.Route{Place: nav.DraftRounds, Tank: p.tank, Profile: p.id})
	})
	row("feeding", p.t("nav.view.feeding"), either(s.Feeding, p.t("page.counter.feeding_none")), p.feeding)
	row("notes", p.t("page.counter.notes"), either(s.Notes, p.t("page.counter.notes_none")), p.notes)
	out = append(out, parts.NewDayHeading(p.t("page.counter.outs")))
	if s.OutsNone != "" {
		out = append(out, parts.TextOf(s.OutsNone, parts.SoftBody))
	}
	for i, o := range s.Outs {
		out = append(out, parts.NewEntryRow(parts.EntryRowSpec{ID: "out-" + o.ID, Time: o.When, Kind: o.Way, Text: o.Label, Even: true}, func() { p.out(p.work.Outs[i]) }))
	}
	return append(out, parts.NewFlow(p.deps.Button("rename", "menu.rename", parts.Secondary, p.rename), p.deps.Button("copy", "page.counter.copy", parts.Secondary, p.copy),
		p.deps.Button("remove", "page.counter.remove", parts.Secondary, func() { remove(p.deps, p.tank, p.id, p.work.Tank.Name) })), parts.NewSpace(8))
}

// either is some lines in one, or what is said where there is none.
func either(some []string, none string) string {
	if len(some) == 0 {
		return none
	}
	return strings.Join(some, " · ")
}

func (p *Profile) file() { p.deps.HandFile(p.id, p.Refresh) }

// change makes a change of the profile and says so, with the way back.
func (p *Profile) change(job func(context.Context) error, said working.Key) {
	nav.Change(p.deps, p.id, job, said, p.Refresh)
}

func (p *Profile) rename() {
	askName(p.deps, "menu.rename", p.work.Tank.Name, func(ctx context.Context, name string) (func(), error) {
		return func() { p.deps.Changed(); p.Refresh(); p.Focus() }, p.deps.Keeper.RenameTank(ctx, p.id, name)
	})
}

func (p *Profile) copy() {
	askName(p.deps, "page.counter.copy", p.work.Tank.Name, func(ctx context.Context, name string) (func(), error) {
		id, err := p.deps.Keeper.DraftFrom(ctx, p.id, name)
		return func() {
			p.deps.Changed()
			p.deps.Go(nav.Route{Place: nav.Counter, Tank: p.tank, Profile: id})
		}, err
	})
}

// notes asks for the notes that go with this profile.
func (p *Profile) notes() {
	n := newNotes(p.deps, p.work.Notes)
	var shut func()
	keep := func() {
		said := n.read()
		p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.SetProfileNotes(ctx, p.id, said) }, func(err error) {
			if words, ok := p.deps.Present.W.Problem(err); err != nil && ok {
				nav.Fault(n.box, words)
				nav.ToFault(p.deps, n.box)
				return
			}
			shut()
			p.change(func(context.Context) error { return err }, "page.counter.kept")
		})
	}
	shut = p.deps.Dialog(p.t("page.counter.notes"), parts.NewColumn(8, parts.TextOf(p.t("page.counter.notes_why"), parts.SoftBody), n.column), parts.NewFlow(p.deps.Button("keep", "page.day.keep", parts.Primary, keep),
		p.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
	p.deps.Focus(n.box.Focusable())
}

// out offers to forget the family's name of a hand-out.
func (p *Profile) out(o keeper.HandOut) {
	if o.Label == "" {
		return
	}
	var shut func()
	shut = p.deps.Dialog(o.Label, parts.TextOf(p.t("page.counter.forget_why"), parts.Body), parts.NewFlow(p.deps.Button("forget", "page.counter.forget", parts.Primary, func() {
		shut()
		p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.ForgetHandOut(ctx, p.id, o.ID) }, func(err error) {
			p.deps.Fail(err)
			p.Refresh()
		})
	}), p.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
}

// feeding asks what is proposed for feeding.
func (p *Profile) feeding() {
	k := p.work.Feeding
	w := p.deps.Present.W
	share := nav.NewMeasured(p.deps, "share", "page.feed.share", quantity.KindRatio, i18n.General, k.Share, false)
	protein := nav.NewMeasured(p.deps, "protein", "page.feed.protein", quantity.KindRatio, i18n.General, k.Protein, false)
	var days []fyne.CanvasObject
	for i := range 7 {
		d := (w.FirstWeekday() + time.Weekday(i)) % 7
		days = append(days, parts.NewTick(parts.TickSpec{ID: "fast-" + d.String(), Text: w.Weekday(d), Done: k.Fasting[d]}, func(on bool) { k.Fasting[d] = on }))
	}
	var shut func()
	keep := func() {
		var ok1, ok2 bool
		k.Share, ok1 = share.Read()
		k.Protein, ok2 = protein.Read()
		if !ok1 || !ok2 {
			nav.ToFault(p.deps, share.Field, protein.Field)
			return
		}
		p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.SetFeedingBasis(ctx, p.id, k) }, func(err error) {
			box := map[string]*nav.Measured{"share": share, "protein": protein}[fieldOf(err)]
			if words, ok := w.Problem(err); err != nil && ok && box != nil {
				box.Fault(words)
				nav.ToFault(p.deps, share.Field, protein.Field)
				return
			}
			shut()
			p.change(func(context.Context) error { return err }, "page.counter.kept")
		})
	}
	share.OnEnter, protein.OnEnter = keep, keep
	shut = p.deps.Dialog(p.t("nav.view.feeding"), parts.NewColumn(8, parts.TextOf(p.t("page.counter.feeding_why"), parts.SoftBody), parts.NewRowOf(2, share, protein),
		parts.TextOf(p.t("page.feed.fast_days"), parts.StrongBody), parts.NewRow(days...)),
		parts.NewFlow(p.deps.Button("keep", "page.day.keep", parts.Primary, keep), p.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
	p.deps.Focus(share.Focusable())
}

// sheets asks how many sheets there are to be and for whom.
func (p *Profile) sheets() {
	w := p.deps.Present.W
	count := parts.NewField(parts.FieldSpec{ID: "sheets", Label: p.t("page.counter.how_many"), Text: "10"})
	names := parts.NewField(parts.FieldSpec{ID: "families", Label: p.t("page.counter.families"), Hint: p.t("page.counter.families_hint"), Lines: 6})
	var shut func()
	keep := func() {
		nav.Fault(count, "")
		nav.Fault(names, "")
		labels, err := present.Families(count.Text(), names.Text())
		if err != nil {
			words, _ := w.Problem(err)
			box := count
			if fieldOf(err) == "label" {
				box = names
			}
			nav.Fault(box, words)
			nav.ToFault(p.deps, box)
			return
		}
		shut()
		p.deps.HandSheets(p.id, labels, p.Refresh)
	}
	count.OnEnter = keep
	shut = p.deps.Dialog(p.t("page.counter.sheets"), parts.NewColumn(8, parts.TextOf(w.T("page.counter.sheets_why", i18n.Args{"Most": w.Number(keeper.MaxSheets, 3)}), parts.SoftBody), count, names),
		parts.NewFlow(p.deps.Button("keep", "page.counter.make_sheets", parts.Primary, keep), p.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
	p.deps.Focus(count.Focusable())
}
