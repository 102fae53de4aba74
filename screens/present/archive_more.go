package present

import (
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/sick"
	"example.org/driploop/model/working"
)

// entryAnchor is the place of an entry on the page of an archive.
func entryAnchor(e journal.Entry) string { return "e-" + e.ID }

// archiveAnimals fills in the fish and the cases of a tank. Nothing on the page of an
// archive counts from today.
func (p Presenter) archiveAnimals(t keeper.TankContents, out *ArchiveTank) {
	out.FishName, out.CasesName = p.W.T("nav.fish", nil), p.W.T("page.sick.heading", nil)
	for _, f := range t.Fish {
		line := []string{p.W.T("page.archive.fish", i18n.Args{"Name": p.FishName(f), "Count": p.W.Quantity(quantity.Count(f.Count).Value())})}
		if kind := p.KindName(fish.Code(f.Species)); f.Species != "" && kind != p.FishName(f) {
			line = append(line, kind)
		}
		if f.Since != "" {
			line = append(line, p.W.T("page.stock.since", i18n.Args{"Day": p.CivilDay(f.Since)}))
		}
		if f.Gone != "" {
			line = append(line, p.W.T("page.archive.fish_gone", i18n.Args{"Day": p.CivilDay(f.Gone)}))
		}
		out.Fish = append(out.Fish, p.W.Comma(line...))
	}
	for _, c := range t.Cases {
		a := ArchiveCase{Title: p.About(c), When: p.W.T("page.archive.case_open", i18n.Args{"Since": p.CivilDay(c.Opened)}), Note: c.Note}
		if !c.Open() {
			a.When = p.W.T("page.sick.closed", i18n.Args{"Outcome": p.OutcomeName(c.Outcome), "On": p.CivilDay(c.Closed), "Since": p.CivilDay(c.Opened)})
		}
		for _, s := range c.Signs {
			said := string(s.Sign) // of a later version
			if sign, ok := sick.SignOf(s.Sign); ok {
				said = p.W.T(sign.Message(), nil)
			}
			when := p.W.T("page.sick.since", i18n.Args{"Day": p.CivilDay(s.Seen)})
			if s.Gone != "" {
				when = p.W.T("page.sick.went", i18n.Args{"Seen": p.CivilDay(s.Seen), "Gone": p.CivilDay(s.Gone)})
			}
			a.Signs = append(a.Signs, p.W.T("page.archive.sign", i18n.Args{"Sign": said, "When": when}))
		}
		for _, d := range t.Days {
			for _, e := range d.Entries {
				if e.Sick == c.ID {
					a.Entries = append(a.Entries, ArchiveLink{entryAnchor(e), p.When(e.At)})
				}
			}
		}
		out.Cases = append(out.Cases, a)
	}
}

// archiveRounds fills in what recurs, and the times away.
func (p Presenter) archiveRounds(t keeper.TankContents, out *ArchiveTank) {
	out.RoundsName, out.AwayName = p.W.T("nav.rounds", nil), p.W.T("page.archive.away", nil)
	for _, k := range []working.Key{"page.archive.round", "page.archive.repeats", "page.archive.done", "page.archive.skipped", "page.archive.last"} {
		out.RoundTable.Columns = append(out.RoundTable.Columns, p.W.T(k, nil))
	}
	for _, r := range t.Rounds {
		last := ""
		if r.Last != "" {
			last = p.CivilDay(r.Last)
		}
		repeats := p.Repeats(r.Rule, r.Start)
		if r.Paused != "" {
			repeats = p.W.T("page.archive.paused", i18n.Args{"Repeats": repeats, "Since": p.CivilDay(r.Paused)})
		}
		count := func(n int) string { return p.W.Number(float64(n), 9) }
		out.RoundTable.Rows = append(out.RoundTable.Rows, []string{p.RoundName(r.Round), repeats, count(r.Done), count(r.Skipped), last})
	}
	for _, a := range t.Aways {
		line := []string{p.Span(a.First, a.Last)}
		for _, s := range []string{a.Who, a.Note} {
			if s != "" {
				line = append(line, s)
			}
		}
		out.Aways = append(out.Aways, strings.Join(line, " · "))
	}
}
