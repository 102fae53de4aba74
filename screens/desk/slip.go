package desk

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/slips"
)

// Slip is one slip of the desk with the reply that is written beside it.
type Slip struct {
	deps nav.Deps
	tank string
	id   string
	root *fyne.Container

	left, right *parts.Scroller
	back        *parts.Button
	compose     *slips.Compose
	replies     *slips.Memory
	label       string
}

var _ nav.Page = (*Slip)(nil)

// NewSlip makes the page of a slip; m has the replies that were begun.
func NewSlip(d nav.Deps, tank, id string, m *slips.Memory) *Slip {
	p := &Slip{deps: d, tank: tank, id: id, replies: m, left: parts.NewScroller(10), right: parts.NewScroller(10)}
	p.back = p.button("back", "page.desk.all", parts.Quiet, func() { d.Go(nav.Route{Place: nav.Desk, Tank: tank}) })
	p.left.Column().Set(parts.NewSpace(8), parts.NewFlow(p.back))
	p.root = container.New(halves{}, p.left, p.right)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Slip) Object() fyne.CanvasObject { return p.root }

// Focus implements nav.Page.
func (p *Slip) Focus() {
	if c := p.deps.Canvas(); c != nil {
		c.Focus(p.back)
	}
}

func (p *Slip) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

func (p *Slip) button(id string, label working.Key, kind parts.ButtonKind, do func()) *parts.Button {
	return parts.NewButton(parts.ButtonSpec{ID: id, Label: p.t(label), Kind: kind}, do)
}

// Refresh implements nav.Page. A reply that is being written stays as it is.
func (p *Slip) Refresh() {
	var o keeper.OnDesk
	var err error
	p.deps.Aside(func(ctx context.Context) { o, err = p.deps.Keeper.DeskVisit(ctx, p.id) }, func() {
		if err != nil {
			p.left.Column().Set(parts.NewSpace(8), parts.NewFlow(p.back), parts.TextOf(p.deps.Present.Error(err), parts.Refusal))
			p.right.Column().Set()
			return
		}
		p.label = o.Label
		p.show(o)
	})
}

func (p *Slip) show(o keeper.OnDesk) {
	v := o.Visit
	v.Label = o.Label // as this shop calls the customer
	out := []fyne.CanvasObject{parts.NewSpace(8), parts.NewFlow(p.back,
		p.button("rename", "page.desk.rename", parts.Quiet, p.rename),
		p.button("forget", "page.desk.forget", parts.Quiet, p.forget))}
	out = append(out, slips.Visit(p.deps, v, o.Found)...)
	p.left.Column().Set(append(out, parts.NewSpace(12))...)

	if p.compose == nil {
		c, err := slips.NewCompose(p.deps, o.Visit, p.replies)
		if err != nil {
			p.deps.Fail(err)
			return
		}
		written := func() {
			p.compose = nil // what was written stands above, and the next one begins anew
			p.right.Top()
			p.Focus()
			p.Refresh()
		}
		c.OnReady = func(r slip.Reply) { p.deps.AnswerVisit(r, written) }
		c.OnPaper = func(r slip.Reply) { p.deps.PrintReply(r, written) }
		p.compose = c
	}
	right := []fyne.CanvasObject{parts.NewSpace(8), parts.TextOf(p.t("page.reply.compose"), parts.Section)}
	for _, r := range o.Replies {
		right = append(right, p.written(r))
	}
	p.right.Column().Set(append(right, p.compose.Object(), parts.NewFlow(p.compose.Button(), p.compose.Paper()), parts.NewSpace(12))...)
}

// written is a reply that was handed over.
func (p *Slip) written(r keeper.ReplyView) fyne.CanvasObject {
	s := p.deps.Present.Reply(r)
	var lines []fyne.CanvasObject
	for _, x := range s.Items {
		lines = append(lines, parts.TextOf(x.Title, parts.StrongBody))
		for _, l := range x.Lines {
			lines = append(lines, parts.TextOf(l, parts.Body))
		}
		if x.Why != "" {
			lines = append(lines, parts.TextOf(x.Why, parts.SoftBody))
		}
	}
	lines = append(lines, parts.NewFlow(p.button("paper-"+r.Reply.ID, "page.visit.paper", parts.Quiet, func() { p.deps.PrintAgain(r.Reply.ID) })))
	return parts.NewPanel(s.Beside, lines...)
}

// rename asks what the customer is called.
func (p *Slip) rename() {
	f := parts.NewField(parts.FieldSpec{ID: "label", Label: p.t("page.desk.label"), Text: p.label})
	var shut func()
	keep := func() {
		label := f.Text()
		var err error
		p.deps.Aside(func(ctx context.Context) { err = p.deps.Keeper.RelabelVisit(ctx, p.id, label) }, func() {
			if err != nil {
				nav.Fault(f, p.deps.Present.Error(err))
				return
			}
			shut()
			p.Refresh()
		})
	}
	f.OnEnter = keep
	shut = p.deps.Dialog(p.t("page.desk.rename"), f, parts.NewFlow(p.button("keep", "page.day.keep", parts.Primary, keep), p.button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
	if c := p.deps.Canvas(); c != nil {
		c.Focus(f.Focusable())
	}
}

// forget deletes the slip after one question, for there is no way back.
func (p *Slip) forget() {
	var shut func()
	no := p.button("cancel", "label.cancel", parts.Secondary, func() { shut() })
	yes := p.button("yes", "page.desk.forget_now", parts.Primary, func() {
		var wiped bool
		var err error
		p.deps.Aside(func(ctx context.Context) { wiped, err = p.deps.Keeper.ForgetVisit(ctx, p.id) }, func() {
			shut()
			if err != nil {
				p.deps.Fail(err)
				return
			}
			p.replies.Forget(p.id)
			p.deps.Go(nav.Route{Place: nav.Desk, Tank: p.tank})
			words := p.t("page.desk.forgotten")
			if !wiped {
				words = p.t("page.desk.not_wiped")
			}
			p.deps.Say(words, "", nil)
		})
	})
	shut = p.deps.Dialog(p.t("page.desk.forget"), parts.TextOf(p.t("page.desk.forget_what"), parts.Body), parts.NewFlow(yes, no))
	if c := p.deps.Canvas(); c != nil {
		c.Focus(no)
	}
}

// halves sets the slip beside the reply; the slip has a little more of the width.
type halves struct{}

const (
	slipShare = 0.54 // judgement: tests and pictures need more than boxes
	gutter    = 24
)

func (halves) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(640, 300) }

func (halves) Layout(o []fyne.CanvasObject, s fyne.Size) {
	left := (s.Width - 3*gutter) * slipShare
	o[0].Move(fyne.NewPos(gutter, 0))
	o[0].Resize(fyne.NewSize(left, s.Height))
	o[1].Move(fyne.NewPos(left+2*gutter, 0))
	o[1].Resize(fyne.NewSize(s.Width-left-3*gutter, s.Height))
}
