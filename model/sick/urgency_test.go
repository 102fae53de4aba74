package sick

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/working"
)

func anySeen(t *rapid.T) Seen {
	var s Seen
	for range rapid.IntRange(0, 5).Draw(t, "signs") {
		s.Signs = append(s.Signs, Observed{rapid.SampledFrom(signs).Draw(t, "sign").Code, rapid.IntRange(0, 9).Draw(t, "days")})
	}
	s.Many = rapid.SampledFrom([]Many{"", One, Several, Most}).Draw(t, "many")
	s.Water = Water{rapid.Bool().Draw(t, "known"), rapid.SampledFrom([]working.State{working.Steady, working.Wait, working.Act}).Draw(t, "water"), rapid.Bool().Draw(t, "emergency")}
	return s
}

// Nothing that is seen lowers the urgency, more of it never does, and the order
// of ticking does not matter.
func TestUrgencyOnlyRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySeen(t)
		u := Reckon(s)
		for _, o := range s.Signs {
			if sign, _ := SignOf(o.Sign); u.Level < sign.Level {
				t.Fatalf("%s is %s, the whole is %s", sign.Code, sign.Level, u.Level)
			}
		}
		more := s
		more.Signs = append(slices.Clone(s.Signs), Observed{rapid.SampledFrom(signs).Draw(t, "one more").Code, 0})
		if m := Reckon(more); m.Level < u.Level || m.State < u.Level.State() {
			t.Fatalf("one more sign: %s after %s", m.Level, u.Level)
		}
		worse := s
		worse.Many = Most
		if m := Reckon(worse); m.Level < u.Level {
			t.Fatalf("most fish: %s after %s", m.Level, u.Level)
		}
		back := s
		back.Signs = slices.Clone(s.Signs)
		slices.Reverse(back.Signs)
		if b := Reckon(back); b.Level != u.Level || !slices.Equal(names(b.Signs), names(u.Signs)) {
			t.Fatal("the order of ticking matters")
		}
		if len(s.Signs) > 0 && len(u.Why) == 0 || u.State < u.Vet.State {
			t.Fatalf("no reason, or a milder state than the vet's: %+v", u)
		}
	})
}

func names(ss []Sign) []SignID {
	var out []SignID
	for _, s := range ss {
		out = append(out, s.Code)
	}
	return out
}

// What raises the urgency. // judgement, as Reckon says
func TestWhatRaises(t *testing.T) {
	act := Water{Known: true, State: working.Act}
	for _, c := range []struct {
		name string
		seen Seen
		want Level
		vet  working.Key
	}{
		{"nothing", Seen{}, None, "find.sick.vet_none"},
		{"fresh test asks to act", Seen{Signs: []Observed{{"pale_colour", 0}}, Water: act}, SameDay, "find.sick.vet_test_then"},
		{"the same with breathing", Seen{Signs: []Observed{{"rapid_gill_beat", 0}}, Water: act}, Emergency, "find.sick.vet_after_water"},
		{"a test that is not known", Seen{Signs: []Observed{{"pale_colour", 0}}, Water: Water{State: working.Act}}, Watch, "find.sick.vet_watch"},
		{"water alone", Seen{Water: act}, SameDay, "find.sick.vet_test_then"},
		{"several", Seen{Signs: []Observed{{"flashing", 0}}, Many: Several}, SameDay, "find.sick.vet_test_then"},
		{"several, same day already", Seen{Signs: []Observed{{"gold_dust", 0}}, Many: Several}, SameDay, "find.sick.vet_test_then"},
		{"most", Seen{Signs: []Observed{{"not_eating", 0}}, Many: Most}, SameDay, "find.sick.vet_test_then"},
		{"most, breathing", Seen{Signs: []Observed{{"rapid_gill_beat", 0}}, Many: Most}, Emergency, "find.sick.vet_after_water"},
		{"clean water, same day", Seen{Signs: []Observed{{"gold_dust", 0}}, Water: Water{Known: true}}, SameDay, "find.sick.vet_today"},
		{"clean water, emergency", Seen{Signs: []Observed{{"gasping_surface", 0}}, Water: Water{Known: true}}, Emergency, "find.sick.vet_now"},
		{"lasting two days", Seen{Signs: []Observed{{"clamped_fins", 2}}}, TwoDays, "find.sick.vet_lasting"},
		{"one day", Seen{Signs: []Observed{{"clamped_fins", 1}}}, TwoDays, "find.sick.vet_two_days"},
		{"a week", Seen{Signs: []Observed{{"wasting", 7}}}, Week, "find.sick.vet_lasting"},
		{"six days", Seen{Signs: []Observed{{"wasting", 6}}}, Week, "find.sick.vet_week"},
	} {
		if u := Reckon(c.seen); u.Level != c.want || u.Vet.Code != c.vet {
			t.Errorf("%s: %s and %s, want %s and %s", c.name, u.Level, u.Vet.Code, c.want, c.vet)
		}
	}
}

// The tests of the most urgent sign lead, each stands once, and ammonia never
// without the pH and temperature by which it is judged.
func TestTestsFollowTheSigns(t *testing.T) {
	u := Reckon(Seen{Signs: []Observed{{"snail_shell_erosion", 0}, {"gasping_surface", 0}}})
	if got, want := Tests(u.Signs), []string{"temperature", "nitrite", "ammonia", "ph", "gh", "kh"}; !slices.Equal(got, want) {
		t.Errorf("tests are %v, want %v", got, want)
	}
	rapid.Check(t, func(t *rapid.T) {
		got := Tests(Reckon(anySeen(t)).Signs)
		seen := map[string]bool{}
		for _, n := range got {
			if seen[n] {
				t.Fatalf("%s stands twice in %v", n, got)
			}
			seen[n] = true
		}
		if seen[journal.NameAmmonia] && !(seen[journal.NamePH] && seen[journal.NameTemperature]) || len(got) == 0 {
			t.Fatalf("tests are %v", got)
		}
	})
}

// Where a hand goes in, the power is off first; where electricity is suspected,
// that is the first thing to do and the first thing said.
func TestCautionsComeFirst(t *testing.T) {
	for _, s := range signs {
		notes, do := Notes([]Sign{s}), Acts([]Sign{s})
		if slices.Contains(s.Notes, "stray_current") && (notes[0] != "stray_current" || do[0] != "power_off") {
			t.Errorf("%s: notes %v, acts %v", s.Code, notes, do)
		}
		for _, a := range do {
			if slices.Contains(handsIn, a) && !slices.Contains(notes, "unplug_first") {
				t.Errorf("%s asks for %s without the note on unplugging", s.Code, a)
			}
		}
	}
}
