package keeper

import (
	"cmp"
	"fmt"
	"path"
	"slices"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/sick"
	"example.org/driploop/model/slip"
)

// Contents is what a page shows of an archive.
type Contents struct{ Tanks []TankContents }

// TankContents is one tank of it.
type TankContents struct {
	Tank Tank
	// Days is its daybook, the oldest day and entry first; what is in the bin is not
	// shown, though it is in the archive.
	Days []Day
	// Table is the name of the part with its daybook as CSV.
	Table  string
	Photos []PagePhoto
	// Fish are those that live here or did, those that came first leading.
	Fish []Fish
	// Cases are the fish that looked wrong, the oldest first. What counts from today
	// (Day, Looked, Latest, the days of a sign) is left out: a page does not age.
	Cases []Case
	// Rounds are what recurs, with what was made of it.
	Rounds []PageRound
	Aways  []Away
}

// PageRound is what recurs, as a page shows it.
type PageRound struct {
	rounds.Round
	Done, Skipped int
	Last          journal.Civil // when it was due that was done last; empty when nothing was
}

// PagePhoto is a picture as a page shows it.
type PagePhoto struct {
	Part    string // its name in the archive, "" where its file is lost
	Entry   string // the entry it belongs to, or ""
	Name    string // of the file it came from
	Taken   journal.Civil
	Caption string
}

// contents makes what a page shows; parts are the pictures that are there, by
// hash.
func (a *wholeDaybook) contents(parts map[string]string) (Contents, error) {
	var c Contents
	at := map[string]int{}
	drafts := map[string]bool{} // starter profiles in work are no tanks of a page
	for _, r := range a.rows["draft"] {
		drafts[r.Text("tank")] = true
	}
	for i, r := range a.rows["tank"] {
		if r.Text("deleted") != "" || drafts[r.Text("id")] {
			continue
		}
		at[r.Text("id")] = len(c.Tanks)
		c.Tanks = append(c.Tanks, TankContents{Tank: tankOf(r.Values), Table: path.Join(slip.FolderCSV, fmt.Sprintf("daybook-%02d.csv", i+1))})
	}
	values := map[string][]journal.Reading{}
	for _, r := range a.rows["entry_value"] {
		values[r.Text("entry")] = append(values[r.Text("entry")], readingOf(r.Values))
	}
	entries := make([][]journal.Entry, len(c.Tanks))
	for n, r := range a.rows["entry"] {
		i, ok := at[r.Text("tank")]
		if !ok || r.Text("deleted") != "" {
			continue
		}
		entries[i] = append(entries[i], journal.Entry{ID: r.Text("id"), Kind: journal.Kind(r.Text("kind")), At: journal.Civil(r.Text("at")), Zone: r.Text("zone"),
			Seq: int64(n), Note: r.Text("note"), Step: r.Text("step"), Edited: r.Text("edited"), Readings: values[r.Text("id")], Sick: r.Text("sick"), Reply: r.Text("reply")})
	}
	for i := range c.Tanks {
		journal.Sort(entries[i])
		for _, e := range entries[i] {
			days := &c.Tanks[i].Days
			if n := len(*days); n == 0 || (*days)[n-1].Date != e.At.Day() {
				*days = append(*days, Day{Date: e.At.Day()})
			}
			d := &(*days)[len(*days)-1]
			d.Entries = append(d.Entries, e)
		}
	}
	for _, r := range a.rows["photo"] {
		i, ok := at[r.Text("tank")]
		if !ok || r.Text("deleted") != "" {
			continue
		}
		c.Tanks[i].Photos = append(c.Tanks[i].Photos, PagePhoto{Part: parts[r.Text("hash")], Entry: r.Text("entry"), Name: r.Text("name"),
			Taken: journal.Civil(r.Text("taken")), Caption: r.Text("caption")})
	}
	a.animals(c.Tanks, at)
	a.recurring(c.Tanks, at)
	return c, nil
}

// animals adds the fish and the cases; at are the places of the tanks by their keys.
func (a *wholeDaybook) animals(tanks []TankContents, at map[string]int) {
	names := map[string]string{}
	for _, r := range a.rows["fish"] {
		names[r.Text("id")] = r.Text("name")
		if i, ok := at[r.Text("tank")]; ok && r.Text("deleted") == "" {
			tanks[i].Fish = append(tanks[i].Fish, fishOf(r.Values))
		}
	}
	signs := map[string][]CaseSign{}
	for _, r := range a.rows["sick_sign"] {
		signs[r.Text("sick")] = append(signs[r.Text("sick")],
			CaseSign{Sign: sick.SignID(r.Text("sign")), Seen: journal.Civil(r.Text("seen")), Gone: journal.Civil(r.Text("gone"))})
	}
	for _, r := range a.rows["sick"] {
		i, ok := at[r.Text("tank")]
		if !ok || r.Text("deleted") != "" {
			continue
		}
		c := Case{ID: r.Text("id"), Tank: r.Text("tank"), Fish: r.Text("fish"), About: r.Text("about"), Many: sick.Many(r.Text("many")), Opened: journal.Civil(r.Text("opened")),
			Zone: r.Text("zone"), Closed: journal.Civil(r.Text("closed")), Outcome: Outcome(r.Text("outcome")), Note: r.Text("note"), Signs: signs[r.Text("id")]}
		if name := names[c.Fish]; name != "" { // by the name it goes by now
			c.About = name
		}
		slices.SortFunc(c.Signs, func(x, y CaseSign) int {
			return cmp.Or(cmp.Compare(x.Seen, y.Seen), cmp.Compare(x.Sign, y.Sign))
		})
		tanks[i].Cases = append(tanks[i].Cases, c)
	}
	for i := range tanks {
		slices.SortStableFunc(tanks[i].Fish, func(x, y Fish) int { return cmp.Compare(x.Since, y.Since) })
		slices.SortStableFunc(tanks[i].Cases, func(x, y Case) int { return cmp.Compare(x.Opened, y.Opened) })
	}
}

// recurring adds the rounds and the times away.
func (a *wholeDaybook) recurring(tanks []TankContents, at map[string]int) {
	gone := map[string]bool{} // entries that were deleted did nothing
	for _, r := range a.rows["entry"] {
		gone[r.Text("id")] = r.Text("deleted") != ""
	}
	made := map[string]PageRound{}
	for _, r := range a.rows["round_done"] {
		m, due := made[r.Text("round")], journal.Civil(r.Text("due"))
		switch {
		case gone[r.Text("entry")]:
		case rounds.State(r.Text("state")) == rounds.Done:
			m.Done++
			m.Last = max(m.Last, due)
		default:
			m.Skipped++
		}
		made[r.Text("round")] = m
	}
	for _, r := range a.rows["round"] {
		i, ok := at[r.Text("tank")]
		if !ok || r.Text("deleted") != "" {
			continue
		}
		rule, err := rounds.ParseRule(r.Text("rule"))
		if err != nil {
			rule = rounds.Rule{} // told to have none
		}
		m := made[r.Text("id")]
		m.Round = rounds.Round{ID: r.Text("id"), Code: rounds.Code(r.Text("code")), Title: r.Text("title"), Rule: rule, Start: journal.Civil(r.Text("start")),
			Paused: journal.Civil(r.Text("paused")), Note: r.Text("note")}
		tanks[i].Rounds = append(tanks[i].Rounds, m)
	}
	for _, r := range a.rows["away"] {
		if i, ok := at[r.Text("tank")]; ok && r.Text("deleted") == "" {
			tanks[i].Aways = append(tanks[i].Aways, awayOf(r.Values))
		}
	}
	for i := range tanks {
		slices.SortStableFunc(tanks[i].Rounds, func(x, y PageRound) int { return cmp.Compare(x.Start, y.Start) })
		slices.SortStableFunc(tanks[i].Aways, func(x, y Away) int { return cmp.Compare(x.First, y.First) })
	}
}
