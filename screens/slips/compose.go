package slips

import (
	"context"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// Compose is a reply in the making: the shop's own test, advice, rounds and changes of
// the plan. What is typed stays in it until it is written, or until its slip is deleted.
type Compose struct {
	deps  nav.Deps
	visit slip.Visit
	reply slip.Reply

	tests  []*testBox
	basis  *parts.Choice
	advice map[string]*parts.Field
	langs  []string
	round  roundBoxes
	plan   planBoxes
	column *parts.Column
	said   *parts.Text
	button *parts.Button
	paper  *parts.Button
	memory *Memory
	// OnReady is given the reply once nothing in it is refused, for its file; OnPaper for
	// its paper.
	OnReady, OnPaper func(slip.Reply)
}

// testBox is one line of the shop's test.
type testBox struct {
	name string
	*nav.Measured
	none *parts.Tick // below what the kit shows
}

type roundBoxes struct {
	code, unit *parts.Choice
	every      *nav.Measured
	title, why *parts.Field
}

type planBoxes struct {
	change, kind *parts.Choice
	count        *nav.Measured
	why          *parts.Field
}

// askedTests are what a shop tests, in the order of its card. The label is that of the
// daybook's own form.
var askedTests = []struct {
	name    string
	label   working.Key
	kind    quantity.Kind
	purpose i18n.Purpose
}{
	{journal.NameAmmonia, "page.day.ammonia", quantity.KindConcentration, i18n.General}, {journal.NameNitrite, "page.day.nitrite", quantity.KindConcentration, i18n.General},
	{journal.NameNitrate, "page.day.nitrate", quantity.KindConcentration, i18n.General}, {journal.NamePH, "page.day.ph", quantity.KindPH, i18n.General},
	{journal.NameKH, "page.day.kh", quantity.KindHardness, i18n.Carbonate}, {journal.NameGH, "page.entry.gh", quantity.KindHardness, i18n.Mineral},
}

// NewCompose begins a reply to a visit, or goes on with the one that memory has. Errors:
// those of the keeper.
func NewCompose(d nav.Deps, v slip.Visit, m *Memory) (*Compose, error) {
	r, err := d.Keeper.BeginReply(context.Background(), v)
	if err != nil {
		return nil, err
	}
	c := &Compose{deps: d, visit: v, reply: r, memory: m, advice: map[string]*parts.Field{}, column: parts.NewColumn(12), said: parts.NewText(parts.TextSpec{Role: parts.Refusal})}
	w := d.Present.W
	for _, x := range askedTests {
		b := &testBox{name: x.name, Measured: nav.NewMeasured(d, "reply-"+x.name, x.label, x.kind, x.purpose, quantity.Measure{}, false)}
		if journal.HasBasis(x.name) {
			b.none = parts.NewTick(parts.TickSpec{ID: "reply-none-" + x.name, Text: c.t("reading.is_not_detected")}, nil)
			b.none.OnToggled = func(done bool) {
				s := b.none.Spec()
				s.Done = done
				b.none.Set(s)
			}
		}
		c.tests = append(c.tests, b)
	}
	c.basis = c.choice("reply-basis", "page.reply.basis", string(quantity.AsN), []parts.Option{{Code: string(quantity.AsN), Label: c.t("word.basis.n")}, {Code: string(quantity.AsIon), Label: c.t("word.basis.ion")}})
	c.langs = []string{w.Language()}
	if own := v.Language; own != "" && own != w.Language() && i18n.Offered(own) {
		c.langs = append([]string{own}, c.langs...)
	}
	for _, l := range c.langs {
		c.advice[l] = c.adviceBox(l)
	}
	c.button = c.deps.Button("reply-write", "page.reply.write", parts.Primary, func() { c.write(c.OnReady) })
	c.paper = c.deps.Button("reply-paper", "page.visit.paper", parts.Secondary, func() { c.write(c.OnPaper) })
	c.newRound()
	c.newPlan()
	m.goOn(c)
	c.lay()
	return c, nil
}

// adviceBox is the box for advice in a language.
func (c *Compose) adviceBox(l string) *parts.Field {
	w := c.deps.Present.W
	return parts.NewField(parts.FieldSpec{ID: "reply-advice-" + l, Label: w.T("page.reply.advice_in", i18n.Args{"Language": w.NameHere(l)}), Lines: 4})
}

// Object is the form.
func (c *Compose) Object() fyne.CanvasObject { return c.column }

// Button writes the reply as a file, Paper on paper.
func (c *Compose) Button() *parts.Button { return c.button }

// Paper is the button beside Button.
func (c *Compose) Paper() *parts.Button { return c.paper }

// First is the box in which work begins.
func (c *Compose) First() fyne.Focusable { return c.tests[0].Focusable() }

func (c *Compose) t(k working.Key) string { return c.deps.Present.W.T(k, nil) }

// choice is a choice that keeps what is chosen.
func (c *Compose) choice(id string, label working.Key, chosen string, options []parts.Option) *parts.Choice {
	ch := parts.NewChoice(parts.ChoiceSpec{ID: id, Label: c.t(label), Chosen: chosen, Options: options, Placeholder: c.t("page.reply.search"), Search: c.t("page.reply.search"), Empty: c.t("page.reply.search_none")}, nil)
	ch.OnChosen = func(code string) {
		s := ch.Spec()
		s.Chosen, s.Error = code, ""
		ch.Set(s)
	}
	return ch
}

func (c *Compose) newRound() {
	var codes, units []parts.Option
	for _, x := range append(rounds.Usual(), rounds.Own) {
		codes = append(codes, parts.Option{Code: string(x), Label: c.deps.Present.RoundName(rounds.Round{Code: x})})
	}
	for _, u := range rounds.Units() {
		units = append(units, parts.Option{Code: string(u), Label: c.t(working.Key("page.rounds.unit_" + string(u)))})
	}
	c.round = roundBoxes{code: c.choice("reply-round", "page.reply.what", string(rounds.Test), codes), unit: c.choice("reply-unit", "page.rounds.unit", string(rounds.Days), units),
		every: nav.NewMeasured(c.deps, "reply-every", "page.reply.every", quantity.KindCount, i18n.General, quantity.Of(1, "piece", 1), false),
		title: parts.NewField(parts.FieldSpec{ID: "reply-title", Label: c.t("page.reply.own_title")}), why: parts.NewField(parts.FieldSpec{ID: "reply-round-why", Label: c.t("page.reply.why")})}
	keep := c.round.code.OnChosen
	c.round.code.OnChosen = func(code string) {
		keep(code)
		c.lay() // a round of one's own has a title
	}
}

func (c *Compose) newPlan() {
	p := c.deps.Present
	changes := []parts.Option{{Code: string(slip.PlanAdd), Label: c.t("page.reply.change_add")}, {Code: string(slip.PlanHold), Label: c.t("page.reply.change_hold")}}
	var kinds []parts.Option
	first := ""
	for _, w := range c.visit.Wishes {
		kinds = append(kinds, parts.Option{Code: w.Species, Label: p.KindName(fish.Code(w.Species))})
	}
	if len(kinds) > 0 {
		first = kinds[0].Code
	}
	for _, a := range fish.Find(fish.Filter{}, nil) {
		if !slices.ContainsFunc(kinds, func(o parts.Option) bool { return o.Code == string(a.Code) }) {
			kinds = append(kinds, parts.Option{Code: string(a.Code), Label: p.KindName(a.Code)})
		}
	}
	change := slip.PlanAdd
	if first != "" {
		change = slip.PlanHold
	}
	c.plan = planBoxes{change: c.choice("reply-change", "page.reply.plan_what", string(change), changes), kind: c.choice("reply-kind", "page.reply.kind", first, kinds),
		count: nav.NewMeasured(c.deps, "reply-count", "page.reply.count", quantity.KindCount, i18n.General, quantity.Measure{}, false),
		why:   parts.NewField(parts.FieldSpec{ID: "reply-plan-why", Label: c.t("page.reply.why")})}
}

// lay puts the parts of the form in the column, with the proposals that were added.
func (c *Compose) lay() {
	p := c.deps.Present
	shown := p.Reply(c.beside())
	var boxes, plain []fyne.CanvasObject
	for _, b := range c.tests {
		if b.none != nil {
			boxes = append(boxes, parts.NewColumn(0, b.Field, b.none))
			continue
		}
		plain = append(plain, b.Field)
	}
	out := []fyne.CanvasObject{parts.TextOf(c.t("page.reply.own_test"), parts.Section), parts.NewRow(boxes...), c.basis, parts.NewRow(plain...), parts.TextOf(c.t("page.reply.advice"), parts.Section)}
	for _, l := range c.langs {
		out = append(out, c.advice[l])
	}
	added := func(prefix string, drop func(i int)) {
		i := 0
		for _, x := range shown.Items {
			if !strings.HasPrefix(x.ID, prefix) {
				continue
			}
			n := i
			i++
			out = append(out, parts.NewErrand(parts.ErrandSpec{Title: x.Title, When: i18n.Sentences(x.Lines...), Text: x.Why},
				c.deps.Button("drop-"+x.ID, "page.reply.drop", parts.Quiet, func() { drop(n); c.lay() })))
		}
	}
	out = append(out, parts.TextOf(c.t("page.reply.rounds"), parts.Section))
	added("round.", func(i int) { c.reply.Rounds = slices.Delete(slices.Clone(c.reply.Rounds), i, i+1) })
	out = append(out, parts.NewRow(c.round.code, c.round.every.Field, c.round.unit))
	if c.ownRound() {
		out = append(out, c.round.title)
	}
	out = append(out, c.round.why, parts.NewFlow(c.deps.Button("reply-add-round", "page.reply.add_round", parts.Secondary, c.addRound)))
	out = append(out, parts.TextOf(c.t("page.reply.plan"), parts.Section))
	added("plan.", func(i int) { c.reply.Plan = slices.Delete(slices.Clone(c.reply.Plan), i, i+1) })
	out = append(out, parts.NewRow(c.plan.change, c.plan.kind, c.plan.count.Field), c.plan.why,
		parts.NewFlow(c.deps.Button("reply-add-plan", "page.reply.add_plan", parts.Secondary, c.addPlan)))
	out = append(out, c.said)
	c.column.Set(out...)
}

// beside is the reply as the keeper will see it, without a tank of theirs.
func (c *Compose) beside() keeper.ReplyView {
	v, err := c.deps.Keeper.ReplyBeside(context.Background(), c.reply, "")
	if err != nil {
		c.deps.Fail(err)
	}
	return v
}

// ownRound reports whether the round that is being proposed has a title of its own.
func (c *Compose) ownRound() bool { return c.round.code.Spec().Chosen == string(rounds.Own) }

func (c *Compose) addRound() {
	n, ok := c.round.every.Read()
	if !ok {
		nav.ToFault(c.deps, c.round.every.Field)
		return
	}
	every := 1
	if v, err := n.Value(); err == nil {
		every = int(v.X)
	}
	rule, err := rounds.Plain{Every: every, Unit: rounds.Unit(c.round.unit.Spec().Chosen)}.Rule()
	if err != nil {
		words, _ := c.deps.Present.W.Problem(err)
		c.round.every.Fault(words)
		nav.ToFault(c.deps, c.round.every.Field)
		return
	}
	p := slip.ProposedRound{Code: rounds.Code(c.round.code.Spec().Chosen), Rule: rule.String(), Why: slip.OneLine(c.round.why.Text())}
	words := ""
	if c.ownRound() {
		if p.Title = slip.OneLine(c.round.title.Text()); p.Title == "" {
			words = c.t("refuse.missing")
		}
	}
	nav.Fault(c.round.title, words)
	if nav.ToFault(c.deps, c.round.title) {
		return
	}
	c.reply.Rounds = append(slices.Clone(c.reply.Rounds), p)
	empty(c.round.title, c.round.why)
	c.lay()
}

func (c *Compose) addPlan() {
	n, ok := c.plan.count.Read()
	if !ok {
		nav.ToFault(c.deps, c.plan.count.Field)
		return
	}
	p := slip.ProposedAnimals{Change: slip.PlanChange(c.plan.change.Spec().Chosen), Species: c.plan.kind.Spec().Chosen, Why: slip.OneLine(c.plan.why.Text())}
	if v, err := n.Value(); err == nil {
		p.Count = int(v.X)
	}
	if p.Species == "" {
		s := c.plan.kind.Spec()
		s.Error = c.t("refuse.missing")
		c.plan.kind.Set(s)
		if cv := c.deps.Canvas(); cv != nil {
			cv.Focus(c.plan.kind)
		}
		return
	}
	if p.Change == slip.PlanAdd && p.Count < 1 {
		c.plan.count.Fault(c.t("refuse.missing"))
		nav.ToFault(c.deps, c.plan.count.Field)
		return
	}
	c.reply.Plan = append(slices.Clone(c.reply.Plan), p)
	empty(c.plan.count.Field, c.plan.why)
	c.lay()
}

// empty empties boxes whose words are in a proposal now, so that the next begins anew.
func empty(boxes ...*parts.Field) {
	for _, b := range boxes {
		s := b.Spec()
		s.Text, s.Error = "", ""
		b.Set(s)
	}
}

// left finds words of a proposal that was begun and not added, and says so beside them:
// they would not be in the reply. It reports whether there are some.
func (c *Compose) left() bool {
	round := []*parts.Field{c.round.why}
	if c.ownRound() {
		round = append([]*parts.Field{c.round.title}, round...)
	}
	for _, of := range []struct {
		boxes  []*parts.Field
		button working.Key
	}{{round, "page.reply.add_round"}, {[]*parts.Field{c.plan.count.Field, c.plan.why}, "page.reply.add_plan"}} {
		for _, b := range of.boxes {
			words := ""
			if strings.TrimSpace(b.Text()) != "" {
				words = c.deps.Present.W.T("page.reply.not_added", i18n.Args{"Button": c.t(of.button)})
			}
			nav.Fault(b, words)
			if nav.ToFault(c.deps, b) {
				return true
			}
		}
	}
	return false
}

// read takes what is typed into the reply; false where something cannot be read, which
// is said beside its box.
func (c *Compose) read() (slip.Reply, bool) {
	r, good := c.reply, true
	r.Test, r.Advice = nil, nil
	var rs []journal.Reading
	for _, b := range c.tests {
		x := journal.Reading{Name: b.name}
		if journal.HasBasis(b.name) {
			x.Measure.Basis = quantity.Basis(c.basis.Spec().Chosen)
		}
		m, ok := b.Read()
		good = good && ok
		switch {
		case b.none != nil && b.none.Spec().Done:
			x.Qualifier = journal.NotDetected
		case m.IsZero():
			continue
		default:
			x.Measure.Number, x.Measure.Unit = m.Number, m.Unit
			if err := x.Check(); err != nil {
				words, _ := c.deps.Present.W.Problem(err)
				b.Fault(words)
				good = false
			}
		}
		rs = append(rs, x)
	}
	if len(rs) > 0 {
		r.Test = &slip.ShopTest{At: r.Made, Zone: r.Zone, Readings: rs}
	}
	for l, f := range c.advice {
		if s := strings.TrimSpace(slip.Tidy(f.Text())); s != "" {
			if r.Advice == nil {
				r.Advice = map[string]string{}
			}
			r.Advice[l] = s
		}
	}
	return r, good
}

// write hands the reply on to ready once nothing in it is refused.
func (c *Compose) write(ready func(slip.Reply)) {
	r, ok := c.read()
	if !ok {
		for _, b := range c.tests {
			if nav.ToFault(c.deps, b.Field) {
				break
			}
		}
		return
	}
	if c.left() {
		return
	}
	words := ""
	if err := keeper.CheckReply(r); err != nil {
		words, _ = c.deps.Present.W.Problem(err)
	}
	c.said.Set(parts.TextSpec{Text: words, Role: parts.Refusal})
	if words == "" && ready != nil {
		ready(r)
	}
}
