package present

import (
	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

var copyKinds = map[keeper.CopyKind]working.Key{
	keeper.CopyDaily: "page.copies.daily", keeper.CopyKept: "page.copies.kept", keeper.CopyAside: "page.copies.aside",
}

// Copy presents a copy of the daybook: its date, and what it is and holds.
func (p Presenter) Copy(c keeper.Copy) (title string, lines []string) {
	title = p.W.DateTime(c.At)
	size := i18n.Args{"Size": p.W.Number(float64(c.Size)/1e6, 2)}
	lines = append(lines, i18n.Sentences(p.W.T(copyKinds[c.Kind], nil), p.W.T("page.copies.size", size)))
	if !c.Sound {
		return title, append(lines, p.W.T("page.copies.damaged", nil))
	}
	return title, append(lines, p.held(c.Held))
}

// held says what a database holds.
func (p Presenter) held(h store.Held) string {
	args := i18n.Args{"Tanks": p.W.N("verb.check.tanks", float64(len(h.Tanks)), nil), "Entries": p.W.N("n.entries", float64(h.Rows["entry"]), nil),
		"Photos": p.W.N("n.photos", float64(h.Rows["photo"]), nil)}
	if t, err := journal.Civil(h.Newest).Parse(); err == nil {
		args["Newest"] = p.W.DateTime(t)
		return p.W.T("page.copies.holds_newest", args)
	}
	return p.W.T("page.copies.holds", args)
}

// told are the tables that a difference is told of by name; the rest is told as
// one.
var told = map[string]working.Key{
	"tank": "page.copies.of_tank", "entry": "page.copies.of_entry", "entry_value": "page.copies.of_reading", "photo": "page.copies.of_photo", "sick": "page.copies.of_case",
	"fish": "page.copies.of_fish", "kit": "page.copies.of_kit", "round": "page.copies.of_round", "answer": "page.copies.of_answer",
}

// Back says what going back to a copy would lose and gain, a line each.
func (p Presenter) Back(b keeper.BackPreview) []string {
	title, _ := p.Copy(b.Copy)
	out := []string{p.W.T("page.copies.then", i18n.Args{"When": title, "Held": p.held(b.Copy.Held)})}
	if b.Unknown {
		return append(out, p.W.T("page.copies.safe", nil))
	}
	out = append(out, p.W.T("page.copies.now", i18n.Args{"Held": p.held(b.Now)}))
	rest := store.Difference{}
	say := func(name working.Key, d store.Difference) {
		out = append(out, p.W.T("page.copies.difference", i18n.Args{"What": name, "Lost": p.W.Number(float64(d.Lost), 6), "Gained": p.W.Number(float64(d.Gained), 6), "Changed": p.W.Number(float64(d.Changed), 6)}))
	}
	for _, d := range b.Differences {
		if name, ok := told[d.Table]; ok {
			say(name, d)
			continue
		}
		rest.Lost, rest.Gained, rest.Changed = rest.Lost+d.Lost, rest.Gained+d.Gained, rest.Changed+d.Changed
	}
	if rest != (store.Difference{}) {
		say("page.copies.of_rest", rest)
	}
	if len(b.Differences) == 0 {
		out = append(out, p.W.T("page.copies.same", nil))
	}
	return append(out, p.W.T("page.copies.safe", nil))
}

// Rescued says what there is to go back to where a daybook cannot be opened: the
// newest sound copy, and that what came after it is lost.
func (p Presenter) Rescued(c keeper.Copy) string {
	title, _ := p.Copy(c)
	return p.W.T("page.copies.rescue", i18n.Args{"When": title, "Held": p.held(c.Held)})
}
