package keeper

import (
	"context"
	"io"
	"slices"
	"strings"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// VisitPart is something that a visit slip may hold.
type VisitPart string

// The parts.
const (
	VisitFacts     VisitPart = "facts"    // tank, place, kit, stand, water
	VisitStock     VisitPart = "stock"    // what lives in the tank, and what is wished for
	VisitTests     VisitPart = "tests"    // tests and temperatures
	VisitFeeding   VisitPart = "feeding"  // meals
	VisitChanges   VisitPart = "changes"  // water changed, topped up, treated; cleaning
	VisitOthers    VisitPart = "others"   // every other entry
	VisitCase      VisitPart = "case"     // the case chosen
	VisitPictures  VisitPart = "pictures" // of the case or, without one, of the span
	VisitQuestions VisitPart = "questions"
)

// VisitParts lists the parts in the order in which they are shown.
func VisitParts() []VisitPart {
	return []VisitPart{VisitFacts, VisitStock, VisitTests, VisitFeeding, VisitChanges, VisitOthers, VisitCase, VisitPictures, VisitQuestions}
}

// PartOf says with which part of a visit an entry goes.
func PartOf(k journal.Kind) VisitPart {
	switch k {
	case journal.Tested, journal.TapTested, journal.Temperature:
		return VisitTests
	case journal.Fed:
		return VisitFeeding
	case journal.Changed, journal.ToppedUp, journal.Dosed, journal.Cleaned:
		return VisitChanges
	}
	return VisitOthers
}

// VisitDays is how many days a visit slip usually tells of, and VisitSpans those that
// are offered; 0 is everything. Judgement: a month of tests shows a trend.
const VisitDays = 30

// VisitSpans lists the spans that are offered, in days.
func VisitSpans() []int { return []int{14, VisitDays, 90, 365, 0} }

// VisitAsk is what a keeper wants a visit slip to hold.
type VisitAsk struct {
	Label string // whose it is; may be empty
	// Days counts back from today, which is the first of them; 0 is everything.
	Days int
	// Without are the parts that are left out.
	Without []VisitPart
	Case    string // id of the case that it is about, or empty
	// Private is what is put in that is otherwise left out.
	Private   []slip.Private
	Questions []string
	Language  string // of the keeper, BCP 47
}

func (a VisitAsk) has(p VisitPart) bool { return !slices.Contains(a.Without, p) }

// VisitPreview says what a visit slip would hold.
type VisitPreview struct {
	// Visit is the slip without the bytes of its pictures.
	Visit slip.Visit
	// Count is how much of each part there is in it.
	Count map[VisitPart]int
	// Private is how many of each private thing there are among what was chosen,
	// whether they are put in or not.
	Private map[slip.Private]int
	// EarlierEntries and EarlierPictures are the oldest ones, beyond what a slip holds.
	EarlierEntries, EarlierPictures int
	// Lost counts pictures that could not be read; known when the slip is written.
	Lost int

	photos []Photo
}

// Visit says what a visit slip would hold; nothing is kept. Refusals: no such tank,
// "case" (no such case), "label", "questions" (too long, too many), "days".
func (k *Keeper) Visit(ctx context.Context, tank string, a VisitAsk) (VisitPreview, error) {
	p := VisitPreview{Count: map[VisitPart]int{}, Private: map[slip.Private]int{}}
	now := k.now()
	r, err := k.record(ctx, tank)
	if err != nil {
		return p, err
	}
	if a.Days < 0 || a.Days > maxVisitDays {
		return p, working.Outside("days", "q.visit.days", quantity.Count(a.Days).Value(), quantity.Count(0).Value(), quantity.Count(maxVisitDays).Value())
	}
	v := &p.Visit
	*v = slip.Visit{Version: slip.Version, MadeBy: maker(), ID: k.newID(), Label: slip.OneLine(a.Label), Made: journal.CivilOf(now), Zone: journal.ZoneOf(now), Language: a.Language,
		Units: r.System, Region: r.Region.Code, To: journal.CivilOf(now).Day(), Private: slices.Clone(a.Private)}
	if len([]rune(v.Label)) > slip.MaxLabel {
		return p, working.Refuse("label", "refuse.care.words_long")
	}
	v.From = now.AddDate(0, 0, 1-max(1, a.Days)).Format(time.DateOnly)
	if a.Days == 0 {
		v.From = v.To
		if len(r.Entries) > 0 {
			v.From = min(v.To, r.Entries[0].At.Day())
		}
	}
	for _, q := range a.Questions {
		if q = strings.TrimSpace(slip.Tidy(q)); q == "" || !a.has(VisitQuestions) {
			continue
		}
		if v.Questions = append(v.Questions, q); len([]rune(q)) > slip.MaxQuestion || len(v.Questions) > slip.MaxQuestions {
			return p, working.Refuse("questions", "refuse.keeper.questions")
		}
	}
	p.Count[VisitQuestions] = len(v.Questions)
	if a.has(VisitFacts) {
		if err := k.visitFacts(ctx, tank, r, &p); err != nil {
			return p, err
		}
	}
	if a.has(VisitStock) {
		if err := k.visitStock(ctx, tank, &p); err != nil {
			return p, err
		}
	}
	sick := ""
	if a.Case != "" && a.has(VisitCase) {
		sick = a.Case
		if err := k.visitCase(ctx, tank, r, sick, &p); err != nil {
			return p, err
		}
	}
	p.entries(k, r.Entries, a, sick)
	if a.has(VisitPictures) {
		if err := k.visitPictures(ctx, tank, sick, &p); err != nil {
			return p, err
		}
	}
	return p, nil
}

// maxVisitDays is the longest span, in days. // judgement
const maxVisitDays = 36_500

// counts notes something private that is there, and reports whether it is put in.
func (p *VisitPreview) counts(what slip.Private, there bool) bool {
	if there {
		p.Private[what]++
	}
	return slices.Contains(p.Visit.Private, what)
}

func (k *Keeper) visitFacts(ctx context.Context, tank string, r *care.Record, p *VisitPreview) error {
	v := &p.Visit
	for id, a := range r.Answers {
		if a = slip.Proposed(a); a.IsZero() || !slip.VisitFact(id) || !slip.Fits(id, a) {
			continue
		}
		if slip.IsPrice(id) && !p.counts(slip.Prices, true) {
			continue
		}
		if v.Facts == nil {
			v.Facts = map[care.FieldID]care.Answer{}
		}
		v.Facts[id] = a
	}
	p.Count[VisitFacts] = len(v.Facts)
	return k.look(ctx, tank, func(_ *care.Record, f *care.Facts) {
		if full, err := f.Full(); err == nil {
			litre, _ := quantity.UnitOf("l")
			v.Net = quantity.Of(litre.FromBase(float64(full.Net)), litre.Code, 3)
		}
		if page := f.Page(care.StandFloor); page.Verdict != nil && len(page.Checks) > 0 {
			v.Stand = page.Verdict.State.String()
		}
	})
}

func (k *Keeper) visitStock(ctx context.Context, tank string, p *VisitPreview) error {
	stock, err := k.Stock(ctx, tank)
	if err != nil {
		return err
	}
	wishes, err := k.Wishes(ctx, tank)
	if err != nil {
		return err
	}
	for _, l := range stock {
		if len(p.Visit.Stock) == slip.MaxAnimals {
			break
		}
		a := slip.Animal{Species: l.Species, Name: slip.OneLine(l.Name), Count: l.Count, Males: l.Males, Since: l.Since.Day()}
		if _, err := l.Length.Value(); err == nil {
			a.Length, a.LengthAt = l.Length, l.LengthAt.Day()
		}
		if source := slip.OneLine(l.Source); p.counts(slip.Notes, source != "") {
			a.Source = source
		}
		if price := slip.OneLine(l.Price); p.counts(slip.Prices, price != "") {
			a.Price = price
		}
		p.Visit.Stock = append(p.Visit.Stock, a)
	}
	for _, w := range wishes {
		p.Visit.Wishes = append(p.Visit.Wishes, slip.Animal{Species: string(w.Species), Count: w.Count, Males: w.Males})
	}
	p.Count[VisitStock] = len(p.Visit.Stock) + len(p.Visit.Wishes)
	return nil
}

func (k *Keeper) visitCase(ctx context.Context, tank string, r *care.Record, id string, p *VisitPreview) error {
	row, err := k.caseRow(ctx, tank, id)
	if err != nil {
		return err
	}
	c, err := k.caseOf(ctx, row, r)
	if err != nil {
		return err
	}
	out := &slip.VisitCase{About: slip.OneLine(c.About), Species: c.Species, Many: string(c.Many), Opened: c.Opened, Closed: c.Closed, Outcome: string(c.Outcome)}
	if note := slip.Tidy(c.Note); p.counts(slip.Notes, note != "") {
		out.Note = note
	}
	for _, s := range c.Signs {
		if len(out.Signs) < slip.MaxSigns {
			out.Signs = append(out.Signs, slip.VisitSign{Sign: string(s.Sign), Seen: s.Seen, Gone: s.Gone})
		}
	}
	p.Visit.Case = out
	p.Count[VisitCase] = 1
	return nil
}

// entries takes the entries of the span that were asked for, and all of the case.
func (p *VisitPreview) entries(k *Keeper, es []journal.Entry, a VisitAsk, sick string) {
	v := &p.Visit
	for _, e := range slices.Backward(es) {
		own := sick != "" && e.Sick == sick
		day := e.At.Day()
		if !own && (day < v.From || day > v.To || !a.has(PartOf(e.Kind))) {
			continue
		}
		x := slip.VisitEntry{Entry: journal.Entry{Kind: e.Kind, At: e.At, Zone: e.Zone}, OfCase: own}
		if note := slip.Tidy(e.Note); p.counts(slip.Notes, note != "") {
			x.Note = note
		}
		for _, r := range e.Readings {
			if r.Name == journal.NamePrice && !p.counts(slip.Prices, true) || r.Name == journal.NameSource && !p.counts(slip.Notes, true) {
				continue
			}
			if word, said := r.Word(); said {
				if word = slip.OneLine(word); word == "" {
					continue
				}
				r.Measure.Number = word
			}
			if kit, ok := k.KitOf(r.Kit); ok {
				if x.Kits == nil {
					x.Kits = map[string]string{}
				}
				x.Kits[r.Name] = slip.OneLine(kit.Name)
			}
			r.Kit = ""
			x.Readings = append(x.Readings, r)
		}
		if x.Note == "" && len(x.Readings) == 0 && (!bare[e.Kind] || e.Kind == journal.Photo || e.Kind == journal.StepDone) {
			continue // a note that was left out, a day's pictures, a step of First fill: nothing is left to tell
		}
		if len(v.Entries) == slip.MaxEntries {
			p.EarlierEntries++
			continue
		}
		v.Entries = append(v.Entries, x)
		p.Count[PartOf(e.Kind)]++
	}
	slices.Reverse(v.Entries) // the oldest first, as a daybook runs
}

func (k *Keeper) visitPictures(ctx context.Context, tank, sick string, p *VisitPreview) error {
	f := PhotoFilter{Sick: sick}
	if sick == "" {
		f = PhotoFilter{From: p.Visit.From, To: p.Visit.To}
	}
	photos, err := k.Photos(ctx, tank, f)
	if err != nil {
		return err
	}
	if over := len(photos) - slip.MaxPictures; over > 0 {
		p.EarlierPictures, photos = over, photos[over:]
	}
	for _, ph := range photos {
		x := slip.VisitPicture{Taken: ph.Taken, Zone: ph.Zone, OfCase: sick != ""}
		if caption := slip.OneLine(ph.Caption); p.counts(slip.Notes, caption != "") {
			x.Caption = caption
		}
		if p.counts(slip.Places, ph.Place != nil) {
			x.Place = ph.Place
		}
		for _, m := range ph.Marks {
			m.ID, m.Words = "", slip.OneLine(m.Words)
			if m.Check() == nil && len(x.Marks) < slip.MaxMarks {
				x.Marks = append(x.Marks, m)
			}
		}
		p.Visit.Pictures = append(p.Visit.Pictures, x)
	}
	p.photos = photos
	p.Count[VisitPictures] = len(photos)
	return nil
}

// OpenVisit reads the visit slip at path, at a shop. Nothing of it is kept. The
// findings are those of slip.ReadVisit; the first says whether it was signed. Errors:
// *slip.Error.
func (k *Keeper) OpenVisit(ctx context.Context, path string) (slip.Visit, []working.Finding, error) {
	f, size, err := openSlip(ctx, path)
	if err != nil {
		return slip.Visit{}, nil, err
	}
	defer f.Close()
	return readVisit(f, size)
}

// readVisit reads a visit slip; the first finding says whether it was signed.
func readVisit(r io.ReaderAt, size int64) (slip.Visit, []working.Finding, error) {
	v, found, err := slip.ReadVisit(r, size)
	if err != nil {
		return slip.Visit{}, nil, err
	}
	// A shop meets many keepers: that a key is new says nothing.
	signed := working.Find(working.Steady, foundUnsigned)
	if v.Signature.Signed() {
		signed = working.Find(working.Steady, foundVisitSigned)
	}
	return v, append([]working.Finding{signed}, found...), nil
}

// foundVisitSigned: unchanged since its keeper's program wrote it.
const foundVisitSigned working.Key = "find.slip.visit_signed"
