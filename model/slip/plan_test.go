package slip

import (
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/care"
)

const planned = `{"units":"us","edition":2,"plan":[{"code":"test","rule":"FREQ=WEEKLY;BYDAY=SA","at":"10:00","why":1},{"code":"hum","rule":"x","at":"y"},` +
	`{"code":"look","rule":"FREQ=FORTNIGHTLY","at":"08:00"}],"feeding":{"share":{"value":"1.5","unit":"percent"},"fasting":["SU"],"food":"flakes"},"marks":["stand_floor","roof"]}`

// What a later version adds to a plan is left out and named; what is understood is
// given. In a profile of this version, a rule that is none refuses the whole.
func TestPlanOfALaterVersion(t *testing.T) {
	if _, _, err := read(saying(planned)); codeOf(t, err) != CodePlan {
		t.Errorf("this version: %v", err)
	}
	p, found, err := read(sayingIn(2, planned))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range found {
		got = append(got, string(f.Code)+" "+f.Text["Name"])
	}
	want := []string{"find.slip.newer ", "find.slip.member plan.why", "find.slip.round hum", "find.slip.round look", "find.slip.member feeding.food", "find.slip.member marks.roof"}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("named:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if len(p.Plan) != 1 || p.Plan[0].Code != "test" || p.Edition != 2 || p.Feeding.Share.Number != "1.5" || len(p.Feeding.Fasting) != 1 ||
		p.Feeding.Fasting[0] != time.Sunday || len(p.Marks) != 1 || p.Marks[0] != care.StandFloor {
		t.Errorf("read %+v", p)
	}
	late, _, err := read(sayingIn(2, `{"units":"us","feeding":{"fasting":["XX"]}}`))
	if err != nil || !late.Feeding.IsZero() {
		t.Errorf("feeding of a later version: %+v %v", late.Feeding, err)
	}
}

// The print is that of what is said: neither maker nor edition changes it, and any
// word does.
func TestPrint(t *testing.T) {
	print := func(p Profile) string {
		s, err := p.Print()
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	p := Profile{Units: "us", Tank: "a", Edition: 1}
	same := p
	same.Edition, same.MadeBy = 7, Maker{"x", "y"}
	other := p
	other.Notes = map[string]string{"en": "b"}
	if print(p) != print(same) || print(p) == print(other) {
		t.Error("the print does not tell what is said")
	}
	if _, err := (Profile{}).Print(); err == nil {
		t.Error("a profile that cannot be has a print")
	}
}
