package slip

import (
	"strconv"
	"unicode/utf8"

	"example.org/driploop/model/working"
)

// Codes of what a reading leaves out. Each is the key of a message.
const (
	FoundNewer         working.Key = "find.slip.newer"          // written by a later version
	FoundPart          working.Key = "find.slip.part"           // a part that is not known
	FoundMember        working.Key = "find.slip.member"         // a member that is not known
	FoundField         working.Key = "find.slip.field"          // a field that is not known
	FoundNotSettable   working.Key = "find.slip.not_settable"   // a field that a shop cannot answer
	FoundNotUnderstood working.Key = "find.slip.not_understood" // an answer of a later version
	FoundLine          working.Key = "find.slip.line"           // one of a list, of a later version
	FoundMore          working.Key = "find.slip.more"           // more of them than are named
)

// maxNamed is how many left-out things are named. // judgement
const maxNamed = 40

// fetch takes known members out of JSON objects and notes the names of the others.
type fetch struct {
	part  string
	found []working.Finding
	more  int // left out beyond maxNamed
}

func (f *fetch) note(x working.Finding) {
	if len(f.found) < maxNamed {
		f.found = append(f.found, x)
		return
	}
	f.more++
}

func (f *fetch) leftOut(code working.Key, name string) {
	f.note(working.Find(working.Wait, code).Say("Name", visible(name)))
}

func (f *fetch) shape(place string) error {
	return &Error{Code: CodeShape, Part: f.part, Place: place}
}

// object gives the known members of an object by name.
func (f *fetch) object(t tree, place string, known ...string) (map[string]tree, error) {
	if t.kind != isObject {
		return nil, f.shape(place)
	}
	out := make(map[string]tree, len(known))
members:
	for _, m := range t.members {
		for _, k := range known {
			if m.name == k {
				out[k] = m.value
				continue members
			}
		}
		f.leftOut(FoundMember, join(place, m.name))
	}
	return out, nil
}

func join(place, name string) string {
	if place == "" {
		return name
	}
	return place + "." + name
}

// text gives a string of up to most runes, "" when it is missing.
func (f *fetch) text(of map[string]tree, place, name string, most int, lines bool) (string, error) {
	t, ok := of[name]
	if !ok {
		return "", nil
	}
	place = join(place, name)
	if t.kind != isString {
		return "", f.shape(place)
	}
	return t.text, checkText(f.part, place, t.text, most, lines)
}

// checkText refuses a text that is too long or holds what cannot be seen.
func checkText(part, place, s string, most int, lines bool) error {
	if utf8.RuneCountInString(s) > most {
		e := above(CodeLong, part, float64(most))
		e.Place = place
		return e
	}
	if !plain(s, lines) {
		return &Error{Code: CodeText, Part: part, Place: place}
	}
	return nil
}

// whole gives a whole number from low to high.
func (f *fetch) whole(of map[string]tree, place, name string, low, high int64) (int64, error) {
	t, ok := of[name]
	place = join(place, name)
	if !ok || t.kind != isNumber {
		return 0, f.shape(place)
	}
	n, err := strconv.ParseInt(t.text, 10, 64)
	if err != nil || n < low || n > high || t.text[0] == '-' {
		return 0, &Error{Code: CodeNumber, Part: f.part, Place: place}
	}
	return n, nil
}
