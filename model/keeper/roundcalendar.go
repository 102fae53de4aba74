package keeper

import (
	"context"
	"os"
	"path/filepath"
	"strings"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
)

// CalendarRound is a round as a calendar needs it.
type CalendarRound struct {
	rounds.Round
	First  journal.Civil   // its first occurrence, which its rule has
	Except []journal.Civil // occurrences that were skipped
}

// CalendarRounds lists the rounds of a tank that come again or are still to come,
// in the order in which they were added: resting and finished ones are left out.
func (k *Keeper) CalendarRounds(ctx context.Context, tank string) ([]CalendarRound, error) {
	all, err := k.allRounds(ctx, tank)
	if err != nil {
		return nil, err
	}
	now := k.now()
	var out []CalendarRound
	for _, r := range all.list {
		s := rounds.Stand(r, all.history(r.ID), now)
		if s.State == rounds.Paused || s.State == rounds.Over {
			continue
		}
		c := CalendarRound{Round: r}
		at, err := r.Start.Parse()
		if err != nil {
			continue
		}
		if c.First, _ = r.Rule.After(r.Start, at); c.First == "" {
			continue
		}
		for _, h := range all.handled[r.ID] {
			if h.State == rounds.Skipped && h.Due >= c.First {
				c.Except = append(c.Except, h.Due)
			}
		}
		out = append(out, c)
	}
	return out, nil
}

// settingCalendar and a tank's id name the file that is kept up to date.
const settingCalendar = "rounds_calendar."

// CalendarEnding is how the name of a calendar file ends.
const CalendarEnding = ".ics"

// CalendarFile is the file that holds the rounds of a tank for a calendar program
// to subscribe to, empty when none is kept.
func (k *Keeper) CalendarFile(ctx context.Context, tank string) (string, error) {
	path, _, err := k.Setting(ctx, settingCalendar+tank)
	return path, err
}

// SetCalendarFile chooses that file; an empty path keeps none and leaves the old
// one as it is. It is a setting: at once and without undo. Refusals (field
// "calendar"): a path that is not whole, ends otherwise, or whose folder is not
// there.
func (k *Keeper) SetCalendarFile(ctx context.Context, tank, path string) error {
	if path = strings.TrimSpace(path); path != "" {
		if !filepath.IsAbs(path) || !strings.EqualFold(filepath.Ext(path), CalendarEnding) {
			return working.Refuse("calendar", "refuse.rounds.calendar")
		}
		if info, err := os.Stat(filepath.Dir(path)); err != nil || !info.IsDir() {
			return working.Refuse("calendar", "refuse.rounds.calendar_folder")
		}
		if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
			return working.Refuse("calendar", "refuse.rounds.calendar")
		}
	}
	return k.SetSetting(ctx, settingCalendar+tank, path)
}
