package paper

import (
	"context"
	"io"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/present"
)

// CalendarName is the name proposed for the file of a tank's rounds.
const CalendarName = "rounds" + keeper.CalendarEnding

// WriteCalendar writes the rounds of a tank as an iCalendar file in the person's
// language: one event a round with its rule, known by the round's id for ever.
// Errors: those of the keeper and of out.
func WriteCalendar(ctx context.Context, k *keeper.Keeper, tank string, p present.Presenter, now time.Time, out io.Writer) error {
	all, err := k.CalendarRounds(ctx, tank)
	if err != nil {
		return err
	}
	record, err := k.Record(ctx, tank)
	if err != nil {
		return err
	}
	w := p.W
	c := rounds.Calendar{Lang: w.Language(), Name: w.T("paper.calendar", i18n.Args{"Tank": record.Name}), Made: now}
	for _, r := range all {
		name := p.RoundName(r.Round)
		c.Events = append(c.Events, rounds.Event{ID: r.ID, First: r.First, Rule: r.Rule, Except: r.Except, Alarm: name,
			Summary: w.T("paper.event", i18n.Args{"Name": name, "Tank": record.Name}), Description: describe(r.Round, p)})
	}
	_, err = out.Write(c.ICS())
	return err
}

// describe is what an event says: its repetition, its note and the usual caution.
func describe(r rounds.Round, p present.Presenter) string {
	text := p.Repeats(r.Rule, r.Start)
	if r.Note != "" {
		text += "\n" + r.Note
	}
	if key := working.Key("page.rounds.event_" + string(r.Code)); p.W.Has(key) {
		text += "\n" + p.W.T(key, nil)
	}
	return text
}
