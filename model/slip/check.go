package slip

import (
	"regexp"
	"slices"
	"strings"

	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
)

var (
	// ISO 3166-1 alpha-2.
	regionForm = regexp.MustCompile(`^[A-Z]{2}$`)
	// A language with script, region and the like. Source: RFC 5646, section 2.1.
	languageForm = regexp.MustCompile(`^[a-z]{2,3}(-[A-Za-z0-9]{2,8}){0,3}$`)
	// As quantity.Parse writes it.
	numberForm = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)
)

// Check refuses what a profile cannot hold: texts that are too long or hide
// something, an answer whose field does not take it or is not Settable. Errors:
// *Error.
func (p Profile) Check() error {
	if !slices.Contains(quantity.Systems(), p.Units) {
		return &Error{Code: CodeUnits, Part: partProfile, Place: "units"}
	}
	if p.Region != "" && !regionForm.MatchString(p.Region) {
		return &Error{Code: CodeRegion, Part: partProfile, Place: "region"}
	}
	for _, t := range []struct {
		part, place, text string
		most              int
		lines             bool
	}{
		{partManifest, "made_by.program", p.MadeBy.Program, MaxProgram, false},
		{partManifest, "made_by.version", p.MadeBy.Version, MaxProgram, false},
		{partProfile, "tank", p.Tank, MaxTankName, false},
		{partProfile, "shop.name", p.Shop.Name, MaxShopName, false},
		{partProfile, "shop.address", p.Shop.Address, MaxAddress, true},
		{partProfile, "shop.hours", p.Shop.Hours, MaxHours, true},
	} {
		if err := checkText(t.part, t.place, t.text, t.most, t.lines); err != nil {
			return err
		}
	}
	if err := CheckNotes(p.Notes); err != nil {
		return err
	}
	if p.Edition < 0 || p.Edition > MaxEdition {
		return &Error{Code: CodeNumber, Part: partProfile, Place: "edition"}
	}
	for _, err := range []error{checkPlan(p.Plan), p.Feeding.check(), checkMarks(p.Marks)} {
		if err != nil {
			return err
		}
	}
	return checkAnswers(partProfile, "answers", p.Answers, Settable)
}

// Fits reports whether a visit slip may hold the answer as it is: one that its field
// does not take any more is left out.
func Fits(id care.FieldID, a care.Answer) bool {
	return VisitFact(id) && checkAnswer(partVisit, "facts", id, a) == nil
}

func checkAnswers(part, place string, as map[care.FieldID]care.Answer, may func(care.FieldID) bool) error {
	for _, id := range sorted(as) {
		if !may(id) {
			return &Error{Code: CodeAnswer, Part: part, Place: place, Field: id}
		}
		if err := checkAnswer(part, place, id, as[id]); err != nil {
			return err
		}
	}
	return nil
}

// CheckNotes refuses notes that a slip cannot carry. Errors: *Error.
func CheckNotes(notes map[string]string) error { return checkNotes(partProfile, "notes", notes) }

func checkNotes(part, place string, notes map[string]string) error {
	for _, lang := range sorted(notes) {
		if !languageForm.MatchString(lang) {
			return &Error{Code: CodeLanguage, Part: part, Place: join(place, visible(lang))}
		}
		if len(notes[lang]) > MaxString {
			return above(CodeString, part, MaxString/1e3)
		}
		if !plain(notes[lang], true) {
			return &Error{Code: CodeText, Part: part, Place: join(place, lang)}
		}
	}
	return nil
}

// checkAnswer refuses an answer that is not written as answers are, or that its
// field does not take.
func checkAnswer(part, place string, id care.FieldID, a care.Answer) error {
	bad := &Error{Code: CodeAnswer, Part: part, Place: place, Field: id}
	f, ok := care.FieldOf(id)
	if !ok || a.IsZero() || a.Origin != care.FromProfile {
		return bad
	}
	others := a
	switch f.Type {
	case care.TypeMeasure:
		others.Measure = quantity.Measure{}
		m := a.Measure
		if len(m.Number) > MaxNumber || !numberForm.MatchString(m.Number) || m.Number != unsigned(m.Number) || !basisOf(f.Kind, m.Basis) {
			return bad
		}
	case care.TypeChoice:
		others.Choice = ""
	case care.TypeWords:
		others.Words = ""
		if !plain(a.Words, false) {
			return &Error{Code: CodeText, Part: part, Place: place, Field: id}
		}
	}
	if !others.IsZero() { // of another kind than its field, or of two
		return bad
	}
	if err := f.Check(a); err != nil {
		bad.Err = err
		return bad
	}
	return nil
}

// basisOf reports whether a measure of kind k may have the basis.
func basisOf(k quantity.Kind, b quantity.Basis) bool {
	return b == quantity.BasisNone || k == quantity.KindConcentration && (b == quantity.AsN || b == quantity.AsIon)
}

// unsigned takes the minus off a zero, which is no number of anything.
func unsigned(number string) string {
	if digits, ok := strings.CutPrefix(number, "-"); ok && digits != "" && strings.Trim(digits, "0.") == "" {
		return digits
	}
	return number
}

func sorted[K ~string, V any](m map[K]V) []K {
	out := make([]K, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}
