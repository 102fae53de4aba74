package paper

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/present"
)

// visited is the paper of a visit about the tank of ill, with all that may be told.
func (r reader) visited(t *testing.T, k *keeper.Keeper, size Size, more ...string) Input {
	t.Helper()
	tank, id := r.ill(t, k)
	a := keeper.VisitAsk{Days: keeper.VisitDays, Case: id, Label: "Tank in the hall", Private: []slip.Private{slip.Notes}, Questions: append([]string{"Is it the water?"}, more...)}
	in, err := gatheredVisit(k, tank, a, r.presenter(), size)
	if err != nil {
		t.Fatal(err)
	}
	return in
}

// gatheredVisit is what the paper of a visit shows, as WriteVisit gathers it.
func gatheredVisit(k *keeper.Keeper, tank string, a keeper.VisitAsk, p present.Presenter, size Size) (Input, error) {
	v, err := k.PrepareVisit(context.Background(), tank, a, nil)
	if err != nil {
		return Input{}, err
	}
	return GatherVisit(context.Background(), k, tank, v, p, size)
}

// The paper of a visit is one page with everything asked for, and pages of pictures
// behind it; values stand as they were typed.
func TestVisitOnPaper(t *testing.T) {
	for _, r := range []reader{readers[0], readers[3]} {
		k := r.open(t)
		in := r.visited(t, k, SizeFor(r.region))
		p := in.Presenter
		pdf := document(t, VisitSlip, in)
		text := textOf(pdf)
		says(t, r.name, text, []string{"Tank in the hall", "Is it the water?", "Old Grey", in.t("sign.clamped_fins"), "0" + string(p.W.Decimal()) + "75", in.t("word.basis.ion"),
			in.t("reading.is_not_detected"), in.t("entry.power_cut"), "Hides behind the filter.", "left flank", "white patch", in.t("word.visit.part.facts"), in.t("paper.visit")}...)
		ps, _ := pages(VisitSlip, &in)
		if len(ps[0].prints) != 0 || len(ps) < 2 || len(ps[1].prints) == 0 {
			t.Errorf("%s: %d pages, %d pictures on the first", r.name, len(ps), len(ps[0].prints))
		}
		if n := len(imageObjects.FindAll(pdf, -1)); n != 3 {
			t.Errorf("%s: %d pictures, want 3", r.name, n)
		}
		if again := document(t, VisitSlip, in); !bytes.Equal(pdf, again) {
			t.Errorf("%s: the same input gives other bytes", r.name)
		}
	}
}

// The facts of the tank come in the order of what says most, so that of few the filter
// and the temperature that is held are told before what the wood weighs. A bottle's dose
// says which bottle.
func TestVisitFactsOnPaper(t *testing.T) {
	r := readers[0]
	k := r.open(t)
	in := r.visited(t, k, SizeFor(r.region))
	in.Visit.Shown.Facts = in.Presenter.Answers(map[care.FieldID]care.Answer{"filter.kind": {Choice: "hang_on"}, "settle.target": {Measure: quantity.Measure{Number: "25", Unit: "degc"}},
		"wood.mass": {Measure: quantity.Measure{Number: "1", Unit: "kg"}}, "bacteria.amount": {Measure: quantity.Measure{Number: "10", Unit: "ml"}}, "bacteria.per": {Measure: quantity.Measure{Number: "38", Unit: "l"}}})
	text, from := textOf(document(t, VisitSlip, in)), 0
	for _, key := range []working.Key{"word.visit.part.facts", "field.filter.kind", "field.settle.target", "group.bacteria", "field.wood.mass"} {
		i := strings.Index(text[from:], flat(in.t(key)))
		if i < 0 {
			t.Fatalf("%q is not told, or not in its place: %s", in.t(key), text)
		}
		from += i
	}
}

// However much there is to tell, it is one page within its margins, and says what is in
// the file alone.
func TestVisitStaysOnePage(t *testing.T) {
	for _, r := range []reader{readers[0], readers[3]} {
		k := r.open(t)
		ctx := context.Background()
		tank, id := r.ill(t, k)
		day := time.Date(2026, 11, 24, 9, 0, 0, 0, time.UTC)
		for i := range 60 {
			at := journal.CivilOf(day.AddDate(0, 0, -i/3).Add(time.Duration(i%3) * time.Hour))
			e := journal.Entry{Kind: journal.Tested, At: at, Note: strings.Repeat("Agua turbia. ", 6)}
			for j, name := range []string{journal.NameAmmonia, journal.NameNitrite, journal.NameNitrate} {
				e.Readings = append(e.Readings, journal.Reading{Name: name, Measure: quantity.Measure{Number: fmt.Sprintf("%d.%d", j, i%10), Unit: "mg/l", Basis: quantity.AsIon}})
			}
			for j, m := range map[string]quantity.Measure{journal.NamePH: {Number: "7.4", Unit: "ph"}, journal.NameKH: {Number: "6", Unit: "dkh"}, journal.NameGH: {Number: "9", Unit: "dgh"}, journal.NameTemperature: {Number: "25.1", Unit: "degc"}} {
				e.Readings = append(e.Readings, journal.Reading{Name: j, Measure: m})
			}
			if _, err := k.AddEntry(ctx, tank, e); err != nil {
				t.Fatal(err)
			}
			for _, kind := range []journal.Kind{journal.Changed, journal.Note, journal.Fed} {
				if _, err := k.AddEntry(ctx, tank, journal.Entry{Kind: kind, At: at, Note: fmt.Sprintf("%d. %s", i, strings.Repeat("Ñandú y más. ", 8))}); err != nil {
					t.Fatal(err)
				}
			}
		}
		var questions []string
		for i := range 20 {
			questions = append(questions, fmt.Sprintf("%d. %s", i, strings.Repeat("¿Y esto? ", 40)))
		}
		a := keeper.VisitAsk{Days: 90, Case: id, Label: strings.Repeat("Ñandú ", 13), Private: slip.Privates(), Questions: questions}
		for _, size := range Sizes() {
			in, err := gatheredVisit(k, tank, a, r.presenter(), size)
			if err != nil {
				t.Fatal(err)
			}
			ps, _ := pages(VisitSlip, &in)
			if len(ps[0].prints) != 0 || len(ps) < 2 || len(ps[1].prints) == 0 {
				t.Errorf("%s, %s: what is told takes more than a page", r.name, size.Code)
			}
			within(t, r.name+", "+size.Code, ps, size)
			text := textOf(document(t, VisitSlip, in))
			if more := in.more(2); !strings.Contains(text, flat(strings.TrimSpace(strings.TrimLeft(more, "0123456789 ")))) {
				t.Errorf("%s, %s: does not say that there is more in the file", r.name, size.Code)
			}
		}
	}
}
