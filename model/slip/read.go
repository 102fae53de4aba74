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
// Errors: *Error; no part of the profile is given then.
func ReadProfile(r io.ReaderAt, size int64) (Profile, []working.Finding, error) {
	parts, err := directory(r, size, slipLimits)
	if err != nil {
		return Profile{}, nil, err
	}
	o, err := open(newUnpacker(r, slipLimits), parts, FormatProfile, partProfile)
	if err != nil {
		return Profile{}, nil, err
	}
	f := &o.fetch
	f.part = partProfile
	p := Profile{Version: o.manifest.Version, MadeBy: o.manifest.MadeBy, Signature: o.signed, Answers: map[care.FieldID]care.Answer{}, Notes: map[string]string{}}
	if err := f.profile(&p, o.bodies[partProfile]); err != nil {
		return Profile{}, nil, err
	}
	found := f.found
	if p.Version > Version {
		newer := working.Find(working.Wait, FoundNewer).With("Version", quantity.Count(p.Version).Value())
		found = append([]working.Finding{newer}, found...)
	}
	if f.more > 0 {
		found = append(found, working.Find(working.Wait, FoundMore).With("Left", quantity.Count(f.more).Value()))
	}
	return p, found, nil
}

func (f *fetch) profile(p *Profile, data []byte) error {
	t, err := parse(f.part, data, slipLimits)
	if err != nil {
		return err
	}
	of, err := f.object(t, "", "units", "region", "tank", "shop", "answers", "notes", "edition", "plan", "feeding", "marks")
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
	for _, read := range []func(*Profile, map[string]tree) error{f.shop, f.notes, f.answers, f.edition, f.plan, f.feeding, f.marks} {
		if err := read(p, of); err != nil {
			return err
		}
	}
	return p.Check()
}

func (f *fetch) shop(p *Profile, of map[string]tree) error {
	t, ok := of["shop"]
	if !ok {
		return nil
	}
	shop, err := f.object(t, "shop", "name", "address", "hours")
	if err != nil {
		return err
	}
	if p.Shop.Name, err = f.text(shop, "shop", "name", MaxShopName, false); err != nil {
		return err
	}
	if p.Shop.Address, err = f.text(shop, "shop", "address", MaxAddress, true); err != nil {
		return err
	}
	p.Shop.Hours, err = f.text(shop, "shop", "hours", MaxHours, true)
	return err
}

func (f *fetch) notes(p *Profile, of map[string]tree) error {
	t, ok := of["notes"]
	if !ok {
		return nil
	}
	if t.kind != isObject {
		return f.shape("notes")
	}
	for _, m := range t.members {
		if m.value.kind != isString {
			return f.shape("notes." + visible(m.name))
		}
		p.Notes[m.name] = m.value.text
	}
	return nil
}

func (f *fetch) answers(p *Profile, of map[string]tree) error {
	t, ok := of["answers"]
	if !ok {
		return nil
	}
	if t.kind != isList {
		return f.shape("answers")
	}
	seen := map[string]bool{}
	for _, t := range t.items {
		one, err := f.object(t, "answers", "field", "kind", "value", "unit", "basis")
		if err != nil {
			return err
		}
		if one["field"].kind != isString {
			return f.shape("answers.field")
		}
		name := one["field"].text
		if seen[name] {
			return &Error{Code: CodeTwice, Part: f.part, Place: visible(name)}
		}
		seen[name] = true
		if err := f.answer(p, name, one); err != nil {
			return err
		}
	}
	return nil
}

// answer takes one answer into p, or notes why it is left out.
func (f *fetch) answer(p *Profile, name string, of map[string]tree) error {
	id := care.FieldID(name)
	field, ok := care.FieldOf(id)
	if !ok {
		f.leftOut(FoundField, name)
		return nil
	}
	if !Settable(id) {
		f.note(working.Find(working.Wait, FoundNotSettable).Word("Field", field.Label()))
		return nil
	}
	a, err := f.given(of)
	if err == nil {
		err = checkAnswer(id, a)
	}
	if err != nil && p.Version > Version {
		f.note(working.Find(working.Wait, FoundNotUnderstood).Word("Field", field.Label()))
		return nil
	}
	if err != nil {
		return err
	}
	p.Answers[id] = a
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
func (f *fetch) given(of map[string]tree) (care.Answer, error) {
	a := care.Answer{Origin: care.FromProfile}
	for _, name := range []string{"kind", "value"} {
		if of[name].kind != isString {
			return a, f.shape("answers." + name)
		}
	}
	value := of["value"].text
	unit, err := f.text(of, "answers", "unit", MaxNumber, false)
	if err != nil {
		return a, err
	}
	basis, err := f.text(of, "answers", "basis", MaxNumber, false)
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
		return a, f.shape("answers.kind")
	}
	if unit != "" || basis != "" {
		return a, f.shape("answers.unit")
	}
	return a, nil
}
