package slip

import (
	"crypto/ed25519"
	"io"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
)

// replyMembers are the members of reply.json.
var replyMembers = []string{"id", "visit", "made", "zone", "shop", "test", "advice", "rounds", "plan"}

// ReadReply reads a reply slip of size bytes. The findings name what was left out, as
// those of ReadProfile do; members of a later version are named, and kept in More.
// Errors: *Error; no part of the slip is given then.
func ReadReply(r io.ReaderAt, size int64) (Reply, []working.Finding, error) {
	parts, err := directory(r, size, slipLimits)
	if err != nil {
		return Reply{}, nil, err
	}
	o, err := open(newUnpacker(r, slipLimits), parts, FormatReply, partReply, only(partReply))
	if err != nil {
		return Reply{}, nil, err
	}
	p := Reply{Version: o.manifest.Version, MadeBy: o.manifest.MadeBy, Signature: o.signed}
	o.fetch.part = partReply
	if err := o.fetch.reply(&p, o.bodies[partReply]); err != nil {
		return Reply{}, nil, err
	}
	if err := p.Check(); err != nil {
		return Reply{}, nil, err
	}
	return p, o.findings(), nil
}

// Proposals reads what a shop answers as JSON in the form of reply.json, of which id,
// visit, made, zone and shop may be missing: they are taken from begun. Errors:
// *Error.
func Proposals(data []byte, begun Reply) (Reply, []working.Finding, error) {
	o := opened{manifest: manifest{Version: Version}, fetch: fetch{part: partReply}}
	p := Reply{Version: Version, MadeBy: begun.MadeBy}
	if err := o.fetch.reply(&p, data); err != nil {
		return Reply{}, nil, err
	}
	for _, x := range []struct{ to, from *string }{{&p.ID, &begun.ID}, {&p.Visit, &begun.Visit}, {(*string)(&p.Made), (*string)(&begun.Made)}, {&p.Zone, &begun.Zone}} {
		if *x.to == "" {
			*x.to = *x.from
		}
	}
	if p.Shop == (Shop{}) {
		p.Shop = begun.Shop
	}
	if t := p.Test; t != nil && t.At == "" {
		t.At = begun.Made
	}
	if t := p.Test; t != nil && t.Zone == "" {
		t.Zone = begun.Zone
	}
	if err := p.Check(); err != nil {
		return Reply{}, nil, err
	}
	return p, o.findings(), nil
}

func (f *fetch) reply(p *Reply, data []byte) error {
	t, err := parse(partReply, data, slipLimits)
	if err != nil {
		return err
	}
	m := f.members(t, "", p.Version, replyMembers...)
	if m.err != nil {
		return m.err
	}
	p.More = kept(data, replyMembers)
	p.ID, p.Visit, p.Made, p.Zone = m.text("id"), m.text("visit"), m.civil("made"), m.text("zone")
	p.Shop, err = f.shop(m.of)
	m.put(err)
	if m.has("test") {
		in := f.members(m.of["test"], "test", p.Version, "at", "zone", "readings")
		p.Test = &ShopTest{At: in.civil("at"), Zone: in.text("zone")}
		p.Test.Readings, _ = in.readings("readings")
		if m.put(in.err); len(p.Test.Readings) == 0 && p.Version > Version {
			p.Test = nil // nothing of it was understood
		}
	}
	advice, err := f.notes(m.of, "advice")
	m.put(err)
	if len(advice) > 0 {
		p.Advice = advice
	}
	m.each("rounds", MaxProposals, func(t tree, place string) error {
		in := f.members(t, place, p.Version, "code", "title", "rule", "start", "why")
		r := ProposedRound{Code: rounds.Code(in.text("code")), Title: in.text("title"), Rule: in.text("rule"), Start: in.civil("start"), Why: in.text("why")}
		if in.err == nil && p.Version > Version {
			_, err := rounds.ParseRule(r.Rule)
			in.later(r.Code.Known() && err == nil)
		}
		if in.err == nil {
			p.Rounds = append(p.Rounds, r)
		}
		return in.err
	})
	m.each("plan", MaxProposals, func(t tree, place string) error {
		in := f.members(t, place, p.Version, "change", "species", "count", "males", "why")
		a := ProposedAnimals{Change: PlanChange(in.text("change")), Species: in.text("species"), Count: in.count("count"), Males: in.maybe("males"), Why: in.text("why")}
		in.later(p.Version == Version || a.Change == PlanAdd || a.Change == PlanHold)
		if in.err == nil {
			p.Plan = append(p.Plan, a)
		}
		return in.err
	})
	return m.err
}

// later refuses a line that is of a later version.
func (m *members) later(understood bool) {
	if !understood {
		m.put(&Error{Code: CodeProposal, Part: m.f.part, Place: m.place})
	}
}

// The body of a reply, as written.
type writtenReply struct {
	ID     string            `json:"id"`
	Visit  string            `json:"visit"`
	Made   journal.Civil     `json:"made"`
	Zone   string            `json:"zone"`
	Shop   *Shop             `json:"shop,omitempty"`
	Test   *writtenTest      `json:"test,omitempty"`
	Advice map[string]string `json:"advice,omitempty"`
	Rounds []writtenRound    `json:"rounds,omitempty"`
	Plan   []writtenPlan     `json:"plan,omitempty"`
}

type writtenTest struct {
	At       journal.Civil    `json:"at"`
	Zone     string           `json:"zone"`
	Readings []writtenReading `json:"readings"`
}

type writtenRound struct {
	Code  rounds.Code   `json:"code"`
	Title string        `json:"title,omitempty"`
	Rule  string        `json:"rule"`
	Start journal.Civil `json:"start,omitempty"`
	Why   string        `json:"why,omitempty"`
}

type writtenPlan struct {
	Change  PlanChange `json:"change"`
	Species string     `json:"species"`
	Count   int        `json:"count"`
	Males   *int       `json:"males,omitempty"`
	Why     string     `json:"why,omitempty"`
}

// WriteReply writes r so that the same reply gives the same bytes, signed with the key
// unless that is nil. Errors: *Error when r holds what a reply cannot; those of w.
func WriteReply(w io.Writer, r Reply, key ed25519.PrivateKey) error {
	if err := r.Check(); err != nil {
		return err
	}
	out := writtenReply{ID: r.ID, Visit: r.Visit, Made: r.Made, Zone: r.Zone, Advice: r.Advice}
	if r.Shop != (Shop{}) {
		out.Shop = &r.Shop
	}
	if t := r.Test; t != nil {
		out.Test = &writtenTest{t.At, t.Zone, writtenReadings(t.Readings, nil)}
	}
	for _, p := range r.Rounds {
		out.Rounds = append(out.Rounds, writtenRound(p))
	}
	for _, p := range r.Plan {
		out.Plan = append(out.Plan, writtenPlan(p))
	}
	body, err := withMore(out, r.More)
	if err != nil {
		return err
	}
	if _, err := parse(partReply, body, slipLimits); err != nil { // advice in very many languages
		return err
	}
	return pack(w, manifest{Format: FormatReply, Version: Version, MadeBy: r.MadeBy}, []part{{partReply, body}}, key)
}
