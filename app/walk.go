package main

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/screens/firstfill"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/shell"
)

// clock is the time of a walk, which the walk itself moves on.
type clock struct{ t time.Time }

func (c *clock) now() time.Time { return c.t }

// walker goes through First fill by keyboard alone, as a person would: from
// part to part with Tab, typing, Space and Enter. The tour takes its pictures
// from such a walk and the window tests read its pages.
type walker struct {
	shell  *shell.Shell
	canvas fyne.Canvas
	clock  *clock
	// at is called on each page, before anything is typed and before it is left.
	at func(step care.Step, page present.Page, filled bool) error
}

// answer is one thing to type, choose or tick on the way.
type answer struct {
	field  care.FieldID
	text   string
	option string
}

// plan is a tank of somebody's own: what they answer at each step.
type plan struct {
	answers map[care.Step][]answer
	reading string // of the thermometer, once it is warm
}

// gallons is a 10 US gallon tank on a frame of 45 mm timber, in US units.
func gallons() plan {
	return plan{reading: "77", answers: map[care.Step][]answer{
		care.TankPlace:  {{field: "tank.nominal", option: "us_10"}, {field: "room.low", text: "64"}, {field: "socket.height", text: "42 in"}},
		care.KitList:    {{field: "filter.flow", text: "80"}},
		care.StandFloor: {{field: "stand.kind", option: "frame"}, {field: "stand.depth", text: "14"}, {field: "frame.material", option: "c24"}, {field: "frame.leg_width", text: "45 mm"}, {field: "frame.leg_depth", text: "45 mm"}, {field: "frame.rail_height", text: "95 mm"}, {field: "stand.anchored", option: "yes"}, {field: "floor.kind", option: "slab"}},
		care.FillTreat:  {{field: "water.source", option: "chloramine"}, {field: "dose.amount", text: "5 ml"}, {field: "dose.per", text: "10 gal"}},
		care.FirstFish:  {{field: "fish.adult", text: "2"}, {field: "fish.count", text: "2"}},
		care.HomeComing: {{field: "bag.volume", text: "1 l"}, {field: "bag.temp", text: "70.7"}},
	}}
}

// litres is a 54 L tank on a rated stand over a wooden floor, in metric units.
func litres() plan {
	return plan{reading: "25", answers: map[care.Step][]answer{
		care.TankPlace:  {{field: "tank.nominal", option: "metric_54"}, {field: "gravel.front", text: "4"}, {field: "gravel.back", text: "6,5"}, {field: "socket.height", text: "110"}},
		care.StandFloor: {{field: "stand.kind", option: "bought"}, {field: "stand.depth", text: "40"}, {field: "stand.rated", text: "150"}, {field: "stand.footprint", option: "yes"}, {field: "stand.anchored", option: "yes"}, {field: "floor.kind", option: "slab"}},
		care.FillTreat:  {{field: "water.source", option: "chlorine"}, {field: "dose.amount", text: "5"}, {field: "dose.per", text: "38"}},
		care.FirstFish:  {{field: "fish.adult", text: "4,5"}},
		care.HomeComing: {{field: "bag.volume", text: "1"}, {field: "bag.temp", text: "21,5"}},
	}}
}

// walk starts a tank at the first page and goes to the end of First fill.
func (w *walker) walk(p plan) error {
	w.shell.Go(nav.Route{Place: nav.Start})
	if err := w.press("begin", fyne.KeyReturn); err != nil {
		return err
	}
	for _, step := range care.Steps() {
		if got := w.shell.Route(); got.Place != nav.FirstFill || got.Step != step {
			return fmt.Errorf("walk: at %s %s, not at %s: %v", got.Place, got.Step, step, w.missing())
		}
		if err := w.step(step, p); err != nil {
			return fmt.Errorf("walk: %s: %w", step, err)
		}
	}
	if got := w.shell.Route().Place; got != nav.Today {
		return fmt.Errorf("walk: ended at %s: %v", got, w.missing())
	}
	return nil
}

// missing is what the present page still waits for, for the reader of an error.
func (w *walker) missing() []string {
	if page, ok := w.page(); ok {
		return page.Blocked
	}
	return nil
}

func (w *walker) page() (present.Page, bool) {
	if p, ok := w.shell.Page().(*firstfill.Page); ok {
		return p.Shown(), true
	}
	return present.Page{}, false
}

func (w *walker) step(step care.Step, p plan) error {
	page, _ := w.page()
	if err := w.at(step, page, false); err != nil {
		return err
	}
	for _, a := range p.answers[step] {
		if err := w.give(a); err != nil {
			return err
		}
	}
	if err := w.wait(step, p); err != nil {
		return err
	}
	page, _ = w.page()
	for _, t := range page.Ticks {
		if !t.Set {
			if err := w.press(string(t.ID), fyne.KeySpace); err != nil {
				return err
			}
		}
	}
	for _, n := range page.Notes {
		if n.Confirm && !n.Confirmed {
			if err := w.press("confirm", fyne.KeySpace); err != nil {
				return err
			}
		}
	}
	page, _ = w.page()
	if err := w.at(step, page, true); err != nil {
		return err
	}
	return w.press("carry-on", fyne.KeyReturn)
}

// wait does what a step takes time for: the heater's quarter of an hour, a day
// of readings, the weeks in which the filter matures, the floating bag.
func (w *walker) wait(step care.Step, p plan) error {
	switch step {
	case care.PowerOn:
		w.pass(20 * time.Minute)
	case care.Settle:
		for range 4 {
			w.pass(9 * time.Hour)
			if err := w.give(answer{field: "draft.temperature", text: p.reading}); err != nil {
				return err
			}
			w.key(fyne.KeyReturn)
		}
	case care.FirstFish:
		// The filter is fed, keeps up weeks later, and shows it twice.
		for _, t := range []struct {
			text  string
			until time.Duration
		}{{"1", 35 * 24 * time.Hour}, {"0", 25 * time.Hour}, {"0", 0}} {
			for _, f := range []care.FieldID{"draft.ammonia", "draft.nitrite"} {
				if err := w.give(answer{field: f, text: t.text}); err != nil {
					return err
				}
			}
			if err := w.press("note-test", fyne.KeyReturn); err != nil {
				return err
			}
			w.pass(t.until)
		}
	case care.HomeComing:
		if err := w.press("timer-start", fyne.KeySpace); err != nil {
			return err
		}
		w.pass(2 * time.Hour)
	}
	return nil
}

func (w *walker) pass(d time.Duration) {
	w.clock.t = w.clock.t.Add(d)
	w.shell.Page().Refresh()
}

// give types or chooses one answer.
func (w *walker) give(a answer) error {
	if err := w.to(string(a.field)); err != nil {
		return err
	}
	if a.option == "" {
		w.fill(a.text)
		return nil
	}
	c, ok := w.canvas.Focused().(*parts.Choice)
	if !ok {
		return fmt.Errorf("%s is no choice", a.field)
	}
	for range len(c.Spec().Options) + 1 {
		if c.Spec().Chosen == a.option {
			return nil
		}
		// Open the list, go one on, take it.
		at := 0
		for i, o := range c.Spec().Options {
			if o.Code == c.Spec().Chosen {
				at = i
			}
		}
		to := at
		for i, o := range c.Spec().Options {
			if o.Code == a.option {
				to = i
			}
		}
		w.key(fyne.KeySpace)
		for ; at < to; at++ {
			w.key(fyne.KeyDown)
		}
		for ; at > to; at-- {
			w.key(fyne.KeyUp)
		}
		w.key(fyne.KeyReturn)
		if err := w.to(string(a.field)); err != nil {
			return err
		}
		c = w.canvas.Focused().(*parts.Choice)
	}
	return fmt.Errorf("%s has no option %s", a.field, a.option)
}

// fill replaces the text of the box that has the focus.
func (w *walker) fill(text string) {
	if s, ok := w.canvas.Focused().(fyne.Shortcutable); ok {
		s.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	for _, r := range text {
		w.canvas.Focused().TypedRune(r)
	}
	w.canvas.FocusNext() // leaving the box keeps it
}

// press goes to a part and types a key on it.
func (w *walker) press(id string, key fyne.KeyName) error {
	if err := w.to(id); err != nil {
		return err
	}
	w.key(key)
	return nil
}

func (w *walker) key(name fyne.KeyName) {
	if f := w.canvas.Focused(); f != nil {
		f.TypedKey(&fyne.KeyEvent{Name: name})
		if name == fyne.KeySpace {
			f.TypedRune(' ')
		}
	}
}

// to goes from part to part with Tab until the one with the ID has the focus.
func (w *walker) to(id string) error {
	const most = 400 // parts on a page
	for range most {
		if parts.IDOf(w.canvas.Focused()) == id {
			return nil
		}
		w.canvas.FocusNext()
	}
	return fmt.Errorf("walk: no way by Tab to %q", id)
}
