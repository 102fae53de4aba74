package daybook

import (
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// whenBox is the date and time of an entry: typed as people write them, or moved
// by a day with the arrow keys and the two buttons beside it. The day is said in
// words below the box.
type whenBox struct {
	w       *i18n.Words
	now     time.Time
	field   *parts.Field
	row     *parts.Row
	changed func()
}

func newWhenBox(d nav.Deps, e journal.Entry, now time.Time, enter func()) *whenBox {
	b := &whenBox{w: d.Present.W, now: now}
	at := now
	if t, err := e.At.Parse(); err == nil {
		at = t
	}
	b.field = parts.NewField(parts.FieldSpec{ID: "when", Label: b.w.T("page.day.when", nil), Text: at.Format(i18n.WhenLayout)})
	b.field.OnEnter = enter
	b.field.OnStep = b.step
	b.field.OnChanged = func(string) { b.say() }
	back := parts.NewButton(parts.ButtonSpec{ID: "day-before", Label: b.w.T("page.entry.day_before", nil), Kind: parts.Quiet}, func() { b.step(-1) })
	on := parts.NewButton(parts.ButtonSpec{ID: "day-after", Label: b.w.T("page.entry.day_after", nil), Kind: parts.Quiet}, func() { b.step(1) })
	b.row = parts.NewRow(b.field, parts.NewFlow(back, on))
	b.say()
	return b
}

// step moves the day; the time of day stays.
func (b *whenBox) step(days int) {
	t, ok := b.w.ReadWhen(b.field.Text(), b.now)
	if !ok {
		return
	}
	b.field.Type(t.AddDate(0, 0, days).Format(i18n.WhenLayout))
	b.say()
}

// say writes below the box which day it is, or what is accepted.
func (b *whenBox) say() {
	s := b.field.Spec()
	s.Error, s.Hint = "", b.w.T("page.entry.when_hint", nil)
	if t, ok := b.w.ReadWhen(b.field.Text(), b.now); ok {
		s.Hint = b.w.T("date.time", i18n.Args{"Date": b.w.DayHeading(t), "Time": b.w.Time(t)})
		if t.Year() != b.now.Year() {
			s.Hint = b.w.DateTime(t)
		}
	}
	s.Text = b.field.Text()
	b.field.Set(s)
	if b.changed != nil {
		b.changed()
	}
}

// peek is the time as it can be read now, with the zone that the wall clock had then.
func (b *whenBox) peek() (journal.Civil, string, bool) {
	t, ok := b.w.ReadWhen(b.field.Text(), b.now)
	return journal.CivilOf(t), journal.ZoneOf(t), ok
}

// read is peek that says below the box what is wrong.
func (b *whenBox) read() (journal.Civil, string, bool) {
	at, zone, ok := b.peek()
	words := ""
	if !ok {
		words = b.w.T("page.entry.when_wrong", nil)
	}
	wrong(b.field, words)
	return at, zone, ok
}
