package slip

import (
	"slices"
	"strings"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
)

// Reply is a reply slip: what a shop answers to a visit slip. Each thing in it is a
// proposal that the keeper takes or leaves.
type Reply struct {
	// Version of the format, as read. WriteReply always writes Version.
	Version   int
	MadeBy    Maker
	Signature Signature // as read

	ID    string
	Visit string // the ID of the visit that it answers
	Made  journal.Civil
	Zone  string
	Shop  Shop
	// Test is the shop's own test of the keeper's water; nil where none was made.
	Test *ShopTest
	// Advice by language tag (BCP 47), up to MaxString bytes each.
	Advice map[string]string
	Rounds []ProposedRound
	Plan   []ProposedAnimals
	// More are members that a later version added: see Visit.More.
	More map[string]string
}

// ShopTest is a water test that a shop made: readings as typed, with unit and basis.
type ShopTest struct {
	At       journal.Civil
	Zone     string
	Readings []journal.Reading // of journal.Tests, without a kit
}

// ProposedRound is something to do again and again, or once.
type ProposedRound struct {
	Code  rounds.Code
	Title string // of an own round
	Rule  string // as rounds.ParseRule reads it
	// Start is the first day and its time by the clock on the wall; empty leaves it to
	// the keeper's program.
	Start journal.Civil
	Why   string
}

// PlanChange says which way a plan is to change.
type PlanChange string

// The changes.
const (
	PlanAdd  PlanChange = "add"  // wish for more of a kind
	PlanHold PlanChange = "hold" // hold back what is wished for
)

// ProposedAnimals is a change of what is wished for.
type ProposedAnimals struct {
	Change  PlanChange
	Species string // of the catalogue
	Count   int    // 0 with PlanHold is all of the kind
	Males   *int   // with PlanAdd
	Why     string
}

// Empty reports whether r proposes nothing and says nothing.
func (r Reply) Empty() bool {
	return r.Test == nil && len(r.Advice) == 0 && len(r.Rounds) == 0 && len(r.Plan) == 0
}

// Check refuses what a reply slip cannot hold. Errors: *Error.
func (r Reply) Check() error {
	c := checker{part: partReply}
	c.maker(r.MadeBy)
	c.id("id", r.ID)
	c.id("visit", r.Visit)
	c.civil("made", r.Made, true)
	c.zone("zone", r.Zone, true)
	c.line("shop.name", r.Shop.Name, MaxShopName)
	c.text("shop.address", r.Shop.Address, MaxAddress)
	c.text("shop.hours", r.Shop.Hours, MaxHours)
	if t := r.Test; t != nil {
		c.civil("test.at", t.At, true)
		c.zone("test.zone", t.Zone, true)
		c.is(len(t.Readings) > 0, "test.readings", CodeEntry)
		c.readings("test.readings", t.Readings, nil)
		for _, x := range t.Readings {
			c.is(slices.Contains(journal.Tests(), x.Name), "test.readings", CodeEntry)
		}
	}
	c.put(checkNotes(partReply, "advice", r.Advice))
	for lang, a := range r.Advice {
		c.is(strings.TrimSpace(a) != "", join("advice", lang), CodeShape)
	}
	c.most("rounds", len(r.Rounds), MaxProposals)
	for _, p := range r.Rounds {
		c.is(p.Code.Known(), "rounds.code", CodeProposal)
		c.line("rounds.title", p.Title, MaxSaid)
		c.is(p.Code != rounds.Own || strings.TrimSpace(p.Title) != "", "rounds.title", CodeProposal)
		_, err := rounds.ParseRule(p.Rule)
		c.is(err == nil && strings.TrimSpace(p.Rule) == p.Rule && strings.ToUpper(p.Rule) == p.Rule, "rounds.rule", CodeProposal)
		c.civil("rounds.start", p.Start, false)
		c.text("rounds.why", p.Why, MaxWhy)
	}
	c.most("plan", len(r.Plan), MaxProposals)
	for _, p := range r.Plan {
		c.is(p.Change == PlanAdd || p.Change == PlanHold, "plan.change", CodeProposal)
		c.is(wordForm.MatchString(p.Species), "plan.species", CodeProposal)
		least := 1
		if p.Change == PlanHold {
			least = 0
		}
		c.is(p.Count >= least && p.Count <= maxCount, "plan.count", CodeProposal)
		c.is(p.Males == nil || p.Change == PlanAdd && *p.Males >= 0 && *p.Males <= p.Count, "plan.males", CodeProposal)
		c.text("plan.why", p.Why, MaxWhy)
	}
	c.others(r.More, replyMembers)
	return c.err
}
