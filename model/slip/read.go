package slip

import (
	"io"

	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// ReadProfile reads a starter profile of size bytes. The findings name what was
// left out: parts, members and fields that this version does not know, and fields
// that a shop cannot answer. Of a profile of a later version, answers that are not
// understood are left out and named too; in one of this version they are refused.
// Members and fields that are not known are kept in Later, beside being named.
// Errors: *Error; no part of the profile is given then.
func ReadProfile(r io.ReaderAt, size int64) (Profile, []working.Finding, error) {
	parts, err := directory(r, size, slipLimits)
	if err != nil {
		return Profile{}, nil, err
	}
	o, err := open(newUnpacker(r, slipLimits), parts, FormatProfile, partProfile, only(partProfile))
	if err != nil {
		return Profile{}, nil, err
	}
	f := &o.fetch
	f.part = partProfile
	p := Profile{Version: o.manifest.Version, MadeBy: o.manifest.MadeBy, Signature: o.signed, Answers: map[care.FieldID]care.Answer{}, Notes: map[string]string{}}
	if err := f.profile(&p, o.bodies[partProfile]); err != nil {
		return Profile{}, nil, err
	}
	return p, o.findings(), nil
}

func (f *fetch) profile(p *Profile, data []byte) error {
	t, err := parse(f.part, data, slipLimits)
	if err != nil {
		return err
	}
	of, err := f.object(t, "", profileMembers...)
	if err != nil {
		return err
	}
	units, err := f.text(of, "", "units", MaxNumber, false)
	if err != nil {
		return err
	}
	p.Units = quantity.System(units)
	if p.Region, err = f.text(of, "", "region", MaxNumber, false); err != nil {
		return err
	}
	if p.Tank, err = f.text(of, "", "tank", MaxTankName, false); err != nil {
		return err
	}
	if p.Shop, err = f.shop(of); err != nil {
		return err
	}
	if p.Notes, err = f.notes(of, "notes"); err != nil {
		return err
	}
	if err := f.answers(p.Answers, p.Version, of, "answers", Settable); err != nil {
		return err
	}
	for _, read := range []func(*Profile, map[string]tree) error{f.edition, f.plan, f.feeding, f.marks} {
		if err := read(p, of); err != nil {
			return err
		}
	}
	p.Later = laterOf(data)
	return p.Check()
}

func (f *fetch) shop(of map[string]tree) (s Shop, err error) {
	t, ok := of["shop"]
	if !ok {
		return s, nil
	}
	shop, err := f.object(t, "shop", "name", "address", "hours")
	if err != nil {
		return s, err
	}
	if s.Name, err = f.text(shop, "shop", "name", MaxShopName, false); err != nil {
		return s, err
	}
	if s.Address, err = f.text(shop, "shop", "address", MaxAddress, true); err != nil {
		return s, err
	}
	s.Hours, err = f.text(shop, "shop", "hours", MaxHours, true)
	return s, err
}

// notes are texts by language; see CheckNotes.
func (f *fetch) notes(of map[string]tree, name string) (map[string]string, error) {
	out := map[string]string{}
	t, ok := of[name]
	if !ok {
		return out, nil
	}
	if t.kind != isObject {
		return out, f.shape(name)
	}
	for _, m := range t.members {
		if m.value.kind != isString {
			return out, f.shape(name + "." + visible(m.name))
		}
		out[m.name] = m.value.text
	}
	return out, nil
}

// answers puts the answers of fields that may be there into out.
func (f *fetch) answers(out map[care.FieldID]care.Answer, version int, of map[string]tree, place string, may func(care.FieldID) bool) error {
	t, ok := of[place]
	if !ok {
		return nil
	}
	if t.kind != isList {
		return f.shape(place)
	}
	seen := map[string]bool{}
	for _, t := range t.items {
		one, err := f.object(t, place, "field", "kind", "value", "unit", "basis")
		if err != nil {
			return err
		}
		if one["field"].kind != isString {
			return f.shape(place + ".field")
		}
		name := one["field"].text
		if seen[name] {
			return &Error{Code: CodeTwice, Part: f.part, Place: visible(name)}
		}
		seen[name] = true
		if err := f.answer(out, version, name, one, place, may); err != nil {
			return err
		}
	}
	return nil
}

// answer takes one answer into out, or notes why it is left out.
func (f *fetch) answer(out map[care.FieldID]care.Answer, version int, name string, of map[string]tree, place string, may func(care.FieldID) bool) error {
	id := care.FieldID(name)
	field, ok := care.FieldOf(id)
	if !ok {
		f.leftOut(FoundField, name)
		return nil
	}
	if !may(id) {
		f.note(working.Find(working.Wait, FoundNotSettable).Word("Field", field.Label()))
		return nil
	}
	a, err := f.given(of, place)
	if err == nil {
		err = checkAnswer(f.part, place, id, a)
	}
	if err != nil && version > Version {
		f.note(working.Find(working.Wait, FoundNotUnderstood).Word("Field", field.Label()))
		return nil
	}
	if err != nil {
		return err
	}
	out[id] = a
	return nil
}

// Kinds of answers as written.
const (
	kindMeasure = "measure"
	kindChoice  = "choice"
	kindWords   = "words"
)

// given reads an answer as it was given. The digits of a measure are a string, so
// that they stay as typed.
func (f *fetch) given(of map[string]tree, place string) (care.Answer, error) {
	a := care.Answer{Origin: care.FromProfile}
	for _, name := range []string{"kind", "value"} {
		if of[name].kind != isString {
			return a, f.shape(join(place, name))
		}
	}
	value := of["value"].text
	unit, err := f.text(of, place, "unit", MaxNumber, false)
	if err != nil {
		return a, err
	}
	basis, err := f.text(of, place, "basis", MaxNumber, false)
	if err != nil {
		return a, err
	}
	switch of["kind"].text {
	case kindMeasure:
		a.Measure = quantity.Measure{Number: unsigned(value), Unit: quantity.UnitCode(unit), Basis: quantity.Basis(basis)}
		return a, nil
	case kindChoice:
		a.Choice = value
	case kindWords:
		a.Words = value
	default:
		return a, f.shape(join(place, "kind"))
	}
	if unit != "" || basis != "" {
		return a, f.shape(join(place, "unit"))
	}
	return a, nil
}
