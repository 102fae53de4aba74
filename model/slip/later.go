package slip

import (
	"bytes"
	"encoding/json"
	"slices"

	"example.org/driploop/model/care"
)

// Later is what a later version of the program added to a profile. It is kept as it
// came and written again, so that a profile that is handed on loses nothing; nothing
// here reads it.
type Later struct {
	Members map[string]string `json:"members,omitempty"` // of the profile, as JSON by name
	Answers []string          `json:"answers,omitempty"` // of fields that are not known, as JSON
}

// MaxLater is how much of it is kept, bytes; more is left out, as it is named.
// // judgement: as much as a note
const MaxLater = MaxString

// IsZero reports whether there is nothing.
func (l Later) IsZero() bool { return len(l.Members) == 0 && len(l.Answers) == 0 }

// profileMembers are those that this version knows.
var profileMembers = []string{"units", "region", "tank", "shop", "answers", "notes", "edition", "plan", "feeding", "marks"}

// laterOf takes what is not known out of the body of a profile, which was parsed before.
func laterOf(data []byte) Later {
	l := Later{Members: kept(data, profileMembers)}
	var body struct {
		Answers []json.RawMessage `json:"answers"`
	}
	if json.Unmarshal(data, &body) != nil {
		return l
	}
	for _, raw := range body.Answers {
		var b bytes.Buffer
		if json.Compact(&b, raw) == nil {
			l.Answers = append(l.Answers, b.String())
		}
	}
	return l.unknown()
}

// unknown is what is still not known of it: a program that has grown since has fields
// and members of its own for the rest.
func (l Later) unknown() Later {
	var out Later
	size := 0
	for _, name := range sorted(l.Members) {
		if slices.Contains(profileMembers, name) || !keeps(name) || !json.Valid([]byte(l.Members[name])) {
			continue
		}
		if size += len(name) + len(l.Members[name]); size > MaxLater {
			return Later{}
		}
		if out.Members == nil {
			out.Members = map[string]string{}
		}
		out.Members[name] = l.Members[name]
	}
	for _, raw := range l.Answers {
		var of struct {
			Field string `json:"field"`
		}
		if json.Unmarshal([]byte(raw), &of) != nil || of.Field == "" {
			continue
		}
		if _, ok := care.FieldOf(care.FieldID(of.Field)); ok {
			continue
		}
		if size += len(raw); size > MaxLater {
			return Later{}
		}
		out.Answers = append(out.Answers, raw)
	}
	slices.Sort(out.Answers)
	return out
}
