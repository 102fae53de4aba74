package daybook

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// live says at once what a test being typed means and what to do next.
type live struct {
	form   *form
	column *parts.Column
	said   *parts.Verdict
	work   *parts.Working
	plan   *parts.Button
	asked  int    // judgements asked for; only the answer to the last is shown
	onPlan func() // goes on to the water change; nil shows no way
}

func newLive(f *form) *live {
	w := f.deps.Present.W
	l := &live{form: f, said: parts.NewVerdict(parts.VerdictSpec{})}
	l.work = parts.NewWorking(parts.WorkingSpec{Show: w.T("working.heading", nil), Hide: w.T("working.hide", nil)})
	l.plan = parts.NewButton(parts.ButtonSpec{ID: "plan-change", Label: w.T("page.entry.plan_change", nil)}, func() {
		if l.onPlan != nil {
			l.onPlan()
		}
	})
	l.column = parts.NewColumn(8)
	return l
}

// judge asks what the test now says, away from the window's thread.
func (l *live) judge() {
	e, ok := l.form.draft()
	l.asked++
	n := l.asked
	if !ok {
		l.column.Set()
		return
	}
	l.form.deps.Work(func(ctx context.Context) error {
		j, err := l.form.deps.Keeper.JudgeDraft(ctx, l.form.tank, e)
		l.answer(n, j, err)
		return nil
	}, func(error) {})
}

// answer shows a judgement, unless something was typed since.
func (l *live) answer(n int, j keeper.Judgement, err error) {
	fyne.Do(func() {
		if n != l.asked {
			return
		}
		if err != nil {
			l.column.Set()
			return
		}
		v := l.form.deps.Present.Judged(j)
		l.said.Set(parts.VerdictSpec{State: nav.State(v.State), Title: v.Title, Lines: v.Lines})
		show := []fyne.CanvasObject{l.said}
		if j.Advice != nil {
			spec := l.work.Spec()
			spec.Parts = nil
			for _, t := range j.Advice.Trails {
				spec.Parts = append(spec.Parts, nav.WorkingParts(l.form.deps.Present.W.Trail(t))...)
			}
			l.work.Set(spec)
			if l.onPlan != nil {
				show = append(show, parts.NewFlow(l.plan))
			}
			show = append(show, l.work)
		}
		l.column.Set(show...)
	})
}
