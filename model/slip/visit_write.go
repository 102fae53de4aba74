package slip

import (
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/hex"
	"io"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
)

// The body of a visit, as written.
type writtenVisit struct {
	ID        string           `json:"id"`
	Label     string           `json:"label,omitempty"`
	Made      journal.Civil    `json:"made"`
	Zone      string           `json:"zone"`
	Language  string           `json:"language,omitempty"`
	Units     quantity.System  `json:"units"`
	Region    string           `json:"region,omitempty"`
	From      string           `json:"from"`
	To        string           `json:"to"`
	Private   []Private        `json:"private,omitempty"`
	Facts     []writtenAnswer  `json:"facts,omitempty"`
	Net       *writtenMeasure  `json:"net,omitempty"`
	Stand     string           `json:"stand,omitempty"`
	Stock     []writtenAnimal  `json:"stock,omitempty"`
	Wishes    []writtenAnimal  `json:"wishes,omitempty"`
	Entries   []writtenEntry   `json:"entries,omitempty"`
	Case      *writtenCase     `json:"case,omitempty"`
	Pictures  []writtenPicture `json:"pictures,omitempty"`
	Apart     int              `json:"pictures_apart,omitempty"`
	Questions []string         `json:"questions,omitempty"`
}

type writtenMeasure struct {
	Value string            `json:"value"`
	Unit  quantity.UnitCode `json:"unit"`
	Basis quantity.Basis    `json:"basis,omitempty"`
}

type writtenAnimal struct {
	Species  string          `json:"species,omitempty"`
	Name     string          `json:"name,omitempty"`
	Count    int             `json:"count"`
	Males    *int            `json:"males,omitempty"`
	Since    string          `json:"since,omitempty"`
	Length   *writtenMeasure `json:"length,omitempty"`
	LengthAt string          `json:"length_at,omitempty"`
	Source   string          `json:"source,omitempty"`
	Price    string          `json:"price,omitempty"`
}

type writtenEntry struct {
	Kind     journal.Kind     `json:"kind"`
	At       journal.Civil    `json:"at"`
	Zone     string           `json:"zone"`
	Note     string           `json:"note,omitempty"`
	Readings []writtenReading `json:"readings,omitempty"`
	OfCase   bool             `json:"of_case,omitempty"`
}

type writtenReading struct {
	Name      string            `json:"name"`
	Value     string            `json:"value,omitempty"`
	Unit      quantity.UnitCode `json:"unit,omitempty"`
	Basis     quantity.Basis    `json:"basis,omitempty"`
	Qualifier journal.Qualifier `json:"qualifier,omitempty"`
	Kit       string            `json:"kit,omitempty"`
}

type writtenCase struct {
	About   string        `json:"about,omitempty"`
	Species string        `json:"species,omitempty"`
	Many    string        `json:"many,omitempty"`
	Opened  journal.Civil `json:"opened"`
	Closed  journal.Civil `json:"closed,omitempty"`
	Outcome string        `json:"outcome,omitempty"`
	Note    string        `json:"note,omitempty"`
	Signs   []writtenSign `json:"signs,omitempty"`
}

type writtenSign struct {
	Sign string        `json:"sign"`
	Seen journal.Civil `json:"seen"`
	Gone journal.Civil `json:"gone,omitempty"`
}

type writtenPicture struct {
	Name    string        `json:"name"`
	Taken   journal.Civil `json:"taken,omitempty"`
	Zone    string        `json:"zone,omitempty"`
	Caption string        `json:"caption,omitempty"`
	OfCase  bool          `json:"of_case,omitempty"`
	Place   *writtenPlace `json:"place,omitempty"`
	Marks   []writtenMark `json:"marks,omitempty"`
}

type writtenPlace struct {
	Latitude  float64 `json:"latitude"`
	Longitude float64 `json:"longitude"`
}

type writtenMark struct {
	Kind    photo.MarkKind  `json:"kind"`
	Points  []photo.Point   `json:"points"`
	Words   string          `json:"words,omitempty"`
	Measure *writtenMeasure `json:"measure,omitempty"`
}

// pictureName is the name of a picture's part.
func pictureName(jpeg []byte) string {
	sum := sha256.Sum256(jpeg)
	return folderPictures + hex.EncodeToString(sum[:]) + pictureEnding
}

func measured(m quantity.Measure) *writtenMeasure {
	if m.IsZero() {
		return nil
	}
	return &writtenMeasure{m.Number, m.Unit, m.Basis}
}

func writtenAnimals(as []Animal) []writtenAnimal {
	var out []writtenAnimal
	for _, a := range as {
		out = append(out, writtenAnimal{a.Species, a.Name, a.Count, a.Males, a.Since, measured(a.Length), a.LengthAt, a.Source, a.Price})
	}
	return out
}

func writtenReadings(rs []journal.Reading, kits map[string]string) []writtenReading {
	var out []writtenReading
	for _, r := range rs {
		out = append(out, writtenReading{r.Name, r.Measure.Number, r.Measure.Unit, r.Measure.Basis, r.Qualifier, kits[r.Name]})
	}
	return out
}

// WriteVisit writes v so that the same visit gives the same bytes, signed with the
// key unless that is nil; whose signature v bore does not matter. Pictures come
// behind the body in the order of v. Errors: *Error when v holds what a visit cannot;
// those of w.
func WriteVisit(w io.Writer, v Visit, key ed25519.PrivateKey) error {
	if err := v.Check(); err != nil {
		return err
	}
	out := writtenVisit{ID: v.ID, Label: v.Label, Made: v.Made, Zone: v.Zone, Language: v.Language, Units: v.Units, Region: v.Region, From: v.From, To: v.To,
		Private: v.Private, Facts: writtenAnswers(v.Facts), Net: measured(v.Net), Stand: v.Stand, Stock: writtenAnimals(v.Stock), Wishes: writtenAnimals(v.Wishes),
		Apart: v.Apart, Questions: v.Questions}
	for _, e := range v.Entries {
		out.Entries = append(out.Entries, writtenEntry{e.Kind, e.At, e.Zone, e.Note, writtenReadings(e.Readings, e.Kits), e.OfCase})
	}
	if c := v.Case; c != nil {
		out.Case = &writtenCase{About: c.About, Species: c.Species, Many: c.Many, Opened: c.Opened, Closed: c.Closed, Outcome: c.Outcome, Note: c.Note}
		for _, s := range c.Signs {
			out.Case.Signs = append(out.Case.Signs, writtenSign(s))
		}
	}
	var pictures []part
	for _, p := range v.Pictures {
		x := writtenPicture{Name: pictureName(p.JPEG), Taken: p.Taken, Zone: p.Zone, Caption: p.Caption, OfCase: p.OfCase}
		if p.Place != nil {
			x.Place = &writtenPlace{p.Place.Latitude + 0, p.Place.Longitude + 0} // no -0
		}
		for _, m := range p.Marks {
			x.Marks = append(x.Marks, writtenMark{m.Kind, m.Points, m.Words, measured(m.Measure)})
		}
		out.Pictures = append(out.Pictures, x)
		pictures = append(pictures, part{x.Name, p.JPEG})
	}
	body, err := withMore(out, v.More)
	if err != nil {
		return err
	}
	size := int64(0)
	for _, p := range pictures {
		size += int64(len(p.data))
	}
	const frame = 100_000 // of the container: lists of parts, twice, and a signature // judgement
	switch {
	case len(body) > MaxVisitJSON:
		return above(CodeJSONSize, partVisit, MaxVisitJSON/1e6)
	case size+int64(len(body))+frame > MaxVisit:
		return above(CodeTooBig, partVisit, MaxVisit/1e6)
	}
	// A text with much to escape, or very many readings.
	if _, err := parse(partVisit, body, visitLimits); err != nil {
		return err
	}
	return pack(w, manifest{Format: FormatVisit, Version: Version, MadeBy: v.MadeBy}, append([]part{{partVisit, body}}, pictures...), key)
}
