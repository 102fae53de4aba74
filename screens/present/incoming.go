package present

import (
	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
)

// Incoming says what an archive holds and what would become of it, a line each.
func (p Presenter) Incoming(a keeper.ArchivePreview) []string {
	var out []string
	for _, f := range a.Findings {
		out = append(out, p.Say(f))
	}
	for _, t := range a.Tanks {
		args := i18n.Args{"Name": t.Name, "Entries": p.W.N("n.entries", float64(t.Entries), nil), "Photos": p.W.N("n.photos", float64(t.Pictures), nil)}
		line := p.W.T("page.archive.tank", args)
		if t.First != "" {
			args["First"], args["Last"] = p.day(t.First), p.day(t.Last)
			line = p.W.T("page.archive.tank_days", args)
		}
		out = append(out, line+" "+p.W.T(arrivals[t.Arrival], nil))
		if t.Removed && t.Arrival != keeper.Here {
			out = append(out, p.W.T("page.archive.put_aside", i18n.Args{"Name": t.Name}))
		}
	}
	if a.Taking() > 0 && !a.Undoable {
		out = append(out, p.W.T("page.archive.large", nil))
	}
	return out
}

var arrivals = map[keeper.Arrival]working.Key{
	keeper.Arrives: "page.archive.arrives", keeper.Further: "page.archive.further", keeper.Here: "page.archive.here",
}

// day writes a civil day, as it stands where it is none.
func (p Presenter) day(s string) string {
	t, err := dayOf(s)
	if err != nil {
		return s
	}
	return p.W.Date(t)
}

// Taken says what taking an archive did, a line each.
func (p Presenter) Taken(t keeper.TakenArchive) []string {
	out := []string{p.W.N("page.archive.taken", float64(len(t.Tanks)), i18n.Args{"Photos": p.W.N("n.photos", float64(t.Pictures), nil)})}
	if t.Lost > 0 {
		out = append(out, p.W.N("page.archive.some_lost", float64(t.Lost), nil))
	}
	if t.Snapshot != "" {
		out = append(out, p.W.T("page.archive.snapshot", i18n.Args{"Path": t.Snapshot}))
	}
	return out
}
