package slip

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

// members reads the members of one object; the first fault stays in err, and what is
// read after it is empty. A member that is missing is empty too: whether it may be is
// for Check to say.
type members struct {
	f       *fetch
	of      map[string]tree
	place   string
	version int
	err     error
}

// members takes an object apart.
func (f *fetch) members(t tree, place string, version int, known ...string) *members {
	of, err := f.object(t, place, known...)
	return &members{f: f, of: of, place: place, version: version, err: err}
}

func (m *members) put(err error) {
	if m.err == nil && err != nil {
		m.err = err
	}
}

// has reports whether a member is there.
func (m *members) has(name string) bool { _, ok := m.of[name]; return ok && m.err == nil }

// text gives a string; how long it may be is for Check to say.
func (m *members) text(name string) string {
	t, ok := m.of[name]
	if !ok || m.err != nil {
		return ""
	}
	if t.kind != isString {
		m.put(m.f.shape(join(m.place, name)))
		return ""
	}
	return t.text
}

func (m *members) civil(name string) journal.Civil { return journal.Civil(m.text(name)) }

// count gives a whole number, 0 where it is missing.
func (m *members) count(name string) int {
	if !m.has(name) {
		return 0
	}
	n, err := m.f.whole(m.of, m.place, name, 0, maxCount)
	m.put(err)
	return int(n)
}

// maybe gives a whole number, nil where it is missing.
func (m *members) maybe(name string) *int {
	if !m.has(name) {
		return nil
	}
	n := m.count(name)
	return &n
}

// real gives a number.
func (m *members) real(name string) float64 {
	t, ok := m.of[name]
	if m.err != nil {
		return 0
	}
	if !ok || t.kind != isNumber {
		m.put(m.f.shape(join(m.place, name)))
		return 0
	}
	x, err := strconv.ParseFloat(t.text, 64)
	if err != nil {
		m.put(&Error{Code: CodeNumber, Part: m.f.part, Place: join(m.place, name)})
	}
	if x == 0 { // also -0
		x = 0
	}
	return x
}

// yes gives a truth, false where it is missing.
func (m *members) yes(name string) bool {
	t, ok := m.of[name]
	if !ok || m.err != nil {
		return false
	}
	if t.kind != isBool {
		m.put(m.f.shape(join(m.place, name)))
	}
	return t.yes
}

// measure gives a measure as typed: an object of value, unit and basis.
func (m *members) measure(name string) quantity.Measure {
	if !m.has(name) {
		return quantity.Measure{}
	}
	in := m.f.members(m.of[name], join(m.place, name), m.version, "value", "unit", "basis")
	out := in.typed()
	m.put(in.err)
	return out
}

// typed is the measure whose members stand beside others.
func (m *members) typed() quantity.Measure {
	return quantity.Measure{Number: unsigned(m.text("value")), Unit: quantity.UnitCode(m.text("unit")), Basis: quantity.Basis(m.text("basis"))}
}

// each reads the items of a list. In a slip of a later version an item that is not
// understood is left out and named; in one of this version it is refused. What is
// above a limit is refused in both.
func (m *members) each(name string, most int, take func(t tree, place string) error) {
	t, ok := m.of[name]
	if !ok || m.err != nil {
		return
	}
	place := join(m.place, name)
	if t.kind != isList {
		m.put(m.f.shape(place))
		return
	}
	if len(t.items) > most {
		e := above(CodeMany, m.f.part, float64(most))
		e.Place = place
		m.put(e)
		return
	}
	for i, t := range t.items {
		err := take(t, place)
		var limit *Error
		if err != nil && m.version > Version && !(errors.As(err, &limit) && limit.Code == CodeMany) {
			m.f.leftOut(FoundLine, fmt.Sprintf("%s %d", place, i+1))
			continue
		}
		m.put(err)
	}
}

// readings reads the readings of an entry, and the kits that showed them by name.
func (m *members) readings(name string) (rs []journal.Reading, kits map[string]string) {
	m.each(name, MaxReadings, func(t tree, place string) error {
		in := m.f.members(t, place, m.version, "name", "value", "unit", "basis", "qualifier", "kit")
		r := journal.Reading{Name: in.text("name"), Measure: in.typed(), Qualifier: journal.Qualifier(in.text("qualifier"))}
		kit := in.text("kit")
		if in.err == nil && m.version > Version {
			c := checker{part: m.f.part}
			c.readings(place, []journal.Reading{r}, nil)
			in.put(c.err)
		}
		if in.err != nil {
			return in.err
		}
		rs = append(rs, r)
		if kit != "" {
			if kits == nil {
				kits = map[string]string{}
			}
			kits[r.Name] = kit
		}
		return nil
	})
	return rs, kits
}

// kept gives the members of a body that are not known, as they came.
func kept(data []byte, known []string) map[string]string {
	var all map[string]json.RawMessage
	if json.Unmarshal(data, &all) != nil { // it was parsed before
		return nil
	}
	var out map[string]string
	for name, raw := range all {
		var b bytes.Buffer
		if slices.Contains(known, name) || !keeps(name) || json.Compact(&b, raw) != nil {
			continue
		}
		if out == nil {
			out = map[string]string{}
		}
		out[name] = b.String()
	}
	return out
}

// withMore writes a body with the members that a later version added behind its own.
func withMore(v any, more map[string]string) ([]byte, error) {
	body, err := encode(v)
	if err != nil || len(more) == 0 {
		return body, err
	}
	b := bytes.NewBuffer(bytes.TrimSuffix(body, []byte("\n}\n")))
	for _, name := range sorted(more) {
		b.WriteString(",\n  ")
		if err := quote(b, name); err != nil {
			return nil, err
		}
		b.WriteString(": " + more[name])
	}
	b.WriteString("\n}\n")
	return b.Bytes(), nil
}
