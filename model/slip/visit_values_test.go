package slip

import (
	"fmt"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/working"
)

const (
	visitHead = `"id":"v1","made":"2026-11-30T09:00","zone":"+01:00","units":"metric","from":"2026-11-01","to":"2026-11-30"`
	replyHead = `"id":"r1","visit":"v1","made":"2026-11-30T09:00","zone":"+01:00"`
)

func entryOf(readings, more string) string {
	return `,"entries":[{"kind":"tested","at":"2026-11-02T08:00","zone":"+01:00","readings":[` + readings + `]` + more + `}]`
}

func caseOf(more string) string { return `,"case":{"opened":"2026-11-02T08:00"` + more + `}` }

// valueRow is a body, what its reader says, and whether the schema refuses it too:
// a schema tells form, not what a daybook takes.
type valueRow struct {
	name, more string
	want       working.Key
	schema     bool
}

// Values made to mislead are refused for what they are; the schemas agree on form.
func TestHostileValuesOfVisitsAndReplies(t *testing.T) {
	const form = true
	visitRows := []valueRow{
		{"as small as can be", "", "", false},
		{"unknown member", `,"x":1`, "", false},
		{"list for an object", `,"case":[]`, CodeShape, form},
		{"key that is a path", `,"id":"../v"`, CodeTwice, false},
		{"label in two lines", `,"label":"a\nb"`, CodeText, form},
		{"turned direction", `,"label":"a\u202eb"`, CodeText, form},
		{"no language", `,"language":"../en"`, CodeLanguage, form},
		{"something private that is none", `,"private":["keys"]`, CodeShape, form},
		{"private twice", `,"private":["notes","notes"]`, CodeShape, form},
		{"note unasked", entryOf("", `,"note":"x"`), CodeShape, false},
		{"note asked for", `,"private":["notes"]` + entryOf("", `,"note":"x"`), "", false},
		{"price unasked", entryOf(`{"name":"price","value":"5 EUR"}`, ""), CodeShape, false},
		{"source unasked", `,"stock":[{"count":1,"source":"x"}]`, CodeShape, false},
		{"price of fish unasked", `,"stock":[{"count":1,"price":"5"}]`, CodeShape, false},
		{"price of kit unasked", `,"facts":[{"field":"kit.tank.price","kind":"measure","value":"5","unit":"EUR"}]`, CodeAnswer, false},
		{"caption unasked", `,"pictures":[{"name":"x","caption":"y"}]`, CodeHash, form},
		{"who lives there", `,"facts":[{"field":"household","kind":"choice","value":"children"}]`, "", form}, // left out, and named
		{"fact twice", `,"facts":[{"field":"tank.shape","kind":"choice","value":"box"},{"field":"tank.shape","kind":"choice","value":"box"}]`, CodeTwice, false},
		{"negative volume", `,"net":{"value":"-5","unit":"kg"}`, CodeNumber, false},
		{"net of nothing", `,"net":{"value":"","unit":"l"}`, CodeNumber, form},
		{"net as a power of ten", `,"net":{"value":"1e308","unit":"l"}`, CodeNumber, form},
		{"stand that is none", `,"stand":"fine"`, CodeShape, form},
		{"minus one fish", `,"stock":[{"count":-1}]`, CodeNumber, form},
		{"2.5 fish", `,"stock":[{"count":2.5}]`, CodeNumber, form},
		{"more males than fish", `,"stock":[{"count":1,"males":2}]`, CodeAnimal, false},
		{"day of no calendar", `,"stock":[{"count":1,"since":"2026-02-30"}]`, CodeWhen, false},
		{"kind that is HTML", `,"stock":[{"count":1,"species":"<b>"}]`, CodeAnimal, form},
		{"fish in kilograms", `,"stock":[{"count":1,"length":{"value":"3","unit":"kg"}}]`, CodeAnimal, false},
		{"entry of no kind", `,"entries":[{"kind":"prayed","at":"2026-11-02T08:00","zone":"+01:00"}]`, CodeEntry, false},
		{"entry without a time", `,"entries":[{"kind":"fed","zone":"+01:00"}]`, CodeEntry, form},
		{"entry of the year 9999", `,"entries":[{"kind":"fed","at":"9999-01-01T08:00","zone":"+01:00"}]`, CodeEntry, form},
		{"zone that is none", `,"entries":[{"kind":"fed","at":"2026-11-02T08:00","zone":"noon"}]`, CodeWhen, form},
		{"400 °C", entryOf(`{"name":"temperature","value":"400","unit":"degc"}`, ""), CodeEntry, false},
		{"reading twice", entryOf(`{"name":"ph","value":"7","unit":"ph"},{"name":"ph","value":"8","unit":"ph"}`, ""), CodeEntry, false},
		{"reading that is NaN", entryOf(`{"name":"ph","value":"NaN","unit":"ph"}`, ""), CodeEntry, false},
		{"reading that is a number", entryOf(`{"name":"ph","value":7,"unit":"ph"}`, ""), CodeShape, form},
		{"qualifier that is none", entryOf(`{"name":"ph","qualifier":"lots"}`, ""), CodeEntry, form},
		{"basis where none is", entryOf(`{"name":"ph","value":"7","unit":"ph","basis":"n"}`, ""), CodeEntry, false},
		{"not detected", entryOf(`{"name":"ammonia","qualifier":"not_detected","unit":"mg/l","basis":"n"}`, ""), "", false},
		{"words that hide something", entryOf(`{"name":"what","value":"a\u202eb"}`, ""), CodeText, false},
		{"of a case that is not there", entryOf("", `,"of_case":true`), CodeCase, false},
		{"of_case that is a word", caseOf("") + entryOf("", `,"of_case":"yes"`), CodeShape, form},
		{"sign that is HTML", caseOf(`,"signs":[{"sign":"<i>","seen":"2026-11-02T08:00"}]`), CodeCase, form},
		{"case without its day", `,"case":{}`, CodeWhen, form},
		{"case in two lines", caseOf(`,"about":"a\nb"`), CodeText, form},
		{"case's note unasked", caseOf(`,"note":"x"`), CodeShape, false},
		{"picture that is not there", `,"pictures":[{"name":"pictures/` + strings.Repeat("0", 64) + `.jpg"}]`, CodeHash, false},
		{"minus one picture apart", `,"pictures_apart":-1`, CodeNumber, form},
		{"more pictures apart than a slip holds", `,"pictures_apart":25`, CodePicture, form},
		{"pictures apart in words", `,"pictures_apart":"two"`, CodeShape, form},
		{"pictures apart", `,"pictures_apart":24`, "", false},
		{"picture elsewhere", `,"pictures":[{"name":"visit.json"}]`, CodeHash, form},
		{"question of nothing", `,"questions":[" "]`, CodeShape, false},
		{"question that is a number", `,"questions":[1]`, CodeShape, form},
	}
	replyRows := []valueRow{
		{"as small as can be", "", "", false},
		{"key that is a path", `,"test":[]`, CodeShape, form},
		{"test of nothing", `,"test":{"at":"2026-11-02T08:00","zone":"+01:00","readings":[]}`, CodeEntry, form},
		{"test of food", `,"test":{"at":"2026-11-02T08:00","zone":"+01:00","readings":[{"name":"feed","value":"1","unit":"g"}]}`, CodeEntry, false},
		{"test without a time", `,"test":{"zone":"+01:00","readings":[{"name":"ph","value":"7","unit":"ph"}]}`, CodeWhen, form},
		{"advice of nothing", `,"advice":{"en":" "}`, CodeShape, false},
		{"advice in no language", `,"advice":{"e":"x"}`, CodeLanguage, form},
		{"escape in advice", `,"advice":{"en":"\u001b]0;x"}`, CodeText, form},
		{"advice that is a list", `,"advice":["x"]`, CodeShape, form},
		{"round of no code", `,"rounds":[{"code":"pray","rule":"FREQ=DAILY"}]`, CodeProposal, false},
		{"round every second", `,"rounds":[{"code":"test","rule":"FREQ=SECONDLY"}]`, CodeProposal, false},
		{"round with a line more", `,"rounds":[{"code":"test","rule":"FREQ=DAILY\nX:1"}]`, CodeProposal, form},
		{"own round without a title", `,"rounds":[{"code":"own","rule":"FREQ=DAILY"}]`, CodeProposal, false},
		{"round from no day", `,"rounds":[{"code":"test","rule":"FREQ=DAILY","start":"2026-13-01T08:00"}]`, CodeWhen, false},
		{"plan of no change", `,"plan":[{"change":"eat","species":"x","count":1}]`, CodeProposal, form},
		{"add none", `,"plan":[{"change":"add","species":"x","count":0}]`, CodeProposal, form},
		{"hold males", `,"plan":[{"change":"hold","species":"x","count":2,"males":1}]`, CodeProposal, form},
		{"kind that is a path", `,"plan":[{"change":"hold","species":"../x","count":2}]`, CodeProposal, form},
		{"half a fish", `,"plan":[{"change":"add","species":"x","count":0.5}]`, CodeNumber, form},
	}
	for _, s := range []struct {
		shape
		head string
		rows []valueRow
	}{{visits, visitHead, visitRows}, {replies, replyHead, replyRows}} {
		for _, r := range s.rows {
			body := "{" + s.head + r.more + "}"
			_, err := s.read(s.saying(body))
			if got := codeOf(t, err); got != r.want {
				t.Errorf("%s, %s: got %q (%v), want %q", s.format, r.name, got, err, r.want)
			}
			if r.want == CodeTwice && r.name != "fact twice" {
				continue // the schema's own reader would not see the first of two
			}
			if err := follows(strings.TrimSuffix(s.part, ".json"), []byte(body)); (err != nil) != r.schema {
				t.Errorf("%s, %s: the schema says %v, want a fault %v", s.format, r.name, err, r.schema)
			}
		}
		for _, part := range strings.Split(s.head, `,"`) { // each of which is required
			name, _, _ := strings.Cut(strings.Trim(part, `"`), `"`)
			body := "{" + strings.TrimPrefix(strings.Replace(","+s.head, `,"`+strings.TrimPrefix(part, `"`), "", 1), ",") + "}"
			if _, err := s.read(s.saying(body)); err == nil {
				t.Errorf("%s without %s was taken", s.format, name)
			}
			if follows(strings.TrimSuffix(s.part, ".json"), []byte(body)) == nil {
				t.Errorf("%s without %s follows its schema", s.format, name)
			}
		}
	}
	drill.Tally(t, "D2-22", "hostile values of visits and replies", len(visitRows)+len(replyRows), 0)
}

// Of a later version what is understood is read, what is not is named, and members
// that are not known are written again as they came.
func TestVisitsAndRepliesOfALaterVersion(t *testing.T) {
	v, found, err := readVisit(visits.sayingIn(3, "{"+visitHead+`,"smell":{"kind":"earthy","strength":2.50},"entries":[{"kind":"sang","at":"2026-11-02T08:00","zone":"+01:00"},`+
		`{"kind":"tested","at":"2026-11-02T08:00","zone":"+01:00","readings":[{"name":"colour","value":"3","unit":"one"},{"name":"ph","value":"7.0","unit":"ph"}]}],`+
		`"facts":[{"field":"tank.mood","kind":"choice","value":"x"},{"field":"tank.shape","kind":"choice","value":"box"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	if v.Version != 3 || len(v.Entries) != 1 || len(v.Entries[0].Readings) != 1 || len(v.Facts) != 1 || v.More["smell"] != `{"kind":"earthy","strength":2.50}` {
		t.Errorf("read %+v", v)
	}
	var codes []string
	for _, f := range found {
		codes = append(codes, string(f.Code)+" "+f.Text["Name"])
	}
	want := "find.slip.newer |find.slip.member smell|find.slip.field tank.mood|find.slip.line entries 1|find.slip.line entries.readings 1"
	if got := strings.Join(codes, "|"); got != want {
		t.Errorf("found %s\nwant  %s", got, want)
	}
	r, found, err := readReply(replies.sayingIn(2, "{"+replyHead+`,"sample":true,"rounds":[{"code":"sing","rule":"FREQ=DAILY"},{"code":"test","rule":"FREQ=DAILY"}],"plan":[{"change":"swap","species":"x","count":1}]}`))
	if err != nil || len(found) != 4 || len(r.Rounds) != 1 || len(r.Plan) != 0 || r.More["sample"] != "true" {
		t.Errorf("read %+v, %v, %v", r, found, err)
	}
	b, err := writeReply(r, nil)
	if err != nil || !strings.Contains(string(unzip(t, b)[partReply]), `"sample": true`) {
		t.Errorf("written again without what came: %v", err)
	}
}

// A shop's answers as JSON take what they lack from what was begun.
func TestProposals(t *testing.T) {
	begun := Reply{ID: "r1", Visit: "v1", Made: "2026-11-30T10:00", Zone: "+01:00", Shop: Shop{Name: "Corner shop"}}
	r, found, err := Proposals([]byte(`{"advice":{"en":"Wait a week."},"test":{"readings":[{"name":"ph","value":"7.0","unit":"ph"}]}}`), begun)
	if err != nil || len(found) > 0 || r.ID != "r1" || r.Visit != "v1" || r.Shop.Name != "Corner shop" || r.Test.At != begun.Made || r.Test.Zone != begun.Zone {
		t.Errorf("read %+v, %v, %v", r, found, err)
	}
	for body, want := range map[string]working.Key{"": CodeJSON, `[]`: CodeShape, `{"plan":[{"change":"add","species":"x","count":-1}]}`: CodeNumber} {
		if _, _, err := Proposals([]byte(body), begun); codeOf(t, err) != want {
			t.Errorf("%q: %v, want %s", body, err, want)
		}
	}
}

// Every file says which slip it is.
func TestFormatOf(t *testing.T) {
	for _, s := range shapes {
		b := s.with().bytes()
		if got, err := FormatOf(strings.NewReader(string(b)), int64(len(b))); got != s.format || err != nil {
			t.Errorf("%s: %q, %v", s.format, got, err)
		}
		for _, other := range shapes {
			if _, err := other.read(b); other.format != s.format && codeOf(t, err) != CodeOther {
				t.Errorf("%s read as %s: %v", s.format, other.format, err)
			}
		}
	}
	b := archive{pieces: []piece{file(partManifest, `{"format":"x"}`)}}.bytes()
	if _, err := FormatOf(strings.NewReader(string(b)), int64(len(b))); codeOf(t, err) != CodeOther {
		t.Error(err)
	}
	if _, err := FormatOf(strings.NewReader(""), 0); codeOf(t, err) != CodeNotSlip {
		t.Error(err)
	}
}

// The bytes depend on nothing but what is said. The hashes are this program's own
// first results, kept.
func TestBytesOfVisitsAndRepliesAreReproducible(t *testing.T) {
	v, _, err := readVisit(visits.with().bytes())
	if err != nil {
		t.Fatal(err)
	}
	r, _, err := readReply(replies.with().bytes())
	if err != nil {
		t.Fatal(err)
	}
	a, errA := writeVisit(v, nil)
	b, errB := writeReply(r, nil)
	if errA != nil || errB != nil {
		t.Fatal(errA, errB)
	}
	got := fmt.Sprintf("%s %s", hashOf(a), hashOf(b))
	const want = "e97e6f678fa85d6a0b6a9e4e4754eeb0a4f8fb79c02f22519a008a42d2464ae5 dc2540bb0eeb1a89f4af823b00d5d5a45bc0775e34e1c7fa3d0bdfbc9b16222f"
	if got != want {
		t.Errorf("the files' SHA-256 are %s, want %s", got, want)
	}
}
