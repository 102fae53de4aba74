package paper

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
)

// The care calendar says for four whole weeks what is due on which day, what each round
// is, when it was last done and the notes that belong to it, in the reader's language;
// the week begins as it does where they live. A tank without rounds has none.
func TestCareCalendar(t *testing.T) {
	ctx := context.Background()
	eachReader(t, func(t *testing.T, r reader, k *keeper.Keeper, id string) {
		r.refuses(t, CareCalendar, k, id, "refuse.rounds.no_rounds")
		takeUp(t, k, id)
		if _, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Changed, At: "2026-11-21T10:00"}); err != nil {
			t.Fatal(err)
		}
		if _, err := k.AddRound(ctx, id, rounds.Round{Code: rounds.Own, Title: "Trim (the) moss", Rule: rounds.MustRule("FREQ=WEEKLY;BYDAY=TU"), Start: "2026-12-01T09:00"}); err != nil {
			t.Fatal(err)
		}
		in := r.gather(t, k, id)
		for _, days := range []int{0, keeper.CareDaysLeast - 1, keeper.CareDaysMost + 1} {
			var refused *working.Refusal
			if err := in.gatherCare(ctx, k, id, days); !errors.As(err, &refused) || refused.Field != "days" {
				t.Errorf("%d days: %v", days, err)
			}
		}
		if err := in.gatherCare(ctx, k, id, keeper.CareDays); err != nil {
			t.Fatal(err)
		}
		w := in.Presenter.W
		// 25 November 2026 is a Wednesday. Source: ISO 8601, week 48 of 2026.
		first, before := time.Monday, 2
		if r.region == "US" || r.region == "MX" { // Source: Unicode CLDR, firstDay
			first, before = time.Sunday, 3
		}
		c := in.Care
		if c.Heads[0] != w.Weekday(first) || len(c.Weeks) != 5 || len(c.Weeks[4]) != 7 {
			t.Fatalf("%d weeks from %s, the last of %d days", len(c.Weeks), c.Heads[0], len(c.Weeks[4]))
		}
		for i, d := range c.Weeks[0] {
			if d.Off != (i < before) || d.Off && len(d.Ticks) > 0 {
				t.Errorf("day %d of the first week: %+v", i, d)
			}
		}
		trims, changes := 0, 0
		for _, week := range c.Weeks {
			for i, d := range week {
				for _, x := range d.Ticks {
					day := (first + time.Weekday(i)) % 7
					if x.Name == "Trim (the) moss" {
						if trims++; day != time.Tuesday {
							t.Errorf("trimmed on %v", day)
						}
					}
					if x.Name == w.T("round.change", nil) {
						if changes++; day != time.Saturday {
							t.Errorf("changed on %v", day)
						}
					}
				}
			}
		}
		if trims != 4 || changes == 0 {
			t.Errorf("%d trims, %d changes", trims, changes)
		}
		pdf := document(t, CareCalendar, in)
		text := textOf(pdf)
		want := []string{w.T("paper.care", nil), c.Span, in.Presenter.CivilDay("2026-11-21T10:00"), w.T("paper.care.never", nil), "Trim (the) moss"}
		for _, l := range c.Rounds {
			want = append(append(want, l.Name, l.Text), l.About...)
		}
		for _, n := range care.NotesAt(care.AtChange, care.AtSwitch) {
			want = append(want, in.Presenter.Note(n).Hazard)
		}
		note, _ := care.NoteOf(onFront)
		want = append(want, in.Presenter.Note(note).Avoid)
		says(t, r.name, text, want...)
		if strings.Count(text, flat(in.Presenter.Note(note).Hazard)) != 1 {
			t.Error("the note of the first page stands twice")
		}
		if !bytes.Equal(pdf, document(t, CareCalendar, in)) {
			t.Error("made twice, the documents differ")
		}
		for _, size := range Sizes() {
			in.Size = size
			ps, laid := pages(CareCalendar, &in)
			if laid.W != size.H || laid.H != size.W {
				t.Errorf("%s lies %v", size.Code, laid)
			}
			within(t, size.Code, ps, laid)
		}
	})
}

// However many rounds there are and however long their names, the days stay on their
// pages, and every name stands whole in the table.
func TestCareCalendarOfManyRounds(t *testing.T) {
	ctx := context.Background()
	r := readers[1]
	k := r.open(t)
	id := r.example(t, k)
	for i := range 40 {
		x := rounds.Round{Code: rounds.Own, Title: fmt.Sprintf("%d. %s%s", i, strings.Repeat("long title 長い ", 10), strings.Repeat("W", 60)), Rule: rounds.MustRule("FREQ=WEEKLY;BYDAY=FR"), Start: "2026-11-27T09:00"}
		if i%4 == 0 {
			x.Rule = rounds.MustRule("FREQ=DAILY")
		}
		if _, err := k.AddRound(ctx, id, x); err != nil {
			t.Fatal(err)
		}
	}
	in := r.gather(t, k, id)
	if err := in.gatherCare(ctx, k, id, keeper.CareDays); err != nil {
		t.Fatal(err)
	}
	for _, size := range Sizes() {
		in.Size = size
		ps, laid := pages(CareCalendar, &in)
		whole := ""
		within(t, size.Code, ps, laid)
		for _, p := range ps {
			for _, l := range p.scene.Texts(plain) {
				whole += bare(l.S)
			}
		}
		for _, l := range in.Care.Rounds {
			if !strings.Contains(whole, bare(l.Name)) {
				t.Errorf("%s: %q stands nowhere whole", size.Code, l.Name)
			}
		}
		if more := in.Presenter.W.N("n.more", 2, nil); !strings.Contains(whole, bare(strings.TrimLeft(more[strings.Index(more, "2")+1:], " "))) {
			t.Errorf("%s: does not say that there are more", size.Code)
		}
	}
}

// What is late stands on today; what somebody else does while one is away has no box;
// what is done is ticked.
func TestCareCalendarKnowsTheRecord(t *testing.T) {
	ctx := context.Background()
	r := readers[1]
	k := r.open(t)
	id := r.example(t, k)
	for _, x := range []rounds.Round{{Code: rounds.Look, Rule: rounds.MustRule("FREQ=DAILY"), Start: "2026-11-20T08:00"}, {Code: rounds.Glass, Rule: rounds.MustRule("FREQ=WEEKLY;BYDAY=MO"), Start: "2026-11-23T09:00"},
		{Code: rounds.Own, Title: "Wipe", Rule: rounds.MustRule("FREQ=WEEKLY;BYDAY=WE"), Start: "2026-11-25T09:00"}} {
		if _, err := k.AddRound(ctx, id, x); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := k.AddAway(ctx, id, keeper.Away{First: "2026-11-28", Last: "2026-11-29"}, false, ""); err != nil {
		t.Fatal(err)
	}
	v, err := k.Rounds(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range v.All {
		if s.Title == "Wipe" {
			if err := k.DoRound(ctx, id, keeper.Doing{Round: s.ID, Due: s.Newest.Due, Entry: &journal.Entry{Kind: journal.Note, Note: "Wiped"}}); err != nil {
				t.Fatal(err)
			}
		}
	}
	in := r.gather(t, k, id)
	if err := in.gatherCare(ctx, k, id, 14); err != nil {
		t.Fatal(err)
	}
	week := in.Care.Weeks[0]
	glass := i18n.Speak(r.lang, r.region, r.units).T("round.glass", nil)
	if got := week[2].Ticks; len(got) != 2 || got[0].Name != glass || got[0].Done || got[1].Name != "Wipe" || !got[1].Done {
		t.Errorf("today: %+v", got)
	}
	for i, d := range week[2:] {
		if away := i == 3 || i == 4; d.Away != away || (d.Daily[0].Name == "") != away {
			t.Errorf("%d days from today: %+v", i, d)
		}
	}
	if n := len(in.Care.Weeks); n != 3 {
		t.Errorf("%d weeks for 14 days from a Wednesday", n)
	}
	for _, l := range in.Care.Rounds {
		if l.Name == glass && !l.Late || l.Name == "Wipe" && l.Last != in.Presenter.CivilDay("2026-11-25") && l.Last != in.Presenter.CivilDay("2026-11-25T12:00") {
			t.Errorf("%+v", l)
		}
	}
}

// Four weeks with the usual rounds and their notes are three sheets at most, in every
// language and on either paper.
func TestCareCalendarIsThreePages(t *testing.T) {
	ctx := context.Background()
	r := readers[0]
	k := r.open(t)
	id := r.example(t, k)
	takeUp(t, k, id)
	for _, lang := range i18n.Languages() {
		p := r.presenter()
		p.W = i18n.Speak(lang, r.region, r.units)
		for _, size := range Sizes() {
			in, err := Gather(ctx, k, id, p, size)
			if err != nil {
				t.Fatal(err)
			}
			if err := in.gatherCare(ctx, k, id, keeper.CareDays); err != nil {
				t.Fatal(err)
			}
			if ps, _ := pages(CareCalendar, &in); len(ps) > 3 {
				t.Errorf("%s, %s: %d pages", lang, size.Code, len(ps))
			}
		}
	}
}
