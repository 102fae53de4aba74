package slip

import (
	"errors"

	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Codes of an Error. Each is the key of a message.
const (
	CodeNotFile    working.Key = "refuse.slip.not_file"    // a folder, a device, a pipe
	CodeUnreadable working.Key = "refuse.slip.unreadable"  // the system cannot read it
	CodeTooBig     working.Key = "refuse.slip.too_big"     // above MaxFile
	CodeNotSlip    working.Key = "refuse.slip.not_slip"    // no ZIP at all, or cut short
	CodeDamaged    working.Key = "refuse.slip.damaged"     // lengths, places or checksums disagree
	CodeEncrypted  working.Key = "refuse.slip.encrypted"   // a part is encrypted
	CodeMethod     working.Key = "refuse.slip.method"      // packed in a way that a slip does not use
	CodeZIP64      working.Key = "refuse.slip.zip64"       // claims sizes that a slip cannot have
	CodeParts      working.Key = "refuse.slip.parts"       // above MaxParts
	CodeUnpacked   working.Key = "refuse.slip.unpacked"    // above MaxUnpacked
	CodeRatio      working.Key = "refuse.slip.ratio"       // above MaxRatio
	CodeDepth      working.Key = "refuse.slip.depth"       // above MaxDepth
	CodeNameLong   working.Key = "refuse.slip.name_long"   // above MaxName
	CodeName       working.Key = "refuse.slip.name"        // a name that could leave a folder or fool the eye
	CodeTwins      working.Key = "refuse.slip.twins"       // two parts that one disk would hold as one
	CodeSpecial    working.Key = "refuse.slip.special"     // a link, a device, a folder
	CodeNested     working.Key = "refuse.slip.nested"      // an archive inside
	CodeNoManifest working.Key = "refuse.slip.no_manifest" // manifest.json is missing
	CodeOther      working.Key = "refuse.slip.other"       // another kind of file in the same wrapping
	CodeHash       working.Key = "refuse.slip.hash"        // a part is not the one the manifest lists
	CodeSignature  working.Key = "refuse.slip.signature"   // signed, and changed since
	CodeJSON       working.Key = "refuse.slip.json"        // no JSON
	CodeJSONSize   working.Key = "refuse.slip.json_size"   // above MaxJSON
	CodeJSONDepth  working.Key = "refuse.slip.json_depth"  // above MaxJSONDepth
	CodeJSONValues working.Key = "refuse.slip.json_values" // above MaxJSONValues
	CodeString     working.Key = "refuse.slip.string"      // above MaxString
	CodeNumber     working.Key = "refuse.slip.number"      // not finite, or not written as a number
	CodeTwice      working.Key = "refuse.slip.twice"       // the same key or field twice
	CodeShape      working.Key = "refuse.slip.shape"       // a value of another type than described, or missing
	CodeText       working.Key = "refuse.slip.text"        // characters that cannot be seen
	CodeLong       working.Key = "refuse.slip.long"        // longer than its place allows
	CodeUnits      working.Key = "refuse.slip.units"       // no system of units
	CodeRegion     working.Key = "refuse.slip.region"      // no country code
	CodeLanguage   working.Key = "refuse.slip.language"    // no language tag
	CodeAnswer     working.Key = "refuse.slip.answer"      // an answer that its field does not take
)

// Codes of an Error about a visit or a reply. Each is the key of a message.
const (
	CodeID       working.Key = "refuse.slip.id"       // no key: 1 to 64 letters, digits, hyphens
	CodeWhen     working.Key = "refuse.slip.when"     // no date or time, or no zone
	CodeMany     working.Key = "refuse.slip.many"     // more of something than a slip holds
	CodeEntry    working.Key = "refuse.slip.entry"    // an entry or a reading that no daybook takes
	CodeAnimal   working.Key = "refuse.slip.animal"   // a fish or a group that cannot be
	CodeCase     working.Key = "refuse.slip.case"     // a case that cannot be
	CodePicture  working.Key = "refuse.slip.picture"  // no JPEG, too large, or with marks that cannot be
	CodeProposal working.Key = "refuse.slip.proposal" // a round or a change of the plan that cannot be
)

// Error says why a slip was not taken, or not written.
type Error struct {
	Code  working.Key
	Part  string         // the part's name, as it stands in the file; for logs
	Place string         // the member of the JSON, with dots
	Field care.FieldID   // of an answer
	High  quantity.Value // the limit that was passed, where there is one
	Err   error          // the cause: a *working.Refusal of the field, or of the system
}

// Error gives everything that is set, for a log; it is not text for people.
func (e *Error) Error() string {
	s := "slip: " + string(e.Code)
	for _, x := range []string{e.Part, e.Place, string(e.Field)} {
		if x != "" {
			s += " " + visible(x)
		}
	}
	if e.Err != nil {
		s += ": " + e.Err.Error()
	}
	return s
}

// Unwrap gives the cause when it is a refusal that says what a field accepts, and
// otherwise the error's own refusal beside its cause.
func (e *Error) Unwrap() []error {
	var cause *working.Refusal
	if errors.As(e.Err, &cause) {
		return []error{e.Err}
	}
	own := &working.Refusal{Field: e.Place, Code: e.Code, Accept: working.Limit{High: e.High}}
	if e.Field != "" {
		own.Field = string(e.Field)
	}
	if e.Err == nil {
		return []error{own}
	}
	return []error{own, e.Err}
}

// foundAnswer names the field whose answer is refused.
const foundAnswer working.Key = "find.slip.answer"

// Finding is the error as something to tell a person: the refusal of an answer
// with the name of its field, any other with its limit.
func (e *Error) Finding() working.Finding {
	if e.Field != "" {
		return working.Find(working.Act, foundAnswer).Word("Field", working.Key("field."+string(e.Field)))
	}
	f := working.Find(working.Act, e.Code)
	if e.High.Known() {
		f = f.With("High", e.High)
	}
	return f
}

func refuse(code working.Key, part string) *Error { return &Error{Code: code, Part: part} }

// above refuses what passes a limit; high is that limit in pieces of what the
// message names.
func above(code working.Key, part string, high float64) *Error {
	return &Error{Code: code, Part: part, High: quantity.Count(high).Value()}
}
