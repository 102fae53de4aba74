package reckon

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"unicode/utf8"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Limits of an input. // judgement: the largest example is a few kilobytes
const (
	MaxInput = 1 << 20 // bytes
	MaxDepth = 32      // levels of objects and lists
)

// Refused is an input that was not taken, with the names that would be where it
// is one of a few: fields, unit codes or choices.
type Refused struct {
	*working.Refusal
	Accepts []string
}

func refuse(path string, code working.Key, accepts ...string) *Refused {
	return &Refused{working.Refuse(path, code), accepts}
}

// part is a piece of JSON that remembers where it stood.
type part struct {
	path    string
	members []member // of an object
	items   []*part  // of a list
	token   any      // json.Delim for the two above, else json.Number, string, bool or nil
}

type member struct {
	name string
	part *part
}

const whole = "$" // the path of the input itself

// read turns an input into parts, or refuses it.
func read(data []byte) (*part, *Refused) {
	if len(data) > MaxInput {
		r := refuse(whole, "refuse.reckon.too_large")
		r.Values = map[string]quantity.Value{"Most": quantity.Count(MaxInput).Value()}
		return nil, r
	}
	if !utf8.Valid(data) {
		return nil, refuse(whole, "refuse.reckon.not_json")
	}
	d := &reader{json.NewDecoder(bytes.NewReader(data))}
	d.UseNumber()
	p, r := d.part(whole, 0)
	if r != nil {
		return nil, r
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return nil, refuse(whole, "refuse.reckon.trailing")
	}
	return p, nil
}

type reader struct{ *json.Decoder }

func (d *reader) part(path string, depth int) (*part, *Refused) {
	token, err := d.Token()
	if err != nil {
		return nil, refuse(path, "refuse.reckon.not_json")
	}
	p := &part{path: path, token: token}
	opened, ok := token.(json.Delim)
	if !ok {
		return p, nil
	}
	if depth >= MaxDepth {
		r := refuse(path, "refuse.reckon.too_deep")
		r.Values = map[string]quantity.Value{"Most": quantity.Count(MaxDepth).Value()}
		return nil, r
	}
	var refused *Refused
	switch opened {
	case '{':
		refused = d.object(p, depth)
	case '[':
		refused = d.list(p, depth)
	default:
		refused = refuse(path, "refuse.reckon.not_json")
	}
	if refused != nil {
		return nil, refused
	}
	if _, err := d.Token(); err != nil { // the closing bracket
		return nil, refuse(path, "refuse.reckon.not_json")
	}
	return p, nil
}

func (d *reader) object(p *part, depth int) *Refused {
	have := map[string]bool{}
	for d.More() {
		token, err := d.Token()
		name, ok := token.(string)
		if err != nil || !ok {
			return refuse(p.path, "refuse.reckon.not_json")
		}
		path := below(p.path, name)
		if have[name] {
			return refuse(path, "refuse.reckon.twice")
		}
		have[name] = true
		value, refused := d.part(path, depth+1)
		if refused != nil {
			return refused
		}
		p.members = append(p.members, member{name, value})
	}
	return nil
}

func (d *reader) list(p *part, depth int) *Refused {
	for i := 0; d.More(); i++ {
		path := p.path
		if path == whole {
			path = ""
		}
		value, refused := d.part(path+"["+strconv.Itoa(i)+"]", depth+1)
		if refused != nil {
			return refused
		}
		p.items = append(p.items, value)
	}
	return nil
}

// longestName is the most of a field's name that a path repeats. // judgement
const longestName = 60

// below is the path of a field of the object at path.
func below(path, name string) string {
	if len(name) > longestName {
		cut := longestName
		for cut > 0 && !utf8.RuneStart(name[cut]) {
			cut--
		}
		name = name[:cut] + "…"
	}
	if name == "" {
		name = `""`
	}
	if path == whole {
		return name
	}
	return path + "." + name
}
