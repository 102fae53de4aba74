package care_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/model/working"
)

var at = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

func record(system quantity.System, region string) *care.Record {
	return &care.Record{System: system, Region: care.Region{Code: region}, Answers: map[care.FieldID]care.Answer{}, Done: map[care.Step]care.Done{}, Now: at}
}

// No field of First fill is ever empty or refused when nobody has typed
// anything, in either system, for any shape and any size sold.
func TestEveryProposalIsAccepted(t *testing.T) {
	checked := 0
	for _, system := range quantity.Systems() {
		for _, shape := range tank.Shapes() {
			for _, n := range tank.Nominals() {
				r := record(system, "US")
				r.Answers["tank.nominal"] = care.Answer{Choice: n.Code}
				r.Answers["tank.shape"] = care.Answer{Choice: string(shape)}
				for _, kind := range []string{"bought", "furniture", "frame"} {
					r.Answers["stand.kind"] = care.Answer{Choice: kind}
					f := care.NewFacts(r)
					steps := care.Steps()
					if kind != "bought" {
						steps = []care.Step{care.StandFloor} // the only page that the kind of stand changes
					}
					for _, step := range steps {
						for _, v := range f.Page(step).Fields {
							checked++
							if v.Answer.IsZero() {
								if !v.Field.Optional {
									t.Fatalf("%s %s %s: %s proposes nothing", system, n.Code, shape, v.Field.ID)
								}
								continue
							}
							if err := v.Field.Check(v.Answer); err != nil {
								t.Errorf("%s %s %s: %s proposes %+v: %v", system, n.Code, shape, v.Field.ID, v.Answer, err)
							}
						}
					}
				}
			}
		}
	}
	if checked < 15000 {
		t.Errorf("only %d fields were looked at", checked)
	}
}

// Every page of every shape and stand carries only numbers that are numbers.
func TestNoPageCarriesNaN(t *testing.T) {
	for _, shape := range tank.Shapes() {
		for _, kind := range []string{"bought", "furniture", "frame"} {
			r := record(quantity.Metric, "DE")
			r.Answers["tank.shape"] = care.Answer{Choice: string(shape)}
			r.Answers["stand.kind"] = care.Answer{Choice: kind}
			f := care.NewFacts(r)
			for _, step := range care.Steps() {
				p := f.Page(step)
				if p.Headline != nil && !quantity.Finite(p.Headline.Value.X) {
					t.Errorf("%s %s %s: headline %v", shape, kind, step, p.Headline.Value)
				}
				for _, tr := range p.Trails {
					if !tr.Finite() {
						t.Errorf("%s %s %s: working of %s is not finite", shape, kind, step, tr.Ask)
					}
				}
				for _, l := range p.Lines {
					if l.Value.Known() && !quantity.Finite(l.Value.X) {
						t.Errorf("%s %s %s: line %s is %v", shape, kind, step, l.Name, l.Value)
					}
				}
				for _, c := range p.Checks {
					if math.IsNaN(c.Use) {
						t.Errorf("%s %s %s: check %s is no number", shape, kind, step, c.Name)
					}
				}
			}
		}
	}
}

func headline(t *testing.T, r *care.Record, step care.Step) quantity.Value {
	t.Helper()
	p := care.NewFacts(r).Page(step)
	if p.Headline == nil {
		t.Fatalf("%s has no headline", step)
	}
	return p.Headline.Value
}

// Figures of the trade for a 10 US gallon tank.
func TestTenGallons(t *testing.T) {
	r := record(quantity.US, "US")
	r.Answers["tank.nominal"] = care.Answer{Choice: "us_10"}
	f := care.NewFacts(r)
	// Common practice, no source: a full 10 US gallon tank weighs more than 70 lb;
	// published 111 lb with an inch of gravel (tank_nominal_weights.csv).
	full := headline(t, r, care.StandFloor).In(quantity.MustUnit("lb"))
	if full < 70 || full > 111*1.15 {
		t.Errorf("full weight %.1f lb, want 70 to 128", full)
	}
	// Common practice, no source: two or three fish of about 2 in at first.
	buy, err := f.FirstPurchase()
	if err != nil || buy.Low != 2 || buy.High != 3 {
		t.Errorf("first purchase %d to %d (%v), want 2 to 3", buy.Low, buy.High, err)
	}
	// Common practice, no source: one inch a US gallon.
	if got := buy.Capacity.Value().In(quantity.MustUnit("in")); got < 7 || got > 10 {
		t.Errorf("capacity %.1f in, want about the net gallons, 7 to 10", got)
	}
	// Common practice, no source: the heater is set at 76 to 78 °F.
	a, _ := f.Answer("settle.target")
	v, _ := a.Measure.Value()
	if got := v.In(quantity.MustUnit("degf")); got < 76 || got > 78 {
		t.Errorf("proposed %.1f °F, want 76 to 78", got)
	}
	// Net volume by hand, 20 x 10 x 12 in with 3.2 mm glass, 1 in of air, gravel
	// 1.5 to 2.5 in at 40 % pores, 2 lb of stone: between 27 and 33 L.
	if got := headline(t, r, care.TankPlace).X * 1000; got < 27 || got > 33 {
		t.Errorf("net volume %.2f L, want 27 to 33", got)
	}
	// Label arithmetic by hand: 5 mL for 10 US gal.
	net, dose := headline(t, r, care.TankPlace).X, headline(t, r, care.FillTreat).X
	if want := 5e-6 * net / (10 * 3.785411784e-3); math.Abs(dose-want) > want*1e-12 {
		t.Errorf("dose %v m³, want %v", dose, want)
	}
}

// The advice to take a larger tank comes below 10 US gallons and blocks nothing.
func TestSmallTankIsAdvisedNotRefused(t *testing.T) {
	r := record(quantity.US, "US")
	r.Answers["tank.nominal"] = care.Answer{Choice: "us_5"}
	p := care.NewFacts(r).Page(care.TankPlace)
	if p.Verdict == nil || p.Verdict.Title.Code != "find.care.size_small" {
		t.Fatalf("verdict %+v", p.Verdict)
	}
	if len(p.Blocked) != 0 {
		t.Errorf("blocked by %v", p.Blocked)
	}
}

// A 20 US gallon high tank on an 18 mm chipboard shelf is never on; a cure is
// offered. Source: stand_worked.csv, utilisation 2.9 and a sag of 75 mm.
func TestChipboardShelfFails(t *testing.T) {
	r := record(quantity.US, "US")
	for id, a := range map[care.FieldID]care.Answer{"tank.nominal": {Choice: "us_20_high"}, "stand.kind": {Choice: "furniture"}, "top.board": {Choice: "p2"},
		"top.thickness": care.Measured(18, "mm"), "top.depth": care.Measured(350, "mm"), "top.span": care.Measured(760, "mm"),
		"stand.anchored": {Choice: "yes"}, "stand.depth": care.Measured(40, "cm")} {
		r.Answers[id] = a
	}
	r.Done[care.TankPlace] = care.Done{At: at} // relied on nothing that could change
	p := care.NewFacts(r).Page(care.StandFloor)
	if p.Verdict.State != working.Act {
		t.Errorf("state %s, want act", p.Verdict.State)
	}
	blocked := false
	for _, b := range p.Blocked {
		blocked = blocked || b.Code == "find.care.stand_fails"
	}
	if !blocked {
		t.Errorf("blocked by %v, want find.care.stand_fails", p.Blocked)
	}
}

// Notes are complete and lead with the one to confirm.
func TestNotes(t *testing.T) {
	for _, s := range care.Steps() {
		ns := care.NotesFor(s)
		if len(ns) == 0 {
			if s != care.KitList {
				t.Errorf("no safety note in %s", s)
			}
			continue
		}
		for i, n := range ns {
			if n.ConfirmedIn(s) && i != 0 {
				t.Errorf("%s: %s is to be confirmed but does not lead", s, n.ID)
			}
			if len(n.Sources) == 0 {
				t.Errorf("%s has no source", n.ID)
			}
		}
	}
}

// The working shows an input as it was given beside what it came to.
func TestWorkingShowsInputsAsGiven(t *testing.T) {
	r := record(quantity.US, "US")
	typed := quantity.Measure{Number: "78", Unit: "degf"}
	r.Answers["settle.target"] = care.Answer{Measure: typed, Origin: care.FromPerson}
	found := false
	for _, tr := range care.NewFacts(r).Page(care.KitList).Trails {
		for _, g := range tr.Givens {
			found = found || g.Typed == typed
		}
	}
	if !found {
		t.Error("no input of the kit list's working is shown as 78 °F")
	}
}

// The set is whole: what each safety note must cover, by the list that the set was
// made from, and the ladder of ANSI Z535.4 and ISO 3864-2 (secondary copies): what
// will or could kill is a danger or a warning, what only harms animals or things a
// notice.
func TestTheSetOfNotesIsWhole(t *testing.T) {
	kills := []care.NoteID{"shock", "fell_in", "someone_shocked", "stray_current", "unplug_first", "heater_dry", "dry_hands", "drip_loop", "nothing_plugged", "protection",
		"protection_test", "extension_block", "damaged_cable", "lights_lids", "public_rooms", "drip_tube", "hot_water", "stand_collapse", "tipping", "never_move", "siphon_tap", "food_allergy"}
	hurts := []care.NoteID{"lifting", "conditioner", "wet_floor", "siphon_mouth", "glass", "reagents", "hands"}
	things := []care.NoteID{"no_soap", "first_fish", "bag_water"}
	for _, c := range []struct {
		ids  []care.NoteID
		rank []care.Severity
	}{{kills, []care.Severity{care.Danger, care.Warning}}, {hurts, []care.Severity{care.Caution}}, {things, []care.Severity{care.Notice}}} {
		for _, id := range c.ids {
			if n, ok := care.NoteOf(id); !ok || !slices.Contains(c.rank, n.Severity) {
				t.Errorf("%s is missing or is %q", id, n.Severity)
			}
		}
	}
	if got, want := len(care.Notes()), len(kills)+len(hurts)+len(things); got != want {
		t.Errorf("%d notes, want %d", got, want)
	}
	seen := map[care.NoteID]bool{}
	for _, n := range care.Notes() {
		if seen[n.ID] {
			t.Errorf("%s stands twice", n.ID)
		}
		seen[n.ID] = true
		for _, s := range n.Confirm {
			if !slices.Contains(n.Steps, s) {
				t.Errorf("%s is confirmed in %s, where it does not stand", n.ID, s)
			}
		}
	}
	// What is done with hands, water and power is not finished unread.
	for _, s := range []care.Step{care.StandFloor, care.Rinse, care.PlaceDry, care.FillTreat, care.PowerOn, care.Settle, care.FirstFish, care.HomeComing} {
		if ns := care.NotesFor(s); len(ns) == 0 || !ns[0].ConfirmedIn(s) {
			t.Errorf("%s leads with no note to confirm", s)
		}
	}
	for _, p := range []care.Place{care.AtChange, care.AtClean, care.AtSwitch, care.AtTest, care.AtFeeding, care.AtCounter, care.AtVisit} {
		if len(care.NotesAt(p)) == 0 {
			t.Errorf("no note at %s", p)
		}
	}
}
