package parts

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// Place is one of the program's places on the navigation bar.
type Place struct {
	Code  string // reported when chosen; not shown
	Label string
}

// Icon is a small drawing on a button of the navigation bar.
type Icon uint8

// The icons.
const (
	IconUndo Icon = iota
	IconRedo
	IconSettings
	IconHelp
)

// Action is a small button at the right of the navigation bar.
type Action struct {
	Code  string
	Label string // shown when pointed at or focused
	Icon  Icon
	Off   bool // there is nothing to do
}

// NavSpec is what a NavBar shows.
type NavSpec struct {
	Tank    string  // name and volume; opens the menu of tanks
	Brief   string  // the name alone, shown where Tank has no room; "" for none
	Tanks   []Place // opened by the tank's name; without any OnTank is told at once
	At      string  // code of the tank shown
	Places  []Place
	Current string // code of the place shown
	Actions []Action
	More    string // what the button for the places that have no room is called
}

// NavBar is the bar at the head of the window: the tank, the places, and small
// buttons. Tabs take the focus one by one; left and right arrows go between
// them. Places that have no room go into a list.
type NavBar struct {
	part
	OnTank   func(code string)
	OnPlace  func(code string)
	OnAction func(code string)

	spec    NavSpec
	tank    *navItem
	tabs    []*navItem
	more    *navItem
	actions []*navItem
	hidden  []Place // those in the list
}

// NewNavBar gives a bar. Callbacks are set afterwards.
func NewNavBar(s NavSpec) *NavBar {
	n := &NavBar{}
	n.begin(n)
	n.tank = newNavItem(n, navTank)
	n.tank.pressed = n.openTanks
	n.more = newNavItem(n, navMore)
	n.more.pressed = n.openMore
	n.apply(s)
	return n
}

// Set shows another spec.
func (n *NavBar) Set(s NavSpec) {
	if same(s, n.spec) {
		return
	}
	n.apply(s)
	n.update()
}

// Spec gives what is shown.
func (n *NavBar) Spec() NavSpec { return n.spec }

func call(f func()) {
	if f != nil {
		f()
	}
}

func (n *NavBar) apply(s NavSpec) {
	n.spec = s
	n.more.set("…", false, false, 0)
	for len(n.tabs) < len(s.Places) {
		n.tabs = append(n.tabs, newNavItem(n, navTab))
	}
	n.tabs = n.tabs[:len(s.Places)]
	for i, pl := range s.Places {
		n.tabs[i].set(pl.Label, pl.Code == s.Current, false, 0)
		n.tabs[i].pressed = func() { n.visit(pl.Code) }
	}
	for len(n.actions) < len(s.Actions) {
		n.actions = append(n.actions, newNavItem(n, navAction))
	}
	n.actions = n.actions[:len(s.Actions)]
	for i, a := range s.Actions {
		n.actions[i].set(a.Label, false, a.Off, a.Icon)
		n.actions[i].pressed = func() {
			if n.OnAction != nil {
				n.OnAction(a.Code)
			}
		}
	}
}

func (n *NavBar) visit(code string) {
	if n.OnPlace != nil {
		n.OnPlace(code)
	}
}

// openTanks lists the tanks there are and what can be done about them.
func (n *NavBar) openTanks() {
	chosen := func(code string) {
		if n.OnTank != nil {
			n.OnTank(code)
		}
	}
	cv := fyne.CurrentApp().Driver().CanvasForObject(n.tank)
	if cv == nil || len(n.spec.Tanks) == 0 {
		chosen("")
		return
	}
	l := listSpec{chosen: n.spec.At}
	for _, t := range n.spec.Tanks {
		l.options = append(l.options, Option(t))
	}
	openList(l, cv, fyne.CurrentApp().Driver().AbsolutePositionForObject(n.tank), n.tank.Size(), func(code string, ok bool) {
		cv.Focus(n.tank)
		if ok {
			chosen(code)
		}
	})
}

// openMore lists the places that have no room on the bar.
func (n *NavBar) openMore() {
	cv := fyne.CurrentApp().Driver().CanvasForObject(n.more)
	if cv == nil || len(n.hidden) == 0 {
		return
	}
	l := listSpec{chosen: n.spec.Current}
	for _, pl := range n.hidden {
		l.options = append(l.options, Option(pl))
	}
	pos := fyne.CurrentApp().Driver().AbsolutePositionForObject(n.more)
	openList(l, cv, pos, n.more.Size(), func(code string, chosen bool) {
		cv.Focus(n.more)
		if chosen {
			n.visit(code)
		}
	})
}

func (n *NavBar) leastWidth() float32          { return 320 }
func (n *NavBar) grew()                        {}
func (n *NavBar) reveal(fyne.CanvasObject)     {}
func (n *NavBar) spare(ev *fyne.KeyEvent) bool { return n.holder != nil && n.holder.spare(ev) }

// step moves the focus between tabs.
func (n *NavBar) step(from *navItem, by int) {
	var shown []*navItem
	for _, t := range append(append([]*navItem(nil), n.tabs...), n.more) {
		if t.Visible() {
			shown = append(shown, t)
		}
	}
	for i, t := range shown {
		if t == from && i+by >= 0 && i+by < len(shown) {
			shown[i+by].take()
		}
	}
}

const (
	navHeight   = 58
	navInset    = 28
	navGap      = 38 // between tabs where there is room
	navGapLeast = 16
	navTabsAt   = 0.367 // judgement: the tabs begin a little left of the middle
	navIcon     = 34
)

func (n *NavBar) draw(p *pen, width float32) float32 {
	h := navHeight * p.k
	if p.pool == nil {
		return h
	}
	p.rect(0, h-1, width, 1, box{fill: look.Rule})
	right := width - navInset + 8
	ax := right - float32(len(n.actions))*navIcon*p.k
	most := 0.34 * (ax - navInset)
	spare := ax - navInset - 2*navGapLeast*p.k // what the tabs leave
	for _, t := range n.tabs {
		spare -= t.naturalWidth() + navGapLeast*p.k
	}
	most = max(most, spare)
	n.tank.set(n.spec.Tank, false, false, 0)
	if n.spec.Brief != "" && n.tank.naturalWidth() > most {
		n.tank.set(n.spec.Brief, false, false, 0)
	}
	tank := min(n.tank.naturalWidth(), most)
	p.put(n.tank, navInset, 0, tank, h)
	from, to := navInset+tank+navGapLeast*p.k, ax-navGapLeast
	if len(n.actions) == 0 {
		to = width - navInset
	}
	n.placeTabs(p, from, to, width, h)
	for i, a := range n.actions {
		p.put(a, ax+float32(i)*navIcon*p.k, 0, navIcon*p.k, h)
	}
	n.name(p, ax, h)
	return h
}

// placeTabs puts as many tabs as fit between two edges, and the rest in the list.
func (n *NavBar) placeTabs(p *pen, from, to, width, h float32) {
	total := float32(0)
	for _, t := range n.tabs {
		total += t.naturalWidth()
	}
	gaps := float32(max(len(n.tabs)-1, 0))
	gap := navGap * p.k
	if total+gaps*gap > to-from && gaps > 0 {
		gap = (to - from - total) / gaps
	}
	fit := len(n.tabs)
	if gap < navGapLeast*p.k {
		gap = navGapLeast * p.k
		fit = n.fitting(to-from, gap)
	}
	used := float32(0)
	for _, t := range n.tabs[:fit] {
		used += t.naturalWidth() + gap
	}
	n.hidden = append([]Place(nil), n.spec.Places[fit:]...)
	shown := append([]*navItem(nil), n.tabs[:fit]...)
	if n.currentHidden() && fit > 0 { // the place shown is always on the bar
		n.hidden = append(n.hidden, Place{})
		copy(n.hidden[1:], n.hidden)
		n.hidden[0] = n.spec.Places[fit-1]
		n.swapCurrent(shown)
		for i, pl := range n.hidden {
			if pl.Code == n.spec.Current {
				n.hidden = append(n.hidden[:i], n.hidden[i+1:]...)
				break
			}
		}
	}
	x := max(from, min(navTabsAt*width, to-used+gap))
	if fit < len(n.tabs) {
		x = from
	}
	for _, t := range shown {
		t.Show()
		w := t.naturalWidth()
		p.put(t, x, 0, w, h)
		x += w + gap
	}
	for _, t := range n.tabs {
		if !contains(shown, t) {
			t.Hide()
		}
	}
	if len(n.hidden) > 0 {
		n.more.Show()
		p.put(n.more, x, 0, n.more.naturalWidth(), h)
	} else {
		n.more.Hide()
	}
}

func contains(items []*navItem, t *navItem) bool {
	for _, i := range items {
		if i == t {
			return true
		}
	}
	return false
}

func (n *NavBar) currentHidden() bool {
	for _, pl := range n.hidden {
		if pl.Code == n.spec.Current {
			return true
		}
	}
	return false
}

// swapCurrent puts the tab of the place shown in the place of the last one.
func (n *NavBar) swapCurrent(shown []*navItem) {
	for i, pl := range n.spec.Places {
		if pl.Code == n.spec.Current {
			shown[len(shown)-1] = n.tabs[i]
		}
	}
}

// fitting gives how many tabs fit into a width with the list's button after
// them. The widest of the hidden ones may have to take the last place.
func (n *NavBar) fitting(room, gap float32) int {
	room -= n.more.naturalWidth()
	current := float32(0)
	for i, pl := range n.spec.Places {
		if pl.Code == n.spec.Current {
			current = n.tabs[i].naturalWidth()
		}
	}
	used := float32(0)
	for i, t := range n.tabs {
		w := t.naturalWidth()
		if used+max(w, current)+gap > room {
			return i
		}
		used += w + gap
	}
	return len(n.tabs)
}

// name shows what the action that is pointed at is called, left of the actions.
func (n *NavBar) name(p *pen, right, h float32) {
	for _, a := range n.actions {
		if !a.hovered && !a.focused {
			continue
		}
		const pad = 8
		w := p.widthOf(a.label, bodyInk) + 2*pad
		t := p.line(bodyInk) + pad
		p.rect(right-w-4, (h-t)/2, w, t, box{fill: look.Sheet, stroke: look.Edge, width: 1, radius: sheetRadius})
		p.text(a.label, right-w-4+pad, (h-t)/2+pad/2, bodyInk)
		return
	}
}
