package daybook

import (
	"context"
	"slices"
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

// live says at once what a test being typed means and what to do next.
type live struct {
	form   *form
	column *parts.Column
	said   *parts.Verdict
	work   *parts.Working
	plan   *parts.Button
	remind *parts.Tick                // of testing again
	again  bool                       // the judgement asks for another test
	turned bool                       // the person has ticked or unticked it
	asked  int                        // judgements asked for; only the answer to the last is shown
	onPlan func(share quantity.Ratio) // goes on to the water change; nil shows no way
	share  quantity.Ratio             // that the test asks to change
}

func newLive(f *form) *live {
	w := f.deps.Present.W
	l := &live{form: f, said: parts.NewVerdict(parts.VerdictSpec{})}
	l.work = parts.NewWorking(parts.WorkingSpec{Show: w.T("working.heading", nil), Hide: w.T("working.hide", nil)})
	l.plan = parts.NewButton(parts.ButtonSpec{ID: "plan-change", Label: w.T("page.entry.plan_change", nil)}, func() {
		if l.onPlan != nil {
			l.onPlan(l.share)
		}
	})
	l.remind = parts.NewTick(parts.TickSpec{ID: "remind"}, func(done bool) { l.turned = true })
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
		if l.again = l.form.from.ID == "" && asksAgain(j); l.again {
			t := l.remind.Spec()
			t.Text = l.form.deps.Present.W.T("page.entry.remind", i18n.Args{"Day": l.form.deps.Present.W.DayHeading(l.dueAt())})
			if !l.turned {
				t.Done = j.State == working.Act
			}
			l.remind.Set(t)
			show = append(show, l.remind)
		}
		trails := j.Trails
		if j.Advice != nil {
			l.share = j.Advice.Share
			trails = slices.Concat(j.Advice.Trails, trails)
			if l.onPlan != nil {
				show = append(show, parts.NewFlow(l.plan))
			}
		}
		if len(trails) > 0 {
			spec := l.work.Spec()
			spec.Parts = nil
			for _, t := range trails {
				spec.Parts = append(spec.Parts, nav.WorkingParts(l.form.deps.Present.W.Trail(t))...)
			}
			l.work.Set(spec)
			show = append(show, l.work)
		}
		l.column.Set(show...)
	})
}

// asksAgain reports whether a judgement asks for another test.
func asksAgain(j keeper.Judgement) bool {
	return slices.ContainsFunc(j.Findings, func(f working.Finding) bool { return f.Code == "find.water.do.test_again" })
}

// dueAt is when to test again: a day after this test, and never in the past.
func (l *live) dueAt() time.Time {
	due := l.form.deps.Now().AddDate(0, 0, 1)
	if at, _, ok := l.form.when.peek(); ok {
		if t, err := at.Parse(); err == nil && journal.CivilOf(t.AddDate(0, 0, 1)) > journal.CivilOf(due) {
			return t.AddDate(0, 0, 1)
		}
	}
	return due
}

// followUp is when to test again, where the person wants to be reminded.
func (l *live) followUp() (journal.Civil, bool) {
	return journal.CivilOf(l.dueAt()), l.again && l.remind.Spec().Done
}
