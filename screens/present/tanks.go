package present

import (
	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
)

// TankName is the name of a tank with what sets it apart: the example, or one
// that is out of use.
func (p Presenter) TankName(t keeper.Tank) string {
	mark := working.Key("")
	switch {
	case !t.Retired.IsZero():
		mark = "page.tanks.mark_retired"
	case t.Origin == keeper.Example:
		mark = "page.start.example_mark"
	default:
		return t.Name
	}
	return p.W.T("page.start.marked", i18n.Args{"Name": t.Name, "Mark": mark})
}

// TankState is a tank as the first page lists it: how it stands and why.
type TankState struct {
	State working.State
	Word  string // empty where it has no state: a tank out of use
	Text  string
}

// TankState presents how a tank stands: an open case, the latest test, what First
// fill waits for.
func (p Presenter) TankState(t keeper.Today) TankState {
	w := p.W
	if !t.Tank.Retired.IsZero() {
		return TankState{Text: w.T("page.tanks.retired_on", i18n.Args{"Date": w.ShortDate(t.Tank.Retired)})}
	}
	out := TankState{State: working.Steady}
	switch {
	case len(t.Cases) > 0:
		out.State, out.Text = working.Act, w.N("n.open_cases", float64(len(t.Cases)), nil)
	case !t.Next.All && t.Day == 0:
		return TankState{Text: w.T("page.tanks.first_fill", i18n.Args{"Step": working.Key("step." + string(t.Next.Step))})}
	case t.Water != nil:
		v := p.Judged(*t.Water)
		out.State, out.Text = v.State, v.Title
	case t.Day > 0:
		out.Text = w.T("page.tanks.untested", nil)
	}
	out.Word = w.State(out.State)
	return out
}
