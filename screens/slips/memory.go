package slips

import (
	"strings"

	"example.org/driploop/screens/parts"
)

// Memory is the replies that were begun and not written, by the visit slip that they
// answer: whoever looks something up in the catalogue finds the reply as it was left.
// The zero Memory is empty. It goes with the program.
type Memory struct{ begun map[string]*Compose }

// goOn gives a new form what was typed into the one before, and remembers the new one.
func (m *Memory) goOn(c *Compose) {
	was := m.begun[c.visit.ID]
	if m.begun == nil {
		m.begun = map[string]*Compose{}
	}
	m.begun[c.visit.ID] = c
	if was != nil {
		c.copy(was)
	}
}

// Forget drops the reply that was begun to a visit slip, as when it was written or the
// slip is deleted.
func (m *Memory) Forget(visit string) { delete(m.begun, visit) }

// copy takes what stands in another form, which may be in another language or in other
// units: a number keeps the unit that it was typed in.
func (c *Compose) copy(o *Compose) {
	c.reply.Rounds, c.reply.Plan = o.reply.Rounds, o.reply.Plan
	for i, b := range c.tests {
		from := o.tests[i]
		text := from.Text()
		if u := from.Spec().Unit; strings.TrimSpace(text) != "" && u != b.Spec().Unit {
			text += " " + u
		}
		put(b.Field, text)
		if b.none != nil {
			s := b.none.Spec()
			s.Done = from.none.Spec().Done
			b.none.Set(s)
		}
	}
	for l, f := range o.advice {
		if strings.TrimSpace(f.Text()) == "" {
			continue
		}
		if c.advice[l] == nil { // in the language that the program spoke before
			c.langs = append(c.langs, l)
			c.advice[l] = c.adviceBox(l)
		}
		put(c.advice[l], f.Text())
	}
	for to, from := range map[*parts.Field]*parts.Field{c.round.every.Field: o.round.every.Field, c.round.title: o.round.title, c.round.why: o.round.why,
		c.plan.count.Field: o.plan.count.Field, c.plan.why: o.plan.why} {
		put(to, from.Text())
	}
	for to, from := range map[*parts.Choice]*parts.Choice{c.basis: o.basis, c.round.code: o.round.code, c.round.unit: o.round.unit, c.plan.change: o.plan.change, c.plan.kind: o.plan.kind} {
		s := to.Spec()
		s.Chosen = from.Spec().Chosen
		to.Set(s)
	}
}

func put(b *parts.Field, text string) {
	s := b.Spec()
	s.Text = text
	b.Set(s)
}
