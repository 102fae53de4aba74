package present

import (
	"slices"
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
)

// A slip comes from a stranger: codes that this version does not know are shown as they
// are, and none of them is taken for a message.
func TestVisitOfUnknownCodes(t *testing.T) {
	for _, lang := range []string{"en", "es"} {
		p := Presenter{W: i18n.Speak(lang, "ES", quantity.Metric)}
		v := slip.Visit{ID: "v", Made: "2026-11-25T12:00", Zone: "+01:00", From: "2026-11-01", To: "2026-11-25", Units: quantity.Metric,
			Stock: []slip.Animal{{Species: "of-later", Count: 3}, {Count: 1}}, Case: &slip.VisitCase{Species: "of-later", Many: "of_later", Outcome: "of_later", Opened: "2026-11-20T08:00", Closed: "2026-11-21T08:00",
				Signs: []slip.VisitSign{{Sign: "of_later", Seen: "2026-11-20T08:00", Gone: "2026-11-21T08:00"}}},
			Entries: []slip.VisitEntry{{Entry: journal.Entry{Kind: journal.StepDone, At: "2026-11-02T08:00"}}}}
		s := p.Visit(v)
		if len(s.Stock) != 2 || s.Stock[0].Name != "Of later" || s.Case.Signs[0].Text != "of_later" || s.Title == "" || len(s.Others) != 1 {
			t.Errorf("%s: shown as %+v, %+v", lang, s, s.Case)
		}
		if missing := i18n.Missing(); len(missing) > 0 {
			t.Errorf("%s: taken for messages: %v", lang, missing)
		}
	}
}

// Meals that say the same are one line with how often and when; others stand alone.
func TestVisitFeedingIsTogether(t *testing.T) {
	p := Presenter{W: i18n.Speak("en", "ES", quantity.Metric)}
	fed := func(at journal.Civil, food string) slip.VisitEntry {
		return slip.VisitEntry{Entry: journal.Entry{Kind: journal.Fed, At: at, Readings: []journal.Reading{journal.Said(journal.NameWhat, food)}}}
	}
	s := p.Visit(slip.Visit{Made: "2026-11-25T12:00", From: "2026-11-01", To: "2026-11-25", Entries: []slip.VisitEntry{fed("2026-11-20T08:00", "flake"), fed("2026-11-21T08:00", "peas"), fed("2026-11-22T08:00", "flake")}})
	if len(s.Feeding) != 2 || !strings.Contains(s.Feeding[0].Text, "flake") || !strings.Contains(s.Feeding[0].Text, "2 times") || strings.Contains(s.Feeding[1].Text, "times") {
		t.Errorf("feeding is %+v", s.Feeding)
	}
}

// What cannot be taken says why, in words; what was taken says when.
func TestReplyItemsSayHowTheyStand(t *testing.T) {
	p := Presenter{W: i18n.Speak("en", "ES", quantity.Metric)}
	r := slip.Reply{Made: "2026-11-25T12:00", Advice: map[string]string{"es": "Espera."}, Plan: []slip.ProposedAnimals{{Change: slip.PlanHold, Species: "danio-rerio", Count: 2, Why: "Too soon."}}}
	s := p.Reply(keeper.ReplyView{Reply: r, Tank: "t", Items: []keeper.ReplyItem{{ID: keeper.ItemAdvice}, {ID: keeper.ItemPlan(0), Plan: &r.Plan[0]}}})
	if len(s.Items) != 2 || s.Items[0].Lines[0] != "Espera." || s.Items[0].Note == "" || s.Items[1].Title != "Hold back 2: Zebra danio" || s.Items[1].Why != "Too soon." || !s.Items[1].Open || s.From[0] == "" {
		t.Errorf("shown as %+v", s)
	}
}

// Answers are told apart where they stand without their page: the two bottles by what
// each is, with how much for how much water, and the prices by what is bought.
func TestAnswersAreToldApart(t *testing.T) {
	for _, lang := range []string{"en", "de", "ja"} {
		p := Presenter{W: i18n.Speak(lang, "US", quantity.US)}
		by := map[care.FieldID]care.Answer{}
		for _, f := range care.Fields() {
			if !slip.VisitFact(f.ID) && !slip.Settable(f.ID) {
				continue
			}
			a := care.Answer{Measure: quantity.Measure{Number: "7", Unit: "one"}}
			if len(f.Options) > 0 {
				a = care.Answer{Choice: f.Options[0]}
			}
			by[f.ID] = a
		}
		by["dose.amount"], by["dose.per"] = care.Answer{Measure: quantity.Measure{Number: "5", Unit: "ml"}}, care.Answer{Measure: quantity.Measure{Number: "38", Unit: "l"}}
		type at struct {
			step care.Step
			name string
		}
		seen := map[at]care.FieldID{}
		for _, s := range p.Answers(by) {
			k := at{s.Step, s.Name}
			if was, ok := seen[k]; ok {
				t.Errorf("%s: %s and %s are both called %q", lang, was, s.Field, s.Name)
			}
			seen[k] = s.Field
			if want := p.W.Measure(by["dose.amount"].Measure) + " / " + p.W.Measure(by["dose.per"].Measure); s.Field == "dose.amount" && s.Text != want {
				t.Errorf("%s: the dose is %q, want %q", lang, s.Text, want)
			}
			if s.Field == "dose.per" || s.Field == "bacteria.per" {
				t.Errorf("%s: %s is told twice", lang, s.Field)
			}
		}
		delete(by, "dose.amount")
		if all := p.Answers(by); !slices.ContainsFunc(all, func(s Said) bool { return s.Field == "dose.per" }) {
			t.Errorf("%s: how much water is lost without how much of the bottle", lang)
		}
	}
}
