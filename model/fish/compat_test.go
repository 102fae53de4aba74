package fish

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/quantity"
)

var lotForm = regexp.MustCompile(`^([a-z-]+)\*(\d+)(?:\(m(\d+)\))?$`)

// lotsOf reads "code*6(m2);code*3".
func lotsOf(t testing.TB, text string) []Lot {
	t.Helper()
	var out []Lot
	for _, part := range strings.Split(text, ";") {
		m := lotForm.FindStringSubmatch(part)
		if m == nil {
			t.Fatalf("%q is no lot", part)
		}
		l := Lot{Code: Code(m[1]), Count: int(drill.Number(t, m[2]))}
		if m[3] != "" {
			n := int(drill.Number(t, m[3]))
			l.Males = &n
		}
		out = append(out, l)
	}
	return out
}

var verdicts = map[string]Verdict{"compatible": Steady, "caution": Wait, "not compatible": No}

func weeks(x float64) *quantity.Time {
	y := quantity.Time(x * week)
	return &y
}

// TestCompatibilityCases: the verdict, and the rule that the reason names is among
// the gravest clashes.
func TestCompatibilityCases(t *testing.T) {
	rows := drill.Named(t, "fish/compat_cases.csv")
	if len(rows) != 20 {
		t.Errorf("%d cases, want 20", len(rows))
	}
	for _, r := range rows {
		holdsCase(t, r)
	}
}

var ruleInReason = regexp.MustCompile(`R(\d+)`)

// byNumber are the rules by their number in the reference sheet.
var byNumber = map[string]Rule{"1": Temperature, "2": Acidity, "3": Hardness, "4": Salt, "5": ColdAndWarm, "6": Eaten, "7": Fins, "8": GroupSize, "9": Rivals,
	"10": Aggression, "11": Alike, "12": TankSize, "13": Levels, "14": Sexes, "15": Pace, "16": OwnKindOnly, "17": Invertebrates, "18": TankAge, "19": Law}

func holdsCase(t *testing.T, r map[string]string) {
	t.Helper()
	h := Home{Tank: quantity.Litres(drill.Number(t, r["tank_l"])), Age: weeks(drill.Number(t, r["tank_age_weeks"]))}
	got, err := Judge(h, lotsOf(t, r["stock"]))
	if err != nil {
		t.Fatalf("case %s: %v", r["case_id"], err)
	}
	want, ok := verdicts[r["expected"]]
	if !ok || got.Verdict != want {
		t.Errorf("case %s, %s: %v, want %s: %s", r["case_id"], r["stock"], got.Verdict, r["expected"], told(got))
		return
	}
	for _, m := range ruleInReason.FindAllStringSubmatch(r["reason"], -1) {
		found := false
		for _, c := range got.Clashes {
			found = found || c.Rule == byNumber[m[1]] && c.Verdict != Steady
		}
		if !found {
			t.Errorf("case %s: no clash by R%s (%s): %s", r["case_id"], m[1], byNumber[m[1]], told(got))
		}
	}
	if q := regexp.MustCompile(`ratio (0\.\d+)`).FindStringSubmatch(r["reason"]); q != nil {
		for _, c := range got.Clashes {
			if c.Rule == Eaten && strconv.FormatFloat(c.Measured.X, 'f', 2, 64)+"0" != q[1]+"0" && c.Measured.X-drill.Number(t, q[1]) > 0.006 {
				t.Errorf("case %s: ratio %v, want %s", r["case_id"], c.Measured.X, q[1])
			}
		}
	}
}

func told(x Together) string {
	var b strings.Builder
	for _, c := range x.Clashes {
		b.WriteString(string(c.Says) + " " + c.Verdict.String() + " " + string(c.A) + " " + string(c.B) + "; ")
	}
	return b.String()
}
