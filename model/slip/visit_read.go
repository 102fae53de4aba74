package slip

import (
	"io"
	"strings"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// folderPictures is where the pictures of a visit lie: pictures/HASH.jpg, the hash
// being the SHA-256 of the picture.
const (
	folderPictures = "pictures/"
	pictureEnding  = ".jpg"
)

func isPicture(name string) bool {
	hash, ok := strings.CutPrefix(name, folderPictures)
	hash, jpg := strings.CutSuffix(hash, pictureEnding)
	return ok && jpg && hashForm.MatchString(hash)
}

// visitMembers are the members of visit.json.
var visitMembers = []string{"id", "label", "made", "zone", "language", "units", "region", "from", "to", "private", "facts", "net", "stand", "stock", "wishes",
	"entries", "case", "pictures", "pictures_apart", "questions"}

// ReadVisit reads a visit slip of size bytes. The findings name what was left out, as
// those of ReadProfile do; members of a later version are named, and kept in More.
// Errors: *Error; no part of the slip is given then.
func ReadVisit(r io.ReaderAt, size int64) (Visit, []working.Finding, error) {
	parts, err := directory(r, size, visitLimits)
	if err != nil {
		return Visit{}, nil, err
	}
	o, err := open(newUnpacker(r, visitLimits), parts, FormatVisit, partVisit, func(name string) int64 {
		switch {
		case name == partVisit:
			return MaxVisitJSON
		case isPicture(name):
			return MaxPicture
		}
		return 0
	})
	if err != nil {
		return Visit{}, nil, err
	}
	v := Visit{Version: o.manifest.Version, MadeBy: o.manifest.MadeBy, Signature: o.signed}
	o.fetch.part = partVisit
	if err := o.visit(&v); err != nil {
		return Visit{}, nil, err
	}
	return v, o.findings(), nil
}

func (o *opened) visit(v *Visit) error {
	f := &o.fetch
	t, err := parse(partVisit, o.bodies[partVisit], visitLimits)
	if err != nil {
		return err
	}
	m := f.members(t, "", v.Version, visitMembers...)
	if m.err != nil {
		return m.err
	}
	v.More = kept(o.bodies[partVisit], visitMembers)
	v.ID, v.Label, v.Made, v.Zone, v.Language = m.text("id"), m.text("label"), m.civil("made"), m.text("zone"), m.text("language")
	v.Units, v.Region, v.From, v.To = quantity.System(m.text("units")), m.text("region"), m.text("from"), m.text("to")
	v.Net, v.Stand = m.measure("net"), m.text("stand")
	m.each("private", len(Privates()), func(t tree, place string) error {
		if t.kind != isString {
			return f.shape(place)
		}
		v.Private = append(v.Private, Private(t.text))
		return nil
	})
	facts := map[care.FieldID]care.Answer{}
	m.put(f.answers(facts, v.Version, m.of, "facts", VisitFact))
	if len(facts) > 0 {
		v.Facts = facts
	}
	v.Stock, v.Wishes = m.animals("stock"), m.animals("wishes")
	m.each("entries", MaxEntries, func(t tree, place string) error {
		e, err := m.entry(t, place)
		if err == nil {
			v.Entries = append(v.Entries, e)
		}
		return err
	})
	if m.has("case") {
		v.Case = m.sick()
	}
	m.each("pictures", MaxPictures, func(t tree, place string) error {
		p, err := o.picture(m, t, place)
		if err == nil {
			v.Pictures = append(v.Pictures, p)
		}
		return err
	})
	if n := m.maybe("pictures_apart"); n != nil {
		v.Apart = *n
	}
	m.each("questions", MaxQuestions, func(t tree, place string) error {
		if t.kind != isString {
			return f.shape(place)
		}
		v.Questions = append(v.Questions, t.text)
		return nil
	})
	if m.err != nil {
		return m.err
	}
	for name := range o.bodies {
		if isPicture(name) && !o.shown[name] {
			f.leftOut(FoundPart, name)
		}
	}
	return v.Check()
}

func (m *members) animals(name string) (out []Animal) {
	m.each(name, MaxAnimals, func(t tree, place string) error {
		in := m.f.members(t, place, m.version, "species", "name", "count", "males", "since", "length", "length_at", "source", "price")
		out = append(out, Animal{Species: in.text("species"), Name: in.text("name"), Count: in.count("count"), Males: in.maybe("males"), Since: in.text("since"),
			Length: in.measure("length"), LengthAt: in.text("length_at"), Source: in.text("source"), Price: in.text("price")})
		if in.err != nil {
			out = out[:len(out)-1]
		}
		return in.err
	})
	return out
}

func (m *members) entry(t tree, place string) (VisitEntry, error) {
	in := m.f.members(t, place, m.version, "kind", "at", "zone", "note", "readings", "of_case")
	e := VisitEntry{Entry: journal.Entry{Kind: journal.Kind(in.text("kind")), At: in.civil("at"), Zone: in.text("zone"), Note: in.text("note")}, OfCase: in.yes("of_case")}
	e.Readings, e.Kits = in.readings("readings")
	if in.err == nil && m.version > Version && e.Check() != nil {
		return e, &Error{Code: CodeEntry, Part: m.f.part, Place: place}
	}
	return e, in.err
}

func (m *members) sick() *VisitCase {
	in := m.f.members(m.of["case"], "case", m.version, "about", "species", "many", "opened", "closed", "outcome", "note", "signs")
	c := &VisitCase{About: in.text("about"), Species: in.text("species"), Many: in.text("many"), Opened: in.civil("opened"), Closed: in.civil("closed"),
		Outcome: in.text("outcome"), Note: in.text("note")}
	in.each("signs", MaxSigns, func(t tree, place string) error {
		s := m.f.members(t, place, m.version, "sign", "seen", "gone")
		c.Signs = append(c.Signs, VisitSign{Sign: s.text("sign"), Seen: s.civil("seen"), Gone: s.civil("gone")})
		if s.err != nil {
			c.Signs = c.Signs[:len(c.Signs)-1]
		}
		return s.err
	})
	m.put(in.err)
	return c
}

// picture reads what is said of a picture, and takes the picture.
func (o *opened) picture(m *members, t tree, place string) (VisitPicture, error) {
	in := m.f.members(t, place, m.version, "name", "taken", "zone", "caption", "of_case", "place", "marks")
	name := in.text("name")
	p := VisitPicture{Taken: in.civil("taken"), Zone: in.text("zone"), Caption: in.text("caption"), OfCase: in.yes("of_case")}
	if in.has("place") {
		at := m.f.members(in.of["place"], join(place, "place"), m.version, "latitude", "longitude")
		p.Place = &photo.Place{Latitude: at.real("latitude"), Longitude: at.real("longitude")}
		in.put(at.err)
	}
	in.each("marks", MaxMarks, func(t tree, place string) error {
		k, err := m.mark(t, place)
		if err == nil {
			p.Marks = append(p.Marks, k)
		}
		return err
	})
	if in.err != nil {
		return p, in.err
	}
	data, ok := o.bodies[name]
	if !ok || !isPicture(name) {
		return p, refuse(CodeHash, visible(name))
	}
	if name != pictureName(data) {
		return p, &Error{Code: CodePicture, Part: visible(name), Place: place}
	}
	if o.shown == nil {
		o.shown = map[string]bool{}
	}
	p.JPEG, o.shown[name] = data, true
	return p, nil
}

func (m *members) mark(t tree, place string) (photo.Mark, error) {
	in := m.f.members(t, place, m.version, "kind", "points", "words", "measure")
	k := photo.Mark{Kind: photo.MarkKind(in.text("kind")), Words: in.text("words"), Measure: in.measure("measure")}
	in.each("points", 2, func(t tree, place string) error {
		at := m.f.members(t, place, m.version, "x", "y")
		k.Points = append(k.Points, photo.Point{X: at.real("x"), Y: at.real("y")})
		return at.err
	})
	if in.err == nil && m.version > Version && k.Check() != nil {
		return k, &Error{Code: CodePicture, Part: m.f.part, Place: place}
	}
	return k, in.err
}
