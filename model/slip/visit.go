package slip

import (
	"slices"
	"strings"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Visit is a visit slip: what a keeper takes along to a shop or a veterinarian. It
// holds what the keeper chose, and nothing of it is meant to be kept by a reader who
// is not told so.
type Visit struct {
	// Version of the format, as read. WriteVisit always writes Version.
	Version   int
	MadeBy    Maker
	Signature Signature // as read

	ID       string // by which a reply finds the tank again
	Label    string // whose it is, in the keeper's words, up to MaxLabel runes; may be empty
	Made     journal.Civil
	Zone     string // offset of that clock from UTC, "+01:00"
	Language string // of the keeper, BCP 47; may be empty
	Units    quantity.System
	Region   string // ISO 3166-1 alpha-2, may be empty
	From, To string // civil days of the span, both included
	// Private is what the keeper put in that is left out unless asked for.
	Private []Private

	Facts    map[care.FieldID]care.Answer // of VisitFact fields; the origin of each is care.FromProfile
	Net      quantity.Measure             // water in the tank; zero where it is not known
	Stand    string                       // steady, wait or act, of stand, floor and glass; "" where nothing was checked
	Stock    []Animal
	Wishes   []Animal // to come
	Entries  []VisitEntry
	Case     *VisitCase
	Pictures []VisitPicture
	// Apart is how many pictures the slip was made with that this copy of it lacks, with
	// their marks, as one that was read from paper does: see WithoutPictures.
	Apart     int
	Questions []string // up to MaxQuestion runes each
	// More are members that a later version added, as JSON by name: they are written
	// again as they came.
	More map[string]string
}

// Private is something that a visit slip leaves out unless it is asked for.
type Private string

// The private things.
const (
	Places Private = "places" // where a picture was taken
	Notes  Private = "notes"  // notes of the daybook, captions of pictures
	Prices Private = "prices"
)

// Privates lists the private things.
func Privates() []Private { return []Private{Places, Notes, Prices} }

// Animal is a fish or a group of a visit.
type Animal struct {
	Species  string // of the catalogue, or empty
	Name     string // its own, or of what the catalogue does not have
	Count    int
	Males    *int
	Since    string           // civil day, or empty
	Length   quantity.Measure // of one of them; zero is not measured
	LengthAt string
	Source   string // with Notes
	Price    string // with Prices
}

// VisitEntry is an entry of the daybook.
type VisitEntry struct {
	journal.Entry // Kind, At, Zone, Note (with Notes) and Readings alone
	// Kits are the tests that showed readings, by the reading's name.
	Kits map[string]string
	// OfCase says that it belongs to the case.
	OfCase bool
}

// VisitCase is a fish that looks wrong.
type VisitCase struct {
	About   string // whom it concerns
	Species string
	Many    string // how many show it, a code of package sick
	Opened  journal.Civil
	Closed  journal.Civil // empty while it is open
	Outcome string        // a code, or empty
	Note    string        // with Notes
	Signs   []VisitSign
}

// VisitSign is a sign that was seen.
type VisitSign struct {
	Sign string // a code of package sick
	Seen journal.Civil
	Gone journal.Civil // empty while it is seen
}

// VisitPicture is a picture as it is shown: upright, turned, made anew.
type VisitPicture struct {
	JPEG    []byte
	Taken   journal.Civil // empty where nobody knows
	Zone    string
	Caption string       // with Notes
	OfCase  bool         // belongs to the case
	Place   *photo.Place // with Places
	Marks   []photo.Mark // stored beside the picture, never in it
}

// neverShown are answers that a visit slip does not tell: who lives in the house, and
// the household's own affairs.
var neverShown = []care.FieldID{"household", "home.rented"}

// VisitFact reports whether a visit slip may hold an answer of the field: those of the
// tank, its place, kit, stand and water that a profile may hold, prices with Prices
// alone.
func VisitFact(id care.FieldID) bool {
	return Settable(id) && !slices.Contains(neverShown, id)
}

// IsPrice reports whether an answer tells what something cost.
func IsPrice(id care.FieldID) bool {
	return id == "kit.tariff" || strings.HasSuffix(string(id), ".price")
}

// has reports whether the keeper put something private in.
func (v Visit) has(p Private) bool { return slices.Contains(v.Private, p) }

// WithoutPictures is the visit as the codes of a paper carry it: its pictures stay
// behind with their marks and places, and are counted in Apart.
func (v Visit) WithoutPictures() Visit {
	v.Apart += len(v.Pictures)
	v.Pictures = nil
	private := v.Private
	v.Private = nil
	for _, p := range private {
		if p != Places {
			v.Private = append(v.Private, p)
		}
	}
	return v
}

// Check refuses what a visit slip cannot hold: texts that are too long or hide
// something, entries that no daybook takes, pictures that are none, and private things
// that Private does not name. Errors: *Error.
func (v Visit) Check() error {
	c := checker{part: partVisit}
	c.maker(v.MadeBy)
	c.id("id", v.ID)
	c.line("label", v.Label, MaxLabel)
	c.civil("made", v.Made, true)
	c.zone("zone", v.Zone, true)
	c.day("from", v.From, true)
	c.day("to", v.To, true)
	c.is(v.From <= v.To, "to", CodeWhen)
	c.is(v.Language == "" || languageForm.MatchString(v.Language), "language", CodeLanguage)
	c.is(slices.Contains(quantity.Systems(), v.Units), "units", CodeUnits)
	c.is(v.Region == "" || regionForm.MatchString(v.Region), "region", CodeRegion)
	for i, p := range v.Private {
		c.is(slices.Contains(Privates(), p) && !slices.Contains(v.Private[:i], p), "private", CodeShape)
	}
	c.put(checkAnswers(partVisit, "facts", v.Facts, func(id care.FieldID) bool { return VisitFact(id) && (v.has(Prices) || !IsPrice(id)) }))
	c.measure("net", v.Net, quantity.KindVolume, CodeNumber)
	c.is(slices.Contains([]string{"", working.Steady.String(), working.Wait.String(), working.Act.String()}, v.Stand), "stand", CodeShape)
	c.animals(v, "stock", v.Stock)
	c.animals(v, "wishes", v.Wishes)
	c.entries(v)
	c.sick(v)
	c.pictures(v)
	c.most("questions", len(v.Questions), MaxQuestions)
	for _, q := range v.Questions {
		c.text("questions", q, MaxQuestion)
		c.is(strings.TrimSpace(q) != "", "questions", CodeShape)
	}
	c.others(v.More, visitMembers)
	return c.err
}

func (c *checker) animals(v Visit, place string, as []Animal) {
	c.most(place, len(as), MaxAnimals)
	for _, a := range as {
		c.is(a.Species == "" || wordForm.MatchString(a.Species), join(place, "species"), CodeAnimal)
		c.line(join(place, "name"), a.Name, MaxSaid)
		c.is(a.Count >= 0 && a.Count <= maxCount && (a.Males == nil || *a.Males >= 0 && *a.Males <= a.Count), join(place, "count"), CodeAnimal)
		c.day(join(place, "since"), a.Since, false)
		c.measure(join(place, "length"), a.Length, quantity.KindLength, CodeAnimal)
		c.day(join(place, "length_at"), a.LengthAt, false)
		c.line(join(place, "source"), a.Source, MaxSaid)
		c.line(join(place, "price"), a.Price, MaxSaid)
		c.is(v.has(Notes) || a.Source == "", join(place, "source"), CodeShape)
		c.is(v.has(Prices) || a.Price == "", join(place, "price"), CodeShape)
	}
}

func (c *checker) entries(v Visit) {
	c.most("entries", len(v.Entries), MaxEntries)
	for _, e := range v.Entries {
		c.is(e.ID == "" && e.Seq == 0 && e.Step == "" && e.Edited == "" && e.Sick == "" && e.Reply == "", "entries", CodeShape)
		c.zone("entries.zone", e.Zone, true)
		c.is(v.has(Notes) || e.Note == "", "entries.note", CodeShape)
		c.is(plain(e.Note, true), "entries.note", CodeText)
		c.readings("entries.readings", e.Readings, e.Kits)
		for _, r := range e.Readings {
			c.is(v.has(Prices) || r.Name != journal.NamePrice, "entries.readings", CodeShape)
			c.is(v.has(Notes) || r.Name != journal.NameSource, "entries.readings", CodeShape)
		}
		if e.Check() != nil {
			c.is(false, "entries", CodeEntry)
		}
	}
}

func (c *checker) sick(v Visit) {
	if v.Case == nil {
		for _, e := range v.Entries {
			c.is(!e.OfCase, "entries.of_case", CodeCase)
		}
		for _, p := range v.Pictures {
			c.is(!p.OfCase, "pictures.of_case", CodeCase)
		}
		return
	}
	s := v.Case
	c.line("case.about", s.About, MaxSaid)
	c.is(s.Species == "" || wordForm.MatchString(s.Species), "case.species", CodeCase)
	c.is(s.Many == "" || wordForm.MatchString(s.Many), "case.many", CodeCase)
	c.civil("case.opened", s.Opened, true)
	c.civil("case.closed", s.Closed, false)
	c.is(s.Outcome == "" || wordForm.MatchString(s.Outcome), "case.outcome", CodeCase)
	c.text("case.note", s.Note, journal.MaxNote)
	c.is(v.has(Notes) || s.Note == "", "case.note", CodeShape)
	c.most("case.signs", len(s.Signs), MaxSigns)
	for _, x := range s.Signs {
		c.is(wordForm.MatchString(x.Sign), "case.signs.sign", CodeCase)
		c.civil("case.signs.seen", x.Seen, true)
		c.civil("case.signs.gone", x.Gone, false)
	}
}

func (c *checker) pictures(v Visit) {
	c.most("pictures", len(v.Pictures), MaxPictures)
	c.is(v.Apart >= 0 && v.Apart <= MaxPictures-len(v.Pictures), "pictures_apart", CodePicture)
	seen := map[string]bool{}
	for _, p := range v.Pictures {
		name := pictureName(p.JPEG)
		c.is(!seen[name], "pictures", CodeTwice)
		seen[name] = true
		c.picture(p.JPEG)
		c.civil("pictures.taken", p.Taken, false)
		c.zone("pictures.zone", p.Zone, false)
		c.line("pictures.caption", p.Caption, photo.MostWords)
		c.is(v.has(Notes) || p.Caption == "", "pictures.caption", CodeShape)
		c.is(v.has(Places) || p.Place == nil, "pictures.place", CodeShape)
		c.is(p.Place == nil || p.Place.Latitude >= -90 && p.Place.Latitude <= 90 && p.Place.Longitude >= -180 && p.Place.Longitude <= 180, "pictures.place", CodeNumber)
		c.most("pictures.marks", len(p.Marks), MaxMarks)
		for _, m := range p.Marks {
			c.is(m.ID == "", "pictures.marks", CodeShape)
			c.line("pictures.marks.words", m.Words, photo.MostWords)
			c.is(m.Measure.IsZero() || m.Kind == photo.Known, "pictures.marks", CodePicture)
			c.measure("pictures.marks", m.Measure, quantity.KindLength, CodePicture)
			c.is(m.Check() == nil, "pictures.marks", CodePicture)
		}
	}
}

// picture refuses what is no JPEG of a size that a slip carries. Its head alone is
// read; whether it can be shown is seen when it is. Where it was taken stands beside
// it, if anywhere, where everybody sees that it is told.
func (c *checker) picture(data []byte) {
	if len(data) > MaxPicture {
		c.put(above(CodePicture, partVisit, MaxPicture/1e6))
		return
	}
	info, err := photo.Inspect(data, photo.Usual())
	c.is(err == nil && info.Format == photo.JPEG && max(info.Width, info.Height) <= MaxSide && info.Place == nil, "pictures", CodePicture)
}
