package slips

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// Take shows a reply with each of its proposals to take or leave. It goes on showing
// them after some were taken, with what stands now.
type Take struct {
	deps   nav.Deps
	view   keeper.ReplyView
	found  []working.Finding
	shown  present.Reply
	off    map[string]bool // items that are not ticked
	column *parts.Column
	tank   *parts.Choice
	take   *parts.Button
	ticks  map[string]*parts.Tick
	// OnTaken is told what was taken into which tank.
	OnTaken func(tank string)
}

// NewTake shows a reply that was opened.
func NewTake(d nav.Deps, v keeper.ReplyView, found []working.Finding) *Take {
	t := &Take{deps: d, view: v, found: found, off: map[string]bool{}, column: parts.NewColumn(10), ticks: map[string]*parts.Tick{}}
	t.tank = parts.NewChoice(parts.ChoiceSpec{}, t.chosen)
	t.take = t.deps.Button("reply-take", "page.reply.take", parts.Primary, t.taken)
	t.lay()
	return t
}

// Object is the list of proposals, Button takes those that are ticked.
func (t *Take) Object() fyne.CanvasObject { return t.column }

// Button takes what is ticked.
func (t *Take) Button() *parts.Button { return t.take }

func (t *Take) t(k working.Key) string { return t.deps.Present.W.T(k, nil) }

// lay puts the parts in the column.
func (t *Take) lay() {
	p := t.deps.Present
	t.shown = p.Reply(t.view)
	head := []fyne.CanvasObject{parts.TextOf(t.shown.From[0], parts.StrongBody)}
	for _, l := range t.shown.From[1:] {
		head = append(head, parts.TextOf(l, parts.Note))
	}
	head = append(head, parts.TextOf(t.shown.Beside, parts.Note))
	for _, f := range t.found {
		if f.State == working.Steady {
			head = append(head, parts.TextOf(p.Say(f), parts.Note))
			continue
		}
		head = append(head, parts.NewStated(nav.State(f.State), p.W.State(f.State), p.Say(f)))
	}
	out := []fyne.CanvasObject{parts.NewColumn(2, head...)}
	if t.shown.Again != "" {
		out = append(out, parts.NewVerdict(parts.VerdictSpec{State: parts.Wait, Title: t.shown.Again, Lines: []string{t.t("page.reply.again_note")}}))
	}
	out = append(out, t.whose()...)
	for _, x := range t.shown.Items {
		out = append(out, t.item(x))
	}
	b := t.take.Spec()
	b.Off = len(t.Ticked()) == 0 // there is nothing to take
	t.take.Set(b)
	t.column.Set(out...)
}

// whose says for which tank the reply is, or asks.
func (t *Take) whose() []fyne.CanvasObject {
	p := t.deps.Present
	tanks, err := t.deps.Keeper.Tanks(context.Background())
	if err != nil {
		t.deps.Fail(err)
		return nil
	}
	spec := parts.ChoiceSpec{ID: "reply-tank", Label: t.t("page.reply.which"), Chosen: t.view.Tank, Placeholder: t.t("page.reply.which_none")}
	for _, x := range tanks {
		if x.ID == t.view.Tank && t.known() {
			return []fyne.CanvasObject{parts.TextOf(p.W.T("page.reply.for", i18n.Args{"Tank": p.TankName(x)}), parts.Body)}
		}
		spec.Options = append(spec.Options, parts.Option{Code: x.ID, Label: p.TankName(x)})
	}
	if len(tanks) == 0 {
		return []fyne.CanvasObject{parts.TextOf(t.t("page.reply.no_tank"), parts.Body)}
	}
	t.tank.Set(spec)
	return []fyne.CanvasObject{parts.TextOf(t.t("page.reply.unknown"), parts.Body), t.tank}
}

// known reports whether the daybook itself tells whose the reply is.
func (t *Take) known() bool {
	v, err := t.deps.Keeper.ReplyBeside(context.Background(), t.view.Reply, "")
	return err == nil && v.Tank != ""
}

func (t *Take) chosen(tank string) {
	v, err := t.deps.Keeper.ReplyBeside(context.Background(), t.view.Reply, tank)
	if err != nil {
		t.deps.Fail(err)
		return
	}
	t.view = v
	t.lay()
}

// item is one proposal: a box to tick where it can be taken.
func (t *Take) item(x present.ReplyItem) fyne.CanvasObject {
	var lines []fyne.CanvasObject
	if x.Open {
		tick := t.ticks[x.ID]
		if tick == nil {
			tick = parts.NewTick(parts.TickSpec{}, nil)
			t.ticks[x.ID] = tick
		}
		tick.Set(parts.TickSpec{ID: "reply-" + x.ID, Text: x.Title, Done: !t.off[x.ID], Strong: true, Choice: true})
		tick.OnToggled = func(done bool) {
			t.off[x.ID] = !done
			t.lay()
		}
		lines = append(lines, tick)
	} else {
		delete(t.ticks, x.ID)
		lines = append(lines, parts.TextOf(x.Title, parts.StrongBody))
	}
	for _, l := range x.Lines {
		lines = append(lines, parts.TextOf(l, parts.Body))
	}
	if x.Why != "" {
		lines = append(lines, parts.TextOf(x.Why, parts.SoftBody))
	}
	if x.Note != "" {
		lines = append(lines, parts.TextOf(x.Note, parts.Note))
	}
	return parts.NewColumn(2, lines...)
}

// Ticked are the items that a press of Button would take.
func (t *Take) Ticked() []string {
	var items []string
	for _, x := range t.shown.Items {
		if x.Open && !t.off[x.ID] {
			items = append(items, x.ID)
		}
	}
	return items
}

// Done reports whether nothing is left that could be taken.
func (t *Take) Done() bool { return t.view.Tank != "" && len(t.view.Open()) == 0 }

// taken takes what is ticked, as one change.
func (t *Take) taken() {
	items := t.Ticked()
	if t.view.Tank == "" {
		s := t.tank.Spec()
		s.Error = t.t("refuse.missing")
		t.tank.Set(s)
		return
	}
	r, tank, lang := t.view.Reply, t.view.Tank, t.deps.Present.W.Language()
	t.deps.Work(func(ctx context.Context) error {
		_, err := t.deps.Keeper.TakeReply(ctx, tank, r, items, lang)
		return err
	}, func(err error) {
		if err != nil {
			t.deps.Fail(err)
			return
		}
		t.deps.Changed()
		t.chosen(tank)
		if t.OnTaken != nil {
			t.OnTaken(tank)
		}
	})
}
